"""What a count implies of the bottle and of the wiping, and what it cannot say.

log(density) = log(silica) + log(kept) + log(wet) - 3 log(diameter) + const: a count fixes the sum, never its parts. One
posterior over all of them is made by giving the draws of the forward calculation importance weights.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import log
from typing import NamedTuple

import numpy as np

from formulate.film.apply import NINE_IN_TEN, Array, Spread
from formulate.film.counts import Counted
from formulate.film.forward import Film

LEAST_EFFECTIVE = 100.0
"""Effective draws below which nothing is said."""
LEAST_FACTOR = 1.2
"""Silica known to x/÷ this or better is called known."""
OTHER_KEPT = (1 / 3, 3.0)
"""Other priors of the kept fraction: the typical value a third, and three times, of the one taken."""
EXPLANATIONS: dict[str, str] = {
    "little-silica": "there is less silica in the bottle than the list makes likely",
    "wiped-away": "less of it was put on or more of it was wiped away than is usual",
    "unseen": "particles are there that the instrument does not show: too low, or buried",
    "larger-particles": "the silica is in larger, hence fewer, particles than assumed",
}


class Posterior(NamedTuple):
    """Weights of the draws (sum 1) and their effective number; the log-likelihood without other priors."""

    weights: Array
    effective: float

    @property
    def can_be_said(self) -> bool:
        """Whether enough draws agree with the count."""
        return self.effective >= LEAST_EFFECTIVE


def posterior(film: Film, counted: Counted, factor: Array | None = None) -> Posterior:
    """Weigh the draws by how likely each makes the count: Poisson, its logarithm over the scatter where that is > 1.

    Parameters
    ----------
    film
        The draws.
    counted
        What was counted.
    factor
        Further weights (another prior over its own), shape (draws,).
    """
    spread = max(1.0, counted.scatter)
    mean = np.maximum(film.counted_per_field * counted.fields, 1e-12)
    log_weight = (counted.total * np.log(mean) - mean) / spread
    weights = np.exp(log_weight - log_weight.max())
    if factor is not None:
        weights = weights * factor
    total = weights.sum()
    if not np.isfinite(total) or total <= 0:
        return Posterior(np.full(len(mean), 1 / len(mean)), 0.0)
    weights = weights / total
    return Posterior(weights, float(1 / (weights**2).sum()))


def agrees(film: Film, counted: Counted) -> bool:
    """Whether the count lies where the forward draws lie at all (within their outermost 0.1 %)."""
    low, high = np.quantile(film.counted_per_field, [0.001, 0.999])
    mean = counted.total / counted.fields
    slack = 3 * np.sqrt(max(mean, 1.0) / counted.fields)
    return bool(low - slack <= mean <= high + slack)


def weighted_quantiles(values: Array, weights: Array, at: Sequence[float]) -> Array:
    """Quantiles of weighted draws."""
    order = np.argsort(values, kind="stable")
    reached = np.cumsum(weights[order])
    found: Array = values[order][np.minimum(np.searchsorted(reached, np.array(at) * reached[-1]), len(values) - 1)]
    return found


def other_kept(film: Film, kept: Spread) -> list[tuple[Spread, Array]]:
    """Other priors of the kept fraction of particles, each with its density over that of the one taken."""
    values = film.kept["particles"]
    found = []
    for times in OTHER_KEPT:
        middle = min(kept.typical * times, 0.95)
        other = Spread(min(kept.low * times, middle * 0.999), middle, max(min(kept.high * times, 1.0), middle * 1.001))
        found.append((other, np.exp(_log_density(values, other) - _log_density(values, kept))))
    return found


def _log_density(values: Array, spread: Spread) -> Array:
    """Logarithm of the density of log(values) under a spread, up to a constant; at least a tenth of a unit wide."""
    above = max(np.log(spread.high / spread.typical) / NINE_IN_TEN, 0.05)
    below = max(np.log(spread.typical / spread.low) / NINE_IN_TEN, 0.05)
    distance = np.log(values / spread.typical)
    density: Array = -0.5 * (distance / np.where(distance > 0, above, below)) ** 2 - np.log(above + below)
    return density


def explanations(film: Film, found: Posterior) -> dict[str, float]:
    """Weight of each explanation of a count below what was expected; they sum to 1.

    A draw is given to the input that takes most from the count in it, compared with the median of that input before
    counting, or with all particles showing. Draws that would show as many as the list makes likely to be there go to
    ``none``.
    """
    takes: Mapping[str, Array] = {
        "little-silica": _short(film.silica),
        "wiped-away": _short(film.wet * film.kept["particles"]),
        "unseen": -np.log(np.maximum(film.seen_share, 1e-9)),
        "larger-particles": _short(1 / film.sizes.moment(3)),
    }
    table = np.stack(list(takes.values()))
    most = table.argmax(axis=0)
    nothing = table.max(axis=0) <= 1e-9
    nothing |= film.counted_per_field >= np.median(film.there_per_field)
    weights = {name: float(found.weights[(most == index) & ~nothing].sum()) for index, name in enumerate(takes)}
    return {**weights, "none": float(found.weights[nothing].sum())}


def _short(values: Array) -> Array:
    """By how much, on the log scale, values fall short of their median."""
    middle = np.median(values)
    if middle <= 0:
        return np.zeros_like(values)
    short: Array = np.log(middle) - np.log(np.maximum(values, middle * 1e-9))
    return short


class Alone(NamedTuple):
    """How well silica is known before counting, and after endless counting of fields: factors x/÷ that hold 90 %."""

    before: float
    after: float


def counting_alone(film: Film) -> Alone | None:
    """What counting can do at most for the silica in the bottle; None where silica is known or the count does not vary.

    The scatter of log(silica) at a fixed density is found from the draws near the middle density.
    """
    known = (film.counted_per_field > 1e-6) & (film.silica > 0)
    if known.sum() < 2000:
        return None
    silica, count = np.log(film.silica[known]), np.log(film.counted_per_field[known])
    before = np.diff(np.quantile(silica, [0.05, 0.95]))[0] / 2
    if before < log(LEAST_FACTOR) or count.std() < 1e-9:
        return None
    order = np.argsort(count)
    near = order[int(len(order) * 0.4) : int(len(order) * 0.6)]
    slope = np.polyfit(count[near], silica[near], 1)[0]
    rest = silica[near] - slope * (count[near] - count[near].mean())
    after = np.diff(np.quantile(rest, [0.05, 0.95]))[0] / 2
    return Alone(float(np.exp(before)), float(np.exp(min(after, before))))
