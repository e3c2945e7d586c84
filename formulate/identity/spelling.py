"""Misspelt names: the nearest name of the dataset, never across a dangerous neighbour.

Two names are dangerous neighbours when the parts that carry the chemistry differ
(methyl and ethyl, silane and siloxane, any digit). A misspelling inside such a part is
left unknown: a wrong identity costs more than a missing one.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from formulate.catalog.names import name_key

SHORTEST = 6
"""Keys shorter than this are never repaired: too many short names lie one letter apart."""
TWO_EDITS_FROM = 11
"""Keys of at least this length may differ by two letters, shorter ones by one."""
_ENDINGS = re.compile(r"(?:ol|al|one|ide|ite|ate|ane|ene|yne|ine|ic|ous|yl|oyl|ium|eth|in)$")


def parts_pattern(parts: Sequence[str]) -> re.Pattern[str]:
    """One pattern for all dangerous parts, longest first, and digits."""
    return re.compile("|".join(sorted(map(re.escape, parts), key=lambda part: (-len(part), part))) + r"|\d+")


def carries(key: str, parts: re.Pattern[str]) -> tuple[tuple[str, ...], str]:
    """The parts of a key that carry the chemistry, in order, and its telling ending."""
    ending = _ENDINGS.search(key)
    return tuple(parts.findall(key)), ending.group(0) if ending else ""


def nearest_key(name: str, keys: Sequence[str], parts: re.Pattern[str]) -> list[tuple[str, int]]:
    """Keys within a safe distance of a name, nearest first, as (key, letters changed). Empty: leave it unknown."""
    key = name_key(name)
    if len(key) < SHORTEST:
        return []
    from rapidfuzz import process
    from rapidfuzz.distance import OSA

    allowed = 2 if len(key) >= TWO_EDITS_FROM else 1
    near = process.extract(key, keys, scorer=OSA.distance, score_cutoff=allowed, limit=8)
    wanted = carries(key, parts)
    return [(found, int(distance)) for found, distance, _ in near
            if len(found) >= SHORTEST and found[0] == key[0] and carries(found, parts) == wanted]
