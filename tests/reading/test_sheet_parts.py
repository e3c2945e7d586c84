"""What a data sheet prints around its list: parts and states, pages, hazard codes, the wrong section. All invented."""

from __future__ import annotations

import pytest

from formulate.domain.line import Reading
from tests.reading.test_lists import read


def parts(reading: Reading) -> list[tuple[str, str | None]]:
    return [(line.name, line.part) for line in reading.lines]


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("Part A", "Part B"),
        ("Part A (base):", "Part B (hardener):"),
        ("Component A - Base", "Component B - Hardener"),
        ("Komponente A", "Komponente B"),
        ("Composant A", "Composant B"),
        ("Product AS SOLD", "Product AT USE DILUTION"),
        ("As sold:", "At use dilution (1:20):"),
        ("Concentrate", "Ready to use (1:10)"),
        ("** Part 1 **", "** Part 2 **"),
    ],
)
def test_two_compositions_in_one_section(first: str, second: str) -> None:
    reading = read(
        "SECTION 3: Composition/information on ingredients\nChemical name CAS No. %\n"
        f"{first}\nEthanol 64-17-5 10 - 20\nGlycerin 56-81-5 1 - 5\n{second}\nEthanol 64-17-5 1 - 2\n"
        "SECTION 4: First aid measures\nRinse.\n"
    )
    one, two = (name.strip("*: ") for name in (first, second))
    assert parts(reading) == [("Ethanol", one), ("Glycerin", one), ("Ethanol", two)]
    assert [line.position for line in reading.lines] == [1, 2, 3]
    assert [line.stated.high for line in reading.lines if line.stated] == [0.2, 0.05, 0.02]
    assert any("several parts" in note and one in note and two in note for note in reading.notes)
    assert [piece.text for piece in reading.left_over if "heading of a part" in piece.why]


def test_parts_in_a_sentence() -> None:
    reading = read("Ingredients: Part A: Water, Silica. Part B: Ethanol, Citric Acid.")
    assert parts(reading) == [
        ("Water", "Part A"),
        ("Silica", "Part A"),
        ("Ethanol", "Part B"),
        ("Citric Acid", "Part B"),
    ]


def test_a_state_without_anything_declared() -> None:
    reading = read(
        "Product AS SOLD\nGlycerin 56-81-5 5 - 10 %\nProduct AT USE DILUTION\nNo hazardous ingredients\n"
        "Section: 4. FIRST AID MEASURES\n"
    )
    assert parts(reading) == [("Glycerin", "Product AS SOLD")]


@pytest.mark.parametrize(
    "text", ["Water, Wax, Part A resin, Silica", "Part A\nWater\nGlycerin", "Concentrate of lemon, Water"]
)
def test_one_heading_or_none_makes_no_parts(text: str) -> None:
    assert {line.part for line in read(text).lines} == {None}


PAGES = [
    "Invented roof glaze\nSafety Data Sheet\nRevision date: 02.03.2021\nPage 1 of 3\n"
    "SECTION 3: Composition/information on ingredients\nChemical name CAS No. Weight %\nEthanol 64-17-5 10 - 20\n",
    "Invented roof glaze\nSafety Data Sheet\nRevision date: 02.03.2021\nPage 2 of 3\n"
    "Glycerin 56-81-5 1 - 5\nSilica 7631-86-9 2 - 3\n",
    "Invented roof glaze\nSafety Data Sheet\nRevision date: 02.03.2021\nPage 3 of 3\nCitric acid 77-92-9 1 - 2\n"
    "SECTION 4: First aid measures\nRinse.\n",
]


@pytest.mark.parametrize("between", ["\f", "", "\n\n"])
def test_what_stands_on_every_page_is_no_row(between: str) -> None:
    text = between.join(PAGES)
    reading = read(text)
    assert [line.name for line in reading.lines] == ["Ethanol", "Glycerin", "Silica", "Citric acid"]
    assert [line.stated.high for line in reading.lines if line.stated] == [0.2, 0.05, 0.03, 0.02]
    furniture = [piece for piece in reading.left_over if "page furniture" in piece.why]
    assert "Invented roof glaze" in {piece.text for piece in furniture}
    assert all(text[piece.place.start : piece.place.end] == piece.text for piece in reading.left_over)


