"""The signs of the screen, and what stands for them where the terminal cannot show them."""

from __future__ import annotations

import sys
from typing import NamedTuple

from formulate.workflow.bars import BLOCK, LEFT, MARK, ONE, RIGHT

STAND = "▸"
RULE = "─"
GRAVE = "▲"
DOT = "·"
ARROW = "→"
_PLAIN = str.maketrans(
    {
        STAND: ">",
        RULE: "-",
        GRAVE: "!",
        DOT: "|",
        ARROW: ">",
        BLOCK: "=",
        MARK: "#",
        LEFT: "|",
        RIGHT: "|",
        ONE: "|",
        "…": ".",
        "“": '"',
        "”": '"',
        "„": '"',
        "‘": "'",
        "’": "'",
        "‹": "<",
        "›": ">",
        "«": "<",
        "»": ">",
        "–": "-",
        "—": "-",
        "±": "~",
        "µ": "u",
        "μ": "u",
        "°": " ",
        "²": "2",
        "³": "3",
        "½": "?",
    }
)
"""One cell for one cell, so that nothing moves."""


class Signs(NamedTuple):
    """What a terminal can show."""

    encoding: str
    full: bool

    def fit(self, text: str) -> str:
        """Text in signs that the terminal has, of the same width in cells."""
        if self.full or text.isascii():
            return text
        return "".join(char if char.isascii() else self._plain(char) for char in text.translate(_PLAIN))

    def _plain(self, char: str) -> str:
        from wcwidth import wcwidth

        try:
            char.encode(self.encoding)
        except (UnicodeEncodeError, LookupError):
            return "?" * max(wcwidth(char), 0)
        return char


def terminal_signs(encoding: str | None = None) -> Signs:
    """The signs of this terminal, by the encoding of its output (given, or that of standard output).

    >>> terminal_signs("ascii").fit("▸ 4 ─ “Silica” …")
    '> 4 - "Silica" .'
    """
    name = (encoding or getattr(sys.stdout, "encoding", None) or "ascii").casefold().replace("_", "-")
    return Signs(name, name.startswith("utf"))
