"""Many chains that exchange mass between two items at a time: Gibbs draws from the possible compositions.

With a log-normal use level against a partner without one, the conditional is a truncated log-normal and is drawn
exactly; otherwise a draw from a gridded conditional is accepted or refused by Metropolis and Hastings, so the grid
costs efficiency and never correctness.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr, ndtri

from formulate.amounts.frame import Array
from formulate.amounts.rest import Unnamed
from formulate.amounts.segments import Exchange

Places = NDArray[np.int64]
TINY = 1e-9
"""Mass fraction below which the logarithm of an amount is no longer told apart (1 ng/g)."""
GRID = 16
EDGE = 0.002
"""Width of the edge of a band, as a share of it: steep enough to hold, with a slope along which a chain finds in."""


class Levels(NamedTuple):
    """Use levels: mean and spread of ln(mass fraction), shape (n + 1,); spread inf means no preference."""

    mean: Array
    spread: Array

    def log_density(self, item: int, amount: Array) -> Array:
        """Log density of an amount in mass fraction, up to a constant."""
        if not np.isfinite(self.spread[item]):
            return np.zeros_like(amount)
        log = np.log(np.maximum(amount, TINY))
        return np.asarray(-0.5 * ((log - self.mean[item]) / self.spread[item]) ** 2 - log)


class Total(NamedTuple):
    """A weighted sum of the amounts, each weight somewhere between ``least`` and ``most``, shape (n + 1,).

    ``measured`` is its measured value, ``uncertainty`` the standard uncertainty of that; None where it was not
    measured. ``band`` are limits that it must keep.
    """

    least: Array
    most: Array
    measured: float | None = None
    uncertainty: float = 0.0
    band: tuple[float, float] | None = None

    @property
    def weighs(self) -> bool:
        """Whether the draws are weighed by it."""
        return self.measured is not None or self.band is not None


class Chains:
    """The state of all chains, shape (chains, n + 1), and one way to move it."""

    def __init__(
        self,
        amounts: Array,
        exchange: Exchange,
        levels: Levels,
        chance: np.random.Generator,
        totals: Sequence[Total] = (),
        rest: Unnamed | None = None,
    ) -> None:
        self.amounts = amounts
        self._exchange = exchange
        self._levels = levels
        self._chance = chance
        self._totals = tuple(totals)
        self._rest = rest
        self.weights = [self._weights(total) for total in totals]
        self._measured = [number for number, total in enumerate(totals) if total.weighs]
        self._split_rest()
        self._movable = np.flatnonzero(exchange.widths() > 0)
        self._share = np.full(len(self._movable), 1 / max(len(self._movable), 1))

    def settle_partners(self, mean: Array) -> None:
        """Choose partners by how much mass they hold on average, shape (n + 1,): most room for exchange is there.

        Where the heaviest has no use level and nothing was measured, most moves go against it: they are drawn exactly.
        Called once, before the draws that count: a choice that kept following the state would bend them.
        """
        held = np.maximum(mean[self._movable], 0.0)  # a difference of two amounts may round to just below nought
        by_mass = 0.8 * held / max(held.sum(), TINY) + 0.2 / max(len(held), 1)
        open_ = np.where(np.isfinite(self._levels.spread[self._movable]), 0.0, held)
        if held.any() and open_.max() == held.max() and not self._measured:
            self._share = 0.9 * open_ / open_.sum() + 0.1 * by_mass / by_mass.sum()
        elif len(held):
            self._share = by_mass / by_mass.sum()

    def sweep(self) -> None:
        """Move every item once against a partner chosen by its share of the mass, in random order."""
        if len(self._movable) < 2:
            return
        partners = self._chance.choice(self._movable, size=len(self._movable), p=self._share)
        for item, partner in zip(self._chance.permutation(self._movable), partners, strict=True):
            if item != partner:
                self._move(int(item), int(partner))
        for number, total in enumerate(self._totals):
            if total.weighs:
                self._reweigh(number, total)
            else:
                self.weights[number] = self._weights(total)
        self._split_rest()

    def sums(self) -> Array:
        """Every total of every chain, shape (chains, totals)."""
        rows = [(weights * self.amounts).sum(axis=1) for weights in self.weights]
        return np.array(rows).T.reshape(len(self.amounts), len(rows))

    def _weights(self, total: Total) -> Array:
        """Weights drawn evenly between their limits, shape (chains, n + 1)."""
        return total.least + (total.most - total.least) * self._chance.random(self.amounts.shape)

    def _split_rest(self) -> None:
        """Give the unnamed part one split of kinds in each chain; totals that weigh draws find their share of it."""
        if self._rest is None:
            return
        drawn = self._rest.drawn(self._chance, len(self.amounts))
        for number in range(drawn.shape[1]):
            if not self._totals[number].weighs:
                self.weights[number][:, -1] = drawn[:, number]

    def _reweigh(self, number: int, total: Total) -> None:
        """Draw the open weights of a measured total anew, one item at a time; what it measured accepts or refuses."""
        weights = self.weights[number]
        now = (weights * self.amounts).sum(axis=1)
        for item in np.flatnonzero(total.most > total.least):
            fresh = total.least[item] + (total.most[item] - total.least[item]) * self._chance.random(len(now))
            then = now + (fresh - weights[:, item]) * self.amounts[:, item]
            taken = np.log(self._chance.random(len(now))) < _fit(total, then) - _fit(total, now)
            weights[:, item] = np.where(taken, fresh, weights[:, item])
            now = np.where(taken, then, now)

    def _move(self, item: int, partner: int) -> None:
        low, high = self._exchange.interval(self.amounts, item, partner)
        both = self.amounts[:, item] + self.amounts[:, partner]
        preference = np.isfinite(self._levels.spread[[item, partner]])
        if self._measured or preference.all():
            drawn = self._gridded(item, partner, low, high, both)
        elif not preference.any():
            drawn = low + (high - low) * self._chance.random(len(low))
        elif preference[0]:
            drawn = self._truncated(item, low, high)
        else:
            drawn = both - self._truncated(partner, both - high, both - low)
        self.amounts[:, item] = np.clip(drawn, low, high)
        self.amounts[:, partner] = both - self.amounts[:, item]

    def _truncated(self, item: int, low: Array, high: Array) -> Array:
        """Truncated log-normal by the inverse of its distribution, in the tail where it has more digits."""
        mean, spread = self._levels.mean[item], self._levels.spread[item]
        left = (np.log(np.maximum(low, TINY)) - mean) / spread
        right = (np.log(np.maximum(high, TINY)) - mean) / spread
        flip = left + right > 0
        first, second = np.where(flip, -right, left), np.where(flip, -left, right)
        below, above = ndtr(first), ndtr(second)
        chance = self._chance.random(len(low))
        drawn = ndtri(below + chance * (above - below))
        drawn = np.where(
            above - below > 1e-280, np.clip(drawn, first, second), second - 1e-3 * chance * (second - first)
        )
        return np.asarray(np.exp(mean + spread * np.where(flip, -drawn, drawn)))

    def _gridded(self, item: int, partner: int, low: Array, high: Array, both: Array) -> Array:
        """A draw from the conditional on a grid that is fine towards either end, corrected by acceptance."""
        nodes = _nodes(low, high, both)
        density = self._conditional(item, partner, nodes, both)
        peak = density.max(axis=1, keepdims=True)
        weight = np.exp(density - peak) + 1e-12
        width = np.diff(nodes, axis=1)
        mass = np.cumsum((weight[:, 1:] + weight[:, :-1]) / 2 * width, axis=1)
        total = mass[:, -1]
        target = self._chance.random(len(low)) * total
        cell = np.minimum((mass < target[:, None]).sum(axis=1), width.shape[1] - 1)
        rows = np.arange(len(low))
        drawn = nodes[rows, cell] + width[rows, cell] * self._within(weight[rows, cell], weight[rows, cell + 1])
        here = self.amounts[:, item]
        old_cell = np.clip((nodes <= here[:, None]).sum(axis=1) - 1, 0, width.shape[1] - 1)
        ends = self._conditional(item, partner, np.stack([here, drawn], axis=1), both) - peak
        proposal = np.log(
            np.stack([_linear(nodes, weight, rows, old_cell, here), _linear(nodes, weight, rows, cell, drawn)], axis=1)
        )
        gain = (ends - proposal)[:, 1] - (ends - proposal)[:, 0]
        taken = (np.log(self._chance.random(len(low))) < gain) & (total > 0)
        return np.where(taken, drawn, here)

    def _within(self, left: Array, right: Array) -> Array:
        """Place within a cell whose density rises or falls in a straight line."""
        chance = self._chance.random(len(left))
        slope = right - left
        flat = np.abs(slope) < 1e-9 * (left + right)
        root = np.sqrt(left**2 + chance * (right**2 - left**2))
        return np.where(flat, chance, (root - left) / np.where(flat, 1.0, slope))

    def _conditional(self, item: int, partner: int, values: Array, both: Array) -> Array:
        density = self._levels.log_density(item, values)
        density = density + self._levels.log_density(partner, both[:, None] - values)
        for number in self._measured:
            weights = self.weights[number]
            first, second = weights[:, item], weights[:, partner]
            others = (weights * self.amounts).sum(axis=1)
            others = others - first * self.amounts[:, item] - second * self.amounts[:, partner]
            sums = (others + second * both)[:, None] + (first - second)[:, None] * values
            density = density + _fit(self._totals[number], sums)
        return np.asarray(density)


def _nodes(low: Array, high: Array, both: Array) -> Array:
    """Grid nodes, shape (chains, 2 GRID), finer towards the low end of either partner."""
    share = np.linspace(0.0, 1.0, GRID)
    bottom, top = np.maximum(low, TINY), np.maximum(high, TINY)
    rising = bottom[:, None] * (top / bottom)[:, None] ** share
    under, over = np.maximum(both - high, TINY), np.maximum(both - low, TINY)
    falling = both[:, None] - under[:, None] * (over / under)[:, None] ** share
    nodes = np.sort(np.concatenate([rising, falling], axis=1), axis=1)
    nodes = np.clip(nodes, low[:, None], high[:, None])
    nodes[:, 0], nodes[:, -1] = low, high
    return np.asarray(nodes)


def _linear(nodes: Array, weight: Array, rows: Places, cell: Places, at: Array) -> Array:
    """The straight-line density of the grid at a point of each row."""
    left, right = nodes[rows, cell], nodes[rows, cell + 1]
    share = np.where(right > left, (at - left) / np.where(right > left, right - left, 1.0), 0.5)
    return np.asarray(weight[rows, cell] * (1 - share) + weight[rows, cell + 1] * share)


def _fit(total: Total, sums: Array) -> Array:
    """Log likelihood for sums of any shape: normal around what was measured; nought within a band, steep outside it."""
    if total.band is not None:
        low, high = total.band
        outside = np.maximum(low - sums, 0) + np.maximum(sums - high, 0)
        return np.asarray(-0.5 * (outside / (EDGE * (high - low) + TINY)) ** 2)
    assert total.measured is not None
    return np.asarray(-0.5 * ((sums - total.measured) / total.uncertainty) ** 2)
