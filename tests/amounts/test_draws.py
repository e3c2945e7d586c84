"""Draws: known answers of the sampler, agreement with importance sampling, and what counts as settled."""

from __future__ import annotations

from math import comb, factorial

import numpy as np
import pytest

from formulate.amounts.chains import Levels, Total
from formulate.amounts.converge import effective_draws, nested_r_hat
from formulate.amounts.draws import Draws, draw
from formulate.amounts.frame import Frame, frame
from formulate.amounts.hard import agrees, hard_bounds
from formulate.errors import Stopped

LINE = 0.01


def label(count: int) -> Frame:
    return frame([0] * count, [1] * count, tuple(range(count)), LINE)


def flat(count: int) -> Levels:
    return Levels(np.zeros(count + 1), np.full(count + 1, np.inf))


def volumes(count: int) -> np.ndarray:
    """Share of the volume of the possible set at each place of the line, from 1.

    Proportional to (1/k!) sum over j of (-1)^j C(n-k, j) (1 - (k + j) c)_+^(n-1): inclusion and exclusion over the
    items below the line, k! orders of those above it.
    """
    share = [
        sum((-1) ** j * comb(count - k, j) * max(0.0, 1 - (k + j) * LINE) ** (count - 1) for j in range(count - k + 1))
        / factorial(k)
        for k in range(1, count + 1)
    ]
    return np.array(share) / sum(share)


@pytest.mark.parametrize("count", [4, 6, 9])
def test_a_flat_prior_gives_the_known_weights_of_the_places(count: int):
    drawn = draw(label(count), flat(count), seed=5)
    above = (drawn.amounts[:, :count] > LINE).sum(axis=1)
    share = np.bincount(above, minlength=count + 1)[1:] / len(above)
    assert drawn.settled
    expected = volumes(count)
    spread = np.sqrt(expected * (1 - expected) / drawn.effective)
    assert np.abs(share - expected).max() < 4.5 * spread.max() + 1e-4


def test_the_weights_for_six_items_are_those_of_the_formula():
    """The formula's own figures for six items and a line at 1 %."""
    assert volumes(6).round(3).tolist() == [0.0, 0.0, 0.006, 0.05, 0.232, 0.711]


def importance(levels: Levels, total: Total | None, chance: np.random.Generator) -> tuple[np.ndarray, np.ndarray]:
    """Mean and spread of ln(amount) for a label of four with the first the remainder: weighted independent draws."""
    others = np.exp(levels.mean[1:4] + levels.spread[1:4] * chance.standard_normal((600_000, 3)))
    amounts = np.column_stack([1 - others.sum(axis=1), others])
    later = amounts[:, 1:] > np.maximum(amounts[:, :-1], LINE)
    amounts = amounts[(amounts[:, 0] > 0) & ~later.any(axis=1)]
    weight = np.exp(levels.log_density(0, amounts[:, 0]))
    if total is not None:
        weight *= np.exp(-0.5 * ((amounts @ total.least[:4] - total.measured) / total.uncertainty) ** 2)
    weight /= weight.sum()
    mean = weight @ np.log(amounts)
    return mean, np.sqrt(weight @ (np.log(amounts) - mean) ** 2)


@pytest.mark.parametrize("measured", [False, True])
def test_draws_agree_with_importance_sampling(measured: bool):
    """A second method for the same distribution, with use levels on all items and a measured total."""
    levels = Levels(np.log([0.5, 0.05, 0.02, 0.008, 1.0]), np.array([1.0, 1.0, 1.2, 1.0, np.inf]))
    weights = np.array([0.0, 1.0, 1.0, 1.0, 0.0])
    total = Total(weights, weights, 0.06, 0.005) if measured else None
    mean, spread = importance(levels, total, np.random.default_rng(3))
    drawn = draw(label(4), levels, seed=8, totals=[total] if total else [])
    logs = np.log(drawn.amounts[:, :4])
    assert np.abs(logs.mean(axis=0) - mean).max() < 0.08 * spread.max() + 0.01
    assert np.abs(logs.std(axis=0) / spread - 1).max() < 0.08


def typical(count: int, carrier: int | None) -> Levels:
    mean = np.append(np.log(np.geomspace(0.3, 2e-4, count)), 0.0)
    spread = np.append(np.full(count, 1.3), np.inf)
    if carrier is not None:
        spread[carrier] = np.inf
    return Levels(mean, spread)


@pytest.mark.parametrize("carrier", [0, None, 2])
def test_chains_settle_wherever_the_carrier_stands(carrier: int | None):
    drawn = draw(label(10), typical(10, carrier), seed=1)
    assert drawn.settled
    assert drawn.effective >= 4000
    assert drawn.r_hat <= 1.01


