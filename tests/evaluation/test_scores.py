"""The figures that the first issue asks for, on the shared material; skipped where it is absent.

What is not reached stands in ``score.py``'s print and in the note of the session, not here as a loosened bound.
"""

from __future__ import annotations

import pytest

from tests.evaluation.material import Case, disclosed_products, gold_cases, marks
from tests.evaluation.score import baseline, declared_score, identity_score, role_score


@pytest.fixture(scope="module")
def cases(shared) -> list[Case]:
    return gold_cases(shared)


@pytest.mark.parametrize("half", ["open", "held"])
def test_substances_are_identified_in_both_halves(cases, half):
    substance, _ = identity_score([case for case in cases if case.open is (half == "open")])
    assert substance.share >= 0.96, substance.line(half)


def test_97_of_100_substances_are_identified(cases):
    substance, _ = identity_score(cases)
    assert substance.share >= 0.97, substance.line("all")


def test_top_role_agrees_with_the_reader(cases):
    score = role_score(cases)
    assert score.share >= 0.86, score.line("all")


def test_context_beats_the_most_frequent_role(cases):
    context = {(mark["case"], int(mark["row"])) for mark in marks("context_rows")}
    ours = role_score(cases, context=context)
    assert ours.share >= 0.80, ours.line("context")
    assert ours.share > baseline(cases, "gold_name", context).share
    assert ours.share > baseline(cases, "gold_class", context).share


def test_declared_functions_agree_and_beat_the_lookup(shared):
    declared = declared_score(disclosed_products(shared))
    assert declared.all.share >= 0.90, declared.all.line("declared")
    assert declared.all.share > declared.lookup_all.share
    assert declared.varying.share >= 0.88, declared.varying.line("varying")  # as good as the lookup, not better
