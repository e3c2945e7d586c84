"""What the part of the bottle that the list does not name could be: one split of it for every draw.

A share of it counted towards each total by itself would let it be all water and all silica at once.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from formulate.amounts.frame import Array

KINDS = ("water", "volatile organic", "solid without silica", "silica")
SPLIT = (1.2, 0.8, 0.6, 0.05)
"""How the unnamed part splits into kinds: parameters of a Dirichlet distribution, judged. Silica is seldom in it."""
COUNTS: dict[str, tuple[float, float, float, float]] = {
    "nonvolatile_110c": (0.0, 0.0, 1.0, 1.0),
    "nonvolatile_one_day": (0.0, 0.0, 1.0, 1.0),
    "silica": (0.0, 0.0, 0.0, 1.0),
    "silica_forming": (0.0, 0.0, 0.02, 0.0),
    "silicon_as_sio2": (0.0, 0.0, 0.2, 1.0),
    "film_formers": (0.0, 0.0, 0.6, 0.0),
    "water": (1.0, 0.0, 0.0, 0.0),
    "voc_eu": (0.0, 1.0, 0.0, 0.0),
    "voc_us": (0.0, 0.9, 0.0, 0.0),
    "density_g_per_ml": (1 / 0.998, 1 / 0.8, 1 / 1.05, 1 / 2.2),
}
"""What of each kind counts towards a total, judged; for the density its specific volume, mL/g."""


class Unnamed(NamedTuple):
    """The split as arrays: ``split`` of shape (kinds,), ``counts`` of shape (kinds, totals)."""

    split: Array
    counts: Array

    def drawn(self, chance: np.random.Generator, chains: int) -> Array:
        """Weights of the unnamed part for every total, shape (chains, totals), from one split for each chain."""
        return np.asarray(chance.dirichlet(self.split, chains) @ self.counts)


def unnamed(totals: tuple[str, ...]) -> Unnamed:
    """The split for the totals named, in their order."""
    return Unnamed(np.array(SPLIT), np.array([COUNTS[total] for total in totals]).T)
