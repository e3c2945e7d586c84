"""Prints every figure of the score on the shared material, and the misses.

python tests/evaluation/score.py [identity|roles|declared] [--misses] [--held] [--judged]

Misses of cases that are not open are printed only with ``--held``; ``--judged`` counts with judged weights alone.
"""

from __future__ import annotations

import sys
from collections import Counter, defaultdict
from collections.abc import Iterable
from functools import cache
from pathlib import Path
from typing import NamedTuple

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from formulate.catalog.store import open_catalog
from formulate.domain.line import IDENTIFIED, Match
from formulate.domain.vocabulary import ROLES
from formulate.workflow import nodes
from tests.conftest import SHARED
from tests.evaluation.material import Case, Row, as_lines, attributed, disclosed_products, gold_cases, identified, marks

DOUBTFUL_IDENTITY = {
    ("new-09", 6),
    ("new-10", 9),
    ("new-100", 2),
    ("new-63", 2),
    ("new-76", 3),
    ("sds-31", 1),
    ("new-27", 1),
    ("new-27", 6),
    ("new-27", 11),
    ("new-33", 10),
    ("sds-24", 2),
}
"""Substance rows whose name or number is in doubt (README.md beside the marks): shown apart."""


EITHER = {("new-01", 9), ("new-02", 7), ("new-17", 9), ("new-19", 7), ("new-20", 10)}
"""Released preservatives: residue by the phrase, preservative by class and maker; the marks' README accepts either."""


class Score(NamedTuple):
    """Hits out of a weight, and what was missed."""

    hits: float
    total: float
    misses: tuple[str, ...]

    @property
    def share(self) -> float:
        """Hits over total; 1 where there is nothing to hit."""
        return self.hits / self.total if self.total else 1.0

    def line(self, title: str) -> str:
        """One line of the report."""
        return f"{title:<66} {self.share:6.1%}  ({self.hits:g} of {self.total:g})"


def tally(results: Iterable[tuple[float, float, str]]) -> Score:
    """Sum of (hit, weight, what) triples; what was not hit is a miss."""
    rows = list(results)
    return Score(
        sum(hit for hit, _, _ in rows),
        sum(weight for _, weight, _ in rows),
        tuple(what for hit, weight, what in rows if hit < weight),
    )


def identity_score(cases: list[Case]) -> tuple[Score, Score]:
    """Substance rows identified; class and withheld rows recognised as such with the right class."""
    catalog = open_catalog()
    substance, other = [], []
    for case in cases:
        matches, _, _ = identified(
            as_lines([(row.name, row.cas, row.ec, row.stated, row.function) for row in case.rows])
        )
        for row, match in zip(case.rows, matches, strict=True):
            what = (
                f"{case.id} {row.number}: {row.name[:60]!r} {row.cas} -> {match.how} {match.ingredient} {match.class_}"
            )
            if row.kind == "substance" and (row.case, row.number) not in DOUBTFUL_IDENTITY:
                substance.append((float(match.how in IDENTIFIED), 1.0, what))
            elif row.kind in {"class", "withheld"}:
                other.append((float(recognised(row, match, catalog.classes[match.class_].top)), 1.0, what))
    return tally(substance), tally(other)


def recognised(row: Row, match: Match, top: str) -> bool:
    """Class and withheld rows: said to be so, and the class right, 'other' or flagged as a guess."""
    if match.how not in {"class-only", "withheld"} and not (row.kind == "withheld" and match.class_guessed):
        return False
    return row.kind == "withheld" or top in {row.class_expected, "other"} or match.class_guessed


def role_score(cases: list[Case], merge_liquids: bool = False, context: set[tuple[str, int]] | None = None) -> Score:
    """Top role against the reader's, two-role rows at half weight; ``context`` keeps only those rows."""
    results = []
    for case in cases:
        _, attribution = attributed(
            as_lines([(row.name, row.cas, row.ec, row.stated, row.function) for row in case.rows])
        )
        for row, said in zip(case.rows, attribution.lines, strict=True):
            if not mapped(row) or (context is not None and (row.case, row.number) not in context):
                continue
            weight = 0.5 if len(row.roles) == 2 else 1.0
            accepted = (*row.roles, "preservative", "residue") if (row.case, row.number) in EITHER else row.roles
            hit = agrees(said.top.role, accepted, merge_liquids)
            also = ", ".join(f"{one.role} {one.probability:.2f}" for one in (*said.roles[1:3],))
            results.append(
                (
                    weight if hit else 0.0,
                    weight,
                    f"{case.id} {row.number}: {row.name[:50]!r} ({said.name}) "
                    f"{said.top.role} {said.top.probability:.2f} [{also}], reader {'/'.join(row.roles)}",
                )
            )
    return tally(results)


def mapped(row: Row) -> bool:
    """Whether the row counts for roles: a substance whose phrase maps to a role."""
    return row.kind == "substance" and bool(row.roles) and row.roles[0] != "unmappable"


def agrees(role: str, accepted: Iterable[str], merge_liquids: bool = False) -> bool:
    """Whether a role is among those accepted; carrier and cosolvent as one if asked."""
    liquids = {"carrier", "cosolvent"}
    return role in accepted or (merge_liquids and role in liquids and bool(liquids & set(accepted)))


