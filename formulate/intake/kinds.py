"""What kind of document bytes are: their first signs decide, and a name that says otherwise is told."""

from __future__ import annotations

import re
from pathlib import Path

from formulate.errors import InputError

_WORDS = {
    "pdf": "a PDF",
    "workbook": "an Excel workbook",
    "letter": "a Word document",
    "open-workbook": "an OpenDocument spreadsheet",
    "open-letter": "an OpenDocument text",
    "zip": "an office document (a zip archive)",
    "text": "plain text",
    "table": "a table of separated values",
    "page": "a web page",
}
_NAMED = {
    ".pdf": "pdf",
    **dict.fromkeys((".xlsx", ".xlsm", ".xltx", ".xltm"), "workbook"),
    **dict.fromkeys((".docx", ".docm", ".dotx", ".dotm"), "letter"),
    **dict.fromkeys((".ods", ".ots"), "open-workbook"),
    **dict.fromkeys((".odt", ".ott"), "open-letter"),
    **dict.fromkeys((".txt", ".text", ".md"), "text"),
    **dict.fromkeys((".csv", ".tsv", ".tab"), "table"),
    **dict.fromkeys((".html", ".htm", ".xhtml"), "page"),
}
_TEXTS = frozenset({"text", "table", "page"})
_ARCHIVED = frozenset({"workbook", "letter", "open-workbook", "open-letter"})
_PDF_LEAD = 1024
_OLD_OFFICE = b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1"
_ENCRYPTED_PART = "EncryptedPackage".encode("utf-16-le")
_PAGE_HEAD = 4096
_PAGE = re.compile(
    r"\s{0,99}(?:<\?xml[^<>]{0,200}>\s{0,99})?(?:<!--[^>]{0,999}-->\s{0,99}){0,3}"
    r"<(?:!doctype\s{1,9}html|html|head|body)[\s>]",
    re.IGNORECASE,
)
_BLOCK = r"table|div|ul|ol|dl|p|section|article|main|h[1-6]|tbody"
_FRAGMENT = re.compile(rf"\s{{0,99}}<(?:{_BLOCK})(?:\s[^<>]{{0,500}})?>", re.IGNORECASE)
_CLOSED = re.compile(rf"</(?:{_BLOCK}|td|tr|li)>", re.IGNORECASE)


def binary_kind(data: bytes, name: str) -> str | None:
    """``pdf`` or ``zip`` where bytes begin so, else None (they may be text). Text that only says '%PDF' is text.

    Raises
    ------
    InputError
        ``encrypted-document`` for a workbook under a password, ``old-document`` for an old office format.
    """
    if data.startswith(_OLD_OFFICE):
        raise _old_office(_ENCRYPTED_PART in data, name)
    if data.startswith((b"PK\x03\x04", b"PK\x05\x06")):
        return "zip"
    lead = data[:_PDF_LEAD]
    if re.match(rb"\s{0,99}%PDF-\d", lead) or (b"%PDF-" in lead and b"startxref" in data[-2048:]):
        return "pdf"
    return None


def text_kind(text: str, name: str) -> str:
    """``page``, ``table`` or ``text`` for decoded text: a web page by its first signs, a table by the name of its file.

    ``name`` ending in .html needs a closing tag too: a plain list saved under that name keeps its lines.
    """
    head = text[:_PAGE_HEAD].lstrip("\ufeff")
    suffix = Path(name).suffix.lower()
    closed = len(_CLOSED.findall(text[: 50 * _PAGE_HEAD]))
    if _PAGE.match(head) or (_FRAGMENT.match(head) and closed >= 2) or (_NAMED.get(suffix) == "page" and closed):
        return "page"
    return "table" if _NAMED.get(suffix) == "table" else "text"


def check_name(kind: str, name: str) -> None:
    """Refuse bytes of one kind in a file named as another.

    Raises
    ------
    InputError
        ``kind-mismatch``; a name that promises nothing never raises.
    """
    suffix = Path(name).suffix.lower()
    named = _NAMED.get(suffix)
    if named is None or named == kind or {named, kind} <= _TEXTS or (kind == "zip" and named in _ARCHIVED):
        return
    failed = " A download that failed is often saved so." if named not in _TEXTS and kind in _TEXTS else ""
    raise InputError(
        f'"{Path(name).name}" is named as {_WORDS[named]} but holds {_WORDS[kind]}.',
        name,
        f"a file is read as what it holds; the wrong ending may mean that it is not the file you want.{failed}",
        "look into it, then get it again, or give it the ending that fits.",
        "kind-mismatch",
    )


def _old_office(encrypted: bool, name: str) -> InputError:
    if encrypted:
        return InputError(
            f'"{name}" is locked with a password.',
            name,
            "without the password nothing of it can be read.",
            "open it in its own program, save it without a password, and give that; or copy the list and paste it.",
            "encrypted-document",
        )
    return InputError(
        f'"{name}" is an office document of the old kind (.xls, .doc).',
        name,
        "the old format does not tell how its numbers are shown, so 5 % could come out as 0.05.",
        "open it in its own program and save it as .xlsx or .docx; or copy the list and paste it.",
        "old-document",
    )
