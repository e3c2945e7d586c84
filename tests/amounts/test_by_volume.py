"""Shares by volume become shares by mass before they bound anything; strengths tell the active part."""

from __future__ import annotations

import pytest

import formulate


def test_a_share_by_volume_is_converted() -> None:
    """Shared casebook 02: 70 vol % ethanol in water is 62.39 % by mass."""
    answer = formulate.bounds("Ethanol 70 vol %\nWater")
    ethanol = answer.ingredients[0]
    assert ethanol.hard == pytest.approx((0.6239, 0.6239), abs=1e-4)
    assert "by volume" in formulate.why(answer, "/ingredients/0/hard/1").tree.children[-1].says


def test_a_printed_strength_tells_the_active_part() -> None:
    """30 % of 5 % is 1.5 % (computed); without a strength both readings of a sol are kept."""
    told = formulate.bounds("Colloidal silica (30 %) 5 %, Water 95 %")
    assert told.totals["silica"].hard == pytest.approx((0.015, 0.015), abs=1e-6)
    again = formulate.bounds("Colloidal silica 30 %, 5 %\nWater 95 %")
    assert again.totals["silica"].hard == pytest.approx((0.015, 0.015), abs=1e-6)
    open_ = formulate.bounds("Colloidal silica 5 %, Water 95 %").totals["silica"].hard
    assert open_ is not None
    assert open_[0] < 0.026
    assert open_[1] == pytest.approx(0.05)
