"""From a mixture and a way of putting it on to what is on the surface, in every draw."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

import numpy as np

from formulate.film.apply import Application, Array, Spread, kept_fractions, wet_mass
from formulate.film.burial import film_level, visible_height
from formulate.film.deposit import KINDS, Deposit, Mixture, deposit
from formulate.film.particles import (
    SILICA_DENSITY,
    Family,
    Sizes,
    StatedSize,
    number_density,
    shadow,
    sizes_of_families,
)
from formulate.film.touching import clumps, imaged_width

DRAWS = 10_000


class Microscope(NamedTuple):
    """What one field shows: its area, the smallest height told from the surface (nm), and how counting goes.

    ``tip_nm`` is the radius of the tip, None where images are as wide as the particles. ``background`` is the mean
    count per field on a blank.
    """

    area_um2: float
    smallest_nm: Spread
    tip_nm: float | None
    recognised: float
    background: float


class Setting(NamedTuple):
    """How the product is put on and looked at. ``size`` None: any of ``families``. ``wet`` in g/m2."""

    application: Application
    wet: Spread | None
    kept: Spread
    passes: int
    size: StatedSize | None
    families: Sequence[Family]
    microscope: Microscope


class Film(NamedTuple):
    """What is on the surface, arrays of shape (draws,). Densities per um2; g/m2; nm.

    ``silica`` is the mass fraction in the product as used, ``shadow`` the area of all particles over the area,
    ``soft_nm`` the thickness of film and rest, ``seen`` the clumps per um2 that the instrument shows,
    ``there_per_field`` what a count would give if every particle showed alone.
    """

    silica: Array
    wet: Array
    kept: Mapping[str, Array]
    sizes: Sizes
    parts: Deposit
    silica_g: Array
    particles: Array
    shadow: Array
    soft_nm: Array
    height_nm: Array
    smallest_nm: Array
    seen_share: Array
    unseen_mass: Array
    seen: Array
    counted_per_field: Array
    there_per_field: Array


def lay_down(mixture: Mixture, setting: Setting, seed: int) -> Film:
    """Draw how it goes on, what is kept and how large the particles are, and work out what is left."""
    chance = np.random.default_rng(seed)
    draws = mixture.draws
    one_coat = (
        setting.wet.at(chance.standard_normal(draws))
        if setting.wet is not None
        else wet_mass(setting.application, draws, mixture.density, chance)
    )
    kept = kept_fractions(setting.kept, KINDS, draws, chance)
    sizes = (
        setting.size.sizes(draws, chance)
        if setting.size is not None
        else sizes_of_families(setting.families, draws, chance)
    )
    smallest = setting.microscope.smallest_nm.at(chance.standard_normal(draws))
    parts = deposit(mixture, one_coat, kept, setting.passes)
    soft = parts.film_nm.sum(axis=1) + parts.rest_nm.sum(axis=1)
    silica_g = parts.silica.sum(axis=1)
    look = Look(sizes, silica_g, soft, smallest)
    return see(mixture, setting.microscope, one_coat, kept, parts, look)


class Look(NamedTuple):
    """What decides what is seen: sizes, silica in g/m2, soft matter in nm, smallest height in nm."""

    sizes: Sizes
    silica_g: Array
    soft_nm: Array
    smallest_nm: Array


def see(
    mixture: Mixture, microscope: Microscope, wet: Array, kept: Mapping[str, Array], parts: Deposit, look: Look
) -> Film:
    """Count what is there and what shows: particles as high over the film as the smallest height or higher."""
    mass = look.silica_g * 1e-3
    per_um2 = number_density(mass, look.sizes) * 1e-12
    over = shadow(mass, look.sizes)
    middle = look.sizes.median * 1e9
    buried_up_to = film_level(look.soft_nm, over)
    least = (buried_up_to + look.smallest_nm) * 1e-9
    seen_share = look.sizes.share_above(least)
    seen = clumps(per_um2 * seen_share, imaged_width(middle, microscope.tip_nm))
    return Film(
        silica=mixture.silica.sum(axis=1),
        wet=wet,
        kept=kept,
        sizes=look.sizes,
        parts=parts,
        silica_g=look.silica_g,
        particles=per_um2,
        shadow=over,
        soft_nm=look.soft_nm,
        height_nm=visible_height(middle, look.soft_nm, over),
        smallest_nm=look.smallest_nm,
        seen_share=seen_share,
        unseen_mass=1 - look.sizes.share_above(least, 3),
        seen=seen,
        counted_per_field=seen * microscope.recognised * microscope.area_um2 + microscope.background,
        there_per_field=per_um2 * microscope.recognised * microscope.area_um2 + microscope.background,
    )


def solid_silica_nm(film: Film) -> Array:
    """Thickness of the silica if it were one solid layer, nm."""
    values: Array = film.silica_g / SILICA_DENSITY * 1e6
    return values
