"""Hazard statement codes of the product as a whole: those of the section on hazards, never those of single rows."""

from __future__ import annotations

from bisect import bisect_right

from formulate.domain.line import HazardCode
from formulate.domain.place import LineIndex
from formulate.reading.block import Block, Outline
from formulate.reading.lazily import lazy
from formulate.reading.sections import UNNAMED, Heading

# Regulation (EC) No 1272/2008, Annex III: H200 to H420 with letters (H350i, H360FD), EUH and three digits with letter
_CODE = lazy(r"(?<![\w-])(?:EUH\s?\d{3}[A-Z]?|H\s?[2-4]\d{2}(?:i|F?D?|Fd|Df|fd|f|d)?)(?![\w-])")
_MOST = 200
_LONGEST = 200_000


def hazard_codes_in(text: str, copy: str, outline: Outline, index: LineIndex) -> tuple[HazardCode, ...]:
    """The codes printed in the sections on hazards, each once, where it stands first; none without such a section."""
    found: dict[tuple[str, str], HazardCode] = {}
    several = len({block.sheet for block in outline.blocks}) > 1
    for place, heading in enumerate(outline.headings):
        if heading.kind != "hazards" or len(found) >= _MOST:
            continue
        of = _of(heading, outline.blocks) if several else "product"
        end = _end(outline.headings, place, len(copy))
        for match in _CODE.finditer(copy, heading.after, min(end, heading.after + _LONGEST)):
            code = match.group().replace(" ", "")
            if (of, code) not in found and len(found) < _MOST:
                found[of, code] = HazardCode.model_construct(
                    code=code, text=text[slice(*match.span())], place=index.place(*match.span()), of=of
                )
    return tuple(found.values())


def _end(headings: list[Heading], place: int, length: int) -> int:
    """Where the section of a heading ends."""
    for later in range(place + 1, len(headings)):
        if headings[later].kind != UNNAMED:
            return headings[later].begin
    return length


def _of(heading: Heading, blocks: list[Block]) -> str:
    """The data sheet whose list follows a section on hazards."""
    later = bisect_right(blocks, heading.begin, key=lambda block: block.start)
    return f"sheet {blocks[min(later, len(blocks) - 1)].sheet}"
