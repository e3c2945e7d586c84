"""Hard bounds of every item, in closed form: carry the order through the limits, then fill up with water.

At one place of the line, an item above the line can be raised until the others, at their least, leave no more room;
those before it must rise with it. The least sum of the others is the largest of the sums in which the nearest m items
before it are level with it, so the highest level is the least of m simple quotients. Lower bounds mirror this. All
places and items are worked out in one array expression.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from formulate.amounts.frame import SLACK, Array, Envelope, Frame, envelope


class Hard(NamedTuple):
    """Hard bounds: shape (n,) over all places of the line, and the rest that the list does not name.

    ``possible`` is False where no composition agrees with the limits; bounds are then NaN. ``places`` are the places
    of the line that fit; ``low_at`` and ``high_at`` the bounds at each of them, shape (places, n).
    """

    low: Array
    high: Array
    rest: tuple[float, float]
    possible: bool
    places: tuple[int, ...]
    low_at: Array
    high_at: Array


def hard_bounds(known: Frame) -> Hard:
    """Smallest and largest possible mass fraction of every item.

    Exact for limits on each item, one falling order above a line, and a sum of one. Cost O(n) for each item and place.
    """
    reach = envelope(known)
    low_at, high_at = _boxes(reach)
    if known.ordered:
        _fill(known, reach, low_at, high_at)
    fitting = reach.fits
    if not fitting.any():
        gap = np.full(known.size, np.nan)
        return Hard(gap, gap, (np.nan, np.nan), False, (), low_at[:0], high_at[:0])
    low_at, high_at = low_at[fitting], high_at[fitting]
    named_low, named_high = reach.sum_low - known.rest[0], reach.sum_high - known.rest[1]
    rest = (
        float(np.maximum(known.rest[0], 1 - named_high[fitting]).min()),
        float(np.minimum(known.rest[1], 1 - named_low[fitting]).max()),
    )
    places = tuple(place for place, fits in zip(reach.places, fitting, strict=True) if fits)
    return Hard(low_at.min(axis=0), high_at.max(axis=0), rest, True, places, low_at, high_at)


def _boxes(reach: Envelope) -> tuple[Array, Array]:
    """Bounds of items that no order binds: what the others leave."""
    low = np.maximum(reach.low, 1 - (reach.sum_high[:, None] - reach.high))
    high = np.minimum(reach.high, 1 - (reach.sum_low[:, None] - reach.low))
    return low, high


def _fill(known: Frame, reach: Envelope, low_at: Array, high_at: Array) -> None:
    """Put in the bounds of the items that stand above the line at each place."""
    order = np.array(known.ordered, dtype=int)
    count = len(order)
    low, high = reach.low[:, order], reach.high[:, order]
    above = np.arange(count) < np.array(reach.places)[:, None]
    before = np.concatenate([np.zeros((len(low), 1)), np.cumsum(low, axis=1)], axis=1)  # sum of lows before item m
    upto = np.concatenate([np.zeros((len(high), 1)), np.cumsum(high, axis=1)], axis=1)
    item, other = np.arange(count)[:, None], np.arange(count)[None, :]
    width = item - other + 1
    # Raised to one level: items m..i; before m they are at their lows, after i at theirs.
    room = 1 - reach.sum_low[:, None, None] + before[:, 1:, None] - before[:, None, :-1]
    level = np.where(width > 0, room / np.where(width > 0, width, 1), np.inf)
    risen = np.minimum(high, level.min(axis=2))
    # Lowered to one level: items i..m; all others at their highs.
    lack = 1 - reach.sum_high[:, None, None] + upto[:, None, 1:] - upto[:, :-1, None]
    reached = (width <= 1) & above[:, None, :]
    level = np.where(reached, lack / np.where(width <= 1, 2 - width, 1), -np.inf)
    sunk = np.maximum(low, level.max(axis=2))
    low_at[:, order] = np.where(above, sunk, low_at[:, order])
    high_at[:, order] = np.where(above, risen, high_at[:, order])


def agrees(known: Frame, amounts: Array) -> bool:
    """Whether one composition, shape (n,), is possible."""
    rest = 1 - amounts.sum()
    within = ((amounts >= known.lower - SLACK) & (amounts <= known.upper + SLACK)).all()
    if not within or not known.rest[0] - SLACK <= rest <= known.rest[1] + SLACK:
        return False
    ordered = amounts[list(known.ordered)]
    above = int((ordered > known.line + SLACK).sum()) if known.line > 0 else len(ordered)
    head, tail = ordered[:above], ordered[above:]
    return bool((np.diff(head) <= SLACK).all() and (tail <= known.line + SLACK).all())
