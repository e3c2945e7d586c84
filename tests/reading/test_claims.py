"""Lists told in sentences, records and bars, and what stands around them. All are invented: a sundial, a ski lift."""

from __future__ import annotations

import time

import pytest

from formulate.reading.claims import claim_drafts
from tests.reading.test_lists import amounts, known, names, read


def test_amounts_in_the_words_of_a_claim() -> None:
    text = (
        "1. A sundial balm comprising: ethanol in an amount between about 30.0 and about 55.0 percent; a light naphtha"
        " in an amount between about 2.0 and about 5.0 percent; a third clay in an amount between about 3.0 and about"
        " 4.0 percent, by weight"
    )
    assert amounts(text) == [("ethanol", 0.3, 0.55), ("light naphtha", 0.02, 0.05), ("third clay", 0.03, 0.04)]
    text = "A balm comprising montan wax in an amount of from 0.4-2% w/w and limonene in an amount of from 0.1-1% w/w."
    assert amounts(text) == [("montan wax", 0.004, 0.02), ("limonene", 0.001, 0.01)]
    text = "A balm consisting of ethanol on the order of about 20 to about 30 weight percent, a dye and water."
    assert amounts(text)[0] == ("ethanol", 0.2, 0.3)


def test_the_sum_of_several_is_no_ingredient() -> None:
    text = "Ingredients:\nEthanol 20 %\nThe total amount of solvents in the balm is 20-30 % w/w.\nGlycerin 5 %\n"
    assert names(text) == ["Ethanol", "Glycerin"]


def test_records_that_tell_limits_instead_of_numbers() -> None:
    text = (
        "=== Composition/Information on Ingredients ===\n\nIngred Name:MONTAN WAX\nFraction by Wt: 4%\n"
        "OSHA PEL:3 MG/M3\nACGIH TLV:3 MG/M3\n\nIngred Name:INERT FILLER\nOSHA PEL:N/K\n\n"
        "Ingred Name:SILICA:<0.2%\nRTECS #:VV1234567\n"
        "OSHA PEL:N/K\n"
    )
    assert amounts(text) == [("MONTAN WAX", 0.04, 0.04), ("INERT FILLER", None, None), ("SILICA", None, 0.002)]


@pytest.mark.parametrize(
    "sentence",
    [
        "This mixture does not contain any substances to be mentioned here.",
        "The mixture does not contain hazardous components.",
    ],
)
def test_page_heads_around_a_declaration_of_nothing(sentence: str) -> None:
    text = f"SECTION 3: Composition/Information on ingredients\nSki lift grease\nas the rules ask for\n{sentence}\n"
    assert names(text) == []
    assert any("nothing hazardous" in left.why for left in read(text).left_over)


def test_a_sentence_about_the_rest_is_a_remark() -> None:
    head = "3. Composition/information on ingredients\nEthanol 64-17-5 10-20 %\nGlycerin 56-81-5 1-5 %\n"
    reading = read(head + "Balance of other ingredients are harmless or less than 1% by weight.\n")
    assert [line.name for line in reading.lines] == ["Ethanol", "Glycerin"]
    assert any("Balance" in left.text for left in reading.left_over)
    assert names(head + "Other harmless ingredients 75-80 %\n")[-1] == "Other harmless ingredients"
    assert names("Other ingredients are water, ethanol, glycerin.")[-2:] == ["ethanol", "glycerin"]


def test_one_name_and_one_measure_between_bars() -> None:
    text = "Brew no. 4 | ||\nMontan wax | 3 dl | |\nSilica | 1½ dl | |\nLimonene | 2 to 3 dl | |\nWater | 20 dl | |\n"
    assert names(text) == ["Montan wax", "Silica", "Limonene", "Water"]
    assert all(line.stated and line.stated.low is None and line.stated.doubtful for line in read(text).lines)
    assert amounts("Montan wax | 3 % |\nSilica | 2-4 % |\n") == [("Montan wax", 0.03, 0.03), ("Silica", 0.02, 0.04)]


def test_rows_below_numbers_that_count_up() -> None:
    text = (
        "TABLE OF THE BALM\nNo.\nTrade term\nOther term\n1\nWosk\nMontan wax\n2\nKrzemionka, wytrącona\nz wody\n"
        "Silica\n3\nEmulsja\n4\nBarwnik\nLimonene\n5\nOlejek\nZapach\nPerfume\nRest of the column\nPage 1 of 1\n"
    )
    reading = read(text)
    assert [line.name for line in reading.lines] == ["Montan wax", "Silica", "Emulsja", "Limonene", "Olejek"]
    assert reading.lines[1].raw.startswith("Krzemionka")
    assert [bool(line.doubtful) for line in reading.lines] == [False, False, False, False, True]
    assert any("Rest of the column" in left.text for left in reading.left_over)


def test_shares_in_running_sentences() -> None:
    text = (
        "The balm has as one ingredient from about 5 wt. % to about 30 wt. % of a clay component. This clay component"
        " has (1) from 40 wt. % to 90 wt. % of a white clay having a grain below 5, and (2) from 10 wt. % to 60 wt. %"
        " of a red clay. The balm has a second ingredient being about 20 wt. % of a light naphtha, and contains no dye."
    )
    reading = read(text)
    told = [
        (line.name, line.stated.low, line.stated.high, line.stated.doubtful) for line in reading.lines if line.stated
    ]
    assert told == [
        ("clay component", 0.05, 0.3, False),
        ("white clay", 0.4, 0.9, True),
        ("red clay", 0.1, 0.6, True),
        ("light naphtha", 0.2, 0.2, True),
    ]
    assert [bool(line.doubtful) for line in reading.lines] == [False, True, True, False]


