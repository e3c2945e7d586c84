"""Workbooks and letters: what they give, and bombs of all kinds."""

from __future__ import annotations

import io
import zipfile
from datetime import datetime
from pathlib import Path

import pytest

import formulate
from formulate.errors import InputError
from formulate.intake import text_of_bytes
from tests.intake import made

ROWS = [
    ["Ferry seat protectant (invented)"],
    [],
    ["Ingredient", "CAS no.", "% w/w", "Seen"],
    ["Water", "7732-18-5", 0.7, datetime(2026, 1, 2)],
    ["Isopropyl\nalcohol", "67-63-0", 0.05, None],
    ["Acetic acid", "64-19-7", 0.00001, None],
    ["Triethoxy(octyl)silane", "2943-75-1", "=0.01+0.02", None],
]
SECOND = [["Ingredient", "CAS", "Amount"], ["Glycerol", "56-81-5", "1 - 5 %"]]
FORMATS = {"C4": "0%", "C5": "0.0%", "C6": "0.00%"}
WORD = "http://schemas.openxmlformats.org/wordprocessingml/2006/main"
OPEN = (
    'xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" '
    'xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" '
    'xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"'
)


def letter(body: str) -> bytes:
    document = f'<w:document xmlns:w="{WORD}" xmlns:mc="urn:x"><w:body>{body}</w:body></w:document>'
    header = f'<w:hdr xmlns:w="{WORD}"><w:p><w:r><w:t>Revision 3</w:t></w:r></w:p></w:hdr>'
    return made.archive({"word/document.xml": document.encode(), "word/header1.xml": header.encode()})


def open_document(kind: str, body: str) -> bytes:
    content = (
        f"<office:document-content {OPEN}><office:body><office:{kind}>{body}</office:{kind}></office:body>"
        "</office:document-content>"
    )
    return made.archive(
        {"mimetype": f"application/vnd.oasis.opendocument.{kind}".encode(), "content.xml": content.encode()}
    )


def test_a_workbook_row_by_row() -> None:
    text = text_of_bytes(made.workbook(ROWS, SECOND, formats=FORMATS), "list.xlsx")
    assert text.split("\n") == [
        "Ferry seat protectant (invented)",
        "",
        "Ingredient\tCAS no.\t% w/w\tSeen",
        "Water\t7732-18-5\t70 %\t2026-01-02",
        "Isopropyl alcohol\t67-63-0\t5 %",
        "Acetic acid\t64-19-7\t0.001 %",
        "Triethoxy(octyl)silane\t2943-75-1\t(formula without a kept value)",
        "\f",
        "Ingredient\tCAS\tAmount",
        "Glycerol\t56-81-5\t1 - 5 %",
    ]


def test_a_workbook_end_to_end(tmp_path: Path) -> None:
    path = tmp_path / "list.xlsx"
    path.write_bytes(made.workbook(ROWS, SECOND, formats=FORMATS))
    lines = formulate.read(path).lines
    assert [line.cas for line in lines] == ["7732-18-5", "67-63-0", "64-19-7", "2943-75-1", "56-81-5"]
    assert [line.stated and line.stated.high for line in lines] == [
        pytest.approx(0.7), pytest.approx(0.05), pytest.approx(0.00001), None, pytest.approx(0.05)
    ]  # fmt: skip
    assert [line.place.page for line in lines] == [1, 1, 1, 1, 2]


def test_a_cell_far_away() -> None:
    book = made.workbook([["Water", "5 %"]])
    far = b'<row r="1048576"><c r="XFD1048576" t="inlineStr"><is><t>far</t></is></c></row></sheetData>'
    text = text_of_bytes(made.with_part(book, "xl/worksheets/sheet1.xml", b"</sheetData>", far), "x.xlsx")
    assert [line.strip() for line in text.split("\n")] == ["Water\t5 %", "", "far"]


def test_the_size_a_sheet_says_it_has_is_not_trusted() -> None:
    book = made.workbook([["Water", "5 %"], ["Wax", "3 %"]])
    small = made.with_part(book, "xl/worksheets/sheet1.xml", b'ref="A1:B2"', b'ref="A1:A1"')
    assert text_of_bytes(small, "x.xlsx") == "Water\t5 %\nWax\t3 %"


