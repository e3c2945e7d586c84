"""What ``data`` answers: records with their sources spelled out, or what the dataset holds."""

from __future__ import annotations

from pydantic import Field

from formulate.catalog.counts import Backing, Checked, Overdue
from formulate.catalog.law import ExposureLimitRow, HazardRow, RestrictionRow, UseLevelRow
from formulate.catalog.tables import NameRow, PropertyRow, RoleRow, SupplyRow
from formulate.domain.model import Model
from formulate.workflow.answers import Answer


class NameSaid(NameRow):
    """A name; ``source_title`` is the work that ``source`` stands for, ``at`` the place in it."""

    source_title: str


class PropertySaid(PropertyRow):
    """A value of a property, with its source spelled out."""

    source_title: str


class RoleSaid(RoleRow):
    """A role the ingredient is known for, with its source spelled out."""

    source_title: str


class SupplySaid(SupplyRow):
    """A form in which it is sold, with its source spelled out."""

    source_title: str


class HazardSaid(HazardRow):
    """A harmonised class, or that there is none, with its source spelled out; ``meanings`` of its notes and marks."""

    source_title: str
    meanings: tuple[str, ...]


class LimitSaid(ExposureLimitRow):
    """A limit in air, with its source spelled out."""

    source_title: str


class RestrictionSaid(RestrictionRow):
    """A dated rule, with its source spelled out; ``applies`` at the date of the answer, null where no date is known."""

    source_title: str
    applies: bool | None


class LevelSaid(UseLevelRow):
    """A usual amount, with its source spelled out."""

    source_title: str


class IngredientData(Model):
    """All that is known of one ingredient. ``hazards`` is null where no number allows to look it up."""

    ingredient: str
    name: str
    inci: str
    kind: str
    cas: str | None
    ec: str | None
    class_: str = Field(alias="class")
    subclass: str
    charge: str
    fate: str
    smiles: str | None
    structure_of: str | None
    note: str
    source: str
    at: str
    source_title: str
    names: tuple[NameSaid, ...]
    properties: tuple[PropertySaid, ...]
    roles: tuple[RoleSaid, ...]
    supply_forms: tuple[SupplySaid, ...]
    hazards: tuple[HazardSaid, ...] | None
    exposure_limits: tuple[LimitSaid, ...]
    restrictions: tuple[RestrictionSaid, ...]
    use_levels: tuple[LevelSaid, ...]


class CoverageSaid(Model):
    """Of a group of ingredients: how many have a property, with a source, measured; ``asked`` is the share wanted."""

    group: str
    what: str
    asked: float
    covered: int
    sourced: int
    measured: int
    of: int


class Quality(Model):
    """What the dataset holds and how well it is backed."""

    tables: tuple[Backing, ...]
    origins: dict[str, int]
    coverage: tuple[CoverageSaid, ...]
    law: dict[str, int]
    classes: dict[str, int]
    languages: dict[str, int]
    few_names: int
    ingredients: int
    checked: tuple[Checked, ...]
    overdue: tuple[Overdue, ...]


class DataAnswer(Answer):
    """Answer of ``data``; ``nearest`` names what is near a search that found nothing."""

    search: str | None
    found_by: str | None
    records: tuple[IngredientData, ...]
    nearest: tuple[str, ...]
    quality: Quality | None
    written: str | None
