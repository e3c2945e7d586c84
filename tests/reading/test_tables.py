"""Data-sheet tables in the shapes they are pasted. All rows are invented."""

from __future__ import annotations

import pytest

from formulate.domain.line import Reading
from tests.reading.test_lists import read

HEAD = "3. Composition/information on ingredients\n"
ROWS = [
    ("Ethanol", "64-17-5", 0.1, 0.25),
    ("2-Butoxyethanol", "111-76-2", 0.01, 0.05),
    ("Naphtha, petroleum, heavy", "64742-48-9", None, 0.01),
]

TABLES = {
    "rows": "Ethanol 64-17-5 10 - 25 %\n2-Butoxyethanol 111-76-2 1-5 %\nNaphtha, petroleum, heavy 64742-48-9 <1 %\n",
    "rows without the sign": "Chemical name CAS No. Weight %\nEthanol 64-17-5 10-25\n2-Butoxyethanol 111-76-2 1-5\nNaphtha, petroleum, heavy 64742-48-9 <1\n",
    "amount before the number": "Ethanol 10-25 % 64-17-5\n2-Butoxyethanol 1-5% 111-76-2\nNaphtha, petroleum, heavy <1% 64742-48-9\n",
    "number first": "CAS No. Name %\n64-17-5 Ethanol 10-25\n111-76-2 2-Butoxyethanol 1-5\n64742-48-9 Naphtha, petroleum, heavy <1\n",
    "aligned columns": (
        "     Ingredient                  CAS number          Weight %\n  Ethanol                        64-17-5             10 - 25\n"
        "  2-Butoxyethanol                111-76-2            1 - 5\n  Naphtha, petroleum, heavy      64742-48-9          < 1\n"
    ),
    "tabs": "Name\tCAS\t%\nEthanol\t64-17-5\t10-25\n2-Butoxyethanol\t111-76-2\t1-5\nNaphtha, petroleum, heavy\t64742-48-9\t<1\n",
    "bars": "| Name | CAS | % |\n|---|---|---|\n| Ethanol | 64-17-5 | 10-25 |\n| 2-Butoxyethanol | 111-76-2 | 1-5 |\n| Naphtha, petroleum, heavy | 64742-48-9 | <1 |\n",
    "semicolons": "Name;CAS;Percent\nEthanol;64-17-5;10-25\n2-Butoxyethanol;111-76-2;1-5\nNaphtha, petroleum, heavy;64742-48-9;<1\n",
    "commas and quotes": 'Name,CAS,Percent\nEthanol,64-17-5,10-25\n2-Butoxyethanol,111-76-2,1-5\n"Naphtha, petroleum, heavy",64742-48-9,<1\n',
    "cell per line": "Chemical name\nCAS-No.\nConcentration [%]\nEthanol\n64-17-5\n10 - 25\n2-Butoxyethanol\n111-76-2\n1 - 5\nNaphtha, petroleum, heavy\n64742-48-9\n< 1\n",
    "cell per line, number first": "CAS-No.\nName\n%\n64-17-5\nEthanol\n10 - 25\n111-76-2\n2-Butoxyethanol\n1 - 5\n64742-48-9\nNaphtha, petroleum, heavy\n< 1\n",
    "columns cell by cell": "Chemical name\nEthanol\n2-Butoxyethanol\nNaphtha, petroleum, heavy\nCAS-No.\n64-17-5\n111-76-2\n64742-48-9\nWeight %\n10 - 25\n1 - 5\n< 1\n",
    "one line": "Chemical name CAS No. Weight % Ethanol 64-17-5 10-25 2-Butoxyethanol 111-76-2 1-5 Naphtha, petroleum, heavy 64742-48-9 <1",
    "one line, name last": "CAS No. Weight % Chemical name 64-17-5 10-25 Ethanol 111-76-2 1-5 2-Butoxyethanol 64742-48-9 <1 Naphtha, petroleum, heavy",
    "codes between": (
        "Ethanol 64-17-5 200-578-6 603-002-00-5 01-2119457610-43-XXXX 10 - 25 % Flam. Liq. 2, H225; Eye Irrit. 2, H319\n"
        "2-Butoxyethanol 111-76-2 203-905-0 1 - 5 % Acute Tox. 4 H302 H312 H332\nNaphtha, petroleum, heavy 64742-48-9 265-150-3 < 1 % Asp. Tox. 1; H304\n"
    ),
    "exposure limits in the rows": (
        "Ingredients CAS# Weight % OSHA PEL ACGIH TLV\nEthanol 64-17-5 10-25 1000 ppm 1000 ppm\n2-Butoxyethanol 111-76-2 1-5 50 ppm 20 ppm\n"
        "Naphtha, petroleum, heavy 64742-48-9 <1 500 ppm 300 mg/m3\n"
    ),
    "comma list with numbers": "Ethanol (CAS 64-17-5) 10-25 %, 2-Butoxyethanol (CAS No. 111-76-2) 1 - 5 %, Naphtha, petroleum, heavy (64742-48-9) <1 %",
    "html": (
        "<table><tr><td>Ethanol</td><td>64-17-5</td><td>10-25 %</td></tr><tr><td>2-Butoxyethanol</td><td>111-76-2</td><td>1-5 %</td></tr>"
        "<tr><td>Naphtha, petroleum, heavy</td><td>64742-48-9</td><td>&lt;1 %</td></tr></table>"
    ),
    "keys and values": (
        "Component: Ethanol\nCAS: 64-17-5\nPercent: 10-25\n\nComponent: 2-Butoxyethanol\nCAS: 111-76-2\nPercent: 1-5\n\n"
        "Component: Naphtha, petroleum, heavy\nCAS: 64742-48-9\nPercent: <1\n"
    ),
    "glued cells": "Ethanol 64-17-5/ 10-25%\n2-Butoxyethanol 111-76-2/ 1-5%\nNaphtha, petroleum, heavy 64742-48-9/<1%\n",
    "wrapped names": "Ethanol 64-17-5 10 - 25 %\n2-Butoxyethanol 111-76-2 1-5 %\nNaphtha, petroleum,\n64742-48-9 <1 %\nheavy\n",
}


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
        text = f"SECTION 1: Identification\nFerry seat care\n\nSECTION {HEAD}{text}\nSECTION 4: First aid measures\nRinse with water.\n"
    elif around:
        text = around + text
    assert rows(read(text)) == ROWS


