"""Where the sections of a safety data sheet begin, and what each is about."""

from __future__ import annotations

import re
from itertools import pairwise
from typing import NamedTuple

from formulate.reading.lazily import lazy
from formulate.reading.titles import fold, section_titles

WHY = "the heading of a section"
COMPOSITION = "composition"
UNNAMED = "unnamed"
# 'see Section 3: Composition ...' names a section and opens none
_REFERRED = lazy(
    r"(?:\b(?:see|cf\.?|also|refer\sto|and|in|of|under|from|to|siehe|vgl\.?|und|voir|et|v\u00e9ase|consulte|y|vedi"
    r"|vedere"
    r"|zie|se|samt|och|og|patrz|viz|ver|a)|[(\"',/])\s{0,3}$"
)
_CLOSED = lazy(r"\s?[\")\],]|\s?[.;]\s?[^\W\d_]")
_AFTER = lazy(r"[ \t:=_*#|-]{0,120}(?:\n|$)?")
_LINE_END = lazy(r"[^\n]{0,80}")
# so long that whole sections may stand in one line
_LONG_LINE = lazy(r"\n[^\n]{101,}")
_LONG_TITLE = 16
_REST_OF_HEADING = 28
_ROMAN = {"i": 1, "v": 5, "x": 10, "l": 50}


class Heading(NamedTuple):
    """A printed heading: what its section is about, its place, its number, and where the section's text begins."""

    kind: str
    begin: int
    after: int
    number: int | None


SHORT = 4000
"""Signs up to which a text is first asked for the letters of a heading."""


def lowered(copy: str) -> str:
    """The text in lower case, sign for sign: a few capitals have a small form of two signs and are left as they are."""
    low = copy.lower()
    if len(low) == len(copy):
        return low
    return "".join(small if len(small := sign.lower()) == 1 else sign for sign in copy)


def headings_in(low: str) -> list[Heading]:
    """The headings of a text in lower case, in order; a table of contents and a mention in a sentence give none."""
    titles = section_titles()
    if len(low) < SHORT and not titles.told_in(low):
        return []  # a plain label: the patterns of all headings need not be made
    found: dict[int, Heading] = {}
    for match in titles.at_line_start.finditer("\n" + low):
        heading = _heading(low, match, shift=1)
        if heading is not None:
            found.setdefault(heading.begin, heading)
    for line in _LONG_LINE.finditer("\n" + low):
        for match in titles.in_line.finditer(low, line.start(), line.end() - 1):
            heading = _heading(low, match, shift=0)
            if heading is not None:
                found.setdefault(heading.begin, heading)
    ordered = sorted(found.values(), key=lambda heading: heading.begin)
    return _without_doubles(low, ordered)


def _heading(low: str, match: re.Match[str], shift: int) -> Heading | None:
    """The heading that a match announces, or None where it is a sentence, a mention or an unknown title."""
    begin, at = match.start(), match.start("title") - shift
    printed = match["of_word"] or match["alone"]
    number = _number(printed) if printed else None
    title = section_titles().find(low, at)
    lead = low[max(0, begin - 30) : begin]
    if (match["word"] or not shift) and _REFERRED.search(lead.replace("\n", " ")):
        return None
    if title is None:
        ends = _LINE_END.match(low, at)
        named = shift and match["word"] and number and ends is not None and len(ends.group()) < 70
        return Heading(UNNAMED, begin, at, number) if named else None
    known, end = title
    if "(" in low[begin:at] and low[end : end + 1] == ")":
        return None
    if known.numbered and number is None or _CLOSED.match(low, end) and not _is_whole_line(low, end, shift):
        return None
    if (number is None or known.numbered and not match["word"]) and not _stands_alone(
        low, end, known.letters, known.kind
    ):
        return None
    after = _AFTER.match(low, end)
    return Heading(known.kind, begin, after.end() if after else end, number)


def _is_whole_line(low: str, end: int, shift: int) -> bool:
    """Whether a heading at the start of a line is followed by a few more signs only: '... on ingredients.'"""
    rest = _LINE_END.match(low, end)
    return bool(shift) and rest is not None and len(fold(rest.group())) < _REST_OF_HEADING and '"' not in rest.group()


def _stands_alone(low: str, end: int, letters: str, kind: str) -> bool:
    """Whether the line ends soon after the heading, so that it is no sentence; a long heading of a list may run on."""
    if kind == COMPOSITION and len(letters) >= _LONG_TITLE:
        return True
    rest = _LINE_END.match(low, end)
    return rest is None or len(fold(rest.group())) <= _REST_OF_HEADING


def _number(printed: str) -> int:
    """An Arabic or Roman number; a misread 'lll' is three."""
    if printed.isdigit():
        return int(printed)
    values = [_ROMAN[sign] for sign in (printed if set(printed) != {"l"} else "i" * len(printed))]
    return sum(-one if one < next_ else one for one, next_ in pairwise([*values, 0]))


def _without_doubles(low: str, headings: list[Heading]) -> list[Heading]:
    """Drop a heading that lies inside the one before it."""
    kept: list[Heading] = []
    for heading in headings:
        if not kept or heading.begin >= kept[-1].after - 1:
            kept.append(heading)
    return kept
