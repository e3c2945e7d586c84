"""Images that touch: one count of clumps can mean two densities of particles.

Particles at random whose images are discs of width w run together to clumps. With psi = N pi w^2 / 4, the clumps per
particle fall as exp(-(2 psi + 0.48 psi^2 + 0.434 psi^4)): the first term is exact for few particles (Armitage 1949);
the others were fitted here to simulated discs, within 0.4 % up to psi = 1.1, where the clumps run together to one. So
clumps per area grow up to psi about 0.39 and then fall.
"""

from __future__ import annotations

from math import exp, pi
from typing import NamedTuple

import numpy as np

from formulate.film.apply import Array

MOST_PSI = 0.3
"""Above this the count is refused: near the peak a count says almost nothing of the density."""
PEAK_PSI = 0.39
RUN_TOGETHER = 1.128
"""psi at which overlapping discs form one endless clump (percolation of discs, 1.12809)."""


def imaged_width(diameter: Array, tip_nm: float | None) -> Array:
    """Width of the image of a sphere, same unit (nm): 4 sqrt(r R) at the foot under a tip of radius R, else its own.

    A sphere that a blunt tip cannot reach under is as wide as itself.
    """
    if tip_nm is None:
        return diameter
    width: Array = np.maximum(diameter, 4 * np.sqrt(diameter / 2 * tip_nm))
    return width


def psi_of(density: Array, width: Array) -> Array:
    """Area of all images over the area; density per um2, width in nm."""
    values: Array = density * np.pi * width**2 / 4 * 1e-6
    return values


def clumps(density: Array, width: Array) -> Array:
    """Clumps per um2 of particles at random, density per um2 with images of ``width`` nm."""
    psi = np.minimum(psi_of(density, width), 10.0)
    values: Array = density * np.exp(-(2 * psi + 0.48 * psi**2 + 0.434 * psi**4))
    return values


class Branches(NamedTuple):
    """The two densities per um2 that a clump count can mean, None if no density gives so many; psi of the lower."""

    few: float | None
    many: float | None
    psi: float

    @property
    def countable(self) -> bool:
        """Whether the images are far enough apart for a count to be used."""
        return self.few is not None and self.psi <= MOST_PSI


def branches(clumps_per_um2: float, width_nm: float) -> Branches:
    """Densities of particles that give this many clumps per um2."""
    area = pi * width_nm**2 / 4 * 1e-6
    wanted = clumps_per_um2 * area
    if wanted > _share(PEAK_PSI) * PEAK_PSI:
        return Branches(None, None, PEAK_PSI)
    few, many = _root(wanted, 0.0, PEAK_PSI), _root(wanted, 3.0, PEAK_PSI)
    return Branches(few / area, many / area, few)


def _share(psi: float) -> float:
    return exp(-(2 * psi + 0.48 * psi**2 + 0.434 * psi**4))


def _root(wanted: float, outer: float, peak: float) -> float:
    """Psi between the peak and ``outer`` at which there are so many clumps, by halving."""
    low, high = outer, peak
    for _ in range(80):
        middle = (low + high) / 2
        if middle * _share(middle) < wanted:
            low = middle
        else:
            high = middle
    return (low + high) / 2
