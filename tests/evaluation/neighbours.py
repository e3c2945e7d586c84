"""How often is a substance that the dataset does not know taken for its dangerous neighbour?

    python tests/evaluation/neighbours.py [--all] [--seed N]

Pairs of names (A, B) from public inventories that lie one or two letters apart and bear different CAS numbers. For
each, A is put into the dataset, B and its words are taken out of it, and B is identified; then the other way round.
Wrong is a pair in which one came back as the other. The sample holds pairs that the table of dangerous parts does not
tell apart: first all that differ in letters, then pairs that differ in figures. ``--all`` tries every pair.
"""

from __future__ import annotations

import random
import sys
from collections import Counter
from collections.abc import Iterable
from functools import cached_property
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from formulate.catalog.names import name_key, name_words, word_key
from formulate.catalog.records import NameHit, NeighbourPart
from formulate.catalog.spellings import FARTHEST, SHORTEST, Spellings, letter_groups
from formulate.catalog.store import Catalog, data_root
from formulate.domain.place import Citation
from formulate.identity.ladder import climb
from formulate.identity.spelling import dangerous_parts
from tests.conftest import SHARED
from tests.evaluation.inventories import Pair, near_pairs, numbers_of_names
from tests.evaluation.material import as_lines

SAMPLE = 2000
PRETENDED = "pretended"
"""Id of the ingredient that a pretended name stands for."""


class Letters(Spellings):
    """The spellings of a dataset with one name put in and the words of another taken out."""

    def __init__(self, spellings: Spellings, known: str, gone: frozenset[str]) -> None:
        self._spellings, self._known, self._gone = spellings, known, gone
        self._left = Counter(group for word in gone for group in letter_groups(word))

    def near(self, key: str) -> list[tuple[str, int]]:
        from rapidfuzz.distance import OSA

        near = self._spellings.near(key)
        distance = OSA.distance(key, self._known)
        if len(key) >= SHORTEST <= len(self._known) and 0 < distance <= FARTHEST and key.isascii():
            near = [*(one for one in near if one[0] != self._known), (self._known, int(distance))]
        return near

    def is_word(self, word: str) -> bool:
        return word not in self._gone and self._spellings.is_word(word)

    def groups_like(self, group: str) -> int:
        return self._spellings.groups_like(group) - self._left[group]


class Pretended(Catalog):
    """The dataset as it were with one name more (``known``), one name less (``hidden``), or without dangerous parts."""

    without_table = False

    def pretend(self, known: str, hidden: str) -> None:
        """Put ``known`` in (empty: nothing) and take ``hidden`` out (empty: nothing)."""
        self.known, self.hidden = known, hidden
        self._known_key, self._hidden_key = name_key(known), name_key(hidden)
        gone = {word for word in name_words(hidden) if self.uses[word] == 1 and word not in name_words(known)}
        self._letters = Letters(super().spellings, self._known_key, frozenset(gone))

    @cached_property
    def uses(self) -> Counter[str]:
        """In how many names each word stands."""
        return Counter(word for (words,) in self._rows("select words from names") for word in set(words.split()))

    @property
    def spellings(self) -> Spellings:  # type: ignore[override]
        return self._letters

    @property
    def neighbours(self) -> tuple[NeighbourPart, ...]:  # type: ignore[override]
        return () if self.without_table else super().neighbours

    def _hit(self) -> NameHit:
        return NameHit(self.known, PRETENDED, "common", Citation(source="evaluation", at=""))

    def _seen(self, hits: list[NameHit], here: bool) -> list[NameHit]:
        if here and self.known:
            return [self._hit()]
        return [hit for hit in hits if name_key(hit.name) != self._hidden_key]

    def by_name(self, name: str) -> list[NameHit]:
        return self._seen(super().by_name(name), name_key(name) == self._known_key)

    def by_key(self, key: str) -> list[NameHit]:
        return self._seen(super().by_key(key), key == self._known_key)

    def by_words(self, name: str) -> list[NameHit]:
        return self._seen(super().by_words(name), word_key(name) == word_key(self.known))

    def class_word(self, phrase: str, exact: bool = False):
        if name_key(phrase) in {self._known_key, self._hidden_key}:
            return None
        return super().class_word(phrase, exact)


class Tried(NamedTuple):
    """How many pairs were tried, and those in which B came back as A."""

    tried: int
    wrong: tuple[str, ...]

    def line(self, title: str) -> str:
        """One line of the report, with the upper limit of the rate that this proves."""
        return f"{title:<74} {len(self.wrong)} wrong of {self.tried}; below {upper_limit(*self.counts):.5f} with 95 %"

    @property
    def counts(self) -> tuple[int, int]:
        return len(self.wrong), self.tried


