"""The questions of the amounts: the rule, where the one-percent line falls, an amount, what it means, what was
measured, what if."""

from __future__ import annotations

from collections.abc import Sequence

from formulate.errors import FormulateError
from formulate.tui.asks import Ask, Change, Offer, error_sentence, matching, nothing
from formulate.tui.words import MEANS_WORDS
from formulate.workflow.amount_edits import NOT_KNOWN, QUANTITIES, SUPPOSE, measured_edit

RULE = "/rule"


def ask_rule(rules: Sequence[tuple[str, str, str]]) -> Ask:
    """Which law of disclosure is the list under?"""
    known = [Offer(name, f"{name}: {title}" if name != "none" else f"none: {title}") for name, title, _ in rules]

    def change(text: str, offer: Offer | None) -> Change | None:
        if text.strip() == "?":
            return Change(RULE, "rule", None)
        return Change(RULE, "rule", offer.value) if offer is not None else None

    return Ask(
        "rule",
        "the rule is:",
        lambda text: matching(text, known, everything=True),
        change,
        "a rule of disclosure; none if the order says nothing",
    )


def ask_line(lines: Sequence[tuple[str, int, str]], told: str | None, at: str | None = None) -> Ask:
    """After which line is everything at most 1 %? ``told``: the line said before; ``at``: the one one stands on."""
    known = [Offer(line, f"{position} {name}") for line, position, name in lines]
    if at is not None:
        known.sort(key=lambda one: one.value != at)

    def change(text: str, offer: Offer | None) -> Change | None:
        if text.strip() == "?":
            return Change(told, "one-percent-line", None) if told is not None else None
        return Change(offer.value, "one-percent-line", "yes") if offer is not None else None

    start = next((one.label for one in known if one.value == at), "")
    return Ask(
        "line",
        "1 % line after:",
        lambda text: matching(text, known, everything=True),
        change,
        "the last line above one per cent; ? if that is open",
        start,
    )


def ask_amount(line: str, position: int) -> Ask:
    """How much of a line is there?"""

    def change(text: str, _: Offer | None) -> Change | None:
        return Change(line, "amount", text.strip()) if text.strip() else None

    return Ask(
        "amount",
        f"line {position} is there at:",
        nothing,
        change,
        "in per cent: 5 %, 0.4-1.1 %, <2, 2.3+-0.2; ? if the printed amount is not to be used",
    )


def ask_means(line: str, position: int) -> Ask:
    """Does an amount mean the ingredient itself, or the raw material it came in?"""
    known = [Offer(value, f"{value}: {words}") for value, words in MEANS_WORDS.items()]

    def change(text: str, offer: Offer | None) -> Change | None:
        if text.strip() == "?":
            return Change(line, "means", None)
        return Change(line, "means", offer.value) if offer is not None else None

    return Ask(
        "means",
        f"the amount of line {position}:",
        lambda text: matching(text, known, everything=True),
        change,
        "active (the ingredient itself), as-supplied (the raw material); ? not known",
    )


def ask_measured(start: str = "") -> Ask:
    """Was anything measured?"""

    def change(text: str, _: Offer | None) -> Change | None:
        try:
            target, value = measured_edit(text)
        except FormulateError:
            return None
        return Change(target, "measured", value)

    hint = f"{', '.join(QUANTITIES)}, =, the value: nonvolatile=2.3+-0.2 %; ? for the value takes it back"
    return Ask("measured", "measured anything?", nothing, change, hint, start, _not_measured)


def _not_measured(text: str) -> str:
    """Why a text is no measurement; empty if it is one."""
    try:
        measured_edit(text)
    except FormulateError as error:
        return error_sentence(error)
    return ""


def ask_suppose(start: str = "") -> Ask:
    """What if there were so much of something?"""

    def change(text: str, _: Offer | None) -> Change | None:
        said = text.strip()
        if said in NOT_KNOWN:
            return Change(SUPPOSE, "assumption", None) if said else None
        name, sign, value = said.partition("=")
        return Change(SUPPOSE, "assumption", said) if name.strip() and sign and value.strip() else None

    return Ask(
        "suppose",
        "what if:",
        nothing,
        change,
        "a name of the list or a total, =, an amount: silica=2 %; ? takes it back",
        start,
    )
