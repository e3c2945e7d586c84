"""Runs rules over the lines of a list. Knows conditions, not chemistry; the order of rules does not matter."""

from __future__ import annotations

import operator
import re
from collections.abc import Callable, Iterator, Mapping, Sequence
from typing import NamedTuple

from formulate.domain.place import Citation
from formulate.domain.reason import Ledger, Value
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

    ``certainty`` is 1 where the class is known and lower where it was guessed from words.
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
    why: Mapping[str, str]


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

    @property
    def severity(self) -> Severity:
        """Severity of a conflict or caution."""
        return self.rule.then.severity or "note"

    @property
    def sources(self) -> tuple[str, ...]:
        """Sources of the rule, as 'key, place'."""
        return tuple(f"{source.id}, {source.at}" for source in self.rule.sources)


class _Met(NamedTuple):
    because: tuple[str, ...]
    values: dict[str, Value]
    partners: tuple[int, ...]


def run_rules(
    rules: Sequence[Rule], lines: Sequence[LineFacts], hints: Mapping[str, HintFacts], ledger: Ledger
) -> tuple[Firing, ...]:
    """All rules over all lines; one named in ``instead_of`` by another that fired on the line counts nothing."""
    fired: list[Firing] = []
    for line in lines:
        here = [firing for rule in rules for firing in _fire(rule, line, lines, hints, ledger)]
        special = {name for firing in here for name in firing.rule.instead_of}
        fired.extend(firing for firing in here if firing.rule.id not in special)
    return tuple(fired)


def _fire(
    rule: Rule, line: LineFacts, lines: Sequence[LineFacts], hints: Mapping[str, HintFacts], ledger: Ledger
) -> Iterator[Firing]:
    met: list[_Met] = []
    for condition in rule.all:
        one = _meets(condition, line, lines, hints)
        if one is None:
            return
        met.append(one)
    if any(_meets(condition, line, lines, hints) is not None for condition in rule.none):
        return
    because = [reason for one in met for reason in one.because]
    values: dict[str, Value] = {"name": line.name}
    for one in met:
        values.update(one.values)
    partners = tuple(dict.fromkeys(position for one in met for position in one.partners))
    cited = [Citation(source=source.id, at=source.at) for source in rule.sources]
    if rule.then.role == "$known":
        for known in line.known:
            odds = rule.then.log_odds if known.strength == "main" else rule.then.side_log_odds
            values.update(known_role=known.role.replace("-", " "), strength=known.strength)
            why = ledger.add("rule", rule.reason, values, (line.why["identity"], known.why), cited)
            yield Firing(
                rule, line.position, known.role, (odds or 0.0) * line.certainty, partners, why, ledger[why].says
            )
        return
    odds = (rule.then.log_odds or 0.0) * line.certainty
    why = ledger.add("rule", rule.reason, values, because or (line.why["identity"],), cited, against=odds < 0)
    yield Firing(rule, line.position, rule.then.role, odds, partners, why, ledger[why].says)


def _meets(
    condition: Condition, line: LineFacts, lines: Sequence[LineFacts], hints: Mapping[str, HintFacts]
) -> _Met | None:
    """What a condition rests on if it holds, else None. A missing fact never holds."""
    if condition.ingredient:
        return _Met((line.why["identity"],), {}, ()) if line.ingredient in condition.ingredient else None
    if condition.class_:
        if not set(condition.class_) & set(line.class_line):
            return None
        return _Met((line.why["class"],), {"class_name": line.class_title}, ())
    if condition.known:
        return _Met((line.why["identity"],), {}, ()) if line.known else None
    if condition.hint is not None:
        return _meets_hint(condition, hints)
    if condition.with_ is not None:
        return _meets_with(condition, condition.with_, line, lines)
    return _meets_fact(condition, line)


def _meets_fact(condition: Condition, line: LineFacts) -> _Met | None:
    fact = condition.fact or ""
    if condition.is_:
        word = line.words.get(fact)
        return _Met((line.why[fact],), {fact: word}, ()) if word in condition.is_ else None
    number = line.numbers.get(fact)
    if number is None or condition.op is None or condition.value is None:
        return None
    return _Met((line.why[fact],), {fact: number}, ()) if _OPS[condition.op](number, condition.value) else None


def _meets_hint(condition: Condition, hints: Mapping[str, HintFacts]) -> _Met | None:
    hint = hints.get(condition.hint or "")
    if hint is None:
        return None
    text = hint.text.casefold()
    for word in condition.any:
        if word in text and re.search(rf"(?<!\w){re.escape(word)}(?!\w)", text):
            return _Met((hint.why,), {condition.hint or "": word}, ())
    return None


def _meets_with(condition: Condition, wanted: Selection, line: LineFacts, lines: Sequence[LineFacts]) -> _Met | None:
    chosen = [
        other
        for other in lines
        if other.position != line.position and _on_side(condition.where, line, other) and selects(wanted, other)
    ]
    if len(chosen) < condition.least:
        return None
    named = ", ".join(dict.fromkeys(other.name for other in chosen[:3]))
    more = f" and {len(chosen) - 3} more" if len(chosen) > 3 else ""
    key = "identity" if wanted.ingredient else "class"
    return _Met(
        tuple(other.why[key] for other in chosen[: max(condition.least, 3)]),
        {condition.as_: named + more},
        tuple(other.position for other in chosen),
    )


def _on_side(where: str, line: LineFacts, other: LineFacts) -> bool:
    if where == "above":
        return other.position < line.position
    return where == "anywhere" or other.position > line.position


def selects(wanted: Selection, line: LineFacts) -> bool:
    """Whether a line is one of those meant: every part that is given must hold."""
    if wanted.ingredient and line.ingredient not in wanted.ingredient:
        return False
    if wanted.class_ and not set(wanted.class_) & set(line.class_line):
        return False
    if wanted.fate and line.words.get("fate") not in wanted.fate:
        return False
    if wanted.charge and line.words.get("charge") not in wanted.charge:
        return False
    if line.ingredient is not None and line.ingredient in wanted.except_ingredient:
        return False
    return not set(wanted.except_class) & set(line.class_line)
