"""Words and signs carry all: no colour, no UTF-8."""

from __future__ import annotations

import pytest
from textual.color import Color

from formulate.tui.signs import terminal_signs


@pytest.mark.parametrize("encoding", ["ascii", "latin-1", None])
def test_signs_of_a_plain_terminal_are_of_the_same_width(encoding):
    signs = terminal_signs(encoding or "ascii")
    text = "▸ 4 ─ “Silica” … ▲ · ’ ‹U+202E› 漢"
    assert len(signs.fit(text)) == len(text) + 1
    assert not set(signs.fit(text)) & set("▸─▲…“”")


def test_a_utf8_terminal_is_given_all_signs():
    assert terminal_signs("utf-8").fit("▸ ─") == "▸ ─"


async def test_the_whole_screen_without_utf8(bench):
    async with bench(signs=terminal_signs("ascii")) as on:
        assert on.screen().isascii()
        assert ">carrier" in on.screen()
        for key in ("enter", "w", "question_mark", "escape", "end"):
            await on.press(key)
            assert on.screen().isascii()


async def test_without_colour_the_place_is_marked_by_a_sign_and_nothing_is_coloured(bench, monkeypatch):
    monkeypatch.setenv("NO_COLOR", "1")
    async with bench() as on:
        assert "▸carrier" in on.screen()
        for strip in on.app.screen._compositor.render_strips():
            for part in strip.apply_filter(on.app._filters[-1], Color.parse("black")):
                for colour in (part.style.color, part.style.bgcolor) if part.style else ():
                    assert colour is None or colour.is_default


@pytest.mark.parametrize("theme", ["textual-dark", "textual-light", "ansi-dark", "ansi-light"])
async def test_dark_light_and_sixteen_colours_show_the_same_words(bench, theme):
    async with bench() as on:
        before = on.screen()
        on.app.theme = theme
        await on.settle()
        assert on.screen() == before


async def test_one_key_goes_through_the_colours(bench):
    async with bench() as on:
        seen = []
        for _ in range(4):
            await on.press("k")
            seen.append(on.app.theme)
        assert len(set(seen)) == 4
        assert "Colours:" in on.band("body")
