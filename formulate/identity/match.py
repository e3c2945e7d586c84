"""Lines to matches, each with its reasons."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from formulate.catalog.store import Catalog
from formulate.domain.edit import Edit
from formulate.domain.line import Line, Match
from formulate.domain.reason import Ledger
from formulate.identity.found import Found
from formulate.identity.given import given_properties
from formulate.identity.ladder import climb
from formulate.identity.variants import NameForms, name_forms

HOW_SAID: dict[str, str] = {
    "structure": "the structure given",
    "cas": "its CAS number",
    "ec": "its EC number",
    "name": "a name of it",
    "synonym": "another name of it",
    "spelling": "the nearest spelling, no part that carries the chemistry being touched",
}

SURE = 0.75
"""Confidence from which a class that the text names counts as told, not guessed."""
SHARED_CLASS = 0.9
"""Confidence in the class that two disagreeing candidates share. Judged."""


def identify(
    lines: Sequence[Line], pasted: Mapping[str, str], ledger: Ledger, catalog: Catalog, edits: Sequence[Edit] = ()
) -> tuple[tuple[Match, ...], tuple[str, ...]]:
    """Which ingredient each line is.

    Parameters
    ----------
    lines, pasted
        The lines, and for each line id the id of the reason that it was pasted.
    ledger, catalog
        The ledger that takes the reasons of this room; the dataset.
    edits
        Corrections in force; those with field ``ingredient`` or ``name`` act here.

    Returns
    -------
    matches, reasons
        One match and one reason id for each line, in order.
    """
    corrected = {edit.target: edit for edit in edits if edit.field in {"ingredient", "name"}}
    matches, reasons = [], []
    for line in lines:
        edit = corrected.get(line.id)
        match, why = (
            _corrected(line, edit, pasted[line.id], ledger, catalog)
            if edit is not None and edit.value
            else _matched(line, *climb(line, catalog), pasted[line.id], ledger, catalog)
        )
        matches.append(match)
        reasons.append(why)
    return tuple(matches), tuple(reasons)


def _corrected(line: Line, edit: Edit, pasted: str, ledger: Ledger, catalog: Catalog) -> tuple[Match, str]:
    """What a person said a line is: an id of the dataset, or a name that is looked up like any other."""
    said = ledger.add(
        "corrected",
        "You said that line {position} is “{value}”{note}.",
        {"position": line.position, "value": edit.value, "note": f" ({edit.note})" if edit.note else ""},
        because=(pasted,),
    )
    value = edit.value or ""
    try:
        ingredient = catalog.ingredient(value)
    except KeyError:
        renamed = line.model_copy(update={"name": value, "cas": None, "ec": None})
        match, why = _matched(renamed, *climb(renamed, catalog), said, ledger, catalog)
        return match.model_copy(update={"how": "corrected" if match.ingredient else match.how}), why
    record = ledger.add(
        "looked-up",
        "{name}: {class_title}.",
        {"name": ingredient.name, "class_title": catalog.classes[ingredient.class_].title},
        citations=(ingredient.citation,),
    )
    forms = name_forms(line.name)
    match = Match.model_construct(
        how="corrected",
        confidence=1.0,
        ingredient=ingredient.id,
        class_=ingredient.class_,
        name_read=value,
        viscosity_mm2_s=forms.viscosity,
        number=forms.number,
    )
    why = ledger.add(
        "calculated",
        "Line {position} is {name}, because you said so.",
        {"position": line.position, "name": ingredient.name},
        because=(said, record),
    )
    return match, why


def _matched(
    line: Line, found: Found, forms: NameForms, pasted: str, ledger: Ledger, catalog: Catalog
) -> tuple[Match, str]:
    common = Match.model_construct(
        how="none",
        confidence=0.0,
        name_read=line.name,
        tried=found.tried,
        viscosity_mm2_s=forms.viscosity,
        number=forms.number,
    )
    if found.hits:
        hit = found.hits[0]
        ingredient = catalog.ingredient(hit.ingredient)
        filed = ledger.add(
            "looked-up",
            "“{filed}” is filed under {name} ({class_title}).",
            {"filed": hit.name, "name": ingredient.name, "class_title": catalog.classes[ingredient.class_].title},
            citations=(hit.citation,),
        )
        why = ledger.add(
            "calculated",
            "Line {position} is {name}, found by {how}, {confidence:.2f} sure.",
            {
                "position": line.position,
                "name": ingredient.name,
                "how": HOW_SAID[found.how],
                "confidence": found.confidence,
            },
            because=(pasted, filed),
        )
        return common.model_copy(
            update={
                "how": found.how,
                "confidence": found.confidence,
                "ingredient": ingredient.id,
                "class_": ingredient.class_,
            }
        ), why
    if found.disagree:
        return _disagreeing(line, found, pasted, ledger, catalog, common)
    return _unidentified(line, found, pasted, ledger, catalog, common)


def _disagreeing(
    line: Line, found: Found, pasted: str, ledger: Ledger, catalog: Catalog, common: Match
) -> tuple[Match, str]:
    candidates = tuple(dict.fromkeys(hit.ingredient for hit in found.disagree))
    records = [
        ledger.add(
            "looked-up",
            "“{filed}” is filed under {name}.",
            {"filed": hit.name, "name": catalog.ingredient(hit.ingredient).name},
            citations=(hit.citation,),
        )
        for hit in found.disagree
    ]
    names = " or ".join(catalog.ingredient(one).name for one in candidates)
    why = ledger.add(
        "calculated",
        "Line {position} stays open between {names}: what is printed points to both."
        if len(candidates) > 1
        else "Line {position} may be {names} or something else: the text leaves it open.",
        {"position": line.position, "names": names},
        because=(pasted, *records),
    )
    classes = [catalog.classes[catalog.ingredient(one).class_].line for one in candidates]
    shared = [name for name in classes[0] if all(name in other for other in classes)]
    return common.model_copy(
        update={
            "class_": shared[0] if shared else "other",
            "class_guessed": True,
            "class_confidence": SHARED_CLASS if shared else 0.0,
            "candidates": candidates,
        }
    ), why


def _unidentified(
    line: Line, found: Found, pasted: str, ledger: Ledger, catalog: Catalog, common: Match
) -> tuple[Match, str]:
    because, title = [pasted], catalog.classes[found.class_].title
    given = given_properties(found.structure, pasted, ledger) if found.structure is not None else ()
    because += [one.why for one in given]
    if found.class_word is not None:
        word = found.class_word
        template = (
            "“{phrase}” names a class, not a substance."
            if word.how == "class-only"
            else "“{phrase}” says that the substance is not told."
        )
        because.append(ledger.add("looked-up", template, {"phrase": word.phrase}, citations=(word.citation,)))
    if found.form is not None:
        because.append(
            ledger.add(
                "looked-up",
                "“{form}” in a name speaks for the class {title}, {certainty:.2f} sure.",
                {"form": found.form.form, "title": title, "certainty": found.form.certainty},
                citations=(found.form.citation,),
            )
        )
    guess = f"; class by its words: {title}" if found.class_ != "other" else ""
    saying = {
        "class-only": "names only a class: " + title,
        "withheld": "is withheld by the text" + guess,
        "word-form": "is not in the dataset" + guess,
    }.get(found.how, "has no such name in the dataset")
    why = ledger.add(
        "calculated",
        "Line {position}, “{name}”, {saying}.",
        {"position": line.position, "name": line.name, "saying": saying},
        because=because,
    )
    guessed = (
        found.how == "word-form" or found.form is not None or (found.how == "class-only" and found.confidence < SURE)
    )
    return common.model_copy(
        update={
            "how": found.how,
            "confidence": found.confidence,
            "class_": found.class_,
            "class_guessed": guessed,
            "class_confidence": found.confidence if guessed else 1.0,
            "properties": given,
        }
    ), why
