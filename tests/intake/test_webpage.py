"""Web pages: tables, lists, what is left out, and pasted text that only looks like one."""

from __future__ import annotations

from pathlib import Path

import pytest

import formulate
from formulate.intake import text_of_bytes
from formulate.intake.webpage import page_text

TABLE = """<!DOCTYPE html>
<html><head><title>Wax</title><style>td{color:red}</style><script>var row = "<td>Benzene 5 %</td>";</script></head>
<body><div><h1>Church floor wax (invented)</h1><!-- Toluene 9 % -->
<p>Shines&nbsp;well.</p>
<table><tr><td><table><thead><tr><th>Ingredient<th>CAS<th>Content</tr></thead>
<tr><td>Carnauba
 wax<td>8015-86-9</td><td>5 &ndash; 10&nbsp;%</td></tr>
<tr><td>White spirit<br>(C9&ndash;C12)</td><td>64742-82-1</td><td>&lt; 50 %</td></tr>
<tr><td>H<sub>2</sub>O</td><td>7732-18-5</td><td>40 %</td></tr></table></td></tr></table>
</div></body></html>"""
LIST = (
    "<h2>Greenhouse roof treatment (invented)</h2><div>Ingredients:</div><ul><li>Water<li>Isopropanol 5&nbsp;%</li>"
    "<li>Triethoxy(octyl)silane &lt; 3 %</li></ul><div>Keep out of reach of children</div>"
)


def test_a_table_in_a_layout_table(tmp_path: Path) -> None:
    path = tmp_path / "page.html"
    path.write_text(TABLE, encoding="utf-8")
    assert text_of_bytes(TABLE.encode(), "standard input").split("\n") == [
        "Church floor wax (invented)",
        "Shines well.",
        "Ingredient\tCAS\tContent",
        "Carnauba wax\t8015-86-9\t5 \u2013 10 %",
        "White spirit (C9\u2013C12)\t64742-82-1\t< 50 %",
        "H2O\t7732-18-5\t40 %",
        "",
    ]
    lines = formulate.read(path).lines
    assert [line.cas for line in lines] == ["8015-86-9", "64742-82-1", "7732-18-5"]
    assert [line.stated and line.stated.high for line in lines] == [0.1, 0.5, 0.4]


def test_a_list(tmp_path: Path) -> None:
    path = tmp_path / "page.htm"
    path.write_text(LIST, encoding="utf-8")
    lines = formulate.read(path).lines
    assert [line.ingredient for line in lines] == ["water", "isopropanol", "octyltriethoxysilane"]
    assert [line.stated and line.stated.high for line in lines] == [None, 0.05, 0.03]


def test_a_page_in_the_encoding_it_names() -> None:
    page = '<html><head><meta charset="shift_jis"></head><body><p>\u6c34, \u30b7\u30ea\u30ab</p></body></html>'
    assert text_of_bytes(page.encode("shift_jis"), "page.html") == "\u6c34, \u30b7\u30ea\u30ab\n"


@pytest.mark.parametrize(
    "text",
    [
        "Water <br /> Wax < 5 % <br /> Silica",
        "Water < 5 %, Wax > 3 % and <p> of solvent",
        "<2 % Silica\n<div or not\n",
        "<script>alert(1)</script>, Silica",
        "Ingredients: Water, <b>Wax</b>",
    ],
)
def test_pasted_text_is_no_page(text: str) -> None:
    assert text_of_bytes(text.encode(), "standard input") == text


def test_a_plain_list_named_as_a_page_keeps_its_lines() -> None:
    assert text_of_bytes(b"Water < 5 %\nWax\n", "list.html") == "Water < 5 %\nWax\n"


@pytest.mark.parametrize(
    ("page", "text"),
    [
        ("<html><head><p>Water</p>", "Water\n"),
        ("<table><td>Water<td>5 %<tr><td>Wax<td>3 %", "Water\t5 %\nWax\t3 %\n"),
        ("<p>Water</table></td></tr></p>Wax", "Water\nWax\n"),
        ("<pre>Water  5 %\nWax    3 %</pre>", "Water 5 %\nWax 3 %\n"),
        ("<svg/><p>Water</p><style>p{}</style><br/>Wax", "Water\nWax\n"),
        ("<p>a<!-- <p>b</p> -->c &amp; d&#x2f;e", "ac & d/e\n"),
        ("<p>A<script>if (a < b) { document.write('<p>no</p>') }</script>B</p>", "AB\n"),
    ],
)
def test_pages_as_they_come(page: str, text: str) -> None:
    assert page_text(page) == text


def test_tables_within_tables_without_end() -> None:
    assert "Water" in page_text("<table><tr><td>" * 20_000 + "Water")
