"""Per cent by volume to per cent by mass: by a table of the mixture, else between two ways of mixing."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from formulate.catalog.amounts import mass_of_volume
from formulate.catalog.store import Catalog
from formulate.domain.place import Citation

WATER = 0.998
"""Density of water at 20 C, g/mL."""
OTHERS = (0.65, 1.1)
"""Density of what else a solvent may be mixed with, g/mL, where no water is listed."""
CONTRACTION = 0.04
"""Largest loss of volume when a solvent is mixed with water (ethanol loses 3.6 %); common practice, no source."""


class ByMass(NamedTuple):
    """Mass fraction between ``low`` and ``high``, and what table gave it."""

    low: float
    high: float
    citation: Citation | None


def by_mass(fraction: float, ingredient: str | None, density: float | None, in_water: bool, catalog: Catalog) -> ByMass:
    """Mass fraction of what takes up a volume fraction of the mixture.

    Parameters
    ----------
    fraction
        Volume fraction of the mixture, 0 to 1.
    ingredient, density
        The solvent, and its density in g/mL where it is known.
    in_water
        Whether water is in the list.
    catalog
        The dataset that holds the tables of mixtures.

    Returns
    -------
    ByMass
        One number from the table of the mixture; else the range between volumes that add up and a mixture that has lost
        as much volume as any does.
    """
    table = mass_of_volume(catalog, ingredient) if ingredient is not None and in_water else []
    if table:
        volumes, masses = [row[0] for row in table], [row[1] for row in table]
        mass = float(np.interp(fraction, volumes, masses))
        return ByMass(mass, mass, table[0][2])
    own = (density, density) if density is not None else OTHERS
    others = (WATER, WATER) if in_water else OTHERS
    low = fraction * own[0] / (fraction * own[0] + (1 - fraction) * others[1]) if fraction < 1 else 1.0
    high = fraction * own[1] / (fraction * own[1] + (1 - fraction) * others[0]) if fraction < 1 else 1.0
    shrunk = low * (1 - CONTRACTION) if 0 < fraction < 1 else low
    return ByMass(shrunk, high, None)
