"""Rows of marked lists as the rules see them: what speaks for each role, and which roles the mark accepts."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Sequence
from typing import NamedTuple

from formulate.attribution.facts import line_facts
from formulate.attribution.score import PRIOR_OTHER, PRIOR_USUAL, score_roles
from formulate.catalog.store import open_catalog
from formulate.domain.line import Line
from formulate.rules.engine import Firing, LineFacts, run_rules
from formulate.rules.schema import Rule
from formulate.workflow.nodes import judged_rules
from tests.conftest import SHARED
from tests.evaluation.material import as_lines, disclosed_products, gold_cases, identified
from tests.evaluation.score import accepted_roles, key_of, mapped

SISTERS = 0.6
"""Products that share this part of their ingredients (of both together) count as one product."""
FILM_WORDS = frozenset({"water-repellent", "gloss-and-slip", "film-former", "binder", "hard-particle", "abrasive"})
"""Roles between which the ties of the vocabulary decide, not makers' words: rows that accept one are not fitted to.
Fitted to all the same, "Lubricant" put gloss before repellency in every spray (14 checks of the corpus failed)."""


class Weight(NamedTuple):
    """One number that can be fitted: the weight of a rule, of a role on record besides, or a prior."""

    rule: str
    part: str
    judged: float


class Spoken(NamedTuple):
    """A rule that spoke for or against a role: index of its weight, certainty it is multiplied by, group."""

    weight: int
    certainty: float
    group: str


class Candidate(NamedTuple):
    """A role that some rule proposes for a row."""

    role: str
    prior: int
    spoken: tuple[Spoken, ...]


class Marked(NamedTuple):
    """A row with the roles its declared function may mean."""

    product: str
    candidates: tuple[Candidate, ...]
    accepted: frozenset[str]


def parameters(rules: Sequence[Rule]) -> list[Weight]:
    """Everything that can be fitted, with its judged value."""
    weights = [Weight("prior", "usual", PRIOR_USUAL), Weight("prior", "other", PRIOR_OTHER)]
    for rule in rules:
        if rule.then.log_odds is not None:
            weights.append(Weight(rule.id, "main", rule.then.log_odds))
        if rule.then.side_log_odds is not None:
            weights.append(Weight(rule.id, "side", rule.then.side_log_odds))
    return weights


class Reader:
    """Lists to marked rows: what every rule says of every line."""

    def __init__(self) -> None:
        self.rules = judged_rules()
        self.weights = parameters(self.rules)
        self.index = {(weight.rule, weight.part): number for number, weight in enumerate(self.weights)}

    def rows(self, product: str, lines: tuple[Line, ...], accepted: Sequence[frozenset[str]]) -> list[Marked]:
        """The rows of one list whose accepted roles are not empty."""
        catalog = open_catalog()
        matches, reasons, ledger = identified(lines)
        facts = line_facts(lines, matches, reasons, [None] * len(lines), ledger, catalog)
        by_line: defaultdict[int, list[Firing]] = defaultdict(list)
        for firing in run_rules(self.rules, facts, {}, ledger):
            by_line[firing.position].append(firing)
        rows = []
        for fact, wanted in zip(facts, accepted, strict=True):
            if wanted:
                usual = catalog.classes[fact.class_line[0]].usual_roles
                rows.append(Marked(product, self._candidates(fact, by_line[fact.position], usual), wanted))
        return rows

    def _candidates(self, fact: LineFacts, firings: list[Firing], usual: frozenset[str]) -> tuple[Candidate, ...]:
        made = []
        for one in score_roles(firings, usual):
            if one.role == "unexplained":
                continue
            spoken = tuple(self._spoken(firing, fact) for firing in firings if firing.role == one.role)
            made.append(Candidate(one.role, 0 if one.role in usual else 1, spoken))
        return tuple(made)

    def _spoken(self, firing: Firing, fact: LineFacts) -> Spoken:
        then = firing.rule.then
        certainty = 1.0 if then.role == "$told" else fact.certainty
        part = "main"
        if then.side_log_odds is not None and firing.log_odds != (then.log_odds or 0.0) * certainty:
            part = "side"
        return Spoken(self.index[(firing.rule.id, part)], certainty, firing.rule.group)


def families(products: dict[str, list[dict[str, str]]]) -> dict[str, str]:
    """The family of each product: products whose lists are nearly the same are left out together."""
    sets = {product: frozenset(key_of(row) for row in rows) for product, rows in products.items()}
    family = {product: product for product in sets}
    names = sorted(sets)
    for number, one in enumerate(names):
        for other in names[:number]:
            if len(sets[one] & sets[other]) >= SISTERS * len(sets[one] | sets[other]):
                old, new = family[one], family[other]
                family = {name: new if kin == old else kin for name, kin in family.items()}
    return family


def fitted_to(rows: Sequence[Marked]) -> list[Marked]:
    """The rows that weights are fitted to."""
    return [row for row in rows if not row.accepted & FILM_WORDS]


def declared_rows(reader: Reader) -> list[Marked]:
    """Rows of the disclosed products, the same as in ``score.py declared``, each under its family."""
    products = disclosed_products(SHARED)
    family = families(products)
    rows: list[Marked] = []
    for product, entries in products.items():
        lines = as_lines([(row["ingredient"], row["cas"] or None, None, None, None) for row in entries])
        rows += reader.rows(family[product], lines, [frozenset(accepted_roles(row)) for row in entries])
    return rows


def reading_rows(reader: Reader) -> list[Marked]:
    """Rows of the readings as in ``score.py roles``, of equal weight; lists that are disclosed products left out."""
    disclosed = [{key_of(row) for row in rows} for rows in disclosed_products(SHARED).values()]
    rows: list[Marked] = []
    for case in gold_cases(SHARED):
        keys = {row.cas or row.name.casefold() for row in case.rows}
        if any(len(keys & other) >= SISTERS * min(len(keys), len(other)) for other in disclosed if len(keys) > 2):
            continue
        lines = as_lines([(row.name, row.cas, row.ec, row.stated, row.function) for row in case.rows])
        rows += reader.rows(case.id, lines, [frozenset(row.roles) if mapped(row) else frozenset() for row in case.rows])
    return rows


def spoken_rows(rows: Sequence[Marked]) -> Counter[int]:
    """In how many rows each weight was there to be counted."""
    return Counter(
        weight
        for row in rows
        for weight in {said.weight for one in row.candidates for said in one.spoken}
        | {one.prior for one in row.candidates}
    )
