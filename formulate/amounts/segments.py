"""Along which segment two items can exchange mass when all others stay:

one interval, whatever the place of the line.
"""

from __future__ import annotations

import numpy as np

from formulate.amounts.frame import SLACK, Array, Frame, envelope


class Exchange:
    """Intervals of exchange for many compositions at once.

    Compositions have shape (chains, n + 1); the last column is what the list does not name. Items above the line form
    a falling prefix of the order, so the values that one item can take while its partner takes up the
    difference are one interval: a chain that moves along it crosses the places of the line without a jump. Where it
    is known where the line falls, the limits of the items keep them on their side of it.
    """

    def __init__(self, known: Frame) -> None:
        lower, upper = known.lower, known.upper
        if known.place is not None:  # told where the line falls: nothing may cross it
            reach = envelope(known)
            lower, upper = reach.low[0], reach.high[0]
        self._lower = np.append(lower, known.rest[0])
        self._upper = np.append(upper, known.rest[1])
        self._line = known.line
        self._rank = np.full(known.size + 1, -1)
        self._order = np.array(known.ordered, dtype=int)
        self._rank[self._order] = np.arange(len(self._order))

    def widths(self) -> Array:
        """How far each limit lets an item move, shape (n + 1,)."""
        return np.asarray(self._upper - self._lower)

    def interval(self, amounts: Array, item: int, partner: int) -> tuple[Array, Array]:
        """Least and most of ``item``, shape (chains,), when ``partner`` takes up the difference."""
        both = amounts[:, item] + amounts[:, partner]
        low = np.maximum(self._lower[item], both - self._upper[partner])
        high = np.minimum(self._upper[item], both - self._lower[partner])
        if len(self._order):
            for one, other, mirrored in ((item, partner, False), (partner, item, True)):
                if self._rank[one] >= 0:
                    least, most = self._alone(amounts, one, other)
                    low = np.maximum(low, both - most if mirrored else least)
                    high = np.minimum(high, both - least if mirrored else most)
            low, high = self._together(both, low, high, item, partner)
        here = amounts[:, item]
        closed = high < low  # an interval that only rounding leaves without a width: nothing moves
        return np.where(closed, here, low), np.where(closed, here, high)

    def _alone(self, amounts: Array, item: int, partner: int) -> tuple[Array, Array]:
        """What the order leaves to an item among all others but its partner."""
        rank = self._rank[item]
        before = self._order[:rank][self._order[:rank] != partner]
        after = self._order[rank + 1 :][self._order[rank + 1 :] != partner]
        least = amounts[:, after].max(axis=1) if len(after) else np.zeros(len(amounts))
        most = amounts[:, before].min(axis=1) if len(before) else np.ones(len(amounts))
        # What was drawn up to the line may round to just above it, and must not lift all that stands before it.
        return np.where(least > self._line + SLACK, least, 0.0), np.maximum(most, self._line)

    def _together(self, both: Array, low: Array, high: Array, item: int, partner: int) -> tuple[Array, Array]:
        """The order between the two: the later one is below the line or not above the earlier one."""
        first, second = self._rank[item], self._rank[partner]
        if first < 0 or second < 0:
            return low, high
        if first < second:
            return np.maximum(low, np.minimum(both - self._line, both / 2)), high
        return low, np.minimum(high, np.maximum(self._line, both / 2))
