"""Lists as people paste them. All lists are invented: a greenhouse roof, a church floor, ferry seats."""

from __future__ import annotations

import pytest

from formulate.domain.line import Line, Reading
from formulate.reading import read_text

WORDS = {
    "water",
    "aqua",
    "isopropyl alcohol",
    "ethanol",
    "glycerin",
    "dimethicone",
    "carnauba wax",
    "montan wax",
    "citric acid",
    "silica",
    "fragrance",
    "perfume",
    "xanthan gum",
    "1,2-hexanediol",
    "benzene, 1,2-dimethyl-",
    "propylene glycol",
    "distillates, petroleum, hydrotreated light",
    "2-butoxyethanol",
    "paraffin wax",
    "limonene",
    "oil",
    "sodium laureth sulfate",
}


def known(name: str) -> bool:
    return name.lower() in WORDS


def read(text: str) -> Reading:
    return read_text(text, "t", known)[0]


def names(text: str) -> list[str]:
    return [line.name for line in read(text).lines]


def amounts(text: str) -> list[tuple[str, float | None, float | None]]:
    return [
        (line.name, line.stated.low, line.stated.high) if line.stated else (line.name, None, None)
        for line in read(text).lines
    ]


THREE = ["Water", "Ethanol", "Glycerin"]


@pytest.mark.parametrize(
    "text",
    [
        "Water, Ethanol, Glycerin",
        "Water; Ethanol; Glycerin",
        "Water,Ethanol,Glycerin",
        "Water\nEthanol\nGlycerin",
        "Water\n\nEthanol\n\nGlycerin\n",
        "\u2022 Water\n\u2022 Ethanol\n\u2022 Glycerin",
        "- Water\n- Ethanol\n- Glycerin",
        "* Water\n* Ethanol\n* Glycerin",
        "1. Water\n2. Ethanol\n3. Glycerin",
        "1) Water\n2) Ethanol\n3) Glycerin",
        "(a) Water\n(b) Ethanol\n(c) Glycerin",
        "A. Water\nB. Ethanol\nC. Glycerin",
        "1) Water 2) Ethanol 3) Glycerin",
        "(1) Water (2) Ethanol (3) Glycerin",
        "A. Water. B. Ethanol. C. Glycerin.",
        "Water | Ethanol | Glycerin",
        "Water\tEthanol\tGlycerin",
        "Water \u2022 Ethanol \u2022 Glycerin",
        "Water \u00b7 Ethanol \u00b7 Glycerin",
        "Water / Ethanol / Glycerin",
        "Water Ethanol Glycerin",
        "Water, Ethanol and Glycerin",
        "Water, Ethanol & Glycerin",
        "Water, Ethanol, and Glycerin.",
        "Water, Ethanol und Glycerin",
        "Ingredients: Water, Ethanol, Glycerin.",
        "INGREDIENTS Water, Ethanol, Glycerin".replace("INGREDIENTS ", "INGREDIENTS: "),
        "Greenhouse roof film\nFull ingredients: Water, Ethanol, Glycerin. Shake well before use.",
        "Inhaltsstoffe: Water, Ethanol, Glycerin",
        "Ingr\u00e9dients : Water, Ethanol, Glycerin",
        "\u0421\u043e\u0441\u0442\u0430\u0432: Water, Ethanol, Glycerin",
        "<ul><li>Water</li><li>Ethanol</li><li>Glycerin</li></ul>",
        "Water,<br>Ethanol,<br />Glycerin",
        "Water (and) Ethanol (and) Glycerin",
        "It is made with Water, Ethanol, Glycerin",
        "Water, \nEthanol,\nGlycerin",
        "\ufeffWater,\u00a0Ethanol,\u200bGlycerin",
        "\x1b[31mWater\x1b[0m, Ethanol, Glycerin",
    ],
)
def test_three_names_whatever_parts_them(text: str) -> None:
    assert names(text) == THREE