def baseline(cases: list[Case], key: str, context: set[tuple[str, int]]) -> Score:
    """'Most frequent role of this ingredient' (or class) over the other cases, on the context rows."""
    rows = [row for case in cases for row in case.rows if mapped(row)]
    results = []
    for row in rows:
        if (row.case, row.number) in context:
            votes = Counter(
                other.roles[0] for other in rows if other.case != row.case and getattr(other, key) == getattr(row, key)
            )
            guess = min(votes, key=lambda role: (-votes[role], role)) if votes else "unexplained"
            weight = 0.5 if len(row.roles) == 2 else 1.0
            results.append((weight if guess in row.roles else 0.0, weight, ""))
    return tally(results)


class Declared(NamedTuple):
    """Scores on declared functions: all rows, rows whose ingredient's function varies, and the lookup on each."""

    all: Score
    varying: Score
    lookup_all: Score
    lookup_varying: Score


@cache
def function_roles() -> dict[str, tuple[str, ...]]:
    """Roles that each declared function may mean."""
    return {
        mark["function"]: tuple(mark[f"role_{n}"] for n in (1, 2, 3) if mark[f"role_{n}"])
        for mark in marks("declared_functions")
    }


def accepted_roles(row: dict[str, str]) -> tuple[str, ...]:
    """Roles that the maker's word may mean; none where the row does not count."""
    roles = function_roles().get(row["declared_function"], ())
    says_nothing = "unmappable" in roles[:1] or "fragrance" in roles or row["ingredient"].startswith("Proprietary")
    return () if says_nothing else roles


def declared_score(products: dict[str, list[dict[str, str]]]) -> Declared:
    """Top role against the maker's word; fragrance, withheld names and words that say nothing left out."""
    accepted = function_roles()
    votes: dict[str, Counter[str]] = defaultdict(Counter)
    by_product: dict[tuple[str, str], Counter[str]] = defaultdict(Counter)
    for product, rows in products.items():
        for row in rows:
            votes[key_of(row)][row["declared_function"]] += 1
            by_product[(product, key_of(row))][row["declared_function"]] += 1
    ours, lookup = [], []
    for product, rows in products.items():
        _, attribution = attributed(
            as_lines([(row["ingredient"], row["cas"] or None, None, None, None) for row in rows])
        )
        for row, said in zip(rows, attribution.lines, strict=True):
            roles = accepted_roles(row)
            if not roles:
                continue
            others = votes[key_of(row)] - by_product[(product, key_of(row))]
            guess = accepted.get(min(others, key=lambda one: (-others[one], one)), ()) if others else ()
            varies = len(votes[key_of(row)]) > 1
            what = (
                f"{product} {row['order']}: {row['ingredient']!r} {said.top.role} {said.top.probability:.2f}, "
                f"maker {row['declared_function']}"
            )
            ours.append((varies, (float(said.top.role in roles), 1.0, what)))
            lookup.append((varies, (float(bool(set(guess) & set(roles))), 1.0, what)))
    return Declared(
        tally(one for _, one in ours),
        tally(one for varies, one in ours if varies),
        tally(one for _, one in lookup),
        tally(one for varies, one in lookup if varies),
    )


def key_of(row: dict[str, str]) -> str:
    """What a lookup knows an ingredient by."""
    return row["cas"] or row["ingredient"].casefold()


def main(arguments: list[str]) -> None:
    """Print what was asked for."""
    wanted = {word for word in arguments if not word.startswith("--")} or {"identity", "roles", "declared"}
    if "--judged" in arguments:
        nodes.WEIGHTS = "judged"
    cases = gold_cases(SHARED)
    for title, split in (
        ("open", [case for case in cases if case.open]),
        ("held", [case for case in cases if not case.open]),
    ):
        show = "--misses" in arguments and (title == "open" or "--held" in arguments)
        if "identity" in wanted:
            substance, other = identity_score(split)
            report(substance, f"identity, {title}: rows that name a substance, identified", show)
            report(other, f"identity, {title}: class and withheld rows recognised", show)
        if "roles" in wanted:
            report(role_score(split), f"roles, {title}: top role agrees with the reader", show)
            report(
                role_score(split, merge_liquids=True), f"roles, {title}: the same, carrier and cosolvent as one", False
            )
    if "roles" in wanted:
        context = {(mark["case"], int(mark["row"])) for mark in marks("context_rows")}
        report(role_score(cases, context=context), f"roles: on the {len(context)} rows that depend on context", False)
        report(baseline(cases, "gold_name", context), "  'most frequent role of this ingredient' there", False)
        report(baseline(cases, "gold_class", context), "  'most frequent role of this class' there", False)
        print(f"{'chance level (one of the roles at random)':<66} {1 / (len(ROLES) - 1):6.1%}")
    if "declared" in wanted:
        declared = declared_score(disclosed_products(SHARED))
        report(declared.all, "declared functions of the products at hand", "--misses" in arguments)
        report(declared.lookup_all, "  a lookup that leaves the product out", False)
        report(declared.varying, "  ingredients whose declared function varies", False)
        report(declared.lookup_varying, "  the lookup there", False)


def report(score: Score, title: str, misses: bool) -> None:
    """Print one figure, and its misses if asked."""
    print(score.line(title))
    for miss in score.misses if misses else ():
        print("    " + miss)


if __name__ == "__main__":
    main(sys.argv[1:])
