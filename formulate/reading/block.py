"""Which stretches of a text hold its list: after 'Ingredients:', in section 3, or the whole of what was pasted."""

from __future__ import annotations

import re
from typing import NamedTuple

from formulate.reading import patterns

_OTHER_TITLE = re.compile(
    r"(?:(?:^|\n)[ \t*#=_-]{0,90}|[-=_]{3}\s{0,3}|(?<=[.;:)\s])(?=(?:section|abschnitt)?\s{0,2}(?:\d{1,2}|[IVX]{1,4})\s{0,2}[.:)-]))"
    r"(?P<no>(?:(?:sec(?:tion|\.)|abschnitt|rubrique|sezione|secci[o\u00f3]n|sekcja)\s{0,3})?(?:\d{1,2}|[IVXl]{1,4})?\s{0,2}[-:.)]{0,2}\s{0,3})"
    r"(?P<title>first[\s-]aid|hazards?\sidentification|fire[\s-]?fighting|physical\s?(?:and\schemical\s?(?:properties|data)|data|/chemical)|accidental\srelease|handling\sand\sstorage"
    r"|exposure\scontrols?|stability\sand\sreactivity|toxicological|ecological\sinf|disposal\scons|transport\sinf|regulatory\sinf|other\sinformation|emergency\s(?:and\sfirst|overview)|health\shazard|reactivity\sdata"
    r"|erste[\s-]hilfe|m\u00f6gliche\sgefahren|ma\u00dfnahmen\szur|handhabung\sund|physikalische\sund|premiers\ssecours|mesures\sde|pierwsz|primeros|misure\sdi|potential\shealth|product\sdescription|directions|how\sto\suse|usage|warnings?\b|caution)",
    re.IGNORECASE,
)
_COMPOSITION = re.compile(
    r"(?:^|\n|(?<=[-=_]{3})|(?<=[.;\s])(?=sec))[ \t=_*#-]{0,120}(?:(?:sec(?:tion|\.)|abschnitt|rubrique|sezione|secci[o\u00f3]n|sekcja)\s{0,3})?(?:0?\d{1,2}|[IVXl]{1,4})?\s{0,2}[-:.)]{0,2}\s{0,3}"
    r"(?P<title>composition\s{0,2}[/,&]?\s{0,2}(?:and\s)?information\son\s(?:the\s)?(?:hazardous\s)?(?:ingredients?|components?)|information\son\s(?:hazardous\s)?ingredients|hazardous\s(?:ingredients?|components?)(?:\s?/\s?identity\sinformation)?"
    r"|com\s?position\sinformation|zusammensetzung\s?/\s?angaben\szu\s(?:den\s)?bestandteilen|composition\s?/\s?informations?\ssur\sles\scomposants|sk\u0142ad\s?/\s?informacja\so\ssk\u0142adnikach"
    r"|composizione\s?/\s?informazioni\ssugli\singredienti|composici[o\u00f3]n\s?/\s?informaci[o\u00f3]n\ssobre\slos\scomponentes|composition\sinformation\son\scomponents)(?P<after>[ \t:=_-]{0,120}(?:\n|$)?)",
    re.IGNORECASE,
)


class Block(NamedTuple):
    """A stretch to be read as a list. ``why`` is head, section or whole."""

    start: int
    end: int
    why: str
    doubtful: str | None = None


def blocks_of(copy: str) -> list[Block]:
    """The stretches of a text that hold its list, in order."""
    return _sections(copy) or _headed(copy) or [Block(0, len(copy), "whole")]


def _sections(copy: str) -> list[Block]:
    titles = [match.span() for match in _COMPOSITION.finditer(copy)]
    if not titles:
        return []
    others = [match.start() for match in _OTHER_TITLE.finditer(copy)]
    blocks: list[Block] = []
    for number, (_, start) in enumerate(titles):
        stop = titles[number + 1][0] if number + 1 < len(titles) else len(copy)
        end = min([at for at in others if start <= at < stop], default=stop) if len(others) < 2000 else stop
        blocks.append(Block(start, end, "section"))
    return [block for block in blocks if copy[block.start:block.end].strip()]


def _headed(copy: str) -> list[Block]:
    heads = [match for match in patterns.LIST_HEAD.finditer(copy) if not _is_column_head(copy, match)]
    others = [match.start() for match in _OTHER_TITLE.finditer(copy)]
    blocks: list[Block] = []
    at = 0
    for number, head in enumerate(heads):
        stop = heads[number + 1].start() if number + 1 < len(heads) else len(copy)
        while at < len(others) and others[at] < head.end():
            at += 1
        stop = min(stop, others[at]) if at < len(others) else stop
        doubt = "listed under 'may contain'" if re.search(r"may\scontain", head.group(), re.IGNORECASE) else None
        if copy[head.end():stop].strip(" \n\t.:;,"):
            blocks.append(Block(head.end(), stop, "head", doubt))
    return blocks


def _is_column_head(copy: str, head: re.Match[str]) -> bool:
    """'Component: CAS:' records repeat their key; a key is no heading of a list."""
    word = head.group().strip().lower()
    return word.startswith(("ingredient:", "contents:")) and copy.lower().count("\n" + word, 0, 200_000) > 1
