"""Mass and thickness of what stays: dry film from volume solids, the silica as a solid layer, the spreading rate.

Masses per area are in g/m2 here (kg/m2 for particles), thicknesses in m; arrays have shape (draws,) or (draws, parts).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np

from formulate.film.apply import Array

KINDS = ("fluid", "wax", "particles")
"""Kinds of component that a cloth takes differently."""


class Mixture(NamedTuple):
    """What of a product can stay, in every draw; fractions of the product by mass, shape (draws, parts).

    A part gives silica particles, a film, and what is neither; ``volume`` is its specific volume when dry, mL/g.
    ``silica_volume`` is that of silica. ``kinds`` says how a cloth takes film and rest of each part.
    """

    names: tuple[str, ...]
    kinds: tuple[str, ...]
    silica: Array
    film: Array
    rest: Array
    volume: Array
    density: float
    silica_volume: float

    @property
    def draws(self) -> int:
        """Number of draws."""
        return int(self.silica.shape[0])


class Deposit(NamedTuple):
    """What is on the surface, g/m2: silica and film of each part, the rest that stays, and what went into the cloth.

    Shapes (draws, parts).
    """

    silica: Array
    film: Array
    rest: Array
    wiped: Array
    film_nm: Array
    silica_nm: Array
    rest_nm: Array


def deposit(mixture: Mixture, wet: Array, kept: Mapping[str, Array], passes: int = 1) -> Deposit:
    """Deposit of ``passes`` coats: each leaves what is kept of it and takes nothing of the coats before.

    Parameters
    ----------
    mixture
        What of the liquid can stay.
    wet
        Wet mass of one coat, g/m2, shape (draws,).
    kept
        Fraction left by kind (fluid, wax, particles), shape (draws,).
    passes
        Number of coats.
    """
    dose = (wet * passes)[:, None]
    soft = np.stack([kept[kind] for kind in mixture.kinds], axis=1) if mixture.kinds else mixture.film
    hard = kept["particles"][:, None]
    silica, film, rest = dose * mixture.silica * hard, dose * mixture.film * soft, dose * mixture.rest * soft
    wiped = dose * (mixture.silica * (1 - hard) + (mixture.film + mixture.rest) * (1 - soft))
    nm = mixture.volume * 1e3  # 1 g/m2 at 1 mL/g is 1000 nm
    return Deposit(silica, film, rest, wiped, film * nm, silica * mixture.silica_volume * 1e3, rest * nm)


def volume_solids(mixture: Mixture) -> Array:
    """Volume of what stays over volume of the product, shape (draws,)."""
    dry = mixture.silica * mixture.silica_volume + (mixture.film + mixture.rest) * mixture.volume
    share: Array = dry.sum(axis=1) * mixture.density / 1e3
    return share


def spreading_rate(solids_percent: float, dry_um: float) -> float:
    """Theoretical spreading rate, m2/L: 10 times volume solids in per cent over dry film thickness in um."""
    if dry_um <= 0:
        raise ValueError("a dry film thickness is above nought")
    return 10 * solids_percent / dry_um


def wet_thickness_um(rate: float) -> float:
    """Wet film of a spreading rate in m2/L: 1000 over the rate, um."""
    if rate <= 0:
        raise ValueError("a spreading rate is above nought")
    return 1000 / rate


AREAL_UNITS: Mapping[str, float] = {
    "g/m2": 1e3,
    "mg/m2": 1.0,
    "ug/m2": 1e-3,
    "mg/cm2": 1e4,
    "ug/cm2": 10.0,
    "ng/cm2": 1e-2,
    "mg/dm2": 100.0,
}
"""Units of mass per area in mg/m2: 1 ug/cm2 is 10 mg/m2."""


def areal_mass(value: float, unit: str) -> float:
    """A mass per area in mg/m2. Raises KeyError for a unit that is none of :data:`AREAL_UNITS`."""
    return value * AREAL_UNITS[unit.replace("µ", "u").replace("μ", "u").replace("²", "2").replace("^", "")]


def plain_mixture(silica: Array, film: Sequence[float] | None, film_density: float, silica_density: float) -> Mixture:
    """A mixture of silica and one fluid film former in water, by mass fractions; densities in g/mL."""
    draws = len(silica)
    former = np.full((draws, 1), film[0]) if film else np.zeros((draws, 0))
    return Mixture(
        ("silica", "film former") if film else ("silica",),
        ("particles", "fluid") if film else ("particles",),
        np.concatenate([silica[:, None], np.zeros_like(former)], axis=1),
        np.concatenate([np.zeros((draws, 1)), former], axis=1),
        np.zeros((draws, 1 + former.shape[1])),
        np.full((draws, 1 + former.shape[1]), 1 / film_density),
        1e3,
        1 / silica_density,
    )
