"""A workbench that reads this list, in a folder of its own, at a fixed time; helpers to drive and to look at it."""

from __future__ import annotations

import os
from collections.abc import AsyncIterator, Callable
from contextlib import asynccontextmanager
from datetime import datetime
from pathlib import Path

import pytest
from textual import events
from textual.pilot import Pilot

from formulate.domain.edit import Case
from formulate.tui.app import Workbench
from formulate.tui.signs import Signs, terminal_signs
from formulate.workflow.session import Session

CHURCH_FLOOR = (
    "Aqua, Isopropyl Alcohol, Amodimethicone, Silica, Carnauba Wax, Trideceth-6, Acetic Acid, Vel-Tarn 40, "
    "Phenoxyethanol. Shake well before use."
)
"""An invented list: a polish for a church floor."""
SNAPSHOTS = Path(__file__).parent / "snapshots"

NAMES = {
    " ": "space",
    "-": "minus",
    "?": "question_mark",
    "=": "equals_sign",
    "%": "percent_sign",
    ".": "full_stop",
    "<": "less_than_sign",
}
"""Keys by the character they type."""


class Driver:
    """A pilot with the words of this screen."""

    def __init__(self, app: Workbench, pilot: Pilot[int]) -> None:
        self.app, self.pilot = app, pilot

    async def settle(self) -> None:
        for _ in range(3):
            await self.app.workers.wait_for_complete()
            await self.pilot.pause()

    async def drawn(self) -> None:
        """Wait for the likely amounts."""
        while self.app.desk.amounts.waiting:
            await self.pilot.pause(0.01)
        await self.settle()

    async def paste(self, text: str) -> None:
        self.app.post_message(events.Paste(text))
        await self.pilot.pause()
        await self.settle()

    async def press(self, *keys: str) -> None:
        for key in keys:
            await self.pilot.press(key)
        await self.settle()

    async def tap(self, *keys: str) -> None:
        """Press keys without waiting for work that goes on."""
        for key in keys:
            await self.pilot.press(key)

    async def type(self, text: str) -> None:
        names = {
            " ": "space",
            "-": "minus",
            "?": "question_mark",
            "=": "equals_sign",
            "%": "percent_sign",
            ".": "full_stop",
        }
        await self.press(*(names.get(char, char) for char in text))

    def screen(self) -> str:
        """What stands on the screen, as plain text."""
        strips = self.app.screen._compositor.render_strips()
        return "\n".join("".join(part.text for part in strip).rstrip() for strip in strips) + "\n"

    def band(self, name: str) -> str:
        """The rows of one band, run together."""
        return " ".join(" ".join(self.app.rows(name).plain()).split())

    @property
    def title(self) -> str:
        return self.app.desk.title()


@pytest.fixture
def bench(tmp_path: Path) -> Callable[..., object]:
    @asynccontextmanager
    async def open_bench(
        text: str | None = CHURCH_FLOOR,
        size: tuple[int, int] = (80, 24),
        signs: Signs | None = None,
        keep_after: float = 60.0,
        idle_after: float = 600.0,
        case: Case | None = None,
    ) -> AsyncIterator[Driver]:
        app = Workbench(
            Session({}, case),
            folder=tmp_path / "cases",
            clock=lambda: datetime(2026, 11, 25, 13, 2),
            keep_after=keep_after,
            draw_after=0.01,
            idle_after=idle_after,
            signs=signs or terminal_signs("utf-8"),
        )
        async with app.run_test(size=size) as pilot:
            driver = Driver(app, pilot)
            await driver.settle()
            if text is not None:
                await driver.paste(text)
            yield driver

    return open_bench


def check_snapshot(name: str, screen: str) -> None:
    """Compare with the kept screen; ``FORMULATE_PIN=1`` keeps this one instead."""
    path = SNAPSHOTS / f"{name}.txt"
    if os.environ.get("FORMULATE_PIN"):
        path.parent.mkdir(exist_ok=True)
        path.write_text(screen, encoding="utf-8")
    assert screen == path.read_text(encoding="utf-8")
