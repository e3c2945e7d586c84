"""Registry numbers of a stretch: CAS, EC, index and registration numbers, with their labels."""

from __future__ import annotations

import re
from typing import NamedTuple

from formulate.reading import patterns
from formulate.reading.lazily import lazy

MASK = "\x01"
REPAIRED = "its number is printed with signs too many; it is read without them"
_BLANKS = lazy(r"\s+")
_DASHES = lazy(r"-{2,}")


class Numbers(NamedTuple):
    """Registry numbers of a stretch, and the stretch with them masked (same length)."""

    cas: tuple[str, ...]
    ec: tuple[str, ...]
    masked: str
    repaired: bool = False


def numbers_in(stretch: str) -> Numbers:
    """Take CAS, EC, index and registration numbers with their labels out of a stretch."""
    if not patterns.DIGIT.search(stretch):
        return Numbers((), (), stretch)
    spans: list[tuple[int, int]] = []
    for pattern in (patterns.REACH, patterns.INDEX, patterns.TAX):
        spans += [m.span() for m in pattern.finditer(stretch)]
    cas = _labelled(stretch, patterns.CAS, patterns.CAS_LABEL, spans)
    ec = _labelled(stretch, patterns.EC, patterns.EC_LABEL, spans)
    signs = list(stretch)
    for start, end in spans:
        signs[start:end] = MASK * (end - start)
    odd = any(is_repaired(stretch[start:end]) for start, end in spans)
    return Numbers(tuple(cas), tuple(ec), "".join(signs), odd)


def _labelled(
    stretch: str, pattern: re.Pattern[str], label: re.Pattern[str], spans: list[tuple[int, int]]
) -> list[str]:
    values = []
    for match in pattern.finditer(stretch):
        start, end = match.span()
        if any(start < taken_end and taken_start < end for taken_start, taken_end in spans[-8:]):
            continue
        before = label.search(stretch, max(0, start - 30), start)
        spans.append((before.start() if before else start, end))
        values.append(plain_number(match.group()))
    return values


def plain_number(printed: str) -> str:
    """A registry number without blanks, doubled dashes and leading zeros: '0064742 -47--8' is 64742-47-8."""
    return _DASHES.sub("-", _BLANKS.sub("", printed)).lstrip("0")


def is_repaired(printed: str) -> bool:
    """Whether a number is printed with a dash too many, so that it might be another number."""
    return _DASHES.search(printed) is not None


def first(values: tuple[str, ...]) -> str | None:
    """The first of several values, or None."""
    return values[0] if values else None
