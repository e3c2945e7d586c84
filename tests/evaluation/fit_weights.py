"""Fits the weights of the role rules on declared functions and prints them beside the judged ones.

python tests/evaluation/fit_weights.py [--priors] [--weights] [--write]

The model is the one of ``attribution/score.py``; what is maximised is the likelihood of the declared functions less a
ridge towards the judged weights. The probability of a row is that of all roles its word may mean; where no rule
proposes any of them, that of 'unexplained'. Figures called left out come from weights that saw neither the product
nor any product whose list is nearly the same. The ridge is the one with the least loss on products left out and the
open readings together; the held readings see none of this. ``--write`` puts the weights fitted on all products into
``data_public/rule_weights.csv``.

A word such as "Solvent" is right for several roles, so the certainty of one role says too little of whether the row
is right: the calibration of declared rows compares the certainty of all roles that the makers' commonest word for
the first role does not tell apart.
"""

from __future__ import annotations

import csv
import sys
from collections import Counter
from collections.abc import Callable, Sequence
from functools import partial
from pathlib import Path
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import minimize

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from tests.conftest import ROOT
from tests.evaluation.material import is_open
from tests.evaluation.spoken_rows import (
    Marked,
    Reader,
    Spoken,
    Weight,
    declared_rows,
    fitted_to,
    reading_rows,
    spoken_rows,
)

Floats = NDArray[np.float64]
SEED = 20261125
FOLDS = 10
RIDGES = (1.0, 3.0, 10.0, 30.0)
"""Ridges tried, in 1/log-odds squared: 1 says that a judged weight is trusted to about one unit of log-odds."""
LEAST = 5
"""Rows in which a rule must have spoken before its weight is fitted."""
FEW = 100
"""Rows below which a bin says too little."""
ROUNDS = 8
"""Times the strongest rule of each group is chosen anew; the choice stands after two or three."""
TABLE = ROOT / "data_public" / "rule_weights.csv"


class Design(NamedTuple):
    """Scores as a product: one line of ``matrix`` for each candidate, ``row`` says whose, ``hit`` whether accepted."""

    matrix: Floats
    row: NDArray[np.int64]
    hit: NDArray[np.bool_]
    rows: int


def design(rows: Sequence[Marked], theta: Floats) -> Design:
    """The candidates of all rows, with the strongest rule of each group and side under these weights."""
    lines, row, hit = [], [], []
    for number, marked in enumerate(rows):
        for one in marked.candidates:
            line = np.zeros(len(theta))
            line[one.prior] = 1.0
            best: dict[tuple[str, bool], Spoken] = {}
            for said in one.spoken:
                strength = theta[said.weight] * said.certainty
                key = (said.group, strength > 0)
                if key not in best or abs(strength) > abs(theta[best[key].weight] * best[key].certainty):
                    best[key] = said
            for said in best.values():
                line[said.weight] += said.certainty
            lines.append(line)
            row.append(number)
            hit.append(one.role in marked.accepted)
        lines.append(np.zeros(len(theta)))
        row.append(number)
        hit.append(not any(one.role in marked.accepted for one in marked.candidates))
    return Design(np.array(lines), np.array(row), np.array(hit), len(rows))


def probabilities(made: Design, theta: Floats) -> Floats:
    """Probability of each candidate as main purpose."""
    score = made.matrix @ theta
    top = np.full(made.rows, -np.inf)
    np.maximum.at(top, made.row, score)
    strength = np.exp(score - top[made.row])
    return strength / np.bincount(made.row, strength, made.rows)[made.row]


