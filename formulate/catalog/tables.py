"""The tables of ``data_public/``: the shape of each row, reading and validation.

A broken row raises :class:`~formulate.errors.DataError` naming file, row and column.
"""

from __future__ import annotations

import csv
import tomllib
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Annotated, Any, Literal, NamedTuple, TypeVar

from pydantic import Field, ValidationError

from formulate.catalog.cells import Cas, Ec, Fate, Filled, Number, OfIngredient, Role, Slug, Sourced
from formulate.catalog.law import LAW, Law, law_checks
from formulate.catalog.properties import fault
from formulate.catalog.quantities import QUANTITIES, Quantities, quantity_checks
from formulate.domain.model import Model
from formulate.domain.vocabulary import ROLES, TOP_CLASSES
from formulate.errors import DataError


class ClassRow(Model):
    """A class of the tree; a class without parent is one that answers show."""

    class_: Slug = Field(alias="class")
    parent: str
    title: Filled
    usual_roles: str
    definition: Filled


class IngredientRow(Sourced):
    """One ingredient; ``source`` and ``at`` say where its identity was seen."""

    id: Slug
    name: Filled
    inci: str
    kind: Literal["substance", "polymer", "mixture", "natural", "dispersion"]
    cas: Cas
    ec: Ec
    class_: Slug = Field(alias="class")
    charge: Literal["anionic", "cationic", "nonionic", "amphoteric", "none", ""]
    fate: Fate
    smiles: str
    structure_of: Literal["molecule", "repeat-unit", "representative", ""]
    note: str


class NameRow(OfIngredient):
    """A further name, or a further CAS or EC number, of an ingredient."""

    name: Filled
    kind: Literal["common", "inci", "iupac", "synonym", "label", "generic-trade", "pattern", "cas", "ec"]
    language: Literal["", "en", "de", "fr", "es", "it", "nl", "pl", "ru", "zh", "la"]


class PropertyRow(OfIngredient):
    """One value of one property from one source; a range has ``value_min`` and ``value_max`` and no value."""

    property: str
    value: Number
    value_min: Number
    value_max: Number
    unit: Filled
    unc: Number
    origin: Literal["measured", "tabulated", "computed", "defined", "estimated", "from-memory"]
    conditions: str
    via: str
    note: str


class UnifacRow(OfIngredient):
    """The groups of an ingredient under one UNIFAC model, ``2 CH3[1]; 1 OH[14]``; blank where the note says why not."""

    model: Literal["unifac", "dortmund"]
    groups: Annotated[str, Field(pattern=r"^(\d{1,2} [^\s;]{1,12}\[\d{1,3}\](; |$))*$")]
    note: str


class SupplyRow(OfIngredient):
    """How an ingredient is usually sold to a formulator: solids as mass fraction."""

    form: Filled
    solids_min: Number
    solids_max: Number
    unit: Literal["mass fraction"]
    note: str


class RoleRow(OfIngredient):
    """A role the ingredient is known for, with its source."""

    role: Role
    strength: Literal["main", "side"]
    note: str


class ClassWordRow(Sourced):
    """A phrase that names a class only, or that withholds."""

    phrase: Filled
    class_: Slug = Field(alias="class")
    how: Literal["class-only", "withheld"]
    language: str
    note: str


class WordFormRow(Sourced):
    """A part of an unknown name that betrays its class; the first fitting row counts.

    ``fires`` is a name in which it is the row that fires, ``spares`` one in which it must not.
    """

    form: Filled
    where: Literal["suffix", "contains", "prefix", "word", "parts", "end", "whole"]
    class_: Slug = Field(alias="class")
    certainty: float = Field(gt=0, le=1)
    fires: Filled
    spares: Filled
    note: str


class HintRow(Model):
    """A word in the text around a list that says how the product is used, or what it claims."""

    word: Filled
    hint: Literal["form", "substrate", "headline", "claim"]
    value: Filled
    note: str


class NeighbourRow(Model):
    """A part of a name that carries the chemistry: no spelling is repaired across it.

    ``where``: anywhere in a word, or only at its end. Parts of one ``group`` are taken for each other most easily.
    """

    part: Filled
    where: Literal["anywhere", "ending"]
    group: Filled
    note: str


