"""Reasons: ids hash content, no cycles, words and numbers agree."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulate.domain.place import Citation, LineIndex
from formulate.domain.reason import Ledger, leaves, tree


def test_same_reason_is_one_reason():
    ledger = Ledger()
    first = ledger.add("assumed", "the {part} is {share:.0%}", {"part": "wax", "share": 0.5})
    second = ledger.add("assumed", "the {part} is {share:.0%}", {"part": "wax", "share": 0.5})
    assert first == second
    assert ledger[first].says == "the wax is 50%"
    assert len(ledger) == 1


def test_a_reason_can_only_rest_on_what_exists():
    with pytest.raises(KeyError, match="not in the ledger"):
        Ledger().add("calculated", "so", because=("nothing",))


def test_unknown_value_reads_not_known():
    ledger = Ledger()
    key = ledger.add("assumed", "the amount is {amount}", {"amount": None})
    assert ledger[key].says == "the amount is not known"


def test_tree_and_closure_hold_what_a_reason_rests_on():
    ledger = Ledger()
    leaf = ledger.add("looked-up", "a", citations=(Citation(source="s", at="p. 1"),))
    other = ledger.add("assumed", "b")
    top = ledger.add("calculated", "c", because=(leaf, other))
    assert [node.says for node in leaves(tree(ledger, top))] == ["a", "b"]
    assert set(ledger.closure([top])) == {leaf, other, top}
    assert set(ledger.closure([leaf])) == {leaf}


@given(st.text(), st.data())
def test_places_of_any_text_point_at_their_stretch(text, data):
    index = LineIndex.of("t", text)
    start = data.draw(st.integers(0, len(text)))
    place = index.place(start, len(text))
    lines = text.split("\n")
    assert lines[place.line - 1][place.column - 1 :] == text[start:].split("\n")[0]
