"""Text from a path, a stream or bytes. Text stays as it came, its encoding undone; a document becomes one text."""

from __future__ import annotations

import re
import sys
from pathlib import Path
from typing import BinaryIO, TextIO

from formulate.errors import InputError
from formulate.intake.kinds import binary_kind, check_name, text_kind
from formulate.intake.limits import CONTROL_SHARE, DOCUMENT_BYTES

_KINDS = (
    (b"\x89PNG", "a PNG picture"),
    (b"\xff\xd8\xff", "a JPEG picture"),
    (b"GIF8", "a GIF picture"),
    (b"\x1f\x8b", "a gzip archive"),
    (b"\x7fELF", "a program"),
    (b"MZ", "a program"),
)
_BOMS = (
    (b"\xef\xbb\xbf", "utf-8"),
    (b"\xff\xfe\x00\x00", "utf-32-le"),
    (b"\xff\xfe", "utf-16-le"),
    (b"\xfe\xff", "utf-16-be"),
)
# Encodings that a web page may name for itself where its bytes are no UTF-8.
_NAMED = re.compile(
    rb"charset\s{0,9}=\s{0,9}[\"']?(iso-8859-\d{1,2}|windows-125\d|koi8-[ru]|shift_jis|euc-(?:jp|kr)|gb2312|gbk|gb18030"
    rb"|big5)\b",
    re.IGNORECASE,
)
_HEAD = 4096


def read_input(source: str | Path | bytes) -> str:
    """The text of a source: a path is read, '-' is standard input, bytes are decoded, other strings are the text."""
    if isinstance(source, bytes):
        return text_of_bytes(source, "the pasted bytes")
    if isinstance(source, Path):
        return text_of_path(source)
    return text_of_stdin(sys.stdin) if source == "-" else source


def text_of_path(path: str | Path) -> str:
    """The text of a file, whatever its kind; pages of a PDF and sheets of a workbook are parted by form feeds.

    Raises
    ------
    InputError
        ``unreadable-file`` (missing, a folder, no permission), and what :func:`text_of_bytes` raises.
    """
    place = Path(path)
    try:
        with place.open("rb") as stream:
            data = stream.read(DOCUMENT_BYTES + 1)
    except (OSError, ValueError) as error:
        raise InputError(
            f'"{place}" cannot be read.',
            str(place),
            f"{_plain(error)}: without its text there is no list to read.",
            "check the path, or paste the list and use '-'.",
            "unreadable-file",
        ) from error
    return text_of_bytes(data, str(place))


def text_of_stdin(stream: TextIO | BinaryIO) -> str:
    """The text of standard input; bytes come from its buffer where it has one, so that their encoding can be undone."""
    buffer = getattr(stream, "buffer", stream)
    data = buffer.read(DOCUMENT_BYTES + 1)
    if isinstance(data, str):
        data = data.encode("utf-8", "surrogateescape")
    return text_of_bytes(data, "standard input")


def text_of_bytes(data: bytes, name: str) -> str:
    """The text of bytes, by what they are: a document is opened in a process of its own, text is decoded.

    A byte order mark decides the encoding, else UTF-8, else what a web page names, else Windows-1252.

    Parameters
    ----------
    data
        The bytes as they came.
    name
        What they are called, for messages. Its ending tells a table (.csv), and is held against what the bytes are.

    Raises
    ------
    InputError
        ``too-large`` over 50 MB; ``binary-input`` where the bytes are neither text nor a document that is read;
        ``kind-mismatch``, ``encrypted-document``, ``scanned-document``, ``too-many-pages``, ``unpacks-too-large``,
        ``xml-entities``, ``damaged-document``, ``document-limits``, ``old-document`` as they say.
    """
    if len(data) > DOCUMENT_BYTES:
        raise InputError(
            f'"{name}" holds more than {DOCUMENT_BYTES // 1024 // 1024} MB.',
            name,
            "a document of that size is not opened: reading a part of it silently could miss the list.",
            "save the pages with the ingredients (section 3 of a data sheet) and give those.",
            "too-large",
        )
    kind = binary_kind(data, name)
    if kind is not None:
        check_name(kind, name)
        return _apart(kind, data, name)
    text = _checked(_decoded(data), data, name)
    kind = text_kind(text, name)
    check_name(kind, name)
    if kind == "page":
        return _apart(kind, text.encode("utf-8", "replace"), name)
    if kind == "table" or '"' in text:
        from formulate.intake.separated import table_text

        return table_text(text, named=kind == "table") or text
    return text


def _apart(kind: str, data: bytes, name: str) -> str:
    from formulate.intake.apart import text_apart

    return text_apart(kind, data, name)


def _decoded(data: bytes) -> str:
    for mark, encoding in _BOMS:
        if data.startswith(mark):
            return data[len(mark) :].decode(encoding, "replace")
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        named = _NAMED.search(data, 0, _HEAD)
        return data.decode(named[1].decode() if named else "cp1252", "replace")


def _checked(text: str, data: bytes, name: str) -> str:
    kind = next((words for mark, words in _KINDS if data.startswith(mark)), None)
    sample = text[:200_000]
    control = sum(sign < " " and sign not in "\t\n\r\x0b\x0c\x1b" or sign == "\ufffd" for sign in sample)
    if (kind is not None and control) or "\x00" in text or control > max(2, len(sample) * CONTROL_SHARE):
        at = next(
            (
                n
                for n, sign in enumerate(text)
                if sign == "\x00" or sign == "\ufffd" or (sign < " " and sign not in "\t\n\r\x0b\x0c\x1b")
            ),
            0,
        )
        raise InputError(
            f'"{name}" is not text{f": it begins like {kind}" if kind else ""}.',
            f"{name}, character {at + 1}",
            "a list can only be read from text; guessing at other bytes would invent ingredients.",
            "give a PDF, a workbook, a web page or plain text; or copy the ingredient list and paste it.",
            "binary-input",
        )
    return text


def _plain(error: Exception) -> str:
    return (getattr(error, "strerror", None) or str(error)).lower()
