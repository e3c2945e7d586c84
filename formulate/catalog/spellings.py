"""How the names of the dataset look letter by letter: names near a spelling, and letters that no name puts together."""

from __future__ import annotations

from bisect import bisect_left
from collections import Counter
from collections.abc import Iterable, Sequence

SHORTEST = 6
"""Keys shorter than this are never repaired: too many short names lie one letter apart."""
FARTHEST = 2
"""Letters that may differ between a key and a near one."""


def letter_groups(word: str) -> set[str]:
    """The groups of three neighbouring letters of a word, its edges marked.

    >>> sorted(letter_groups("wax"))
    ['^wa', 'ax$', 'wax']
    """
    edged = f"^{word}$"
    return {edged[at : at + 3] for at in range(len(edged) - 2)}


class Spellings:
    """The keys of the name index by length, and the words and letter groups that names are made of."""

    def __init__(self, keys: Iterable[str], words: Iterable[str]) -> None:
        self._keys = sorted(keys, key=len)
        self._lengths = [len(key) for key in self._keys]
        self._words = frozenset(words)
        self._groups = Counter(group for word in self._words for group in letter_groups(word))

    def near(self, key: str) -> list[tuple[str, int]]:
        """Keys within two letters of a key but not the key itself, nearest first, as (key, letters changed).

        Latin letters only. Two neighbouring letters swapped count as one change (optimal string alignment).
        """
        if len(key) < SHORTEST or not key.isascii():
            return []
        from rapidfuzz import process
        from rapidfuzz.distance import OSA

        found = process.extract(key, self.of_length(len(key)), scorer=OSA.distance, score_cutoff=FARTHEST, limit=None)
        return [(near, int(distance)) for near, distance, _ in found if distance and len(near) >= SHORTEST]

    def of_length(self, length: int) -> Sequence[str]:
        """Keys whose length is so near to this one that so few changes can lead to them."""
        return self._keys[
            bisect_left(self._lengths, length - FARTHEST) : bisect_left(self._lengths, length + FARTHEST + 1)
        ]

    def is_word(self, word: str) -> bool:
        """Whether a word stands in a name of the dataset."""
        return word in self._words

    def is_odd(self, typed: str, meant: str) -> bool:
        """Whether ``typed`` puts letters together that neither ``meant`` nor any other word of a name does."""
        return any(self.groups_like(group) == 0 for group in letter_groups(typed) - letter_groups(meant))

    def groups_like(self, group: str) -> int:
        """In how many words of names a group of letters stands."""
        return self._groups[group]
