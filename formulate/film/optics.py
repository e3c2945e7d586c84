"""Haze and clearness: what particles in the liquid or on the surface do to light.

Scattering by single spheres (Mie, by the miepython library) with the Rayleigh limit beside it as a check. Spheres are
taken to scatter independently; in a sol above about 5 % by mass they hinder each other and the true figure is lower.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from formulate.film.refusals import positive, within

Array = npt.NDArray[np.float64]

GREEN_NM = 550.0
"""Wavelength at which the eye is about most sensitive in daylight (CIE 1924; from memory). [nm]"""

RAYLEIGH_UP_TO = 0.3
"""Size parameter up to which the Rayleigh limit is within a few per cent for silica in air or water (compared here)."""


class Scattering(NamedTuple):
    """Light scattered by one sphere: efficiency by Mie and in the Rayleigh limit, asymmetry, cross section [m2]."""

    efficiency: float
    rayleigh: float
    asymmetry: float
    cross_section_m2: float

    @property
    def forward_lost(self) -> float:
        """Efficiency for light turned away from its way, (1 - asymmetry) times all: what milkiness is made of."""
        return self.efficiency * (1 - self.asymmetry)


class Liquid(NamedTuple):
    """Clearness of a liquid: turbidity [1/m] and the part of light that passes the path unscattered."""

    turbidity_per_m: float
    transmission: float


def silica_index(wavelength_nm: float) -> float:
    """Refractive index of fused silica at 20 C.

    :param wavelength_nm: wavelength in air, 210 to 3710. [nm]
    :raises SurfaceError: outside that range.

    Source: Malitson 1965, J. Opt. Soc. Am. 55, 1205, doi 10.1364/JOSA.55.001205, three-term Sellmeier equation. The
    silica of sols is less dense and has a slightly lower index (1.44 to 1.46; from memory).
    """
    within("The wavelength", wavelength_nm, 210, 3710, "nm")
    square = (wavelength_nm / 1000) ** 2
    terms = ((0.6961663, 0.0684043), (0.4079426, 0.1162414), (0.8974794, 9.896161))
    return float(np.sqrt(1 + sum(strength * square / (square - pole * pole) for strength, pole in terms)))


def sphere(diameter_nm: float, index: float, index_around: float, wavelength_nm: float = GREEN_NM) -> Scattering:
    """Light that one clear sphere scatters.

    :param diameter_nm: diameter, up to 20 um. [nm]
    :param index: refractive index of the sphere, real. [1]
    :param index_around: refractive index around it. [1]
    :param wavelength_nm: wavelength in vacuum. [nm]
    :returns: zero scattering where both indices are the same.
    :raises SurfaceError: a size or wavelength is not positive, or an index is not 1 to 4.

    Sources: Mie 1908 as computed by miepython (Wiscombe 1979, NCAR/TN-140); Rayleigh limit, Bohren and Huffman 1983,
    eq. 5.8: Q = (8/3) x^4 ((m^2 - 1)/(m^2 + 2))^2.
    """
    positive("The size of the particles", diameter_nm, "nm")
    within("The size of the particles", diameter_nm, 0, 20_000, "nm")
    positive("The wavelength", wavelength_nm, "nm")
    within("The index of the particle", index, 1, 4)
    within("The index around it", index_around, 1, 4)
    ratio = index / index_around
    size = float(np.pi * diameter_nm * index_around / wavelength_nm)
    polar = (ratio * ratio - 1) / (ratio * ratio + 2)
    rayleigh = 8 / 3 * size**4 * polar * polar
    if ratio == 1:
        return Scattering(0.0, 0.0, 0.0, 0.0)
    import miepython

    _, scattered, _, asymmetry = miepython.efficiencies_mx(ratio, size)
    area = np.pi / 4 * (diameter_nm * 1e-9) ** 2
    return Scattering(float(scattered), float(rayleigh), float(asymmetry), float(scattered * area))


def liquid(
    mass_fraction: float,
    diameter_nm: float,
    index: float,
    density: float,
    *,
    index_around: float = 1.333,
    density_around: float = 1.0,
    path_cm: float = 1.0,
    wavelength_nm: float = GREEN_NM,
) -> Liquid:
    """How clear a liquid with particles or droplets in it is.

    :param mass_fraction: of the particles in the liquid, 0 to 1. [1]
    :param diameter_nm: their diameter; of a distribution take the mean weighted by the sixth power for small ones. [nm]
    :param index: their refractive index. [1]
    :param density: their density. [g/mL]
    :param index_around: index of the liquid around them; water unless given. [1]
    :param density_around: its density. [g/mL]
    :param path_cm: thickness of liquid looked through. [cm]
    :raises SurfaceError: a fraction outside 0 to 1, or a density or path that is not positive.

    Formula: turbidity = 3/2 volume fraction * Q / diameter (independent spheres); transmission exp(-turbidity path).
    """
    within("The mass fraction of particles", mass_fraction, 0, 1)
    positive("The density of the particles", density, "g/mL")
    positive("The density of the liquid", density_around, "g/mL")
    positive("The path", path_cm, "cm")
    volume = mass_fraction / density
    part = volume / (volume + (1 - mass_fraction) / density_around)
    one = sphere(diameter_nm, index, index_around, wavelength_nm)
    turbidity = 1.5 * part * one.efficiency / (diameter_nm * 1e-9)
    return Liquid(turbidity, float(np.exp(-turbidity * path_cm / 100)))


def per_mass(diameter_nm: float, index: float, density: float, index_around: float = 1.333) -> float:
    """Scattering cross section for each mass of particles in a liquid, at 550 nm. [m2/g]

    Arguments as in :func:`liquid`.
    """
    positive("The density of the particles", density, "g/mL")
    one = sphere(diameter_nm, index, index_around)
    return 1.5 * one.efficiency / (diameter_nm * 1e-9 * density * 1e6)


def layer_scatters(covered: float, diameter_nm: float, index: float, index_around: float = 1.0) -> float:
    """Part of light that particles on a surface scatter: an upper limit of haze. [1]

    Haze by ASTM D1003 counts only what leaves by more than 2.5 degrees and passes, so it is lower. The surface below
    and light between particles are left out, which is right within a factor of a few only.

    :param covered: sum of the particles' shadows over the area, 0 to 0.91. [1]
    :param index_around: 1 in air; the index of the film where they lie in it. [1]
    :raises SurfaceError: covered is outside that range: closer than hexagonal is no single layer.
    """
    within("The cover of a single layer", covered, 0, 0.9069)
    return covered * sphere(diameter_nm, index, index_around).efficiency
