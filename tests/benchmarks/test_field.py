"""The simulated field: ratios to a named peer in the same run, by processor time; figures are printed."""

from __future__ import annotations

import math
import time

import numpy as np

from formulate.film.field import sequence
from formulate.film.jamming import jam

SIDE = math.sqrt(10_000 * math.pi / 4 / 0.547)


def processor_seconds(work, times=1):
    """Least processor time of several runs."""
    spent = []
    for _ in range(times):
        start = time.process_time()
        work()
        spent.append(time.process_time() - start)
    return min(spent)


def plain_rejection(side: float, target: float, seed: int) -> None:
    """The plain process: one throw after another, looked up in a grid of cells in numpy."""
    chance = np.random.default_rng(seed)
    cells = math.ceil(side * math.sqrt(2))
    at_x, at_y = np.full((cells, cells), np.inf), np.full((cells, cells), np.inf)
    near = np.arange(-2, 3)
    wanted = round(target * side * side / (math.pi / 4))
    while wanted:
        x, y = chance.random(2) * side
        column, row = int(x / side * cells), int(y / side * cells)
        rows, columns = ((row + near) % cells)[:, None], (column + near) % cells
        aside, above = np.abs(at_x[rows, columns] - x), np.abs(at_y[rows, columns] - y)
        aside, above = np.minimum(aside, np.abs(side - aside)), np.minimum(above, np.abs(side - above))
        if not (aside * aside + above * above < 1).any():
            at_x[row, column], at_y[row, column] = x, y
            wanted -= 1


def test_saturated_field_against_plain_rejection():
    """10,000 discs saturated: at most 1/60 of what plain rejection takes to 0.50 (run on a ninth of it, times nine)."""
    diameter = np.array([1.0])
    jam(SIDE, SIDE, diameter, 0)
    ours = processor_seconds(lambda: jam(SIDE, SIDE, diameter, 1), 5)
    theirs = 9 * processor_seconds(lambda: plain_rejection(SIDE / 3, 0.50, 1))
    print(f"\n10,000 discs saturated: {ours:.3f} s; plain rejection to 0.50: {theirs:.1f} s; {theirs / ours:.0f} times")
    assert ours <= 1.5
    assert ours * 60 <= theirs


def test_another_density_shows_at_once():
    """A field at another cover from the same sequence: below 30 ms."""
    drawn = sequence("jammed", SIDE, SIDE, [1.0], 1)
    taken = processor_seconds(lambda: drawn.at(0.3e6), 5)
    print(f"a field at another density: {taken * 1000:.2f} ms")
    assert taken < 0.030
