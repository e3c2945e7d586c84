"""Totals over the possible compositions by linear programming:

solids, silica, water, anything that is a weighted sum.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, NamedTuple

import numpy as np

from formulate.amounts.frame import Array, Frame, envelope

if TYPE_CHECKING:
    import highspy


class Sum(NamedTuple):
    """Limits on a weighted sum whose weights, shape (n + 1,), lie between ``least`` and ``most``.

    The band of a class that several names belong to has weights of one; a measured total has those of its property.
    """

    least: Array
    most: Array
    low: float
    high: float


class Program:
    """The possible compositions at each place of the line as one linear program whose bounds are moved.

    The solver keeps its basis between calls, so a further total or place costs a few pivots.
    """

    def __init__(self, known: Frame, sums: Sequence[Sum] = ()) -> None:
        import highspy

        self._known = known
        self._reach = envelope(known)
        self._solver = solver = _quiet_solver()
        self._count = known.size
        for low, high in zip([*known.lower, known.rest[0]], [*known.upper, known.rest[1]], strict=True):
            solver.addVar(float(low), float(high))
        everything = np.arange(self._count + 1, dtype=np.int32)
        solver.addRow(1.0, 1.0, self._count + 1, everything, np.ones(self._count + 1))
        for one in sums:  # the sum with the least weights is not above, that with the most not below
            solver.addRow(-highspy.kHighsInf, one.high, self._count + 1, everything, one.least)
            solver.addRow(one.low, highspy.kHighsInf, self._count + 1, everything, one.most)
        self._steps = 1 + 2 * len(sums)
        for left, right in zip(known.ordered, known.ordered[1:], strict=False):
            solver.addRow(-1.0, 1.0, 2, np.array([left, right], dtype=np.int32), np.array([1.0, -1.0]))
        self.places = self._fitting(bool(sums))

    def _fitting(self, check: bool) -> tuple[int, ...]:
        simple = [place for place, fits in zip(self._reach.places, self._reach.fits, strict=True) if fits]
        return tuple(place for place in simple if not check or self._possible(place))

    def _possible(self, place: int) -> bool:
        self._stand(place)
        return self._extreme(np.zeros(self._count + 1), smallest=True) is not None

    def _stand(self, place: int) -> None:
        """Move the bounds to one place of the line."""
        known, solver = self._known, self._solver
        order = np.array(known.ordered, dtype=np.int32)
        if not len(order):
            return
        above = np.arange(len(order)) < place
        low, high = known.lower[order], known.upper[order]
        if known.line > 0:
            low = np.where(above, np.maximum(low, known.line), low)
            high = np.where(above, high, np.minimum(high, known.line))
        solver.changeColsBounds(len(order), order, low, high)
        steps = np.arange(self._steps, self._steps + len(order) - 1, dtype=np.int32)
        solver.changeRowsBounds(  # type: ignore[attr-defined]  # missing in its stubs
            len(steps), steps, np.where(above[1:], 0.0, -1.0), np.ones(len(steps))
        )

    def _extreme(self, weights: Array, *, smallest: bool) -> float | None:
        """The smallest or largest weighted sum where the program stands; None where nothing is possible."""
        import highspy

        solver = self._solver
        solver.changeObjectiveSense(highspy.ObjSense.kMinimize if smallest else highspy.ObjSense.kMaximize)
        solver.changeColsCost(self._count + 1, np.arange(self._count + 1, dtype=np.int32), weights)
        solver.run()
        if solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None
        return float(solver.getInfo().objective_function_value)

    def totals(self, weights: Sequence[tuple[Array, Array]]) -> list[tuple[float, float]]:
        """Smallest and largest of each weighted sum; empty where no composition is possible.

        Each entry holds the least and the most of the weights, shape (n + 1,), the last for the unnamed rest. Amounts
        are not negative, so the smallest sum has the least weights.
        """
        found: list[list[tuple[float, float]]] = [[] for _ in weights]
        for place in self.places:
            self._stand(place)
            for number, (least, most) in enumerate(weights):
                low, high = self._extreme(least, smallest=True), self._extreme(most, smallest=False)
                if low is not None and high is not None:
                    found[number].append((low, high))
        return [(min(low for low, _ in one), max(high for _, high in one)) for one in found if one]


def _quiet_solver() -> highspy.Highs:
    """A solver that prints nothing:

    its own constructor writes a banner to standard output before it can be told not to.
    """
    import highspy

    solver = highspy.Highs.__new__(highspy.Highs)
    super(highspy.Highs, solver).__init__()
    solver.setOptionValue("output_flag", False)
    return solver
