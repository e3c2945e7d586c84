"""Amounts as printed, and digits that are none."""

from __future__ import annotations

import pytest

from formulate.catalog.store import open_catalog
from formulate.reading import read_text
from formulate.reading.amounts import amounts_in
from formulate.reading.surface import working_copy
from tests.reading.test_lists import amounts, read

LIMITS = [
    ("5 %", 0.05, 0.05, False, False),
    ("5%", 0.05, 0.05, False, False),
    ("1-5%", 0.01, 0.05, False, False),
    ("1 - 5 %", 0.01, 0.05, False, False),
    ("1\u20135 %", 0.01, 0.05, False, False),
    ("1%-5%", 0.01, 0.05, False, False),
    ("10,00 - 25,00 %", 0.1, 0.25, False, False),
    ("0,5 %", 0.005, 0.005, False, False),
    (".0036 %", 0.000036, 0.000036, False, False),
    ("<1 %", None, 0.01, False, True),
    ("< 1%", None, 0.01, False, True),
    ("\u2264 0,25 %", None, 0.0025, False, False),
    ("</=2.0 %", None, 0.02, False, False),
    ("<= 2 %", None, 0.02, False, False),
    (">50 %", 0.5, None, True, False),
    ("\u2265 30 %", 0.3, None, False, False),
    (">= 10 - < 25 %", 0.1, 0.25, False, True),
    (">= 1 - <= 5 %", 0.01, 0.05, False, False),
    ("> 15 < 30 %", 0.15, 0.3, True, True),
    ("\u22655 %, but <15 %", 0.05, 0.15, False, True),
    ("5 % or more but less than 15 %", 0.05, 0.15, False, True),
    ("10 to 20 %", 0.1, 0.2, False, False),
    ("from about 5 wt. % to about 95 wt. %", 0.05, 0.95, False, False),
    ("between 1 and 3 %", 0.01, 0.03, False, False),
    ("5\uff5e65\uff05", 0.05, 0.65, False, False),
    ("less than 1 %", None, 0.01, False, True),
    ("up to 5 %", None, 0.05, False, False),
    ("at least 2 %", 0.02, None, False, False),
    ("max. 0.5 %", None, 0.005, False, False),
    ("0.5 % max", None, 0.005, False, False),
    ("5 % or less", None, 0.05, False, False),
    ("25.0 to 95.0 weight percent", 0.25, 0.95, False, False),
    ("3 wt%", 0.03, 0.03, False, False),
    ("3 % w/w", 0.03, 0.03, False, False),
    ("3 % by weight", 0.03, 0.03, False, False),
    ("15 ppm", 0.000015, 0.000015, False, False),
    ("1,500 ppm", 0.0015, 0.0015, False, False),
    ("1 000 ppm", 0.001, 0.001, False, False),
    ("5 g/kg", 0.005, 0.005, False, False),
    ("100 %", 1.0, 1.0, False, False),
]


@pytest.mark.parametrize(("printed", "low", "high", "low_open", "high_open"), LIMITS)
@pytest.mark.parametrize("shape", ["Wax {}", "{} Wax", "Wax ({})", "Wax: {}", "Water, Wax {}", "Water 60 %; {} Wax"])
def test_an_amount_beside_its_name(
    shape: str, printed: str, low: float | None, high: float | None, low_open: bool, high_open: bool
) -> None:
    line = read(shape.format(printed)).lines[-1]
    assert line.name == "Wax"
    assert line.stated is not None
    assert line.stated.low == pytest.approx(low)
    assert line.stated.high == pytest.approx(high)
    assert (line.stated.low_open, line.stated.high_open) == (low_open, high_open)
    assert not line.stated.doubtful
    assert line.stated.text in line.raw


@pytest.mark.parametrize(
    "printed",
    [
        "64 76 %",
        "99 to about 85 %",
        "about 3 %",
        "5 % w/v",
        "5 parts",
        "10 g/l",
        "<!%",
        "120 %",
        "balance",
        "q.s.",
    ],
)
def test_what_the_print_leaves_open_is_doubtful(printed: str) -> None:
    stated = read(f"Water 10 %, Wax {printed}").lines[-1].stated
    assert stated is not None
    assert stated.doubtful


@pytest.mark.parametrize("printed", ["5 parts", "3 phr", "10 g/l", "balance", "q.s.", "proprietary"])
def test_no_fraction_is_made_of_other_units_and_words(printed: str) -> None:
    stated = read(f"Water 10 %, Wax {printed}").lines[-1].stated
    assert stated is not None
    assert (stated.low, stated.high) == (None, None)


