"""A page of steps below the sheet: where one came from, the step one looks into, and two levels under it."""

from __future__ import annotations

from formulate.tui.paint import Painted, Piece, between, wrap
from formulate.tui.signs import STAND
from formulate.tui.steps import Step
from formulate.workflow.gate import padded

MOST_ROWS = 6
"""Rows of one step; all of it stands in the ground band."""
MOST_STEPS = 400
"""Steps listed on one page."""


class Page:
    """The step one looks into is the last of ``path``; ``stand`` counts the steps listed under it."""

    def __init__(self, path: tuple[Step, ...], stand: int = 0) -> None:
        self.path = path
        self.listed = _listed(path[-1])
        self.stand = min(max(stand, 0), max(len(self.listed) - 1, 0))

    @property
    def top(self) -> Step:
        """The step one looks into."""
        return self.path[-1]

    @property
    def step(self) -> Step:
        """The step one stands on (the one looked into, if nothing is under it)."""
        return self.listed[self.stand][-1] if self.listed else self.top

    def walk(self, by: int) -> Page:
        """Stand on another step of the page."""
        return Page(self.path, self.stand + by)

    def level(self, by: int) -> Page:
        """Stand on the next (or previous) step of the first level."""
        index = self.stand + by
        while 0 <= index < len(self.listed) and len(self.listed[index]) > 1:
            index += by
        return Page(self.path, index) if 0 <= index < len(self.listed) else self

    def down(self) -> Page:
        """Look into the step one stands on, if something is under it."""
        if not self.listed or not self.step.children:
            return self
        return Page((*self.path, *self.listed[self.stand]))

    def up(self) -> Page | None:
        """Back to the step above, standing where one came from; None above the top."""
        if len(self.path) < 2:
            return None
        above = Page(self.path[:-1])
        index = next((i for i, chain in enumerate(above.listed) if chain[-1] is self.path[-1]), 0)
        return Page(self.path[:-1], index)


def _listed(top: Step) -> list[tuple[Step, ...]]:
    """The steps under one: children and their children, each with the way to it. Bare lists stay one level deep."""
    rows: list[tuple[Step, ...]] = []
    for child in top.children:
        rows.append((child,))
        if top.kind not in {"history", "help", "find"}:
            rows.extend((child, below) for below in child.children)
        if len(rows) >= MOST_STEPS:
            break
    return rows[:MOST_STEPS]


class PageDrawing:
    """A page as rows of the screen: indented steps, where each comes from on the right."""

    def __init__(self, page: Page, width: int) -> None:
        self.page, self.width = page, width
        self.origin = 30 if width < 100 else 44
        self._rows: list[tuple[Painted, int]] = []
        self._head()
        for i, chain in enumerate(page.listed):
            self._step(i, chain)

    def _head(self) -> None:
        for depth, step in enumerate(self.page.path[:-1]):
            said = wrap("  " * depth + step.says, self.width - 14, 1)[0]
            self._rows.append(((Piece(" " + said, "muted"),), -1))
        indent = "  " * (len(self.page.path) - 1)
        for i, said in enumerate(wrap(self.page.top.says, self.width - 16 - len(indent), 3)):
            self._rows.append((between(f" {indent}{said}", "Backspace up" if i == 0 else "", self.width), -1))

    def _step(self, index: int, chain: tuple[Step, ...]) -> None:
        step, standing = chain[-1], index == self.page.stand
        indent = "  " * (len(self.page.path) + len(chain) - 2)
        room = self.width - self.origin - len(indent) - 6
        origin = wrap(step.origin, self.origin - 1, 2)
        said = wrap(step.says, room, MOST_ROWS)
        for i in range(max(len(said), len(origin))):
            first = i == 0
            text = said[i] if i < len(said) else ""
            mark = STAND if first and standing else " "
            pieces = (
                Piece(mark, "stand" if standing and first else "", str(index)),
                Piece(f"{indent} {step.sign if first else ' ':1} ", "strong", str(index)),
                Piece(padded(text, room), "stand" if standing else "muted" if len(chain) > 1 else "", str(index)),
                Piece("  " + (origin[i] if i < len(origin) else ""), "muted", str(index)),
            )
            self._rows.append((pieces, index))

    @property
    def count(self) -> int:
        """Rows in all."""
        return len(self._rows)

    def paint(self, index: int) -> Painted:
        """One row of the screen."""
        return self._rows[index][0]

    def span(self) -> tuple[int, int]:
        """First and last row of the step one stands on; the head is kept in sight as long as possible."""
        rows = [i for i, (_, step) in enumerate(self._rows) if step == self.page.stand]
        if not rows:
            return 0, 0
        return (0 if self.page.stand == 0 else rows[0]), rows[-1]
