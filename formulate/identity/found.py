"""What a rung of the ladder finds, and how sure each rung is."""

from __future__ import annotations

from typing import NamedTuple

from formulate.catalog.records import ClassWord, NameHit, WordForm
from formulate.domain.line import How
from formulate.identity.structure import Structure

CONFIDENCE: dict[str, float] = {
    "cas": 0.99,
    "ec": 0.99,
    "name": 0.99,
    "synonym": 0.99,
    "pattern": 0.95,
    "words": 0.99,
    "structure": 0.97,
    "class-word": 0.95,
    "spelling-1": 0.95,
    "spelling-2": 0.75,
}
"""Confidence of each rung. Supported by at least 100 matches (``tests/evaluation/calibration.csv``): cas, name,
synonym, words; spelling-1 by made slips only, and therefore set lower than these came out. Judged: the others."""

BESIDE_UNKNOWN_NUMBER = 0.9
"""Judged confidence, at most, of a name beside a number that is in no table."""


class Found(NamedTuple):
    """What a rung of the ladder found."""

    how: How
    confidence: float
    hits: tuple[NameHit, ...] = ()
    class_word: ClassWord | None = None
    form: WordForm | None = None
    class_: str = "other"
    tried: tuple[str, ...] = ()
    disagree: tuple[NameHit, ...] = ()
    looked_up: str = ""
    structure: Structure | None = None


def left_open(hits: tuple[NameHit, ...], why: str) -> Found:
    """Nothing is settled: everything that was found stays a candidate."""
    return Found("none", 0.0, disagree=hits, tried=(why,))
