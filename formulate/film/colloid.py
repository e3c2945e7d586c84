"""The liquid itself: is a silica sol stable at its pH and salt, and does it settle?

Silica does not obey the usual rule that charge keeps particles apart: it is metastable where it has no charge at all
(near pH 2), by the water it holds, and gels fastest where it is already charged. So an empirical map goes first, and
the theory of charge and attraction is used for one question only: how much salt a charged sol bears.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal, NamedTuple

import numpy as np

from formulate.film.refusals import positive, within

BOLTZMANN = 1.380649e-23
"""SI, exact since 2019. [J/K]"""
ELEMENTARY_CHARGE = 1.602176634e-19
"""SI, exact since 2019. [C]"""
AVOGADRO = 6.02214076e23
"""SI, exact since 2019. [1/mol]"""
VACUUM_PERMITTIVITY = 8.8541878128e-12
"""CODATA 2018. [F/m]"""
GRAVITY = 9.80665
"""Standard gravity, CGPM 1901. [m/s2]"""

State = Literal["metastable", "gels slowly", "gels fast", "stable", "aggregates", "dissolves", "cannot be said"]


class Region(NamedTuple):
    """A part of the map of silica: where it holds, what happens there and why; see ``sol_states.csv``.

    Ranges of pH and salt [mol/L] include their lower end only; ``sure_*`` is the part far from the borders.
    """

    surface: str
    ph: tuple[float, float]
    salt: tuple[float, float]
    sure_ph: tuple[float, float]
    sure_salt: tuple[float, float]
    state: State
    because: str
    source: str
    at: str


class Sol(NamedTuple):
    """State of a silica sol and why; ``sure`` is False near a border of the map; ``region`` is the row it rests on."""

    state: State
    because: str
    sure: bool
    region: Region | None


class Settling(NamedTuple):
    """How a particle settles against its Brownian motion.

    ``scale_height_mm`` is the height over which the number falls to 1/e at rest; ``fall_mm_per_day`` the speed of
    fall; ``days`` what the height of the bottle takes at that speed; ``settles`` whether, left long enough, most
    ends at the bottom or top.
    """

    scale_height_mm: float
    fall_mm_per_day: float
    days: float
    settles: bool


def sol_state(ph: float, salt_mol_per_l: float, regions: Sequence[Region], surface: str = "plain") -> Sol:
    """What a silica sol does at a pH and salt content, by experience.

    :param ph: pH of the liquid, -1 to 15.
    :param salt_mol_per_l: salt of singly charged ions; count a doubly charged cation at least tenfold. [mol/L]
    :param regions: the map, as :func:`formulate.film.surface_known.sol_map` reads it.
    :param surface: ``plain`` silica or ``aluminate`` (charged down to about pH 4); of any other, as alumina outside,
        nothing can be said.
    :returns: state, the reason, and whether the place is far from the borders of the map.
    :raises SurfaceError: pH outside its range or salt negative.
    """
    within("The pH", ph, -1, 15)
    within("The salt", salt_mol_per_l, 0, 1000, "mol/L")
    for region in regions:
        if region.surface == surface and _holds(region.ph, ph) and _holds(region.salt, salt_mol_per_l):
            sure = _holds(region.sure_ph, ph) and _holds(region.sure_salt, salt_mol_per_l)
            return Sol(region.state, region.because, sure, region)
    return Sol("cannot be said", "the map of silica does not hold this surface or place", False, None)


def _holds(span: tuple[float, float], value: float) -> bool:
    return span[0] <= value < span[1]


def debye_length_nm(ionic_strength: float, temperature_k: float = 298.15, permittivity: float = 78.3) -> float:
    """Distance over which charge is felt in a salt solution. [nm]

    :param ionic_strength: half the sum of concentration times charge squared. [mol/L]
    :param temperature_k: temperature. [K]
    :param permittivity: relative permittivity of the liquid; water at 25 C unless given. [1]
    :raises SurfaceError: a value is not positive.

    Formula: Debye and Hueckel 1923: sqrt(eps kT / (2 N e^2 I)); 0.304 / sqrt(I) nm in water at 25 C.
    """
    positive("The ionic strength", ionic_strength, "mol/L")
    positive("The temperature", temperature_k, "K")
    positive("The permittivity", permittivity, "")
    ions = 2 * AVOGADRO * ELEMENTARY_CHARGE**2 * ionic_strength * 1000
    length = np.sqrt(permittivity * VACUUM_PERMITTIVITY * BOLTZMANN * temperature_k / ions)
    return float(length * 1e9)


def barrier_kt(diameter_nm: float, potential_mv: float, salt_mol_per_l: float, hamaker_j: float = 0.46e-20) -> float:
    """Height of the barrier between two equal spheres in salt water at 25 C, in units of kT; 0 where there is none.

    :param diameter_nm: diameter of the spheres. [nm]
    :param potential_mv: potential at the shear plane (zeta); its sign does not matter. [mV]
    :param salt_mol_per_l: salt of singly charged ions. [mol/L]
    :param hamaker_j: attraction; silica across water unless given (Bergstroem 1997, Adv. Colloid Interface Sci. 70,
        125; from memory). [J]
    :raises SurfaceError: a length, salt or constant is not positive, or a potential is beyond 200 mV.

    Formula: attraction -A a / (12 h) (Derjaguin); repulsion by superposition of two charged layers,
    64 pi a n kT tanh^2(z e psi / 4 kT) exp(-h / L) L^2 (Israelachvili 2011, eq. 14.57). Water held by silica, which
    in truth adds repulsion, is left out: a barrier is a lower estimate for silica. Both parts are for gaps and Debye
    lengths below the radius; small particles in little salt have less.
    """
    positive("The size of the particles", diameter_nm, "nm")
    positive("The Hamaker constant", hamaker_j, "J")
    within("The potential", potential_mv, -200, 200, "mV")
    debye = debye_length_nm(salt_mol_per_l) * 1e-9
    heat = BOLTZMANN * 298.15
    radius = diameter_nm * 0.5e-9
    gamma = np.tanh(ELEMENTARY_CHARGE * abs(potential_mv) * 1e-3 / (4 * heat))
    number = salt_mol_per_l * 1000 * AVOGADRO
    gap = debye * np.geomspace(0.01, 20, 600)
    repulsion = 64 * np.pi * radius * number * heat * (gamma * debye) ** 2 * np.exp(-gap / debye)
    attraction = -hamaker_j * radius / (12 * gap)
    return max(0.0, float((repulsion + attraction).max() / heat))


def salt_limit_mol_per_l(diameter_nm: float, potential_mv: float, hamaker_j: float = 0.46e-20) -> float | None:
    """Salt at which the barrier between charged spheres falls to 15 kT, below which they aggregate within days.

    Arguments as in :func:`barrier_kt`; 15 kT is a convention (from memory). None where even 0.1 mmol/L leaves less.
    """
    from scipy.optimize import brentq

    def over(log_salt: float) -> float:
        return barrier_kt(diameter_nm, potential_mv, float(np.exp(log_salt)), hamaker_j) - 15

    low, high = np.log(1e-4), np.log(10.0)
    if over(low) <= 0:
        return None
    return float(np.exp(brentq(over, low, high))) if over(high) < 0 else 10.0


def settling(
    diameter_nm: float,
    density: float,
    *,
    density_around: float = 1.0,
    viscosity_mpa_s: float = 0.89,
    temperature_k: float = 298.15,
    bottle_mm: float = 150.0,
) -> Settling:
    """How particles or droplets settle (or cream) in a bottle at rest.

    :param diameter_nm: diameter. [nm]
    :param density: of the particles. [g/mL]
    :param density_around: of the liquid; water unless given. [g/mL]
    :param viscosity_mpa_s: of the liquid; water at 25 C unless given (0.890, IAPWS 2008; from memory). [mPa s]
    :param temperature_k: temperature. [K]
    :param bottle_mm: height of liquid, for the verdict. [mm]
    :returns: scale height, speed of fall (negative: creams), days for the height of the bottle, and whether the scale
        height is below a tenth of the bottle, so that most ends at the bottom or top.
    :raises SurfaceError: a value is not positive.

    Sources: Perrin 1909 (scale height kT / (dm g)); Stokes 1851 (speed of fall).
    """
    positive("The size of the particles", diameter_nm, "nm")
    positive("The density of the particles", density, "g/mL")
    positive("The density of the liquid", density_around, "g/mL")
    positive("The viscosity", viscosity_mpa_s, "mPa s")
    positive("The temperature", temperature_k, "K")
    positive("The height of the bottle", bottle_mm, "mm")
    diameter, heavier = diameter_nm * 1e-9, (density - density_around) * 1000
    weight = heavier * np.pi / 6 * diameter**3 * GRAVITY
    fall = heavier * GRAVITY * diameter**2 / (18 * viscosity_mpa_s * 1e-3)
    height = BOLTZMANN * temperature_k / abs(weight) * 1000 if weight else np.inf
    speed = float(fall * 86400 * 1000)
    days = bottle_mm / abs(speed) if speed else np.inf
    return Settling(float(height), speed, float(days), bool(height < bottle_mm / 10))
