"""Measurements printed beside the list."""

from __future__ import annotations

import pytest

from tests.reading.test_lists import read


@pytest.mark.parametrize(
    ("text", "key", "low", "best", "high"),
    [
        ("pH: 7.5", "ph", 7.5, 7.5, 7.5),
        ("pH value 8,00 - 9,00", "ph", 8.0, None, 9.0),
        ("pH (20 \u00b0C): 10", "ph", 10.0, 10.0, 10.0),
        ("Density: 0.98 g/cm3", "density_g_per_ml", 0.98, 0.98, 0.98),
        ("Density 980 kg/m\u00b3", "density_g_per_ml", 0.98, 0.98, 0.98),
        ("Specific gravity: 1.02", "density_g_per_ml", 1.02, 1.02, 1.02),
        ("Flash point: > 93 \u00b0C", "flash_point_c", 93.0, None, None),
        ("Flash point 50 \u00b0F", "flash_point_c", 10.0, 10.0, 10.0),
        ("Flammpunkt: 24 \u00b0C", "flash_point_c", 24.0, 24.0, 24.0),
        ("Non-volatile content: 18,0 - 24,0 %", "nonvolatile", 0.18, None, 0.24),
        ("Solids 35 %", "nonvolatile", 0.35, 0.35, 0.35),
        ("Density\ng/cm\u00b3\n1,00 - 1,05", "density_g_per_ml", 1.0, None, 1.05),
    ],
)
def test_a_fact_beside_the_list(text: str, key: str, low: float, best: float, high: float) -> None:
    whole = f"Greenhouse roof film\n{text}\nIngredients: Water, Glycerin\n"
    reading = read(whole)
    fact = reading.facts[key]
    assert (fact.low, fact.best, fact.high) == (low, best, high)
    assert whole[fact.place.start : fact.place.end] == fact.text
    assert [line.name for line in reading.lines] == ["Water", "Glycerin"]


@pytest.mark.parametrize(
    "text",
    ["Citric acid (pH adjuster) 5 %, Water", "Flash point: not determined", "pH neutral", "Emulsion (solids), Water"],
)
def test_no_fact_is_made_up(text: str) -> None:
    assert read(text).facts == {}
