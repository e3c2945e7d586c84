"""Firings to probabilities: the rule of combination, checked by hand."""

from __future__ import annotations

import math
from types import SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulate.attribution.score import PRIOR_OTHER, PRIOR_USUAL, score_roles, strongest


def firing(role: str, odds: float, group: str = "identity", rule: str = "r"):
    return SimpleNamespace(role=role, log_odds=odds, rule=SimpleNamespace(group=group, id=rule))


def test_within_a_group_only_the_strongest_for_and_against_count():
    total, counted = strongest([firing("carrier", 2.0, rule="a"), firing("carrier", 1.0, rule="b"),
                                firing("carrier", -0.5, rule="c"), firing("carrier", -2.0, rule="d")])  # fmt: skip
    assert total == 0.0
    assert [one.rule.id for one in counted] == ["a", "d"]


def test_across_groups_log_odds_add_to_the_prior():
    scores = score_roles([firing("carrier", 2.0), firing("carrier", 1.5, "context")], frozenset({"carrier"}))
    top = scores[0]
    assert top.score == pytest.approx(2.0 + 1.5 + PRIOR_USUAL)
    # softmax against 'unexplained' at 0, computed here: e^2.5 / (1 + e^2.5)
    assert top.main == pytest.approx(math.exp(2.5) / (1 + math.exp(2.5)))
    assert top.also == pytest.approx(1 / (1 + math.exp(-2.5)))


def test_an_unusual_role_needs_more():
    assert score_roles([firing("carrier", 2.0)], frozenset())[0].role == "unexplained"
    assert score_roles([firing("carrier", 2.0)], frozenset())[1].score == pytest.approx(2.0 + PRIOR_OTHER)


def test_a_role_that_only_rules_against_is_no_candidate():
    assert [one.role for one in score_roles([firing("carrier", -2.0)], frozenset({"carrier"}))] == ["unexplained"]


ROLES = st.sampled_from(["carrier", "binder", "abrasive"])
FIRINGS = st.lists(
    st.builds(firing, ROLES, st.floats(-6, 6).filter(bool), st.sampled_from(["identity", "context", "amount", "hint"]),
              st.text("abc", min_size=1, max_size=3)), max_size=12,
)  # fmt: skip


@given(FIRINGS, st.randoms())
def test_order_does_not_matter_and_probabilities_sum_to_one(firings, chance):
    scores = score_roles(firings, frozenset({"carrier"}))
    assert sum(one.main for one in scores) == pytest.approx(1)
    shuffled = list(firings)
    chance.shuffle(shuffled)
    again = {one.role: one.main for one in score_roles(shuffled, frozenset({"carrier"}))}
    assert again == pytest.approx({one.role: one.main for one in scores})


@given(FIRINGS, st.floats(0.1, 6))
def test_more_support_never_lowers_a_role(firings, odds):
    before = {one.role: one.score for one in score_roles(firings, frozenset())}
    after = {one.role: one.score for one in score_roles([*firings, firing("carrier", odds)], frozenset())}
    assert after["carrier"] >= before.get("carrier", -math.inf)
