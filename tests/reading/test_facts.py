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


@pytest.mark.parametrize(
    ("text", "key", "numbers", "unit", "qualifier", "method", "cup"),
    [
        ("Flash point (\u00b0F): 105 TCC", "flash_point_c", (40.56, 40.56, 40.56), "\u00b0F", None, "TCC", "closed"),
        ("Flash Point: Closed cup: 44 \u00b0C", "flash_point_c", (44, 44, 44), "\u00b0C", None, "Closed cup", "closed"),
        (
            "Flash point\n: 44\u00b0C (111.2\u00b0F) [Pensky-Martens Closed Cup]",
            "flash_point_c",
            (44, 44, 44),
            "\u00b0C",
            None,
            "Pensky-Martens, Closed Cup",
            "closed",
        ),
        (
            "Flash point \n \n: 62 \u00b0C \nMethod: Setaflash closed cup",
            "flash_point_c",
            (62, 62, 62),
            "\u00b0C",
            None,
            "Setaflash closed cup",
            "closed",
        ),
        ("Flash point: 93 \u00b0C (Cleveland)", "flash_point_c", (93, 93, 93), "\u00b0C", None, "Cleveland", "open"),
        (
            "| Flash point | 38 \u00b0C (ASTM D93) |",
            "flash_point_c",
            (38, 38, 38),
            "\u00b0C",
            None,
            "ASTM D93",
            "closed",
        ),
        (
            "Flash point: > 93 \u00b0C (does not flash)",
            "flash_point_c",
            (93, None, None),
            "\u00b0C",
            ">; does not flash",
            None,
            None,
        ),
        ("Flash point: approx. >200 F", "flash_point_c", (93.33, None, None), "F", "approx. >", None, None),
        ("Flash point: -18.8 C", "flash_point_c", (-18.8, -18.8, -18.8), "C", None, None, None),
        ("Flash point: None", "flash_point_c", (None, None, None), None, "None", None, None),
        (
            "Flash point: no flash to boiling",
            "flash_point_c",
            (None, None, None),
            None,
            "no flash to boiling",
            None,
            None,
        ),
        ("Flammpunkt: nicht anwendbar", "flash_point_c", (None, None, None), None, "nicht anwendbar", None, None),
        (
            "Point d'\u00e9clair : 63 \u00b0C (coupelle ferm\u00e9e)",
            "flash_point_c",
            (63, 63, 63),
            "\u00b0C",
            None,
            "coupelle ferm\u00e9e",
            "closed",
        ),
        ("pH (1 % solution): 8.2", "ph", (8.2, 8.2, 8.2), None, "1 % solution", None, None),
        ("pH (20 \u00b0C): 10", "ph", (10, 10, 10), None, "20 \u00b0C", None, None),
        ("pH approx. 9 (10 g/l water)", "ph", (9, 9, 9), None, "approx.; 10 g/l water", None, None),
        ("pH: Not applicable", "ph", (None, None, None), None, "Not applicable", None, None),
        ("Density: 1,050 kg/m3", "density_g_per_ml", (1.05, 1.05, 1.05), "kg/m3", None, None, None),
        (
            "Relative density (water=1) 1.01 at 20 \u00b0C",
            "density_g_per_ml",
            (1.01, 1.01, 1.01),
            None,
            "water=1; at 20 \u00b0C",
            None,
            None,
        ),
        (
            "Densit\u00e9 : 0,92 \u00e0 20 \u00b0C",
            "density_g_per_ml",
            (0.92, 0.92, 0.92),
            None,
            "\u00e0 20 \u00b0C",
            None,
            None,
        ),
        ("Boiling point/range: 150 - 200 \u00b0C", "boiling_point_c", (150, None, 200), "\u00b0C", "range", None, None),
        (
            "Vapour pressure: 0.094 kPa (0.706 mm Hg) [at 20\u00b0C]",
            "vapour_pressure_pa",
            (94, 94, 94),
            "kPa",
            "at 20\u00b0C",
            None,
            None,
        ),
        (
            "Viscosity at 40 \u00b0C: <20.5 mm2/s",
            "viscosity_mm2_s",
            (None, None, 20.5),
            "mm2/s",
            "<; at 40 \u00b0C",
            None,
            None,
        ),
        ("Kinematic viscosity: 0.205 cm2/s", "viscosity_mm2_s", (20.5, 20.5, 20.5), "cm2/s", None, None, None),
        ("Viscosity, dynamic: 10 - 20 cP", "viscosity_mpa_s", (10, None, 20), "cP", "range", None, None),
        ("Viskosit\u00e4t: \u2264 20,5 cSt", "viscosity_mm2_s", (None, None, 20.5), "cSt", "\u2264", None, None),
        ("VOC: <550 g/L", "voc_g_per_l", (None, None, 550), "g/L", "<", None, None),
        ("VOC content 20.04 %", "voc", (0.2004, 0.2004, 0.2004), "%", None, None, None),
        ("Volume solids 25 - 35 %", "solids_by_volume", (0.25, None, 0.35), "%", "range", None, None),
        ("% Volatile: 60", "volatile", (0.6, 0.6, 0.6), None, None, None, None),
    ],
)
def test_a_fact_keeps_how_it_was_said(
    text: str,
    key: str,
    numbers: tuple[float | None, ...],
    unit: str | None,
    qualifier: str | None,
    method: str | None,
    cup: str | None,
) -> None:
    facts = read(f"Ferry seat glaze\n{text}\nIngredients: Water, Glycerin\n").facts
    fact = facts[key]
    assert (fact.low, fact.best, fact.high) == pytest.approx(numbers)
    assert (fact.unit, fact.qualifier, fact.method, fact.cup) == (unit, qualifier, method, cup)
    assert list(facts) == [key]


