"""Measurements printed beside the list: pH, density, flash point, solids; converted to the unit of their key."""

from __future__ import annotations

import re
from typing import NamedTuple

from formulate.domain.line import StatedFact
from formulate.domain.place import LineIndex
from formulate.reading.lazily import lazy

Span = tuple[int, int]
_N = r"[-+]?\d{1,5}(?:[.,]\d{1,4})?"
_VALUE = lazy(
    rf"(?P<sign><=|>=|<|>|\u2264|\u2265|~|ca\.?|approx\.?|about|max\.?"
    rf"|min\.?)?\s{{0,3}}(?P<a>{_N})(?:\s{{0,2}}(?P<ua>\u00b0\s?[CF]|%)?\s{{0,2}}(?:-|to|bis"
    rf"|\u2026)\s{{0,2}}(?P<b>{_N}))?[ \t]{{0,3}}(?P<unit>\u00b0\s?[CF]\b|deg\.?\s?[CF]\b|[CF]\b|g/cm\s?[3\u00b3]"
    rf"|g/cc|g/ml|kg/l|kg/m\s?[3\u00b3]|g/l|lbs?/gal|%)?",
    re.IGNORECASE,
)


class _Kind(NamedTuple):
    key: str
    label: re.Pattern[str]


def _kind(key: str, label: str) -> _Kind:
    return _Kind(key, re.compile(rf"(?<![\w-])(?:{label})(?P<more>[^\n:=<>\d]{{0,40}})?[:=\s|]{{0,6}}", re.IGNORECASE))


_KINDS = (
    _kind(
        "ph",
        r"ph(?:[\s-](?:value|wert))?(?![\s-]?(?:adjust|regul|control|neutral|modif|stab))(?:\s?\(?(?:at\s)?\d{1,2}\s?\u00b0?\s?C\)?)?",
    ),
    _kind(
        "density_g_per_ml",
        r"(?:relative\s)?density|dichte|specific\sgravity|sp\.?\s?gr\.?|densit\u00e9|densit\u00e0|g\u0119sto\u015b\u0107",
    ),
    _kind(
        "flash_point_c",
        r"flash\s?point|flammpunkt|point\sd['e\s]{1,2}\s?clair|punto\sd[ei]\s(?:inflamaci\u00f3n|infiammabilit\u00e0)|temperatura\szap\u0142onu",
    ),
    _kind(
        "nonvolatile",
        r"non-?\s?volatiles?(?:\s(?:content|matter))?|solids(?:\scontent)?|total\ssolids|festk\u00f6rper(?:gehalt|anteil)?",
    ),
    _kind("volatile", r"(?<!non-)(?<!non\s)volatiles?(?:\sby\swt\.?|\sby\sweight)?(?:\s%)?"),
    _kind("boiling_point_c", r"boiling\s(?:point|range)(?:\s?/\s?range)?|siedepunkt"),
)
_ANY = lazy(
    r"ph|de?nsi|dicht|g\u0119st|gravity|gr\.|flash|flamm|clair|infiam|inflam|zap\u0142|volatile|solids|festk"
    r"|boiling|siede",
    re.IGNORECASE,
)
_ANCHOR = lazy(r"(?:^|[\n;|.,\t(]|\s\s)\s*$")
_SEARCHED = 2_000_000


def facts_in(text: str, copy: str, index: LineIndex) -> tuple[dict[str, StatedFact], list[Span]]:
    """The first readable statement of each measured quantity, and the stretches they take."""
    facts: dict[str, StatedFact] = {}
    spans: list[Span] = []
    if not _ANY.search(copy, 0, _SEARCHED):
        return facts, spans
    for kind in _KINDS:
        for match in kind.label.finditer(copy, 0, _SEARCHED):
            if (
                not _ANCHOR.search(copy, max(0, match.start() - 3), match.start())
                and match.group()[-6:].strip()[-1:] not in ":="
            ):
                continue
            value = _VALUE.match(copy, match.end()) or _next_cell(copy, match.end())
            fact = _fact(kind.key, value) if value else None
            if fact is None or value is None:
                continue
            start, end = match.start(), value.end()
            low, best, high = fact
            facts[kind.key] = StatedFact.model_construct(
                low=low, best=best, high=high, text=text[start:end], place=index.place(start, end)
            )
            spans.append((start, end))
            break
    return facts, spans


def _next_cell(copy: str, at: int) -> re.Match[str] | None:
    """The value in the next cells of a column print: 'Density / g/cm3 / 1,00 - 1,05'."""
    skip = re.compile(
        r"[^\n\d]{0,20}\n[ \t]{0,20}(?:(?:g/cm\s?[3\u00b3]|g/ml|%|\u00b0\s?C|-)?[ \t]{0,10}\n[ \t]{0,20})?"
    ).match(copy, at)
    return _VALUE.match(copy, skip.end()) if skip else None


def _fact(key: str, value: re.Match[str]) -> tuple[float | None, float | None, float | None] | None:
    first = float(value["a"].replace(",", "."))
    second = float(value["b"].replace(",", ".")) if value["b"] else None
    unit = (value["unit"] or value["ua"] or "").lower().replace(" ", "")
    numbers = [_converted(key, number, unit) for number in ([first] if second is None else sorted((first, second)))]
    if any(number is None for number in numbers):
        return None
    if len(numbers) == 2:
        return numbers[0], None, numbers[1]
    sign = (value["sign"] or "").lower().rstrip(".")
    if sign in {"<", "<=", "\u2264", "max"}:
        return None, None, numbers[0]
    if sign in {">", ">=", "\u2265", "min"}:
        return numbers[0], None, None
    return numbers[0], numbers[0], numbers[0]


def _converted(key: str, number: float, unit: str) -> float | None:
    """The number in the unit of the key, or None where it cannot be that quantity."""
    if key == "ph":
        return number if 0 <= number <= 14.5 and not unit else None
    if key == "density_g_per_ml":
        number = (
            number / 1000
            if unit in {"kg/m3", "kg/m\u00b3", "g/l"}
            else number * 0.1198
            if unit.startswith("lb")
            else number
        )
        return number if 0.3 <= number <= 5 else None
    if key in {"flash_point_c", "boiling_point_c"}:
        if not unit or unit == "%" or "/" in unit:
            return None
        return round((number - 32) / 1.8, 2) if unit.endswith("f") else number
    return number / 100 if 0 <= number <= 100 and unit in {"%", ""} else None
