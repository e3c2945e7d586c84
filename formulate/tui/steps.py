"""The way down: figure, reason, origin. Every step is a place to stand; the last is a source, or the pasted text."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any, NamedTuple

from formulate.domain.edit import Case
from formulate.domain.place import Citation, Place
from formulate.domain.reason import UNSOURCED, Node, leaves
from formulate.tui import words
from formulate.tui.figures import Figure
from formulate.workflow.amount_answers import BoundsAnswer
from formulate.workflow.answers import Answer, RolesAnswer
from formulate.workflow.gate import cut, shown
from formulate.workflow.session import Answers

AROUND = 28
"""Characters shown on both sides of a pasted place."""
CARD_FIELDS = (
    ("publisher", "published by"),
    ("year", "year"),
    ("kind", "kind"),
    ("read_as", "copy read"),
    ("licence", "licence"),
    ("doi", "doi"),
    ("url", "address"),
    ("accessed", "looked at"),
    ("note", "note"),
)

EDIT_WORDS = {
    "ingredient": "is",
    "name": "is",
    "role": "is there as",
    "amount": "is there at",
    "means": "has an amount that means",
    "one-percent-line": "is the last above the one-percent line:",
    "measured": ":",
    "rule": "is",
    "assumption": ":",
}
"""How an edit is told, by its field."""


@dataclass(frozen=True)
class Step:
    """A step of an argument as the screen shows it. ``sign``: + for, - against, ? assumed or open. ``line`` is the
    line of the list that it speaks of."""

    says: str
    origin: str = ""
    sign: str = "+"
    kind: str = "reason"
    line: str | None = None
    expand: Callable[[], Sequence[Step]] = field(default=lambda: (), compare=False, repr=False)

    @cached_property
    def children(self) -> tuple[Step, ...]:
        """The steps below this one."""
        return tuple(self.expand())


class Grounds(NamedTuple):
    """What steps are made from: the answers, the case with its texts, the cards of the sources, and the amounts:
    newest, and newest with likely ranges."""

    answers: Answers
    case: Case
    card: Callable[[str], Mapping[str, Any]]
    bounds: BoundsAnswer | None = None
    drawn: BoundsAnswer | None = None

    @property
    def rules(self) -> dict[str, str]:
        """Which rule says a sentence."""
        return _rules(self.answers.roles)


def _rules(answer: RolesAnswer) -> dict[str, str]:
    said = {one.says: one.rule for row in answer.ingredients for role in row.roles for one in role.evidence}
    said.update({one.says: one.conflict for one in answer.conflicts})
    said.update({one.says: one.caution for one in answer.cautions})
    return said


WHOLE = frozenset({"rule", "line", "measured", "suppose", "supposed", "told", "clash", "absent", "place"})
"""Figures whose own reason is told as the first step: it says more than what stands on the screen."""


def figure_step(figure: Figure, grounds: Grounds) -> Step:
    """The top step of a figure: what it says, and below it the reasons. A certainty shows the rival purposes too."""
    node = _why(figure, grounds, figure.pointer)
    rules = grounds.rules
    if figure.field != "certainty":
        step = node_step(node, grounds, rules, figure.line)
        return (
            step
            if step.children and figure.field not in WHOLE
            else Step(figure.said(), "", "", line=figure.line, expand=lambda: [step])
        )

    def rivals() -> list[Step]:
        base = figure.pointer.rpartition("/")[0]
        row = next(one for one in grounds.answers.roles.ingredients if one.line == figure.line)
        return [
            node_step(_why(figure, grounds, f"{base}/{j}"), grounds, rules, figure.line, sign="+" if j == 0 else "-")
            for j in range(len(row.roles[:6]))
        ]

    return Step(figure.said(), "calculated", line=figure.line, expand=rivals)


def _why(figure: Figure, grounds: Grounds, pointer: str) -> Node:
    from formulate.workflow.api import why

    answers: dict[str, Answer | None] = {
        "read": grounds.answers.read,
        "roles": grounds.answers.roles,
        "brief": grounds.answers.brief,
        "bounds": grounds.bounds,
        "drawn": grounds.drawn,
    }
    answer = answers[figure.answer]
    assert answer is not None  # a figure is made from the answer that it names
    return why(answer, pointer).tree


def node_step(node: Node, grounds: Grounds, rules: Mapping[str, str], line: str | None, sign: str = "") -> Step:
    """A reason as a step; below it what it rests on, its sources, and its place in the pasted text."""
    about = _line_of(node, grounds) or line

    def below() -> list[Step]:
        steps = [node_step(child, grounds, rules, about) for child in node.children]
        steps += [citation_step(cited, grounds, about) for cited in node.citations]
        if node.place is not None:
            steps.append(place_step(node.place, grounds, about))
        return steps

    return Step(node.says, origin_of(node, rules), sign or sign_of(node), "reason", about, below)


def _line_of(node: Node, grounds: Grounds) -> str | None:
    """The line of the list that a step speaks of, if all pasted places below it are of one line."""
    places = {
        (one.place.start, one.place.end) for one in leaves(node) if one.kind == "pasted" and one.place is not None
    }
    if len(places) != 1:
        return None
    start, end = places.pop()
    return next(
        (one.id for one in grounds.answers.read.lines if one.place.start <= start and end <= one.place.end), None
    )


def sign_of(node: Node) -> str:
    """The sign of a step."""
    if node.against:
        return "-"
    unsourced = bool(node.citations) and all(cited.source in UNSOURCED for cited in node.citations)
    return "?" if node.kind == "assumed" or unsourced else "+"


def origin_of(node: Node, rules: Mapping[str, str]) -> str:
    """Where a step comes from, in words."""
    if node.kind == "pasted":
        return f"you pasted, {node.place.label()}" if node.place is not None else "you said so"
    if node.kind == "rule":
        rule = rules.get(node.says)
        return f"rule {rule}" if rule else "a rule"
    if node.kind == "looked-up" and node.citations:
        return f"looked up in {node.citations[0].source}"
    return {
        "looked-up": "looked up",
        "corrected": "you corrected",
        "measured": "measured",
        "assumed": "assumed",
        "calculated": "worked out",
    }[node.kind]


def citation_step(cited: Citation, grounds: Grounds, line: str | None = None) -> Step:
    """Who says so: the source by title, the place in it; below it the card."""
    card = dict(grounds.card(cited.source))

    def below() -> list[Step]:
        steps = [Step(f"place in it: {cited.at}", "citation", "", "card")]
        if cited.via:
            steps.append(Step(f"read in: {cited.via}", "citation", "", "card"))
        steps += [
            Step(f"{label}: {card[key]}", "source card", "", "card") for key, label in CARD_FIELDS if card.get(key)
        ]
        return steps

    sign = "?" if cited.source in UNSOURCED else ""
    return Step(f"{card.get('title', cited.source)}: {cited.at}", "says this source", sign, "source", line, below)


def place_step(place: Place, grounds: Grounds, line: str | None = None) -> Step:
    """The place in the pasted text, with what stands around it; brackets hold the stretch meant."""
    text = next((one.text for one in grounds.case.texts if one.id == place.text_id), "")
    before, after = max(place.start - AROUND, 0), place.end + AROUND
    said = f"[{cut(text[place.start : place.end], 200)}]"
    left = ("… " if before else "") + shown(text[before : place.start]).lstrip()
    right = shown(text[place.end : after]).rstrip() + (" …" if after < len(text) else "")
    return Step(left + said + right, f"your text, {place.label()}", "", "place", line)


def who_steps(step: Step) -> Step:
    """Every source below a step, each once: who says so."""

    def gather() -> list[Step]:
        found: dict[str, Step] = {}
        stack, seen = [step], 0
        while stack and seen < 2000:
            one = stack.pop(0)
            seen += 1
            if one.kind == "source":
                found.setdefault(one.says, one)
            else:
                stack.extend(one.children)
        return list(found.values()) or [
            Step("No source is named for this: it rests on what you pasted or said.", "", "?", "card")
        ]

    return Step(f"who says: {step.says}", "", "", "who", step.line, gather)


def history_step(case: Case, names: Mapping[str, str], changed: Sequence[str]) -> Step:
    """All edits, newest last; those taken back are marked; then what the last one changed, then the notes."""

    def rows() -> list[Step]:
        steps = []
        for i, edit in enumerate(case.edits):
            about = names.get(edit.target, edit.target.removeprefix("/product/").strip("/"))
            value = "taken away" if edit.value is None else edit.value
            note = f" ({edit.note})" if edit.note else ""
            back = "taken back: " if i >= case.cursor else ""
            what = EDIT_WORDS.get(edit.field, edit.field)
            steps.append(
                Step(f"{back}{about} {what} {value}{note}", f"{edit.who} {edit.when[11:16]}", "", "edit", edit.target)
            )
        steps += [Step(f"changed: {one}", "last edit", "", "edit") for one in changed]
        steps += [Step(f"note: {note}", "", "", "edit") for note in case.notes]
        return steps or [Step("Nothing was corrected yet. c corrects the figure you stand on.", "", "", "edit")]

    return Step("all edits", "", "", "history", None, rows)


def help_step(field_: str, title: str, keys: Sequence[tuple[str, str]]) -> Step:
    """What a figure is, and what every key does."""

    def rows() -> list[Step]:
        return [
            Step(words.FIELD_HELP.get(field_, words.FIELD_HELP["step"]), "this figure", "", "help"),
            *(Step(what, key, "", "help") for key, what in keys),
        ]

    return Step(f"help: {title}", "", "", "help", None, rows)
