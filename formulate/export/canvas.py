"""Pictures out of characters: a grid of dots as Braille, two by four to a cell, or as plain ASCII."""

from __future__ import annotations

import textwrap

import numpy as np
import numpy.typing as npt

Dots = npt.NDArray[np.bool_]

BRAILLE = 0x2800
"""First of the Braille patterns of Unicode, the empty one."""

BITS = np.array([[0x01, 0x08], [0x02, 0x10], [0x04, 0x20], [0x40, 0x80]])
"""Bit of each dot in a cell, from its top (Unicode Standard, chapter on Braille patterns)."""

SHADES = np.array([" ", ".", ".", ":", ":", "o", "o", "#", "#"])
"""Letter for the number of dots in a cell, where Braille cannot be shown."""

ACROSS, DOWN = 2, 4
"""Dots in a cell. A cell of a terminal is about twice as high as wide, so dots are as far apart both ways."""


def rows(dots: Dots, ascii_only: bool = False) -> list[str]:
    """Lines of text that show a grid of dots.

    :param dots: shape (4 * lines, 2 * cells), row 0 on top.
    :param ascii_only: letters in place of Braille.
    """
    lines, cells = dots.shape[0] // DOWN, dots.shape[1] // ACROSS
    parts = dots[: lines * DOWN, : cells * ACROSS].reshape(lines, DOWN, cells, ACROSS)
    if ascii_only:
        letters = SHADES[parts.sum(axis=(1, 3))]
        return ["".join(line) for line in letters]
    codes = np.einsum("adbe,de->ab", parts.astype(np.int64), BITS) + BRAILLE
    return ["".join(map(chr, line)) for line in codes]


def bar(cells: int, ascii_only: bool = False) -> str:
    """A scale bar of so many cells, at least two."""
    cells = max(2, cells)
    return "|" + "-" * (cells - 2) + "|" if ascii_only else "├" + "─" * (cells - 2) + "┤"


def round_length(longest: float) -> float:
    """The largest of 1, 2, 5, 10, ... that is at most ``longest``."""
    power = 10.0 ** np.floor(np.log10(longest))
    return float(max(step * power for step in (1, 2, 5, 10) if step * power <= longest * (1 + 1e-9)))


def length_words(nm: float) -> str:
    """A length as a person writes it: nm below 1000, um from there."""
    return f"{nm:g} nm" if nm < 1000 else f"{nm / 1000:g} um"


def wrapped(text: str, width: int) -> list[str]:
    """Text in lines of at most ``width``; a word that is longer is cut."""
    return textwrap.wrap(text, width) or [""]
