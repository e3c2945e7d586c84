"""Which stretches of a text hold its list: after 'Ingredients:', in section 3, or the whole of what was pasted."""

from __future__ import annotations

import re
from bisect import bisect_left
from typing import NamedTuple

from formulate.intake.limits import LIST_CHARACTERS
from formulate.reading import patterns
from formulate.reading.lazily import lazy
from formulate.reading.sections import COMPOSITION, UNNAMED, Heading, headings_in, lowered

_AMOUNT_ONLY = lazy(r"[ \t]{0,40}[<>\u2264\u2265]?\s?\d{1,3}(?:[.,]\d{1,3})?\s?%[ \t]{0,10}(?:\n|$)")
_BANDS = lazy(
    r"(?:less\sthan\s|weniger\sals\s|moins\sde\s|menos\sde\s|meno\sdi\s|[<\u2264]\s?)(?:5|15|30)\s?%"
    r"|\b(?:5|15)\s?%?\s?(?:-|to|bis)\s?<?\s?(?:15|30)\s?%",
    re.IGNORECASE,
)
_DETERGENT_TITLE = lazy(
    r"(?:contiene|contains|enth\u00e4lt|contient|kennzeichnung|labelling|etichettatura|\u00e9tiquetage|angaben|ingredients"
    r"|inhaltsstoffe)\b[^\n:%]{0,90}\b648/2004[^\n:%]{0,60}(?::|\n)\s{0,9}"
)
_LONGEST_LABEL = 4_000
# what follows the list on a label
_LABEL_TITLE = lazy(
    r"(?:(?<=\n)|(?<=[-=_#*]{3}))[ \t*#=_-]{0,90}(?:\d{1,2}\s?[.:)]\s{0,3})?"
    r"(?:product\sdescription|directions|how\sto\suse|usage|warnings?\b|caution)"
)


class Block(NamedTuple):
    """A stretch to be read as a list. ``why`` is head, section or whole; ``sheet`` counts the data sheets of a text."""

    start: int
    end: int
    why: str
    doubtful: str | None = None
    sheet: int = 0


class Outline(NamedTuple):
    """A text in lower case, the headings of its sections, and the stretches that hold its list, in order."""

    low: str
    headings: list[Heading]
    blocks: list[Block]


def outline_of(copy: str, low: str | None = None) -> Outline:
    """The sections and the list of a text, given in lower case if it is at hand. Time grows with its length only."""
    low = lowered(copy) if low is None else low
    headings = headings_in(low)
    blocks = _sections(copy, low, headings) or _headed(copy, low, headings) or [Block(0, len(copy), "whole")]
    return Outline(low, headings, [part for block in blocks for part in _at_detergent_titles(copy, low, block)])


def _at_detergent_titles(copy: str, low: str, block: Block) -> list[Block]:
    """A block cut at the title of the list that the detergents regulation asks for, which stands below the table."""
    parts = [block]
    for title in _DETERGENT_TITLE.finditer(low, block.start, min(block.end, block.start + LIST_CHARACTERS)):
        before = parts.pop()
        if copy[before.start : title.start()].strip():
            parts.append(before._replace(end=title.start()))
        parts.append(before._replace(start=title.end(), why="head"))
    return [part for part in parts if copy[part.start : part.end].strip()] or [block]


def blocks_of(copy: str) -> list[Block]:
    """The stretches of a text that hold its list, in order."""
    return outline_of(copy).blocks


def _sections(copy: str, low: str, headings: list[Heading]) -> list[Block]:
    """The sections on composition; a later mention of the title in the same sheet opens none."""
    blocks: list[Block] = []
    sheet, passed = 1, False
    for place, heading in enumerate(headings):
        if heading.kind == "identification" and passed:
            sheet, passed = sheet + 1, False
        if heading.kind != COMPOSITION:
            passed = passed or bool(blocks) and blocks[-1].sheet == sheet and heading.kind != UNNAMED
            continue
        stop = _stop(low, headings, place, heading)
        if not passed and patterns.LETTER.search(copy, heading.after, stop):
            blocks.append(Block(heading.after, stop, "section", sheet=sheet))
    return blocks


def _stop(low: str, headings: list[Heading], place: int, own: Heading) -> int:
    """Where the section of a heading ends: at the next one of another kind or number, or at a title of a label."""
    for later in range(place + 1, len(headings)):
        if headings[later].kind != UNNAMED or headings[later].number != own.number:
            return _label_title(low, own.after, headings[later].begin)
    return _label_title(low, own.after, len(low))


def _label_title(low: str, start: int, stop: int) -> int:
    match = _LABEL_TITLE.search(low, start, min(stop, start + LIST_CHARACTERS))
    return match.start() if match and match.start() > start else stop


def _headed(copy: str, low: str, headings: list[Heading]) -> list[Block]:
    heads = [head for match in patterns.LIST_HEAD.finditer(low) if (head := _head(copy, match)) is not None]
    begins = [heading.begin for heading in headings]
    blocks: list[Block] = []
    for number, head in enumerate(heads):
        stop = heads[number + 1].begin if number + 1 < len(heads) else len(copy)
        later = bisect_left(begins, head.finish)
        stop = min(stop, begins[later]) if later < len(begins) else stop
        stop = _label_title(low, head.finish, stop)
        doubt = "listed under 'may contain'" if re.search(r"may\s(?:also\s)?contain", head.word) else None
        if copy[head.finish : stop].strip(" \n\t.:;,"):
            blocks.append(Block(head.finish, stop, "head", doubt))
    blocks = blocks or [
        Block(cell.end(), cell.end("list"), "head") for cell in patterns.LIST_CELL.finditer(low) if cell["list"]
    ]
    if heads and blocks and (heads[0].word.startswith(("also", "may")) or _follows_bands(copy, heads[0].begin)):
        blocks.insert(0, Block(0, heads[0].begin, "whole"))
    return blocks


def _follows_bands(copy: str, begin: int) -> bool:
    """Whether the list of a detergent stands before its 'contains: perfume, ...'."""
    return begin < _LONGEST_LABEL and _BANDS.search(copy, 0, begin) is not None


class _Head(NamedTuple):
    begin: int
    finish: int
    word: str


def _head(copy: str, match: re.Match[str]) -> _Head | None:
    """A heading of a list: its word stands at the start of a line or sentence, and is no key of repeated records."""
    before = copy[max(0, match.start() - 60) : match.start()]
    lead = patterns.LIST_HEAD_BEFORE.search(before)
    if lead is None and match.start() > 0:
        return None
    word = match.group().strip().lower()
    if word.startswith(("ingredient:", "contents:")) and copy.lower().count("\n" + word, 0, 200_000) > 1:
        return None
    if _AMOUNT_ONLY.match(copy, match.end()):
        return None
    begin = match.start() - (len(before) - lead.start(1) if lead else 0)
    return _Head(begin, match.end(), copy[begin : match.end()].strip().lower())
