"""What law and practice say of an ingredient: classification, exposure limits, restrictions, usual amounts."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Annotated, Literal, NamedTuple

from pydantic import AfterValidator, Field

from formulate.catalog.cells import AtLeastOne, Day, Filled, OfIngredient, Positive, Share, Slug, Sourced
from formulate.domain.model import Model
from formulate.domain.vocabulary import JURISDICTIONS


def _jurisdiction(value: str) -> str:
    if value not in JURISDICTIONS:
        raise ValueError("not a jurisdiction of the vocabulary")
    return value


def _slug_or_blank(value: str) -> str:
    if value and value != value.strip().lower():
        raise ValueError("an id is lower-case words joined by hyphens, or blank")
    return value


Jurisdiction = Annotated[str, AfterValidator(_jurisdiction)]
Id = Annotated[str, AfterValidator(_slug_or_blank)]
Statement = Annotated[str, Field(pattern=r"^((H[2-4]\d\d[A-Za-z]{0,2})|(EUH\d{3}[A-Z]?))?$")]
Fraction = Annotated[float, Field(ge=0, le=1)]
Origin = Literal["measured", "tabulated", "computed", "defined", "estimated", "from-memory"]


class Dated(Sourced):
    """A row of law: from when it applies, when it was checked, and up to when the copy that was read knows the law."""

    valid_from: Day
    checked_on: Annotated[Day, Field(min_length=10)]
    as_of: Day
    via: str
    note: str


class HazardRow(Dated, OfIngredient):
    """One hazard class of a harmonised entry, or the statement that there is no entry.

    ``applies_to`` is substance (the classification itself) or mixture (a class that only a concentration limit
    names). Limits are mass fractions: at least ``limit_low`` (above it if ``limit_low_open``), below ``limit_high``.
    """

    jurisdiction: Jurisdiction
    status: Literal["entry", "no-entry", "annulled", "changed"]
    applies_to: Literal["substance", "mixture", ""]
    hazard_class: str
    category: str
    statement: Statement
    qualifier: str
    mark: Literal["", "*", "**", "***", "****", "* **"]
    limit_low: Share
    limit_high: Share
    limit_low_open: Literal["yes", ""]
    m_factor: AtLeastOne
    ate: Positive
    ate_unit: Literal["mg/kg bw", "mg/L vapour", "mg/L dust or mist", "ppm gas", ""]
    notes: str
    form: str
    index_number: Annotated[str, Field(pattern=r"^(\d{3}-\d{3}-\d{2}-[\dX])?$")]
    act: str
    valid_to: Day


class ExposureLimitRow(Dated, OfIngredient):
    """One limit in the air of a workplace; ``skin`` blank is not stated, not 'no'."""

    jurisdiction: Jurisdiction
    limit: Literal["NIOSH REL", "NIOSH IDLH", "OSHA PEL", "EU IOELV", "UK WEL"]
    average: Literal["8 h", "10 h", "15 min", "10 min", "30 min", "ceiling", "immediate"]
    ppm: Positive
    mg_m3: Positive
    fraction: Literal["", "total", "inhalable", "respirable", "fume", "vapour", "mist"]
    skin: Literal["yes", ""]
    origin: Origin


class RestrictionRow(Dated):
    """A dated rule on an ingredient or a class; ``threshold`` is a mass fraction, blank where the rule has none."""

    restriction: Slug
    ingredient: Id
    class_: Id = Field(alias="class")
    jurisdiction: Jurisdiction
    area: str
    kind: Literal["restricted", "prohibited", "candidate", "exempt", "must-declare", "prohibited-in-cosmetics"]
    restricts: Filled
    threshold: Share
    act: Filled


class UseLevelRow(Sourced):
    """How much is usual in a product as it is used: recorded, and corrected (log-normal, see the README).

    Rows without records are the custom of the trade.
    """

    ingredient: Id
    class_: Id = Field(alias="class")
    product_type: Slug
    ingredients: int = Field(ge=0)
    records: int = Field(ge=0)
    values: int = Field(ge=0)
    recorded_p10: Share
    recorded_median: Share
    recorded_p90: Share
    low: Fraction
    typical: Fraction
    high: Fraction
    log_sd: float = Field(gt=0)
    origin: Origin
    via: str
    note: str


class ProductTypeRow(Sourced):
    """A kind of product, and the categories of the record collection that were counted to it."""

    product_type: Slug
    title: Filled
    substrates: str
    categories: str
    note: str


class LegalActRow(Sourced):
    """An act that made or changed harmonised entries, and from when it applies."""

    act: Filled
    title: Filled
    applies_from: Day


class HazardNoteRow(Sourced):
    """What a note or mark beside a harmonised entry means, in our words."""

    sign: Filled
    meaning: Filled


class Law(NamedTuple):
    """The tables of this room, by the name of their file."""

    hazards: Sequence[HazardRow]
    exposure_limits: Sequence[ExposureLimitRow]
    restrictions: Sequence[RestrictionRow]
    use_levels: Sequence[UseLevelRow]
    product_types: Sequence[ProductTypeRow]
    legal_acts: Sequence[LegalActRow]
    hazard_notes: Sequence[HazardNoteRow]


LAW: dict[str, type[Model]] = {
    "hazards": HazardRow,
    "exposure_limits": ExposureLimitRow,
    "restrictions": RestrictionRow,
    "use_levels": UseLevelRow,
    "product_types": ProductTypeRow,
    "legal_acts": LegalActRow,
    "hazard_notes": HazardNoteRow,
}
"""Row model of each table."""

Broken = tuple[str, int, str, str]


def law_checks(law: Law, ingredients: set[str], classes: set[str], sources: set[str]) -> Iterator[Broken]:
    """Rows that are well-formed but point at something that is not there, or say two things at once."""
    acts = {row.act for row in law.legal_acts}
    types = {row.product_type for row in law.product_types} | {"any"}
    signs = {row.sign for row in law.hazard_notes}
    for file, rows in zip(Law._fields, law, strict=True):
        for number, row in enumerate(rows, start=2):
            if row.source not in sources:
                yield f"{file}.csv", number, "source", f"no source {row.source!r}"
            named, class_ = getattr(row, "ingredient", ""), getattr(row, "class_", "")
            if named and named not in ingredients:
                yield f"{file}.csv", number, "ingredient", f"no ingredient {named!r}"
            if class_ and class_ not in classes:
                yield f"{file}.csv", number, "class", f"no class {class_!r}"
    for number, hazard in enumerate(law.hazards, start=2):
        yield from (("hazards.csv", number, *wrong) for wrong in _hazard_wrongs(hazard, acts, signs))
    for number, limit in enumerate(law.exposure_limits, start=2):
        if limit.ppm is None and limit.mg_m3 is None:
            yield "exposure_limits.csv", number, "ppm", "a limit needs ppm or mg_m3"
    for number, level in enumerate(law.use_levels, start=2):
        if bool(level.ingredient) == bool(level.class_):
            yield "use_levels.csv", number, "ingredient", "name an ingredient or a class, not both"
        if level.product_type not in types:
            yield "use_levels.csv", number, "product_type", f"no product type {level.product_type!r}"
        if not level.low <= level.typical <= level.high:
            yield "use_levels.csv", number, "typical", "low, typical and high are not in order"
    for number, restriction in enumerate(law.restrictions, start=2):
        if not restriction.ingredient and not restriction.class_:
            yield "restrictions.csv", number, "ingredient", "name an ingredient or a class"


def _hazard_wrongs(row: HazardRow, acts: set[str], signs: set[str]) -> Iterator[tuple[str, str]]:
    stated = bool(row.hazard_class)
    if stated != (row.status in {"entry", "annulled"}):
        yield "hazard_class", f"status {row.status!r} and a hazard class do not go together"
    if row.limit_low is not None and row.limit_high is not None and row.limit_low >= row.limit_high:
        yield "limit_low", "the lower limit is not below the upper one"
    if (row.ate is None) != (not row.ate_unit):
        yield "ate", "an estimate and its unit go together"
    for act in row.act.split("/"):
        if act and act not in acts:
            yield "act", f"no act {act!r}"
    for sign in (*row.notes.split(), *row.mark.split()):
        if sign not in signs:
            yield "notes", f"no meaning for {sign!r} in hazard_notes.csv"
