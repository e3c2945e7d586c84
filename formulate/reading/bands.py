"""Amounts printed once before several entries: '< 5 %: soap, phosphonates'."""

from __future__ import annotations

import re

from formulate.reading.amounts import Amount, amounts_in
from formulate.reading.lazily import lazy

_BUT = lazy(r",\s{0,2}(?:but|\u043d\u043e|mais|aber|jedoch|pero|ma)\b", re.IGNORECASE)
_BELOW = lazy(r",\s?(?:<|\u2264)\s?\d{1,3}\s?%\s?[:)]")
_BAND = lazy(r"\s{0,3}(?:\(?w/w\)?\s?)?(?:of\s?(?:each|the\sfollowing)?\s?)?\s{0,3}:\s{0,3}", re.IGNORECASE)
_BAND_BEGINS = lazy(
    r"\s{0,3}(?:[<>\u2264\u2265\d]|less|more|over|under|unter|\u00fcber|weniger|mehr|moins|plus|menos|m\u00e1s|meno|pi\u00f9"
    r"|\u0434\u043e|\u043c\u0435\u043d\u0435\u0435|\u0431\u043e\u043b\u0435\u0435)",
    re.IGNORECASE,
)
_BAND_LEAD = lazy(r"(?:contains?|enth\u00e4lt|contient|contiene|zawiera)\s{1,3}", re.IGNORECASE)


def inside_amount(copy: str, at: int) -> bool:
    """'>= 5 %, but < 15 %' and '>= 5 %, < 15 %:': the comma belongs to an amount; not in '30 % water, < 5 %: soap'."""
    after = copy[at : at + 14]
    return _BUT.match(after) is not None or (
        _BELOW.match(after) is not None and copy[max(0, at - 3) : at].rstrip()[-1:] in {"%", *"0123456789"}
    )


def band_at(copy: str, left: int, right: int) -> tuple[Amount | None, int]:
    """An amount before a colon or dash that holds for all that follows up to the semicolon: '< 5 %: a, b'."""
    at = left
    while at < right and copy[at] in " \t\n-\u2022*":
        at += 1
    lead = _BAND_LEAD.match(copy, at, right)
    at = lead.end() if lead else at
    amounts = amounts_in(copy, at, min(right, at + 60))
    if not amounts or amounts[0].start != at or not amounts[0].unit:
        return None, left
    after = _BAND.match(copy, amounts[0].end)
    return (amounts[0], after.end()) if after else (None, left)


def begins_band(copy: str, start: int, end: int) -> bool:
    """Whether a stretch begins with an amount and a colon, which holds for several entries."""
    return _BAND_BEGINS.match(copy, start, end) is not None and band_at(copy, start, end)[0] is not None
