"""The fit computes what the program computes, and does with made rows what it should."""

from __future__ import annotations

import math

import numpy as np
import pytest

from formulate.catalog.store import open_catalog
from formulate.workflow.nodes import judged_rules
from tests.evaluation.fit_weights import LEAST, design, fit, probabilities
from tests.evaluation.material import as_lines
from tests.evaluation.spoken_rows import Candidate, Marked, Reader, Spoken, Weight
from tests.rules.engine_room import judge, prepare

NAMES = (
    "Water",
    "Sodium Laureth Sulfate",
    "Glycerin",
    "Amodimethicone",
    "Trideceth-7",
    "Isopropanol",
    "Phenoxyethanol",
)


def test_probabilities_are_those_of_the_program():
    open_catalog()
    reader = Reader()
    lines = as_lines([(name, None, None, None, None) for name in NAMES])
    rows = reader.rows("made", lines, [frozenset({"carrier"})] * len(lines))
    theta = np.array([weight.judged for weight in reader.weights])
    made = design(rows, theta)
    share = probabilities(made, theta)
    ours = judge(prepare(", ".join(NAMES), {}), judged_rules())
    for number, (row, line) in enumerate(zip(rows, ours.lines, strict=True)):
        found = dict(
            zip([one.role for one in row.candidates] + ["unexplained"], share[made.row == number], strict=True)
        )
        assert found == pytest.approx({one.role: one.probability for one in line.roles})


WEIGHTS = [Weight("prior", "usual", -1.0), Weight("prior", "other", -3.0), Weight("one", "main", 3.0)]


def made_rows(right: int, wrong: int) -> list[Marked]:
    """Rows in which rule "one" alone proposes builder, which is right in some."""
    candidate = (Candidate("builder", 0, (Spoken(2, 1.0, "identity"),)),)
    roles = ["builder"] * right + ["chelator"] * wrong
    return [Marked(f"made-{number}", candidate, frozenset({role})) for number, role in enumerate(roles)]


def test_without_a_ridge_the_fit_is_the_share_that_is_right():
    theta = fit(made_rows(300, 100), WEIGHTS, 1e-9, priors=False)
    assert theta[2] - 1.0 == pytest.approx(math.log(3), abs=1e-3)  # log-odds of three to one; closed form
    assert list(theta[:2]) == [-1.0, -3.0]


def test_a_ridge_holds_the_weight_near_the_judged_one_and_few_rows_leave_it():
    loose, tight = (fit(made_rows(30, 30), WEIGHTS, ridge, priors=False)[2] for ridge in (0.1, 100.0))
    assert 1.0 < loose < tight < 3.0
    assert fit(made_rows(0, LEAST - 1), WEIGHTS, 0.1, priors=False)[2] == 3.0
    assert fit(made_rows(0, 400), WEIGHTS, 1e-6, priors=False)[2] == pytest.approx(0.05), "a weight keeps its sign"
