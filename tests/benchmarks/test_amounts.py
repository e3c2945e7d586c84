"""Amounts: ratios to named peers in the same run; milliseconds are printed with the machine, never asserted."""

from __future__ import annotations

import time

import numpy as np
from scipy.optimize import linprog

from formulate.amounts.chains import Levels
from formulate.amounts.converge import effective_draws
from formulate.amounts.draws import draw
from formulate.amounts.frame import Frame, envelope, frame
from formulate.amounts.hard import hard_bounds
from formulate.amounts.linear import Program
from formulate.amounts.starts import spread_starts
from tests.benchmarks.test_speed import report, seconds

COUNT = 20
LABEL = frame([0] * COUNT, [1] * COUNT, tuple(range(COUNT)), 0.01)


def test_closed_form_against_a_warm_solver():
    """Hard bounds of twenty items at all places of the line: at least 50 times a warm highspy."""
    program = Program(LABEL)
    each = [(one, one) for one in np.eye(COUNT + 1)[:-1]]
    program.totals(each)
    ours = seconds(lambda: hard_bounds(LABEL), 51)
    theirs = seconds(lambda: program.totals(each), 3)
    report("hard bounds, 20 items, all places", ours, theirs, "highspy, warm")
    assert ours * 50 <= theirs


def test_closed_form_against_scipy():
    """The same bounds by scipy's linprog: at least 300 times; the peer solves one place, scaled by their number."""
    reach = envelope(LABEL)
    place = COUNT // 2
    order = np.zeros((place - 1, COUNT))
    for step in range(place - 1):
        order[step, step], order[step, step + 1] = -1.0, 1.0
    box = list(zip(reach.low[place], reach.high[place], strict=True))

    def all_items() -> None:
        for item in range(COUNT):
            for sign in (1.0, -1.0):
                cost = np.zeros(COUNT)
                cost[item] = sign
                linprog(cost, A_ub=order, b_ub=np.zeros(place - 1), A_eq=np.ones((1, COUNT)), b_eq=[1.0], bounds=box)

    ours = seconds(lambda: hard_bounds(LABEL), 51)
    theirs = seconds(all_items, 1) * int(reach.fits.sum())
    report("hard bounds, 20 items, all places", ours, theirs, "scipy linprog")
    assert ours * 300 <= theirs


def test_draws_against_hit_and_run():
    """Effective draws per second: at least ten times those of a plain hit-and-run sampler with the same chains."""
    mean = np.append(np.log(np.geomspace(0.3, 2e-4, COUNT)), 0.0)
    levels = Levels(mean, np.append(np.full(COUNT, 1.3), np.inf))
    levels.spread[0] = np.inf
    start = time.perf_counter()
    drawn = draw(LABEL, levels, seed=1)
    ours = drawn.effective / (time.perf_counter() - start)
    theirs = hit_and_run(LABEL, levels, sweeps=400)
    print(f"\neffective draws a second: {ours:.0f}; plain hit-and-run: {theirs:.1f}; ratio {ours / theirs:.0f}")
    print(f"  {drawn.effective:.0f} effective draws in {drawn.effective / ours * 1000:.0f} ms, R-hat {drawn.r_hat:.4f}")
    assert ours >= 10 * theirs


def hit_and_run(known: Frame, levels: Levels, sweeps: int) -> float:
    """Effective draws a second of the worst item: random directions, a uniform point of the chord, Metropolis."""
    chance = np.random.default_rng(2)
    state = np.repeat(spread_starts(known, 16, chance), 16, axis=0)[:, :-1]
    kept, start = [], time.perf_counter()
    density = _density(levels, state)
    for _ in range(sweeps):
        for _ in range(COUNT):
            way = chance.standard_normal(state.shape)
            way -= way.mean(axis=1, keepdims=True)
            with np.errstate(divide="ignore"):
                ends = np.stack([-state / way, (1 - state) / way])
            most = np.where(ends > 0, ends, np.inf).min(axis=(0, 2))
            least = np.where(ends < 0, ends, -np.inf).max(axis=(0, 2))
            moved = state + (least + (most - least) * chance.random(len(state)))[:, None] * way
            fresh = _density(levels, moved)
            taken = np.log(chance.random(len(state))) < fresh - density
            state, density = np.where(taken[:, None], moved, state), np.where(taken, fresh, density)
        kept.append(state)
    spent = time.perf_counter() - start
    logs = np.log(np.maximum(np.array(kept[len(kept) // 4 :]), 1e-12))
    return min(effective_draws(logs[:, :, item]) for item in range(COUNT)) / spent


def _density(levels: Levels, amounts: np.ndarray) -> np.ndarray:
    """Log density where the label's order holds, minus infinity elsewhere."""
    later = (amounts[:, 1:] > 0.01) & (amounts[:, 1:] > amounts[:, :-1])
    wrong = later.any(axis=1) | (amounts < 0).any(axis=1)
    total = sum(levels.log_density(item, np.maximum(amounts[:, item], 1e-12)) for item in range(amounts.shape[1]))
    return np.where(wrong, -np.inf, total)
