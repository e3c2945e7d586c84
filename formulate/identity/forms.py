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
MOST_WORDS = 14
"""Words of a name that are looked through for a class word."""


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


def without_fillers(name: str, catalog: Catalog) -> str:
    """A name without words that only describe; empty if nothing was taken away or nothing is left."""
    words = name_words(name)[:MOST_WORDS]
    kept = [word for word in words if word not in catalog.fillers]
    return " ".join(kept) if kept and len(kept) < len(words) else ""


def without_function(name: str, catalog: Catalog) -> str:
    """A name without the word for its function behind it ('Avocado oil Polishing agent'), or the name as it is."""
    words = name.split()
    for taken in range(min(3, len(words) - 1), 0, -1):
        if catalog.is_function(" ".join(words[-taken:])):
            return " ".join(words[:-taken]).rstrip(" ,-|")
    return name


def withheld_rest(name: str, words: list[ClassWord]) -> tuple[ClassWord, str] | None:
    """If a name withholds ('proprietary surfactant'), the withholding word and what is left of the name."""
    text = " ".join(name.split())
    for word in words:
        found = re.search(rf"(?<!\w){re.escape(word.phrase)}(?!\w)", text, re.IGNORECASE)
        if found:
            rest = (text[: found.start()] + " " + text[found.end() :]).strip(" ,;:-()")
            return word, " ".join(rest.split())
    return None
