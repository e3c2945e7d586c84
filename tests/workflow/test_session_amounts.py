"""Amounts of a case: slow work stops when told, what was said is read or refused, what moved is told."""

from __future__ import annotations

import pytest

from formulate.errors import Stopped, UsageError
from formulate.workflow.amount_edits import check_edit, measured_edit
from formulate.workflow.bars import bar
from formulate.workflow.session import Session
from tests.tui.conftest import CHURCH_FLOOR


@pytest.fixture(scope="module")
def session():
    session = Session({})
    session.paste(CHURCH_FLOOR)
    return session


def test_draws_stop_between_two_sweeps_and_leave_nothing_behind(session):
    asked = []

    def stop() -> bool:
        asked.append(1)
        return len(asked) > 20

    with pytest.raises(Stopped):
        session.drawn(session.case, stop)
    assert len(asked) == 21
    told = []
    assert session.drawn(session.case, progress=lambda done, wanted, doing: told.append((done, wanted))).sampling
    assert told[-1] == (4000, 4000)
    assert session.drawn(session.case) is session.drawn(session.case)


def test_what_is_certain_does_not_draw(session):
    runs = session._graph.runs["draws"]
    answer = session.bounded(session.would("/rule", "rule", "us-cosmetic-label"))
    assert session._graph.runs["draws"] == runs
    assert answer.sampling is None
    assert all(row.plausible is None and row.hard is not None for row in answer.ingredients)


def test_a_rule_moves_limits_and_tells_which(session):
    moved = session.amounts_moved(session.case, session.would("/rule", "rule", "eu-label"))
    told = {one.what: (one.was, one.now) for one in moved}
    # nine in falling order: the fourth is at most a quarter, the ninth at most a ninth
    assert told["Silica (form not said)"] == ("0 - 100 %", "0 - 25 %")
    assert told["Phenoxyethanol"] == ("0 - 100 %", "0 - 11.1 %")


@pytest.mark.parametrize(
    ("field", "value"),
    [("rule", "king"), ("measured", "king=2"), ("measured", "nonvolatile=2.3"), ("means", "both"), ("amount", "5-2 %")],
)
def test_what_cannot_be_read_is_refused(field, value):
    with pytest.raises(UsageError) as refused:
        check_edit(field, value)
    assert refused.value.try_


def test_a_measurement_is_taken_back_by_a_question_mark():
    assert measured_edit("Density = 0.98") == ("/measured/density", "density=0.98")
    assert measured_edit("density=?") == ("/measured/density", None)


@pytest.mark.parametrize(
    ("hard", "drawn"),
    [
        ((0.0, 1.0), "├──────────────────┤"),
        ((1e-5, 1e-5), "│                   "),
        ((1.0, 1.0), "                   │"),
        ((0.0, 0.01), "├──────────┤        "),
    ],
)
def test_bars_stand_on_a_log_scale_of_five_decades(hard, drawn):
    assert bar(hard, None) == drawn


def test_likely_amounts_keep_to_a_line_that_was_said(session):
    ruled = session.would("/rule", "rule", "eu-label")
    before, session.case = session.case, ruled
    line = session.bounded(ruled).ingredients[5].line
    answer = session.drawn(session.would(line, "one-percent-line", "yes"))
    session.case = before
    for row in answer.ingredients:
        assert row.hard[0] - 1e-9 <= row.plausible.low
        assert row.plausible.high <= row.hard[1] + 1e-9
