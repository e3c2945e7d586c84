"""The ladder: numbers first, then names, then spelling, then what the words betray."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence

from formulate.catalog.names import name_key
from formulate.catalog.records import NameHit, WordForm
from formulate.catalog.store import Catalog
from formulate.domain.line import How, Line
from formulate.identity.agreement import settled
from formulate.identity.alternatives import MOST_PARTS, alternatives, class_with_examples, same_in_another_language
from formulate.identity.forms import (
    class_of_forms,
    class_word_within,
    withheld_beside,
    withheld_rest,
    without_clause,
    without_fillers,
    without_function,
)
from formulate.identity.found import BESIDE_UNKNOWN_NUMBER, CONFIDENCE, Found, left_open
from formulate.identity.numbers import read_numbers
from formulate.identity.settle import settle
from formulate.identity.spelling import dangerous_parts, repaired
from formulate.identity.structure import read_structure
from formulate.identity.variants import NameForms, name_forms

_STRAIGHT = re.compile(r"(?<![\w-])n-(?=[a-z])", re.IGNORECASE)
WITHIN = 0.8
"""Judged confidence of a name or class word that stands among words which only describe."""
GENERIC_KINDS: frozenset[str] = frozenset({"label", "generic-trade"})
"""Kinds of names that may stand for a family as well as for its usual member."""
MIN_PLURAL = 6
"""Names shorter than this are not tried as plurals, nor with 'n-' in front."""
MOST_SPELLINGS = 3
"""Forms of a name that are looked through for a misspelling."""
HEAD = 0.7
"""Judged confidence of the class that the last words of a name tell."""


def climb(line: Line, catalog: Catalog) -> tuple[Found, NameForms]:
    """Find what a line is. Never raises; what nothing explains is ``none``."""
    forms = name_forms(line.name)
    tried: list[str] = []
    by_class = _by_class_word(forms, catalog, [], exact=True)
    by_name = None if by_class is not None else _by_names(forms, catalog, tried)
    numbers = read_numbers(line, catalog, tried)
    known = [one for one in numbers if one.hits]
    if known:
        if by_class is None and by_name is None:
            by_name = _first_of(_NAME_RUNGS, forms, catalog, [])
        held = settle(known, by_class, by_name, catalog)
        return held._replace(tried=(*tried, *held.tried)), forms
    found = by_class or by_name or _first_of(_RUNGS, forms, catalog, tried)
    if found is None:
        return Found("none", 0.0, tried=tuple(tried)), forms
    if numbers and found.hits:
        tried.append("the number is in no table, the name decides")
        found = found._replace(confidence=min(found.confidence, BESIDE_UNKNOWN_NUMBER))
    return found._replace(tried=(*tried, *found.tried)), forms


def _by_names(forms: NameForms, catalog: Catalog, tried: list[str]) -> Found | None:
    for form in forms.forms:
        hits = catalog.by_name(form)
        if hits:
            withheld = _generic_and_withheld(forms, form, hits, catalog)
            if withheld is not None:
                return withheld
            how: How = "name" if any(hit.kind in {"common", "inci"} for hit in hits) else "synonym"
            return _with_bracket(_one_of(Found(how, CONFIDENCE[how], tuple(hits), looked_up=form)), forms, catalog)
        hits = catalog.by_pattern(form)
        if hits:
            return _one_of(Found("name", CONFIDENCE["pattern"], tuple(hits), looked_up=form))
        for near in _near_forms(form, catalog):
            hits = [hit for hit in catalog.by_name(near) if _straight_alike(hit.name, near)]
            if hits:
                return _one_of(Found("synonym", CONFIDENCE["words"], tuple(hits), looked_up=near))
    if forms.annotation and (catalog.class_word(forms.forms[-1]) or catalog.is_function(forms.forms[-1])):
        hits = catalog.by_name(forms.annotation)  # "preservative (benzisothiazolinone)"
        if hits:
            return _one_of(Found("name", CONFIDENCE["name"], tuple(hits), looked_up=forms.annotation))
    between = _by_parts(forms, catalog)
    if between is not None:
        return between
    for form in forms.forms[:3]:
        hits = catalog.by_words(form)
        if hits and len({hit.ingredient for hit in hits}) == 1:
            return Found("synonym", CONFIDENCE["words"], tuple(hits[:1]), looked_up=form)
    tried.append("name")
    return None


def _with_bracket(found: Found, forms: NameForms, catalog: Catalog) -> Found:
    """A name whose bracket holds the name of something else ('Lye (potassium hydroxide)') stays open between both."""
    if not forms.annotation or not found.hits or found.looked_up == forms.forms[0]:
        return found
    inside = tuple(catalog.by_name(forms.annotation) or catalog.by_pattern(forms.annotation))
    same = {hit.ingredient for hit in inside} & {hit.ingredient for hit in found.hits}
    if not inside or same or settled(found.hits, inside, catalog) != "neither":
        return found
    return left_open(found.hits + inside, "the bracket names something else")


def _straight_alike(filed: str, form: str) -> bool:
    """Whether a name filed with or without 'n-' is meant, and not one that only begins with that letter ('NPE')."""
    return bool(_STRAIGHT.search(filed)) == bool(_STRAIGHT.search(form))


def _generic_and_withheld(forms: NameForms, form: str, hits: list[NameHit], catalog: Catalog) -> Found | None:
    """'Alkyl glucoside, withheld': a word of labels that stands for a family, beside a word that withholds the rest."""
    if any(hit.kind not in GENERIC_KINDS for hit in hits):
        return None
    word = withheld_beside(forms.forms[0], form, catalog)
    record = catalog.ingredient(hits[0].ingredient)
    if word is None or record.kind == "substance":
        return None
    return Found("withheld", CONFIDENCE["class-word"], class_word=word, class_=record.class_, looked_up=form)


def _near_forms(form: str, catalog: Catalog) -> Iterator[str]:
    """Forms that say the same: the straight chain named or left unnamed ('n-'), plural as singular.

    The plural of a chemical word is a class or a mixture ('glycerides', 'xylenes'), not the same thing twice.
    """
    if len(form) < MIN_PLURAL:
        return
    yield "n-" + form
    if _STRAIGHT.search(form):
        yield _STRAIGHT.sub("", form)
    for ending in ("es", "s"):
        if form.endswith(ending):
            singular = form.removesuffix(ending)
            parts, telling = dangerous_parts(catalog.neighbours).carried(name_key(singular.split()[-1]))
            if not parts and not telling:
                yield singular


def _by_parts(forms: NameForms, catalog: Catalog) -> Found | None:
    """Several names of one thing between slashes ('Aqua/Water/Eau'): none of anything else, and at least two
    known, or one that the others repeat in another language, as in the cells of a table."""
    if len(forms.parts) < 2:
        return None
    found = [(part, catalog.by_name(part) or catalog.by_pattern(part)) for part in forms.parts]
    known = [(part, hits) for part, hits in found if hits]
    if len({hit.ingredient for _, hits in known for hit in hits}) != 1:
        return None
    if len(known) < 2:
        others = [part for part, hits in found if not hits]
        if (
            not forms.cells
            or len(found) > MOST_PARTS
            or not all(_says_the_same(*known[0], other, forms, catalog) for other in others)
        ):
            return None
    return Found(
        "name" if len(known) > 1 else "synonym",
        CONFIDENCE["name" if len(known) > 1 else "words"],
        (known[0][1][0],),
        looked_up=forms.parts[0],
    )


def _says_the_same(part: str, hits: list[NameHit], other: str, forms: NameForms, catalog: Catalog) -> bool:
    """Whether an unknown part repeats the known one in another language or, behind a semicolon, by its class."""
    if same_in_another_language(part, other):
        return True
    class_, _ = class_of_forms(other, catalog)
    return ";" in forms.forms[0] and class_ == catalog.ingredient(hits[0].ingredient).class_


def _by_alternatives(forms: NameForms, catalog: Catalog, tried: list[str]) -> Found | None:
    """'A or B', 'A/B', 'a class, e.g. A': one ingredient if every part is the same, else nothing is settled."""
    word = class_with_examples(forms.forms[0], catalog)
    if word is not None and word.how == "class-only":
        return Found("class-only", CONFIDENCE["class-word"], class_word=word, class_=word.class_, looked_up=word.phrase)
    found = alternatives(forms, catalog)
    if found is None:
        return None
    if found.one:
        return Found("synonym", CONFIDENCE["words"], found.hits[:1], looked_up=forms.forms[0])
    return left_open(found.hits, "the text leaves open which one it is")


def _by_structure(forms: NameForms, catalog: Catalog, tried: list[str]) -> Found | None:
    """A SMILES string in place of a name: the ingredient with that structure, or the class it betrays."""
    found = read_structure(forms.forms[0], catalog)
    if found is None:
        return None
    if found.ingredient is not None:
        record = catalog.ingredient(found.ingredient)
        hit = NameHit(record.smiles, record.id, "smiles", record.citation)
        return Found("structure", CONFIDENCE["structure"], (hit,), looked_up=forms.forms[0])
    tried.append(found.said or "structure: not in the dataset")
    if found.described is None:
        return None
    if found.row is None:
        return Found("word-form", 0.0, class_=found.class_, looked_up=forms.forms[0], structure=found)
    form = WordForm(found.row.smarts, "structure", found.class_, found.row.certainty, found.row.citation)
    return Found("word-form", form.certainty, form=form, class_=found.class_, looked_up=forms.forms[0], structure=found)


def _by_name_and_function(forms: NameForms, catalog: Catalog, tried: list[str]) -> Found | None:
    """A name with the word for its function run on behind it ('Dimethicone Film former')."""
    rest = without_function(forms.forms[-1], catalog)
    if rest != forms.forms[-1] and catalog.class_word(rest, exact=True) is None:
        hits = catalog.by_name(rest) or catalog.by_pattern(rest)
        if len({hit.ingredient for hit in hits}) == 1:
            return Found("synonym", CONFIDENCE["words"], tuple(hits[:1]), looked_up=rest)
    return None


def _by_name_within(forms: NameForms, catalog: Catalog, tried: list[str]) -> Found | None:
    """A name among words that only describe ('filtered water', 'water on the order of')."""
    rest = without_fillers(forms.forms[0], catalog)
    hits = catalog.by_name(rest) if rest else []
    if rest and len({hit.ingredient for hit in hits}) == 1:
        return Found("synonym", WITHIN, tuple(hits[:1]), looked_up=rest)
    return None


def _by_head_word(forms: NameForms, catalog: Catalog, tried: list[str]) -> Found | None:
    """The last words of a name as a class word ('oil soluble dye'): a guess, and no more than a class."""
    words = without_function(forms.forms[0], catalog).split()
    parts = dangerous_parts(catalog.neighbours).anywhere
    for taken in range(min(3, len(words) - 1), 0, -1):
        word = catalog.class_word(" ".join(words[-taken:]))
        if word is not None and word.how == "class-only":
            chemical = parts.search(name_key(" ".join(words[:-taken]))) is not None
            class_, form = class_of_forms(" ".join(words), catalog)
            narrower = form is not None and word.class_ in catalog.classes[class_].line
            return Found(
                "word-form" if chemical else "class-only",
                HEAD,
                class_word=word,
                form=form if narrower else None,
                class_=class_ if narrower else word.class_,
                looked_up=word.phrase,
            )
    return None


def _one_of(found: Found) -> Found:
    """One name filed under several ingredients stays open between them."""
    if len({hit.ingredient for hit in found.hits}) == 1:
        return found._replace(hits=found.hits[:1])
    return Found("none", 0.0, disagree=found.hits, tried=("the name stands for more than one ingredient",))


def _by_class_word(forms: NameForms, catalog: Catalog, tried: list[str], exact: bool = False) -> Found | None:
    """The name as a class word; ``exact`` looks at the whole name only: ingredients go before plurals."""
    filed = exact and bool(catalog.by_name(forms.forms[0]))  # 'silicone fluid 50 cs' says more than 'silicone fluid'
    whole = forms.forms[:1] if forms.annotation or filed else (forms.forms[0], forms.forms[-1])
    for form in whole if exact else forms.forms:
        word = catalog.class_word(form, exact)
        if word is not None:
            beside = withheld_beside(forms.forms[0], form, catalog)
            how: How = "class-only" if word.how == "class-only" and beside is None else "withheld"
            said = beside or word
            return Found(how, CONFIDENCE["class-word"], class_word=said, class_=word.class_, looked_up=form)
    if exact:
        return None
    plain = forms.forms[1:2] or forms.forms[:1]
    bare = [without_clause(name) for name in plain] + [without_function(name, catalog) for name in plain]
    within = class_word_within((*plain, *bare), catalog)
    if within is not None:
        return Found("class-only", WITHIN, class_word=within, class_=within.class_, looked_up=within.phrase)
    rest = withheld_rest(forms.forms[0], catalog.withholding_words)
    if rest is not None:
        word, remainder = rest
        class_, betrayed = class_of_forms(remainder, catalog)
        return Found(
            "withheld",
            CONFIDENCE["class-word"] if betrayed is None else betrayed.certainty,
            class_word=word,
            class_=class_,
            form=betrayed,
            looked_up=remainder,
        )
    tried.append("class words")
    return None


def _by_spelling(forms: NameForms, catalog: Catalog, tried: list[str]) -> Found | None:
    for form in forms.forms[:MOST_SPELLINGS]:
        repair = repaired(form, catalog)
        if repair is not None:
            found = Found("spelling", CONFIDENCE[f"spelling-{repair.distance}"], (repair.hit,), looked_up=form)
            return _with_bracket(found, forms, catalog)
    tried.append("spelling")
    return None


def _by_form(forms: NameForms, catalog: Catalog, tried: list[str]) -> Found | None:
    class_, form = class_of_forms(without_function(forms.forms[0], catalog), catalog)
    if form is None:
        tried.append("word form")
        return None
    return Found("word-form", form.certainty, form=form, class_=class_, looked_up=forms.forms[0])


Rung = Callable[[NameForms, Catalog, list[str]], Found | None]
_NAME_RUNGS: tuple[Rung, ...] = (_by_alternatives, _by_name_and_function, _by_name_within, _by_spelling)
"""Rungs that find a substance where the name does not stand in the dataset as printed."""
_RUNGS: tuple[Rung, ...] = (
    _by_structure,
    _by_alternatives,
    _by_name_and_function,
    _by_class_word,
    _by_name_within,
    _by_spelling,
    _by_head_word,
    _by_form,
)


def _first_of(rungs: Sequence[Rung], forms: NameForms, catalog: Catalog, tried: list[str]) -> Found | None:
    for rung in rungs:
        found = rung(forms, catalog, tried)
        if found is not None:
            return found
    return None
