"""Records as the other rooms see them: plain frozen values, each with its source."""

from __future__ import annotations

from typing import NamedTuple

from formulate.domain.place import Citation


class ClassRecord(NamedTuple):
    """A class and the classes above it, nearest first; the last of ``line`` is the one answers show."""

    class_: str
    title: str
    line: tuple[str, ...]
    usual_roles: frozenset[str]

    @property
    def top(self) -> str:
        """The class of the contract."""
        return self.line[-1]


class PropertyRecord(NamedTuple):
    """One value from one source; a range has ``low`` and ``high`` and no ``value``."""

    kind: str
    value: float | None
    low: float | None
    high: float | None
    unit: str
    origin: str
    conditions: str
    citation: Citation
    note: str

    @property
    def middle(self) -> float | None:
        """One number standing for the row: the value, or the middle of the range."""
        ends = [end for end in (self.low, self.high) if end is not None]
        return self.value if self.value is not None else (sum(ends) / len(ends) if ends else None)

    @property
    def least(self) -> float:
        """The lowest number of the row. Raises ValueError if it holds none."""
        number = self.low if self.low is not None else self.middle
        if number is None:
            raise ValueError(f"no number in {self}")
        return number

    def shown(self) -> str:
        """The value with its unit, as a person reads it."""
        unit = {"degC": " C", "mm2/s": " mm2/s", "Pa": " Pa", "nm": " nm", "g/mL": " g/mL"}.get(self.unit, "")
        if self.value is not None:
            return f"{self.value:g}{unit}"
        if self.low is None or self.high is None:
            return f"{'at most ' if self.low is None else 'at least '}{self.middle:g}{unit}"
        return f"{self.low:g} to {self.high:g}{unit}"


class RoleRecord(NamedTuple):
    """A role an ingredient is known for."""

    role: str
    strength: str
    citation: Citation


class IngredientRecord(NamedTuple):
    """One ingredient of the dataset."""

    id: str
    name: str
    inci: str
    kind: str
    cas: str
    ec: str
    class_: str
    charge: str
    fate: str
    smiles: str
    structure_of: str
    citation: Citation
    note: str
    structure: dict[str, float]


class NeighbourPart(NamedTuple):
    """A part of names that carries the chemistry; ``where`` it does so, and the group of parts it is confused with."""

    part: str
    where: str
    group: str


class NameHit(NamedTuple):
    """A name (or number) of the index that answers to what was looked up."""

    name: str
    ingredient: str
    kind: str
    citation: Citation


class ClassWord(NamedTuple):
    """A phrase that names a class only, or withholds."""

    phrase: str
    class_: str
    how: str
    citation: Citation


class WordForm(NamedTuple):
    """A part of a name that betrays a class."""

    form: str
    where: str
    class_: str
    certainty: float
    citation: Citation


class Headline(NamedTuple):
    """What a word on the front promises, which lines would keep it, and what they can and cannot do."""

    headline: str
    title: str
    classes: frozenset[str]
    ingredients: frozenset[str]
    can: str
    cannot: str
    hidden: str
    citation: Citation


class StructureClass(NamedTuple):
    """A pattern in a structure that betrays a class, with limits of chain length and size."""

    smarts: str
    least_chain: float | None
    most_heavy: float | None
    class_: str
    certainty: float
    citation: Citation
