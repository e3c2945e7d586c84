"""Letters that a scan put for digits inside amounts and registry numbers: '5O - 70 %', '7732-l8-5'."""

from __future__ import annotations

import re

from formulate.reading.lazily import lazy

_LIKE = "OolI"
SLIPPED = lazy(rf"\d[{_LIKE}]|[{_LIKE}]\d")
_NUM = rf"[\d{_LIKE}]{{1,4}}(?:[.,][\d{_LIKE}]{{1,4}})?"
_BOTH = rf"(?=[{_LIKE}.,]{{0,5}}\d)"
_SHARE = lazy(
    rf"(?<![A-Za-z0-9.,])(?:{_NUM}(?:\s?%)?\s?(?:-|to|<|>)\s?[<>]?\s?)?{_NUM}\s?%"
    rf"|(?:(?<=[\s|<>])|^){_BOTH}{_NUM}\s?-\s?{_BOTH}{_NUM}(?=[\s|]|$)",
    re.MULTILINE,
)
_NUMBER = lazy(rf"(?<![\w-])[\d{_LIKE}]{{2,7}}-[\d{_LIKE}]{{2}}-[\d{_LIKE}](?![\w-])")
_DIGITS = str.maketrans(dict.fromkeys("Oo", "0") | dict.fromkeys("lI", "1"))
_LEAST = 4


def digits_restored(copy: str) -> str:
    """The copy with such letters as digits, same length. A registry number must then have a right check digit."""
    if not SLIPPED.search(copy):
        return copy
    copy = _SHARE.sub(_share, copy)
    return _NUMBER.sub(_number, copy)


def _share(match: re.Match[str]) -> str:
    printed = match.group()
    if not SLIPPED.search(printed):
        return printed
    return "to".join(part.translate(_DIGITS) for part in printed.split("to"))


def _number(match: re.Match[str]) -> str:
    printed = match.group()
    if not SLIPPED.search(printed) or sum(sign.isdigit() for sign in printed) < _LEAST:
        return printed
    restored = printed.translate(_DIGITS)
    digits = [int(sign) for sign in restored if sign.isdigit()]
    *body, check = digits
    right = sum(place * digit for place, digit in enumerate(reversed(body), 1)) % 10 == check
    return restored if right else printed