@pytest.mark.parametrize(
    "text",
    [
        "The balm contains much and removes 80 % of the rust and 95 % of the moss within a week, as users say.",
        "It cuts wear by 30 % of the former value. It contains nothing that 40 % of the skiers would dislike.",
    ],
)
def test_shares_of_what_is_no_ingredient(text: str) -> None:
    assert claim_drafts(text, text, 0, len(text), known) == []


def test_a_group_to_choose_from_is_one_ingredient() -> None:
    text = (
        "A balm comprising 5 to 8% by weight of a gas selected from the group consisting of argon, neon, and xenon,"
        " 2% by weight of montan wax, and water"
    )
    assert amounts(text) == [("gas", 0.05, 0.08), ("montan wax", 0.02, 0.02), ("water", None, None)]
    text = "5% of a gas chosen from the list below; water; ethanol, glycerin and silica"
    assert names(text)[-3:] == ["ethanol", "glycerin", "silica"]


def test_names_of_a_table_of_exposure_limits() -> None:
    text = (
        "Danelaw Exposure Standards limonene Limonene 20 ppm / 110 mg/m3 Not Available Not Available\n"
        "EMERGENCY LIMITS\nIngredient Material name TEEL-1 TEEL-2\nlimonene Limonene 20 ppm 110 ppm\n"
        "Ingredient Original IDLH Revised IDLH\nlimonene Not Available 2,000 ppm\nnaphtha petroleum, light,\n"
        "sweetened\n1,500 mg/m3 Not Available\nmontan wax Not Available Not Available\nExposure controls\n"
    )
    reading = read(text)
    assert [line.name for line in reading.lines] == ["limonene", "naphtha petroleum, light, sweetened", "montan wax"]
    assert all(line.doubtful and line.stated is None for line in reading.lines)
    assert any("Danelaw" in left.text for left in reading.left_over)


def test_a_claim_in_chinese() -> None:
    text = (
        "本发明滑雪板蜡的特征在于它是白色膏体,由蜂蜡10~20%(重量),甘油5%以及能够使蜂蜡和水混合的乳化剂2~4%(重量)组成,"
        "各组分总和为100%。"
    )
    assert amounts(text) == [("蜂蜡", 0.1, 0.2), ("甘油", 0.05, 0.05), ("乳化剂", 0.02, 0.04)]
    assert read(text).left_over
    assert amounts("一种蜡,包括:蜂蜡10%、甘油5%和水85%。") == [
        ("蜂蜡", 0.1, 0.1),
        ("甘油", 0.05, 0.05),
        ("水", 0.85, 0.85),
    ]
    assert amounts("由衣酸5%,水95%") == [("由衣酸", 0.05, 0.05), ("水", 0.95, 0.95)]
    assert [name for name in names("蜂蜡10%,甘油5%,水余量") if name.startswith(("蜂蜡", "甘油", "水"))][:2] == [
        "蜂蜡",
        "甘油",
    ]
    assert len(names("蜂蜡10%,甘油5%,水余量")) == 3


def test_a_table_of_one_cell_a_line_below_numbers() -> None:
    text = (
        "ABSCHNITT 3: Zusammensetzung/Angaben zu Bestandteilen\n3.1\nStoffe\n3.2\nGemische\nNr.\nName des Stoffs\n"
        "Hinweise\nCAS\nEinstufung\nKonzentration\n%\n1\nEthanol\n64-17-5\nFlam. Liq. 2; H225\n10,00\n-\n25,00\nGew%\n"
        "2\nGlycerin\n56-81-5\n<\n0,5\nGew%\nSpezifische Konzentrationsgrenzwerte\nEye Irrit. 2; H319: C >= 50%\n"
    )
    assert amounts(text) == [("Ethanol", 0.1, 0.25), ("Glycerin", None, 0.005)]


def test_a_lone_amount_is_no_section() -> None:
    text = "3. Composition/information on ingredients\nName\nCAS\n%\nEthanol\n64-17-5\n3.2\nGlycerin\n56-81-5\n3.1\n"
    assert amounts(text) == [("Ethanol", 0.032, 0.032), ("Glycerin", 0.031, 0.031)]


def test_the_last_two_of_a_sentence_with_brackets() -> None:
    text = "There are ethanol, glycerin. Also, there is pine based scouring cream (pine scented soap) and silica (sand)"
    assert names(text)[-2:] == ["pine based scouring cream (pine scented soap)", "silica (sand)"]


@pytest.mark.parametrize(
    "piece",
    [
        "a selected from the list of b, ",
        "has 1 % by weight of a wax having ",
        "Silica | 1 g |\n",
        "蜡5%,",
        "能的",
        "<\n5\n%\n",
        "Ingredient TEEL IDLH\nwax 1 ppm\n",
        "the total amount of ",
    ],
)
def test_many_of_them_take_time_in_proportion(piece: str) -> None:
    began = time.perf_counter()
    read(piece * 3000)
    assert time.perf_counter() - began < 5


@pytest.mark.parametrize(
    "text",
    [
        "Contains no wax, silica or ethanol.",
        "(This example is invented: the polish for the church floor does not exist.)",
        "The pew polish contains neither wax nor ethanol.",
        "Rinse with 2 litres of clean water. Apply 5 ml of ethanol.",
        "Leaves the church floor dry. It was never rinsed with water.",
    ],
)
def test_what_is_absent_or_used_with_it_is_no_ingredient(text: str) -> None:
    assert names(text) == []
