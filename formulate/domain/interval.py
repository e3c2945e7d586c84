"""Uncertain numbers and uncertain choices."""

from __future__ import annotations

from typing import Literal

from pydantic import model_validator

from formulate.domain.model import Model

Basis = Literal["active", "as-supplied", "either"]


class Range(Model):
    """An uncertain number. ``level`` 1 is a hard bound (``best`` may be None), else the share meant."""

    low: float | None
    best: float | None
    high: float | None
    level: float
    unit: str
    basis: Basis | None = None
    why: str

    @model_validator(mode="after")
    def _ordered(self) -> Range:
        known = [value for value in (self.low, self.best, self.high) if value is not None]
        if known != sorted(known):
            raise ValueError(f"range is not low <= best <= high: {known}")
        if not 0 < self.level <= 1:
            raise ValueError(f"level {self.level} is not in (0, 1]")
        return self


class Choice(Model):
    """One of several possible values, with its probability."""

    value: str
    probability: float
    why: str


CERTAINTY_WORDS: tuple[tuple[float, str], ...] = ((0.9, "sure"), (0.6, "likely"), (0.0, "open"))


def certainty_word(probability: float | None) -> str:
    """The word shown for a probability: sure >= 0.9, likely >= 0.6, open below, '-' unknown."""
    if probability is None:
        return "-"
    return next(word for least, word in CERTAINTY_WORDS if probability >= least)
