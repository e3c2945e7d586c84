"""The ladder: numbers first, then names, then spelling, then what the words betray."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import NamedTuple

from formulate.catalog.names import name_key
from formulate.catalog.records import ClassWord, NameHit, WordForm
from formulate.catalog.store import Catalog
from formulate.domain.line import How, Line
from formulate.identity.forms import class_of_forms, class_word_within, withheld_rest, without_fillers, without_function
from formulate.identity.spelling import dangerous_parts, repaired
from formulate.identity.structure import read_structure
from formulate.identity.variants import NameForms, name_forms

CONFIDENCE: dict[str, float] = {
    "cas": 0.99,
    "ec": 0.99,
    "name": 0.99,
    "synonym": 0.97,
    "pattern": 0.95,
    "words": 0.9,
    "structure": 0.97,
    "spelling-1": 0.85,
    "spelling-2": 0.75,
}
"""Judged confidence of each rung; calibrated in a later issue."""

_STRAIGHT = re.compile(r"(?<![\w-])n-(?=[a-z])", re.IGNORECASE)
WITHIN = 0.8
"""Judged confidence of a name or class word that stands among words which only describe."""
MIN_PLURAL = 6
"""Names shorter than this are not tried as plurals."""
MOST_SPELLINGS = 3
"""Forms of a name that are looked through for a misspelling."""
SOLID_WORDS: frozenset[str] = frozenset({"silane", "silicone", "wax", "silica"})
"""Classes whose words say so much that another number contradicts them."""
HEAD = 0.7
"""Judged confidence of the class that the last words of a name tell."""


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
    by_class = _by_class_word(forms, catalog, [], exact=True)
    by_name = None if by_class is not None else _by_names(forms, catalog, tried)
    by_number = _by_number(line, catalog, tried)
    if by_number is not None:
        if by_class is not None and _contradicts(by_class.class_, by_number.hits, catalog):
            said = (*tried, "number and class word disagree")
            return Found("none", 0.0, tried=said, disagree=by_number.hits, class_word=by_class.class_word), forms
        return _agree(by_number, by_name, catalog, tuple(tried)), forms
    found = by_class or by_name
    for rung in (
        _by_structure,
        _by_name_and_function,
        _by_class_word,
        _by_name_within,
        _by_spelling,
        _by_head_word,
        _by_form,
    ):
        found = found or rung(forms, catalog, tried)
    return (found or Found("none", 0.0))._replace(tried=tuple(tried)), forms


def _by_number(line: Line, catalog: Catalog, tried: list[str]) -> Found | None:
    for kind, number in (("cas", line.cas), ("ec", line.ec)):
        if not number:
            continue
        compact = number.replace(" ", "")
        if not _valid(kind, compact):
            tried.append(f"{kind.upper()} {number}: its check digit fails")
            continue
        hits = catalog.by_number(compact)
        tried.append(f"{kind.upper()} {number}" + ("" if hits else ": not in the dataset"))
        if hits:
            how: How = "cas" if kind == "cas" else "ec"
            return Found(how, CONFIDENCE[kind], tuple(hits), looked_up=compact)
    return None


def _valid(kind: str, number: str) -> bool:
    from stdnum import casrn
    from stdnum.eu import ecnumber

    return bool(casrn.is_valid(number) if kind == "cas" else ecnumber.is_valid(number))


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
    if all(_kin(one, other, catalog) for one in named for other in ids):
        return name._replace(tried=tried)
    return Found("none", 0.0, tried=(*tried, "number and name disagree"), disagree=(*number.hits, *name.hits))


def _contradicts(class_: str, hits: tuple[NameHit, ...], catalog: Catalog) -> bool:
    """Whether a word for a silane, silicone, wax or silica stands beside the number of something that is none."""
    named = catalog.classes[class_].top
    numbered = {catalog.classes[catalog.ingredient(hit.ingredient).class_].top for hit in hits}
    return named in SOLID_WORDS and numbered <= SOLID_WORDS | {"solvent", "water"} and named not in numbered


def _most_general(hits: tuple[NameHit, ...], catalog: Catalog) -> NameHit:
    """Of several ingredients with one number the one with the widest class: a number alone does not say more."""

    def width(hit: NameHit) -> tuple[int, bool]:
        record = catalog.ingredient(hit.ingredient)
        return len(catalog.classes[record.class_].line), record.kind != "substance"

    return min(hits, key=width)


def _kin(one: str, other: str, catalog: Catalog) -> bool:
    """Whether two entries are grades of one thing: a number does not fix a petroleum cut or a polymer grade."""
    first, second = catalog.ingredient(one), catalog.ingredient(other)
    graded = {"mixture", "polymer", "natural", "dispersion"}
    return first.class_ == second.class_ and first.kind in graded and second.kind in graded


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
        for near in _near_forms(form, catalog):
            hits = catalog.by_name(near)
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


def _near_forms(form: str, catalog: Catalog) -> Iterator[str]:
    """Forms that say the same: the straight chain named or left unnamed ('n-'), plural as singular.

    The plural of a chemical word is a class or a mixture ('glycerides', 'xylenes'), not the same thing twice.
    """
    yield "n-" + form
    if _STRAIGHT.search(form):
        yield _STRAIGHT.sub("", form)
    for ending in ("es", "s"):
        if form.endswith(ending) and len(form) > MIN_PLURAL:
            singular = form.removesuffix(ending)
            parts, telling = dangerous_parts(catalog.neighbours).carried(name_key(singular.split()[-1]))
            if not parts and not telling:
                yield singular


def _by_parts(forms: NameForms, catalog: Catalog) -> Found | None:
    """Several names of one thing between slashes ('Aqua/Water/Eau'): none of anything else, and at least two
    known, or one where blanks stand around the slashes as between the cells of a table."""
    known = [hits for part in forms.parts if (hits := catalog.by_name(part) or catalog.by_pattern(part))]
    ids = {hit.ingredient for hits in known for hit in hits}
    if len(ids) != 1 or (len(known) < 2 and not forms.cells):
        return None
    return Found(
        "name" if len(known) > 1 else "synonym",
        CONFIDENCE["name" if len(known) > 1 else "words"],
        (known[0][0],),
        looked_up=forms.parts[0],
    )


def _by_structure(forms: NameForms, catalog: Catalog, tried: list[str]) -> Found | None:
    """A SMILES string in place of a name: the ingredient with that structure, or the class it betrays."""
    found = read_structure(forms.forms[0], catalog)
    if found is None:
        return None
    if found.ingredient is not None:
        record = catalog.ingredient(found.ingredient)
        hit = NameHit(record.smiles, record.id, "smiles", record.citation)
        return Found("structure", CONFIDENCE["structure"], (hit,), looked_up=forms.forms[0])
    tried.append("structure: not in the dataset")
    if found.row is None:
        return None
    form = WordForm(found.row.smarts, "structure", found.class_, found.row.certainty, found.row.citation)
    return Found("word-form", form.certainty, form=form, class_=found.class_, looked_up=forms.forms[0])


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
    whole = (forms.forms[0],) if forms.annotation else (forms.forms[0], forms.forms[-1])
    for form in whole if exact else forms.forms:
        word = catalog.class_word(form, exact)
        if word is not None:
            how: How = "class-only" if word.how == "class-only" else "withheld"
            return Found(how, 0.95, class_word=word, class_=word.class_, looked_up=form)
    if exact:
        return None
    within = class_word_within(forms.forms[1:2] or forms.forms[:1], catalog)
    if within is not None:
        return Found("class-only", WITHIN, class_word=within, class_=within.class_, looked_up=within.phrase)
    rest = withheld_rest(forms.forms[0], catalog.withholding_words)
    if rest is not None:
        word, remainder = rest
        class_, betrayed = class_of_forms(remainder, catalog)
        return Found(
            "withheld",
            0.95 if betrayed is None else betrayed.certainty,
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
            return Found("spelling", CONFIDENCE[f"spelling-{repair.distance}"], (repair.hit,), looked_up=form)
    tried.append("spelling")
    return None


def _by_form(forms: NameForms, catalog: Catalog, tried: list[str]) -> Found | None:
    class_, form = class_of_forms(without_function(forms.forms[0], catalog), catalog)
    if form is None:
        tried.append("word form")
        return None
    return Found("word-form", form.certainty, form=form, class_=class_, looked_up=forms.forms[0])
