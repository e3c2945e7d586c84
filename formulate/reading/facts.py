"""Measurements printed beside the list: pH, density, flash point, solids; kept as said, with qualifier and method."""

from __future__ import annotations

import re
from collections import Counter
from typing import NamedTuple

from formulate.domain.line import Cup, StatedFact
from formulate.domain.place import LineIndex
from formulate.reading import fact_patterns, patterns
from formulate.reading.measures import MPA_S, limits_of, plain_unit
from formulate.reading.surface import squeezed

Span = tuple[int, int]
_SEARCHED = 1_000_000
_LONGEST_LEAD = 140
_MOST_NOTES = 20
_MOST_STATEMENTS = 100


class Facts(NamedTuple):
    """What was measured: by key, the stretches that the kept statements take, and a note for each one not kept.

    ``seen`` counts the statements of each kind: of a document with thousands of them the first hundred are read.
    """

    by_key: dict[str, StatedFact]
    spans: list[Span]
    notes: list[str]
    seen: Counter[str]


def facts_in(text: str, copy: str, low: str, index: LineIndex, areas: list[Span] | None = None) -> Facts:
    """The first readable statement of each measured quantity.

    Parameters
    ----------
    text, copy, low
        The text as it came, its working copy, and that in lower case: of one length.
    index
        Of the lines of the text.
    areas
        The stretches that speak of the product as a whole; None for the whole text.
    """
    found = Facts({}, [], [], Counter())
    left = _SEARCHED
    for start, end in areas if areas is not None else [(0, len(copy))]:
        stop = min(end, start + left)
        left -= stop - start
        at = start
        while (match := fact_patterns.LABEL.search(low, at, stop)) is not None:
            at = max(match.end(), _add(found, match, text, copy, low, index, stop))
    return found


def _add(found: Facts, label: re.Match[str], text: str, copy: str, low: str, index: LineIndex, stop: int) -> int:
    """Add the statement that begins with this label, if it is one; return where to look on."""
    start, kind = label.start(), str(label.lastgroup)
    found.seen[kind] += 1
    if found.seen[kind] > _MOST_STATEMENTS:
        return label.end()
    at = _value_place(copy, label.end(), min(stop, label.end() + _LONGEST_LEAD))
    lead = copy[label.end() : at]
    other = fact_patterns.LABEL.search(low, label.end(), at)
    if other is not None and other.lastgroup != kind:
        return label.end()
    if not _is_of_product(kind, low, start, at) or not _is_label(copy, start, lead):
        return label.end()
    words = fact_patterns.WORDS.match(copy, at)
    value = None if words else fact_patterns.VALUE.match(copy, at)
    printed = words or value
    if printed is None or printed.end() > stop:
        return label.end()
    end = _tail_end(copy, printed.end())
    end -= len(copy[at:end]) - len(copy[at:end].rstrip(" \t\n,;"))
    around = f"{lead}\n{copy[printed.end() : end]}"
    unit = _unit(lead, value) if value else ""
    key = _key(kind, unit)
    limits = limits_of(key, value["sign"] or "", value["a"], value["b"], unit) if value else (None, None, None)
    if limits is None:
        return label.end()
    said = StatedFact.model_construct(
        low=limits[0],
        best=limits[1],
        high=limits[2],
        text=text[start:end],
        place=index.place(start, end),
        unit=squeezed(unit) or None,
        qualifier=_qualifier(key, words, value, around),
        method=_method(around),
        cup=_cup(around) if key == "flash_point_c" else None,
    )
    _keep(found, key, said, (start, end))
    return end


def _keep(found: Facts, key: str, said: StatedFact, span: Span) -> None:
    """The first statement of a quantity stands; another that differs is told in a note."""
    before = found.by_key.get(key)
    if before is None:
        found.by_key[key] = said
        found.spans.append(span)
    elif len(found.notes) < _MOST_NOTES and (before.low, before.best, before.high) != (said.low, said.best, said.high):
        first, second = squeezed(before.text)[:90], squeezed(said.text)[:90]
        found.notes.append(f'"{first}" stands for {key}; the text also says "{second}" ({said.place.label()}).')


