"""Noise as pastes and scans bring it, from a seed: what it does is known, so what a reading should find is too."""

from __future__ import annotations

import random
import re
import unicodedata
from collections.abc import Callable

RATE = 0.06
"""Share of the letters or digits that a scan takes for another."""

_LETTERS = {"l": "1", "I": "l", "O": "0", "rn": "m", "m": "rn"}
_DIGITS = {"0": "O", "1": "l"}
_DASHES = "\u2013\u2014\u2010\u2212"
_SIGNS = {"semicolons": "; ", "lines": "\n", "bullets": "\n\u2022 ", "bars": " | "}


def upper(text: str, chance: random.Random) -> str:
    """Another case: capitals, small letters, or each word with a capital."""
    return chance.choice([str.upper, str.lower, str.title])(text)


def scanned(text: str, chance: random.Random) -> str:
    """Letters taken for others in names, digits for letters in amounts ('1O %')."""
    signs = re.findall(r"rn|.", text, re.DOTALL)
    spoilt = []
    for number, sign in enumerate(signs):
        table = _DIGITS if sign in _DIGITS and _in_amount(signs, number) else _LETTERS
        spoilt.append(table[sign] if sign in table and chance.random() < RATE else sign)
    return "".join(spoilt)


def _in_amount(signs: list[str], at: int) -> bool:
    """Whether a digit stands beside another digit and before a per cent sign: 'l0 %' can be told from a word."""
    behind = "".join(signs[at + 1 : at + 6])
    pair = (at > 0 and signs[at - 1] in "23456789") or behind[:1] in tuple("23456789")
    return pair and re.match(r"\d{0,2}\s?%", behind) is not None


def without_accents(text: str, chance: random.Random) -> str:
    """Accents lost, as in an old export."""
    return "".join(sign for sign in unicodedata.normalize("NFKD", text) if not unicodedata.combining(sign))


def separators(text: str, chance: random.Random) -> str:
    """Commas between entries as semicolons, line ends, bullets or bars; not those inside brackets and numbers."""
    kind = chance.choice(sorted(_SIGNS))
    parts, depth, left = [], 0, 0
    for at, sign in enumerate(text):
        depth += (sign in "([") - (sign in ")]")
        if text[at : at + 2] == ", " and depth == 0:
            parts.append(text[left:at])
            left = at + 2
    parts.append(text[left:])
    lead = "\u2022 " if kind == "bullets" and len(parts) > 1 else ""
    return lead + _SIGNS[kind].join(parts)


def dashes(text: str, chance: random.Random) -> str:
    """Hyphens as dashes of other kinds."""
    return "".join(chance.choice(_DASHES) if sign == "-" else sign for sign in text)


def decimal_comma(text: str, chance: random.Random) -> str:
    """Decimal points of amounts as commas."""
    return re.sub(r"(?<=\d)\.(?=\d{1,2}\s?(?:%|-))", ",", text)


KINDS: dict[str, Callable[[str, random.Random], str]] = {
    "case": upper,
    "scan": scanned,
    "accents": without_accents,
    "separators": separators,
    "dashes": dashes,
    "decimal comma": decimal_comma,
}


def noisy(text: str, kind: str, seed: int) -> str:
    """``text`` with one kind of noise; the same seed gives the same noise."""
    return KINDS[kind](text, random.Random(f"{kind}-{seed}-{text}"))


def key(name: str) -> str:
    """A name as it is the same before and after the noise."""
    plain = "".join(s for s in unicodedata.normalize("NFKD", name) if not unicodedata.combining(s)).casefold()
    plain = re.sub(r"[^0-9a-z]", "", plain.replace("rn", "m"))
    return plain.translate(str.maketrans("oil", "011"))
