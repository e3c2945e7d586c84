"""Answers as plain text. Every piece of outside text goes through the gate."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator

from formulate.domain.interval import certainty_word
from formulate.domain.line import IDENTIFIED, HazardCode, Stated
from formulate.domain.reason import Node
from formulate.domain.vocabulary import role_label
from formulate.workflow.answers import Answer, BriefAnswer, IngredientRoles, ReadAnswer, RolesAnswer, WhyAnswer
from formulate.workflow.gate import cut, padded, shown

WIDTH = 96
FATES: tuple[tuple[str, str], ...] = (
    ("leaves", "leaves the surface"),
    ("stays", "stays"),
    ("reacts", "turns into something that stays"),
    ("depends", "leaves slowly, or leaves or stays by its grade"),
    ("", "not known whether it stays"),
)
NO_SUBSTANCE = {
    "class-only": "a class, kind open",
    "withheld": "withheld",
    "word-form": "no such name",
    "none": "no such name",
}
"""Why a line is no ingredient of the dataset, by how it was found."""


def wrapped(text: str, indent: str = "", hang: str | None = None) -> list[str]:
    """Text through the gate, in lines of at most the width."""
    return textwrap.wrap(
        shown(text),
        WIDTH,
        initial_indent=indent,
        subsequent_indent=indent if hang is None else hang,
        break_long_words=True,
        break_on_hyphens=False,
    ) or [indent.rstrip()]


def amount(stated: Stated | None) -> str:
    """A printed amount in per cent by mass, open ends said."""
    if stated is None:
        return "-"
    return (stated.in_per_cent(" to ") or cut(stated.text, 16)) + (" ?" if stated.doubtful else "")


def read_lines(answer: ReadAnswer) -> Iterator[str]:
    """What was understood, line by line."""
    if answer.lines:
        yield f"{'':>3}  {'as printed':<32} {'amount':<14} {'read as':<28} found by"
    part: str | None = None
    for line in answer.lines:
        if line.part != part:
            part = line.part
            yield from wrapped(f"{part}:" if part else "outside the parts:", "  ")
        is_ = line.ingredient or (
            f"{line.subclass} (class only)"
            if line.match.how == "class-only"
            else f"? {line.subclass}"
            if line.subclass != "other"
            else "?"
        )
        found = line.match.how if line.match.how not in IDENTIFIED else f"{line.match.how} {line.match.confidence:.2f}"
        yield (
            f"{line.position:>3}  {padded(line.name, 32)} {padded(amount(line.stated), 14)} "
            f"{padded(is_, 28)} {shown(found)}"
        ).rstrip()
        if line.candidates:
            yield from wrapped("stays open between " + " and ".join(line.candidates), "     ")
        if line.doubtful:
            yield from wrapped("doubtful: " + line.doubtful, "     ")
    for name, fact in answer.facts.items():
        yield from wrapped(f"also printed: {name}: {fact.printed()}", "     ")
    if answer.hazard_codes:
        yield from wrapped("hazard codes printed: " + ", ".join(map(_code, answer.hazard_codes)), "     ")
    for left in answer.left_over:
        yield from wrapped(f"not used: “{cut(left.text, 120)}” ({left.why})", "     ")
    yield from notes_of(answer)


def _code(code: HazardCode) -> str:
    return code.code if code.of == "product" else f"{code.code} ({code.of})"


def roles_lines(answer: RolesAnswer) -> Iterator[str]:
    """The breakdown, in groups by what becomes of each ingredient."""
    for fate, title in FATES:
        rows = [row for row in answer.ingredients if (row.fate or "") == fate]
        if rows:
            yield f"{title}"
            for row in rows:
                yield from _roles_of(row)
            yield ""
    for conflict in answer.conflicts:
        between = ", ".join(map(str, conflict.between))
        yield from wrapped(f"{conflict.severity}: {conflict.says} (lines {between})", "! ", "  ")
    for caution in answer.cautions[:3]:
        yield from wrapped(f"{caution.severity}: {caution.says}", "▲ ", "  ")
    yield from notes_of(answer)


def _roles_of(row: IngredientRoles) -> Iterator[str]:
    guessed = " by its words" if row.class_guessed else ""
    what = row.name if row.ingredient else NO_SUBSTANCE.get(row.how, "open: number and name disagree")
    mark = " *" if row.corrected else ""
    head = f"{row.position:>3}  {padded(row.raw, 34)} {cut(what, 34)} ({row.subclass}{guessed}){mark}"
    yield head.rstrip()
    top = row.roles[0]
    also = ", ".join(f"{role_label(one.role)} {one.probability:.2f}" for one in row.also[:3])
    word = "-" if top.role == "unexplained" else certainty_word(top.probability)
    yield from wrapped(
        f"{role_label(top.role)}, {word} {top.probability:.2f}" + (f"; also {also}" if also else ""), "     "
    )
    for evidence in sorted(top.evidence, key=lambda one: -abs(one.log_odds))[:2]:
        sign = "+" if evidence.log_odds > 0 else "-"
        yield from wrapped(f"{sign} {evidence.says}", "       ", "         ")


def brief_lines(answer: BriefAnswer) -> Iterator[str]:
    """The mixture in a few sentences."""
    for sentence in answer.sentences:
        yield from wrapped(sentence.text, "", "  ")
    yield from notes_of(answer)


def notes_of(answer: Answer) -> Iterator[str]:
    """Notes of an answer, and how the product is put on."""
    for note in answer.notes:
        yield from wrapped(f"note: {note}", "", "  ")
    form = {
        "assumed": "not said (give --form)",
        "given": f"{answer.product.form}, you said so",
        "read": f"{answer.product.form}, read in the text",
    }[answer.product.form_origin]
    yield from wrapped(f"how it is put on: {form}")


def why_lines(answer: WhyAnswer) -> Iterator[str]:
    """A tree of reasons, sources at its leaves."""
    yield from _node(answer.tree, "", "", answer.sources)


def _node(node: Node, first: str, rest: str, sources: dict[str, str]) -> Iterator[str]:
    sign = "- " if node.against else ""
    yield from wrapped(sign + node.says, first, rest + "  ")
    for cited in node.citations:
        via = f", read in {cited.via}" if cited.via else ""
        yield from wrapped(
            f"says {sources.get(cited.source, cited.source)}: {cited.at}{via}", rest + "  ", rest + "    "
        )
    if node.place is not None:
        yield rest + f"  in what you pasted, {node.place.label()}"
    for i, child in enumerate(node.children):
        last = i == len(node.children) - 1
        yield from _node(child, rest + ("└ " if last else "├ "), rest + ("  " if last else "│ "), sources)


def nothing(answer: Answer, lines: Iterable[str]) -> list[str]:
    """The lines of an answer, or a sentence where the text held no list."""
    out = list(lines)
    return out or ["No list of ingredients was found in this text."]
