"""Text from a path, a stream or bytes. The text stays as it came; only its encoding is undone."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import BinaryIO, TextIO

from formulate.errors import InputError
from formulate.intake.limits import CONTROL_SHARE, DOCUMENT_BYTES

_KINDS = (
    (b"%PDF", "a PDF"),
    (b"PK\x03\x04", "a zip archive (an office document or spreadsheet is one)"),
    (b"\x89PNG", "a PNG picture"),
    (b"\xff\xd8\xff", "a JPEG picture"),
    (b"GIF8", "a GIF picture"),
    (b"\x1f\x8b", "a gzip archive"),
    (b"\xd0\xcf\x11\xe0", "an old office document"),
    (b"\x7fELF", "a program"),
    (b"MZ", "a program"),
)
_BOMS = (
    (b"\xef\xbb\xbf", "utf-8"),
    (b"\xff\xfe\x00\x00", "utf-32-le"),
    (b"\xff\xfe", "utf-16-le"),
    (b"\xfe\xff", "utf-16-be"),
)


def read_input(source: str | Path | bytes) -> str:
    """The text of a source: a path is read, '-' is standard input, bytes are decoded, other strings are the text."""
    if isinstance(source, bytes):
        return text_of_bytes(source, "the pasted bytes")
    if isinstance(source, Path):
        return text_of_path(source)
    return text_of_stdin(sys.stdin) if source == "-" else source


def text_of_path(path: str | Path) -> str:
    """The text of a file.

    Raises
    ------
    InputError
        ``unreadable-file`` (missing, a folder, no permission), ``too-large`` or ``binary-input``.
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
    """Decode bytes: a byte order mark decides, else UTF-8, else Windows-1252.

    Raises
    ------
    InputError
        ``too-large`` over 50 MB; ``binary-input`` where the bytes are no text.
    """
    if len(data) > DOCUMENT_BYTES:
        raise InputError(
            f'"{name}" holds more than {DOCUMENT_BYTES // 1024 // 1024} MB.',
            name,
            "a document of that size is not opened: reading a part of it silently could miss the list.",
            "save the pages with the ingredients (section 3 of a data sheet) and give those.",
            "too-large",
        )
    for mark, encoding in _BOMS:
        if data.startswith(mark):
            return _checked(data[len(mark) :].decode(encoding, "replace"), data, name)
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError:
        text = data.decode("cp1252", "replace")
    return _checked(text, data, name)


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
            "copy the ingredient list and paste it, or save the document as text.",
            "binary-input",
        )
    return text


def _plain(error: Exception) -> str:
    return (getattr(error, "strerror", None) or str(error)).lower()
