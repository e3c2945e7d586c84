"""Misspelt names: the nearest name of the dataset, never across a dangerous neighbour.

Two names are dangerous neighbours when what differs could carry the chemistry (methyl and ethyl, citric and
nitric, silane and siloxane, any digit, any single-letter locant). Only slips of the hand and of the scanner are
repaired: a letter lost, doubled or added, two letters swapped, or two signs that look alike taken for each other.
A wrong identity costs more than a missing one.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from formulate.catalog.names import name_key, name_words

SHORTEST = 6
"""Keys shorter than this are never repaired: too many short names lie one letter apart."""
SHORTEST_WORD = 5
"""Words shorter than this are never repaired within a name."""
LOOK_ALIKE: frozenset[frozenset[str]] = frozenset(
    frozenset(pair)
    for pair in (
        "0o",
        "1l",
        "1i",
        "il",
        "ce",
        "5s",
        "8b",
        "uv",
        "ae",
        "ei",
        "iy",
        "mn",
        "ao",
        "o6",
        "gq",
        "ft",
        "ck",
        "sz",
    )
)
"""Signs that scanners and hands take for each other."""
_ENDINGS = re.compile(r"(?:ol|al|one|ide|ite|ate|ane|ene|yne|ine|ic|ous|yl|oyl|ium|eth|in|ase|ose)$")


@lru_cache(maxsize=4)
def parts_pattern(parts: tuple[str, ...]) -> re.Pattern[str]:
    """One pattern for all dangerous parts, longest first, and digits."""
    return re.compile("|".join(sorted(map(re.escape, parts), key=lambda part: (-len(part), part))) + r"|\d+")


def carries(key: str, parts: re.Pattern[str]) -> tuple[tuple[str, ...], str]:
    """The parts of a key that carry the chemistry, in order, and its telling ending."""
    ending = _ENDINGS.search(key)
    return tuple(parts.findall(key)), ending.group(0) if ending else ""


def slip(one: str, other: str) -> bool:
    """Whether two different words are one slip apart: a letter lost or added, a swap, or look-alikes exchanged."""
    start = 0
    while start < min(len(one), len(other)) and one[start] == other[start]:
        start += 1
    end = 0
    while end < min(len(one), len(other)) - start and one[-1 - end] == other[-1 - end]:
        end += 1
    left, right = one[start : len(one) - end], other[start : len(other) - end]
    if {len(left), len(right)} == {0, 1}:
        return True
    if len(left) == len(right) == 2:
        return left == right[::-1]
    return len(left) == len(right) == 1 and frozenset((left, right)) in LOOK_ALIKE


def is_misspelling(typed: str, name: str) -> bool:
    """Whether ``typed`` is ``name`` with at most two slips, no two in one word and none in a short word."""
    ours, theirs = name_words(typed), name_words(name)
    if len(ours) != len(theirs):
        return _short(ours) == _short(theirs) and slip(name_key(typed), name_key(name))
    differing = [(a, b) for a, b in zip(ours, theirs, strict=True) if a != b]
    return 1 <= len(differing) <= 2 and all(min(len(a), len(b)) >= SHORTEST_WORD and slip(a, b) for a, b in differing)


def _short(words: Sequence[str]) -> list[str]:
    return [word for word in words if len(word) <= 2]


def nearest_keys(name: str, keys: Sequence[str]) -> list[tuple[str, int]]:
    """Keys within two letters of a name, nearest first, as (key, letters changed); Latin letters only.

    Whether a name filed under such a key is a mere misspelling is for :func:`is_misspelling` to say, and whether
    it carries the same chemistry for :func:`carries`.
    """
    key = name_key(name)
    if len(key) < SHORTEST or not key.isascii():
        return []
    from rapidfuzz import process
    from rapidfuzz.distance import OSA

    near = process.extract(key, keys, scorer=OSA.distance, score_cutoff=2, limit=8)
    return [(found, int(distance)) for found, distance, _ in near if distance and len(found) >= SHORTEST]
