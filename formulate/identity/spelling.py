"""Misspelt names: the nearest name of the dataset, never across a dangerous neighbour.

Two real names may lie one letter apart (methyl and ethyl, citric and nitric, capric and caproic). Three things
keep them apart, so that a pair which no table names is safe as well:

- only slips of hands and scanners are repaired: a letter lost, added or doubled, two letters swapped, a letter taken
  for one that looks like it or for its neighbour on the keyboard; one in a word, in at most two words;
- the misspelt word looks misspelt: it is no word of any name, and it puts letters together that no name does. The
  only slip that may look like a word is a doubled letter, and then no part that carries the chemistry is touched;
- no part that carries the chemistry (``neighbours.csv``) becomes another one, and figures stay as printed.

A wrong identity costs more than a missing one.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

from formulate.catalog.names import name_key, name_words
from formulate.catalog.records import NameHit, NeighbourPart
from formulate.catalog.spellings import Spellings
from formulate.catalog.store import Catalog

SHORTEST_WORD = 5
"""Words shorter than this are never repaired within a name."""
FEWEST_VOWELS = 2
"""Words with fewer vowels are abbreviations, in which every letter stands for a word."""
LONGEST_ABBREVIATION = 8
"""A word in capitals of at most so many letters is an abbreviation too ('DEGBEA')."""
MOST_WORDS = 2
"""Words of a name that may hold a slip."""
_LOOK_ALIKE_SIGNS = "il ce uv iy mn gq ft ck sz"
_KEYBOARD = ("qwertyuiop", "asdfghjkl", "zxcvbnm")
_VOWELS = frozenset("aeiou")
_PREFIX_LETTERS = frozenset("nompstdlrze")
"""Letters that tell the place or the form in front of a name: n-, o-, m-, p-, s-, t-, d-, l-, (r)-, (z)-, (e)-."""
DOUBLED = "doubled"
_DIGIT = re.compile(r"\d")
_VOWEL = re.compile(r"[aeiouy]")
_LETTER_LIKE = {"0": "o", "1": "li", "5": "s", "8": "b", "6": "o"}
"""Figures that scanners print for letters."""


def _keyboard_neighbours() -> set[frozenset[str]]:
    pairs: set[frozenset[str]] = set()
    for row, keys in enumerate(_KEYBOARD):
        below = _KEYBOARD[row + 1] if row + 1 < len(_KEYBOARD) else ""
        for at, key in enumerate(keys):
            pairs.update(frozenset((key, other)) for other in (keys[at + 1 : at + 2], *below[max(0, at - 1) : at + 1]))
    return pairs


TAKEN_FOR: frozenset[frozenset[str]] = frozenset(
    pair
    for pair in {frozenset(pair) for pair in _LOOK_ALIKE_SIGNS.split()} | _keyboard_neighbours()
    if not pair <= _VOWELS
)
"""Letters that scanners and hands take for each other; no two vowels, which tell -ane from -ene and -one."""


class Dangerous(NamedTuple):
    """Patterns of the parts of names that carry the chemistry: anywhere in a word, and at its end."""

    anywhere: re.Pattern[str]
    ending: re.Pattern[str]

    def carried(self, word: str) -> tuple[Counter[str], str]:
        """The parts of a word that carry the chemistry, and its telling ending ('' if it has none)."""
        ending = self.ending.search(word)
        return Counter(self.anywhere.findall(word)), ending.group() if ending else ""

    def kept(self, typed: str, meant: str) -> bool:
        """Whether ``typed`` holds no part and no ending that ``meant`` lacks: a slip may break one, not change it."""
        parts, ending = self.carried(typed)
        meant_parts, meant_ending = self.carried(meant)
        return not parts - meant_parts and ending in {meant_ending, ""}


@lru_cache(maxsize=4)
def dangerous_parts(rows: tuple[NeighbourPart, ...]) -> Dangerous:
    """The patterns for a table of dangerous parts, longest part first."""
    longest = sorted(rows, key=lambda row: (-len(row.part), row.part))
    anywhere = "|".join(re.escape(row.part) for row in longest if row.where == "anywhere")
    ending = "|".join(re.escape(row.part) for row in longest if row.where == "ending")
    return Dangerous(re.compile(anywhere or r"(?!)"), re.compile(rf"(?:{ending})$" if ending else r"(?!)"))


def slip(typed: str, meant: str) -> str | None:
    """The one slip by which ``typed`` differs from ``meant``; None if there is no such slip.

    'doubled' (or the second of two equal letters lost), 'lost', 'added', 'swapped', 'taken for another'.

    >>> slip("carnaubba", "carnauba"), slip("xnathan", "xanthan"), slip("ethyl", "methyl"), slip("rat", "mat")
    ('doubled', 'swapped', 'lost', None)
    """
    start = 0
    while start < min(len(typed), len(meant)) and typed[start] == meant[start]:
        start += 1
    end = 0
    while end < min(len(typed), len(meant)) - start and typed[-1 - end] == meant[-1 - end]:
        end += 1
    left, right = typed[start : len(typed) - end], meant[start : len(meant) - end]
    if len(left) + len(right) == 1:
        if typed[start - 1 : start] == left + right:
            return DOUBLED
        return "added" if left else "lost"
    if len(left) == len(right) == 2 and left == right[::-1]:
        return "swapped"
    return "taken for another" if len(left) == len(right) == 1 and frozenset((left, right)) in TAKEN_FOR else None


def is_misspelling(typed: str, name: str, spellings: Spellings, dangerous: Dangerous) -> bool:
    """Whether ``typed`` can only be ``name`` with a slip in one word or two."""
    ours, theirs = name_words(typed), name_words(name)
    if len(ours) == len(theirs):
        changed = [(one, other) for one, other in zip(ours, theirs, strict=True) if one != other]
    elif _short(ours) == _short(theirs):  # a blank too many or too few beside the slip
        changed = [(name_key(typed), name_key(name))]
    else:
        return False
    return 1 <= len(changed) <= MOST_WORDS and all(_looks_misspelt(*pair, spellings, dangerous) for pair in changed)


def _looks_misspelt(typed: str, meant: str, spellings: Spellings, dangerous: Dangerous) -> bool:
    if min(len(typed), len(meant)) < SHORTEST_WORD or spellings.is_word(typed):
        return False
    if _DIGIT.search(meant) or len(_VOWEL.findall(meant)) < FEWEST_VOWELS:  # a formula, a code, an abbreviation
        return False
    if _DIGIT.search(typed):
        return _figures_for_letters(typed, meant)
    kind = slip(typed, meant)
    if meant in typed[1:] and typed[0] in _PREFIX_LETTERS:  # 'tdodecyl' is t-dodecyl
        return False
    if kind is not None and spellings.is_odd(typed, meant):
        return dangerous.kept(typed, meant)
    return kind == DOUBLED and dangerous.carried(typed) == dangerous.carried(meant)


def _figures_for_letters(typed: str, meant: str) -> bool:
    """Whether a scanner printed figures for the letters that look like them ('g1ycero1'), and changed nothing else."""
    return len(typed) == len(meant) and all(
        one == other or other in _LETTER_LIKE.get(one, "") for one, other in zip(typed, meant, strict=True)
    )


def _is_abbreviation(name: str) -> bool:
    return name.isupper() and len(name.split()) == 1 and len(name) <= LONGEST_ABBREVIATION


def _short(words: Sequence[str]) -> list[str]:
    return [word for word in words if len(word) <= 2]


class Repair(NamedTuple):
    """The name that a misspelt one must be, and in how many letters they differ."""

    hit: NameHit
    distance: int


def repaired(name: str, catalog: Catalog) -> Repair | None:
    """The name of the dataset that ``name`` misspells; None if there is none, or more than one ingredient is as near.

    A name that is as near but no mere misspelling counts as a rival too: what is torn between two is left alone.
    """
    spellings, dangerous = catalog.spellings, dangerous_parts(catalog.neighbours)
    near = [Repair(hit, distance) for key, distance in spellings.near(name_key(name)) for hit in catalog.by_key(key)]
    slips = [
        one
        for one in near
        if not _is_abbreviation(one.hit.name) and is_misspelling(name, one.hit.name, spellings, dangerous)
    ]
    if not slips:
        return None
    best = min(slips, key=lambda one: one.distance)
    rivals = {one.hit.ingredient for one in near if one.distance <= best.distance}
    return best if rivals == {best.hit.ingredient} else None
