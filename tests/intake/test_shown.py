"""Values of cells as a spreadsheet shows them (ECMA-376 part 1, 18.8.31: number formats)."""

from __future__ import annotations

from datetime import date, datetime, time

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulate.intake.shown import shown


@pytest.mark.parametrize(
    ("value", "number_format", "text"),
    [
        (0.05, "0%", "5 %"),
        (0.05, "0.00%", "5 %"),
        (0.07, "0.0 %", "7 %"),
        (0.125, "0%", "12.5 %"),
        (1, "0%", "100 %"),
        (0.00001, "General", "0.00001"),
        (1e-05, "0%", "0.001 %"),
        (4.999999999999999, "General", "5"),
        (0.1 + 0.2, "0.00", "0.3"),
        (5, '0.0" %"', "5 %"),
        (5, '0\\ "%"', "5 %"),
        (0.1, '"<"0.0" %"', "<0.1 %"),
        (350, '0" cSt"', "350 cSt"),
        (12, "0;[Red]-0", "12"),
        (-3.5, "General", "-3.5"),
        (10**20, "0", "100000000000000000000"),
        (2.5, "_-* #,##0.00_-", "2.5"),
        (float("inf"), "0%", "inf"),
        (True, "General", "TRUE"),
        (datetime(2026, 1, 2), "yyyy-mm-dd", "2026-01-02"),
        (datetime(2026, 1, 2, 3, 4), "yyyy-mm-dd", "2026-01-02 03:04"),
        (date(2026, 1, 2), "d/m/y", "2026-01-02"),
        (time(8, 30), "h:mm", "08:30:00"),
        ("< 5 %", "0%", "< 5 %"),
    ],
)
def test_shown(value: object, number_format: str, text: str) -> None:
    assert shown(value, number_format) == text


@given(st.floats() | st.integers(), st.text(max_size=30))
def test_any_format_gives_text(value: float, number_format: str) -> None:
    assert isinstance(shown(value, number_format), str)


@given(st.decimals(0, 100, places=3))
def test_a_percent_comes_back_exactly(percent: object) -> None:
    printed = shown(float(percent) / 100, "0.0%")  # type: ignore[arg-type]
    assert float(printed.removesuffix(" %")) == float(percent)  # type: ignore[arg-type]