class FillerRow(Model):
    """A word that describes without naming; ``tells`` kind: beside a substance it tells another one of its kind."""

    word: Filled
    tells: Literal["", "kind"]
    note: str


class FunctionRow(Model):
    """A word by which lists tell a function, and the role it names; blank where it says nothing definite."""

    word: Filled
    role: str
    note: str


class StructureClassRow(Sourced):
    """A pattern in a structure that betrays a class; the first fitting row counts.

    ``least_chain`` carbons in the longest chain, ``most_heavy`` atoms other than hydrogen; blank is no limit.
    """

    smarts: Filled
    least_chain: Number
    most_heavy: Number
    class_: Slug = Field(alias="class")
    certainty: float = Field(gt=0, le=1)
    note: str


class ViscosityRow(Sourced):
    """Whether a silicone leaves, by viscosity at 25 C: up to (and with) this many mm2/s; blank is no limit."""

    class_: Slug = Field(alias="class")
    up_to_mm2_s: Number
    fate: Fate


class SectionTitleRow(Sourced):
    """A heading of a section of a safety data sheet, or the word before its number (kind ``word``).

    A heading that ``stands`` numbered opens a section only after a number.
    """

    kind: Filled
    language: Filled
    title: Filled
    stands: Literal["alone", "numbered"]
    note: str


class RuleWeightRow(Model):
    """A weight of a rule, of its main use or of a side use on record, fitted on ``rows`` declared functions."""

    rule: Slug
    part: Literal["main", "side"]
    judged: float = Field(ge=-6, le=6)
    fitted: float = Field(ge=-6, le=6)
    rows: int = Field(gt=0)


class HeadlineRow(Sourced):
    """What a word on the front promises, which ingredients would keep it, and what they can and cannot do."""

    headline: Slug
    title: Filled
    classes: str
    ingredients: str
    can: Filled
    cannot: Filled
    hidden: Filled


class SourceRow(Model):
    """A source; ``read_as`` says what was actually read."""

    title: Filled
    kind: Filled
    read_as: Literal["original", "excerpt", "second-hand", "none"]
    publisher: str = ""
    year: int | None = None
    doi: str = ""
    url: str = ""
    licence: str = ""
    accessed: str = ""
    note: str = ""


class Tables(NamedTuple):
    """All tables, validated row by row and against each other."""

    classes: list[ClassRow]
    ingredients: list[IngredientRow]
    names: list[NameRow]
    properties: list[PropertyRow]
    unifac: list[UnifacRow]
    supply: list[SupplyRow]
    roles: list[RoleRow]
    class_words: list[ClassWordRow]
    word_forms: list[WordFormRow]
    hints: list[HintRow]
    neighbours: list[NeighbourRow]
    fillers: list[FillerRow]
    functions: list[FunctionRow]
    viscosity: list[ViscosityRow]
    structures: list[StructureClassRow]
    headlines: list[HeadlineRow]
    law: Law
    quantities: Quantities
    section_titles: list[SectionTitleRow]
    sources: dict[str, SourceRow]
    rules: list[dict[str, Any]]


Row = TypeVar("Row", bound=Model)


def read_rows(path: Path, shape: type[Row]) -> list[Row]:
    """Rows of one CSV file. Raises DataError for the first broken row, naming file, row and column."""
    try:
        with path.open(encoding="utf-8", newline="") as stream:
            reader = csv.DictReader(stream, strict=True, restkey="surplus")
            return [_row(shape, cells, path, number) for number, cells in enumerate(reader, start=2)]
    except (OSError, csv.Error, UnicodeDecodeError) as error:
        raise _broken(path, 0, "file", str(error)) from None


def _row(shape: type[Row], cells: dict[str, Any], path: Path, number: int) -> Row:
    try:
        return shape.model_validate(cells)
    except ValidationError as error:
        first = error.errors()[0]
        column = str(first["loc"][0]) if first["loc"] else "?"
        raise _broken(path, number, column, f"{first['msg']}, found {cells.get(column)!r}") from None


def _broken(path: Path, row: int, column: str, why: str) -> DataError:
    return DataError(
        f'A row of the dataset is broken: {path.name} row {row}, column "{column}".',
        f"{path} row {row}",
        f"{why}.",
        "correct the cell; data_public/README.md says what each column holds",
    )


