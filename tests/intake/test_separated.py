"""Tables of separated values: the sign found, quoted cells, and text that is no table."""

from __future__ import annotations

from pathlib import Path

import pytest

import formulate
from formulate.intake import text_of_bytes
from formulate.intake.separated import table_text

COMMA = (
    'Ingredient,CAS,"% w/w, as supplied"\r\nWater,7732-18-5,70\r\n"Ethanol, 2-butoxy-",111-76-2,5 - 10\r\n'
    '"Polydimethyl\nsiloxane (""PDMS"")",63148-62-9,< 3\r\n'
)
SEMICOLON = "Stoff;CAS-Nr.;Gehalt %\nWasser;7732-18-5;70,5\n2-Propanol;67-63-0;12,25\nEssigs\u00e4ure;64-19-7;0,5\n"


def test_commas_in_quoted_cells_and_lines_in_cells() -> None:
    assert text_of_bytes(COMMA.encode(), "list.csv").split("\n") == [
        "Ingredient\tCAS\t% w/w, as supplied",
        "Water\t7732-18-5\t70",
        "Ethanol, 2-butoxy-\t111-76-2\t5 - 10",
        'Polydimethyl siloxane ("PDMS")\t63148-62-9\t< 3',
        "",
    ]


@pytest.mark.parametrize(
    ("text", "name", "amounts"),
    [
        (COMMA, "list.csv", [(0.7, 0.7), (0.05, 0.1), (None, 0.03)]),
        (SEMICOLON, "list.csv", [(0.705, 0.705), (0.1225, 0.1225), (0.005, 0.005)]),
        (SEMICOLON.replace(";", "\t"), "list.tsv", [(0.705, 0.705), (0.1225, 0.1225), (0.005, 0.005)]),
        ("sep=;\n" + SEMICOLON, "list.csv", [(0.705, 0.705), (0.1225, 0.1225), (0.005, 0.005)]),
    ],
    ids=["comma", "semicolon", "tab", "hint"],
)
def test_end_to_end(tmp_path: Path, text: str, name: str, amounts: list[tuple[float | None, float]]) -> None:
    path = tmp_path / name
    path.write_bytes(text.encode("cp1252"))
    lines = formulate.read(path).lines
    assert [line.ingredient for line in lines][:1] == ["water"]
    assert [(line.stated.low, line.stated.high) for line in lines if line.stated] == [
        (None if low is None else pytest.approx(low), pytest.approx(high)) for low, high in amounts
    ]


def test_a_table_without_a_name_only_if_nothing_else_is_possible() -> None:
    assert text_of_bytes(COMMA.encode(), "standard input").startswith("Ingredient\tCAS\t%")
    for text in (SEMICOLON, "Water, wax, silica\nEthanol, silica, dye\nA, b, c\n", 'Water, "Silica" 5 %, wax'):
        assert text_of_bytes(text.encode(), "standard input") == text


@pytest.mark.parametrize(
    "text",
    [
        "Water, wax, silica",
        "Water\nWax\n",
        "",
        "One sentence, and\nno table at all\nof any\nkind\n",
        "a" * 200_000 + ";b\nc;d",
    ],
)
def test_no_table(text: str) -> None:
    assert table_text(text, named=True) is None
    assert text_of_bytes(text.encode(), "list.csv") == text
