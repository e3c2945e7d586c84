"""Draws of whole compositions, so that what is known of one ingredient is felt by all others."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np

from formulate.amounts.chains import Chains, Levels, Total
from formulate.amounts.converge import effective_draws, nested_r_hat
from formulate.amounts.frame import Array, Frame
from formulate.amounts.rest import Unnamed
from formulate.amounts.segments import Exchange
from formulate.amounts.starts import spread_starts
from formulate.errors import Stopped

STARTS = 16
TOGETHER = 16
"""Chains that begin at one start; nested R-hat compares them with those of the other starts."""
FIRST = 30
"""Sweeps before partners are chosen, and again before the first look at the figures."""
MOST_SWEEPS = 2_000
WANTED_DRAWS = 4_000
WANTED_R_HAT = 1.01


class Draws(NamedTuple):
    """Compositions, shape (draws, n + 1), the last column what the list does not name, and (draws, totals) their sums.

    ``effective`` and ``r_hat`` are the worst over the items and totals that can vary; ``settled`` says whether both
    marks were reached before the limit of sweeps.
    """

    amounts: Array
    totals: Array
    seed: int
    effective: float
    r_hat: float
    settled: bool


def draw(
    known: Frame,
    levels: Levels,
    seed: int,
    totals: Sequence[Total] = (),
    rest: Unnamed | None = None,
    wanted: int = WANTED_DRAWS,
    stop: Callable[[], bool] | None = None,
    progress: Callable[[int, int, str], None] | None = None,
) -> Draws:
    """Draw compositions from use levels cut to what is possible, weighed by what was measured.

    Parameters
    ----------
    known
        What is possible.
    levels
        Use levels, shape (n + 1,).
    seed
        Seed of the chance.
    totals
        Weighted sums to carry along; those that were measured weigh the draws.
    rest
        How the unnamed part splits into what counts towards the first totals; None: each counts it by itself.
    wanted
        Effective draws at which the work ends.
    stop, progress
        Asked before every sweep; told how many effective draws there are of those wanted.

    Raises
    ------
    ValueError
        If nothing is possible.
    Stopped
        If ``stop()`` turns true.
    """
    chance = np.random.default_rng(seed)
    first = np.repeat(spread_starts(known, STARTS, chance), TOGETHER, axis=0)
    chains = Chains(first.copy(), Exchange(known), levels, chance, totals, rest)
    for _ in range(FIRST):
        _step(chains, stop)
    chains.settle_partners(chains.amounts.mean(axis=0))
    kept: list[Array] = []
    effective, r_hat, settled, look = 0.0, float("inf"), False, FIRST
    while len(kept) < MOST_SWEEPS and not settled:
        while len(kept) < look:
            _step(chains, stop)
            kept.append(np.concatenate([chains.amounts, chains.sums()], axis=1))
        values = np.array(kept[len(kept) // 4 :])  # the first quarter is the rest of the way from the starts
        effective, r_hat = _worst(values)
        settled = effective >= wanted and r_hat <= WANTED_R_HAT
        look = min(look + max(FIRST // 2, look // 3), MOST_SWEEPS)
        if progress is not None:
            progress(min(int(effective), wanted), wanted, "draws")
    flat = values.reshape(-1, values.shape[2])
    return Draws(flat[:, : known.size + 1], flat[:, known.size + 1 :], seed, effective, r_hat, settled)


def _step(chains: Chains, stop: Callable[[], bool] | None) -> None:
    if stop is not None and stop():
        raise Stopped("draws")
    chains.sweep()


def _worst(values: Array) -> tuple[float, float]:
    """Least effective number and largest R-hat over the columns that vary; values of shape (draws, chains, columns)."""
    effective, r_hat = np.inf, 1.0
    for column in range(values.shape[2]):
        series = values[:, :, column]
        if series.std() < 1e-12:  # fixed by its limits
            continue
        series = np.log(np.maximum(series, 1e-12))
        r_hat = max(r_hat, nested_r_hat(series, STARTS))
        effective = min(effective, effective_draws(series))
    return (effective if np.isfinite(effective) else float(values.shape[0] * values.shape[1])), r_hat
