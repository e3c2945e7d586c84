"""Three conventions of a full layer, the mass each takes, and the silica in the bottle it needs."""

from __future__ import annotations

from math import pi, sqrt
from typing import NamedTuple

import numpy as np

from formulate.errors import UsageError
from formulate.film.apply import Array
from formulate.film.particles import SILICA_DENSITY, Sizes

HEXAGONAL = pi / (2 * sqrt(3))
"""Equal discs side by side as close as can be, 0.9069."""
JAMMED = 0.547
"""Discs laid down at random that never touch, until none fits any more (Feder 1980; 0.5470).

No ceiling for films that dried: capillary forces draw particles together, 60 to 81 % has been reached.
"""
OVERLAPPING = 1.0
"""Discs placed at random, one over another, with as much area as the surface: they cover 1 - 1/e of it."""


class FullLayer(NamedTuple):
    """A convention: the shadow of its particles over the area, and what they cover of it."""

    name: str
    shadow: float
    covers: float
    says: str


CONVENTIONS: tuple[FullLayer, ...] = (
    FullLayer("hexagonal", HEXAGONAL, HEXAGONAL, "spheres side by side as close as can be"),
    FullLayer("jammed", JAMMED, JAMMED, "spheres fallen at random, none touching, until none fits"),
    FullLayer("overlapping", OVERLAPPING, 1 - np.exp(-1.0), "spheres fallen at random, one on another"),
)


def overlapped(shadow: Array) -> Array:
    """Covered fraction if particles fall at random, one on another: 1 - exp(-shadow)."""
    values: Array = -np.expm1(-shadow)
    return values


def side_by_side(shadow: Array) -> Array:
    """Covered fraction while all particles find room side by side; at most that of the closest layer."""
    return np.minimum(shadow, HEXAGONAL)


def full_layer_mass(layer: FullLayer, sizes: Sizes, density: float = SILICA_DENSITY) -> Array:
    """Mass per area of a full layer, kg/m2: its shadow times 2/3 of d32 times the density."""
    values: Array = layer.shadow * 2 / 3 * sizes.surface_mean * density
    return values


def shadow_of_cover(covered: float) -> float:
    """Shadow of particles that fell at random, from the area they cover: -ln(1 - covered).

    Raises
    ------
    UsageError
        If the covered fraction is not between 0 and 1: no single layer covers more than all of the surface.
    """
    if not 0 <= covered < 1:
        raise UsageError(
            f"A covered fraction of {covered:g} is no single layer: right would be a fraction from 0 to below 1.",
            "the option covered",
            "particles with as much area as the surface, fallen at random, cover 63.2 % of it",
            "the fraction of the area, such as 0.024 for 2.4 %",
            "usage-covered",
        )
    return float(-np.log1p(-covered))
