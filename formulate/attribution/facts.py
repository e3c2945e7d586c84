"""Lines and matches to the facts that rules look at, each with its reason."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import partial
from typing import NamedTuple

from formulate.catalog.records import IngredientRecord, PropertyRecord, RoleRecord
from formulate.catalog.store import Catalog
from formulate.domain.line import Line, Match
from formulate.domain.place import Citation
from formulate.domain.reason import Ledger
from formulate.domain.vocabulary import role_label
from formulate.identity.forms import without_function
from formulate.rules.engine import KnownRole, LineFacts

PROPERTY_FACTS: dict[str, str] = {
    "boiling_point": "boiling_point_c",
    "hlb": "hlb",
    "pka": "pka",
    "melting_point": "melting_point_c",
}
FATE_WORDS: dict[str, str] = {
    "leaves": "leaves by evaporation",
    "stays": "stays on the surface",
    "depends": "leaves or stays by its grade",
    "reacts": "reacts to something that stays",
}


SLOW = "leaves slowly, over days of drying or longer"
"""What 'depends' means for a single substance: it has no grades."""


def fate_words(ingredient: IngredientRecord) -> str:
    """What an ingredient does on an open surface, in words."""
    if ingredient.fate == "depends" and ingredient.kind == "substance":
        return SLOW
    return FATE_WORDS[ingredient.fate]


class Reasons(dict[str, str]):
    """Reasons of facts by name, made when first asked for: most facts of a line are looked at by no rule that fires."""

    def __init__(self, ready: Mapping[str, str]) -> None:
        super().__init__(ready)
        self.makers: dict[str, Callable[[], str]] = {}

    def __missing__(self, fact: str) -> str:
        self[fact] = reason = self.makers[fact]()
        return reason


def line_facts(
    lines: Sequence[Line],
    matches: Sequence[Match],
    identities: Sequence[str],
    stated: Sequence[str | None],
    ledger: Ledger,
    catalog: Catalog,
) -> tuple[LineFacts, ...]:
    """Facts of every line. ``identities`` and ``stated`` are the reasons of each match and each printed amount."""
    return tuple(
        _facts(line, match, identity, amount, len(lines), ledger, catalog)
        for line, match, identity, amount in zip(lines, matches, identities, stated, strict=True)
    )


def _facts(
    line: Line, match: Match, identity: str, amount: str | None, count: int, ledger: Ledger, catalog: Catalog
) -> LineFacts:
    ingredient = catalog.ingredient(match.ingredient) if match.ingredient else None
    record = catalog.classes[match.class_]
    numbers, why = _printed(line, match, identity, amount, count, ledger)
    why["class"] = _class_reason(match, ingredient, record.title, identity, ledger)
    words: dict[str, str] = {}
    known: tuple[KnownRole, ...] = ()
    if ingredient is not None:
        for fact in facts_of(ingredient, match, catalog):
            if isinstance(fact.value, str):
                words[fact.name] = fact.value
            else:
                numbers[fact.name] = fact.value
            why.makers[fact.name] = partial(_based, ingredient, fact, identity, ledger)
        known = tuple(_known(ingredient, role, ledger) for role in catalog.roles(ingredient.id))
    estimated = _given(match, numbers, why)
    return LineFacts(
        position=line.position,
        name=shown_name(line, ingredient),
        ingredient=match.ingredient,
        class_line=record.line,
        class_title=record.title,
        certainty=match.confidence if match.how == "spelling" else match.class_confidence,
        words=words,
        numbers=numbers,
        known=known,
        told=_told(line, identity, ledger, catalog),
        why=why,
        estimated=estimated,
    )


def _printed(
    line: Line, match: Match, identity: str, amount: str | None, count: int, ledger: Ledger
) -> tuple[dict[str, float], Reasons]:
    """Facts that stand in the list itself: place, printed amount, figures in the name."""
    numbers: dict[str, float] = {"position": line.position, "from_end": count - line.position, "lines": count}
    why = Reasons({"identity": identity})
    placed = partial(
        ledger.add,
        "calculated",
        "It is line {position} of {lines}.",
        {"position": line.position, "lines": count},
        (identity,),
    )
    why.makers.update(position=placed, from_end=placed, lines=placed)
    if line.stated is not None and amount is not None:
        for fact, value in (("stated_low", line.stated.low), ("stated_high", line.stated.high)):
            if value is not None:
                numbers[fact], why[fact] = value, amount
    for fact, number, unit in (("viscosity_mm2_s", match.viscosity_mm2_s, " mm2/s"), ("number", match.number, "")):
        if number is not None:
            numbers[fact] = number
            says = "The name states {number:g}{unit}."
            why.makers[fact] = partial(ledger.add, "calculated", says, {"number": number, "unit": unit}, (identity,))
    return numbers, why


def _given(match: Match, numbers: dict[str, float], why: Reasons) -> dict[str, tuple[float, float]]:
    """Facts from a structure that the line gives: counts join ``numbers``, ranges of estimates are returned."""
    estimated: dict[str, tuple[float, float]] = {}
    for one in match.properties:
        fact = PROPERTY_FACTS.get(one.property, one.property)
        if one.low is None or one.high is None:
            continue
        if one.origin == "estimated":
            estimated[fact] = (one.low, one.high)
        else:
            numbers[fact] = one.low
        why[fact] = one.why
    return estimated


def _told(line: Line, identity: str, ledger: Ledger, catalog: Catalog) -> tuple[KnownRole, ...]:
    """What the list itself says the line is for, where that word names a role."""
    rest = without_function(line.name, catalog)
    function = line.function or (line.name.removeprefix(rest).strip(" -:,|()") if rest != line.name else "")
    role = catalog.role_of_function(function) if function else None
    if role is None:
        return ()
    values = {"function": function, "role": role_label(role)}
    says = "The list itself calls it “{function}”: {role}."
    return (KnownRole(role, "main", ledger.add("pasted", says, values, (identity,), place=line.place)),)


def _known(ingredient: IngredientRecord, role: RoleRecord, ledger: Ledger) -> KnownRole:
    values = {"name": ingredient.name, "role": role_label(role.role)}
    why = ledger.add("looked-up", "{name} is known as {role}.", values, citations=(role.citation,))
    return KnownRole(role.role, role.strength, why)


def shown_name(line: Line, ingredient: IngredientRecord | None) -> str:
    """The name by which an answer speaks of a line: the dataset's, else as it was printed (at most 60 characters)."""
    name = ingredient.name if ingredient is not None else line.name
    return name if len(name) <= 60 else name[:59] + "…"


