"""Letters that a scan put for digits inside amounts and numbers, and digits for letters inside words."""

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
# 'So1vent', 'Availab1e', 'Glyco1'; not 'C12', 'PEG1stearate', the footnote of 'Silica1', nor the ring of 'c1ccc(cc1)'
_RING = r"(?![cnos]{2,8}(?:[^a-z]|$))"
_ONE_IN_WORD = lazy(
    rf"1{_RING}(?=[a-z]{{2}})(?<=[A-Za-z]1)(?<![A-Z0-9]{{2}}1)|1{_RING}(?=[a-z])(?<=[a-z]{{2}}1)"
    r"|1(?![\w.,%-])(?<=[a-z]{2}[oy]1)"
)
_NOUGHT_IN_WORD = lazy(r"0(?=[A-Z]{2})(?<=[A-Z]0)(?<![0-9].0)|0(?=[A-Z])(?<=[A-Z]{2}0)|0(?=[A-Z]{3})(?<![\w.,-]0)")
# 'MlNERAL', 'lNGREDIENT'; not 'AlOH'
_SMALL_L = lazy(r"l(?=[A-Z]{2})(?<![a-z0-9]l)(?<!\bAl)(?<!\bCl)(?<!\bTl)(?:(?<=[A-Z]l)|(?=[A-Z]{3}))")
_DIGITS = str.maketrans(dict.fromkeys("Oo", "0") | dict.fromkeys("lI", "1"))
_LEAST = 4


def digits_restored(copy: str) -> str:
    """The copy with such letters as digits, same length. A registry number must then have a right check digit."""
    if not SLIPPED.search(copy):
        return copy
    copy = _SHARE.sub(_share, copy)
    return _NUMBER.sub(_number, copy)


def letters_restored(copy: str) -> str:
    """The copy with digits inside words as the letters that they stand for, same length."""
    if "1" in copy:
        copy = _ONE_IN_WORD.sub("l", copy)
    if "0" in copy:
        copy = _NOUGHT_IN_WORD.sub("O", copy)
    return _SMALL_L.sub("I", copy)


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
