"""What the words of an unknown name betray of its class."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache

from formulate.catalog.names import name_words, plain_spelling
from formulate.catalog.records import ClassWord, WordForm
from formulate.catalog.store import Catalog

LONGEST = 300
"""Letters of a name that are looked through for word forms."""
_CLAUSE_BEHIND = re.compile(
    r"\s+(?:having|with|of\s(?:a\s)?viscosity|in|HLB|wherein|which|that|whose)\b.*$", re.IGNORECASE
)
_LETTERED = re.compile(r"^(?:[A-Z]|\d{1,2})\.\s+")
EMPTY_CELL: frozenset[str] = frozenset({"not available", "none listed", "other", "rest", "balance", "remainder"})
"""Withholding words that stand for an empty cell or an amount where a name stands beside them."""
MOST_WORDS = 14
"""Words of a name that are looked through for a class word."""
MOST_CLASS_WORDS = 5
"""Words of the longest class word that is looked for within a name."""
_LABEL = re.compile(r"^\s*\(?(?:[A-Za-z]|\d{1,2}|[ivx]{1,4})[.)]\s+")
_UNITS = (
    "oz|ounces?|pints?|quarts?|gallons?|cups?|tbsp|tsp|tablespoons?|teaspoons?|ml|cl|dl|lit(?:re|er)s?|g|grams?|kg"
    "|lbs?|pounds?|drops?|parts?"
)
_QUANTITY = re.compile(rf"[:,]?\s*\b\d{{1,4}}(?:[./]\d{{1,4}})?\s*(?:ish\s+)?(?:{_UNITS})\b\.?(?:\s+of\b)?", re.I)
_CLAUSE = "having|with|containing|comprising|wherein|which|whose|that|hlb|such as|selected from|based on|in|from|for"
_DESCRIBING = re.compile(rf"\b(?:{_CLAUSE}|of (?:viscosity|molecular weight|from)|(?:capable of|adapted to))\b", re.I)
_SOLUBILITY = "soluble|insoluble|based|borne|dispersible|miscible|free"
_SOLUBLE = re.compile(rf"\b(?:oil|water|solvent|alcohol|fat|acid|alkali)[ -]?(?:{_SOLUBILITY})\b", re.I)
_NUMBERED = re.compile(r"[A-Za-z]{4,}-\d")
"""A number tied to a word: one of a numbered series (polyquaternium-45), not the class."""
_AND = re.compile(r"\s*(?:,|;|&|\+|\b(?:and|und|et|e|y|i|oraz|en|и|или|or|oder|ou|lub|of)\b)\s*", re.IGNORECASE)


def form_fits(name: str, form: WordForm) -> bool:
    """Whether a word form stands in a name, spelling that carries no meaning put aside.

    ``suffix`` stands at the end of a word, ``prefix`` at its beginning, ``word`` is whole words, ``end`` is at the
    end of the name, ``whole`` the whole of it, ``contains`` anywhere; ``parts`` begin and end with a word. '#' is any
    number, '*' anything of at most 80 letters.
    """
    return _pattern(form.form, form.where).search(plain(name)) is not None


@lru_cache(maxsize=4096)
def plain(name: str) -> str:
    """A name in lower case without accents and rival spellings, cut to the length that is looked through."""
    return plain_spelling(name[:LONGEST])


@lru_cache(maxsize=8192)
def _pattern(form: str, where: str) -> re.Pattern[str]:
    """The form as a pattern; gaps are bounded, so that the search stays linear in the name."""
    pieces = (re.escape(piece).replace(re.escape("#"), r"\d{1,5}") for piece in plain_spelling(form).split("*"))
    start = r"(?<!\w)" if where in {"prefix", "word", "parts"} else r"\A\s*" if where == "whole" else ""
    end = r"(?!\w)" if where in {"suffix", "word", "parts"} else r"\s*\Z" if where in {"end", "whole"} else ""
    return re.compile(start + "(?s:.{0,80}?)".join(pieces) + end)


@lru_cache(maxsize=2)
def _by_beginning(catalog: Catalog) -> dict[str, list[tuple[int, WordForm]]]:
    """The forms of the table with their places, filed under their first letters (up to three, before any gap)."""
    filed: dict[str, list[tuple[int, WordForm]]] = {}
    for place, form in enumerate(catalog.word_forms):
        begins = re.split(r"[*#]", plain(form.form), maxsplit=1)[0][:3]
        filed.setdefault(begins, []).append((place, form))
    return filed


def betrayed_by(name: str, catalog: Catalog) -> WordForm | None:
    """The first word form of the table that stands in a name; only forms whose first letters it holds are tried."""
    text, filed = plain(name), _by_beginning(catalog)
    held = {text[at : at + length] for length in (1, 2, 3) for at in range(len(text))}
    likely = sorted(one for begins in held & filed.keys() for one in filed[begins])
    return next((form for _, form in likely if _pattern(form.form, form.where).search(text)), None)


def class_of_forms(name: str, catalog: Catalog) -> tuple[str, WordForm | None]:
    """Class of a name that is only partly understood: as an ingredient's name, as a class word, or by its forms."""
    if name:
        word = catalog.class_word(name)
        if word is not None:
            return word.class_, None
        hits = catalog.by_name(name)
        if hits:
            return catalog.ingredient(hits[0].ingredient).class_, None
    form = betrayed_by(name, catalog)
    return (form.class_, form) if form is not None else ("other", None)


