"""What bytes are, whatever their name says."""

from __future__ import annotations

from pathlib import Path

import pytest

from formulate.errors import InputError
from formulate.intake import text_of_bytes, text_of_path
from tests.intake import made

BOOK = made.workbook([["Ingredient", "CAS"], ["Water", "7732-18-5"]])


@pytest.mark.parametrize(
    ("data", "name", "says"),
    [
        (made.data_sheet(), "list.txt", "plain text but holds a PDF"),
        (made.data_sheet(), "list.xlsx", "an Excel workbook but holds a PDF"),
        (BOOK, "list.csv", "separated values but holds an office document"),
        (BOOK, "list.docx", "a Word document but holds an Excel workbook"),
        (b"<html><body><p>Not found</p></body></html>", "sheet.pdf", "a PDF but holds a web page"),
        (b"Water, wax", "sheet.PDF", "a PDF but holds plain text"),
    ],
)
def test_a_name_that_says_something_else_is_told(data: bytes, name: str, says: str) -> None:
    with pytest.raises(InputError) as caught:
        text_of_bytes(data, name)
    assert caught.value.reference == "kind-mismatch"
    assert says in caught.value.what


@pytest.mark.parametrize("name", ["sheet", "sheet.bin", "standard input", "sheet.2"])
def test_a_name_that_says_nothing(name: str, tmp_path: Path) -> None:
    path = tmp_path / name
    path.write_bytes(BOOK)
    assert text_of_path(path) == "Ingredient\tCAS\nWater\t7732-18-5"


def test_text_of_one_kind_under_the_name_of_another() -> None:
    assert text_of_bytes(b"Water, wax", "list.csv") == "Water, wax"
    assert text_of_bytes(b"<html><p>Water</p></html>", "list.txt") == "Water\n"


def test_old_and_locked_office_documents() -> None:
    old = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + b"\x00" * 600
    with pytest.raises(InputError, match="old kind") as caught:
        text_of_bytes(old, "list.xls")
    assert caught.value.reference == "old-document"
    with pytest.raises(InputError, match="password") as caught:
        text_of_bytes(old + "EncryptedPackage".encode("utf-16-le"), "list.xlsx")
    assert caught.value.reference == "encrypted-document"
