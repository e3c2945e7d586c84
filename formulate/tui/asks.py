"""The one line in the ground that asks: what a line is, what it does there, the claim, a note, what to find."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from formulate.domain.edit import Field_
from formulate.domain.vocabulary import FORMS, ROLES
from formulate.errors import FormulateError
from formulate.tui.words import role_word

MOST = 8
"""Answers offered at a time."""
DROP = "-"


class Offer(NamedTuple):
    """Something the typed text can stand for: the value kept, and how it is shown."""

    value: str
    label: str


class Change(NamedTuple):
    """A correction that could be made."""

    target: str
    field: Field_
    value: str | None


class Ask(NamedTuple):
    """A question: its words, what may be offered for a text, which change an answer means (or None), the hint, and why
    a text is no answer."""

    id: str
    label: str
    offers: Callable[[str], list[Offer]]
    change: Callable[[str, Offer | None], Change | None]
    hint: str
    start: str = ""
    refused: Callable[[str], str] = lambda text: ""


def error_sentence(error: FormulateError) -> str:
    """What is wrong, and what would be right."""
    return f"{error.what} {error.try_[:1].upper()}{error.try_[1:]}"


def nothing(_: str) -> list[Offer]:
    """No offers: any words will do."""
    return []


def no_change(_: str, __: Offer | None) -> Change | None:
    """An answer that corrects no figure."""
    return None


def ask_identity(line: str, position: int, suggest: Callable[[str], list[tuple[str, str]]], start: str = "") -> Ask:
    """What is this line? A name of the dataset, or any name, which is then looked up as if it were printed."""

    def offers(text: str) -> list[Offer]:
        if not text.strip() or text.strip() == DROP:
            return []
        found = [Offer(key, name) for key, name in suggest(text)][: MOST - 1]
        return [*found, Offer("", f'the name "{text.strip()}"')]

    def change(text: str, offer: Offer | None) -> Change | None:
        said = text.strip()
        if not said:
            return None
        if said == DROP:
            return Change(line, "drop", said)
        return (
            Change(line, "ingredient", offer.value) if offer is not None and offer.value else Change(line, "name", said)
        )

    return Ask("identity", f"line {position} is:", offers, change, "a name, or - if it is no ingredient", start)


def ask_role(line: str, position: int) -> Ask:
    """What is this line there for? One of the purposes that the program knows."""

    def offers(text: str) -> list[Offer]:
        return matching(text, [Offer(role, role_word(role)) for role in ROLES])

    def change(_: str, offer: Offer | None) -> Change | None:
        return Change(line, "role", offer.value) if offer is not None else None

    return Ask(
        "role", f"line {position} is there as:", offers, change, "a purpose: carrier, repels water, emulsifier ..."
    )


def ask_claim(now: str) -> Ask:
    """What does the front claim? Any words; none takes the claim away."""
    return Ask(
        "claim",
        "the front claims:",
        nothing,
        lambda text, _: Change("/product/claim", "claim", text.strip() or None),
        "its words as printed, or nothing to take it away",
        now,
    )


def ask_form() -> Ask:
    """How is it put on?"""

    def offers(text: str) -> list[Offer]:
        return matching(text, [Offer(form, form) for form in FORMS if form != "unknown"], everything=True)

    def change(text: str, offer: Offer | None) -> Change | None:
        if text.strip() == "?":
            return Change("/product/form", "application", None)
        return Change("/product/form", "application", offer.value) if offer is not None else None

    return Ask(
        "form", "it is put on by:", offers, change, "spray, aerosol, trigger, wipe, pour, paste, dip; ? not known"
    )


def ask_reason() -> Ask:
    """Why do you think so? Asked after a correction; need not be answered."""
    return Ask("reason", "why do you think so?", nothing, no_change, "need not be answered")


def ask_note() -> Ask:
    """A note kept with the case."""
    return Ask("note", "note:", nothing, no_change, "kept with the case")


def ask_find(entries: list[Offer]) -> Ask:
    """Find or do: figures, ingredients and actions by a part of their name."""
    return Ask(
        "find",
        "find or do:",
        lambda text: matching(text, entries, everything=True, most=200),
        no_change,
        "a part of a name; arrows choose",
    )


def matching(text: str, known: list[Offer], everything: bool = False, most: int = MOST) -> list[Offer]:
    """Known answers with the text in them, those that begin with it first."""
    wanted = text.strip().casefold()
    if not wanted:
        return known[:most] if everything else []
    starts = [
        one for one in known if one.label.casefold().startswith(wanted) or one.value.casefold().startswith(wanted)
    ]
    holds = [
        one for one in known if one not in starts and (wanted in one.label.casefold() or wanted in one.value.casefold())
    ]
    return [*starts, *holds][:most]
