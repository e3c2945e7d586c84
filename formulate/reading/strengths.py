"""The strength of a raw material told apart from the amount: 'Silica sol, 40 % solids: 10 %', 'Ammonia (25 %) 1 %'."""

from __future__ import annotations

from typing import NamedTuple

from formulate.reading.amounts import Amount
from formulate.reading.lazily import lazy
from formulate.reading.patterns import LETTER

# 'solids' and 'active' go with the figure, 'solution' is part of what the raw material is called
_PHRASE = lazy(
    r"(?P<lead>[\s,;(]{0,3})(?<![\w.,<>\u2264\u2265-])(?<![<>\u2264\u2265-]\s)(?P<low>\d{1,3}(?:[.,]\d{1,3})?)\s?%?"
    r"(?:\s?(?:-|to|bis)\s?(?P<high>\d{1,3}(?:[.,]\d{1,3})?))?\s?%\s?(?:w/w\s|by\sweight\s|ige?[rsn]?\s)?"
    r"(?:(?P<drop>solids(?:\scontent)?|actives?(?:\s(?:matter|content|substance))?|aktiv|strength|in\s(?:water|h2o|wasser))\b\)?"
    r"|(?=\(?(?:solution|soln|aqueous|aq\b|emulsion|dispersion|suspension|l\u00f6sung|w\u00e4ssrig)))",
    2,
)
READ_AS = "'{}' is read as the strength of the raw material, since an amount follows it"


class Strength(NamedTuple):
    """A strength at ``start:end`` of the stretch, as mass fractions."""

    start: int
    end: int
    low: float
    high: float


def strengths_in(masked: str, amounts: list[Amount], chosen: Amount | None) -> list[Strength]:
    """The strengths beside an entry's own amount: bracketed percentages, and 'N % solids', 'N % solution'."""
    found = [
        Strength(one.start - 1, one.end + 1, one.low, one.high)
        for one in amounts
        if one is not chosen
        and one.unit == "%"
        and one.low is not None
        and one.high is not None
        and masked[one.start - 1 : one.start] == "("
        and masked[one.end : one.end + 1] == ")"
    ]
    if chosen is None or "%" not in masked[: chosen.start] + masked[chosen.end :]:
        return found
    for match in _PHRASE.finditer(masked):
        low = _fraction(match["low"])
        high = _fraction(match["high"]) if match["high"] else low
        apart = match.end() <= chosen.start or match.start("low") >= chosen.end
        if apart and low <= high <= 1 and LETTER.search(masked[: match.start()]):
            start = match.start() if match["drop"] or match["lead"].strip() else match.start("low")
            found.append(Strength(start, match.end(), low, high))
    return found


def strength_before(masked: str, own: list[Amount]) -> Strength | None:
    """The first of two figures parted by a comma and nothing else, the greater first: 'Colloidal silica 30 %, 5 %'."""
    if len(own) != 2 or any(one.unit != "%" or one.range_ or one.compared or one.low is None for one in own):
        return None
    first, second = own
    parted = masked[first.end : second.start].strip() in {",", ";"}
    if not parted or masked[second.end :].strip(" .") or not LETTER.search(masked[: first.start]):
        return None
    if first.low is None or second.low is None or first.low <= second.low:
        return None
    return Strength(first.start, second.start, first.low, first.low)


def _fraction(digits: str) -> float:
    return float(f"{float(digits.replace(',', '.')) / 100:.12g}")
