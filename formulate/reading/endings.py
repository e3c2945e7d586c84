"""Where a list ends inside its line: at the end of its sentence, or where footnotes of starred names begin."""

from __future__ import annotations

import re

from formulate.reading import patterns
from formulate.reading.bands import begins_band
from formulate.reading.cuts import signs_outside
from formulate.reading.lazily import lazy

STARRED = lazy(r"\w\)?[*\u2020\u2021^]")
_NUMBERED = lazy(r"\d{1,2}[.)]\s")
FOOTNOTE_LINE = lazy(r"\(?[*\u2020\u2021^]{1,3}\s?=?\s?(?=[\d.,%\s]{0,8}[A-Za-z])")
# 'Limonene. *90 % organic', 'Citral (* = from organic farming)', 'Linalool - *natural'; not 'Aqua, *Aloe juice'
_FOOTNOTE = lazy(
    r"(?<=[\s.;\])\u2020\u2021])(?<!,\s)(?<!,)(?:-\s)?\(?[*\u2020\u2021^]{1,3}\s?=?\s?(?=[\d.,%\s]{0,8}[A-Za-z]{2})"
)
_ABBREVIATION = lazy(
    r"(?:\b(?:no|nr|approx|ca|max|min|incl|e\.g|i\.e|vs|st|deg|conc|sol|wt|vol|gew|resp|spp?|var|mol|\w)\.)$",
    re.IGNORECASE,
)


def footnote_start(copy: str, start: int, end: int) -> int:
    """Where the footnotes of starred names begin ('Aqua*, Parfum**  * organic'); ``end`` if there are none."""
    if not STARRED.search(copy, start, end):
        return end
    note = _FOOTNOTE.search(copy, start, end)
    return note.start() if note else end


def sentence_end(copy: str, start: int, end: int) -> int:
    """Where the sentence that holds a list ends: a full stop before a capital that is no abbreviation."""
    signs = signs_outside(copy, start, end)
    small = copy[start:end].islower()
    for at in sorted(signs.get(".", []) + signs.get("\u3002", [])):
        rest = copy[at + 1 : at + 60].lstrip()
        if _ABBREVIATION.search(copy, max(start, at - 8), at + 1) and not patterns.INSTRUCTION.match(rest):
            continue
        if (
            not rest
            or rest[0].isupper()
            or (small and rest[0].isalpha())
            or _NUMBERED.match(rest)
            or begins_band(copy, at + 1, end)
            or copy[at] == "\u3002"
            or "\n\n" in copy[at : at + 4]
        ):
            return at + 1
    return end
