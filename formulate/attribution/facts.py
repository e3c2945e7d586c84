"""Lines and matches to the facts that rules look at, each with its reason."""

from __future__ import annotations

from collections.abc import Sequence

from formulate.catalog.records import IngredientRecord, PropertyRecord
from formulate.catalog.store import Catalog
from formulate.domain.line import Line, Match
from formulate.domain.place import Citation
from formulate.domain.reason import Ledger
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
    words: dict[str, str] = {}
    numbers: dict[str, float] = {"position": line.position, "from_end": count - line.position, "lines": count}
    why = {"identity": identity, "class": _class_reason(match, ingredient, record.title, identity, ledger)}
    placed = ledger.add(
        "calculated",
        "It is line {position} of {lines}.",
        {"position": line.position, "lines": count},
        because=(identity,),
    )
    why.update(position=placed, from_end=placed, lines=placed)
    if line.stated is not None and amount is not None:
        for fact, value in (("stated_low", line.stated.low), ("stated_high", line.stated.high)):
            if value is not None:
                numbers[fact], why[fact] = value, amount
    for fact, number in (("viscosity_mm2_s", match.viscosity_mm2_s), ("number", match.number)):
        if number is not None:
            numbers[fact] = number
            why[fact] = ledger.add(
                "calculated",
                "The name states {number:g}" + (" mm2/s." if fact[0] == "v" else "."),
                {"number": number},
                because=(identity,),
            )
    if ingredient is not None:
        _from_catalog(ingredient, match, words, numbers, why, ledger, catalog)
    known = (
        ()
        if ingredient is None
        else tuple(
            KnownRole(
                role.role,
                role.strength,
                ledger.add(
                    "looked-up",
                    "{name} is known as {role}.",
                    {"name": ingredient.name, "role": role.role.replace("-", " ")},
                    citations=(role.citation,),
                ),
            )
            for role in catalog.roles(ingredient.id)
        )
    )
    return LineFacts(
        line.position,
        shown_name(line, ingredient),
        match.ingredient,
        record.line,
        record.title,
        match.class_confidence,
        words,
        numbers,
        known,
        why,
    )


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


def _from_catalog(
    ingredient: IngredientRecord,
    match: Match,
    words: dict[str, str],
    numbers: dict[str, float],
    why: dict[str, str],
    ledger: Ledger,
    catalog: Catalog,
) -> None:
    identity = why["identity"]

    def based(fact: str, template: str, values: dict[str, str | float], citation: Citation) -> None:
        record = ledger.add("looked-up", template, {"name": ingredient.name, **values}, citations=(citation,))
        why[fact] = ledger.add("calculated", template, {"name": ingredient.name, **values}, because=(identity, record))

    words["kind"] = ingredient.kind
    based("kind", "{name} is a {kind}.", {"kind": ingredient.kind}, ingredient.citation)
    if ingredient.charge:
        words["charge"] = ingredient.charge
        based("charge", "{name} is {charge}.", {"charge": ingredient.charge}, ingredient.citation)
    for fact, number in ingredient.structure.items():
        numbers[fact] = number
        based(
            fact,
            "the structure of {name} gives {fact} = {number:g}",
            {"fact": fact.replace("_", " "), "number": number},
            Citation(source="rdkit", at=f"from {ingredient.smiles}"),
        )
    for property_, fact in PROPERTY_FACTS.items():
        rows = catalog.properties(ingredient.id, property_)
        middle = rows[0].middle if rows else None
        if middle is not None:
            numbers[fact] = middle
            based(
                fact,
                "{name}: {property} {shown}.",
                {"property": property_.replace("_", " "), "shown": rows[0].shown()},
                rows[0].citation,
            )
    flash = min(
        (row for row in catalog.properties(ingredient.id, "flash_point") if row.middle is not None),
        key=lambda row: row.low if row.low is not None else row.middle or 0.0,
        default=None,
    )
    if flash is not None:
        numbers["flash_point_c"] = flash.low if flash.low is not None else flash.middle or 0.0
        based("flash_point_c", "{name}: lowest flash point given {shown}.", {"shown": flash.shown()}, flash.citation)
    fate, template, values, citation = fate_of(ingredient, match, catalog)
    words["fate"] = fate
    based("fate", template, values, citation)


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
    return ingredient.fate, "{name} {fate}.", {"fate": FATE_WORDS[ingredient.fate]}, ingredient.citation
