"""Keys under which names are filed: spelling that carries no meaning is taken away, digits are kept apart."""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

_SEPARATORS = re.compile(r"[^\w#]+|_+")
_DIGIT_GAP = re.compile(r"(?<=[\d#]) (?=[\d#])")
_NUMBER = re.compile(r"\d+")
_RANGES = re.compile(r"#(?:\x1f#)+")
MOST_NUMBERS = 4
"""Names with more numbers than this belong to no family."""
LONGEST_LOCANT = 2
"""Words of so few letters tell a place or a form (2, n, di) and belong to the word behind them."""
_GREEK = {"α": "alpha", "β": "beta", "γ": "gamma", "δ": "delta", "ε": "epsilon", "ω": "omega", "µ": "u", "μ": "u"}
_SPELLINGS = (
    ("sulph", "sulf"),
    ("aluminum", "aluminium"),
    ("colour", "color"),
    ("caesium", "cesium"),
    ("moisturis", "moisturiz"),
    ("polymeris", "polymeriz"),
    ("oxidis", "oxidiz"),
    ("ethoxylis", "ethoxylat"),
    ("fibre", "fiber"),
)


@lru_cache(maxsize=4096)
def name_words(name: str) -> tuple[str, ...]:
    """The words of a name: case, accents, punctuation and rival spellings (sulphate, sulfate) taken away."""
    return tuple(_SEPARATORS.sub(" ", plain_spelling(name)).split())


def plain_spelling(name: str) -> str:
    """A name in lower case, accents and rival spellings (sulphate, sulfate) taken away, punctuation kept."""
    text = name.lower() if name.isascii() else _plain_letters(name)
    for rival, kept in _SPELLINGS:
        text = text.replace(rival, kept)
    return text


def _plain_letters(name: str) -> str:
    text = unicodedata.normalize("NFKC", name)
    text = "".join(_GREEK.get(char, char) for char in text.casefold())
    text = text.replace("ł", "l").replace("ß", "ss")
    return "".join(char for char in unicodedata.normalize("NFD", text) if not unicodedata.combining(char))


@lru_cache(maxsize=4096)
def name_key(name: str) -> str:
    """Key of a name: its words run together, but two neighbouring numbers stay two ('1,2-' is not '12-').

    >>> name_key("1,2-Hexanediol") == name_key("1, 2 hexane diol")
    True
    >>> name_key("C9-11 Pareth-6") == name_key("C911 Pareth-6")
    False
    """
    joined = _DIGIT_GAP.sub("\x1f", " ".join(name_words(name)))
    return joined.replace(" ", "")


def word_key(name: str) -> str:
    """Key that ignores the order of words: 'silica, amorphous' and 'amorphous silica' share it.

    What tells a place stays with its word: 2-methoxy-1-propanol is not 1-methoxy-2-propanol.
    """
    units, locants = [], ""
    for word in name_words(name):
        if len(word) <= LONGEST_LOCANT or word.isdigit():
            locants += word + " "
        else:
            units.append(locants + word)
            locants = ""
    if units:
        units[-1] = f"{units[-1]} {locants}".rstrip()
    return " ".join(sorted(units)) if units else locants.rstrip()


def pattern_key(pattern: str) -> str:
    """Key of a family pattern, '#' standing for any number or range: 'C9-11 pareth-#' keeps its 9 and 11."""
    return _RANGES.sub("#", name_key(pattern))


def pattern_keys(name: str) -> list[str]:
    """Keys of the patterns that a printed name may fit, the most literal first: each number kept or read as '#'."""
    key = name_key(name)
    spots = list(_NUMBER.finditer(key))
    if not spots or len(spots) > MOST_NUMBERS:
        return []
    found = []
    for kept in sorted(range(2 ** len(spots) - 1), key=lambda mask: -mask.bit_count()):
        parts, at = [], 0
        for number, spot in enumerate(spots):
            parts += [key[at : spot.start()], spot.group() if kept >> number & 1 else "#"]
            at = spot.end()
        found.append(_RANGES.sub("#", "".join(parts) + key[at:]))
    return list(dict.fromkeys(found))
