"""Which stretches of a text hold its list: after 'Ingredients:', in section 3, or the whole of what was pasted."""

from __future__ import annotations

import re
from typing import NamedTuple

from formulate.reading import patterns
from formulate.reading.lazily import lazy

_NUMBER = (
    r"(?:(?:sec(?:tion|\.)|abschnitt|rubrique|sezione|secci[o\u00f3]n|sekcja)\s{0,3})?"
    r"(?:0?\d{1,2}|[IVXl]{1,4})?\s{0,2}[-:.)]{0,2}\s{0,3}"
)
_BEFORE = lazy(rf"(?:^|\n|[-=_#*]{{3}}\s{{0,3}})[ \t*#=_-]{{0,90}}{_NUMBER}$", re.IGNORECASE)
_BEFORE_INLINE = lazy(
    r"(?:^|[.;:)\s_=-])(?:(?:sec(?:tion|\.)|abschnitt|rubrique|sezione|secci[o\u00f3]n|sekcja)\s{0,3}(?:0?\d{1,2}"
    r"|[IVXl]{1,4})|(?:1?\d|[IVX]{1,4})\s?[.:)])\s{0,3}[-:.)]{0,2}\s{0,3}$",
    re.IGNORECASE,
)
_AMOUNT_ONLY = lazy(r"[ \t]{0,40}[<>\u2264\u2265]?\s?\d{1,3}(?:[.,]\d{1,3})?\s?%[ \t]{0,10}(?:\n|$)")
_LOOK_BACK = 130
_OTHER_TITLE = lazy(
    r"(?:first[\s-]aid|hazards?\sidentification|fire[\s-]?fighting|physical\s?(?:and\schemical\s?(?:properties"
    r"|data)|data|/chemical)|accidental\srelease|handling\sand\sstorage"
    r"|exposure\scontrols?|stability\sand\sreactivity|toxicological|ecological\sinf|disposal\scons|transport\sinf"
    r"|regulatory\sinf|other\sinformation|emergency\s(?:and\sfirst|overview)|health\shazard|reactivity\sdata"
    r"|erste[\s-]hilfe|m\u00f6gliche\sgefahren|ma\u00dfnahmen\szur|handhabung\sund|physikalische\sund"
    r"|premiers\ssecours|mesures\sde|pierwsz|primeros|misure\sdi|potential\shealth|product\sdescription|directions"
    r"|how\sto\suse|usage|warnings?\b|caution)",
)
_COMPOSITION = lazy(
    r"(?:composition\s{0,2}[/,&]?\s{0,2}(?:and\s)?information\son\s(?:the\s)?(?:hazardous\s)?(?:ingredients?"
    r"|components?)|information\son\s(?:hazardous\s)?ingredients|hazardous\s(?:ingredients?"
    r"|components?)(?:\s?/\s?identity\sinformation)?"
    r"|(?<=section\s\d:\s)ingredients|(?<=section\s\d\s-\s)ingredients|com\s?position\sinformation|zusammensetzung\s?/\s?angaben\szu\s(?:den\s)?bestandteilen"
    r"|composition\s?/\s?informations?\ssur\sles\scomposants|sk\u0142ad\s?/\s?informacja\so\ssk\u0142adnikach"
    r"|composizione\s?/\s?informazioni\ssugli\singredienti|composici[o\u00f3]n\s?/\s?informaci[o\u00f3]n\ssobre\slos"
    r"\scomponentes|composition\sinformation\son\scomponents)(?P<after>[ \t:=_-]{0,120}(?:\n|$)?)",
)


_LOWER = {
    code: code + 32 for code in [*range(0x41, 0x5B), *range(0xC0, 0xD7), *range(0xD8, 0xDF), *range(0x410, 0x430)]
}


class Block(NamedTuple):
    """A stretch to be read as a list. ``why`` is head, section or whole."""

    start: int
    end: int
    why: str
    doubtful: str | None = None


def blocks_of(copy: str) -> list[Block]:
    """The stretches of a text that hold its list, in order."""
    low = copy.translate(_LOWER)
    return _sections(copy, low) or _headed(copy, low) or [Block(0, len(copy), "whole")]


def _title(copy: str, match: re.Match[str]) -> tuple[int, int] | None:
    """Place of a section title: at the start of a line, after a rule of signs, or after a section number."""
    before = copy[max(0, match.start() - _LOOK_BACK) : match.start()]
    lead = _BEFORE.search(before) or _BEFORE_INLINE.search(before)
    if lead is None and match.start() > 0:
        return None
    return match.start() - (len(before) - lead.start() if lead else 0), match.end()


def _next_title(copy: str, low: str, start: int, stop: int) -> int:
    """Where the next section of another kind begins, or ``stop``."""
    for match in _OTHER_TITLE.finditer(low, start, stop):
        title = _title(copy, match)
        if title is not None and title[0] >= start:
            return title[0]
    return stop


def _sections(copy: str, low: str) -> list[Block]:
    titles = [title for match in _COMPOSITION.finditer(low) if (title := _title(copy, match)) is not None]
    blocks: list[Block] = []
    for number, (_, start) in enumerate(titles):
        stop = titles[number + 1][0] if number + 1 < len(titles) else len(copy)
        blocks.append(Block(start, _next_title(copy, low, start, stop), "section"))
    return [block for block in blocks if copy[block.start : block.end].strip()]


def _headed(copy: str, low: str) -> list[Block]:
    heads = [head for match in patterns.LIST_HEAD.finditer(low) if (head := _head(copy, match)) is not None]
    blocks: list[Block] = []
    for number, head in enumerate(heads):
        stop = heads[number + 1].begin if number + 1 < len(heads) else len(copy)
        stop = _next_title(copy, low, head.finish, stop)
        doubt = "listed under 'may contain'" if re.search(r"may\s(?:also\s)?contain", head.word) else None
        if copy[head.finish : stop].strip(" \n\t.:;,"):
            blocks.append(Block(head.finish, stop, "head", doubt))
    if blocks and heads[0].word.startswith(("also", "may")):
        blocks.insert(0, Block(0, heads[0].begin, "whole"))
    return blocks


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
