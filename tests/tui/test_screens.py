"""Whole screens, pinned: a guard against change, evidence of nothing. ``FORMULATE_PIN=1`` pins anew."""

from __future__ import annotations

import pytest

from formulate.tui.example import EXAMPLE
from formulate.tui.signs import terminal_signs
from tests.tui.conftest import check_snapshot
from tests.tui.test_amounts import CLASH

STATES = {
    "first": (None, []),
    "sheet": (EXAMPLE, []),
    "why": (EXAMPLE, ["down", "enter"]),
    "who": (EXAMPLE, ["left", "w"]),
    "correct": (EXAMPLE, ["left", "c", *"silica", "space", *"sol"]),
    "end": (EXAMPLE, ["end"]),
    "help": (EXAMPLE, ["question_mark"]),
    "amounts": (EXAMPLE, ["2"]),
    "amounts-rule": (EXAMPLE, ["2", "c", "down", "enter", "enter", "down", "down", "right", "right"]),
    "amounts-line": (EXAMPLE, ["2", "end", "up", "up", "up", "left", "left", "left", "c"]),
    "amounts-clash": (CLASH, ["2", "down", "down"]),
}
PLAIN = "amounts-rule"


@pytest.mark.pinned
@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
@pytest.mark.parametrize("state", STATES)
async def test_screen(bench, state, size):
    text, keys = STATES[state]
    async with bench(text, size=size) as on:
        await on.press(*keys)
        if on.app.desk.station == "amounts" and on.app.asking is None:
            await on.drawn()
        check_snapshot(f"{state}-{size[0]}x{size[1]}", on.screen())


@pytest.mark.pinned
async def test_screen_without_utf_8(bench):
    text, keys = STATES[PLAIN]
    async with bench(text, signs=terminal_signs("ascii")) as on:
        await on.press(*keys)
        await on.drawn()
        check_snapshot(f"{PLAIN}-ascii", on.screen())
