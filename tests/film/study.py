"""Truths drawn and looked for again: how often the stated ranges hold them."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from formulate.film.apply import Application, Spread
from formulate.film.counts import areal_density
from formulate.film.deposit import plain_mixture
from formulate.film.forward import Film, Microscope, Setting, lay_down
from formulate.film.implied import posterior
from formulate.film.particles import Family, Sizes, number_density
from formulate.film.touching import clumps, imaged_width

SILICA_TYPICAL, SILICA_FACTOR = 0.005, 6.0
MICROSCOPE = Microscope(25.0, Spread(2.0, 5.0, 10.0), 10.0, 1.0, 0.0)
FAMILIES = (
    Family("small", "small", Spread(7, 14, 25), (1.05, 1.4), 0.5),
    Family("large", "large", Spread(40, 65, 100), (1.05, 1.4), 0.25),
    Family("fumed", "fumed", Spread(100, 170, 300), (1.3, 1.8), 0.25),
)
SETTING = Setting(
    Application("any", "any", "dose", {"wet": Spread(2, 5, 30)}, {}),
    None,
    Spread(0.01, 0.1, 0.6),
    1,
    None,
    FAMILIES,
    MICROSCOPE,
)
SILICA = Spread(SILICA_TYPICAL / SILICA_FACTOR, SILICA_TYPICAL, SILICA_TYPICAL * SILICA_FACTOR)


class Recovery(NamedTuple):
    """Share of truths inside the 90 % range, and ranks of the truths among the draws (0 to 1)."""

    inside: float
    ranks: np.ndarray
    silent: float


def drawn(draws: int, seed: int, silica: np.ndarray | None = None) -> Film:
    """Draws of the model that infers."""
    if silica is None:
        silica = SILICA.at(np.random.default_rng(seed).standard_normal(draws))
    return lay_down(plain_mixture(silica, [0.015], 0.97, 2.2), SETTING, seed + 1)


def another_world(truth: Film) -> np.ndarray:
    """Mean count per field where particles are 20 % larger than the model thinks and one in ten is missed."""
    sizes = Sizes(truth.sizes.median * 1.2, truth.sizes.log_sd)
    number = number_density(truth.silica_g * 1e-3, sizes) * 1e-12
    seen = number * truth.seen_share
    return 0.9 * MICROSCOPE.area_um2 * clumps(seen, imaged_width(sizes.median * 1e9, MICROSCOPE.tip_nm))


def recover(
    prior: Film, truth: Film, seed: int, fields: int = 5, mis_specified: bool = False, scatter: float = 1.0
) -> Recovery:
    """Count every truth in ``fields`` fields, infer the silica, and see where the truth lies."""
    chance = np.random.default_rng(seed)
    means = another_world(truth) if mis_specified else truth.counted_per_field
    order = np.argsort(prior.silica, kind="stable")
    ordered = prior.silica[order]
    inside, ranks, silent = [], [], 0
    for mean, silica in zip(means, truth.silica, strict=True):
        rate = (
            np.full(fields, mean)
            if scatter == 1 or mean == 0
            else chance.gamma(mean / (scatter - 1), scatter - 1, fields)
        )
        counts = chance.poisson(np.minimum(rate, 1e8)).tolist()
        found = posterior(prior, areal_density([counts], MICROSCOPE.area_um2))
        if not found.can_be_said:
            silent += 1
            continue
        reached = np.cumsum(found.weights[order])
        rank = float(reached[np.searchsorted(ordered, silica).clip(0, len(ordered) - 1)] / reached[-1])
        ranks.append(rank)
        inside.append(0.05 <= rank <= 0.95)
    return Recovery(float(np.mean(inside)), np.array(ranks), silent / len(means))
