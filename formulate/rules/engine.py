"""Runs rules over the lines of a list. Knows conditions, not chemistry; the order of rules does not matter."""

from __future__ import annotations

import operator
import re
from bisect import bisect_left
from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import lru_cache
from typing import NamedTuple

from formulate.domain.place import Citation
from formulate.domain.reason import Ledger, Value
from formulate.domain.vocabulary import role_label
from formulate.rules.schema import Condition, Rule, Selection, Severity

_OPS: dict[str, Callable[[float, float], bool]] = {
    ">=": operator.ge,
    "<=": operator.le,
    ">": operator.gt,
    "<": operator.lt,
    "==": operator.eq,
}


class KnownRole(NamedTuple):
    """A role the ingredient is known for, and the reason that says so."""

    role: str
    strength: str
    why: str


class LineFacts(NamedTuple):
    """What the rules may look at for one line. ``why`` gives the reason of 'identity', 'class' and of each fact.

    ``known`` are roles on record for the ingredient, ``told`` what the list itself says it is for.
    ``certainty`` is 1 where the class is known and lower where it was guessed from words. ``estimated`` are facts
    of which only a range is known: a condition holds if it holds for the whole of it, and fails unknown otherwise.
    """

    position: int
    name: str
    ingredient: str | None
    class_line: tuple[str, ...]
    class_title: str
    certainty: float
    words: Mapping[str, str]
    numbers: Mapping[str, float]
    known: tuple[KnownRole, ...]
    told: tuple[KnownRole, ...]
    why: Mapping[str, str]
    estimated: Mapping[str, tuple[float, float]] = {}


class HintFacts(NamedTuple):
    """A hint as rules see it: its text and its reason."""

    text: str
    why: str


class Firing(NamedTuple):
    """A rule that fired on a line: what it supports, how strongly, with which partners, and the reason."""

    rule: Rule
    position: int
    role: str | None
    log_odds: float
    partners: tuple[int, ...]
    why: str
    says: str
    rows: int | None = None
    """Rows that the weight was fitted on; None for a judged weight."""
    possibly: bool = False
    """Holds only if an open line is one of its candidates."""

    @property
    def severity(self) -> Severity:
        """Severity of a conflict or caution."""
        return self.rule.then.severity or "note"

    @property
    def sources(self) -> tuple[str, ...]:
        """Sources of the rule, as 'key, place'."""
        return tuple(f"{source.id}, {source.at}" for source in self.rule.sources)


class _Met(NamedTuple):
    """What a condition rests on: facts of the line by name, values for the reason, other reasons, other lines."""

    facts: tuple[str, ...]
    values: dict[str, Value]
    because: tuple[str, ...] = ()
    partners: tuple[int, ...] = ()


MOST_PARTNERS = 8
"""Other lines that a firing names at most: a reason with hundreds of them helps nobody."""


class Surroundings:
    """The list that a line stands in: its lines, the hints, and which lines each selection means, worked out once."""

    def __init__(self, lines: Sequence[LineFacts], hints: Mapping[str, HintFacts]) -> None:
        self.lines = lines
        self.hints = hints
        self._selected: dict[int, list[LineFacts]] = {}

    def selected(self, wanted: Selection, line: LineFacts, where: str) -> tuple[int, list[LineFacts]]:
        """How many other lines a selection means on one side of a line, and the first few of them."""
        if id(wanted) not in self._selected:
            self._selected[id(wanted)] = [one for one in self.lines if selects(wanted, one)]
        meant = self._selected[id(wanted)]
        here = bisect_left(meant, line.position, key=lambda one: one.position)
        after = here + (here < len(meant) and meant[here].position == line.position)
        if where == "above":
            return here, meant[: min(here, MOST_PARTNERS)]
        if where == "below":
            return len(meant) - after, meant[after : after + MOST_PARTNERS]
        first = [*meant[: min(here, MOST_PARTNERS)], *meant[after : after + MOST_PARTNERS]]
        return here + len(meant) - after, first[:MOST_PARTNERS]


def run_rules(
    rules: Sequence[Rule], lines: Sequence[LineFacts], hints: Mapping[str, HintFacts], ledger: Ledger
) -> tuple[Firing, ...]:
    """All rules over all lines; one named in ``instead_of`` by another that fired on the line counts nothing."""
    around = Surroundings(lines, hints)
    ready = [(rule, _cheap_first(rule.all), _cheap_first(rule.none)) for rule in rules]
    fired: list[Firing] = []
    for line in lines:
        here = [
            firing
            for rule, wanted, barred in ready
            if (met := _holds(wanted, barred, line, around)) is not None
            for firing in _fire(rule, met, line, ledger)
        ]
        special = {name for firing in here for name in firing.rule.instead_of}
        fired.extend(firing for firing in here if firing.rule.id not in special)
    return tuple(fired)


def _cheap_first(conditions: Sequence[Condition]) -> list[Condition]:
    """Conditions on the line itself before those on other lines; which is asked first changes nothing but time."""
    return sorted(conditions, key=lambda condition: condition.with_ is not None)


def _holds(
    wanted: Sequence[Condition], barred: Sequence[Condition], line: LineFacts, around: Surroundings
) -> list[_Met] | None:
    """What the premise of a rule rests on if all of ``wanted`` and none of ``barred`` hold, else None."""
    met = []
    for condition in wanted:
        one = _meets(condition, line, around)
        if one is None:
            return None
        met.append(one)
    if any(_meets(condition, line, around) is not None for condition in barred):
        return None
    return met