def test_every_draw_is_possible_and_closes():
    known = frame([0.0, 0.02, 0, 0, 0], [1, 0.3, 1, 0.004, 1], (0, 1, 2, 3, 4), LINE, (0.0, 0.2))
    drawn = draw(known, typical(5, 0), seed=2)
    assert np.abs(drawn.amounts.sum(axis=1) - 1).max() < 1e-12
    assert all(agrees(known, row[:-1]) for row in drawn.amounts[::50])


def test_many_items_at_the_line_stay_possible():
    """Of sixty items under a free carrier dozens stand at the line to the last digit; rounding must not lift others."""
    known = frame([0.0] * 60, [1.0] * 60, tuple(range(60)), LINE, (0.0, 1.0))
    levels = Levels(np.full(61, np.log(0.018)), np.full(61, 1.6))
    levels.spread[0] = levels.spread[60] = np.inf
    drawn = draw(known, levels, seed=3, wanted=200)
    assert np.abs(drawn.amounts.sum(axis=1) - 1).max() < 1e-9
    assert drawn.amounts.min() > -1e-12
    assert all(agrees(known, row[:-1]) for row in drawn.amounts[::97])


@pytest.mark.parametrize("place", [1, 3, 6])
def test_where_the_line_is_told_nothing_crosses_it(place: int):
    known = frame([0.0] * 6, [1.0] * 6, tuple(range(6)), LINE, place=place)
    bounds = hard_bounds(known)
    amounts = draw(known, typical(6, 0), seed=2, wanted=500).amounts[:, :6]
    assert (amounts >= bounds.low - 1e-9).all()
    assert (amounts <= bounds.high + 1e-9).all()
    assert ((amounts > LINE - 1e-9).sum(axis=1) >= place).all()


def test_a_measured_total_narrows_what_it_sums_and_open_weights_follow_it():
    weights = np.array([0, 0.3, 0.3, 0, 0, 0, 0.0]), np.array([0, 0.6, 0.6, 0, 0, 0, 0.0])
    open_, told = Total(*weights), Total(*weights, 0.023, 0.002)
    wide, narrow = (draw(label(6), typical(6, 0), 4, [one]) for one in (open_, told))
    assert narrow.totals[:, 0].mean() == pytest.approx(0.023, abs=0.002)
    assert narrow.totals[:, 0].std() == pytest.approx(0.002, rel=0.15)
    assert narrow.amounts[:, 1].std() < wide.amounts[:, 1].std()


def test_the_same_seed_gives_the_same_draws():
    one, two = draw(label(5), typical(5, 0), 9), draw(label(5), typical(5, 0), 9)
    assert (one.amounts == two.amounts).all()
    assert isinstance(one, Draws)


def test_work_can_be_stopped_and_tells_how_far_it_is():
    told: list[tuple[int, int, str]] = []
    with pytest.raises(Stopped):
        draw(label(5), typical(5, 0), 9, stop=lambda: True)
    draw(label(5), typical(5, 0), 9, progress=lambda *args: told.append(args))
    assert told[-1] == (4000, 4000, "draws")


def test_nothing_possible_is_said():
    with pytest.raises(ValueError, match="no composition"):
        draw(frame([0.6, 0.6], [1, 1]), flat(2), 1)


def test_effective_draws_of_independent_and_of_correlated_series():
    """First-order autoregression with coefficient r is worth (1 - r) / (1 + r) of its length (elementary)."""
    chance = np.random.default_rng(0)
    noise = chance.standard_normal((4000, 8))
    assert effective_draws(noise) == pytest.approx(32_000, rel=0.1)
    series = np.zeros_like(noise)
    for step in range(1, len(noise)):
        series[step] = 0.8 * series[step - 1] + noise[step]
    assert effective_draws(series) == pytest.approx(32_000 / 9, rel=0.15)


def test_effective_draws_agree_with_a_library():
    """Against arviz-stats, method 'mean'."""
    stats = pytest.importorskip("arviz_stats.base")
    chance = np.random.default_rng(1)
    noise = chance.standard_normal((2000, 4))
    series = np.zeros_like(noise)
    for step in range(1, len(noise)):
        series[step] = 0.6 * series[step - 1] + noise[step]
    theirs = float(stats.array_stats.ess(series.T, chain_axis=0, draw_axis=1, method="mean"))
    assert effective_draws(series) == pytest.approx(theirs, rel=0.1)


def test_r_hat_sees_groups_that_stand_apart():
    chance = np.random.default_rng(2)
    together = chance.standard_normal((200, 64))
    assert nested_r_hat(together, 8) < 1.01
    apart = together + np.repeat(np.arange(8), 8)
    assert nested_r_hat(apart, 8) > 1.5
