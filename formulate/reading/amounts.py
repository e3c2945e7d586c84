"""Amounts as printed: percentages, ranges, comparisons, parts per million; digits of names are not amounts."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from formulate.domain.line import Means, Stated

_NUM = r"(?:\d{1,3}(?:[ ]\d{3}){1,2}(?=\s?(?:ppm|ppb|mg/kg)\b)|\d{1,7}(?:[.,]\d{1,6})?|[.,]\d{1,6})"
_CMP = (
    r"(?:</=|>/=|<=|>=|=<|=>|=/<|=/>|<|>|\u2264|\u2265|~|\u2248|\u00b1(?=\s?\d)"
    r"|\b(?:less\sthan\sor\sequal\sto|not\smore\sthan|no\smore\sthan|less\sthan|more\sthan|greater\sthan|at\sleast|at\smost|up\sto"
    r"|maximum|minimum|max\.?|min\.?|approx\.?|approximately|about|around|circa|ca\.?|below|under|above|over|bis\szu|unter|\u00fcber"
    r"|mindestens|h\u00f6chstens|etwa|weniger\sals|mehr\sals|\u043c\u0435\u043d\u0435\u0435|\u0431\u043e\u043b\u0435\u0435|\u0434\u043e|menos\sde|moins\sde|plus\sde|meno\sdi|poni\u017cej|powy\u017cej)"
    r"(?=[\s\d]))"
)
_UNIT = (
    r"(?:%\s?\(?(?:w/w|m/m|by\s(?:weight|wt\.?|mass|volume|vol\.?)|wt\.?|v/v|vol\.?|w/v)\)?"
    r"|(?:wt|w/w|weight|mass|gew|vol|volume|mol|masse|poids|peso)\b[.\-]{0,2}\s?-?(?:%|percent|per\scent)"
    r"|%|percent(?:\sby\s(?:weight|mass|volume))?|per\scent(?:\sby\sweight)?|prozent"
    r"|ppm|ppb|mg/kg|g/kg|parts?(?:\sby\s(?:weight|mass|volume))?|phr|pbw|g/l|mg/l|g/100\s?(?:g|ml))(?![A-Za-z0-9])"
)
_SEP = r"(?:-{1,2}|\bto\b|\bbis\b|\bthrough\b|\u2026|\.\.\.?|~|\ba\b|\b\u0434\u043e\b|/(?=\s?[<>\u2264\u2265]))"
_BUT = r"(?:,?\s?(?:\b(?:and|but|aber|und|\u043d\u043e|\u0438|et|mais|y|e)\b)?\s?)"
_OPENING = r"(?<![A-Za-z0-9_\u00c0-\u024f\u0370-\u04ff.'#])(?<![A-Za-z0-9)\]]-)(?<!\d,)"
AMOUNT = re.compile(
    rf"(?:(?P<between>\b(?:between|from|von|zwischen|de|od|\u043e\u0442)\s{{1,3}})(?={_CMP}?\s?{_NUM}|about\s|approx))?"
    rf"(?:(?P<c1>{_CMP})\s{{0,3}}(?:(?:about|approx\.?|ca\.?)\s)?|{_OPENING})"
    rf"(?P<n1>{_NUM})(?![\d])(?:\s{{0,2}}(?P<u1>{_UNIT}))?"
    rf"(?:\s{{0,3}}(?:(?:{_SEP}|(?<=[\s%])and\b)\s{{0,3}}(?P<c2>{_CMP})?|{_BUT}(?P<c3>{_CMP}))"
    rf"\s{{0,3}}(?:(?:about|approx\.?|ca\.?)\s)?(?P<n2>\d{{1,7}}(?:[.,]\d{{1,6}})?|[.,]\d{{1,6}})(?!\d)(?:\s{{0,2}}(?P<u2>{_UNIT}))?)?"
    rf"(?P<tail>\s?\(?(?:or|and)\s(?:more|less|greater|above|below)\)?|\s?(?:max|min|maximum|minimum)\b\.?)?",
    re.IGNORECASE,
)
_LOSS = re.compile(rf"{_OPENING}(?P<n1>\d{{1,3}}(?:[.,]\d{{1,4}})?)\s{{1,2}}(?P<n2>\d{{1,3}}(?:[.,]\d{{1,4}})?)\s?(?P<u2>{_UNIT})", re.IGNORECASE)
_NUMBERED_NAME = re.compile(
    r"(?:polysorbate|laureth|steareth|ceteareth|quaternium|polyquaternium|poloxamer|peg|ppg|yellow|red|blue|green|orange|violet|black|acid|ci|no\.?|type|grade|hlb|#)\s$",
    re.IGNORECASE,
)
_UNREADABLE = re.compile(r"(?P<c1><|>|\u2264|\u2265)\s?[!lIiOo|]\s?%")
_IN_NAME_AFTER = re.compile(
    r"[\s)]{0,2}(?:max\.?\s)?(?:of\s)?(?:total\s)?(?:aromat|aromaten|n-?\s?hexan|hexan|benz[eo]|sulfur|sulphur|activ[es]|aktiv|solids|solid\b|solution|soln|l\u00f6sung|aqueous|aq\b"
    r"|in\s(?:water|h2o|ethanol|wasser|isopropanol)|strength|pur(?:e|ity)|hydroly[sz]ed|ethoxylat|dispersion|emulsion|suspension|free\b|denatur|vinegar|proof|acetyl"
    r"|propylene\s?oxide|ethylene\s?oxide|EO\b|PO\b|dmso|water\s?solution|of\s(?:the\s)?(?:silicone\scomponent|fatty|substances|chemicals))",
    re.IGNORECASE,
)
_NOT_A_SHARE = re.compile(
    r"\s?(?:mg|\u00b5g|ug|g|kg|ml|l|m\u00b3|m3|cst|cps|mm2?|mm\u00b2|nm|\u00b5m|um|mpa|pa\b|\u00b0|deg|c\b|f\b|hours?|h\b|min\b|bar|psi|oz|lbs?|kda|da\b|mol\b|eo\b|po\b|hlb|centistokes|cp\b|k\b|ci\b|litre|liter"
    r"|cm|mm\s?hg|mg/m|parts|drops|v\b|w\b)(?![A-Za-z%])",
    re.IGNORECASE,
)
_EXPOSURE_NEAR = re.compile(r"(?:tlv|pel|twa|stel|lc50|ld50|oel|exposure|limit|ceiling|vapou?r)\b[^\n;]{0,20}$", re.IGNORECASE)
_LOWER = {">", ">=", ">/=", "=>", "=/>", "\u2265", "more than", "greater than", "at least", "minimum", "min", "above", "over", "\u00fcber", "mindestens",
          "mehr als", "\u0431\u043e\u043b\u0435\u0435", "plus de", "powy\u017cej"}
_CLOSED = {"<=", ">=", "</=", ">/=", "=<", "=>", "=/<", "=/>", "\u2264", "\u2265", "at least", "at most", "up to", "maximum", "minimum", "max", "min",
           "not more than", "no more than", "bis zu", "mindestens", "h\u00f6chstens", "\u0434\u043e", "less than or equal to"}
_ABOUT = {"~", "\u2248", "\u00b1", "approx", "approximately", "about", "around", "circa", "ca", "etwa"}


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

    def stated(self, text: str, means: Means = "either") -> Stated:
        """The amount as the domain keeps it; ``text`` is what was pasted."""
        return Stated(
            low=self.low, high=self.high, low_open=self.low_open, high_open=self.high_open,
            text=text[self.start:self.end], means=means, doubtful=self.doubtful,
        )


def amounts_in(copy: str, start: int, end: int) -> list[Amount]:
    """All amounts of a stretch, in order; digits that belong to names, codes or other quantities are left out."""
    stretch = copy[start:end]
    if not any(sign.isdigit() for sign in stretch) and "%" not in stretch:
        return []
    amounts = [amount for match in _matches(stretch) if (amount := _amount(match, stretch, start))]
    amounts += [_lost_dash(match, start) for match in _LOSS.finditer(stretch) if _is_lost_dash(match, stretch)]
    amounts += [
        Amount(start + m.start(), start + m.end(), None, None, False, False, "%", True, False, True)
        for m in _UNREADABLE.finditer(stretch)
    ]
    return _without_overlaps(amounts)


def _matches(stretch: str) -> Iterator[re.Match[str]]:
    """Matches in order; two comparisons side by side are one range only where they bound one ('> 15 < 30')."""
    at = 0
    while match := AMOUNT.search(stretch, at):
        if match["c3"] and not _bounds_one(match):
            match = AMOUNT.match(stretch, match.start(), match.start("c3")) or match
        yield match
        at = max(match.end(), at + 1)


def _bounds_one(match: re.Match[str]) -> bool:
    first, second = _sign(match["c1"]), _sign(match["c3"])
    return first in _LOWER and second not in _LOWER and _value(match["n1"]) < _value(match["n2"])


def _without_overlaps(amounts: list[Amount]) -> list[Amount]:
    kept: list[Amount] = []
    for amount in sorted(amounts, key=lambda one: (one.start, -one.end)):
        if kept and amount.start < kept[-1].end:
            continue
        kept.append(amount)
    return kept


def _is_lost_dash(match: re.Match[str], stretch: str) -> bool:
    numbered = _NUMBERED_NAME.search(stretch, max(0, match.start() - 24), match.start())
    return _value(match["n1"]) < _value(match["n2"]) and not numbered


def _lost_dash(match: re.Match[str], base: int) -> Amount:
    low, high = sorted((_value(match["n1"]), _value(match["n2"])))
    scale = _scale(_unit(match["u2"])) or 1.0
    return Amount(base + match.start(), base + match.end(), low * scale, high * scale, False, False, _unit(match["u2"]), True, True, False)


def _amount(match: re.Match[str], stretch: str, base: int) -> Amount | None:
    unit = _unit(match["u2"] or match["u1"] or "")
    end = match.end()
    if not unit and (_NOT_A_SHARE.match(stretch, end) or (end < len(stretch) and (stretch[end].isalnum() or stretch[end] in "-'"))):
        return None
    if _IN_NAME_AFTER.match(stretch, end):
        return None
    scale = _scale(unit)
    first, second = _value(match["n1"], unit), _value(match["n2"], unit) if match["n2"] else None
    if scale is None or (unit in {"ppm", "ppb"} and _EXPOSURE_NEAR.search(stretch, max(0, match.start() - 30), match.start())):
        return None
    if unit == "" and (first > 100 or (second or 0) > 100):
        return None
    low, high, low_open, high_open, doubtful = _limits(match, first, second)
    low, high = _scaled(low, scale), _scaled(high, scale)
    doubtful = doubtful or unit in _DOUBTFUL_UNITS or (high or 0) > 1.0001 or (low or 0) > 1.0001
    if unit in _RELATIVE_UNITS or (high or 0) > 1.0001 or (low or 0) > 1.0001:
        low = high = None
        low_open = high_open = False
    return Amount(base + match.start(), base + end, low, high, low_open, high_open, unit, doubtful, second is not None,
                  bool(match["c1"] or match["c2"] or match["c3"] or match["tail"]))


def _scaled(value: float | None, scale: float) -> float | None:
    return None if value is None else float(f"{value * scale:.12g}")


def _limits(match: re.Match[str], first: float, second: float | None) -> tuple[float | None, float | None, bool, bool, bool]:
    """Lower and upper limit, whether each is open, and whether the print leaves a doubt."""
    one, two = _sign(match["c1"]), _sign(match["c2"] or match["c3"])
    if second is None:
        tail = (match["tail"] or "").strip(" ().").lower()
        if tail:
            one = ">=" if tail.endswith(("more", "greater", "above", "min", "minimum")) else "<="
        if not one or one in _ABOUT:
            return first, first, False, False, one in _ABOUT
        if one in _LOWER:
            return first, None, one not in _CLOSED, False, False
        return None, first, False, one not in _CLOSED, False
    signs = (one, two) if first <= second else (two, one)
    low, high = min(first, second), max(first, second)
    reversed_ = first > second
    low_open = signs[0] in _LOWER and signs[0] not in _CLOSED
    high_open = bool(signs[1]) and signs[1] not in _LOWER and signs[1] not in _CLOSED and signs[1] not in _ABOUT
    odd = bool(signs[0]) and signs[0] not in _LOWER and signs[0] not in _ABOUT and bool(signs[1])
    return low, high, low_open, high_open, reversed_ or odd


def _sign(word: str | None) -> str:
    return " ".join((word or "").lower().rstrip(".").split())


_THOUSANDS = {"ppm", "ppb"}
_DOUBTFUL_UNITS = {"vol%", "parts", "phr", "mol%", "g/l"}
_RELATIVE_UNITS = {"parts", "phr", "mol%", "g/l"}


def _unit(word: str) -> str:
    """The plain name of a unit: '%', 'vol%', 'mol%', 'ppm', 'ppb', 'g/kg', 'parts', 'phr', 'g/l' or ''."""
    low = " ".join(word.lower().split())
    if low in {"", "ppm", "ppb", "g/kg", "phr"}:
        return low
    if low == "mg/kg":
        return "ppm"
    if low.startswith("g/100"):
        return "%" if low.endswith(" g") or low.endswith("0g") else "g/l"
    if low in {"g/l", "mg/l"}:
        return "g/l"
    if low.startswith("part") or low == "pbw":
        return "parts"
    if "vol" in low or "v/v" in low or "w/v" in low:
        return "vol%"
    return "mol%" if low.startswith("mol") else "%"


def _scale(unit: str) -> float | None:
    return {"": 0.01, "%": 0.01, "vol%": 0.01, "mol%": 0.01, "ppm": 1e-6, "ppb": 1e-9, "g/kg": 1e-3, "parts": 0.01, "phr": 0.01, "g/l": 0.001}.get(unit)


def _value(digits: str, unit: str = "") -> float:
    """A printed number; one comma or point is the decimal mark, a space groups thousands ('1,000 ppm' is a thousand)."""
    if unit in _THOUSANDS and re.fullmatch(r"\d{1,3},\d{3}", digits):
        return float(digits.replace(",", ""))
    return float(digits.replace(" ", "").replace(",", "."))
