"""Hard bounds: published and elementary cases, and the closed form against linear programming."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formulate.amounts.frame import Frame, frame
from formulate.amounts.hard import agrees, hard_bounds
from formulate.amounts.linear import Program


def ordered(count: int, **limits: tuple[float, float]) -> Frame:
    """A complete list of a law that asks for falling order above 1 %; limits by the name item_N, from 1."""
    low, high = np.zeros(count), np.ones(count)
    for name, (least, most) in limits.items():
        low[int(name[5:]) - 1], high[int(name[5:]) - 1] = least, most
    return frame(low, high, tuple(range(count)), 0.01)


def test_twelve_items_in_falling_order():
    """Elementary: the largest of twelve shares is at least a twelfth, the share at place i at most 1/i."""
    found = hard_bounds(ordered(12))
    assert found.low[0] == pytest.approx(1 / 12)
    assert found.low[1:] == pytest.approx(np.zeros(11))
    assert found.high == pytest.approx([1 / place for place in range(1, 13)])


def test_a_ceiling_puts_the_line_before_it():
    """Elementary:

    what stands behind an item of at most 0.05 % is at most 1 %, and water shares the rest with one other.
    """
    found = hard_bounds(ordered(4, item_3=(0, 0.0005)))
    assert found.high[3] == pytest.approx(0.01)
    assert found.low[0] == pytest.approx((1 - 0.0005 - 0.01) / 2)
    assert max(found.places) == 2


def test_a_ceiling_says_nothing_of_what_stands_before_it():
    """Elementary: the fourth of five is at most a quarter, whatever the ceiling of the fifth."""
    assert hard_bounds(ordered(5, item_5=(0, 0.01))).high[3] == pytest.approx(0.25)


def test_without_a_rule_each_can_be_anything():
    found = hard_bounds(frame([0] * 6, [1] * 6, rest=(0, 1)))
    assert found.low.tolist() == [0] * 6
    assert found.high.tolist() == [1] * 6
    assert found.rest == (0, 1)


def test_rows_of_a_sheet_have_no_order():
    found = hard_bounds(frame([0.01, 0.1], [0.05, 0.3], rest=(0, 1)))
    assert found.low == pytest.approx([0.01, 0.1])
    assert found.high == pytest.approx([0.05, 0.3])
    assert found.rest == pytest.approx((0.65, 0.89))


def test_limits_that_cannot_sum_are_impossible():
    assert not hard_bounds(frame([0.6, 0.5], [1, 1], rest=(0, 1))).possible
    assert not hard_bounds(frame([0, 0], [0.2, 0.3])).possible


def test_a_place_that_is_told_is_the_only_one():
    told = hard_bounds(frame([0] * 6, [1] * 6, tuple(range(6)), 0.01, place=2))
    assert told.places == (2,)
    assert told.high[2:] == pytest.approx([0.01] * 4)
    assert told.low[1] == pytest.approx(0.01)


def test_limits_outside_a_fraction_are_refused():
    with pytest.raises(ValueError, match="between 0 and 1"):
        frame([0, -0.1], [1, 1])
    with pytest.raises(ValueError, match="different shape"):
        frame([0], [1, 1])


def random_frame(chance: np.random.Generator) -> Frame:
    """Limits, an order over some or all items, a line and a rest, at random."""
    count = int(chance.integers(1, 9))
    low = np.where(chance.random(count) < 0.4, chance.random(count) * chance.choice([0.01, 0.3, 0.5]), 0)
    high = np.where(
        chance.random(count) < 0.5, np.minimum(1, low + chance.random(count) * chance.choice([0.02, 0.5, 1])), 1
    )
    some = np.sort(chance.choice(count, int(chance.integers(1, count + 1)), replace=False))
    order = tuple(int(item) for item in [np.arange(count), np.arange(0), some][int(chance.integers(3))])
    rest = (0.0, 0.0) if chance.random() < 0.5 else (0.0, float(chance.random()))
    return frame(low, high, order, float(chance.choice([0.01, 0.1, 0.0])), rest)


def closed_against_linear(cases: int, seed: int) -> tuple[float, int]:
    """Largest difference between the closed form and linear programming, and how many cases were possible."""
    chance, worst, possible = np.random.default_rng(seed), 0.0, 0
    for _ in range(cases):
        known = random_frame(chance)
        found, program = hard_bounds(known), Program(known)
        assert found.possible is bool(program.places)
        if not found.possible:
            continue
        possible += 1
        each = [(one, one) for one in np.eye(known.size + 1)]
        low, high = np.array(program.totals(each)).T
        difference = np.abs([np.append(found.low, found.rest[0]) - low, np.append(found.high, found.rest[1]) - high])
        worst = max(worst, float(difference.max()))
    return worst, possible


def test_closed_form_and_linear_programming_agree():
    """Against the library highspy."""
    worst, possible = closed_against_linear(250, seed=11)
    assert possible > 100
    assert worst < 1e-9


@pytest.mark.slow
def test_closed_form_and_linear_programming_agree_on_ten_thousand_cases():
    """Against the library highspy."""
    worst, possible = closed_against_linear(10_000, seed=12)
    assert possible > 4_000
    assert worst < 1e-9


@settings(max_examples=150, deadline=None)
@given(st.lists(st.floats(0.0, 1.0), min_size=2, max_size=10), st.integers(0, 2**31))
def test_a_true_composition_lies_within_its_bounds(weights: list[float], seed: int):
    """Any composition, listed as the law asks: in falling order above 1 %, shuffled below."""
    chance = np.random.default_rng(seed)
    mass = np.sort(np.array(weights) + 1e-6)[::-1]
    mass = mass / mass.sum()
    above = int((mass > 0.01).sum())
    mass = np.concatenate([mass[:above], chance.permutation(mass[above:])])
    found = hard_bounds(ordered(len(mass)))
    assert (found.low - 1e-12 <= mass).all()
    assert (mass <= found.high + 1e-12).all()
    assert agrees(ordered(len(mass)), mass)


@settings(max_examples=60, deadline=None)
@given(st.integers(0, 2**31))
def test_more_knowledge_never_widens(seed: int):
    chance = np.random.default_rng(seed)
    known = random_frame(chance)
    item = int(chance.integers(known.size))
    upper = known.upper.copy()
    upper[item] = known.lower[item] + (upper[item] - known.lower[item]) * chance.random()
    wide, narrow = hard_bounds(known), hard_bounds(known._replace(upper=upper))
    if narrow.possible:
        assert (narrow.low >= wide.low - 1e-12).all()
        assert (narrow.high <= wide.high + 1e-12).all()