def read_sources(path: Path) -> dict[str, SourceRow]:
    """Sources by key."""
    found: dict[str, SourceRow] = {}
    try:
        entries = tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
        raise _broken(path, 0, "file", str(error)) from None
    for number, (key, cells) in enumerate(entries.items(), start=1):
        found[key] = _row(SourceRow, {k: str(v) if k == "accessed" else v for k, v in cells.items()}, path, number)
    return found


def read_rule_files(folder: Path) -> list[dict[str, Any]]:
    """Rule files as plain dictionaries, in order of file name; their shape is checked by the rules room."""
    rules = []
    for path in sorted(folder.rglob("*.toml")):
        try:
            rule = tomllib.loads(path.read_text(encoding="utf-8"))
        except (tomllib.TOMLDecodeError, UnicodeDecodeError) as error:
            raise _broken(path, 0, "file", str(error)) from None
        if rule.get("id") != path.stem:
            raise _broken(path, 0, "id", f"the file is named {path.stem}, the rule {rule.get('id')!r}")
        rules.append(rule)
    return rules


def with_weights(rules: list[dict[str, Any]], weights: list[RuleWeightRow]) -> list[dict[str, Any]]:
    """Rules with their fitted weights beside the judged ones.

    A weight fitted beside another judged value than the rule now has is left out: the person who changed it meant it.
    """
    found: dict[str, dict[str, Any]] = {}
    for row in weights:
        side = "side_" if row.part == "side" else ""
        found.setdefault(row.rule, {})[f"{side}judged"] = row.judged
        found[row.rule] |= {f"{side}log_odds": row.fitted, f"{side}rows": row.rows}
    made = []
    for rule in rules:
        fitted = dict(found.get(rule["id"], {}))
        for side in ("", "side_"):
            if fitted.pop(f"{side}judged", None) != rule.get("then", {}).get(f"{side}log_odds"):
                fitted.pop(f"{side}log_odds", None)
                fitted.pop(f"{side}rows", None)
        made.append({**rule, "fitted": fitted} if fitted else rule)
    return made


def read_tables(root: Path) -> Tables:
    """Read and check the whole dataset under ``root``. Raises DataError."""
    tables = Tables(
        read_rows(root / "classes.csv", ClassRow),
        read_rows(root / "ingredients.csv", IngredientRow),
        read_rows(root / "names.csv", NameRow),
        read_rows(root / "properties.csv", PropertyRow),
        read_rows(root / "unifac_groups.csv", UnifacRow),
        read_rows(root / "supply_forms.csv", SupplyRow),
        read_rows(root / "roles.csv", RoleRow),
        read_rows(root / "class_words.csv", ClassWordRow),
        read_rows(root / "word_forms.csv", WordFormRow),
        read_rows(root / "hint_words.csv", HintRow),
        read_rows(root / "neighbours.csv", NeighbourRow),
        read_rows(root / "filler_words.csv", FillerRow),
        read_rows(root / "function_words.csv", FunctionRow),
        read_rows(root / "fate_by_viscosity.csv", ViscosityRow),
        read_rows(root / "structure_classes.csv", StructureClassRow),
        read_rows(root / "headlines.csv", HeadlineRow),
        Law._make(read_rows(root / f"{name}.csv", shape) for name, shape in LAW.items()),
        Quantities._make(read_rows(root / f"{name}.csv", shape) for name, shape in QUANTITIES.items()),
        read_rows(root / "section_titles.csv", SectionTitleRow),
        read_sources(root / "sources.toml"),
        with_weights(read_rule_files(root / "rules"), read_rows(root / "rule_weights.csv", RuleWeightRow)),
    )
    for file, row, column, why in _cross_checks(tables):
        raise _broken(root / file, row, column, why)
    return tables


Broken = tuple[str, int, str, str]
"""File, row, column, and why: one broken row."""


