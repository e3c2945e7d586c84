"""The text of an office document (a zip archive of XML). The archive is weighed before a library sees it."""

from __future__ import annotations

import zipfile
from io import BytesIO
from xml.parsers import expat

from formulate.errors import InputError
from formulate.intake.kinds import check_name
from formulate.intake.limits import ARCHIVE_BYTES, ARCHIVE_PARTS, ARCHIVE_RATIO
from formulate.intake.refusals import locked, refused

_MEGABYTE = 1024 * 1024
_CHUNK = 64 * 1024
_HOSTILE = "such a document can be made to fill the memory or to hide what it holds."
_AGAIN = "open it in its own program and save it again, or copy the list and paste it."
_MAIN = {"xl/workbook.xml": "workbook", "word/document.xml": "letter"}
_MIMETYPES = {
    b"application/vnd.oasis.opendocument.spreadsheet": "open-workbook",
    b"application/vnd.oasis.opendocument.text": "open-letter",
}


def office_text(data: bytes, suffix: str = "") -> str:
    """The text of a workbook or letter.

    Raises
    ------
    InputError
        ``unpacks-too-large``, ``xml-entities``, ``encrypted-document``, ``kind-mismatch``, ``binary-input`` for
        another archive, ``damaged-document`` for one that cannot be opened.
    """
    try:
        archive = zipfile.ZipFile(BytesIO(data))
    except (zipfile.BadZipFile, NotImplementedError):
        raise refused(
            "This zip archive (an office document is one) is damaged.", "damaged-document", try_=_AGAIN
        ) from None
    with archive:
        check_archive(archive)
        kind = _kind(archive)
        check_name(kind, f"document{suffix}")
        if kind == "workbook":
            from formulate.intake.workbook import workbook_text

            return workbook_text(data)
        from formulate.intake.letters import letter_text, open_text

        return letter_text(archive) if kind == "letter" else open_text(archive)


def check_archive(archive: zipfile.ZipFile) -> None:
    """Weigh an archive by its directory, then every XML part while it is read.

    Raises
    ------
    InputError
        ``unpacks-too-large`` (a zip bomb), ``xml-entities`` (a part with its own entities), ``encrypted-document``.
    """
    parts = archive.infolist()
    total = sum(part.file_size for part in parts)
    swollen = any(
        part.file_size > max(part.compress_size, 1) * ARCHIVE_RATIO and part.file_size > _MEGABYTE for part in parts
    )
    if len(parts) > ARCHIVE_PARTS or total > ARCHIVE_BYTES or swollen:
        raise _bomb()
    if any(part.flag_bits & 1 for part in parts):
        raise locked("The document")
    if len({part.filename for part in parts}) < len(parts):
        raise refused("Two parts of the document have one name.", "damaged-document", why=_HOSTILE, try_=_AGAIN)
    read = 0
    for part in parts:
        if part.filename.lower().endswith((".xml", ".rels", ".vml")) or part.filename == "mimetype":
            read += _checked_part(archive, part, ARCHIVE_BYTES - read)


def _checked_part(archive: zipfile.ZipFile, part: zipfile.ZipInfo, most: int) -> int:
    """Read a part through once: its size as it is, and no document type.

    The parser itself is asked, since it knows every encoding; it stops at a document type, so nothing is expanded.
    """
    parser = None if part.filename == "mimetype" else expat.ParserCreate()
    if parser is not None:
        parser.StartDoctypeDeclHandler = _no_document_type
    size = 0
    with archive.open(part) as stream:
        while chunk := stream.read(_CHUNK):
            size += len(chunk)
            if size > most:
                raise _bomb()
            if parser is not None:
                parser.Parse(chunk, False)
    return size


def _no_document_type(*_: object) -> None:
    raise refused("A part of the document defines its own entities.", "xml-entities", why=_HOSTILE, try_=_AGAIN)


def _bomb() -> InputError:
    return refused(
        f"The document unpacks to more than an honest one would ({ARCHIVE_BYTES // _MEGABYTE} MB, {ARCHIVE_PARTS:,}"
        f" parts, or {ARCHIVE_RATIO} times its packed size).",
        "unpacks-too-large",
        why=_HOSTILE,
        try_=_AGAIN,
    )


def _kind(archive: zipfile.ZipFile) -> str:
    names = set(archive.namelist())
    for part, kind in _MAIN.items():
        if part in names:
            return kind
    if "mimetype" in names and "content.xml" in names:
        found = _MIMETYPES.get(archive.read("mimetype")[:100].strip())
        if found:
            return found
    raise refused(
        "This is a zip archive, but no document that is read.",
        "binary-input",
        why="only workbooks (.xlsx, .ods) and letters (.docx, .odt) are opened.",
        try_="unpack it and give the document inside, or copy the list and paste it.",
    )
