"""What the amounts room needs to know of one line of the list."""

from __future__ import annotations

import re
from typing import NamedTuple

from formulate.catalog.records import IngredientRecord
from formulate.domain.line import Line, Match
from formulate.domain.roles import LineRoles

_NOT_CARBON = re.compile(r"\[(?!\d{0,3}(?:C(?![a-z])|c))[^\]]{0,20}\]|Cl")
"""Atoms of a SMILES that are no carbon although their symbols may hold its letter."""


class Item(NamedTuple):
    """One line: what was read, what it is, what it does, and the classes it belongs to, nearest first.

    ``why`` is the reason of its identity.
    """

    line: Line
    match: Match
    roles: LineRoles
    record: IngredientRecord | None
    classes: tuple[str, ...]
    why: str

    @property
    def name(self) -> str:
        """The name as a person is shown it."""
        return self.roles.name

    @property
    def ingredient(self) -> str | None:
        """Id of the ingredient, None where only its class is known, or nothing."""
        return self.match.ingredient

    @property
    def is_known(self) -> bool:
        """Whether the line is an ingredient or at least of a class that says something."""
        return self.classes[-1] != "other" or self.record is not None

    def structure(self, fact: str) -> float | None:
        """A fact of its structure, None where it has none."""
        return self.record.structure.get(fact) if self.record is not None else None

    @property
    def is_without_carbon(self) -> bool:
        """Whether its structure is known and holds no carbon, so that no law counts it as an organic compound."""
        smiles = self.record.smiles if self.record is not None else ""
        return bool(smiles) and "*" not in smiles and "c" not in _NOT_CARBON.sub("", smiles).lower()