def test_the_declared_functions_are_kept() -> None:
    text = (
        "   Ingredients                   CAS Number         Functional Purpose\n Proprietary Diluent              Withheld            Diluent\n"
        " Propylene Glycol                 57-55-6             Gloss Agent\n Dimethicone                      Not available       Lubricant\n"
    )
    assert [(line.name, line.cas, line.function, line.stated) for line in read(text).lines] == [
        ("Proprietary Diluent", None, "Diluent", None),
        ("Propylene Glycol", "57-55-6", "Gloss Agent", None),
        ("Dimethicone", None, "Lubricant", None),
    ]


def test_a_bound_in_the_head_of_the_column() -> None:
    for head in ("Chemical Name CAS-No Weight % (max)", "Chemical name CAS Weight % Less Than"):
        assert rows(read(f"{head}\nEthanol 64-17-5 40\nXylene 1330-20-7 0.5\n")) == [
            ("Ethanol", "64-17-5", None, 0.4),
            ("Xylene", "1330-20-7", None, 0.005),
        ]


def test_shares_by_volume_are_doubtful() -> None:
    lines = read("Chemical name CAS Vol. %\nEthanol 64-17-5 40\nXylene 1330-20-7 1-5\n").lines
    assert all(line.stated is not None and line.stated.doubtful for line in lines)


def test_notes_below_the_table_are_left_over() -> None:
    reading = read(
        HEAD + TABLES["rows"] + "The exact percentages of the substances are withheld as trade secrets.\nPage 2 of 9\n"
    )
    assert rows(reading) == ROWS
    why = {piece.why for piece in reading.left_over}
    assert {"a remark about the list", "a page mark", "a heading of the list or of its columns"} <= why


def test_a_balance_row_states_no_number() -> None:
    lines = read(
        "Ethanol 64-17-5 10-25 %\nBalance of other ingredients are non-hazardous or less than 1% in concentration\n"
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
