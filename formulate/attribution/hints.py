"""What the words around a list, and the options given, say of the product."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from formulate.catalog.store import Catalog
from formulate.domain.line import Match, Reading
from formulate.domain.product import Hint, Product
from formulate.domain.reason import Ledger
from formulate.reading import add_left_over
from formulate.rules.engine import HintFacts

LONGEST_CLAIM = 300
"""Longest text above a list that is read as the claim of the front, in characters."""
MOST_READ = 5000
"""Characters of one left-over stretch that are looked through for hints."""


def product_hints(
    reading: Reading,
    matches: Sequence[Match],
    identities: Sequence[str],
    options: Mapping[str, str | None],
    ledger: Ledger,
    catalog: Catalog,
) -> Product:
    """Form, claim, substrate and headline words: given as options, else read in the text, else assumed unknown.

    ``options`` may hold form, claim, substrate, jurisdiction, date, dilution. A propellant in the list means an
    aerosol unless a form was given.
    """
    claim = _given("claim", options, ledger) or _claim_above(reading, ledger, catalog)
    form = _given("form", options, ledger) or _read("form", reading, claim, ledger, catalog)
    if form is None:
        form = _by_propellant(matches, identities, ledger) or Hint.model_construct(
            value="unknown",
            origin="assumed",
            why=ledger.add("assumed", "Nobody said how the product is put on, and nothing in the text tells.", {}),
        )
    substrate = _given("substrate", options, ledger) or _read("substrate", reading, claim, ledger, catalog)
    return Product.model_construct(
        form=form,
        claim=claim,
        substrate=substrate,
        headlines=_headlines(reading, claim, ledger, catalog),
        jurisdiction=options.get("jurisdiction"),
        date=options.get("date"),
        dilution=options.get("dilution"),
    )


def hint_facts(product: Product) -> dict[str, HintFacts]:
    """The hints as rules see them; an unknown form is the word 'unknown'."""
    given = {"form": product.form, "claim": product.claim, "substrate": product.substrate}
    return {name: HintFacts(hint.value, hint.why) for name, hint in given.items() if hint is not None}


def _given(name: str, options: Mapping[str, str | None], ledger: Ledger) -> Hint | None:
    value = options.get(name)
    if not value or value == "unknown":
        return None
    shown = value if len(value) <= 120 else value[:119] + "…"
    return Hint.model_construct(
        value=value,
        origin="given",
        why=ledger.add("pasted", "You gave the {name}: “{value}”.", {"name": name, "value": shown}),
    )


def _read(name: str, reading: Reading, claim: Hint | None, ledger: Ledger, catalog: Catalog) -> Hint | None:
    words = [(word, value) for word, hint, value in catalog.hints if hint == name]
    for word, value, why in _words_found(words, reading, claim, ledger):
        return Hint.model_construct(
            value=value,
            origin="read",
            why=ledger.add(
                "calculated",
                "The word “{word}” tells the {name}: {value}.",
                {"word": word, "name": name, "value": value},
                because=(why,),
            ),
        )
    return None


def _claim_above(reading: Reading, ledger: Ledger, catalog: Catalog) -> Hint | None:
    """A short text above the list that promises something: what the front of the bottle says."""
    first = reading.lines[0].place.start if reading.lines else 0
    words = [word for word, hint, value in catalog.hints if hint in {"claim", "headline"} and value != "none"]
    for left in reading.left_over:
        text = " ".join(left.text.split())
        if (
            left.place.start < first
            and len(text) <= LONGEST_CLAIM
            and any(promises(text.casefold(), word) for word in words)
        ):
            why = ledger.add(
                "calculated",
                "The text above the list is read as the claim.",
                {},
                because=(add_left_over(ledger, left),),
            )
            return Hint.model_construct(value=text, origin="read", why=why)
    return None


def _headlines(reading: Reading, claim: Hint | None, ledger: Ledger, catalog: Catalog) -> tuple[Hint, ...]:
    """What the front promises to hold, by the words of the claim."""
    if claim is None:
        return ()
    found: dict[str, Hint] = {}
    for word, hint, value in catalog.hints:
        if hint == "headline" and value != "none" and value not in found and promises(claim.value.casefold(), word):
            why = ledger.add("calculated", "The front says “{word}”.", {"word": word}, because=(claim.why,))
            found[value] = Hint.model_construct(value=value, origin=claim.origin, why=why)
    return tuple(found.values())


def _words_found(
    words: Sequence[tuple[str, str]], reading: Reading, claim: Hint | None, ledger: Ledger
) -> list[tuple[str, str, str]]:
    """Words met in the claim, then in what was left over of the text, with the reason of the place."""
    given = claim.value.casefold() if claim is not None else ""
    around = [(left, left.text[:MOST_READ].casefold()) for left in reading.left_over]
    found = []
    for word, value in words:
        if claim is not None and says(given, word):
            found.append((word, value, claim.why))
            continue
        place = next((left for left, text in around if says(text, word)), None)
        if place is not None:
            found.append((word, value, add_left_over(ledger, place)))
    return found


_DENIED = r"(?:\b(?:not?|never|without|don't|cannot|free of|zero)\s+(?:\w+\s+){0,2}|\bdo not\s+(?:\w+\s+){0,1})"
_TAKEN_OFF = r"(?:\b(?:removes?|removing|strips?|dissolves?|for|on|onto|from)\s+(?:\w+\s+){0,2})"
_ABSENT = r"(?:[-\s]free\b|\s+(?:bottle\s+)?not\s+included)"


def says(text: str, word: str) -> bool:
    """Whether a case-folded text holds a word as a word, and does not deny it ('do not spray', 'wax-free')."""
    if word not in text:
        return False
    found = rf"(?<!\w){re.escape(word)}(?!\w)"
    denied = rf"{_DENIED}{found}|{found}{_ABSENT}"
    return re.search(found, re.sub(denied, " ", text)) is not None


def promises(text: str, word: str) -> bool:
    """Whether a text promises something: said, not denied, and not what the product is used on or takes off."""
    found = rf"(?<!\w){re.escape(word)}(?!\w)"
    return says(re.sub(rf"{_TAKEN_OFF}{found}", " ", text), word)


def _by_propellant(matches: Sequence[Match], identities: Sequence[str], ledger: Ledger) -> Hint | None:
    for match, identity in zip(matches, identities, strict=True):
        if match.class_ == "propellant" and match.ingredient is not None:
            return Hint.model_construct(
                value="aerosol",
                origin="read",
                why=ledger.add("calculated", "A propellant in the list means an aerosol can.", {}, because=(identity,)),
            )
    return None
