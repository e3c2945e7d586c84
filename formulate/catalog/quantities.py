"""Tables from which amounts and films are worked out: disclosure rules, what counts towards a total, applications."""

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


class ApplicationRow(Sourced):
    """A way of putting a product on; ``model`` says how the wet mass is found, ``forms`` which products go on so."""

    application: Slug
    title: Filled
    forms: str
    model: Literal["dose", "landau-levich", "spin-evaporation"]
    note: str


class ApplicationFigureRow(Sourced):
    """One figure of an application: nine in ten lie between ``low`` and ``high``."""

    application: Slug
    quantity: Literal["wet", "kept", "speed", "viscosity", "surface_tension", "evaporation"]
    low: float = Field(gt=0)
    typical: float = Field(gt=0)
    high: float = Field(gt=0)
    unit: Literal["g/m2", "1", "mm/s", "mPa s", "mN/m", "rpm", "um/s"]
    via: str
    note: str


class ParticleFamilyRow(Sourced):
    """A family of silica particles: range of its median size by number and of its spread.

    ``share`` is how common it is where nothing is said; a line of ``classes`` multiplies its odds by ``odds``.
    """

    family: Slug
    title: Filled
    low: float = Field(gt=0)
    typical: float = Field(gt=0)
    high: float = Field(gt=0)
    unit: Literal["nm"]
    gsd_low: float = Field(ge=1)
    gsd_high: float = Field(ge=1)
    share: float = Field(gt=0, le=1)
    classes: str
    odds: float = Field(ge=1)
    note: str


class SurfaceRow(Sourced):
    """A surface and its roughness (root mean square, bare); ``words`` are what people call it."""

    surface: Slug
    title: Filled
    words: Filled
    rq_low: float = Field(gt=0)
    rq_high: float = Field(gt=0)
    unit: Literal["nm"]
    note: str


class VolumeRow(Sourced):
    """Mass fraction of a solvent in water at a volume fraction of the mixture."""

    ingredient: Slug
    volume_fraction: float = Field(ge=0, le=1)
    mass_fraction: float = Field(ge=0, le=1)
    temperature_c: float
    note: str


class SolStateRow(Sourced):
    """What a silica sol does in a range of pH and salt [mol/L] (low included, high not), first row first.

    ``sure_*`` is the part of the range that is far from its borders; empty where low and high are the same.
    """

    surface: Literal["plain", "aluminate"]
    ph_low: float
    ph_high: float
    salt_low: float = Field(ge=0)
    salt_high: float = Field(gt=0)
    sure_ph_low: float
    sure_ph_high: float
    sure_salt_low: float = Field(ge=0)
    sure_salt_high: float = Field(ge=0)
    state: Literal["metastable", "gels slowly", "gels fast", "stable", "aggregates", "dissolves"]
    because: Filled
    note: str


class InstrumentRow(Sourced):
    """One figure of a kind of microscope: usual range and value."""

    instrument: Literal["afm", "sem"]
    quantity: Literal["tip", "hill", "noise", "beam", "metal", "pixels"]
    low: float = Field(ge=0)
    typical: float = Field(ge=0)
    high: float = Field(ge=0)
    unit: Literal["nm", "1"]
    note: str


class Quantities(NamedTuple):
    """The tables, in the order of ``QUANTITIES``."""

    disclosure_rules: Sequence[DisclosureRuleRow]
    counts_as: Sequence[CountsAsRow]
    remains_by_boiling_point: Sequence[RemainsRow]
    applications: Sequence[ApplicationRow]
    application_figures: Sequence[ApplicationFigureRow]
    particle_families: Sequence[ParticleFamilyRow]
    surfaces: Sequence[SurfaceRow]
    volume_to_mass: Sequence[VolumeRow]
    sol_states: Sequence[SolStateRow]
    instruments: Sequence[InstrumentRow]


QUANTITIES: dict[str, type[Model]] = {
    "disclosure_rules": DisclosureRuleRow,
    "counts_as": CountsAsRow,
    "remains_by_boiling_point": RemainsRow,
    "applications": ApplicationRow,
    "application_figures": ApplicationFigureRow,
    "particle_families": ParticleFamilyRow,
    "surfaces": SurfaceRow,
    "volume_to_mass": VolumeRow,
    "sol_states": SolStateRow,
    "instruments": InstrumentRow,
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
    known = {one.application for one in tables.applications}
    for number, figure in enumerate(tables.application_figures, start=2):
        if figure.application not in known:
            yield "application_figures.csv", number, "application", f"no application {figure.application!r}"
        if not figure.low <= figure.typical <= figure.high:
            yield "application_figures.csv", number, "typical", "low, typical and high are not in order"
    for number, family in enumerate(tables.particle_families, start=2):
        yield from (
            ("particle_families.csv", number, "classes", f"no class {name!r}")
            for name in family.classes.split(";")
            if name not in classes
        )
    for number, usual in enumerate(tables.instruments, start=2):
        if not usual.low <= usual.typical <= usual.high:
            yield "instruments.csv", number, "typical", "low, typical and high are not in order"
