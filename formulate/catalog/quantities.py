"""Tables from which amounts are worked out: disclosure rules, what counts towards a total, what a drying leaves."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Literal, NamedTuple

from pydantic import Field

from formulate.catalog.cells import Filled, Number, Slug, Sourced
from formulate.domain.model import Model


class DisclosureRuleRow(Sourced):
    """What a law says of a list: falling order above ``line`` (mass fraction), and whether it names everything."""

    rule: Slug
    title: Filled
    ordered: Literal["yes", "no"]
    line: Number
    complete: Literal["yes", "no"]
    says: Filled
    note: str


class CountsAsRow(Sourced):
    """What share of an ingredient or class counts towards a total; for a density the value itself, g/mL."""

    of: Slug
    kind: Literal["ingredient", "class"]
    total: Filled
    low: float = Field(ge=0)
    high: float = Field(ge=0)
    note: str


class RemainsRow(Sourced):
    """What share of a liquid that boils up to ``up_to_c`` (blank: above all others) is left after a drying."""

    up_to_c: Number
    drying: Literal["nonvolatile_110c", "nonvolatile_one_day"]
    low: float = Field(ge=0, le=1)
    high: float = Field(ge=0, le=1)
    note: str


class VolumeRow(Sourced):
    """Mass fraction of a solvent in water at a volume fraction of the mixture."""

    ingredient: Slug
    volume_fraction: float = Field(ge=0, le=1)
    mass_fraction: float = Field(ge=0, le=1)
    temperature_c: float
    note: str


class Quantities(NamedTuple):
    """The tables, in the order of ``QUANTITIES``."""

    disclosure_rules: Sequence[DisclosureRuleRow]
    counts_as: Sequence[CountsAsRow]
    remains_by_boiling_point: Sequence[RemainsRow]
    volume_to_mass: Sequence[VolumeRow]


QUANTITIES: dict[str, type[Model]] = {
    "disclosure_rules": DisclosureRuleRow,
    "counts_as": CountsAsRow,
    "remains_by_boiling_point": RemainsRow,
    "volume_to_mass": VolumeRow,
}
"""Row model of each table."""

Broken = tuple[str, int, str, str]


def quantity_checks(
    tables: Quantities, ingredients: set[str], classes: set[str], sources: set[str]
) -> Iterator[Broken]:
    """Rows that are well-formed but point at something that is not there, or whose limits are the wrong way round."""
    for file, rows in zip(Quantities._fields, tables, strict=True):
        for number, row in enumerate(rows, start=2):
            if row.source not in sources:
                yield f"{file}.csv", number, "source", f"no source {row.source!r}"
    for number, volume in enumerate(tables.volume_to_mass, start=2):
        if volume.ingredient not in ingredients:
            yield "volume_to_mass.csv", number, "ingredient", f"no ingredient {volume.ingredient!r}"
    seen: set[tuple[str, str, str]] = set()
    for number, one in enumerate(tables.counts_as, start=2):
        if one.of not in (ingredients if one.kind == "ingredient" else classes):
            yield "counts_as.csv", number, "of", f"no {one.kind} {one.of!r}"
        if one.low > one.high:
            yield "counts_as.csv", number, "low", "the lower limit is above the upper one"
        if (one.of, one.kind, one.total) in seen:
            yield "counts_as.csv", number, "of", "stands twice for this total"
        seen.add((one.of, one.kind, one.total))
