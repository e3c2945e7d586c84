"""Areal density from counts under a microscope, with limits.

The rule of counting is that of a counting chamber: a particle that touches the upper or left edge of a field is
counted, one that touches the lower or right edge is not, so that fields laid side by side count each once.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, exp, inf, log, sqrt
from typing import NamedTuple

import numpy as np

EDGE_RULE = (
    "A particle that touches the upper or left edge of the field counts, one that touches the lower or right edge "
    "does not."
)
LEVEL = 0.95
ENOUGH_COUPONS = 3
"""Coupons from which on the scatter between coupons, the unit of replication, is what limits are made of."""


class Counted(NamedTuple):
    """Density of what was counted, per um2, background and recognition allowed for.

    ``scatter`` is the variance of the counts over that of chance alone; ``across`` says between what it was found:
    chance (one field), fields, coupons. Where nothing above the background was seen, ``low`` and ``best`` are nought
    and ``high`` is a one-sided limit.
    """

    low: float
    best: float
    high: float
    level: float
    fields: int
    coupons: int
    total: int
    scatter: float
    across: str


def poisson_limits(count: int, level: float = LEVEL) -> tuple[float, float]:
    """Garwood's limits of the mean of a Poisson count; for a count of nought the upper one is one-sided.

    ``count`` 0 gives -ln(1 - level), 2.9957 at 0.95.
    """
    from scipy.special import gammaincinv

    if count == 0:
        return 0.0, -log(1 - level)
    tail = (1 - level) / 2
    return float(gammaincinv(count, tail)), float(gammaincinv(count + 1, 1 - tail))


def scattered_limits(counts: Sequence[int], exposures: Sequence[float], level: float = LEVEL) -> tuple[float, float]:
    """Limits of the rate from several counts: quasi-Poisson, Student's t on the log scale.

    Parameters
    ----------
    counts, exposures
        What was counted in each unit, and its area; at least two units, at least one particle.
    level
        Share of such ranges that hold the truth.

    Notes
    -----
    The scatter is always estimated, never first tested for: testing and then switching covers too little with three
    to five fields. It is not let below what chance alone gives in 95 of 100 cases, lest equal counts seem exact.
    """
    from scipy.special import chdtri, stdtrit

    free = len(counts) - 1
    scatter = max(_scatter(counts, exposures), float(chdtri(free, 0.95)) / free)
    half = float(stdtrit(free, (1 + level) / 2)) * sqrt(scatter / sum(counts))
    rate = sum(counts) / sum(exposures)
    return (rate * exp(-half), rate * exp(half)) if half < 700 else (0.0, inf)


def _scatter(counts: Sequence[int], exposures: Sequence[float]) -> float:
    """Pearson's chi square over its degrees of freedom."""
    seen, area = np.array(counts, dtype=float), np.array(exposures)
    expected = area * seen.sum() / area.sum()
    return float(((seen - expected) ** 2 / expected).sum() / (len(seen) - 1))


def areal_density(
    coupons: Sequence[Sequence[int]],
    area_um2: float,
    recognised: float = 1.0,
    background: float = 0.0,
    level: float = LEVEL,
) -> Counted:
    """Particles per um2 from counts per field, grouped by coupon.

    Parameters
    ----------
    coupons
        Counts of every field of every coupon.
    area_um2
        Area of one field.
    recognised
        Chance that a particle that is there is counted.
    background
        Mean count per field on a blank, taken as known.
    level
        Share of such ranges that hold the truth.
    """
    fields = [count for coupon in coupons for count in coupon]
    total, number = sum(fields), len(fields)
    scatter, across = 1.0, "chance"
    if total == 0:
        low, high = poisson_limits(0, level)
        low, high = low / number, high / number
    elif number == 1:
        low, high = poisson_limits(total, level)
    else:
        by_coupon = len(coupons) >= ENOUGH_COUPONS
        counts = [sum(coupon) for coupon in coupons] if by_coupon else fields
        exposures = [float(len(coupon)) for coupon in coupons] if by_coupon else [1.0] * number
        scatter, across = _scatter(counts, exposures), "coupons" if by_coupon else "fields"
        low, high = scattered_limits(counts, exposures, level)
    per_um2 = 1 / (area_um2 * recognised)
    least = poisson_limits(0, level)[1] / number  # fewer than the background says nothing below this limit
    net = max(0.0, low - background), max(0.0, total / number - background), max(least, high - background)
    return Counted(
        net[0] * per_um2, net[1] * per_um2, net[2] * per_um2, level, number, len(coupons), total, scatter, across
    )


class Replication(NamedTuple):
    """How many fields on how many coupons; ``reached`` is the factor x/÷ or the upper limit that they give."""

    coupons: int
    fields: int
    reached: float


def for_precision(
    mean_per_field: float, factor: float, between: float = 0.0, scatter: float = 1.0, level: float = LEVEL
) -> Replication | None:
    """Smallest effort that tells the density to x/÷ ``factor``; None if 30 coupons of 100 fields do not.

    Parameters
    ----------
    mean_per_field
        Particles expected in a field.
    factor
        Factor x/÷ that is wanted, above 1.
    between
        Standard deviation of the natural logarithm of the density between coupons.
    scatter
        Variance of the counts in fields of one coupon over that of chance.
    level
        Share of such ranges that hold the truth.
    """
    from scipy.special import stdtrit

    best: Replication | None = None
    for coupons in range(ENOUGH_COUPONS, 31):
        room = (log(factor) / float(stdtrit(coupons - 1, (1 + level) / 2))) ** 2 * coupons - between**2
        if room <= 0:
            continue
        fields = ceil(scatter / (mean_per_field * room))
        if fields <= 100 and (best is None or coupons * fields < best.coupons * best.fields):
            variance = (between**2 + scatter / (mean_per_field * fields)) / coupons
            best = Replication(coupons, fields, exp(float(stdtrit(coupons - 1, (1 + level) / 2)) * sqrt(variance)))
    return best


def for_limit(area_um2: float, most_per_um2: float, recognised: float = 1.0, level: float = LEVEL) -> Replication:
    """Fields, all on three coupons at least, in which none may be seen for the density to lie below a limit."""
    fields = ceil(poisson_limits(0, level)[1] / (most_per_um2 * area_um2 * recognised) - 1e-9)
    each = max(1, ceil(fields / ENOUGH_COUPONS))
    limit = poisson_limits(0, level)[1] / (each * ENOUGH_COUPONS * area_um2 * recognised)
    return Replication(ENOUGH_COUPONS, each, limit)
