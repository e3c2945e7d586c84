"""The ladder: numbers first, then names, then spelling, then what the words betray."""

from __future__ import annotations

from typing import NamedTuple

from stdnum import casrn
from stdnum.eu import ecnumber

from formulate.catalog.records import ClassWord, NameHit, WordForm
from formulate.catalog.store import Catalog
from formulate.domain.line import How, Line
from formulate.identity.forms import class_of_forms, withheld_rest
from formulate.identity.spelling import nearest_key, parts_pattern
from formulate.identity.variants import NameForms, name_forms

CONFIDENCE: dict[str, float] = {
    "cas": 0.99, "ec": 0.99, "name": 0.99, "synonym": 0.97, "pattern": 0.95, "words": 0.9, "spelling-1": 0.85,
    "spelling-2": 0.75,
}
"""Judged confidence of each rung; calibrated in a later issue."""


class Found(NamedTuple):
    """What a rung of the ladder found."""

    how: How
    confidence: float
    hits: tuple[NameHit, ...] = ()
    class_word: ClassWord | None = None
    form: WordForm | None = None
    class_: str = "other"
    tried: tuple[str, ...] = ()
    disagree: tuple[NameHit, ...] = ()
    looked_up: str = ""


def climb(line: Line, catalog: Catalog) -> tuple[Found, NameForms]:
    """Find what a line is. Never raises; what nothing explains is ``none``."""
    forms = name_forms(line.name)
    tried: list[str] = []
    by_name = _by_names(forms, catalog, tried)
    by_number = _by_number(line, catalog, tried)
    if by_number is not None:
        return _agree(by_number, by_name, catalog, tuple(tried)), forms
    found = by_name or _by_class_word(forms, catalog, tried) or _by_spelling(forms, catalog, tried)
    found = found or _by_form(forms, catalog, tried) or Found("none", 0.0)
    return found._replace(tried=tuple(tried)), forms


def _by_number(line: Line, catalog: Catalog, tried: list[str]) -> Found | None:
    checks = (("cas", line.cas, casrn.is_valid), ("ec", line.ec, ecnumber.is_valid))
    for kind, number, valid in checks:
        if not number:
            continue
        compact = number.replace(" ", "")
        if not valid(compact):
            tried.append(f"{kind.upper()} {number}: its check digit fails")
            continue
        hits = catalog.by_number(compact)
        tried.append(f"{kind.upper()} {number}" + ("" if hits else ": not in the dataset"))
        if hits:
            how: How = "cas" if kind == "cas" else "ec"
            return Found(how, CONFIDENCE[kind], tuple(hits), looked_up=compact)
    return None


def _agree(number: Found, name: Found | None, catalog: Catalog, tried: tuple[str, ...]) -> Found:
    """Number and name together: agreement, a name that is only more general, or a disagreement."""
    ids = {hit.ingredient for hit in number.hits}
    named = {hit.ingredient for hit in name.hits} if name else set()
    if name is None or not named:
        return number._replace(hits=(_most_general(number.hits, catalog),), tried=tried)
    if ids & named:
        both = tuple(hit for hit in number.hits if hit.ingredient in named)
        return number._replace(hits=(_most_general(both, catalog),), tried=tried)
    if all(_more_general(one, other, catalog) for one in named for other in ids):
        return number._replace(hits=(_most_general(number.hits, catalog),), tried=tried)
    return Found("none", 0.0, tried=(*tried, "number and name disagree"), disagree=(*number.hits, *name.hits))


def _most_general(hits: tuple[NameHit, ...], catalog: Catalog) -> NameHit:
    """Of several ingredients with one number the one with the widest class: a number alone does not say more."""
    return min(hits, key=lambda hit: len(catalog.classes[catalog.ingredient(hit.ingredient).class_].line))


def _more_general(one: str, other: str, catalog: Catalog) -> bool:
    """Whether ``one`` only names the class that ``other`` belongs to ('silica' beside the number of a fumed silica)."""
    wide = catalog.ingredient(one).class_
    return wide != catalog.ingredient(other).class_ and wide in catalog.classes[catalog.ingredient(other).class_].line


def _by_names(forms: NameForms, catalog: Catalog, tried: list[str]) -> Found | None:
    for form in forms.forms:
        hits = catalog.by_name(form)
        if hits:
            how: How = "name" if any(hit.kind in {"common", "inci"} for hit in hits) else "synonym"
            return _one_of(Found(how, CONFIDENCE[how], tuple(hits), looked_up=form))
        hits = catalog.by_pattern(form)
        if hits:
            return _one_of(Found("name", CONFIDENCE["pattern"], tuple(hits), looked_up=form))
    for form in forms.forms[:3]:
        hits = catalog.by_words(form)
        if hits and len({hit.ingredient for hit in hits}) == 1:
            return Found("synonym", CONFIDENCE["words"], tuple(hits[:1]), looked_up=form)
    tried.append("name")
    return None


def _one_of(found: Found) -> Found:
    """One name filed under several ingredients stays open between them."""
    if len({hit.ingredient for hit in found.hits}) == 1:
        return found._replace(hits=found.hits[:1])
    return Found("none", 0.0, disagree=found.hits, tried=("the name stands for more than one ingredient",))


def _by_class_word(forms: NameForms, catalog: Catalog, tried: list[str]) -> Found | None:
    for form in forms.forms:
        word = catalog.class_word(form)
        if word is not None:
            how: How = "class-only" if word.how == "class-only" else "withheld"
            return Found(how, 0.95, class_word=word, class_=word.class_, looked_up=form)
    rest = withheld_rest(forms.forms[0], catalog.withholding_words)
    if rest is not None:
        word, remainder = rest
        class_, form = class_of_forms(remainder, catalog)
        return Found("withheld", 0.95 if form is None else form.certainty, class_word=word, class_=class_, form=form,
                     looked_up=remainder)
    tried.append("class words")
    return None


def _by_spelling(forms: NameForms, catalog: Catalog, tried: list[str]) -> Found | None:
    parts = parts_pattern(catalog.neighbours)
    for form in forms.forms[1:2] or forms.forms[:1]:
        near = nearest_key(form, catalog.name_keys, parts)
        if not near:
            continue
        best = near[0][1]
        hits = [hit for key, distance in near if distance == best for hit in catalog.by_key(key)]
        if len({hit.ingredient for hit in hits}) == 1:
            return Found("spelling", CONFIDENCE[f"spelling-{best}" if best else "spelling-1"], tuple(hits[:1]), looked_up=form)
    tried.append("spelling")
    return None


def _by_form(forms: NameForms, catalog: Catalog, tried: list[str]) -> Found | None:
    class_, form = class_of_forms(forms.forms[0], catalog)
    if form is None:
        tried.append("word form")
        return None
    return Found("word-form", form.certainty, form=form, class_=class_, looked_up=forms.forms[0])
