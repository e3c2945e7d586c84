"""Whatever is pasted: no exception, places inside the text, nothing lost, time in proportion to length."""

from __future__ import annotations

import re
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formulate.domain.line import Reading
from formulate.errors import InputError
from formulate.reading import check_list_size, read_text
from tests.reading.test_lists import known

PIECES = st.sampled_from(
    [
        "Water",
        "Wax",
        "C11-C14",
        "PEG-8",
        "5 %",
        "<1%",
        "1 - 5",
        ">= 10 - < 25 %",
        "64-17-5",
        "200-578-6",
        ", ",
        "; ",
        "\n",
        " ",
        "\t",
        " | ",
        "\u2022 ",
        "1. ",
        "(",
        ")",
        "[",
        "]",
        "Ingredients: ",
        "may contain ",
        " and ",
        "H225",
        "mg/m3",
        "CAS",
        "%",
        "Name",
        "Section 3",
        "pH 7",
        "composition/information on ingredients",
        "<td>",
        "&lt;",
        "\x1b[0m",
        "'",
        '"',
        "\u0000",
        "trade secret",
        "-",
        "/",
        ".",
        "proprietary",
        "\u5927",
        "distillates, ",
    ]
)
TEXTS = st.one_of(
    st.text(max_size=300), st.lists(PIECES, max_size=60).map("".join), st.lists(PIECES, max_size=60).map(" ".join)
)


GLUE = {"and", "und", "et", "or", "plus", "also", "of", "the", "may", "contain", "td", "lt", "0m"}


def unaccounted(text: str, reading: Reading) -> list[str]:
    """Words of a text that are in no line, fact or left-over and are no mark between lines."""
    kept = list(text)
    for place in [one.place for one in (*reading.lines, *reading.facts.values(), *reading.left_over)]:
        kept[place.start : place.end] = " " * (place.end - place.start)
    raws = " ".join(line.raw for line in reading.lines)
    words = re.findall(r"[^\W_]+", "".join(kept))
    return [word for word in words if word.lower() not in GLUE and len(word) > 1 and word not in raws]


@settings(max_examples=300, deadline=None)
@given(st.lists(PIECES, max_size=50).map(" ".join))
def test_nothing_is_dropped_silently(text: str) -> None:
    assert unaccounted(text, read_text(text, "t", known)[0]) == []


@settings(max_examples=400, deadline=None)
@given(TEXTS)
def test_never_raises_and_places_hold(text: str) -> None:
    reading, ledger = read_text(text, "t", known)
    for line in reading.lines:
        assert 0 <= line.place.start < line.place.end <= len(text)
        assert line.name.strip()
        if line.place.end - line.place.start == len(line.raw):
            assert text[line.place.start : line.place.end] == line.raw
        assert all(word in text for word in line.raw.split())
        if line.stated is not None:
            assert line.stated.text in text
            if line.stated.low is not None and line.stated.high is not None:
                assert 0 <= line.stated.low <= line.stated.high <= 1.0001
    for piece in reading.left_over:
        assert text[piece.place.start : piece.place.end] == piece.text
    for fact in reading.facts.values():
        assert text[fact.place.start : fact.place.end] == fact.text
    assert [line.position for line in reading.lines] == list(range(1, len(reading.lines) + 1))
    assert len({line.id for line in reading.lines}) == len(reading.lines)
    assert all(reason.kind == "pasted" for reason in ledger.values())


@settings(max_examples=100, deadline=None)
@given(TEXTS)
def test_the_same_text_reads_the_same(text: str) -> None:
    assert read_text(text, "t", known)[0] == read_text(text, "t", known)[0]


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.sampled_from(["Silica", "Montan wax", "Glycerin", "PEG-8", "Limonene"]), min_size=2, max_size=12),
    st.sampled_from([", ", "\n", "; "]),
)
def test_an_inserted_line_keeps_the_ids_of_the_others(names: list[str], between: str) -> None:
    before = {line.id for line in read_text(between.join(names), "t", known)[0].lines}
    after = {line.id for line in read_text(between.join(["Carnauba wax", *names]), "t", known)[0].lines}
    assert before <= after


