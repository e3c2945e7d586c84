"""What the amounts room needs to know of one line of the list."""

from __future__ import annotations

from typing import NamedTuple

from formulate.catalog.records import IngredientRecord
from formulate.domain.line import Line, Match
from formulate.domain.roles import LineRoles


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
