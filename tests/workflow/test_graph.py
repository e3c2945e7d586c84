"""Recomputation: only what has to run runs; undo is instant; early stop."""

from __future__ import annotations

import pytest

from formulate.errors import Stopped
from formulate.workflow.api import text_id
from formulate.workflow.graph import KEPT, Graph, Inputs, Node
from formulate.workflow.session import Session


def inputs(text: str, **options: str) -> Inputs:
    return Inputs(text, text_id(text), (), options)


def two_nodes() -> Graph:
    none: frozenset[str] = frozenset()
    return Graph(
        [
            Node("length", 1, (), none, (), lambda given, done: (len(given.text), {})),
            Node("even", 1, ("length",), none, ("form",), lambda given, done: (done["length"].value % 2 == 0, {})),
        ],
        "data",
    )


def test_equal_keys_run_once_and_other_options_again():
    graph = two_nodes()
    assert graph.get(inputs("four"), "even")["even"].value is True
    graph.get(inputs("four"), "even")
    assert graph.runs == {"length": 1, "even": 1}
    graph.get(inputs("four", form="spray"), "even")
    assert graph.runs == {"length": 1, "even": 2}


def test_an_equal_output_stops_recomputation_behind_it():
    graph = two_nodes()
    graph.get(inputs("four"), "even")
    graph.get(inputs("five"), "even")
    assert graph.runs == {"length": 2, "even": 1}


def test_the_store_is_bounded():
    graph = two_nodes()
    for number in range(KEPT + 10):
        graph.get(inputs("x" * number), "even")
    assert max(len(store) for store in graph._store.values()) == KEPT


def test_work_stops_when_asked():
    with pytest.raises(Stopped):
        two_nodes().get(inputs("four"), "even", stop=lambda: True)


def test_progress_names_every_node():
    seen = []
    two_nodes().get(inputs("four"), "even", progress=lambda done, total, doing: seen.append((done, total, doing)))
    assert seen == [(1, 2, "length"), (2, 2, "even")]


def test_correction_moves_figures_and_undo_brings_them_back():
    session = Session()
    session.paste("Aqua, Silica, Dimethicone, Potassium Hydroxide")
    line = session.answers().roles.ingredients[1].line
    preview = session.preview(line, "ingredient", "silica-sol")
    made = session.correct(line, "ingredient", "silica-sol", note="the sheet says sol")
    assert preview == made
    assert any(move.what == "line 2 is" and move.now == "silica-sol" for move in made)
    row = session.answers().roles.ingredients[1]
    assert row.ingredient == "silica-sol"
    assert row.corrected
    before = session._graph.runs.copy()
    session.undo()
    assert session.answers().roles.ingredients[1].ingredient == "silica"
    session.redo()
    assert session.answers().roles.ingredients[1].ingredient == "silica-sol"
    assert session._graph.runs == before


def test_a_correction_survives_lines_inserted_above():
    session = Session()
    session.paste("Aqua, Silica, Dimethicone")
    session.correct(session.answers().roles.ingredients[1].line, "ingredient", "silica-fumed")
    session.paste("Aqua, Glycerin, Ethanol, Silica, Dimethicone")
    assert [row.ingredient for row in session.answers().roles.ingredients][3] == "silica-fumed"


def test_a_new_edit_after_undo_keeps_what_was_undone_in_the_notes():
    session = Session()
    session.paste("Aqua, Silica")
    line = session.answers().roles.ingredients[1].line
    session.correct(line, "role", "abrasive")
    session.undo()
    session.correct(line, "role", "hard-particle")
    assert [edit.value for edit in session.case.edits] == ["hard-particle"]
    assert any("abrasive" in note for note in session.case.notes)


@pytest.mark.parametrize(
    ("typed", "low", "high", "open_"),
    [
        ("0.4-1.1 %", 0.004, 0.011, False),
        ("<2", None, 0.02, True),
        ("2.3+-0.2", 0.021, 0.025, False),
        ("5", 0.05, 0.05, False),
    ],
)
def test_typed_amounts_are_read(typed, low, high, open_):
    session = Session()
    session.paste("Aqua, Silica")
    session.correct(session.answers().read.lines[1].id, "amount", typed)
    stated = session.answers().read.lines[1].stated
    assert stated.low == (None if low is None else pytest.approx(low))
    assert stated.high == pytest.approx(high)
    assert stated.high_open is open_


@pytest.mark.parametrize("typed", ["120 %", "5-200", "9-3", "much"])
def test_an_amount_that_cannot_be_is_not_taken(typed):
    session = Session()
    session.paste("Aqua, Silica 2 %")
    session.correct(session.answers().read.lines[1].id, "amount", typed)
    assert session.answers().read.lines[1].stated.high == pytest.approx(0.02)


def test_a_typed_amount_is_told_as_a_correction():
    session = Session()
    session.paste("Aqua, Silica")
    session.correct(session.answers().read.lines[1].id, "amount", "4 %", note="from the maker's sheet")
    answer = session.answers().read
    kinds = {reason.kind for reason in answer.reasons.values() if "from the maker's sheet" in reason.says}
    assert kinds == {"corrected"}


def test_a_dropped_line_is_shown_as_left_over():
    session = Session()
    session.paste("Aqua, Silica, Dimethicone")
    session.correct(session.answers().read.lines[1].id, "drop", "yes")
    assert "Silica" in [left.text.strip() for left in session.answers().read.left_over]


def test_a_dropped_line_is_gone_and_comes_back():
    session = Session()
    session.paste("Aqua, Silica, Dimethicone")
    session.correct(session.answers().read.lines[1].id, "drop", "yes")
    assert [line.name for line in session.answers().read.lines] == ["Aqua", "Dimethicone"]
    session.undo()
    assert len(session.answers().read.lines) == 3