def _cross_checks(tables: Tables) -> Iterator[Broken]:
    """Rows that are well-formed but point at something that is not there."""
    classes = {row.class_ for row in tables.classes}
    for number, row in enumerate(tables.classes, start=2):
        if row.parent and row.parent not in classes:
            yield "classes.csv", number, "parent", f"no class {row.parent!r}"
        if not row.parent and row.class_ not in TOP_CLASSES:
            yield "classes.csv", number, "class", "a class without parent must be one of the contract"
    seen: set[str] = set()
    for number, ingredient in enumerate(tables.ingredients, start=2):
        if ingredient.id in seen:
            yield "ingredients.csv", number, "id", f"{ingredient.id!r} stands twice"
        seen.add(ingredient.id)
    yield from _unknown_ingredients(tables, seen)
    yield from _odd_properties(tables)
    yield from _unknown_sources(tables)
    yield from _unknown_headlines(tables, seen, classes)
    yield from _unknown_classes(tables, classes)
    yield from law_checks(tables.law, seen, classes, set(tables.sources))
    yield from quantity_checks(tables.quantities, seen, classes, set(tables.sources))


def _unknown_ingredients(tables: Tables, known: set[str]) -> Iterator[Broken]:
    files: dict[str, Sequence[OfIngredient]] = {
        "names.csv": tables.names,
        "properties.csv": tables.properties,
        "unifac_groups.csv": tables.unifac,
        "supply_forms.csv": tables.supply,
        "roles.csv": tables.roles,
    }
    for file, rows in files.items():
        for number, row in enumerate(rows, start=2):
            if row.ingredient not in known:
                yield file, number, "ingredient", f"no ingredient {row.ingredient!r}"


def _odd_properties(tables: Tables) -> Iterator[Broken]:
    """Rows of unknown properties, in a wrong unit, or with a number that the property cannot hold."""
    for number, row in enumerate(tables.properties, start=2):
        wrong = fault(row.property, row.unit, row.value, row.value_min, row.value_max)
        if wrong is not None:
            yield "properties.csv", number, *wrong


def _unknown_sources(tables: Tables) -> Iterator[Broken]:
    files: dict[str, Sequence[Sourced]] = {
        "ingredients.csv": tables.ingredients,
        "names.csv": tables.names,
        "properties.csv": tables.properties,
        "unifac_groups.csv": tables.unifac,
        "supply_forms.csv": tables.supply,
        "roles.csv": tables.roles,
        "class_words.csv": tables.class_words,
        "word_forms.csv": tables.word_forms,
        "fate_by_viscosity.csv": tables.viscosity,
        "structure_classes.csv": tables.structures,
        "headlines.csv": tables.headlines,
        "section_titles.csv": tables.section_titles,
    }
    for file, rows in files.items():
        for number, row in enumerate(rows, start=2):
            if row.source not in tables.sources:
                yield file, number, "source", f"no source {row.source!r}"
    for rule in tables.rules:
        for cited in rule.get("sources", []):
            if cited.get("id") not in tables.sources:
                yield f"rules/{rule['id']}.toml", 0, "sources", f"no source {cited.get('id')!r}"


def _unknown_headlines(tables: Tables, ingredients: set[str], classes: set[str]) -> Iterator[Broken]:
    """Headlines that name classes or ingredients, and hints that name headlines, which are not there."""
    for number, row in enumerate(tables.headlines, start=2):
        for column, named, known in (("classes", row.classes, classes), ("ingredients", row.ingredients, ingredients)):
            for name in filter(None, named.split(";")):
                if name not in known:
                    yield "headlines.csv", number, column, f"no such name {name!r}"
    promised = {row.headline for row in tables.headlines} | {"none"}
    for number, hint in enumerate(tables.hints, start=2):
        if hint.hint == "headline" and hint.value not in promised:
            yield "hint_words.csv", number, "value", f"no headline {hint.value!r}"
    for number, function in enumerate(tables.functions, start=2):
        if function.role and function.role not in ROLES:
            yield "function_words.csv", number, "role", f"no role {function.role!r}"


def _unknown_classes(tables: Tables, classes: set[str]) -> Iterator[Broken]:
    files: dict[str, list[str]] = {
        "ingredients.csv": [row.class_ for row in tables.ingredients],
        "class_words.csv": [row.class_ for row in tables.class_words],
        "word_forms.csv": [row.class_ for row in tables.word_forms],
        "fate_by_viscosity.csv": [row.class_ for row in tables.viscosity],
        "structure_classes.csv": [row.class_ for row in tables.structures],
    }
    for file, named in files.items():
        for number, name in enumerate(named, start=2):
            if name not in classes:
                yield file, number, "class", f"no class {name!r}"
