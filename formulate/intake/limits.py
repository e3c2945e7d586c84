"""Sizes beyond which an input is refused with a reason instead of read slowly or in part."""

from __future__ import annotations

from formulate.errors import InputError

DOCUMENT_BYTES = 50 * 1024 * 1024
"""Largest document that is opened at all."""

LIST_CHARACTERS = 2 * 1024 * 1024
"""Largest stretch that is read as one list."""

LIST_LINES = 20_000
"""Most printed lines that are read as one list."""

CONTROL_SHARE = 0.05
"""Share of control characters from which a file counts as binary."""

TEXT_CHARACTERS = 20 * 1024 * 1024
"""Most characters that one document may give as text."""

PDF_PAGES = 200
"""Most pages of a PDF that are read."""

WORKER_MEMORY = 1024 * 1024 * 1024
"""Address space of the process that opens a document, in bytes."""

WORKER_SECONDS = 30
"""Processor time of the process that opens a document; 200 dense pages took 9 s (2026-11-25). [s]"""

WORKER_CLOCK = 90
"""Time on the clock of that process, longer because the machine may have other work. [s]"""

ARCHIVE_PARTS = 5_000
"""Most files inside an office document."""

ARCHIVE_BYTES = 128 * 1024 * 1024
"""Most bytes that the parts of an office document may unpack to."""

ARCHIVE_RATIO = 200
"""How many times its packed size a large part may unpack to; an honest sheet of repeated rows stays below 100."""


def check_list_size(characters: int, lines: int, at: str, begins: str) -> None:
    """Refuse a recognised list that is too large to be read.

    Parameters
    ----------
    characters, lines
        Size of the stretch recognised as the list; a line is a printed line or an entry of a long one.
    at, begins
        Where the stretch stands, and its first words, for the message.

    Raises
    ------
    InputError
        ``too-large`` over 2 MB or 20,000 lines.
    """
    if characters <= LIST_CHARACTERS and lines <= LIST_LINES:
        return
    size = f"{characters / 1024 / 1024:.1f} MB" if characters > LIST_CHARACTERS else f"more than {LIST_LINES:,} lines"
    raise InputError(
        f'The list that begins "{begins}" is too large: {size}.',
        at,
        f"a list is read up to {LIST_CHARACTERS // 1024 // 1024} MB and {LIST_LINES:,} lines; reading part of it sil"
        f"ently would hide ingredients.",
        "give the section that holds the ingredients, or split the list into several products.",
        "too-large",
    )
