"""What stands around the entries of a list: its title, the sentences above and below, footnotes of starred names."""

from __future__ import annotations

import re
from collections.abc import Callable

from formulate.reading import patterns
from formulate.reading.amounts import shares_in
from formulate.reading.cuts import bare_name, signs_outside
from formulate.reading.endings import FOOTNOTE_LINE, STARRED
from formulate.reading.index_names import is_inside_number

Known = Callable[[str], bool]
Span = tuple[int, int]
_SENTENCE = 5
_FEWEST_BELOW = 4


def is_title(copy: str, lines: list[Span], known: Known) -> bool:
    """A first line without separators above a list that starts anew: the product's title, not an entry."""
    (start, end), (after, stop) = lines[0], lines[1]
    if commas_of(copy, after, stop) < 2 or shares_in(copy, start, end):
        return False
    if commas_of(copy, start, end) or known(bare_name(copy[start:end])) or not copy[after].isupper():
        return False
    first = re.match(r"[^,;]{1,80}", copy[after:stop])
    return first is not None and (
        known(bare_name(first.group())) or set(bare_name(first.group()).lower().split()) <= patterns.WATER_WORDS
    )


def is_numbered_title(copy: str, lines: list[Span], known: Known) -> bool:
    """'2) Paste for floors' above lines that carry no number: the title of one recipe of several."""
    mark = patterns.NUMBERED.match(copy, *lines[0])
    if mark is None or not mark.group().strip(" \t().").isdigit() or len(lines) < _FEWEST_BELOW:
        return False
    if any(patterns.NUMBERED.match(copy, *line) for line in lines[1:]) or shares_in(copy, *lines[0]):
        return False
    return not known(bare_name(copy[mark.end() : lines[0][1]]))


def without_lead(copy: str, lines: list[Span]) -> list[Span]:
    """Without the sentences on lines of their own above the list."""
    at = 0
    while at < len(lines) - 1:
        line = copy[lines[at][0] : lines[at][1]]
        if line[-1] not in ".!?:" or len(line.split()) < 6 or line.count(",") > 2 or shares_in(line, 0, len(line)):
            break
        at += 1
    return lines[at:]


def without_footnotes(copy: str, lines: list[Span]) -> list[Span]:
    """Lines that begin with a star explain starred names above; they are no entries."""
    if not any(STARRED.search(copy, start, end) for start, end in lines):
        return lines
    return [span for number, span in enumerate(lines) if number == 0 or not FOOTNOTE_LINE.match(copy, *span)]


def commas_of(copy: str, start: int, end: int) -> int:
    """How many commas and semicolons part entries: outside brackets and numbers."""
    signs = signs_outside(copy, start, end)
    return sum(not is_inside_number(copy, at) for at in signs.get(",", [])) + len(signs.get(";", []))


def without_tail(copy: str, lines: list[Span]) -> list[Span]:
    """Without the sentences below a wrapped list: lines without commas, the first of which begins anew."""
    last = max((number for number, span in enumerate(lines) if commas_of(copy, *span)), default=0)
    tail = lines[last + 1 :]
    sentences = sum(copy[end - 1] in ".!?" and len(copy[start:end].split()) >= _SENTENCE for start, end in tail)
    ended = copy[lines[last][1] - 1] not in ",;-" and bool(tail) and copy[tail[0][0]].isupper()
    return lines[: last + 1] if sentences and ended else lines
