"""Roles of every line of a list, in the context of the others."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence

from formulate.attribution.facts import line_facts
from formulate.attribution.open_lines import cautions_of_candidates
from formulate.attribution.score import RoleScore, score_roles
from formulate.catalog.store import Catalog
from formulate.domain.edit import Edit
from formulate.domain.line import Line, Match
from formulate.domain.reason import Ledger
from formulate.domain.roles import AlsoRole, Attribution, Caution, Conflict, Evidence, LineRoles, RoleChoice
from formulate.domain.vocabulary import ROLES, role_label
from formulate.rules.engine import Firing, HintFacts, LineFacts, run_rules
from formulate.rules.schema import Rule

ALSO_FROM = 0.25
"""Further functions below this probability are not shown."""


def attribute(
    lines: Sequence[Line],
    matches: Sequence[Match],
    identities: Sequence[str],
    stated: Sequence[str | None],
    hints: Mapping[str, HintFacts],
    rules: Sequence[Rule],
    ledger: Ledger,
    catalog: Catalog,
    edits: Sequence[Edit] = (),
) -> Attribution:
    """Main purpose and further functions of every line, and conflicts between lines.

    Parameters
    ----------
    lines, matches, identities, stated
        Lines, what they are, and the reasons of each identity and of each printed amount (None: no amount).
    hints
        ``form``, ``claim``, ``substrate`` where known, each with its reason.
    rules, ledger, catalog
        The rules in force; the ledger that takes the reasons; the dataset.
    edits
        Corrections in force; those with field ``role`` act here.
    """
    facts = line_facts(lines, matches, identities, stated, ledger, catalog)
    firings = run_rules(rules, facts, hints, ledger)
    said = {edit.target: edit for edit in edits if edit.field == "role" and edit.value in ROLES}
    by_line: defaultdict[int, list[Firing]] = defaultdict(list)
    for firing in firings:
        by_line[firing.position].append(firing)
    rows = [
        _line_roles(line, fact, by_line[fact.position], said.get(line.id), ledger, catalog)
        for line, fact in zip(lines, facts, strict=True)
    ]
    conflicts, why_conflicts = _conflicts(firings)
    open_calls = cautions_of_candidates(lines, matches, identities, stated, hints, rules, ledger, catalog)
    cautions, why_cautions = _cautions([*firings, *open_calls], ledger)
    return Attribution.model_construct(
        lines=tuple(row[0] for row in rows),
        conflicts=conflicts,
        why_roles=tuple(row[1] for row in rows),
        why_also=tuple(row[2] for row in rows),
        why_fate=tuple(fact.why["fate"] if "fate" in fact.words else None for fact in facts),
        why_conflicts=why_conflicts,
        cautions=cautions,
        why_cautions=why_cautions,
    )


def _line_roles(
    line: Line, fact: LineFacts, firings: Sequence[Firing], edit: Edit | None, ledger: Ledger, catalog: Catalog
) -> tuple[LineRoles, tuple[str, ...], tuple[str, ...]]:
    usual = catalog.classes[fact.class_line[0]].usual_roles
    scores = score_roles(firings, usual)
    if edit is not None:
        return _corrected(fact, edit, scores, ledger)
    choices = tuple(
        RoleChoice.model_construct(role=one.role, probability=one.main, alone=one.also, evidence=_evidence(one.counted))
        for one in scores
    )
    whys = tuple(_why_role(fact, one, one.main, "main purpose", ledger) for one in scores)
    further = [one for one in scores[1:] if one.role != "unexplained" and one.also >= ALSO_FROM]
    further.sort(key=lambda one: (-one.also, one.role))
    also = tuple(AlsoRole.model_construct(role=one.role, probability=one.also) for one in further)
    why_also = tuple(_why_role(fact, one, one.also, "further function", ledger) for one in further)
    roles = LineRoles.model_construct(
        position=fact.position, name=fact.name, fate=fact.words.get("fate"), roles=choices, also=also
    )
    return roles, whys, why_also


def _corrected(
    fact: LineFacts, edit: Edit, scores: Sequence[RoleScore], ledger: Ledger
) -> tuple[LineRoles, tuple[str, ...], tuple[str, ...]]:
    """What a person said the purpose is, beside what the rules would have said."""
    role = edit.value or "unexplained"
    why = ledger.add(
        "corrected",
        "You said that {name} is here as {role}{note}.",
        {"name": fact.name, "role": role_label(role), "note": f" ({edit.note})" if edit.note else ""},
    )
    further = [one for one in scores if one.role not in {role, "unexplained"} and one.also >= ALSO_FROM]
    roles = LineRoles.model_construct(
        position=fact.position,
        name=fact.name,
        fate=fact.words.get("fate"),
        corrected=True,
        roles=(RoleChoice.model_construct(role=role, probability=1.0, alone=1.0, evidence=()),),
        also=tuple(AlsoRole.model_construct(role=one.role, probability=one.also) for one in further),
    )
    return roles, (why,), tuple(_why_role(fact, one, one.also, "further function", ledger) for one in further)


def _evidence(counted: Sequence[Firing]) -> tuple[Evidence, ...]:
    return tuple(
        Evidence.model_construct(
            rule=firing.rule.id,
            group=firing.rule.group,
            says=firing.says,
            log_odds=round(firing.log_odds, 3),
            rows=firing.rows,
            sources=firing.sources,
        )
        for firing in counted
    )


def _why_role(fact: LineFacts, one: RoleScore, probability: float, use: str, ledger: Ledger) -> str:
    if one.role == "unexplained":
        rest = "nothing known says why it is there" if one.main > 0.5 else "the share that no rule explains"
        return ledger.add(
            "calculated",
            "{name}, unexplained: {probability:.2f}; {rest}.",
            {"name": fact.name, "probability": probability, "rest": rest},
            because=(fact.why["identity"],),
        )
    template = (
        "{name}, {use} {role}: {probability:.2f}, from log-odds {score:+.1f}: {prior:+.1f} for what is usual for its "
        "class (judged), {rules:+.1f} by the rules below{weights}."
    )
    return ledger.add(
        "calculated",
        template,
        {
            "name": fact.name,
            "use": use,
            "role": role_label(one.role),
            "probability": probability,
            "score": one.score,
            "prior": one.prior,
            "rules": one.score - one.prior,
            "weights": _weights(one.counted),
        },
        because=[firing.why for firing in one.counted],
    )


def _weights(counted: Sequence[Firing]) -> str:
    """The weight of each rule that counted, in the order of the reasons below, and where it comes from."""
    told = [
        f"{firing.log_odds:+.1f} {firing.rule.id}, "
        + ("judged" if firing.rows is None else f"fitted on {firing.rows} row{'s' if firing.rows > 1 else ''}")
        for firing in counted
    ]
    return f" ({'; '.join(told)})" if told else ""


SEVERITIES: tuple[str, ...] = ("grave", "serious", "care", "note")
"""Severities, the gravest first."""


def _conflicts(firings: Sequence[Firing]) -> tuple[tuple[Conflict, ...], tuple[str, ...]]:
    """Conflicts found, the gravest first; one that two rules or both partners report stands once."""
    found: dict[tuple[str, frozenset[int]], Firing] = {}
    for firing in firings:
        if firing.rule.then.conflict is not None:
            found.setdefault((firing.rule.then.conflict, frozenset({firing.position, *firing.partners})), firing)
    ranked = sorted(found.items(), key=lambda item: (SEVERITIES.index(item[1].severity), item[1].position))
    conflicts = tuple(
        Conflict.model_construct(
            id=name,
            between=tuple(sorted(positions)),
            says=firing.says,
            severity=firing.severity,
            sources=firing.sources,
        )
        for (name, positions), firing in ranked
    )
    return conflicts, tuple(firing.why for _, firing in ranked)


def _cautions(firings: Sequence[Firing], ledger: Ledger) -> tuple[tuple[Caution, ...], tuple[str, ...]]:
    """Cautions, the gravest first; one caution that several lines call for stands once, with those lines.

    What a line calls for if it is one of its candidates counts only where no line calls for it in any case.
    """
    found: dict[str, list[Firing]] = {}
    for firing in sorted(firings, key=lambda one: one.possibly):
        if firing.rule.then.caution is not None:
            found.setdefault(firing.rule.then.caution, []).append(firing)

    def rank(item: tuple[str, list[Firing]]) -> tuple[int, bool, str]:
        name, called = item
        return SEVERITIES.index(called[0].severity), not called[0].rule.then.first, name

    ranked = sorted(found.items(), key=rank)
    cautions, whys = [], []
    for name, called in ranked:
        cautions.append(
            Caution.model_construct(
                id=name,
                lines=tuple(dict.fromkeys(firing.position for firing in called)),
                says=called[0].says,
                severity=called[0].severity,
                sources=called[0].sources,
                certainty="possibly" if called[0].possibly else "at least",
            )
        )
        whys.append(
            ledger.add("calculated", "{says}", {"says": called[0].says}, because=[one.why for one in called[:4]])
        )
    return tuple(cautions), tuple(whys)