def test_rows_that_repeat_are_not_furniture() -> None:
    text = (
        "Page 1 of 2\nWater 7732-18-5 50 %\nEthanol 64-17-5 5 %\n\f"
        "Page 2 of 2\nWater 7732-18-5 50 %\nGlycerin 56-81-5 5 %\n"
    )
    assert [line.name for line in read(text).lines] == ["Water", "Ethanol", "Water", "Glycerin"]


def test_hazard_codes_are_those_of_the_product() -> None:
    text = (
        "SECTION 2: Hazards identification\nFlam. Liq. 3, H226; Repr. 1B H360FD; H302 + H332; EUH 066; P210\n"
        "SECTION 3: Composition/information on ingredients\nEthanol 64-17-5 10 - 20 % H225 H319\n"
        "SECTION 16: Other information\nH225 Highly flammable. H304 May be fatal.\n"
    )
    reading = read(text)
    assert [code.code for code in reading.hazard_codes] == ["H226", "H360FD", "H302", "H332", "EUH066"]
    assert {code.of for code in reading.hazard_codes} == {"product"}
    for code in reading.hazard_codes:
        assert text[code.place.start : code.place.end] == code.text
    assert read("Ethanol 64-17-5 10 % H225 H319\nGlycerin 56-81-5 2 %").hazard_codes == ()


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (
            "SECTION 8: Exposure controls/personal protection\nEthanol 64-17-5 TWA 1000 ppm STEL 3000 ppm\n"
            "Glycerin 56-81-5 TWA 10 mg/m3\n",
            "section 8",
        ),
        ("Ethanol OSHA PEL 1000 ppm\nGlycerin ACGIH TLV 10 mg/m3\nSilica TWA 6 mg/m3\n", "section 8"),
        (
            "11. Toxicological information\nEthanol 64-17-5 LD50 7060 mg/kg\nGlycerin 56-81-5 LD50 12600 mg/kg\n",
            "section 11",
        ),
        ("SECTION 15: Regulatory information\nTSCA: listed. SARA 313: none. Ethanol 64-17-5 DSL\n", "section 15"),
    ],
)
def test_the_wrong_section_is_told_and_its_limits_are_no_amounts(text: str, said: str) -> None:
    reading = read(text)
    assert any(said in note and "not like section 3" in note for note in reading.notes), reading.notes
    assert [line.stated for line in reading.lines if line.stated] == []


def test_a_sheet_without_its_section_three_is_told() -> None:
    reading = read(
        "SECTION 2: Hazards identification\nH226\nSECTION 9: Physical and chemical properties\npH: 7\n"
        "SECTION 14: Transport information\nUN 1263\n"
    )
    assert any("none on composition" in note for note in reading.notes)


def test_nothing_hazardous_declared_is_no_list() -> None:
    reading = read(
        "SECTION 3: Composition/information on ingredients\n3.2 Mixtures\nThis product does not contain hazardous "
        "chemicals at or above a reportable level.\nSECTION 4: First aid measures\nRinse.\n"
    )
    assert reading.lines == ()
    assert any("nothing hazardous has to be declared" in note for note in reading.notes)


def test_what_stands_between_heading_and_table_is_no_row() -> None:
    reading = read(
        "SECTION 3. COMPOSITION/INFORMATION ON INGREDIENTS\n\nSubstance / Mixture\n: Mixture\n\n"
        "Chemical name\nCAS-No.\nConcentration (% w/w)\nEthanol\n64-17-5\n>= 10 - < 20\n"
        "Silica\n7631-86-9\n>= 1 - < 5\nSECTION 4. FIRST AID MEASURES\n"
    )
    assert [line.name for line in reading.lines] == ["Ethanol", "Silica"]
    headings = [piece.text for piece in reading.left_over if piece.why == "the heading of a section"]
    assert headings == ["SECTION 3. COMPOSITION/INFORMATION ON INGREDIENTS", "SECTION 4. FIRST AID MEASURES"]