def _is_of_product(kind: str, low: str, start: int, at: int) -> bool:
    """Whether a density is that of the product, not of its vapour or of loose powder."""
    if kind != "density_g_per_ml":
        return True
    return not (
        fact_patterns.OTHER_DENSITY.search(low, max(0, start - 24), start)
        or fact_patterns.OF_VAPOUR.search(low, start, at)
    )


def _is_label(copy: str, start: int, lead: str) -> bool:
    """Whether a word stands where labels stand: at the start of a line or cell, or before a colon."""
    return (
        fact_patterns.ANCHOR.search(copy, max(0, start - 3), start) is not None
        or re.search(r"[:=|]\s{0,12}$", lead) is not None
    )


def _value_place(copy: str, at: int, stop: int) -> int:
    """Where the value of a label begins, past brackets, signs, units of the head and a few fact_patterns."""
    talked = False
    while at < stop:
        blank = at + len(copy[at : at + 12]) - len(copy[at : at + 12].lstrip(" \t"))
        if fact_patterns.VALUE.match(copy, blank) or fact_patterns.WORDS.match(copy, blank):
            return blank
        step = fact_patterns.BETWEEN.match(copy, at, stop) or (
            None if talked else fact_patterns.TALK.match(copy, at, stop)
        )
        if step is None:
            return at
        talked = talked or step.re.pattern == fact_patterns.TALK.pattern
        at = step.end()
    return at


def _tail_end(copy: str, end: int) -> int:
    """Where a statement ends, with its brackets, its method and its temperature."""
    for _ in range(4):
        tail = fact_patterns.TAIL.match(copy, end)
        if tail is None:
            return end
        end = tail.end()
    return end


def _unit(lead: str, value: re.Match[str]) -> str:
    """The unit behind the number, else the one that stands in the label: 'Flash point (\u00b0F): 105'."""
    printed = value["unit"] or value["ua"]
    if printed:
        return str(printed)
    without = fact_patterns.AT.sub(" ", lead)
    inside = [
        match.group()
        for match in fact_patterns.A_UNIT.finditer(without)
        if not re.search(r"\d\s?$", without[: match.start()])
    ]
    return inside[-1] if inside else ""


def _key(kind: str, unit: str) -> str:
    """The key of a quantity that has several: the unit tells which one was measured."""
    plain = plain_unit(unit)
    if kind == "viscosity_mm2_s" and plain in MPA_S:
        return "viscosity_mpa_s"
    return "voc_g_per_l" if kind == "voc" and plain not in {"", "%"} else kind


def _qualifier(key: str, words: re.Match[str] | None, value: re.Match[str] | None, around: str) -> str | None:
    """What limits a statement: the sign, that it is a range, the temperature, what stands in brackets."""
    told = [words.group()] if words else []
    if value:
        told += [value["sign"]] if value["sign"] else []
        told += ["range"] if value["b"] else []
    for match in fact_patterns.BRACKETED.finditer(around):
        inside = fact_patterns.METHOD.sub(" ", fact_patterns.METHOD_USED.sub(" ", match[1]))
        is_condition = "\u00b0" in inside and not key.endswith("_c")
        if patterns.WORDY.search(inside) and (is_condition or not fact_patterns.ONLY_UNITS.fullmatch(inside)):
            told.append(match[1])
    told += [match.group() for match in fact_patterns.AT.finditer(fact_patterns.BRACKETED.sub(" ", around))]
    return "; ".join(dict.fromkeys(squeezed(one) for one in told)) or None


def _method(around: str) -> str | None:
    """How it was measured, as printed."""
    named = fact_patterns.NAMED_METHOD.search(around)
    told = [named[1]] if named else [match.group() for match in fact_patterns.METHOD.finditer(around)]
    return ", ".join(dict.fromkeys(squeezed(one).strip(" -,;.") for one in told)) or None


def _cup(around: str) -> Cup | None:
    if fact_patterns.OPEN_CUP.search(around):
        return "open"
    return "closed" if fact_patterns.CLOSED_CUP.search(around) else None
