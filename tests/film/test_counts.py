"""Limits from counts: how often they hold, and how many fields are enough."""

from __future__ import annotations

import numpy as np
import pytest

from formulate.film.counts import areal_density, for_limit, for_precision, scattered_limits


def held(fields: int, mean: float, scatter: float, tries: int = 2000) -> float:
    """Share of 95 % limits that hold the truth, counts negative binomial with this variance over the mean."""
    chance = np.random.default_rng([fields, int(mean), int(10 * scatter)])
    rates = (
        np.full((tries, fields), mean)
        if scatter == 1
        else chance.gamma(mean / (scatter - 1), scatter - 1, (tries, fields))
    )
    inside = []
    for counts in chance.poisson(rates):
        if counts.sum():
            low, high = scattered_limits(counts.tolist(), [1.0] * fields)
            inside.append(low <= mean <= high)
    return float(np.mean(inside))


@pytest.mark.parametrize("fields", [3, 5, 10])
@pytest.mark.parametrize("scatter", [1.0, 3.0])
def test_limits_across_fields_hold_what_they_say(fields, scatter):
    """Three standard errors of 2,000 tries are 1.5 %; testing for scatter first would hold 84 % with 3 to 5 fields."""
    assert held(fields, 20, scatter) == pytest.approx(0.95, abs=0.02)


def test_equal_counts_are_not_exact():
    found = areal_density([[4, 4, 4]], 25.0)
    assert found.low < 0.9 * found.best < found.best < found.high


def test_coupons_are_the_unit_from_three_on():
    """Coupons that differ widen the limits, however alike the fields of each are."""
    alike = areal_density([[10, 11, 9], [10, 9, 11], [11, 10, 9]], 25.0)
    apart = areal_density([[2, 3, 2], [10, 9, 11], [20, 19, 21]], 25.0)
    assert (alike.across, apart.across) == ("coupons", "coupons")
    assert apart.high / apart.low > 3 * alike.high / alike.low
    assert areal_density([[2, 3], [10, 9]], 25.0).across == "fields"


def test_background_and_recognition():
    """Rate less blank, over recognition: (6 - 1) / (0.5 x 25)."""
    found = areal_density([[6, 6, 6, 6]], 25.0, recognised=0.5, background=1.0)
    assert found.best == pytest.approx(5 / 12.5)
    below = areal_density([[0, 1, 0]], 25.0, background=2.0)
    assert below.best == 0
    assert below.high >= 2.9957 / 3 / 25


def test_plan_for_precision_gives_what_it_says():
    """Counts drawn as planned, coupons scattered: the half width of the limits is about the factor wanted."""
    plan = for_precision(20.0, 1.5, between=0.2)
    assert plan is not None
    chance = np.random.default_rng(8)
    widths = []
    for _ in range(300):
        rates = 20 * np.exp(0.2 * chance.standard_normal(plan.coupons))
        counts = [chance.poisson(rate, plan.fields).tolist() for rate in rates]
        found = areal_density(counts, 1.0)
        widths.append(np.log(found.high / found.low) / 2)
    assert np.exp(np.median(widths)) == pytest.approx(1.5, abs=0.12)
    assert for_precision(0.01, 1.01) is None


def test_plan_for_a_limit():
    plan = for_limit(25.0, 0.01)
    assert plan.reached <= 0.01
    assert areal_density([[0] * plan.fields] * plan.coupons, 25.0).high == pytest.approx(plan.reached)
