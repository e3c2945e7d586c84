"""Lines that stand on every page of a document (titles, dates, page numbers): they are no part of any section."""

from __future__ import annotations

import re
from collections import Counter
from functools import lru_cache
from itertools import islice

from formulate.reading import patterns
from formulate.reading.cells import is_head_line
from formulate.reading.lazily import lazy
from formulate.reading.titles import section_titles

Span = tuple[int, int]
WHY = "page furniture: it stands on several pages"
_EDGE = 6
_AROUND = 5
_LONGEST = 200
_MOST_MARKS = 5_000
_PAGE = ("page", "seite", "side", "sida", "strona", "strana", "pagina", "p\u00e1gina", "p\u00e1g.", "oldal")
_PAGE_MARK = lazy(rf"(?:{'|'.join(_PAGE)})\s{{0,8}}(?:nr\.?|no\.?)?\s?:?\s{{0,8}}\d{{1,3}}(?!\d)".replace("g.", r"g\."))
_BARE_MARK = lazy(r"\n[ \t]{0,120}\d{1,3}\s?/\s?\d{1,3}[ \t]{0,40}(?=\n)")
_NUMBER = lazy(r"\d+")
_OF_A_LIST = lazy(r"%|\d{2,7}-\d{2}-\d(?!\d)|\bEUH?\s?\d{3}|\bH\d{3}")


def furniture_in(text: str, copy: str, low: str) -> list[Span]:
    """The lines that repeat at the edges of pages, in order.

    Pages end at a form feed; without one, at printed page numbers. A line with a share, a registry number or a hazard
    code is never one of them, nor is the head of a table or of a section.
    """
    spans = _by_form_feed(text, copy) if "\f" in text else _by_marks(copy, low)
    return sorted(set(spans))


def _by_form_feed(text: str, copy: str) -> list[Span]:
    pages: list[list[Span]] = []
    at = 0
    for page in text.split("\f"):
        lines = _lines(copy, at, at + len(page))
        pages.append([*lines[:_EDGE], *lines[max(_EDGE, len(lines) - _EDGE) :]])
        at += len(page) + 1
    seen = Counter(form for edge in pages for form in {_form(copy, span) for span in edge})
    return [span for edge in pages for span in edge if seen[_form(copy, span)] > 1 and _may_repeat(copy, span)]


def _by_marks(copy: str, low: str) -> list[Span]:
    marks = [match.start() + 1 for match in islice(_BARE_MARK.finditer(low), _MOST_MARKS)]
    if any(word in low for word in _PAGE):
        marks += [match.start() for match in islice(_PAGE_MARK.finditer(low), _MOST_MARKS)]
    if len(marks) < 2:
        return []
    around = [(offset, span) for mark in marks for offset, span in _neighbours(copy, mark)]
    seen = Counter({(offset, _form(copy, span), span[0]) for offset, span in around})
    repeated = Counter((offset, form) for offset, form, _ in seen)
    return [span for offset, span in around if repeated[offset, _form(copy, span)] > 1 and _may_repeat(copy, span)]


def _neighbours(copy: str, mark: int) -> list[tuple[int, Span]]:
    """The lines around a page number, each with its distance from it."""
    start = copy.rfind("\n", 0, mark + 1) + 1
    before = _lines(copy, max(0, start - _AROUND * _LONGEST), start)[-_AROUND:]
    after = _lines(copy, start, min(len(copy), start + (_AROUND + 1) * _LONGEST))[: _AROUND + 1]
    return [(place - len(before), span) for place, span in enumerate(before)] + list(enumerate(after))


def _lines(copy: str, start: int, end: int) -> list[Span]:
    """The printed lines of a stretch without the blanks around them."""
    spans = []
    at = start
    for line in copy[start:end].split("\n"):
        stripped = line.strip()
        if stripped:
            begin = at + line.index(stripped[0])
            spans.append((begin, begin + len(stripped)))
        at += len(line) + 1
    return spans


def _form(copy: str, span: Span) -> str:
    """A line with its numbers left out: 'Page 3 of 9' and 'Page 4 of 9' are one."""
    return _NUMBER.sub("#", copy[span[0] : min(span[1], span[0] + _LONGEST)].casefold())


def _may_repeat(copy: str, span: Span) -> bool:
    """Whether a line may be furniture at all."""
    return span[1] - span[0] <= _LONGEST and _is_no_row(copy[slice(*span)])


@lru_cache(maxsize=4096)
def _is_no_row(line: str) -> bool:
    if _OF_A_LIST.search(line) or is_head_line(line):
        return False
    if not patterns.WORDY.search(line) or patterns.SUBSECTION.match(line) or patterns.PART.match(line):
        return False
    return re.search(section_titles().at_line_start, "\n" + line.lower()) is None