def _fire(rule: Rule, met: Sequence[_Met], line: LineFacts, ledger: Ledger) -> Iterator[Firing]:
    """The firing of a rule whose premise holds; a rule about known or told roles fires once for each of them."""
    because = [line.why[fact] for one in met for fact in one.facts] + [reason for one in met for reason in one.because]
    values: dict[str, Value] = {"name": line.name}
    for one in met:
        values.update(one.values)
    partners = tuple(dict.fromkeys(position for one in met for position in one.partners))
    cited = [Citation.model_construct(source=source.id, at=source.at) for source in rule.sources]
    several = {"$known": line.known, "$told": line.told}.get(rule.then.role or "")
    if several is None:
        odds = (rule.then.log_odds or 0.0) * line.certainty
        why = ledger.add("rule", rule.reason, values, because or (line.why["identity"],), cited, against=odds < 0)
        rows = _rows(rule, main=True)
        yield Firing(rule, line.position, rule.then.role, odds, partners, why, ledger[why].says, rows)
        return
    for known in several:
        main = known.strength == "main"
        weight = rule.then.log_odds if main else rule.then.side_log_odds
        values.update(known_role=role_label(known.role), strength=known.strength)
        why = ledger.add("rule", rule.reason, values, (line.why["identity"], known.why), cited)
        certainty = line.certainty if rule.then.role == "$known" else 1.0
        odds, rows = (weight or 0.0) * certainty, _rows(rule, main)
        yield Firing(rule, line.position, known.role, odds, partners, why, ledger[why].says, rows)


def _rows(rule: Rule, main: bool) -> int | None:
    """Rows that the weight in force was fitted on, None if it is the judged one."""
    if rule.then.weight == "judged" or rule.fitted is None:
        return None
    return (rule.fitted.rows if main else rule.fitted.side_rows) or None


def _meets(condition: Condition, line: LineFacts, around: Surroundings) -> _Met | None:
    """What a condition rests on if it holds, else None. A missing fact never holds."""
    if line.ingredient is not None and line.ingredient in condition.except_ingredient:
        return None
    if condition.ingredient:
        return _Met(("identity",), {}) if line.ingredient in condition.ingredient else None
    if condition.class_:
        if line.ingredient is not None and line.ingredient in condition.ingredient_too:
            return _Met(("identity",), {"class_name": line.class_title})
        if _words(condition.class_).isdisjoint(line.class_line):
            return None
        return _Met(("class",), {"class_name": line.class_title})
    if condition.known or condition.told:
        return _Met(("identity",), {}) if (line.known if condition.known else line.told) else None
    if condition.hint is not None:
        return _meets_hint(condition, around.hints)
    if condition.with_ is not None:
        return _meets_with(condition, condition.with_, line, around)
    return _meets_fact(condition, line)


@lru_cache(maxsize=1024)
def _words(words: tuple[str, ...]) -> frozenset[str]:
    return frozenset(words)


def _meets_fact(condition: Condition, line: LineFacts) -> _Met | None:
    fact = condition.fact or ""
    if condition.is_:
        word = line.words.get(fact)
        return _Met((fact,), {fact: word}) if word in condition.is_ else None
    if fact in line.estimated and condition.op is not None and condition.value is not None:
        ends = line.estimated[fact]
        holds = condition.op != "==" and all(_OPS[condition.op](end, condition.value) for end in ends)
        return _Met((fact,), {fact: sum(ends) / 2}) if holds else None
    number = line.numbers.get(fact)
    if number is None or condition.op is None or condition.value is None:
        return None
    return _Met((fact,), {fact: number}) if _OPS[condition.op](number, condition.value) else None


def _meets_hint(condition: Condition, hints: Mapping[str, HintFacts]) -> _Met | None:
    hint = hints.get(condition.hint or "")
    if hint is None:
        return None
    text = hint.text.casefold()
    for word in condition.any:
        if word in text and re.search(rf"(?<!\w){re.escape(word)}(?!\w)", text):
            return _Met((), {condition.hint or "": word}, (hint.why,))
    return None


def _meets_with(condition: Condition, wanted: Selection, line: LineFacts, around: Surroundings) -> _Met | None:
    count, first = around.selected(wanted, line, condition.where)
    if count < condition.least:
        return None
    named = ", ".join(dict.fromkeys(other.name for other in first[:3]))
    more = f" and {count - 3} more" if count > 3 else ""
    key = "identity" if wanted.ingredient else "class"
    return _Met(
        (),
        {condition.as_: named + more},
        tuple(other.why[key] for other in first[: max(condition.least, 3)]),
        tuple(other.position for other in first),
    )


def selects(wanted: Selection, line: LineFacts) -> bool:
    """Whether a line is one of those meant: every part that is given must hold, or it is named in addition."""
    if line.ingredient is not None and line.ingredient in wanted.ingredient_too:
        return True
    if line.words.get("kind") in wanted.except_kind:
        return False
    if wanted.ingredient and line.ingredient not in wanted.ingredient:
        return False
    if wanted.class_ and _words(wanted.class_).isdisjoint(line.class_line):
        return False
    if wanted.fate and line.words.get("fate") not in wanted.fate:
        return False
    if wanted.charge and line.words.get("charge") not in wanted.charge:
        return False
    if line.ingredient is not None and line.ingredient in wanted.except_ingredient:
        return False
    return _words(wanted.except_class).isdisjoint(line.class_line)