def upper_limit(wrong: int, tried: int, level: float = 0.95) -> float:
    """Upper Clopper-Pearson limit of a rate, one-sided; for 0 of n about 3/n."""
    from scipy.stats import beta

    return float(beta.ppf(level, wrong + 1, tried - wrong)) if wrong < tried else 1.0


def in_table(pair: Pair, catalog: Catalog) -> bool:
    """Whether the table of dangerous parts tells the two names apart."""
    dangerous = dangerous_parts(catalog.neighbours)
    ones, others = name_words(pair.one), name_words(pair.other)
    whole = [(name_key(pair.one), name_key(pair.other))]
    changed = zip(ones, others, strict=True) if len(ones) == len(others) else whole
    return any(dangerous.carried(one) != dangerous.carried(other) for one, other in changed)


def sampled(pairs: list[Pair], catalog: Catalog, most: int, seed: int) -> list[Pair]:
    """Pairs that the table does not tell apart: those that differ in letters first, then in figures."""
    left = [pair for pair in pairs if not in_table(pair, catalog) and name_key(pair.one) != name_key(pair.other)]
    random.Random(seed).shuffle(left)
    return sorted(left, key=lambda pair: figures(pair.one) != figures(pair.other))[:most]


def figures(name: str) -> str:
    """The figures of a name, in order."""
    return "".join(sign for sign in name if sign.isdigit())


def taken_for(pairs: Iterable[Pair], catalog: Pretended) -> Tried:
    """Identify B with A in the dataset and B out of it, and A with B in and A out."""
    tried, wrong = 0, []
    for pair in pairs:
        if name_key(pair.one) == name_key(pair.other):
            continue
        tried += 1
        for known, typed in (pair, (pair.other, pair.one)):
            catalog.pretend(known, typed)
            found, _ = climb(as_lines([(typed, None, None, None, None)])[0], catalog)
            if any(hit.ingredient == PRETENDED for hit in found.hits):
                wrong.append(f"{typed} -> {known} ({found.how})")
                break
    return Tried(tried, tuple(wrong))


def taken_out(numbers: dict[str, frozenset[str]], catalog: Pretended) -> Tried:
    """Take each inventory name that the dataset has out of it; wrong is what is then found and bears another number.

    Families ('laureth-#') and grades are no mistake: their numbers are not those of one member.
    """
    tried, wrong = 0, []
    for name, own in numbers.items():
        catalog.pretend("", "")
        if not catalog.by_name(name):
            continue
        catalog.pretend("", name)
        found, _ = climb(as_lines([(name, None, None, None, None)])[0], catalog)
        tried += 1
        for hit in found.hits:
            borne = {row[0] for row in catalog._rows("select number from numbers where ingredient = ?", hit.ingredient)}
            if hit.kind != "pattern" and borne and not borne & own:
                wrong.append(f"{name} -> {hit.name} = {hit.ingredient} ({found.how})")
    return Tried(tried, tuple(wrong))


def main(arguments: list[str]) -> None:
    """Print the figures."""
    seed = int(arguments[arguments.index("--seed") + 1]) if "--seed" in arguments else 3
    catalog = Pretended(data_root())
    numbers = numbers_of_names(SHARED)
    pairs = near_pairs(numbers)
    keys = [pair for pair in pairs if name_key(pair.one) == name_key(pair.other)]
    print(f"{len(numbers)} names, {len(pairs)} pairs; {len(keys)} of them have the same letters and figures:")
    for pair in keys:
        print(f"    {pair.one} = {pair.other}")
    sample = sampled(pairs, catalog, SAMPLE, seed)
    runs = [(f"{len(sample)} pairs that are not in the table, both ways", sample, False),
            (f"the same, {len(sample)} pairs, without the table of parts", sample, True)]  # fmt: skip
    if "--all" in arguments:
        runs += [("every pair, both ways", pairs, False), ("every pair, without the table of parts", pairs, True)]
    for title, chosen, without_table in runs:
        catalog.without_table = without_table
        result = taken_for(chosen, catalog)
        print(result.line(title))
        for one in result.wrong:
            print("    " + one)
    if "--all" in arguments:
        catalog.without_table = False
        result = taken_out(numbers, catalog)
        print(result.line("each inventory name of the dataset taken out of it"))
        for one in result.wrong:
            print("    " + one)


if __name__ == "__main__":
    main(sys.argv[1:])