def test_a_list_wrapped_over_lines_is_joined() -> None:
    text = "water, dimethicone, \nglycerin, carnauba wax, xanthan\ngum, fragrance."
    assert names(text) == ["water", "dimethicone", "glycerin", "carnauba wax", "xanthan gum", "fragrance"]


def test_names_with_commas_stay_whole() -> None:
    text = (
        "Water, Distillates, petroleum, hydrotreated light, 1,2-hexanediol, Benzene, 1,2-dimethyl-,"
        " 2,2,4-trimethyl-1,3-pentanediol, N,N-dimethyldecanamide, Naphtha, hydrotreated heavy,"
        " Silica, amorphous, Alkanes, C11-15-iso-, Oil"
    )
    assert names(text) == [
        "Water",
        "Distillates, petroleum, hydrotreated light",
        "1,2-hexanediol",
        "Benzene, 1,2-dimethyl-",
        "2,2,4-trimethyl-1,3-pentanediol",
        "N,N-dimethyldecanamide",
        "Naphtha, hydrotreated heavy",
        "Silica, amorphous",
        "Alkanes, C11-15-iso-",
        "Oil",
    ]


def test_what_the_word_list_has_is_cut() -> None:
    assert names("Ethanol, glycerin") == ["Ethanol", "glycerin"]
    assert names("Carnauba wax, oil") == ["Carnauba wax", "oil"]


@pytest.mark.parametrize("text", ["Aqua/Water/Eau", "Water / Aqua / Eau", "Aqua (Water)", "AQUA (WATER, EAU)"])
def test_names_of_water_are_one_line(text: str) -> None:
    assert names(f"{text}, Glycerin") == [text, "Glycerin"]
    assert names(text) == [text]


def test_nested_brackets_are_not_cut() -> None:
    assert names("Wax blend (carnauba wax, montan wax (oxidised, bleached)), Water") == [
        "Wax blend (carnauba wax, montan wax (oxidised, bleached))",
        "Water",
    ]


def test_brackets_that_never_close_do_not_swallow_the_list() -> None:
    assert len(names("Water (purified, Ethanol, Glycerin, Silica")) >= 3


def test_may_contain_is_marked() -> None:
    for text in (
        "Water, Glycerin. May contain: CI 77891, CI 42090",
        "Water, Glycerin, may contain: CI 77891, CI 42090",
        "Water, Glycerin [+/- CI 77891, CI 42090]".replace(" [", ", ["),
    ):
        reading = read(text)
        assert [line.name for line in reading.lines] == ["Water", "Glycerin", "CI 77891", "CI 42090"], text
        assert [line.doubtful is not None for line in reading.lines] == [False, False, True, True], text


def test_text_around_the_list_is_left_over_with_a_reason() -> None:
    reading = read(
        "Ferry seat care, front label\nIngredients: Water, Glycerin, Fragrance. Shake well before use. Let dry.\n"
        "Keep out of reach of children."
    )
    assert [line.name for line in reading.lines] == ["Water", "Glycerin", "Fragrance"]
    why = {piece.text.strip(" ."): piece.why for piece in reading.left_over}
    assert why["Ferry seat care, front label"] == "text around the list"
    instructions = [piece.text for piece in reading.left_over if piece.why == "an instruction, not an ingredient"]
    assert any("Shake well before use" in text for text in instructions)
    assert any("Keep out of reach" in text for text in instructions)


def test_an_instruction_is_never_a_line() -> None:
    reading = read("Water\nCarnauba wax\nShake well before use\nSpray on and wipe off")
    assert [line.name for line in reading.lines] == ["Water", "Carnauba wax"]
    assert {piece.why for piece in reading.left_over} == {"an instruction, not an ingredient"}


