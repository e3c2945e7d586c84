"""Data-sheet tables in the shapes they are pasted (tables/). All rows are invented and tell the same three."""

from __future__ import annotations

from pathlib import Path

import pytest

from formulate.domain.line import Reading
from tests.reading.test_lists import read

HEAD = "3. Composition/information on ingredients\n"
ROWS = [
    ("Ethanol", "64-17-5", 0.1, 0.25),
    ("2-Butoxyethanol", "111-76-2", 0.01, 0.05),
    ("Naphtha, petroleum, heavy", "64742-48-9", None, 0.01),
]

TABLES = {path.stem: path.read_text(encoding="utf-8") for path in (Path(__file__).parent / "tables").glob("*.txt")}


def rows(reading: Reading) -> list[tuple[str, str | None, float | None, float | None]]:
    return [
        (line.name, line.cas, line.stated.low if line.stated else None, line.stated.high if line.stated else None)
        for line in reading.lines
    ]


@pytest.mark.parametrize("around", ["", HEAD, "section"])
@pytest.mark.parametrize("shape", sorted(TABLES))
def test_a_table_in_every_shape(shape: str, around: str) -> None:
    text = TABLES[shape]
    if around == "section":
        text = f"SECTION 1: Identification\nFerry seat care\n\nSECTION {HEAD}{text}\nSECTION 4: First aid\nRinse.\n"
    elif around:
        text = around + text
    assert rows(read(text)) == ROWS


def test_the_declared_functions_are_kept() -> None:
    text = (
        "   Ingredients                   CAS Number         Functional Purpose\n"
        " Undisclosed carrier              Withheld            Diluent\n"
        " Propylene Glycol                 57-55-6             Gloss Agent\n"
        " Dimethicone                      Not available       Lubricant\n"
    )
    assert [(line.name, line.cas, line.function, line.stated) for line in read(text).lines] == [
        ("Undisclosed carrier", None, "Diluent", None),
        ("Propylene Glycol", "57-55-6", "Gloss Agent", None),
        ("Dimethicone", None, "Lubricant", None),
    ]


def test_a_bound_in_the_head_of_the_column() -> None:
    for head in ("Chemical Name CAS-No Weight % (max)", "Chemical name CAS Weight % Less Than"):
        assert rows(read(f"{head}\nEthanol 64-17-5 40\nXylene 1330-20-7 0.5\n")) == [
            ("Ethanol", "64-17-5", None, 0.4),
            ("Xylene", "1330-20-7", None, 0.005),
        ]


def test_notes_below_the_table_are_left_over() -> None:
    reading = read(HEAD + TABLES["rows"] + "Exact percentages are kept as a trade secret of the roofer.\nPage 2 of 9\n")
    assert rows(reading) == ROWS
    why = {piece.why for piece in reading.left_over}
    assert {"a remark about the list", "a page mark", "the heading of a section"} <= why


def test_a_balance_row_states_no_number() -> None:
    lines = read(
        "Ethanol 64-17-5 10-25 %\nBalance of the floor polish: harmless parts, each less than 1% of it\n"
    ).lines
    assert [line.stated is None for line in lines] == [False, True]


def test_columns_apart_are_doubtful() -> None:
    lines = read("INGREDIENT NAME Ethanol Glycerin Water CAS NO. 64-17-5 56-81-5 7732-18-5 % 5-10 <1 >50").lines
    assert [(line.name, line.cas) for line in lines] == [
        ("Ethanol", "64-17-5"),
        ("Glycerin", "56-81-5"),
        ("Water", "7732-18-5"),
    ]
    assert all(line.doubtful for line in lines)


def test_a_broken_registry_number_is_read_as_printed_signs_allow() -> None:
    assert read("Water 7732 - 18 - 5 80 %\nEthanol 64--17-5 5 %\n").lines[0].cas == "7732-18-5"


def test_ec_numbers_are_kept() -> None:
    line = read("Ethanol 64-17-5 200-578-6 5 - 10 %\nGlycerin 56-81-5 200-289-5 1 %").lines[0]
    assert (line.cas, line.ec) == ("64-17-5", "200-578-6")


def test_hazard_codes_without_letters_are_no_amounts() -> None:
    reading = read("Ammonia 1336-21-6 1-3 C; N 34-50\nMorpholine 110-91-8 1-2 C 10-20/21/22-34")
    assert rows(reading) == [("Ammonia", "1336-21-6", 0.01, 0.03), ("Morpholine", "110-91-8", 0.01, 0.02)]


def test_a_range_over_three_lines() -> None:
    text = "Name\nCAS\n%\nEthanol\n64-17-5\n10,00\n-\n25,00\nGlycerin\n56-81-5\n1,00\n-\n5,00\n"
    assert rows(read(text)) == [("Ethanol", "64-17-5", 0.1, 0.25), ("Glycerin", "56-81-5", 0.01, 0.05)]


def test_parts_of_a_kit_are_noted() -> None:
    reading = read("Part A\nWater 80 %\nSilica sol 20 %\nPart B\nEthanol 95 %\nGlycerin 5 %")
    assert [line.name for line in reading.lines] == ["Water", "Silica sol", "Ethanol", "Glycerin"]
    assert "parts" in reading.notes[0]


def test_a_name_wrapped_around_its_own_number() -> None:
    text = (
        "Hydrocarbons, C10-C13, n-alkanes, isoalkanes, 64742-48-9 30 - 60\ncyclics, < 2% aromatics\n"
        "White mineral oil 8042-47-5 5 - 10"
    )
    assert rows(read(text))[0][1:] == ("64742-48-9", 0.3, 0.6)
    assert rows(read(text))[1] == ("White mineral oil", "8042-47-5", 0.05, 0.1)


def test_withheld_words_in_the_cells_are_no_names() -> None:
    text = "Polymer emulsion\tN/A\t10-20%\nWater 7732-18-5 60-80 Not Established None\nZinc complex\tTrade Secret\t<1%"
    assert [line.name for line in read(text).lines] == ["Polymer emulsion", "Water", "Zinc complex"]