def _class_reason(match: Match, ingredient: IngredientRecord | None, title: str, identity: str, ledger: Ledger) -> str:
    if ingredient is None:
        return identity
    filed = ledger.add(
        "looked-up",
        "{name} is of the class {title}.",
        {"name": ingredient.name, "title": title},
        citations=(ingredient.citation,),
    )
    return ledger.add(
        "calculated",
        "Here {name} stands for the class {title}.",
        {"name": ingredient.name, "title": title},
        because=(identity, filed),
    )


def _based(ingredient: IngredientRecord, fact: Fact, identity: str, ledger: Ledger) -> str:
    """The reason of a fact of the dataset: the record that says so, for what the line was identified as."""
    values = {"name": ingredient.name, **fact.values}
    record = ledger.add("looked-up", fact.template, values, citations=(fact.citation,))
    return ledger.add("calculated", fact.template, values, because=(identity, record))


class Fact(NamedTuple):
    """A fact of the dataset about an ingredient: its value, the sentence that says it, and the source."""

    name: str
    value: str | float
    template: str
    values: dict[str, str | float]
    citation: Citation


def facts_of(ingredient: IngredientRecord, match: Match, catalog: Catalog) -> Iterator[Fact]:
    """What the dataset says of an ingredient, as far as rules may look at it."""
    yield Fact("kind", ingredient.kind, "{name} is a {kind}.", {"kind": ingredient.kind}, ingredient.citation)
    if ingredient.charge:
        values: dict[str, str | float] = {"charge": ingredient.charge}
        yield Fact("charge", ingredient.charge, "{name} is {charge}.", values, ingredient.citation)
    computed = Citation.model_construct(source="rdkit", at=f"from {ingredient.smiles}")
    for fact, number in ingredient.structure.items():
        values = {"fact": fact.replace("_", " "), "number": number}
        yield Fact(fact, number, "the structure of {name} gives {fact} = {number:g}", values, computed)
    for property_, fact in PROPERTY_FACTS.items():
        rows = catalog.properties(ingredient.id, property_)
        middle = rows[0].middle if rows else None
        if middle is not None:
            values = {"property": property_.replace("_", " "), "shown": rows[0].shown()}
            yield Fact(fact, middle, "{name}: {property} {shown}.", values, rows[0].citation)
    flash = lowest(catalog.properties(ingredient.id, "flash_point"))
    if flash is not None:
        says = "{name}: lowest flash point given {shown}."
        yield Fact("flash_point_c", flash.least, says, {"shown": flash.shown()}, flash.citation)
    fate, template, values, citation = fate_of(ingredient, match, catalog)
    yield Fact("fate", fate, template, values, citation)


def lowest(rows: Sequence[PropertyRecord]) -> PropertyRecord | None:
    """The row with the lowest value: of rival flash points the severe one counts."""
    return min((row for row in rows if row.middle is not None), key=lambda row: row.least, default=None)


def fate_of(
    ingredient: IngredientRecord, match: Match, catalog: Catalog
) -> tuple[str, str, dict[str, str | float], Citation]:
    """Whether an ingredient leaves or stays, with the sentence that says why and its source.

    A viscosity printed in the name decides for silicones; else a boiling point or vapour pressure
    stands for 'leaves'; else the entry of the dataset.
    """
    if match.viscosity_mm2_s is not None:
        by_viscosity = catalog.fate_by_viscosity(ingredient.class_, match.viscosity_mm2_s)
        if by_viscosity is not None:
            fate, citation = by_viscosity
            return (
                fate,
                "{name} of {viscosity:g} mm2/s {fate}.",
                {"viscosity": match.viscosity_mm2_s, "fate": FATE_WORDS[fate]},
                citation,
            )
    for property_ in ("boiling_point", "vapour_pressure"):
        rows: list[PropertyRecord] = catalog.properties(ingredient.id, property_)
        if rows and ingredient.fate == "leaves":
            return (
                "leaves",
                "{name} {fate}: {property} {shown}.",
                {
                    "fate": FATE_WORDS["leaves"],
                    "property": property_.replace("_", " "),
                    "shown": rows[0].shown(),
                },
                rows[0].citation,
            )
    return ingredient.fate, "{name} {fate}.", {"fate": fate_words(ingredient)}, ingredient.citation
