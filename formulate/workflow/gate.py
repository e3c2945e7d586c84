"""The one gate through which outside text reaches a screen.

Models keep text as it came; a face passes everything through here. Control, bidirectional and invisible
characters become visible marks, so that no text can move the cursor, hide, or turn other text around.
"""

from __future__ import annotations

import unicodedata

MOST_MARKS = 3
"""Combining marks kept on one character; more are stacked only to deface a screen."""
_HIDDEN = {"Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp"}
_BLANKS = {"\u3164", "\uffa0", "\u115f", "\u1160", "\u2800"}


def shown(text: str, lines: bool = False) -> str:
    """Text as a screen may show it. ``lines`` keeps line breaks; else they and tabs become one space.

    >>> shown("a\\x1b[31mb")
    'a␛[31mb'
    """
    parts: list[str] = []
    marks = 0
    for char in text:
        if char.isascii() and char.isprintable():
            marks = 0
            parts.append(char)
            continue
        if char in "\n\r\t":
            parts.append("\n" if lines and char == "\n" else " ")
            continue
        category = unicodedata.category(char)
        if category in {"Mn", "Me"}:
            marks += 1
            if marks <= MOST_MARKS:
                parts.append(char)
            continue
        marks = 0
        parts.append(_mark(char) if category in _HIDDEN or char in _BLANKS else char)
    return "".join(parts)


def _mark(char: str) -> str:
    """A visible sign for a character that would not be seen, or would act."""
    code = ord(char)
    if code < 0x20:
        return chr(0x2400 + code)
    if code == 0x7F:
        return "\u2421"
    return f"‹U+{code:04X}›"


MOST_MARKS = 8
"""Characters kept for each cell: letters carry few marks, and text made to be slow carries many."""


def cut(text: str, width: int) -> str:
    """Shown text cut to a width in cells, with '…' where something was cut."""
    clean = shown(text)
    if clean.isascii():
        return clean if len(clean) <= width else clean[: width - 1] + "…"
    from wcwidth import wcswidth

    if wcswidth(clean) <= width:
        return clean
    # Measured as a whole: some marks of no width of their own widen the letter that they follow.
    kept = ""
    for char in clean[: width * MOST_MARKS]:
        if wcswidth(kept + char + "…") > width:
            break
        kept += char
    return kept + "…"


def padded(text: str, width: int) -> str:
    """Shown text cut or filled to exactly a width in cells."""
    clean = cut(text, width)
    if clean.isascii():
        return clean.ljust(width)
    from wcwidth import wcswidth

    return clean + " " * (width - max(wcswidth(clean), 0))
