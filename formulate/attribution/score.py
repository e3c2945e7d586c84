"""Firings to probabilities.

score(role) = prior(class, role) + for each group of rules (strongest for + strongest against).
Main purpose: softmax of the scores with 'unexplained' at 0. Further functions: each role's own sigmoid.
Within a group only the strongest count, because name, class and structure are views of one fact.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from formulate.rules.engine import Firing

PRIOR_USUAL = -1.0
"""Log-odds of a role that is usual for the class (``classes.csv``), before any rule speaks. Judged."""
PRIOR_OTHER = -3.0
"""Log-odds of any other role. Judged."""


class RoleScore(NamedTuple):
    """A role with its score, its probability as main purpose and as a further function, and what counted."""

    role: str
    score: float
    main: float
    also: float
    prior: float
    counted: tuple[Firing, ...]


def strongest(firings: Iterable[Firing]) -> tuple[float, tuple[Firing, ...]]:
    """Sum over groups of the strongest for and the strongest against, and which firings those were."""
    groups: dict[str, list[Firing]] = defaultdict(list)
    for firing in firings:
        groups[firing.rule.group].append(firing)
    total, counted = 0.0, []
    for group in sorted(groups):
        supporting = [firing for firing in groups[group] if firing.log_odds > 0]
        opposing = [firing for firing in groups[group] if firing.log_odds < 0]
        for side in (supporting, opposing):
            if side:
                best = max(side, key=lambda firing: (abs(firing.log_odds), firing.rule.id))
                total += best.log_odds
                counted.append(best)
    return total, tuple(counted)


def score_roles(firings: Sequence[Firing], usual: frozenset[str]) -> tuple[RoleScore, ...]:
    """Roles of one line by falling probability; 'unexplained' is always among them. Probabilities sum to 1."""
    by_role: dict[str, list[Firing]] = defaultdict(list)
    for firing in firings:
        if firing.role is not None:
            by_role[firing.role].append(firing)
    scores: dict[str, tuple[float, float, tuple[Firing, ...]]] = {"unexplained": (0.0, 0.0, ())}
    for role, spoken in by_role.items():
        if any(firing.log_odds > 0 for firing in spoken):
            evidence, counted = strongest(spoken)
            prior = PRIOR_USUAL if role in usual else PRIOR_OTHER
            scores[role] = (evidence + prior, prior, counted)
    top = max(score for score, _, _ in scores.values())
    weights = {role: math.exp(score - top) for role, (score, _, _) in scores.items()}
    total = sum(weights.values())
    ranked = [
        RoleScore(role, score, weights[role] / total, 1 / (1 + math.exp(-score)), prior, counted)
        for role, (score, prior, counted) in scores.items()
    ]
    return tuple(sorted(ranked, key=lambda one: (-one.main, one.role)))
