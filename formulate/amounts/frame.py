"""What is known of the amounts of one list, as arrays: limits, falling order, the one-percent line, the unnamed rest.

A *place of the line* is the number of items that stand in falling order above it. Where the law leaves the order
below the line free and does not say where the line falls, every place that fits is possible: the set of possible
compositions is the union over the places. Without an order there is one place, and it is zero.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
SLACK = 1e-12
"""Rounding that is allowed when limits are compared; far below any printed digit."""


class Frame(NamedTuple):
    """Limits of the items of one list, mass fractions.

    ``lower`` and ``upper`` have shape (n,). ``ordered`` are the indices of the items that an order binds, in that order
    (empty: no order). ``line`` is the fraction above which the order binds, 0 if it binds throughout. ``rest`` is the
    smallest and largest share of what the list does not name. ``place`` is where the line falls, None if that is open.
    """

    lower: Array
    upper: Array
    ordered: tuple[int, ...]
    line: float
    rest: tuple[float, float]
    place: int | None = None

    @property
    def size(self) -> int:
        """Number of items."""
        return len(self.lower)

    @property
    def places(self) -> range:
        """The places at which the line can fall."""
        if self.place is not None:
            return range(self.place, self.place + 1)
        first = 0 if self.line > 0 else len(self.ordered)
        return range(first, len(self.ordered) + 1)


def frame(
    lower: Array | list[float],
    upper: Array | list[float],
    ordered: tuple[int, ...] = (),
    line: float = 0.01,
    rest: tuple[float, float] = (0.0, 0.0),
    place: int | None = None,
) -> Frame:
    """A frame from plain numbers. Raises ValueError for limits outside 0 to 1 or of different length."""
    low, high = np.asarray(lower, dtype=float), np.asarray(upper, dtype=float)
    if low.shape != high.shape or low.ndim != 1:
        raise ValueError(f"limits of different shape: {low.shape} and {high.shape}")
    if not ((low >= 0) & (low <= 1) & (high >= 0) & (high <= 1)).all():
        raise ValueError("a mass fraction lies between 0 and 1")
    return Frame(low, high, ordered, line, rest, place)


class Envelope(NamedTuple):
    """Limits at every place of the line after the order has been carried through them.

    ``low`` and ``high`` have shape (places, n); ``sum_low`` and ``sum_high`` (with the unnamed rest) and ``fits`` have
    shape (places,). ``fits`` says whether any composition is possible at that place.
    """

    places: tuple[int, ...]
    low: Array
    high: Array
    sum_low: Array
    sum_high: Array
    fits: NDArray[np.bool_]


def envelope(known: Frame) -> Envelope:
    """Carry the order through the limits: an item is at most what stands before it, at least what stands after it."""
    places = tuple(known.places)
    low = np.tile(known.lower, (len(places), 1))
    high = np.tile(known.upper, (len(places), 1))
    order = np.array(known.ordered, dtype=int)
    if len(order):
        above = np.arange(len(order)) < np.array(places)[:, None]
        floor = np.where(above, np.maximum(known.lower[order], known.line), -np.inf)
        carried = np.maximum.accumulate(floor[:, ::-1], axis=1)[:, ::-1]
        ceiling = np.minimum.accumulate(known.upper[order])
        low[:, order] = np.where(above, carried, known.lower[order])
        free = np.minimum(known.upper[order], known.line) if known.line > 0 else known.upper[order]
        high[:, order] = np.where(above, ceiling, free)
    sum_low = low.sum(axis=1) + known.rest[0]
    sum_high = high.sum(axis=1) + known.rest[1]
    fits = (low <= high + SLACK).all(axis=1) & (sum_low <= 1 + SLACK) & (sum_high >= 1 - SLACK)
    return Envelope(places, low, high, sum_low, sum_high, fits)
