"""What the words of an unknown name betray of its class."""

from __future__ import annotations

import re

from formulate.catalog.records import ClassWord, WordForm
from formulate.catalog.store import Catalog


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
        return re.search(rf"{re.escape(form.form)}\d", text) is not None
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


def withheld_rest(name: str, words: list[ClassWord]) -> tuple[ClassWord, str] | None:
    """If a name withholds ('proprietary surfactant'), the withholding word and what is left of the name."""
    text = " ".join(name.split())
    for word in words:
        found = re.search(rf"(?<!\w){re.escape(word.phrase)}(?!\w)", text, re.IGNORECASE)
        if found:
            rest = (text[: found.start()] + " " + text[found.end():]).strip(" ,;:-()")
            return word, " ".join(rest.split())
    return None
