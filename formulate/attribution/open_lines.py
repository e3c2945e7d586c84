"""Cautions of lines that stay open between several ingredients: of all of them, or possibly of one."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from formulate.attribution.facts import line_facts
from formulate.catalog.store import Catalog
from formulate.domain.line import Line, Match
from formulate.domain.reason import Ledger
from formulate.rules.engine import Firing, HintFacts, run_rules
from formulate.rules.schema import Rule

MOST_CANDIDATES = 4
"""Candidates of a line that are tried; of a longer row nothing is said to hold for all."""


def cautions_of_candidates(
    lines: Sequence[Line],
    matches: Sequence[Match],
    identities: Sequence[str],
    stated: Sequence[str | None],
    hints: Mapping[str, HintFacts],
    rules: Sequence[Rule],
    ledger: Ledger,
    catalog: Catalog,
) -> tuple[Firing, ...]:
    """Cautions that a candidate of an open line calls for, as firings of that line; ``possibly`` unless all do.

    All open lines are tried together, each as its first candidate, then each as its second and so on: the time
    grows with the list, not with its square.
    """
    open_lines = {index: match.candidates for index, match in enumerate(matches) if match.candidates}
    if not open_lines:
        return ()
    cautious = [rule for rule in rules if rule.then.caution is not None]
    found: dict[tuple[int, str], dict[str, Firing]] = {}
    for turn in range(min(MOST_CANDIDATES, max(len(one) for one in open_lines.values()))):
        tried = {index: some[turn] for index, some in open_lines.items() if turn < len(some)}
        supposed = [
            _as(match, tried[index], catalog) if index in tried else match for index, match in enumerate(matches)
        ]
        facts = line_facts(lines, supposed, identities, stated, ledger, catalog)
        at = {facts[index].position: index for index in tried}
        for firing in run_rules(cautious, facts, hints, ledger):
            index = at.get(firing.position)
            if index is not None and firing.rule.then.caution is not None:
                found.setdefault((index, firing.rule.then.caution), {}).setdefault(tried[index], firing)
    return tuple(
        _told(calls, open_lines[index], identities[index], ledger, catalog) for (index, _), calls in found.items()
    )


def _as(match: Match, candidate: str, catalog: Catalog) -> Match:
    """The match as it would be if the line were this candidate."""
    known = {"class_guessed": False, "class_confidence": 1.0, "candidates": ()}
    return match.model_copy(
        update={"ingredient": candidate, "class_": catalog.ingredient(candidate).class_, "how": "name", **known}
    )


def _told(
    calls: Mapping[str, Firing], candidates: Sequence[str], identity: str, ledger: Ledger, catalog: Catalog
) -> Firing:
    """One firing for what some or all candidates of a line call for."""
    first = next(iter(calls.values()))
    every = len(candidates) > 1 and len(calls) == len(candidates)
    names = " or ".join(catalog.ingredient(one).name for one in calls)
    template = "Whichever it is, {names}: {says}" if every else "If it is {names}: {says}"
    why = ledger.add(
        "calculated",
        template,
        {"names": names, "says": first.says},
        because=(identity, *(one.why for one in calls.values())),
    )
    return first._replace(why=why, says=ledger[why].says, possibly=not every)
