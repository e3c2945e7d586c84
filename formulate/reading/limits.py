"""Ingredients named only in tables of exposure limits: section 8 of a sheet, pasted without its section 3."""

from __future__ import annotations

import re

from formulate.reading import patterns
from formulate.reading.item import Draft, clean_name
from formulate.reading.lazily import lazy

DOUBT = "named in a table of exposure limits, which tells no amount"
_HEAD = lazy(
    r"^\W{0,3}(?:ingredients?|components?|substances?|chemical(?:\sname)?|material)\s(?!material\sname)[^\n%]{0,80}"
    r"\b(?:IDLH|TEEL|PEL|TLV|TWA|STEL|OEL|ERPG|WEL|exposure\slimits?|OEB|exposure\sband)\b",
    re.IGNORECASE,
)
_OTHER_HEAD = lazy(
    r"\b(?:IDLH|TEEL|ERPG)(?:-?\d)?\s.{0,20}\b(?:IDLH|TEEL|ERPG)|^\W{0,3}(?:source|emergency\slimits|exposure\scontrols)\b",
    re.IGNORECASE,
)
_VALUE = lazy(
    r"(?:[<>\u2264]\s?)?\d[\d.,]{0,9}\s?(?:ppm|ppb|mg/m\s?[3\u00b3]|\u00b5g/m\s?[3\u00b3]|f/cc)(?![A-Za-z0-9])"
    r"|\bnot\s(?:available|applicable|established|determined|listed)\b",
    re.IGNORECASE,
)
_NAME_LINES = 3


def limit_drafts(copy: str, lines: list[tuple[int, int]]) -> list[Draft]:
    """The names of the rows under a head such as 'Ingredient  Original IDLH  Revised IDLH', each once.

    Tables that print two names side by side are left alone: nothing says where the first ends. Empty unless the
    rows are a good part of the text.
    """
    drafts: dict[str, Draft] = {}
    rows = 0
    inside = False
    waiting: list[tuple[int, int]] = []
    for start, end in lines:
        line = copy[start : min(end, start + 400)]
        value = _VALUE.search(line)
        if value is None:
            if _HEAD.match(line) or _OTHER_HEAD.search(line):
                inside, waiting = _HEAD.match(line) is not None, []
            else:
                waiting = [*waiting, (start, end)][-_NAME_LINES:] if inside else []
            continue
        if not inside:
            continue
        own = (start, start + value.start())
        spans = [*waiting, own] if copy[slice(*own)].strip() else waiting
        waiting = []
        name, _ = clean_name(" ".join(copy[a:b] for a, b in spans))
        rows += 1
        if spans and patterns.LETTER.search(name):
            last = spans[-1][0] + len(copy[slice(*spans[-1])].rstrip())
            drafts.setdefault(name.lower(), Draft(((spans[0][0], last),), name, doubtful=DOUBT))
    return list(drafts.values()) if len(drafts) > 1 and rows * 4 >= len(lines) else []
