"""Shares by volume are no bounds by mass."""

from __future__ import annotations

import pytest

import formulate


def test_a_share_by_volume_bounds_no_mass() -> None:
    """The figure is kept as printed, but it is no bound by mass before the densities are known."""
    answer = formulate.bounds("Ethanol 20 % by volume, Water 60 %", rule="sds-eu")
    ethanol, water = (one.hard for one in answer.ingredients)
    assert ethanol is not None
    assert ethanol[1] > 0.2 + 1e-9
    assert water == pytest.approx((0.6, 0.6))
