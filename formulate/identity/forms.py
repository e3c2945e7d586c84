"""What the words of an unknown name betray of its class."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

from formulate.catalog.names import name_words
from formulate.catalog.records import ClassWord, WordForm
from formulate.catalog.store import Catalog

_CLAUSE = re.compile(r"\s+(?:having|with|of\s(?:a\s)?viscosity|in|HLB|wherein|which|that|whose)\b.*$", re.IGNORECASE)
_LETTERED = re.compile(r"^(?:[A-Z]|\d{1,2})\.\s+")
EMPTY_CELL: frozenset[str] = frozenset({"not available", "none listed", "other", "rest", "balance", "remainder"})
"""Withholding words that stand for an empty cell or an amount where a name stands beside them."""
MOST_WORDS = 14
"""Words of a name that are looked through for a class word."""


def form_fits(name: str, form: WordForm) -> bool:
    """Whether a word form stands in a name (compared case-folded)."""
    text = name.casefold()
    if form.where == "suffix":
        return any(word.endswith(form.form) for word in re.split(r"[\s,;()/]+", text))
    if form.where == "prefix":
        return any(word.startswith(form.form) for word in re.split(r"[\s,;()/]+", text))
    if form.where == "word":
        return re.search(rf"(?<!\w){re.escape(form.form)}(?!\w)", text) is not None
    if form.where == "ethoxylate-number":
        return re.search(re.escape(form.form).replace(re.escape("#"), r"\d"), text) is not None
    return form.form in text


def class_of_forms(name: str, catalog: Catalog) -> tuple[str, WordForm | None]:
    """Class of a name that is only partly understood: as an ingredient's name, as a class word, or by its forms."""
    if name:
        word = catalog.class_word(name)
        if word is not None:
            return word.class_, None
        hits = catalog.by_name(name)
        if hits:
            return catalog.ingredient(hits[0].ingredient).class_, None
    for form in catalog.word_forms:
        if form_fits(name, form):
            return form.class_, form
    return "other", None


def class_word_within(names: Iterable[str], catalog: Catalog) -> ClassWord | None:
    """The longest class word in a name whose other words only describe ('a finely divided mild abrasive')."""
    for name in names:
        words = name_words(name)[:MOST_WORDS]
        for length in range(min(len(words), 5), 0, -1):
            for start in range(len(words) - length + 1):
                word = catalog.class_word(" ".join(words[start : start + length]))
                others = (*words[:start], *words[start + length :])
                if (
                    word is not None
                    and word.how == "class-only"
                    and all(one in catalog.fillers or one.isdigit() for one in others)
                ):
                    return word
    return None


def without_clause(name: str) -> str:
    """A name without the clause behind it that describes it ('liquid silicone having a viscosity of 50 cSt')."""
    return _CLAUSE.sub("", _LETTERED.sub("", name))


def without_fillers(name: str, catalog: Catalog) -> str:
    """A name without words that only describe; empty if nothing was taken away or nothing is left."""
    words = name_words(name)[:MOST_WORDS]
    kept = [word for word in words if word not in catalog.mere_fillers]
    return " ".join(kept) if kept and len(kept) < len(words) else ""


def without_function(name: str, catalog: Catalog) -> str:
    """A name without the word for its function behind it ('Avocado oil Polishing agent'), or the name as it is."""
    words = name.split()
    for taken in range(min(3, len(words) - 1), 0, -1):
        if catalog.is_function(" ".join(words[-taken:])):
            return " ".join(words[:-taken]).rstrip(" ,-|")
    return name


@lru_cache(maxsize=4)
def _withholding(phrases: tuple[str, ...]) -> re.Pattern[str]:
    return re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, phrases))})(?!\w)", re.IGNORECASE)


def withheld_rest(name: str, words: list[ClassWord]) -> tuple[ClassWord, str] | None:
    """If a name withholds ('proprietary surfactant'), the withholding word and what is left of the name.

    ``words`` longest first; of several in a name the first one printed counts.
    """
    text = " ".join(name.split())
    found = _withholding(tuple(word.phrase for word in words)).search(text) if words else None
    if found is None:
        return None
    rest = (text[: found.start()] + " " + text[found.end() :]).strip(" ,;:-()")
    said = found.group().casefold()
    return next(word for word in words if word.phrase.casefold() == said), " ".join(rest.split())


def withheld_beside(name: str, looked_up: str, catalog: Catalog) -> ClassWord | None:
    """The word that withholds beside a name ('Acrylic polymer, trade secret'); an empty cell withholds nothing."""
    found = withheld_rest(name, catalog.withholding_words) if looked_up != name else None
    return found[0] if found and found[0].phrase.casefold() not in EMPTY_CELL else None
