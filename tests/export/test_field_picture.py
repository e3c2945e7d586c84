"""Pictures: to scale, within their room, labelled as simulations, and nothing in them is markup or runs."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formulate.export.canvas import length_words, round_length, rows
from formulate.export.field_picture import MOST_DRAWN, PictureError, field_svg, field_text, marks_text
from formulate.film.field import Field, sequence
from formulate.film.instrument import Afm, Shown, afm

SVG = "{http://www.w3.org/2000/svg}"


def field(diameter: float = 70, per_um2: float = 6.33) -> Field:
    return sequence("jammed", 5000, 5000, [diameter], 1).at(per_um2)


def test_braille_as_in_unicode():
    """U+28FF has all eight dots, U+2801 the upper left, U+2880 the lower right (Unicode Standard, Braille patterns)."""
    assert rows(np.ones((4, 2), dtype=bool)) == ["\u28ff"]
    one = np.zeros((4, 2), dtype=bool)
    one[0, 0] = True
    assert rows(one) == ["\u2801"]
    last = np.zeros((4, 2), dtype=bool)
    last[3, 1] = True
    assert rows(last) == ["\u2880"]


def test_a_disc_is_as_wide_as_the_bar_says():
    """A disc of 400 nm in a field of 1000: two fifths of the picture both ways, and the bar measures the same."""
    one = Field(np.array([500.0]), np.array([500.0]), np.array([400.0]), 1000, 1000)
    lines = field_text(one, 50, 27).split("\n")
    picture = [line for line in lines if set(line) <= set(map(chr, range(0x2800, 0x2900)))]
    filled = np.array([[letter != "\u2800" for letter in line] for line in picture])
    wide, high = filled.any(axis=0).sum(), filled.any(axis=1).sum()
    assert wide == pytest.approx(0.4 * len(picture[0]), abs=1.5)
    assert high == pytest.approx(0.4 * len(picture), abs=1.5)
    bar, words = lines[len(picture)].split(" ", 1)
    assert words == "200 nm"
    assert len(bar) == pytest.approx(200 / 1000 * len(picture[0]), abs=1)


@settings(max_examples=60, deadline=None)
@given(st.integers(12, 200), st.integers(5, 60), st.booleans(), st.floats(0, 100), st.sampled_from([None, 900.0]))
def test_every_picture_fits_its_room_and_says_simulated(cells, lines, ascii_only, per_um2, window):
    drawn = sequence("jammed", 2000, 3000, [70], 2).at(per_um2)
    text = field_text(drawn, cells, lines, ascii_only=ascii_only, window_nm=window)
    assert len(text.split("\n")) <= lines
    assert all(len(line) <= cells for line in text.split("\n"))
    assert "simulated" in text
    assert text.isascii() or not ascii_only


def test_small_particles_are_said_to_be_smaller_than_a_dot():
    assert "wider than a particle" in field_text(field(), 40, 16).replace("\n", " ")
    assert "wider than a particle" not in field_text(field(), 40, 16, window_nm=1000).replace("\n", " ")
    assert "158 particles" in field_text(field(), 60, 20)


def test_marks_of_an_instrument():
    text = marks_text(afm(field(), Afm(10, 0.5, 50, 0.2, 512), 0, 1), 40, 14)
    assert text.endswith("simulated image, what would be marked")
    assert len(text.split("\n")) <= 14
    empty = marks_text(Shown(np.zeros((64, 64)), (10, 10), 1), 40, 14, ascii_only=True)
    assert "#" not in empty


def test_svg_is_whole_and_harmless():
    made = field_svg(field(), '<script>alert(1)</script> & "quotes" \x00\x1b]\ud800')
    root = ElementTree.fromstring(made)
    assert root.find(f"{SVG}title").text == '<script>alert(1)</script> & "quotes" ]'
    tags = {element.tag.removeprefix(SVG) for element in root.iter()}
    assert tags == {"svg", "title", "desc", "rect", "g", "circle", "path", "text"}
    attributes = {name for element in root.iter() for name in element.attrib}
    assert not {name for name in attributes if name.startswith("on") or "href" in name or name == "style"}
    assert "Simulation" in root.find(f"{SVG}desc").text
    assert any("Simulation" in (element.text or "") for element in root.iter(f"{SVG}text"))


def test_svg_is_to_scale():
    root = ElementTree.fromstring(field_svg(field(), "ferry seats", 500))
    circles = list(root.iter(f"{SVG}circle"))
    assert len(circles) >= 158
    assert {circle.get("r") for circle in circles} == {"3.50"}  # 35 nm at 0.1 px/nm
    assert any((text.text or "") == "1 um" for text in root.iter(f"{SVG}text"))
    assert "h100.0" in root.find(f"{SVG}path").get("d")


def test_too_many_are_drawn_in_part_and_said():
    crowd = sequence("jammed", 5000, 5000, [20], 1).at(1700)
    root = ElementTree.fromstring(field_svg(crowd, "crowd"))
    assert len(list(root.iter(f"{SVG}circle"))) <= MOST_DRAWN
    assert "part of the field" in root.find(f"{SVG}desc").text


@pytest.mark.parametrize(("cells", "lines"), [(11, 20), (40, 4), (0, 0), (-5, 9)])
def test_too_little_room_is_refused(cells, lines):
    with pytest.raises(PictureError, match="too few"):
        field_text(field(), cells, lines)
    with pytest.raises(PictureError, match="too few"):
        marks_text(Shown(np.zeros((64, 64)), (10, 10), 1), cells, lines)


def test_other_refusals():
    with pytest.raises(PictureError, match="window"):
        field_text(field(), 40, 20, window_nm=-1)
    with pytest.raises(PictureError, match="wide"):
        field_svg(field(), "x", 5)


def test_round_lengths():
    assert [round_length(value) for value in (1, 1.9, 2, 4.9, 5, 9.9, 730)] == [1, 1, 2, 2, 5, 5, 500]
    assert [length_words(value) for value in (500, 1000, 2000)] == ["500 nm", "1 um", "2 um"]
