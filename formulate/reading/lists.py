"""Lists: one entry a line, bullets, numbers, commas, semicolons, bars, tabs, slashes, or blanks alone."""

from __future__ import annotations

import re
from collections.abc import Callable

from formulate.reading import patterns
from formulate.reading.amounts import shares_in
from formulate.reading.bands import begins_band
from formulate.reading.cuts import Entry, bare_name, comma_entries, signs_outside
from formulate.reading.endings import footnote_start, sentence_end
from formulate.reading.functions import FUNCTION
from formulate.reading.glossary import described, explained
from formulate.reading.han import han_entries, han_names
from formulate.reading.index_names import is_inside_number
from formulate.reading.lazily import lazy
from formulate.reading.list_edges import (
    commas_of,
    is_numbered_title,
    is_title,
    without_footnotes,
    without_lead,
    without_tail,
)
from formulate.reading.loose import slash_entries, spaced_entries

Known = Callable[[str], bool]
Span = tuple[int, int]
LONGEST_RUN = 20_000
_INLINE_MARK = lazy(r"(?:(?<=\s)|^|(?<=[.;,:]))\(?(?P<label>\d{1,2}|[A-Za-z])(?:\)|\.(?!\d))\s{0,3}(?=\S)")
_CARRIED_ON = lazy(
    r"\s{0,3}(?:(?:also|in\saddition|it\salso|further(?:more)?)\b,?\s{0,2}(?:there\s(?:is|are|was|were)|contains?"
    r"|includes?|we\sfind)\s|(?:it\s)?also\scontains:?\s|there\s(?:is|are|was|were)\salso\s)",
    re.IGNORECASE,
)
_MIDDLE_DOT = lazy("\u30fb")
_MOST_BANDS = 8
_DONE = lazy(r"(?:,\s(?:and|or)|;|;\sand)$")
_LEAD = lazy(
    r"\b(?:comprising|comprises?|consisting\s(?:essentially\s)?of|consists?\s(?:essentially\s)?of|composed\sof"
    r"|made\s(?:up\s)?(?:of|from|with)|containing|contains|formulated\s(?:on|with|from)|formulated\swith|based\son"
    r"|(?:mixture|blend|combination|mix)\sof"
    r"|includes?|including|wherein|(?:one\sor\smore|any|some)\sof\sthe\sfollowing(?:\s[a-z]{1,20}){0,3}(?=\s?:))\s?:?-?\s(?:(?:the\s)?following(?:\s(?:ingredients|components|percentages[^:\n]{0,20}))?\s?:?\s)?",
    re.IGNORECASE,
)
_PER = lazy(r"(?P<one>[wvm])/(?P=one)\b", re.IGNORECASE)
_INLINE_BULLET = lazy(r"[\u2022\u25aa\u25cf\u00b7*](?=\s|\w)|(?<=\s)-(?=\s)")


def list_entries(copy: str, lines: list[Span], known: Known) -> list[Entry]:
    """The entries of a list whose lines are ``lines`` (without blank ones)."""
    if not lines:
        return []
    marked = _marked(copy, lines)
    if marked:
        told = described(copy, marked)
        return [Entry(*span) for span in told] or [entry for span in marked for entry in _of_marked(copy, span, known)]
    lines = without_lead(copy, without_footnotes(copy, lines))
    if len(lines) > 1 and (is_title(copy, lines, known) or is_numbered_title(copy, lines, known)):
        lines = lines[1:]
    if len(lines) == 1:
        return line_entries(copy, *lines[0], known)
    if told := described(copy, lines) or explained(copy, lines):
        return [Entry(*span) for span in told]
    if _is_wrapped(copy, lines):
        return [entry for span in _paragraphs(copy, lines) for entry in line_entries(copy, *span, known)]
    return [entry for span in lines for entry in _own_line(copy, span, known, lines)]


def _marked(copy: str, lines: list[Span]) -> list[Span]:
    """Entries that start at a bullet or a number; an unmarked line below continues its entry if it looks so."""
    bulleted = [
        patterns.BULLET.match(copy, start, end) or patterns.NUMBERED.match(copy, start, end) for start, end in lines
    ]
    if sum(mark is not None for mark in bulleted) < max(2, len(lines) * 0.4):
        return []
    spans: list[Span] = []
    last = max(span[0] for span, mark in zip(lines, bulleted, strict=True) if mark is not None)
    counted = all(mark.group().strip()[:1].isdigit() for mark in bulleted if mark is not None)
    for (start, end), mark in zip(lines, bulleted, strict=True):
        if mark is not None and copy[end - 1] == ":" and not spans and end < last:
            continue  # '2. Whatever their share:' above the marks is a heading
        if mark is not None:
            spans.append((mark.end(), end))
        elif spans and _DONE.search(copy, spans[-1][0], spans[-1][1]):
            continue
        elif spans and _carries_on(copy, spans[-1], start, counted):
            spans[-1] = (spans[-1][0], end)
        elif (
            len(copy[start:end].split()) <= 5
            and copy[end - 1] not in ":,"
            and ((start < last and spans) or shares_in(copy, start, end))  # above the first mark stands a title
        ):
            spans.append((start, end))
    return spans