def fit(rows: Sequence[Marked], weights: Sequence[Weight], ridge: float, priors: bool) -> Floats:
    """Weights of greatest penalised likelihood; each keeps its sign, none passes 6. Priors stay unless asked for."""
    rows = fitted_to(rows)
    counted = spoken_rows(rows)
    judged = np.array([weight.judged for weight in weights])
    bounds = [(0.05, 6.0) if weight.judged > 0 else (-6.0, -0.05) for weight in weights]
    for number, weight in enumerate(weights):
        if counted[number] < LEAST or (weight.rule == "prior" and not priors):
            bounds[number] = (weight.judged, weight.judged)
    theta = judged.copy()
    for _ in range(ROUNDS):
        made = design(rows, theta)

        def loss(at: Floats, made: Design = made) -> tuple[float, Floats]:
            share = probabilities(made, at)
            right = np.bincount(made.row[made.hit], share[made.hit], made.rows)
            pull = share - np.where(made.hit, share / right[made.row], 0.0)
            off = at - judged
            return float(-np.log(right).sum() + ridge / 2 * off @ off), made.matrix.T @ pull + ridge * off

        found = minimize(loss, theta, jac=True, method="L-BFGS-B", bounds=bounds).x
        if np.abs(found - theta).max() < 1e-3:
            return np.asarray(found)
        theta = found
    return np.asarray(theta)


class Figures(NamedTuple):
    """What weights say of each row: certainty of the first role, whether it is right, whether it is a role at all,
    and -log of the share of the accepted roles."""

    sure: Floats
    right: NDArray[np.bool_]
    explained: NDArray[np.bool_]
    surprise: Floats

    @property
    def error(self) -> float:
        """Expected calibration error of the first role over ten bins, rows called unexplained left out."""
        return sum(abs(gap) * count for _, count, gap in self.bins()) / max(int(self.explained.sum()), 1)

    def bins(self) -> list[tuple[int, int, float]]:
        """Tenth, rows in it, share that is right less certainty claimed."""
        sure, right = self.sure[self.explained], self.right[self.explained]
        tenth = np.minimum((sure * 10).astype(int), 9)
        return [
            (int(bin_), int((tenth == bin_).sum()), float(right[tenth == bin_].mean() - sure[tenth == bin_].mean()))
            for bin_ in np.unique(tenth)
        ]

    def line(self, title: str) -> str:
        """One line of the report."""
        return (
            f"{title:<44} {self.right.mean():6.1%} right, log loss {self.surprise.mean():.3f}, "
            f"calibration error {self.error:.3f}  ({len(self.sure)} rows)"
        )


Groups = dict[str, frozenset[str]]


def judge(rows: Sequence[Marked], theta: Floats, groups: Groups | None = None) -> Figures:
    """Figures of weights on rows; the certainty is that of the group of the first role if groups are given."""
    made = design(rows, theta)
    share = probabilities(made, theta)
    accepted = np.bincount(made.row[made.hit], share[made.hit], made.rows)
    sure, right, explained = [], [], []
    for number, marked in enumerate(rows):
        shares = share[made.row == number]
        first = int(np.argmax(shares))
        role = marked.candidates[first].role if first < len(marked.candidates) else "unexplained"
        meant = (groups or {}).get(role, frozenset({role}))
        together = [one.role in meant for one in marked.candidates] + [role == "unexplained"]
        sure.append(float(shares[together].sum()))
        right.append(role in marked.accepted)
        explained.append(role != "unexplained")
    return Figures(np.array(sure), np.array(right), np.array(explained), -np.log(accepted))


def word_groups(rows: Sequence[Marked]) -> Groups:
    """For each role the roles of the commonest word that may mean it."""
    words = Counter(row.accepted for row in rows)
    roles = {role for word in words for role in word}
    return {
        role: max((word for word in words if role in word), key=lambda word: (words[word], sorted(word)))
        for role in roles
    }


def joined(parts: Sequence[Figures]) -> Figures:
    """Figures of several folds as one."""
    return Figures(*(np.concatenate(part) for part in zip(*parts, strict=True)))


def folds(names: Sequence[str], seed: int) -> list[frozenset[str]]:
    """Names dealt into folds."""
    shuffled = np.random.default_rng(seed).permutation(sorted(set(names)))
    return [frozenset(map(str, shuffled[start::FOLDS])) for start in range(min(FOLDS, len(shuffled)))]


Fit = Callable[[Sequence[Marked]], Floats]


