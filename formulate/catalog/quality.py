"""How complete the properties are: for each kind of ingredient, what is asked, what is there, and how it is backed.

A cell is one property of one ingredient. It is covered if any row speaks of it, also one that states there is no
such value; sourced if such a row has a source other than memory or common practice; measured if one of those is
not an estimate.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from typing import NamedTuple

from formulate.catalog.tables import ClassRow, IngredientRow, PropertyRow, Tables

UNSOURCED: frozenset[str] = frozenset({"memory", "common-practice"})
"""Keys of ``sources.toml`` that say there is no source."""


class Coverage(NamedTuple):
    """One line of the table: ``covered``, ``sourced`` and ``measured`` ingredients of ``of``; ``asked`` is a share."""

    group: str
    what: str
    asked: float
    covered: int
    sourced: int
    measured: int
    of: int

    @property
    def share(self) -> float:
        """The sourced share, 1 for an empty group."""
        return self.sourced / self.of if self.of else 1.0

    @property
    def needed(self) -> int:
        """Ingredients still to be sourced until the share asked is reached."""
        short = self.asked * self.of - self.sourced
        return max(0, int(short) + (short > int(short)))


class Origins(NamedTuple):
    """Rows of the properties table by how they are known; ``confirmed`` by a row of another source that agrees."""

    rows: int
    from_memory: int
    estimated: int
    confirmed: int

    @property
    def share_from_memory(self) -> float:
        """Share of rows that rest on memory."""
        return self.from_memory / self.rows if self.rows else 0.0


class _Cell(NamedTuple):
    covered: bool
    sourced: bool
    measured: bool


_NOTHING = _Cell(False, False, False)
_Member = Callable[[IngredientRow, str], bool]


class _Asked(NamedTuple):
    group: str
    what: str
    asked: float
    member: _Member
    properties: tuple[str, ...]


def _volatile(row: IngredientRow, top: str) -> bool:
    return row.fate == "leaves" and top in {"solvent", "silicone", "propellant"}


def _of_top(*tops: str) -> _Member:
    return lambda row, top: top in tops


VOLATILE = "volatile solvents, siloxanes and propellants"
_ASKED: tuple[_Asked, ...] = (
    _Asked(VOLATILE, "molar mass", 0.95, _volatile, ("molar_mass",)),
    _Asked(VOLATILE, "boiling point", 0.95, _volatile, ("boiling_point",)),
    _Asked(VOLATILE, "vapour pressure at 20 to 25 C", 0.95, _volatile, ("vapour_pressure", "vapour_pressure_none")),
    _Asked(VOLATILE, "flash point or none", 0.95, _volatile, ("flash_point", "flash_point_none")),
    _Asked(VOLATILE, "lower limit or none", 0.95, _volatile, ("lower_flammable_limit", "lower_flammable_limit_none")),
    _Asked(VOLATILE, "density", 0.95, _volatile, ("density",)),
    _Asked(VOLATILE, "UNIFAC groups or none", 0.95, _volatile, ("unifac",)),
    _Asked("acids, bases and buffers", "pKa or none", 0.9, _of_top("ph-adjuster"), ("pka", "pka_none")),
    _Asked("surfactants", "charge", 1.0, _of_top("surfactant"), ("charge",)),
    _Asked("surfactants", "HLB", 0.6, _of_top("surfactant"), ("hlb", "hlb_none")),
    _Asked("emulsifiers", "HLB", 0.6, _of_top("emulsifier"), ("hlb", "hlb_none")),
    _Asked("silicas", "size or surface", 0.9, _of_top("silica"), ("particle_diameter", "specific_surface")),
    _Asked("silicas", "supplied solids", 0.9, _of_top("silica"), ("solids",)),
    _Asked("waxes", "melting range", 0.9, _of_top("wax"), ("melting_point",)),
)


def coverage(tables: Tables) -> tuple[Coverage, ...]:
    """What is asked of the properties, group by group, and how far it is met."""
    tops = _tops(tables.classes)
    cells = _cells(tables)
    found = []
    for asked in _ASKED:
        members = [row.id for row in tables.ingredients if asked.member(row, tops[row.class_])]
        merged = [_merge(cells.get((one, name), _NOTHING) for name in asked.properties) for one in members]
        covered, sourced, measured = (sum(getattr(cell, kind) for cell in merged) for kind in _Cell._fields)
        found.append(Coverage(asked.group, asked.what, asked.asked, covered, sourced, measured, len(members)))
    return tuple(found)


def total(lines: Collection[Coverage], group: str, without: Collection[str] = ()) -> Coverage:
    """The cells of a group together, leaving out the lines ``without``. Raises ValueError for an unknown group."""
    taken = [line for line in lines if line.group == group and line.what not in without]
    if not taken:
        raise ValueError(f"no group {group!r}")
    covered, sourced, measured, cells = (
        sum(getattr(line, kind) for line in taken) for kind in ("covered", "sourced", "measured", "of")
    )
    return Coverage(group, "all cells", max(line.asked for line in taken), covered, sourced, measured, cells)


def origins(tables: Tables) -> Origins:
    """How many rows there are, from memory, estimated, and agreeing with a row of another source."""
    rows = tables.properties
    memory = sum(row.source in UNSOURCED for row in rows)
    estimated = sum(row.origin == "estimated" for row in rows)
    return Origins(len(rows), memory, estimated, sum(confirmed(rows)))


_AGREE: Mapping[str, tuple[float, float]] = {
    "boiling_point": (3.0, 0.0),
    "melting_point": (3.0, 0.0),
    "flash_point": (5.0, 0.0),
    "vapour_pressure": (0.0, 0.15),
    "density": (0.0, 0.02),
    "lower_flammable_limit": (0.0, 0.15),
    "pka": (0.1, 0.0),
    "hlb": (1.0, 0.0),
}
"""How far two values may lie apart and still confirm each other: in the unit, and as a share of the larger."""


def confirmed(rows: Sequence[PropertyRow]) -> list[bool]:
    """For each row, whether a row of another source, read in another copy, agrees under the same conditions.

    Two sources may go back to one measurement: agreement shows that neither was misread, not that both are right.
    """
    beside: dict[tuple[str, str], list[PropertyRow]] = defaultdict(list)
    for row in rows:
        beside[row.ingredient, row.property].append(row)
    return [any(_confirms(row, other) for other in beside[row.ingredient, row.property]) for row in rows]


def _confirms(row: PropertyRow, other: PropertyRow) -> bool:
    if other.source == row.source or {row.source, other.source} & UNSOURCED:
        return False
    if "estimated" in {row.origin, other.origin}:
        return False
    if row.property.endswith("_none"):
        return True
    if row.value is None or other.value is None or row.property not in _AGREE:
        return False
    if row.property == "vapour_pressure" and row.conditions != other.conditions:
        return False
    apart, share = _AGREE[row.property]
    return abs(row.value - other.value) <= max(apart, share * max(abs(row.value), abs(other.value)))


def _tops(classes: Sequence[ClassRow]) -> dict[str, str]:
    """The class that answers show, by class."""
    parents = {row.class_: row.parent for row in classes}
    tops = {}
    for class_ in parents:
        top = class_
        while parents[top]:
            top = parents[top]
        tops[class_] = top
    return tops


def _cells(tables: Tables) -> dict[tuple[str, str], _Cell]:
    """Every cell that something speaks of, by ingredient and property."""
    cells: dict[tuple[str, str], _Cell] = {}

    def put(ingredient: str, name: str, source: str, estimated: bool) -> None:
        sourced = source not in UNSOURCED
        cell = _Cell(True, sourced, sourced and not estimated)
        cells[ingredient, name] = _merge((cell, cells.get((ingredient, name), _NOTHING)))

    for row in tables.properties:
        if row.property != "vapour_pressure" or _near_room(row.conditions):
            put(row.ingredient, row.property, row.source, row.origin == "estimated")
    for group in tables.unifac:
        put(group.ingredient, "unifac", group.source, False)
    for form in tables.supply:
        put(form.ingredient, "solids", form.source, False)
    for one in tables.ingredients:
        if one.charge:
            put(one.id, "charge", one.source, False)
        if one.smiles and one.structure_of == "molecule":
            put(one.id, "molar_mass", "rdkit", False)
    return cells


def _near_room(conditions: str) -> bool:
    """Whether a vapour pressure was taken between 19 and 26 C."""
    found = re.match(r"(\d{1,3}(?:\.\d{1,2})?)(?: to \d{1,3})? degC", conditions)
    return found is not None and 19 <= float(found[1]) <= 26


def _merge(cells: Iterable[_Cell]) -> _Cell:
    """The best of several cells."""
    return _Cell(*(any(flags) for flags in zip(*cells, strict=True)))
