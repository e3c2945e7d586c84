"""A line of a list: what was printed for one ingredient, and what it was matched to."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from formulate.domain.model import Model, digest
from formulate.domain.place import Place

Means = Literal["active", "as-supplied", "either"]
How = Literal[
    "cas", "ec", "name", "synonym", "spelling", "structure", "word-form", "class-only", "withheld", "corrected", "none"
]
Cup = Literal["closed", "open"]
IDENTIFIED: frozenset[str] = frozenset({"cas", "ec", "name", "synonym", "spelling", "structure", "corrected"})


class Stated(Model):
    """An amount as printed. Mass fractions 0 to 1; an absent limit is None; '<1 %' is high 0.01 with ``high_open``.

    ``by_volume`` says that the limits are fractions by volume, as printed. ``strength`` is the mass fraction, low and
    high, of the raw material that the amount means ('Colloidal silica (30 %) 5 %').
    """

    low: float | None
    high: float | None
    low_open: bool = False
    high_open: bool = False
    text: str
    means: Means = "either"
    doubtful: bool = False
    by_volume: bool = False
    strength: tuple[float, float] | None = None

    def in_per_cent(self, between: str) -> str | None:
        """The limits in per cent, open ends and volume told, two joined by ``between``; None if there are none."""
        limits = self._limits(between)
        return f"{limits} by volume" if limits and self.by_volume else limits

    def _limits(self, between: str) -> str | None:
        low, high = self.low, self.high
        if low is not None and high is not None:
            return f"{low * 100:g} %" if low == high else f"{low * 100:g}{between}{high * 100:g} %"
        if high is not None:
            return f"{'below' if self.high_open else 'at most'} {high * 100:g} %"
        if low is not None:
            return f"{'above' if self.low_open else 'at least'} {low * 100:g} %"
        return None


class Line(Model):
    """One ingredient as printed. ``id`` hashes the raw text and which occurrence of it this is,
    so a correction survives lines inserted before it. ``function`` is what the list itself says the
    ingredient is for; ``cas`` and ``ec`` are numbers printed in the line; ``part`` names the part of a product
    of several parts or states (part A, as sold), None where there is one list."""

    id: str
    position: int
    place: Place
    raw: str
    name: str
    cas: str | None = None
    ec: str | None = None
    stated: Stated | None = None
    function: str | None = None
    doubtful: str | None = None
    part: str | None = None


def line_id(raw: str, occurrence: int) -> str:
    """Identity of a line: hash of its raw text and its occurrence (from 1)."""
    return digest([raw, occurrence])


class LeftOver(Model):
    """Text that was not used as an ingredient, and why."""

    text: str
    why: str
    place: Place


class StatedFact(Model):
    """A measurement printed beside the list (pH, density, flash point ...), in the unit of its key.

    All three numbers are None where the text says in words that there is none ("none", "does not flash"): the words
    stand in ``qualifier``. ``unit`` is as printed. ``qualifier`` holds what limits the statement: "<", "approx.",
    "at 20 \u00b0C", "of a 1 % solution". ``method`` and ``cup`` say how a flash point was measured.
    """

    low: float | None
    best: float | None
    high: float | None
    text: str
    place: Place
    unit: str | None = None
    qualifier: str | None = None
    method: str | None = None
    cup: Cup | None = None

    def printed(self) -> str:
        """The statement as printed, on one line, with its method and cup where a reader could miss them."""
        words = " ".join(self.text.split())
        told = f"{self.cup} cup" if self.cup and self.cup not in words.lower() else None
        return f"{words} ({told})" if told else words


class HazardCode(Model):
    """A hazard statement code printed for the product as a whole, in the section on hazards: H226, EUH066, H360FD.

    ``of`` says of what: "product", or the part of a product of several parts.
    """

    code: str
    text: str
    place: Place
    of: str = "product"


class Reading(Model):
    """What the text says: lines in order, what was left over, facts printed beside the list."""

    lines: tuple[Line, ...]
    left_over: tuple[LeftOver, ...] = ()
    facts: dict[str, StatedFact] = Field(default_factory=dict)
    hazard_codes: tuple[HazardCode, ...] = ()
    notes: tuple[str, ...] = ()


class GivenProperty(Model):
    """A property worked out from a structure that the line itself gives, never measured.

    ``origin`` is computed (counted or summed without error) or estimated; a word stands in ``text``. Where nothing
    can be said the numbers are None and ``text`` says why. ``level`` is the share of cases meant to lie
    in the range, ``why`` the id of the reason.
    """

    property: str
    low: float | None
    best: float | None
    high: float | None
    level: float
    unit: str
    origin: Literal["computed", "estimated"]
    method: str
    text: str = ""
    why: str = ""


class Match(Model):
    """Which ingredient a line is: ``ingredient`` is an id of the dataset or None; ``class_`` the most
    specific class known or guessed, ``class_confidence`` how sure that is;
    ``viscosity_mm2_s`` and ``number`` are figures read from the name; ``properties`` come from a structure given."""

    how: How
    confidence: float
    ingredient: str | None = None
    class_: str = Field(default="other", alias="class")
    class_guessed: bool = False
    class_confidence: float = 1.0
    name_read: str
    tried: tuple[str, ...] = ()
    candidates: tuple[str, ...] = ()
    viscosity_mm2_s: float | None = None
    number: float | None = None
    properties: tuple[GivenProperty, ...] = ()
