"""Text from files, standard input and bytes, and what is refused."""

from __future__ import annotations

import io
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formulate.errors import InputError
from formulate.intake import check_list_size, read_input, text_of_bytes, text_of_path, text_of_stdin
from formulate.intake.limits import DOCUMENT_BYTES, LIST_LINES

TEXT = "Ingredients: W\u00e4sser, Caf\u00e9 wax 5 % \u2013 \u20ac\n"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_encodings(tmp_path: Path, encoding: str) -> None:
    path = tmp_path / "list.txt"
    path.write_bytes(TEXT.encode(encoding))
    assert text_of_path(path) == TEXT
    assert read_input(path) == TEXT
    assert read_input(TEXT.encode(encoding)) == TEXT


def test_big_endian_with_a_mark() -> None:
    assert text_of_bytes(b"\xfe\xff" + TEXT.encode("utf-16-be"), "x") == TEXT


def test_a_string_is_the_text_itself_and_comes_back_as_it_came() -> None:
    for text in ("Water, wax", "[/nope]", "\x1b[31mWater", "", "a\r\nb"):
        assert read_input(text) == text


def test_standard_input() -> None:
    assert text_of_stdin(io.BytesIO(TEXT.encode())) == TEXT
    assert text_of_stdin(io.TextIOWrapper(io.BytesIO(TEXT.encode("cp1252")), "utf-8")) == TEXT
    assert text_of_stdin(io.StringIO(TEXT)) == TEXT


@pytest.mark.parametrize(
    "data",
    [
        b"%PDF is only text here \x00\x01\x02\x80\x81" * 20,
        b"\x89PNG\r\n\x1a\n\x00\x00",
        bytes(range(256)) * 4,
        b"\x00" * 50,
        b"\x01\x02\x03\x04" * 30,
    ],
)
def test_binary_is_refused_in_four_parts(data: bytes) -> None:
    with pytest.raises(InputError) as caught:
        text_of_bytes(data, "label.bin")
    error = caught.value
    assert error.reference == "binary-input"
    assert "label.bin" in error.what
    assert all((error.at, error.why, error.try_))
    assert "\x00" not in str(error)


def test_a_picture_or_archive_is_named() -> None:
    with pytest.raises(InputError, match="PNG picture"):
        text_of_bytes(b"\x89PNG\r\n\x1a\n\x00\x00", "x")
    with pytest.raises(InputError, match="zip archive"):
        text_of_bytes(b"PK\x03\x04\x00\x00", "x")


def test_too_large_a_document(tmp_path: Path) -> None:
    path = tmp_path / "big.txt"
    with path.open("wb") as stream:
        stream.truncate(DOCUMENT_BYTES + 1)
    with pytest.raises(InputError) as caught:
        text_of_path(path)
    assert caught.value.reference == "too-large"


@pytest.mark.parametrize("name", ["missing.txt", ".", "a\x00b"])
def test_a_file_that_cannot_be_read(tmp_path: Path, name: str) -> None:
    with pytest.raises(InputError) as caught:
        text_of_path(tmp_path / name)
    assert caught.value.reference == "unreadable-file"


def test_the_size_of_a_list() -> None:
    check_list_size(1000, LIST_LINES, "line 1 column 1", "Water")
    with pytest.raises(InputError) as caught:
        check_list_size(3 * 1024 * 1024, 10, "line 4 column 1", "Water, wax")
    assert "3.0 MB" in caught.value.what
    assert "line 4" in caught.value.at
    with pytest.raises(InputError, match="20,000 lines"):
        check_list_size(1000, LIST_LINES + 1, "line 1 column 1", "Water")


@settings(deadline=None)  # bytes that begin as a document start a process
@given(st.binary(max_size=500))
def test_bytes_give_text_or_a_four_part_error(data: bytes) -> None:
    try:
        text = text_of_bytes(data, "x")
    except InputError as error:
        text = error.reference
    assert isinstance(text, str)
