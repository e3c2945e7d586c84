"""Lists from formularies, product pages and labels of other countries, and words that a scan damaged. All invented."""

from __future__ import annotations

import pytest

from formulate.reading.slips import letters_restored
from tests.reading.test_lists import amounts, read


def test_phases_of_a_formulary_are_no_part_of_the_names() -> None:
    words = "Sequence Trade Name INCI Name %\nPhase A Montan wax 3.0\nParaffin, medium viscous oil 5.0\n"
    assert amounts(f"{words}Phase B Water 91.8\nXanthan gum 0.2\n") == [
        ("Montan wax", 0.03, 0.03),
        ("Paraffin, medium viscous oil", 0.05, 0.05),
        ("Water", 0.918, 0.918),
        ("Xanthan gum", 0.002, 0.002),
    ]
    letters = "Phase INCI Name %\nA Montan wax 2.5\nCeresin 16.0\nB Water 74.5\nGlycerin 7.0\n"
    assert [name for name, _, _ in amounts(letters)] == ["Montan wax", "Ceresin", "Water", "Glycerin"]


def test_a_list_in_the_cell_of_a_table_of_particulars() -> None:
    text = "Article | Ferry seat balm |\nIngredients | Beeswax, Carnauba wax, Orange oil |\n"
    text += "Net | 300 g |\nUse | on wood, leather, horn |\n"
    assert [line.name for line in read(text).lines] == ["Beeswax", "Carnauba wax", "Orange oil"]
    dots = (
        "\u54c1\u540d | \u30ef\u30c3\u30af\u30b9 |\n\u6210\u5206 | \u871c\u874b\u30fb\u6c34\u30fb\u690d\u7269\u6cb9 |\n"
    )
    assert [line.name for line in read(dots).lines] == ["\u871c\u874b", "\u6c34", "\u690d\u7269\u6cb9"]


def test_what_a_page_repeats_below_each_name_is_left_over() -> None:
    remark = "No risk has been found to this day"
    reading = read(f"Ingredients:\nAqua\n{remark}\nGlycerin\n{remark}\nLimonene\n{remark}\n")
    assert [line.name for line in reading.lines] == ["Aqua", "Glycerin", "Limonene"]
    assert sum(remark in piece.text for piece in reading.left_over) == 3


def test_figures_on_lines_above_their_names_below_the_title_of_the_law() -> None:
    assert amounts("Angaben nach Verordnung EG Nr. 648/2004\n\n5 - 15 %\nnichtionische Tenside\n< 5 %\nSeife\n") == [
        ("nichtionische Tenside", 0.05, 0.15),
        ("Seife", None, 0.05),
    ]


RUSSIAN = "\u0431\u043e\u043b\u0435\u0435"
LIMITS = [
    (f"15 % \u0438\u043b\u0438 {RUSSIAN}, \u043d\u043e \u043c\u0435\u043d\u0435\u0435 30 %", 0.15, 0.3, False, True),
    (f"\u043d\u0435 {RUSSIAN} 3 %", None, 0.03, False, False),
    ("\u043d\u0435 \u043c\u0435\u043d\u0435\u0435 3 %", 0.03, None, False, False),
    (f"30 % \u0438 {RUSSIAN}", 0.3, None, False, False),
    ("5 % oder mehr, aber weniger als 15 %", 0.05, 0.15, False, True),
    ("5 % und dar\u00fcber, jedoch weniger als 15 %", 0.05, 0.15, False, True),
    ("5 % ou plus mais moins de 15 %", 0.05, 0.15, False, True),
    ("30 % et plus", 0.3, None, False, False),
    ("5 % o m\u00e1s pero menos de 15 %", 0.05, 0.15, False, True),
    ("pas plus de 2 %", None, 0.02, False, False),
    ("12\u8cea\u91cf%", 0.12, 0.12, False, False),
]


@pytest.mark.parametrize(("printed", "low", "high", "low_open", "high_open"), LIMITS)
def test_limits_in_words_of_other_languages(
    printed: str, low: float | None, high: float | None, low_open: bool, high_open: bool
) -> None:
    stated = read(f"Ceresin {printed}\nWater 40 %\n").lines[0].stated
    assert stated is not None
    assert (stated.low, stated.high, stated.low_open, stated.high_open) == (low, high, low_open, high_open)