def test_a_letter() -> None:
    text = text_of_bytes(
        letter(
            "<w:p><w:r><w:t>Ingredients:</w:t></w:r></w:p>"
            "<w:p><w:r><w:t>Water</w:t><w:tab/><w:t>50 </w:t></w:r>"
            "<w:r><w:t>%</w:t><w:delText>9</w:delText></w:r></w:p>"
            "<w:tbl><w:tr><w:tc><w:p><w:r><w:t>White</w:t></w:r></w:p><w:p><w:r><w:t>spirit</w:t></w:r></w:p></w:tc>"
            "<w:tc><w:p><w:r><w:t>5</w:t><w:noBreakHyphen/><w:t>10 %</w:t></w:r></w:p></w:tc></w:tr></w:tbl>"
            "<w:p><mc:AlternateContent><mc:Choice><w:r><w:t>Once</w:t></w:r></mc:Choice>"
            "<mc:Fallback><w:r><w:t>Once</w:t></w:r></mc:Fallback></mc:AlternateContent><w:r><w:br/><w:t>more</w:t></w:r></w:p>"
        ),
        "list.docx",
    )
    assert text.split("\n") == ["Ingredients:", "Water\t50 %", "White spirit\t5-10 %", "Once", "more", "Revision 3"]


def test_an_open_spreadsheet_shows_numbers_as_it_shows_them() -> None:
    row = (
        '<table:table-row><table:table-cell><text:p>Wax<text:s text:c="2"/>A</text:p></table:table-cell>'
        '<table:table-cell office:value-type="percentage" office:value="0.05"><text:p>5 %</text:p></table:table-cell>'
        '<table:table-cell table:number-columns-repeated="16382"/></table:table-row>'
        '<table:table-row table:number-rows-repeated="1048574"><table:table-cell/></table:table-row>'
    )
    data = open_document("spreadsheet", f"<table:table>{row}</table:table><table:table>{row}</table:table>")
    text = text_of_bytes(data, "list.ods")
    assert [line for line in text.split("\n") if line] == ["Wax A\t5 %", "\f", "Wax A\t5 %"]


def test_an_open_text() -> None:
    body = "<text:h>Ingredients</text:h><text:p>Water, <text:span>wax</text:span><text:line-break/>silica</text:p>"
    assert text_of_bytes(open_document("text", body), "list.odt") == "Ingredients\nWater, wax\nsilica"


def refused(data: bytes, name: str = "list.xlsx") -> InputError:
    with pytest.raises(InputError) as caught:
        text_of_bytes(data, name)
    error = caught.value
    assert all((error.what, error.at, error.why, error.try_))
    return error


def test_zip_bombs() -> None:
    sheet = made.workbook([["Water"]])
    with zipfile.ZipFile(io.BytesIO(sheet)) as honest:
        parts = {name: honest.read(name) for name in honest.namelist()}
    assert refused(made.archive({**parts, "xl/media/a.bin": b"\x00" * 20_000_000})).reference == "unpacks-too-large"
    many = {**parts, **{f"x{number}": b"" for number in range(6000)}}
    assert refused(made.archive(many, packed=False)).reference == "unpacks-too-large"
    # a directory that tells a smaller size than the part has
    big = made.archive({**parts, "xl/worksheets/sheet1.xml": b"<worksheet>" + b" " * 3_000_000 + b"</worksheet>"})
    told = (3_000_023).to_bytes(4, "little")
    assert big.count(told) == 2
    assert refused(big.replace(told, (1000).to_bytes(4, "little"))).reference in {
        "damaged-document",
        "unpacks-too-large",
    }


@pytest.mark.parametrize("encoding", ["utf-8", "utf-16", "cp500"])
def test_xml_bombs(encoding: str) -> None:
    head = f'<?xml version="1.0" encoding="{encoding}"?>'
    bomb = f'<!DOCTYPE x [<!ENTITY a "{"a" * 100_000}">]><worksheet>{"&a;" * 1000}</worksheet>'
    # the declaration of an 8-bit encoding is read before the encoding is changed
    data = (head + bomb).encode(encoding) if encoding != "cp500" else head.encode() + bomb.encode("cp500")
    sheet = made.workbook([["Water"]])
    with zipfile.ZipFile(io.BytesIO(sheet)) as honest:
        parts = {name: honest.read(name) for name in honest.namelist()}
    book = made.archive({**parts, "xl/worksheets/sheet1.xml": data})
    # this parser knows no such encoding; one that did would meet the document type
    assert refused(book).reference == ("damaged-document" if encoding == "cp500" else "xml-entities")
    word = made.archive({"word/document.xml": data})
    assert refused(word, "x.docx").reference in {"xml-entities", "damaged-document"}


def test_other_archives_and_damage() -> None:
    assert refused(made.archive({"readme.txt": b"Water"}), "x.zip").reference == "binary-input"
    whole = made.workbook([["Water"]])
    assert refused(whole[: len(whole) // 2]).reference == "damaged-document"
    assert refused(letter("<w:p>" * 3), "x.docx").reference == "damaged-document"
    assert refused(letter("<w:x>" * 5000 + "</w:x>" * 5000), "x.docx").reference == "document-limits"
