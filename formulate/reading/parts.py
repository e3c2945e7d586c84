"""Parts of one product (part A and part B) and its states (as sold, at use dilution), each with a list of its own."""

from __future__ import annotations

from bisect import bisect_right
from typing import NamedTuple

from formulate.reading.block import Block
from formulate.reading.lazily import lazy
from formulate.reading.surface import squeezed

WHY = "the heading of a part or state of the product"
_LETTERED = r"(?:[A-D]|[1-4]|I{1,3})(?![\w-])"
_ABOUT = r"(?:\s{0,2}[-:(/]\s{0,2}[^\W\d_][^\n:,;%|()]{0,30}\)?)?"
_STATE = (
    r"(?:the\s)?(?:product\s)?(?:as\s(?:sold|supplied|packaged|delivered|shipped)|(?:at|in)\suse[\s-]dilution"
    r"|use[\s-](?:dilution|solution)"
    r"|ready[\s-](?:to|for)[\s-]use|concentrate|working\ssolution|diluted\sproduct|konzentrat|gebrauchsl\u00f6sung"
    r"|anwendungsl\u00f6sung"
    r"|concentr\u00e9|pr\u00eat\s\u00e0\sl.emploi|listo\spara\suso|pronto\sall.uso)"
    r"(?:\s?\(?\s?(?:\d{1,3}\s?(?:[:+]|to)\s?\d{1,4}|\d{1,2}(?:[.,]\d{1,2})?\s?%)[^\n:,;()]{0,20}\)?)?"
)
_HEADING = lazy(
    rf"(?:^|\n)[ \t*#\u2022-]{{0,40}}(?P<name>(?:(?P<part>part|teil|partie|parte|del)\s{_LETTERED}{_ABOUT}"
    rf"|(?:component|comp\.|komponente|composant|composante|componente"
    rf"|kit\scomponent)\s{_LETTERED}{_ABOUT}(?=\s{{0,3}}:?[ \t*]{{0,9}}(?:\n|$))"
    rf"|(?P<state>{_STATE})))[ \t*]{{0,9}}(?::|(?=\n)|$)"
    rf"|(?<=[.;:])\s{{1,3}}(?P<inline>(?:part|teil|partie|parte)\s{_LETTERED}(?:\s?\([^()\n]{{1,30}}\))?)\s?:",
    0x2,
)


class Part(NamedTuple):
    """A heading of a part: its place and its name as printed."""

    start: int
    end: int
    name: str


def parts_in(copy: str, blocks: list[Block]) -> list[Part]:
    """The headings of parts inside the lists of a text, in order; one heading alone divides nothing."""
    parts: list[Part] = []
    for block in blocks:
        inside = []
        for match in _HEADING.finditer(copy, max(0, block.start - 3), min(block.end, block.start + 2_000_000)):
            group = "inline" if match["inline"] else "name"
            name = squeezed(match[group]).strip(" :-*")
            inside.append(Part(match.start(group), max(match.end(), match.end(group)), name))
        if len({part.name.casefold() for part in inside}) > 1:
            parts += inside
    return parts


def without_headings(copy: str, parts: list[Part]) -> str:
    """The text with the headings of parts blanked, of the same length, so that none is read as an ingredient."""
    pieces, at = [], 0
    for part in parts:
        pieces += [copy[at : part.start], "\n", " " * (part.end - part.start - 1)]
        at = part.end
    return "".join([*pieces, copy[at:]])


def part_at(place: int, parts: list[Part], block: Block, sheets: int) -> str | None:
    """Name of the part that a place in a block belongs to; of several data sheets, the number of the sheet too."""
    later = bisect_right(parts, place, key=lambda part: part.start)
    named = parts[later - 1].name if later and parts[later - 1].start >= block.start - 3 else None
    sheet = f"sheet {block.sheet}" if sheets > 1 and block.sheet else None
    return ", ".join(filter(None, (sheet, named))) or None
