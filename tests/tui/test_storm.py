"""A storm of keys: whatever is pressed, the workbench stands."""

from __future__ import annotations

import random

import pytest

from formulate.tui.actions import ACTIONS
from formulate.tui.signs import STAND

KEYS = [one.key for one in ACTIONS if one.id not in {"leave"}] + [
    "escape",
    "a",
    "s",
    "space",
    "backspace",
    "tab",
    "ctrl+j",
]


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(6))
async def test_key_storm(bench, seed):
    chance = random.Random(seed)
    async with bench(size=chance.choice([(80, 24), (120, 40)]), idle_after=0.05) as on:
        for _ in range(250):
            await on.pilot.press(chance.choice(KEYS))
        await on.settle()
        await on.press("escape", "escape", "escape")
        assert on.app.is_running
        assert on.app.desk.error is None
        if not on.app.boxed:
            assert on.screen().count(STAND) == 1
