"""The gate: hostile text becomes visible marks, ordinary text of any script stays as it is."""

import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from wcwidth import wcswidth

import formulate
from formulate.workflow.gate import MOST_MARKS, cut, padded, shown
from tests.hostile import FORBIDDEN, HOSTILE


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_nothing_hostile_passes(text):
    assert not [char for char in FORBIDDEN if char in shown(text)]
    assert "\u0301" * (MOST_MARKS + 1) not in shown(text)


@pytest.mark.parametrize("text", HOSTILE.values(), ids=HOSTILE)
def test_models_keep_the_text_as_it_came(text):
    answer = formulate.read(text)
    stretches = [line.raw for line in answer.lines] + [left.text for left in answer.left_over]
    assert stretches
    for line in answer.lines:
        assert text[line.place.start : line.place.end] == line.raw
    for left in answer.left_over:
        assert text[left.place.start : left.place.end] == left.text


@pytest.mark.parametrize(
    "text", ["Węglan sodu, Glycérine", "水, 硅油", "вода; ланолин", "σ-xylene ½ µm ≤ 5 %", "naïve [a]"]
)
def test_ordinary_text_stays(text):
    assert shown(text) == text


@example("0000\U000111450", 5)
@given(st.text(), st.integers(1, 60))
def test_cut_and_padded_keep_their_width(text, width):
    assert wcswidth(cut(text, width)) <= width
    assert wcswidth(padded(text, width)) == width


@given(st.text())
def test_what_was_shown_passes_again_unchanged(text):
    assert shown(shown(text)) == shown(text)
