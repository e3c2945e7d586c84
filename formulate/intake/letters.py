"""The text of a letter (.docx, .odt) or OpenDocument spreadsheet (.ods). Runs in the worker only."""

from __future__ import annotations

import zipfile
from collections.abc import Iterator
from xml.etree.ElementTree import Element, fromstring

from formulate.intake.separated import line_of

_MOST_REPEATED = 1000
_WORD_LEFT_OUT = frozenset({"Fallback", "delText", "instrText"})
_WORD_ASIDE = ("word/header", "word/footer", "word/footnotes", "word/endnotes")
_OPEN_LEFT_OUT = frozenset({"annotation", "tracked-changes", "forms", "automatic-styles", "scripts"})
_SIGNS = {"tab": "\t", "br": "\n", "cr": "\n", "line-break": "\n", "noBreakHyphen": "-", "s": " "}
_PARAGRAPHS = frozenset({"p", "h"})
SHEET_BREAK = "\n\f\n"


def letter_text(archive: zipfile.ZipFile) -> str:
    """Paragraphs and table rows of a .docx as lines; heads, feet and notes of its pages behind them."""
    aside = sorted(name for name in archive.namelist() if name.startswith(_WORD_ASIDE) and name.endswith(".xml"))
    parts = [_root(archive, name) for name in ("word/document.xml", *aside)]
    return "\n".join(line for part in parts for line in _lines(part, _WORD_LEFT_OUT))


def open_text(archive: zipfile.ZipFile) -> str:
    """Paragraphs and table rows of an .odt, or the sheets of an .ods parted by form feeds, numbers as shown."""
    root = _root(archive, "content.xml")
    books = [node for node in root.iter() if _name(node) == "spreadsheet"]
    sheets = [table for book in books for table in book if _name(table) == "table"]
    texts = ["\n".join(_lines(sheet, _OPEN_LEFT_OUT)) for sheet in sheets or [root]]
    return SHEET_BREAK.join(texts)


def _root(archive: zipfile.ZipFile, name: str) -> Element:
    """The tree of a part. ``office.check_archive`` has refused parts with a document type, so nothing is expanded."""
    return fromstring(archive.read(name))


def _name(node: Element) -> str:
    return str(node.tag).rpartition("}")[2]


def _lines(node: Element, left_out: frozenset[str]) -> Iterator[str]:
    """A line for each paragraph and each row of a table below a node."""
    for child in node:
        name = _name(child)
        if name in left_out:
            continue
        if name in {"tr", "table-row"}:
            line = line_of(_cells(child, left_out))
            yield from [line] * (_repeated(child, "number-rows-repeated") if line else 1)
        elif name in _PARAGRAPHS:
            yield from "".join(_pieces(child, left_out)).split("\n")
        else:
            yield from _lines(child, left_out)


def _cells(row: Element, left_out: frozenset[str]) -> Iterator[str]:
    """The text of the cells of a row; a cell repeated at the end of a sheet only fills it."""
    for cell in row:
        name = _name(cell)
        if name in {"sdt", "sdtContent"}:
            yield from _cells(cell, left_out)
        elif name in {"tc", "table-cell", "covered-table-cell"}:
            text = " ".join(_lines(cell, left_out))
            yield from [text] * _repeated(cell, "number-columns-repeated")


def _repeated(node: Element, attribute: str) -> int:
    told = next((value for key, value in node.attrib.items() if key.endswith("}" + attribute)), "1")
    return min(int(told), _MOST_REPEATED) if told.isdecimal() else 1


def _pieces(node: Element, left_out: frozenset[str]) -> Iterator[str]:
    """The text of a paragraph in order. In Word text stands in ``t`` only, elsewhere anywhere in the paragraph."""
    word = left_out is _WORD_LEFT_OUT
    if node.text and (not word or _name(node) == "t"):
        yield node.text
    for child in node:
        name = _name(child)
        if name in _SIGNS and not (word and name == "s"):
            yield _SIGNS[name] * (_repeated(child, "c") if name == "s" else 1)
        elif name in _PARAGRAPHS:  # a box of text within the paragraph
            yield "\n"
            yield from _pieces(child, left_out)
            yield "\n"
        elif name not in left_out:
            yield from _pieces(child, left_out)
        if child.tail and not word:
            yield child.tail
