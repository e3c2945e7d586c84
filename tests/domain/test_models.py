"""Frozen values, ranges in order, contract names."""

import pytest
from pydantic import ValidationError

from formulate.domain.interval import Range, certainty_word
from formulate.domain.line import Match, line_id
from formulate.workflow.answers import ErrorAnswer, ErrorSaid


def test_range_out_of_order_is_refused():
    with pytest.raises(ValidationError, match="low <= best <= high"):
        Range(low=0.3, best=0.2, high=0.4, level=0.9, unit="1", why="r")


@pytest.mark.parametrize(
    ("probability", "word"),
    [(0.9, "sure"), (0.89, "likely"), (0.6, "likely"), (0.59, "open"), (0.0, "open"), (None, "-")],
)
def test_certainty_words_follow_the_table(probability, word):
    # the table: sure >= 0.9, likely >= 0.6, open below, '-' unknown
    assert certainty_word(probability) == word


def test_line_ids_tell_occurrences_apart_and_survive():
    assert line_id("Water", 1) == line_id("Water", 1)
    assert line_id("Water", 1) != line_id("Water", 2)


def test_contract_names_are_written():
    match = Match(how="none", confidence=0.0, class_="other", name_read="x")
    assert match.model_dump()["class"] == "other"
    error = ErrorAnswer(error=ErrorSaid(reference="r", what="a", at="b", why="c", try_="d"))
    assert error.model_dump(mode="json") == {
        "schema": "formulate/error/1",
        "error": {"reference": "r", "what": "a", "at": "b", "why": "c", "try": "d"},
    }
