"""The answer of ``bounds``."""

from __future__ import annotations

from pydantic import Field

from formulate.domain.line import How
from formulate.domain.model import Model
from formulate.workflow.answers import Answer


class RuleSaid(Model):
    """The disclosure rule that was assumed, and what it says."""

    name: str
    title: str
    says: str
    why: str


class PlausibleRange(Model):
    """Where the share ``level`` of the draws lies; ``best`` is their median."""

    low: float
    best: float
    high: float
    level: float = 0.9


class SuppliedAs(Model):
    """How much of the printed amount is the ingredient itself, smallest and largest share."""

    low: float
    high: float
    why: str


class IngredientBounds(Model):
    """Mass fraction of one line, as printed. ``hard`` is [low, high], null where statements clash."""

    position: int
    line: str
    raw: str
    name: str
    ingredient: str | None
    class_: str = Field(alias="class")
    how: How
    hard: tuple[float, float] | None
    plausible: PlausibleRange | None
    supplied_as: SuppliedAs
    carrier: bool = False


class TotalBounds(Model):
    """A total: mass fraction, or g/mL for the density."""

    hard: tuple[float, float] | None
    plausible: PlausibleRange | None
    unit: str
    measured: float | None = None


class Contradiction(Model):
    """Statements that cannot all hold; leave any one out and the rest agree."""

    statements: tuple[str, ...]
    because: str


class Sampling(Model):
    """How the plausible ranges were drawn; ``settled`` is false where the chains did not agree in time."""

    draws: int
    effective: float
    r_hat: float
    seed: int
    settled: bool


class SupposedSaid(Model):
    """What a supposed amount would mean for each ingredient and each total."""

    what: str
    value: float
    possible: bool
    share_of_draws_below: float | None
    share_of_draws_above: float | None
    forces: tuple[IngredientBounds, ...]
    totals: dict[str, TotalBounds] = {}


class BoundsAnswer(Answer):
    """Answer of ``bounds``; amounts are those of the bottle, mass fractions."""

    rule: RuleSaid
    one_percent_after: str | None = None
    ingredients: tuple[IngredientBounds, ...]
    unnamed: IngredientBounds | None
    totals: dict[str, TotalBounds]
    contradiction: Contradiction | str
    sampling: Sampling | None
    supposed: SupposedSaid | None = None
    seed: int | None = None