@pytest.mark.parametrize(
    "name",
    [
        "C11-C14 isoparaffin",
        "C11-14 alkane",
        "PEG-8",
        "PEG-40 hydrogenated castor oil",
        "2-butoxyethanol",
        "1,2-hexanediol",
        "2,2,4-trimethyl-1,3-pentanediol monoisobutyrate",
        "Polysorbate 20",
        "Dimethicone 350 cSt",
        "CI 77891",
        "Yellow 5",
        "PPG-5-Laureth-5",
        "Silica 20 nm",
        "Quaternium-15",
        "Hydrocarbons, C11-C14, < 2 % aromatics",
        "Acid Blue 9",
        "1,2-benzisothiazol-3(2H)-one",
        "Naphtha (< 0.1 % benzene)",
        "Wax (melting point 60-65 \u00b0C)",
        "Polyether siloxane HLB 2-13",
        "Poly(oxy-1,2-ethanediyl)",
        "Emulsion of 35 % solids",
        "Water 18 MOhm",
    ],
)
def test_digits_of_a_name_are_no_amount(name: str) -> None:
    for text in (f"Water, {name}, Glycerin", f"Water\n{name}\nGlycerin", f"1. Water\n2. {name}\n3. Glycerin"):
        line = read(text).lines[1]
        assert line.stated is None, text
        assert line.name == name, text


def test_an_amount_beside_digits_of_a_name() -> None:
    assert amounts(
        "Hydrocarbons, C11-C14, n-alkanes, < 2 % aromatics 10 - 25 %, PEG-8 1-5 %, 2 % Polysorbate 20,"
        " Dimethicone 350 cSt 3%"
    ) == [
        ("Hydrocarbons, C11-C14, n-alkanes, < 2 % aromatics", 0.1, 0.25),
        ("PEG-8", 0.01, 0.05),
        ("Polysorbate 20", 0.02, 0.02),
        ("Dimethicone 350 cSt", 0.03, 0.03),
    ]


def test_bands_hold_for_all_that_follows() -> None:
    text = "<5 %: anionic surfactants, phosphonates; 5-15 %: non-ionic surfactants; perfume, limonene"
    assert amounts(text) == [
        ("anionic surfactants", None, 0.05),
        ("phosphonates", None, 0.05),
        ("non-ionic surfactants", 0.05, 0.15),
        ("perfume", None, None),
        ("limonene", None, None),
    ]
    assert amounts("Contains less than 5% of: anionic surfactants, perfume")[1] == ("perfume", None, 0.05)


def test_bare_numbers_count_where_the_list_says_so() -> None:
    assert [high for _, _, high in amounts("Water 94.5, Dimethicone 5, Glycerin 0.5")] == [0.945, 0.05, 0.005]
    assert [high for _, _, high in amounts("Water, Polysorbate 20, Yellow 5")] == [None, None, None]


def test_no_separators_but_amounts() -> None:
    assert amounts("Water 85% Dimethicone 5% Carnauba wax 10%") == [
        ("Water", 0.85, 0.85),
        ("Dimethicone", 0.05, 0.05),
        ("Carnauba wax", 0.1, 0.1),
    ]
    assert amounts("85% Water 5% Dimethicone 10% Carnauba wax") == [
        ("Water", 0.85, 0.85),
        ("Dimethicone", 0.05, 0.05),
        ("Carnauba wax", 0.1, 0.1),
    ]


def test_exposure_limits_and_codes_are_no_amounts() -> None:
    copy = working_copy("5 mg/m3, PEL 400 ppm, 12 mm Hg, 25 \u00b0C, LD50 2000 mg/kg oral, 50-150 cSt, 3 hours")
    assert [copy[a.start : a.end] for a in amounts_in(copy, 0, len(copy)) if a.unit == "%"] == []


def test_fractions_are_exact_decimals() -> None:
    stated = read("Wax 0.07 %").lines[0].stated
    assert stated is not None
    assert stated.high == 0.0007


def test_an_amount_first_is_not_taken_for_a_content() -> None:
    text = (
        "5 % ethoxylated castor oil, 2 % benzyl alcohol, 10 % denatured alcohol, 3 % hexanedioic acid, < 1 % emulsion"
    )
    assert [high for _, _, high in amounts(text)] == [0.05, 0.02, 0.1, 0.03, 0.01]


@pytest.mark.parametrize(
    ("text", "name", "high"),
    [
        ("Aqua, Dimethicone 5 %, Silica", "Dimethicone", 0.05),
        ("Aqua, Dimethicone <5%, Silica", "Dimethicone", 0.05),
        ("Aqua, Dimethicone 350, Silica", "Dimethicone 350", None),
        ("Aqua, Dimethicone 350 5 %, Silica", "Dimethicone 350", 0.05),
    ],
)
def test_a_number_with_a_sign_is_an_amount_even_if_a_grade_of_that_number_exists(text, name, high):
    """'Dimethicone #' is a pattern of the word list: any number behind the name is a viscosity."""
    reading, _ = read_text(text, "t", open_catalog().knows)
    line = reading.lines[1]
    assert line.name == name
    assert (line.stated.high if line.stated else None) == (None if high is None else pytest.approx(high))


def test_what_an_ingredient_contains_is_neither_a_list_nor_its_amount():
    reading, _ = read_text(
        "Ingredients: Isobutane (containing less than 0.1 % butadiene) 10-20 %, Aqua 5 %", "t", open_catalog().knows
    )
    assert [line.name for line in reading.lines] == ["Isobutane (containing less than 0.1 % butadiene)", "Aqua"]
    assert reading.lines[0].stated.low == pytest.approx(0.1)
    assert reading.lines[0].stated.high == pytest.approx(0.2)
