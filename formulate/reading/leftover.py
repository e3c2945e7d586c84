"""What was not used as an ingredient, and why: nothing of a text is dropped silently."""

from __future__ import annotations

import re

from formulate.domain.line import LeftOver
from formulate.domain.place import LineIndex
from formulate.reading import patterns
from formulate.reading.cells import is_head_line
from formulate.reading.lazily import lazy

Span = tuple[int, int]
_MARK = lazy(r"\(?(?:\d{1,3}|[A-Za-z]|[ivx]{1,4})[.)]")
MOST = 2000
LONGEST_GAP = 50_000
LONGEST_LOOKED = 200_000
_CONTENT_LINE = lazy(r"\S[^\n]*")
_CONTENT = lazy(r"\S.*", re.DOTALL)
_EDGE = " \t\n\r,;|"
_GLUE = lazy(
    r"[\W_]*(?:(?:and|und|et|or|plus|also|&|the|of)[\W_]*){0,2}(?:\(?(?:\d{1,3}|[A-Za-z]|[ivx]{1,4})[.)][\W_]*)?",
    re.IGNORECASE,
)
_HEADING = lazy(rf"[\W_]*(?:\w+\s){{0,2}}{patterns.LIST_HEAD.pattern}", re.IGNORECASE)
_REMARK = lazy(
    r"trade\ssecret|withheld|exact\s(?:percentage|concentration)|section\s\d+|full\stext|classified|note:|regulation",
    re.IGNORECASE,
)


def left_over_of(
    text: str, copy: str, claimed: list[Span], told: list[tuple[int, int, str]], index: LineIndex
) -> tuple[LeftOver, ...]:
    """Every stretch with letters or digits that no line and no fact took, line by line, with the reason.

    ``told`` are stretches whose reason is known already. Neighbouring lines with the same reason are one piece.
    """
    pieces: list[tuple[int, int, str]] = []
    at = looked = 0
    for start, end in [*_merged([*claimed, *((start, end) for start, end, _ in told)]), (len(copy), len(copy))]:
        if start > at and not _GLUE.fullmatch(copy, at, min(start, at + 40)) or start > at + 40:
            looked += start - at
            _add_gap(copy, at, start, pieces, by_line=start - at <= LONGEST_GAP and looked <= LONGEST_LOOKED)
        at = max(at, end)
    pieces = sorted([*pieces, *told])
    if len(pieces) > MOST:
        pieces = [*pieces[:MOST], (pieces[MOST][0], pieces[-1][1], "more text around the list")]
    return tuple(
        LeftOver.model_construct(text=text[start:end], why=why, place=index.place(start, end))
        for start, end, why in pieces
    )


def _merged(spans: list[Span]) -> list[Span]:
    merged: list[Span] = []
    for start, end in sorted(spans):
        if merged and start <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(end, merged[-1][1]))
        else:
            merged.append((start, end))
    return merged


def _add_gap(copy: str, start: int, end: int, pieces: list[tuple[int, int, str]], by_line: bool) -> None:
    """Add the lines of a gap, or the whole gap as one piece where it or the text is long."""
    pattern = _CONTENT_LINE if by_line else _CONTENT
    fresh = True
    for match in pattern.finditer(copy, start, end):
        stripped = match.group().strip(_EDGE)
        if not patterns.WORDY.search(stripped) or _MARK.fullmatch(stripped):
            continue
        begin = match.start() + match.group().index(stripped[0])
        why = why_left(stripped[:400]) if pattern is _CONTENT_LINE else "text around the list"
        if pieces and not fresh and pieces[-1][2] == why:
            pieces[-1] = (pieces[-1][0], begin + len(stripped), why)
        else:
            pieces.append((begin, begin + len(stripped), why))
        fresh = False


def why_left(line: str) -> str:
    """Why a line is no ingredient, in words."""
    if patterns.NONE_DECLARED.search(line):
        return "says that nothing hazardous is declared"
    if patterns.REST_SENTENCE.match(line):
        return "a remark about the list"
    if len(line.split()) > 5 and patterns.TABLE_NOTE.search(line) and not patterns.INSTRUCTION.search(line):
        return "a remark about the list"
    if patterns.DILUTION.match(line):
        return "says how the product is diluted for use"
    if patterns.INSTRUCTION.search(line):
        return "an instruction, not an ingredient"
    if patterns.PAGE_NOISE.match(line):
        return "a page mark"
    if patterns.TOTAL.match(line):
        return "a sum, not an ingredient"
    if patterns.PART.match(line) or patterns.LAW_TITLE.match(line):
        return "a heading of the list or of its columns"
    if is_head_line(line) or patterns.SUBSECTION.match(line) or patterns.PROPERTY_LINE.match(line):
        return "a heading of the list or of its columns"
    if _HEADING.fullmatch(line.rstrip(": ") + ":") or patterns.COMPOSITION_TITLE.search(line):
        return "a heading of the list or of its columns"
    if _REMARK.search(line):
        return "a remark about the list"
    return "text around the list"