def _carries_on(copy: str, span: Span, start: int, counted: bool) -> bool:
    """Whether an unmarked line carries on the marked one right above it: lower case, indented, or in a list that
    counts its entries."""
    if copy.count("\n", span[1], start) > 1:
        return False
    return copy[start : start + 1].islower() or copy[start - 1 : start] in " \t" or counted


def _of_marked(copy: str, span: Span, known: Known) -> list[Entry]:
    """A marked entry is one entry, unless it holds a list of names that are all known."""
    lead = _after_lead(copy, *span, known)
    if lead > span[0]:
        return comma_entries(copy, lead, span[1], known)
    entries = comma_entries(copy, *span, known)
    if len(entries) > 2 and sum(known(bare_name(copy[e.start : e.end])) for e in entries) * 3 >= len(entries) * 2:
        return entries
    return [Entry(*span)]


def _is_wrapped(copy: str, lines: list[Span]) -> bool:
    """Whether line breaks are only the width of the label: commas end lines or abound."""
    amount_ended = sum(any(one.end >= end - 1 for one in shares_in(copy, start, end)) for start, end in lines)
    if amount_ended * 2 >= len(lines):
        return False
    commas = [commas_of(copy, start, end) for start, end in lines]
    ends = sum(copy[end - 1] in ",;" for _, end in lines[:-1])
    open_ended = sum(
        copy[end - 1] not in ".:" and copy[after].islower()
        for (_, end), (after, _) in zip(lines, lines[1:], strict=False)
    )
    if ends == len(lines) - 1 and max(commas) <= 1:
        return True
    return (
        sum(commas) >= 1.5 * len(lines)
        and max(commas) >= 2
        and (sum(commas) >= 2 * len(lines) or ends + open_ended > 0)
    )


def _paragraphs(copy: str, lines: list[Span]) -> list[Span]:
    lines = without_tail(copy, lines)
    spans = [lines[0]]
    for before, after in zip(lines, lines[1:], strict=False):
        if copy.count("\n", before[1], after[0]) > 1:
            spans.append(after)
        else:
            spans[-1] = (spans[-1][0], after[1])
    return spans


def _own_line(copy: str, span: Span, known: Known, lines: list[Span]) -> list[Entry]:
    """A line of a list that has one entry a line; cut further only where the word list has the parts."""
    if "/" in copy[span[0] : span[1]] and not commas_of(copy, *span):
        return [Entry(*span)]
    entries = line_entries(copy, *span, known)
    if len(entries) < 2:
        return entries
    last = copy[entries[-1].start : entries[-1].end]
    if len(entries) == 2 and FUNCTION.fullmatch(last.strip(" -:|()")):
        return [Entry(*span)]  # 'Dimethicone - antifoam': the second part says what the first is for
    if sum(patterns.CAS.search(copy, e.start, e.end) is not None for e in entries) > 1:
        return entries
    hits = sum(known(bare_name(copy[e.start : e.end])) for e in entries)
    if known(bare_name(copy[span[0] : span[1]])):
        return [Entry(*span)]
    amounts = sum(bool(shares_in(copy, e.start, e.end)) for e in entries)
    if hits * 2 >= len(entries) or len(entries) > 3 or amounts > 1 or entries[0].band is not None:
        return entries
    with_commas = sum(commas_of(copy, *line) > 0 for line in lines)
    return entries if with_commas * 2 > len(lines) else [Entry(*span)]


def line_entries(copy: str, start: int, end: int, known: Known) -> list[Entry]:
    """The entries of one line or wrapped paragraph, and of a sentence that carries the list on ('Also, there is')."""
    stop = sentence_end(copy, start, end)
    entries = _sentence_entries(copy, start, stop, end, known)
    for _ in range(_MOST_BANDS):
        if not entries or not begins_band(copy, stop, end):
            break
        begin, stop = stop, sentence_end(copy, stop, end)
        entries += _sentence_entries(copy, begin, stop, end, known)
    more = _CARRIED_ON.match(copy, stop, end)
    if more and entries:
        rest = sentence_end(copy, more.end(), end)
        entries += comma_entries(copy, more.end(), rest, known, several=True)
    return entries


