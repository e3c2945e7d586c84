"""What a widget draws: pieces of gated text with a style name and, where one can stand, a key."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable
from typing import NamedTuple, Protocol

from formulate.tui.signs import RULE, STAND
from formulate.workflow.gate import cut, padded, shown


class Piece(NamedTuple):
    """A stretch of one screen row. ``style`` names a component style; ``at`` is the place a click stands on."""

    text: str
    style: str = ""
    at: str | None = None


Painted = tuple[Piece, ...]


class Drawing(Protocol):
    """Something with many rows of which a window is shown."""

    @property
    def count(self) -> int:
        """Rows in all."""
        ...

    def paint(self, index: int) -> Painted:
        """One row."""
        ...

    def span(self) -> tuple[int, int]:
        """First and last row of the place one stands on."""
        ...


def width_of(pieces: Iterable[Piece]) -> int:
    """Width of a row in cells."""
    from wcwidth import wcswidth

    return sum(len(one.text) if one.text.isascii() else max(wcswidth(one.text), 0) for one in pieces)


def cell(text: str, width: int, at: str | None, standing: bool, style: str = "", mark: str = "") -> Painted:
    """A figure in a column: one cell for the mark of standing, then the text; ``mark`` (``*``) is never cut off."""
    body = padded(cut(text, width - len(mark)) + mark, width)
    return (
        Piece(STAND if standing else " ", "stand" if standing else "", at),
        Piece(body, "stand" if standing else style, at),
    )


def wrap(text: str, width: int, most: int = 0) -> list[str]:
    """Gated text in rows of at most ``width`` cells; at most ``most`` rows (0: all), the last ending in '…' if cut."""
    clean = shown(text)
    rows = textwrap.wrap(clean, max(width, 8), break_long_words=True, break_on_hyphens=False) or [""]
    if not clean.isascii():
        rows = [part for row in rows for part in _narrow(row, max(width, 8))]
    if most and len(rows) > most:
        rows = [*rows[: most - 1], cut(" ".join(rows[most - 1 :]), width)]
        if not rows[-1].endswith("…"):
            rows[-1] = cut(rows[-1] + " …", width)
    return rows


def _narrow(row: str, width: int) -> list[str]:
    """Rows with characters two cells wide, cut so that each fits."""
    from wcwidth import wcwidth

    parts, used, part = [], 0, ""
    for char in row:
        cells = max(wcwidth(char), 0)
        if used + cells > width:
            parts.append(part)
            used, part = 0, ""
        used += cells
        part += char
    return [*parts, part]


def rule(width: int, left: str = "", right: str = "") -> Painted:
    """A dividing row with words in it: ``── because ──── line 4 ─``."""
    if not left and not right:
        return (Piece(RULE * width, "rule"),)
    left_said = f" {cut(left, width - 8)} " if left else ""
    room = width - 5 - width_of((Piece(left_said),))
    right_said = f" {cut(right, room - 2)} " if right and room > 6 else ""
    fill = width - 3 - width_of((Piece(left_said), Piece(right_said)))
    return (
        Piece(RULE * 2, "rule"),
        Piece(left_said, "strong"),
        Piece(RULE * max(fill, 0), "rule"),
        Piece(right_said, "strong"),
        Piece(RULE, "rule"),
    )


def between(left: str, right: str, width: int) -> Painted:
    """Words at both ends of a row; the left gives way."""
    tail = cut(right, max(width // 2, 8)) if right else ""
    tail_width = width_of((Piece(tail),))
    return (Piece(padded(left, max(width - tail_width - 1, 0)) + " "), Piece(tail, "muted"))