LONG = {
    "one word": "a" * 100_000,
    "words": "wax and oil " * 8_000,
    "open brackets": "(" * 100_000,
    "brackets": "()" * 50_000,
    "dashes": "-" * 100_000,
    "equals": "=" * 100_000,
    "digits": "5" * 100_000,
    "digits apart": "5 " * 50_000,
    "ranges": "1-" * 50_000,
    "comparisons": "< " * 50_000,
    "tags": "<p" * 50_000,
    "blanks": " " * 100_000,
    "tabs": "\t" * 100_000,
    "line breaks": "\n" * 100_000,
    "headings": "Ingredients: " * 7_700,
    "sections": "section 3 " * 10_000,
    "escape sequences": "\x1b[" * 50_000,
    "less than": "less than " * 10_000,
    "quotes": '"' * 100_000,
    "numbers": "7732-18-5 " * 10_000,
    "may contain": "may contain " * 8_300,
    "slashes": "a/" * 50_000,
}


@pytest.mark.parametrize("shape", sorted(LONG))
def test_a_line_of_100_kb_is_quick(shape: str) -> None:
    text = LONG[shape]
    best = min(_seconds(text) for _ in range(2))
    assert best < 0.6, f"{best:.2f} s"


@pytest.mark.parametrize(
    "unit",
    ["water, ", "wax 5 %, ", "water\n", "ethanol 64-17-5 5 %\n", "wax ", "(", "5 ", "- ", "distillates, petroleum, "],
)
def test_time_grows_in_proportion(unit: str) -> None:
    small, large = unit * (8_000 // len(unit)), unit * (64_000 // len(unit))
    read_text(small, "t", known)
    assert min(_seconds(large) for _ in range(2)) < 8 * 2.5 * min(_seconds(small) for _ in range(3)) + 0.02


def test_ten_megabytes_around_a_section_take_seconds_not_minutes() -> None:
    around = "The roof of the greenhouse is washed twice a year and then left to dry in the sun.\n" * 60_000
    text = (
        around
        + "SECTION 3: Composition/information on ingredients\nEthanol 64-17-5 5 - 10 %\nGlycerin 56-81-5 1 %\n"
        + "SECTION 4: First aid measures\n"
        + around
    )
    start = time.perf_counter()
    reading, _ = read_text(text, "t", known)
    assert [line.name for line in reading.lines] == ["Ethanol", "Glycerin"]
    assert time.perf_counter() - start < 4


def test_a_list_that_is_too_long_is_refused_or_cut_with_a_note() -> None:
    text = "Ingredients: " + "water, " * 30_000
    with pytest.raises(InputError) as caught:
        check_list_size(text)
    assert caught.value.reference == "too-large"
    assert "20,000 lines" in caught.value.why
    reading, _ = read_text(text, "t", known)
    assert len(reading.lines) <= 20_000
    assert any("not read" in note for note in reading.notes)
    assert reading.left_over[-1].place.end > len(text) - 5
    check_list_size("Ingredients: water, wax")


def _seconds(text: str) -> float:
    start = time.perf_counter()
    read_text(text, "t", known)
    return time.perf_counter() - start


def test_a_row_that_is_wider_than_its_head() -> None:
    """Found by fuzzing: the columns beyond the head had no count."""
    reading, _ = read_text(
        "Compound: S | 5 |\n|---|---|---|\n| Wax | Oil | 64-17 | 5 | 7 |\n| Wax | 3 | 4 | 5 | 6 |", "t", known
    )
    assert all(line.name for line in reading.lines)


def test_two_figures_without_a_dash_are_no_share_above_all() -> None:
    """Found by fuzzing: '64 745 %' was read as a range up to 745 %."""
    (line,) = read_text("Naphtha,\n64\x15745 %\n", "t", known)[0].lines
    assert line.stated is not None
    assert (line.stated.low, line.stated.high) == (None, None)
    assert line.stated.doubtful