def test_a_title_above_the_list_is_no_ingredient() -> None:
    reading = read("Church floor cleaner\nWater, Sodium Laureth Sulfate, Citric Acid, Fragrance")
    assert [line.name for line in reading.lines] == ["Water", "Sodium Laureth Sulfate", "Citric Acid", "Fragrance"]
    assert reading.left_over[0].text == "Church floor cleaner"


def test_footnotes_are_left_over() -> None:
    reading = read("Aqua*, Perfume**, Glycerin.\n* from rain water ** allergen")
    assert [line.name for line in reading.lines] == ["Aqua", "Perfume", "Glycerin"]
    assert reading.left_over


def test_functions_said_by_the_list() -> None:
    reading = read("Water (solvent), Citric acid - pH adjuster, Dimethicone: gloss agent, Silica")
    assert [(line.name, line.function) for line in reading.lines] == [
        ("Water", "solvent"),
        ("Citric acid", "pH adjuster"),
        ("Dimethicone", "gloss agent"),
        ("Silica", None),
    ]


def test_a_sentence_that_carries_the_list_on() -> None:
    assert names("Water, Ethanol, and Glycerin. Also, there is Citric acid and Limonene.") == [
        "Water",
        "Ethanol",
        "Glycerin",
        "Citric acid",
        "Limonene",
    ]


@pytest.mark.parametrize("text", ["", " \n\t ", "\x00\x01", "...", "---\n***"])
def test_nothing_to_read(text: str) -> None:
    reading = read(text)
    assert reading.lines == ()
    assert reading.notes


@pytest.mark.parametrize(
    "text",
    [
        "Hello, I would like to know what you think of the weather, because it has been raining and we were late.",
        "The church floor was cleaned yesterday. It is now dry and you can walk on it again.",
        "3. Composition/information on ingredients\nThere are no hazardous ingredients in this wash.",
    ],
)
def test_text_without_a_list_is_left_over_with_a_note(text: str) -> None:
    reading = read(text)
    assert reading.lines == ()
    assert "".join(piece.text for piece in reading.left_over)
    assert reading.notes


def test_hostile_text_comes_back_as_it_came() -> None:
    for text in (
        "[/nope] Water, Glycerin",
        "[@click=app.bell]x[/], Water",
        "<script>alert(1)</script>, Water",
        "\u202eWater\u202c, Glycerin",
    ):
        reading = read(text)
        for line in reading.lines:
            assert text[line.place.start : line.place.end] == line.raw


def test_equal_lines_have_ids_of_their_own() -> None:
    lines: tuple[Line, ...] = read("Water, Glycerin, Water").lines
    assert len({line.id for line in lines}) == 3
    assert lines[0].id == read("Glycerin, Water, Silica").lines[1].id


def test_records_of_keys_and_values() -> None:
    text = (
        "Ingredient Name: GLYCERIN\nCAS: 56-81-5\nFraction by Wt: 6.5%\nOther REC Limits: 9MG/M3 STEL\n\n"
        "Ingredient Name: ETHANOL\nCAS: 64-17-5\nFraction by Wt: 1 - 3 %\n"
    )
    reading = read(text)
    assert [(line.name, line.cas, line.stated and line.stated.high) for line in reading.lines] == [
        ("GLYCERIN", "56-81-5", 0.065),
        ("ETHANOL", "64-17-5", 0.03),
    ]
    flat = read(" ".join(text.split()))
    assert [(line.name, line.cas) for line in flat.lines] == [("GLYCERIN", "56-81-5"), ("ETHANOL", "64-17-5")]


def test_inner_qualifiers_stay_in_the_name_and_strengths_do_not() -> None:
    lines = read(
        "Dimethicone (350 cSt) 2 %, Silica sol (30 %) 12 %, Ammonia solution (28 %), Propylene glycol (5 %)"
    ).lines
    assert [line.name for line in lines] == [
        "Dimethicone (350 cSt)",
        "Silica sol",
        "Ammonia solution",
        "Propylene glycol",
    ]
    assert lines[1].stated is not None
    assert (lines[1].stated.high, lines[1].stated.means) == (0.12, "as-supplied")
    assert lines[2].stated is None
    assert "strength" in (lines[2].doubtful or "")
    assert lines[3].stated is not None
    assert lines[3].stated.high == 0.05