def held_out(rows: Sequence[Marked], seed: int, fitted: Fit, groups: Groups | None = None) -> Figures:
    """Figures of each fold under weights fitted on the others; ``product`` of the rows names the family."""
    parts = []
    for fold in folds([row.product for row in rows], seed):
        theta = fitted([row for row in rows if row.product not in fold])
        parts.append(judge([row for row in rows if row.product in fold], theta, groups))
    return joined(parts)


def best_ridge(rows: Sequence[Marked], readings: Sequence[Marked], weights: Sequence[Weight], priors: bool) -> float:
    """The ridge with the least loss on products left out of these rows and on readings together."""
    loss = {}
    for ridge in RIDGES:
        out = held_out(rows, SEED + 1, partial(fit, weights=weights, ridge=ridge, priors=priors))
        read = judge(readings, fit(rows, weights, ridge, priors))
        loss[ridge] = out.surprise.sum() + read.surprise.sum()
    return min(loss, key=lambda ridge: float(loss[ridge]))


def write(weights: Sequence[Weight], theta: Floats, rows: Counter[int]) -> None:
    """Put the fitted weights of rules that spoke often enough into the table."""
    with TABLE.open("w", encoding="utf-8", newline="") as stream:
        out = csv.writer(stream, lineterminator="\n")
        out.writerow(["rule", "part", "judged", "fitted", "rows"])
        for number, weight in enumerate(weights):
            if rows[number] >= LEAST and weight.rule != "prior":
                out.writerow([weight.rule, weight.part, weight.judged, round(float(theta[number]), 2), rows[number]])


def main(arguments: Sequence[str]) -> None:
    """Print figures of both sets of weights, and what was fitted."""
    priors = "--priors" in arguments
    reader = Reader()
    weights = reader.weights
    judged = np.array([weight.judged for weight in weights])
    declared, readings = declared_rows(reader), reading_rows(reader)
    opened = [row for row in readings if is_open(row.product)]
    held = [row for row in readings if not is_open(row.product)]
    counted = spoken_rows(fitted_to(declared))
    groups = word_groups(declared)
    kin = len({row.product for row in declared})
    enough = [number for number in counted if counted[number] >= LEAST]
    print(f"{len(declared)} rows of products in {kin} families; {len(fitted_to(declared))} rows to fit to")
    print(f"{len(counted)} of {len(weights)} weights spoke there, {len(enough)} of them in {LEAST} rows or more")

    def nested(some: Sequence[Marked]) -> Floats:
        return fit(some, weights, best_ridge(some, opened, weights, priors), priors)

    ridge = best_ridge(declared, opened, weights, priors)
    theta = fit(declared, weights, ridge, priors)
    sets: list[tuple[str, Figures]] = [
        ("declared, judged", judge(declared, judged, groups)),
        ("declared, fitted, left out", held_out(declared, SEED, nested, groups)),
        (f"declared, fitted on these rows (ridge {ridge:g})", judge(declared, theta, groups)),
        ("open readings of other products, judged", judge(opened, judged)),
        ("open readings of other products, fitted", judge(opened, theta)),
        ("held readings of other products, judged", judge(held, judged)),
        ("held readings of other products, fitted", judge(held, theta)),
    ]
    for title, figures in sets:
        print(figures.line(title))
        for tenth, count, gap in figures.bins():
            note = "  (too few to say anything)" if count < FEW else ""
            print(
                f"    {tenth / 10:.1f} to {(tenth + 1) / 10:.1f}: {count:4d} rows, right less claimed {gap:+.3f}{note}"
            )
    if "--weights" in arguments:
        for number in sorted(enough, key=lambda one: -abs(theta[one] - judged[one])):
            rule, part, was = weights[number]
            print(f"{rule:<32} {part:<6} {was:+.2f} -> {theta[number]:+.2f}  ({counted[number]} rows)")
    if "--write" in arguments:
        write(weights, theta, counted)


if __name__ == "__main__":
    main(sys.argv[1:])