@pytest.mark.parametrize(
    ("printed", "key", "expected"),
    [  # factors: NIST SP 811 (2008), Appendix B.8
        ("Density: 8.34 lb/gal", "density_g_per_ml", 0.99935),
        ("Density: 62.4 lb/ft3", "density_g_per_ml", 0.99955),
        ("Vapor pressure: 20 mm Hg", "vapour_pressure_pa", 2666.44),
        ("Vapor pressure: 2 hPa", "vapour_pressure_pa", 200.0),
        ("Vapor pressure: 1 psi", "vapour_pressure_pa", 6894.757),
        ("VOC: 4.6 lb/gal", "voc_g_per_l", 551.2),
        ("Flash point: 32 \u00b0F", "flash_point_c", 0.0),
        ("Boiling point: 373.15 K", "boiling_point_c", 100.0),
        ("Viscosity: 0.5 Pa.s", "viscosity_mpa_s", 500.0),
    ],
)
def test_units_are_converted(printed: str, key: str, expected: float) -> None:
    assert read(printed).facts[key].best == pytest.approx(expected, rel=1e-4)


@pytest.mark.parametrize(
    "text",
    [
        "Vapour density (air=1): 3.1",
        "Relative vapour density: 3",
        "Vapor Density: 2.5",
        "Bulk density: 600 kg/m3",
        "Dampfdichte: 3,2",
        "Density of vapour: 2.4",
        "Flash point: no data available",
        "pH: not determined",
        "Boiling Point | | | Colour of it (H2O=1) | | | | 1.2",
        "Density: 98 g/cm3",
        "pH: 8 %",
    ],
)
def test_what_is_no_such_quantity_gives_no_number(text: str) -> None:
    facts = read(text).facts
    assert not {"density_g_per_ml", "ph", "flash_point_c", "boiling_point_c"} & set(facts)


def test_the_first_of_two_statements_stands_and_the_other_is_told() -> None:
    reading = read(
        "SECTION 1: Identification\nInvented roof film\nDensity: 0.90 g/cm3\n"
        "SECTION 9: Physical and chemical properties\nDensity at 15 \u00b0C: 0.92 g/cm3\nDensity: 0.90 g/ml\n"
    )
    assert reading.facts["density_g_per_ml"].best == 0.90
    told = [note for note in reading.notes if "stands for density_g_per_ml" in note]
    assert len(told) == 1
    assert "0.92 g/cm3" in told[0]
    assert "line 5" in told[0]
    assert any("0.92" in piece.text for piece in reading.left_over)


def test_facts_come_from_the_sections_on_the_product() -> None:
    reading = read(
        "SECTION 3: Composition/information on ingredients\nEthanol 64-17-5 10 - 20 %\nFlash point: 13 \u00b0C\n"
        "SECTION 9: Physical and chemical properties\nFlash point: 41 \u00b0C\n"
        "SECTION 12: Ecological information\npH: 3\n"
    )
    assert reading.facts["flash_point_c"].best == 41
    assert "ph" not in reading.facts


def test_a_statement_is_shown_with_the_cup_that_its_words_only_imply() -> None:
    fact = read("Flash point: 38 \u00b0C PMCC").facts["flash_point_c"]
    assert fact.printed() == "Flash point: 38 \u00b0C PMCC (closed cup)"