def test_a_band_with_commas_inside_holds_for_what_follows() -> None:
    text = (
        f"15 % \u0438\u043b\u0438 {RUSSIAN}, \u043d\u043e \u043c\u0435\u043d\u0435\u0435 30 %: "
        "\u043d\u0435\u0438\u043e\u043d\u043e\u0433\u0435\u043d\u043d\u044b\u0435 \u041f\u0410\u0412; "
        "\u043c\u0435\u043d\u0435\u0435 5 %: \u043c\u044b\u043b\u043e"
    )
    assert [(low, high) for _, low, high in amounts(text)] == [(0.15, 0.3), (None, 0.05)]
    assert [(low, high) for _, low, high in amounts("> 30 % water, < 5 %: soap, ethanol")] == [
        (0.3, None),
        (None, 0.05),
        (None, 0.05),
    ]


DAMAGED = (
    "So1vent Solvent, Availab1e Available, Glyco1 Glycol, C1eans Cleans, octy1triethoxysilane octyltriethoxysilane, "
    "0SHA OSHA, P0SITION POSITION, EMULSI0N EMULSION, MlNERAL MINERAL, lNGREDIENT INGREDIENT"
)


@pytest.mark.parametrize("pair", DAMAGED.split(", "))
def test_digits_inside_words_are_letters(pair: str) -> None:
    damaged, meant = pair.split()
    assert letters_restored(damaged) == meant


@pytest.mark.parametrize(
    "name",
    ["C12-14", "PEG1stearate", "Silica1", "H2O", "Al2O3", "AlOH", "NaCl", "AlCl3", "PEG-10", "10mm", "1l"],
)
def test_digits_of_names_and_formulas_stay(name: str) -> None:
    assert letters_restored(name) == name


@pytest.mark.parametrize(
    "line", ["Product dilution information : 3.13 % - 6.25 %", "Use dilution: 2 - 5 %", "Diluted to 3 % in water"]
)
def test_how_a_product_is_diluted_is_no_row(line: str) -> None:
    reading = read(f"Ethanol 64-17-5 5 %\nWater 7732-18-5 95 %\n{line}\n")
    assert [one.name for one in reading.lines] == ["Ethanol", "Water"]
    assert [piece.why for piece in reading.left_over] == ["says how the product is diluted for use"]


def test_one_small_word_below_ends_the_name_above() -> None:
    text = "Nombre CAS %\nCarbonic acid, N-butyl-, 3-octynyl    64-17-5    1-5\n              ester\n"
    text += "Glycerin   56-81-5   1-5\n"
    assert [line.name for line in read(text).lines] == ["Carbonic acid, N-butyl-, 3-octynyl ester", "Glycerin"]


def test_signs_of_hazard_and_empty_columns_in_any_case() -> None:
    text = "naphtha 64742-48-9 < 2.9 % nd nd nd\nbutane 106-97-8 < 5 % nd nd\nxn\n"
    assert [line.name for line in read(text).lines] == ["naphtha", "butane"]


def test_a_shelf_life_below_the_list_is_an_instruction() -> None:
    shelf = "\u0421\u0440\u043e\u043a \u0433\u043e\u0434\u043d\u043e\u0441\u0442\u0438: 2 \u0433\u043e\u0434\u0430"
    reading = read(
        f"\u0421\u043e\u0441\u0442\u0430\u0432: \u0432\u043e\u0434\u0430 30 %, \u0432\u043e\u0441\u043a 5 %\n{shelf}\n"
    )
    assert len(reading.lines) == 2
    assert reading.left_over[-1].text == shelf


def test_shares_beside_measures_are_kept() -> None:
    text = "Ingr\u00e9dients\n- 110 g de cire d'abeille (environ 26%)\n- 285 mL d'huile de lin (environ 74%)\n"
    assert [low for _, low, _ in amounts(text)] == [0.26, 0.74]


def test_bare_numbers_among_parts_are_parts() -> None:
    lines = read(
        "\u2022 wax - 30 weight parts,\n\u2022 stearin - 10,\n\u2022 rosin - 10,\n\u2022 turpentine - 40 parts.\n"
    ).lines
    assert [line.name for line in lines] == ["wax", "stearin", "rosin", "turpentine"]
    assert all(one.stated and one.stated.low is None and one.stated.doubtful for one in lines)


def test_a_number_behind_risk_codes_on_one_line_is_a_table() -> None:
    lines = read("Alkanen, C11-15 60-70 Xn R65, R66 CAS-nr. 90622-58-5").lines
    assert [(one.name, one.cas, one.stated and one.stated.low) for one in lines] == [
        ("Alkanen, C11-15", "90622-58-5", 0.6),
    ]


def test_the_title_of_a_column_of_dangers_is_no_entry() -> None:
    lines = read("Composants contribuant aux dangers (%) : (1)\nPHRASES DE RISQUES\nCire 22-25 %\nEau 75-78 %\n").lines
    assert [one.name for one in lines] == ["Cire", "Eau"]