def class_word_within(names: Iterable[str], catalog: Catalog) -> ClassWord | None:
    """The class that a phrase names ('a finely divided mild abrasive', 'a liquid silicone having a viscosity of 50').

    A list label, a quantity of a recipe, what follows a describing word, and adjectives of what it dissolves in are
    put aside. Then the longest class word counts if the other words only describe or name the same class; a phrase that
    strings several classes together is of the class 'other'.
    """
    for name in names:
        bare = _QUANTITY.sub(" ", _LABEL.sub("", name[:LONGEST]))
        if _NUMBERED.search(bare):
            continue
        for phrase in dict.fromkeys((bare, _DESCRIBING.split(bare, maxsplit=1)[0])):
            word = _class_word_among(name_words(_SOLUBLE.sub(" ", phrase))[:MOST_WORDS], catalog)
            if word is not None:
                return word
        several = _several_classes(bare, catalog)
        if several is not None:
            return several
    return None


def _class_word_among(words: tuple[str, ...], catalog: Catalog) -> ClassWord | None:
    """The longest class word among words of which the others only describe, or name the same class themselves."""
    for length in range(min(len(words), MOST_CLASS_WORDS), 0, -1):
        for start in range(len(words) - length + 1):
            word = catalog.class_word(" ".join(words[start : start + length]))
            if word is not None and word.how == "class-only":
                others = (*words[:start], *words[start + length :])
                if all(_adds_nothing(one, word, catalog) for one in others):
                    return word
    return None


def _adds_nothing(other: str, word: ClassWord, catalog: Catalog) -> bool:
    """Whether a word beside a class word only describes, or names a class of the same kind."""
    if other in catalog.fillers or other.isdigit():
        return True
    named = catalog.class_word(other)
    return named is not None and catalog.classes[named.class_].top == catalog.classes[word.class_].top


def _several_classes(phrase: str, catalog: Catalog) -> ClassWord | None:
    """A phrase of which every part is a class word or a name, and at least two are class words: several in one."""
    parts = [part for part in _AND.split(phrase) if part.strip()]
    if not 2 <= len(parts) <= MOST_WORDS:
        return None
    words = [catalog.class_word(part) for part in parts]
    named = [word for word in words if word is not None and word.how == "class-only"]
    unknown = [part for word, part in zip(words, parts, strict=True) if word is None and not catalog.by_name(part)]
    if len(named) < 2 or unknown:
        return None
    return named[0]._replace(phrase=phrase.strip(), class_="other")


def without_clause(name: str) -> str:
    """A name without the clause behind it that describes it ('liquid silicone having a viscosity of 50 cSt')."""
    return _CLAUSE_BEHIND.sub("", _LETTERED.sub("", name))


def without_fillers(name: str, catalog: Catalog) -> str:
    """A name without quantities of a recipe and words that only describe; empty if nothing was taken away or left."""
    words = name_words(name)[:MOST_WORDS]
    rest = name_words(_QUANTITY.sub(" ", name[:LONGEST]))[:MOST_WORDS]
    kept = [word for word in rest if word not in catalog.mere_fillers]
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
