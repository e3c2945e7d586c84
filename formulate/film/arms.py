"""Experiments that tell silica, wiping and size apart, and how far each narrows what it narrows."""

from __future__ import annotations

from math import exp, sqrt
from typing import NamedTuple

from formulate.film.apply import NINE_IN_TEN

COUNTED_TO = 0.04
"""Relative standard deviation of a count of about 600 particles."""
SIZE_TO = 0.06
"""Relative standard deviation of a mean diameter from heights of single particles, calibration included."""
DOSED_TO = 0.05
"""Relative standard deviation of a volume spread evenly over a known area, weighed."""
WEIGHED_TO = 0.1
"""Relative standard deviation of what a cloth takes up, weighed before and after on a balance to 0.1 mg."""


class Arm(NamedTuple):
    """An experiment: what it fixes (silica, kept, wet), and the factor x/÷ that then holds 90 %."""

    name: str
    narrows: str
    to_factor: float
    says: str


def arms() -> tuple[Arm, ...]:
    """The arms, best first; errors in quadrature on the log scale, a diameter counts three times."""
    dried = sqrt(COUNTED_TO**2 + DOSED_TO**2 + (3 * SIZE_TO) ** 2)
    wiped = sqrt(2) * COUNTED_TO
    return (
        Arm(
            "dried-unwiped",
            "silica",
            _factor(dried),
            "Dry a known volume, unwiped, on a known area with the bottle weighed before and after; count about 600 "
            "particles and measure their heights.",
        ),
        Arm(
            "wiped-and-unwiped",
            "kept",
            _factor(wiped),
            "Count one panel wiped and one unwiped from the same dose, about 600 particles on each: size and silica "
            "cancel.",
        ),
        Arm(
            "cloth-and-panel",
            "kept",
            _factor(WEIGHED_TO),
            "Weigh cloth and panel before and after wiping, once dry: what went into the cloth and what stayed, of all "
            "that stays together.",
        ),
    )


def _factor(deviation: float) -> float:
    return exp(NINE_IN_TEN * deviation)