def _sentence_entries(copy: str, start: int, sentence: int, end: int, known: Known) -> list[Entry]:
    """The entries of one sentence: its strongest separator decides."""
    labelled = _labelled(copy, start, end)
    if labelled:
        return [Entry(*span) for span in labelled]
    stop = footnote_start(copy, start, sentence)
    signs = signs_outside(copy, start, stop)
    commas = [at for at in signs.get(",", []) if not is_inside_number(copy, at)]
    for sign in ("|", "\t"):
        if len(signs.get(sign, [])) >= 2:
            return _between(start, stop, signs[sign])
    han = han_entries(copy, start, stop) or han_names(copy, start, stop)
    if han:
        return han
    dots = [match.start() for match in _MIDDLE_DOT.finditer(copy, start, stop)]
    if len(dots) >= 2 and not commas and not signs.get(";"):
        return _between(start, stop, dots)
    if commas or signs.get(";"):
        return comma_entries(copy, _after_lead(copy, start, stop, known), stop, known)
    bullets = [match.start() for match in _INLINE_BULLET.finditer(copy, start, stop)]
    if len(bullets) >= 2 or (len(bullets) == 1 and copy[bullets[0]] in "\u2022\u25cf\u25aa"):
        return _between(start, stop, bullets)
    if sum(not _PER.match(copy, at - 1) for at in signs.get("/", []) if at > start) >= 2:
        return slash_entries(copy, start, stop, known)
    if stop - start >= LONGEST_RUN:
        return [Entry(start, stop)]
    start = _after_lead(copy, start, stop, known) if shares_in(copy, start, stop) else start
    return _unseparated(copy, start, stop, known)


def _after_lead(copy: str, start: int, stop: int, known: Known) -> int:
    """Past 'A floor finish, in particular for churches, comprising': words that lead to a list and hold no amount."""
    at = start
    comma = copy.find(",", start, stop)
    if comma != -1 and known(bare_name(copy[start : min(comma, start + 200)])):
        return start
    for lead in _LEAD.finditer(copy, start, min(stop, start + 600)):
        words = copy[at : lead.start()].split()
        if copy.count("(", start, lead.start()) > copy.count(")", start, lead.start()):
            continue  # 'butane (containing less than 0.1 % butadiene)' is a name
        if at == start and len(words) >= 2 and not shares_in(copy, start, lead.start()):
            at = lead.end()
    return at


def _between(start: int, end: int, places: list[int]) -> list[Entry]:
    entries, left = [], start
    for at in places:
        entries.append(Entry(left, at))
        left = at + 1
    entries.append(Entry(left, end))
    return [entry for entry in entries if entry.end > entry.start]


def _labelled(copy: str, start: int, end: int) -> list[Span]:
    """'1) a 2) b' or 'A. a B. b' in one line: labels that count up, at least three (two numbers with brackets)."""
    wanted: str | None = None
    places: list[Span] = []
    for match in _INLINE_MARK.finditer(copy, start, end):
        label = match["label"]
        if wanted is None and label in {"1", "A", "a", "i"} or label == wanted:
            places.append(match.span())
            wanted = str(int(label) + 1) if label.isdigit() else chr(ord(label) + 1)
    if len(places) < 3 and not (len(places) == 2 and not copy[start : places[0][0]].strip()):
        return []
    stops = [place[0] for place in places[1:]] + [end]
    return [(place[1], stop) for place, stop in zip(places, stops, strict=True)]


def _unseparated(copy: str, start: int, end: int, known: Known) -> list[Entry]:
    """No separators: amounts end or start entries; else the word list cuts."""
    amounts = shares_in(copy, start, end)
    if len(amounts) < 2:
        cut = _and_two(copy, start, end, known)
        return cut or spaced_entries(copy, start, end, known)
    if not copy[start : amounts[0].start].strip(" (-\u2022*"):
        places = [amount.start for amount in amounts[1:]]
        return [Entry(a, b) for a, b in zip([start, *places], [*places, end], strict=True)]
    entries, left = [], start
    for amount in amounts:
        stop = amount.end + (1 if copy[amount.end : amount.end + 1] in ")]" and amount.end < end else 0)
        entries.append(Entry(left, stop))
        left = stop
    return [*entries, Entry(left, end)] if copy[left:end].strip(" .,;") else entries


def _and_two(copy: str, start: int, end: int, known: Known) -> list[Entry]:
    entries = comma_entries(copy, start, end, known)
    return entries if len(entries) > 1 else []
