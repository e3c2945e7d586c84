"""Whole screens, pinned: a guard against change, evidence of nothing. ``FORMULATE_PIN=1`` pins anew."""

from __future__ import annotations

import pytest

from formulate.tui.example import EXAMPLE
from tests.tui.conftest import check_snapshot

STATES = {
    "first": (None, []),
    "sheet": (EXAMPLE, []),
    "why": (EXAMPLE, ["down", "enter"]),
    "who": (EXAMPLE, ["left", "w"]),
    "correct": (EXAMPLE, ["left", "c", *"silica", "space", *"sol"]),
    "end": (EXAMPLE, ["end"]),
    "help": (EXAMPLE, ["question_mark"]),
}


@pytest.mark.pinned
@pytest.mark.parametrize("size", [(80, 24), (120, 40)], ids=["80x24", "120x40"])
@pytest.mark.parametrize("state", STATES)
async def test_screen(bench, state, size):
    text, keys = STATES[state]
    async with bench(text, size=size) as on:
        await on.press(*keys)
        check_snapshot(f"{state}-{size[0]}x{size[1]}", on.screen())