def test_sums_and_leaders() -> None:
    reading = read("ACTIVE INGREDIENT:\nCitric acid.....0.26%\nOTHER INGREDIENTS:.....99.74%\nTOTAL:.....100.00%")
    assert [(line.name, line.stated and line.stated.high) for line in reading.lines] == [
        ("Citric acid", 0.0026),
        ("OTHER INGREDIENTS", 0.9974),
    ]
    assert reading.left_over[-1].why == "a sum, not an ingredient"


def test_recipe_units_state_no_share() -> None:
    lines = read("Beeswax 100 g\nTurpentine 250 ml\nSoap 1 tablespoon").lines
    assert [line.name for line in lines] == ["Beeswax", "Turpentine", "Soap"]
    assert all(line.stated and line.stated.low is line.stated.high is None and line.stated.doubtful for line in lines)


def test_filled_up_to_a_hundred_states_no_share() -> None:
    line = read("Ethanol 10 %, Water q.s. to 100 %").lines[1]
    assert line.name == "Water"
    assert line.stated is not None
    assert (line.stated.low, line.stated.high, line.stated.doubtful) == (None, None, True)


def test_one_substance_in_several_languages_on_a_line() -> None:
    text = "Aqua / Water / Wasser\nIsopropanol / propan-2-ol / Alcool isopropylique\nDimethicone"
    assert names(text) == text.split("\n")


def test_lists_in_other_scripts() -> None:
    assert names("\u6c34 60%\u3001\u7845\u6cb9 5~10%") == ["\u6c34", "\u7845\u6cb9"]
    assert names("Sk\u0142adniki: woda, wosk pszczeli, terpentyna.") == ["woda", "wosk pszczeli", "terpentyna"]


def test_a_sentence_above_the_list_is_left_over() -> None:
    text = "Cleaner for the lockers of a school; it does not exist.\nWater, Ethanol, Citric Acid,\nGlycerin, Limonene"
    assert names(text) == ["Water", "Ethanol", "Citric Acid", "Glycerin", "Limonene"]


def test_only_heads_of_index_names_take_their_tails() -> None:
    assert names("butane, propane, hydrotreated light naphtha, ethanol") == [
        "butane",
        "propane",
        "hydrotreated light naphtha",
        "ethanol",
    ]
    assert names("Alcohol, salt, Silicone, hydrogenated castor oil, Mineral oil, light aroma") == [
        "Alcohol",
        "salt",
        "Silicone",
        "hydrogenated castor oil",
        "Mineral oil",
        "light aroma",
    ]


def test_a_name_with_commas_is_joined_though_its_function_stands_behind_it():
    from formulate.catalog.store import open_catalog
    from formulate.reading import read_text

    reading, _ = read_text(
        "Water (solvent), Siloxanes and Silicones, di-Me, hydroxy-terminated (gloss), Dye", "t", open_catalog().knows
    )
    assert [line.name for line in reading.lines] == [
        "Water",
        "Siloxanes and Silicones, di-Me, hydroxy-terminated",
        "Dye",
    ]


@pytest.mark.parametrize(
    "heading",
    [
        "Inhaltsstoffe gemäß Verordnung (EG) Nr. 648/2004:",
        "Ingrédients selon le règlement (CE) n° 648/2004 :",
        "Ingredients (according to Regulation (EC) No 648/2004):",
        "Ingredienti secondo il regolamento (CE) 648/2004:",
    ],
)
def test_a_heading_that_names_its_law_opens_the_list(heading: str) -> None:
    text = f"Church floor care, invented.\nShines without polishing.\n{heading} Aqua, Glycerin, Parfum"
    assert names(text) == ["Aqua", "Glycerin", "Parfum"]
