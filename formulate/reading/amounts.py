"""Amounts as printed: percentages, ranges, comparisons, parts per million; digits of names are not amounts."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from formulate.domain.line import Means, Stated
from formulate.reading.amount_patterns import (
    ABOUT,
    AMOUNT,
    BROKEN,
    CLOSED,
    EXPOSURE_NEAR,
    IN_NAME_AFTER,
    LOSS,
    LOWER,
    MORE_WORDS,
    NOT_A_SHARE,
    NUMBERED_NAME,
    OF_NAME_FIRST,
    SOLIDS_FIRST,
    UNREADABLE,
)
from formulate.reading.lazily import lazy
from formulate.reading.patterns import SHARE_SIGN, WORDY
from formulate.reading.slips import SLIPPED

_UNIT_SIGN = lazy(
    r"%|\d\s?(?:pp[mb]|teile?|weight|\u0447\u0430\u0441\u0442|p(?:arts?|hr|bw|ercent|er\s|rozent)|m?g/|wt|weight|gew|mol|vol|mass|peso|poids|w/w|\u91cd|\u8d28|\u8cea|\u4efd|\u90e8)",
    re.IGNORECASE,
)

VOLUME = "vol%"
WORDS = "words"
"""Units of a share by volume, and of an amount told in words ('balance')."""
_AROUND = ' \t\n|;,"'
_GLUED = lazy(r"^[\d.,]+<=?[\d.,]+")


class Amount(NamedTuple):
    """One amount found at ``start:end`` of the working copy. ``unit`` is '' for a bare number or range."""

    start: int
    end: int
    low: float | None
    high: float | None
    low_open: bool
    high_open: bool
    unit: str
    doubtful: bool
    range_: bool
    compared: bool

    def stated(self, text: str, means: Means = "either", strength: tuple[float, float] | None = None) -> Stated:
        """The amount as the domain keeps it; ``text`` is what was pasted, ``strength`` that of the raw material."""
        return Stated.model_construct(
            low=self.low,
            high=self.high,
            low_open=self.low_open,
            high_open=self.high_open,
            text=text[self.start : self.end].strip(_AROUND),
            means="as-supplied" if strength else means,
            by_volume=self.unit == VOLUME and (self.low, self.high) != (None, None),
            strength=strength,
            doubtful=self.doubtful or SLIPPED.search(text, self.start, self.end) is not None,
        )


def amounts_in(copy: str, start: int, end: int) -> list[Amount]:
    """All amounts of a stretch, in order; digits that belong to names, codes or other quantities are left out."""
    if not SHARE_SIGN.search(copy, start, end):
        return []
    stretch = copy[start:end]
    amounts = [amount for match in _matches(stretch) if (amount := _amount(match, stretch, start))]
    amounts += [_lost_dash(match, start) for match in LOSS.finditer(stretch) if _is_lost_dash(match, stretch)]
    amounts += [_without_limits(start + m.start(), start + m.end(), "%") for m in UNREADABLE.finditer(stretch)]
    return _without_overlaps(amounts)


def amount_in_words(start: int, end: int) -> Amount:
    """An amount told in words ('balance', 'q.s.'): no limits, doubtful."""
    return _without_limits(start, end, WORDS)


def _without_limits(start: int, end: int, unit: str) -> Amount:
    return Amount(start, end, None, None, False, False, unit, True, False, True)


def shares_in(copy: str, start: int, end: int) -> list[Amount]:
    """The amounts of a stretch that carry a unit ('%', 'ppm', ...); quick where no unit is printed."""
    if not _UNIT_SIGN.search(copy, start, end):
        return []
    return [amount for amount in amounts_in(copy, start, end) if amount.unit]


def _matches(stretch: str) -> Iterator[re.Match[str]]:
    """Matches in order; two comparisons side by side are one range only where they bound one ('> 15 < 30', '1<2 %')."""
    at = 0
    while match := AMOUNT.search(stretch, at):
        if match["c3"] and not _bounds_one(match):
            match = AMOUNT.match(stretch, match.start(), match.start("c3")) or match
        yield match
        at = max(match.end(), at + 1)


def _bounds_one(match: re.Match[str]) -> bool:
    first, second = ">=" if match["more"] else _sign(match["c1"]), _sign(match["c3"])
    if not first and match["u2"] and not match["u1"] and _GLUED.search(match.group()):
        return second in {"<", "<="} and _value(match["n1"]) < _value(match["n2"])
    if (
        not first
        and match["u2"]
        and not match["u1"]
        and not WORDY.search(match.string[max(0, match.start() - 3) : match.start()])
    ):
        # '10 < 25 % naphtha' where nothing stands before it; 'PEG 4 < 10 %' is a name and a bound
        return second in {"<", "<=", "\u2264"} and _value(match["n1"]) < _value(match["n2"])
    return first in LOWER and second not in LOWER and _value(match["n1"]) < _value(match["n2"])


def _without_overlaps(amounts: list[Amount]) -> list[Amount]:
    kept: list[Amount] = []
    for amount in sorted(amounts, key=lambda one: (one.start, -one.end)):
        if kept and amount.start < kept[-1].end:
            continue
        kept.append(amount)
    return kept


def _is_lost_dash(match: re.Match[str], stretch: str) -> bool:
    numbered = NUMBERED_NAME.search(stretch, max(0, match.start() - 24), match.start())
    return _value(match["n1"]) < _value(match["n2"]) and not numbered


def _lost_dash(match: re.Match[str], base: int) -> Amount:
    low, high = sorted((_value(match["n1"]), _value(match["n2"])))
    scale = _scale(_unit(match["u2"])) or 1.0
    if high * scale > _ALL:
        return _without_limits(base + match.start(), base + match.end(), _unit(match["u2"]))
    return Amount(
        base + match.start(),
        base + match.end(),
        low * scale,
        high * scale,
        False,
        False,
        _unit(match["u2"]),
        True,
        True,
        False,
    )


def _amount(match: re.Match[str], stretch: str, base: int) -> Amount | None:
    unit = _unit(match["u2"] or match["u1"] or "")
    end = match.end()
    bounded = bool(match["n2"] and (match["c1"] or match["c2"]))
    if not unit and (
        _is_quantity(stretch, match.start(), end, bounded)
        or (end < len(stretch) and (stretch[end].isalnum() or stretch[end] in "-'"))
    ):
        return None
    if _is_of_the_name(stretch, match, end) or BROKEN.match(stretch, end):
        return None
    scale = _scale(unit)
    first, second = _value(match["n1"], unit), _value(match["n2"], unit) if match["n2"] else None
    if scale is None or (
        unit in {"ppm", "ppb"} and EXPOSURE_NEAR.search(stretch, max(0, match.start() - 30), match.start())
    ):
        return None
    if unit == "" and (first > 100 or (second or 0) > 100):
        return None
    if not match["c1"] and _is_negative(stretch, match.start()):
        return _without_limits(base + match.start() - 1, base + end, unit)
    low, high, low_open, high_open, doubtful = _limits(match, first, second)
    low, high = _scaled(low, scale), _scaled(high, scale)
    doubtful = doubtful or unit in _DOUBTFUL_UNITS or (high or 0) > _ALL or (low or 0) > _ALL
    if unit in _RELATIVE_UNITS or (high or 0) > _ALL or (low or 0) > _ALL:
        low = high = None
        low_open = high_open = False
    return Amount(
        base + match.start(),
        base + end,
        low,
        high,
        low_open,
        high_open,
        unit,
        doubtful,
        second is not None,
        bool(match["c1"] or match["c2"] or match["c3"] or match["tail"]),
    )


def _is_negative(stretch: str, at: int) -> bool:
    """Whether a minus stands right before a number and behind a blank: '-5 %' is no share."""
    return stretch[at - 1 : at] == "-" and (at == 1 or stretch[at - 2] in " \t\n|:=(;\x01") and stretch[at].isdigit()


def _is_of_the_name(stretch: str, match: re.Match[str], end: int) -> bool:
    """Whether a percentage describes the ingredient: '25 % solids', '< 2 % aromatics'."""
    if stretch[: match.start()].strip(" \t\n-*\u2022,;(") or not match["u1"]:
        return IN_NAME_AFTER.match(stretch, end) is not None
    return (OF_NAME_FIRST if match["c1"] else SOLIDS_FIRST).match(stretch, end) is not None


def _is_quantity(stretch: str, start: int, end: int, bounded: bool = False) -> bool:
    """Whether a bare number carries a unit of something else; beside a registry number a letter is a hazard sign."""
    unit = NOT_A_SHARE.match(stretch, end)
    if unit is None or (bounded and len(unit.group().strip()) == 1):
        return False
    return not (len(unit.group().strip()) == 1 and unit.group()[:1] == " " and stretch[:start].rstrip()[-1:] == "\x01")


def _scaled(value: float | None, scale: float) -> float | None:
    return None if value is None else float(f"{value * scale:.12g}")


def _limits(
    match: re.Match[str], first: float, second: float | None
) -> tuple[float | None, float | None, bool, bool, bool]:
    """Lower and upper limit, whether each is open, and whether the print leaves a doubt."""
    one, two = ">=" if match["more"] else _sign(match["c1"]), _sign(match["c2"] or match["c3"])
    if second is None:
        tail = (match["tail"] or "").strip(" ().").lower()
        if tail:
            one = ">=" if MORE_WORDS.search(tail) else "<="
        if not one or one in ABOUT:
            return first, first, False, False, one in ABOUT
        if one in LOWER:
            return first, None, one not in CLOSED, False, False
        return None, first, False, one not in CLOSED, False
    signs = (one, two) if first <= second else (two, one)
    low, high = min(first, second), max(first, second)
    reversed_ = first > second
    low_open = signs[0] in LOWER and signs[0] not in CLOSED
    high_open = bool(signs[1]) and signs[1] not in LOWER and signs[1] not in CLOSED and signs[1] not in ABOUT
    odd = bool(signs[0]) and signs[0] not in LOWER and signs[0] not in ABOUT and bool(signs[1])
    return low, high, low_open, high_open, reversed_ or odd


def _sign(word: str | None) -> str:
    return " ".join((word or "").lower().rstrip(".").split())


_THOUSANDS = {"ppm", "ppb"}
_ALL = 1.0001
"""All of a mixture, with the rounding of printed figures."""
_DOUBTFUL_UNITS = {"w/v%", "parts", "phr", "mol%", "g/l"}
_RELATIVE_UNITS = {"parts", "phr", "mol%", "g/l"}


def _unit(word: str) -> str:
    """The plain name of a unit: '%', 'vol%', 'w/v%', 'mol%', 'ppm', 'ppb', 'g/kg', 'parts', 'phr', 'g/l' or ''."""
    low = " ".join(word.lower().split())
    if low in {"", "ppm", "ppb", "g/kg", "phr"}:
        return low
    if low == "mg/kg":
        return "ppm"
    if low.startswith("g/100"):
        return "%" if low.endswith((" g", "0g")) else "g/l"
    if low in {"g/l", "mg/l"}:
        return "g/l"
    if (
        low.startswith(("part", "teil", "weight part", "\u0447\u0430\u0441\u0442"))
        or low == "pbw"
        or low[-1:] in "\u4efd\u90e8"
    ):
        return "parts"
    if "w/v" in low:
        return "w/v%"
    if "vol" in low or "v/v" in low:
        return VOLUME
    return "mol%" if low.startswith("mol") else "%"


def _scale(unit: str) -> float | None:
    return {
        "": 0.01,
        "%": 0.01,
        VOLUME: 0.01,
        "w/v%": 0.01,
        "mol%": 0.01,
        "ppm": 1e-6,
        "ppb": 1e-9,
        "g/kg": 1e-3,
        "parts": 0.01,
        "phr": 0.01,
        "g/l": 0.001,
    }.get(unit)


def _value(digits: str, unit: str = "") -> float:
    """A printed number; one comma or point is the decimal mark, a space groups thousands, as does '1,000 ppm'."""
    if unit in _THOUSANDS and re.fullmatch(r"\d{1,3},\d{3}", digits):
        return float(digits.replace(",", ""))
    return float(digits.replace(" ", "").replace(",", "."))
