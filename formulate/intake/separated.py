"""Tables of separated values (CSV): each record becomes a line, its cells parted by tabs."""

from __future__ import annotations

import csv
from collections import Counter
from collections.abc import Iterable
from io import StringIO
from typing import NamedTuple

_SIGNS = "\t;,|"
_REGULAR = 0.6
MOST_IN_A_CELL = 131_072
"""Characters of a cell beyond which a text is no table."""
_SURE_ROWS = 3
_SURE_WIDTH = 3


class _Table(NamedTuple):
    rows: list[list[str]]
    width: int
    regular: float


def line_of(cells: Iterable[str]) -> str:
    """Cells as one line: parted by tabs, white space within a cell as one blank."""
    return "\t".join(" ".join(cell.split()) for cell in cells).rstrip("\t")


def table_text(text: str, named: bool) -> str | None:
    """The text of a table of separated values, or None if it is none.

    Parameters
    ----------
    text
        The decoded text.
    named
        Whether the name of the file says so (.csv, .tsv). If not, only a table with quoted cells and equal
        rows is taken; a list with commas stays as it is.
    """
    if not named and '"' not in text:
        return None
    text, told = _without_hint(text)
    tables = [table for sign in (told or _SIGNS) if (table := _table(text, sign)) is not None]
    best = max(tables, key=lambda table: (table.regular, table.width), default=None)
    if best is None or best.regular < (_REGULAR if named else 1.0):
        return None
    if not named and (len(best.rows) < _SURE_ROWS or best.width < _SURE_WIDTH):
        return None
    return "\n".join(line_of(row) for row in best.rows) + "\n"


def _without_hint(text: str) -> tuple[str, str]:
    """The text behind a first line such as 'sep=;', which some programs write for others, and the sign it tells."""
    first, _, rest = text.partition("\n")
    hint = first.strip().lower()
    return (rest, hint[4]) if len(hint) == 5 and hint.startswith("sep=") and hint[4] in _SIGNS else (text, "")


def _table(text: str, sign: str) -> _Table | None:
    """The records under one sign; None where they are no table (one record, one cell each, a cell too long)."""
    if sign not in text:
        return None
    try:
        rows = list(csv.reader(StringIO(text, newline=""), delimiter=sign))
    except csv.Error:
        return None
    if any(
        len(cell) > MOST_IN_A_CELL for row in rows for cell in row
    ):  # the reader's own limit can be raised by others
        return None
    widths = Counter(len(row) for row in rows if any(cell.strip() for cell in row))
    if sum(widths.values()) < 2:
        return None
    width, count = widths.most_common(1)[0]
    return _Table(rows, width, count / sum(widths.values())) if width > 1 else None
