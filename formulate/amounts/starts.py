"""Compositions far apart from which chains start: corners of the possible set at the places of the line."""

from __future__ import annotations

import numpy as np

from formulate.amounts.frame import Array, Envelope, Frame, envelope


def spread_starts(known: Frame, count: int, chance: np.random.Generator) -> Array:
    """Possible compositions, shape (count, n + 1), the last column the unnamed rest.

    Each begins at the least amounts of a random place of the line and is filled up item by item in random order, then
    mixed with the middle of that place so that no start lies on an edge. Raises ValueError if nothing is possible.
    """
    reach = envelope(known)
    fitting = np.flatnonzero(reach.fits)
    if not len(fitting):
        raise ValueError("no composition agrees with the limits")
    starts = [_start(known, reach, int(chance.choice(fitting)), chance) for _ in range(count)]
    return np.array(starts)


def _start(known: Frame, reach: Envelope, place: int, chance: np.random.Generator) -> Array:
    low = np.append(reach.low[place], known.rest[0])
    high = np.append(reach.high[place], known.rest[1])
    span = high.sum() - low.sum()
    middle = low + (high - low) * ((1 - low.sum()) / span if span > 0 else 0.0)
    corner = low.copy()
    above = list(known.ordered[: reach.places[place]])
    for item in chance.permutation(known.size + 1):
        left = 1 - corner.sum()
        if left <= 0:
            break
        raised = above[: above.index(item) + 1] if item in above else [int(item)]
        corner = _raise(corner, high, raised, left)
    filled = abs(corner.sum() - 1) < 1e-9
    return np.asarray(0.9 * corner + 0.1 * middle if filled else middle)


def _raise(amounts: Array, high: Array, block: list[int], left: float) -> Array:
    """Raise the last of a falling block as far as its limit and the mass left allow; those before rise with it."""
    item = block[-1]
    least, most = amounts[item], high[item]
    for _ in range(60):
        level = (least + most) / 2
        needed = np.maximum(level - amounts[block], 0).sum()
        least, most = (level, most) if needed <= left else (least, level)
    raised = amounts.copy()
    top = high[item] if np.maximum(high[item] - amounts[block], 0).sum() <= left else least
    raised[block] = np.maximum(amounts[block], top)
    return raised
