"""What lies on the desk of the amounts: the newest answer, the newest with likely ranges, and how far the draws are."""

from __future__ import annotations

from formulate.domain.edit import Case
from formulate.errors import FormulateError
from formulate.tui.amounts_sheet import Amounts, build_amounts
from formulate.tui.figures import Sheet
from formulate.workflow.amount_answers import BoundsAnswer
from formulate.workflow.amount_moves import amount_moves
from formulate.workflow.answers import ReadAnswer
from formulate.workflow.moves import Moved
from formulate.workflow.nodes import standing

WIDE_FROM = 10.0
"""Ratio of most to least of what stays from which the amounts are called wide."""
LEAST = 1e-5


class AmountsDesk:
    """State of station 2. ``would``: the amounts as a correction being typed would make them; ``progress``: effective
    draws so far and wanted, None while nothing is drawn."""

    def __init__(self) -> None:
        self.now: BoundsAnswer | None = None
        self.drawn: BoundsAnswer | None = None
        self.would: BoundsAnswer | None = None
        self.before: BoundsAnswer | None = None
        self.told: tuple[Moved, ...] = ()
        self.progress: tuple[int, int] | None = None
        self.stopped = False
        self.error: FormulateError | None = None

    @property
    def shown(self) -> BoundsAnswer | None:
        """The answer whose limits are shown."""
        return self.would or self.now

    @property
    def waiting(self) -> bool:
        """Whether likely ranges are still to come."""
        return self.error is None and (self.now is None or self.now is not self.drawn)

    def edited(self, fresh: bool) -> None:
        """The case changed: what comes next is compared with what is shown now; ``fresh``: with nothing."""
        if fresh:
            self.now = self.drawn = self.before = None
        else:
            self.before = self.drawn if self.drawn is self.now else self.now
        self.told, self.would, self.error, self.progress, self.stopped = (), None, None, None, False

    def take(self, bounds: BoundsAnswer, full: bool) -> tuple[Moved, ...]:
        """Take a newer answer; returns what it moved."""
        self.now, self.error = bounds, None
        if full:
            self.drawn, self.progress = bounds, None
        return amount_moves(self.before, bounds) if self.before is not None else ()

    def fail(self, error: FormulateError) -> None:
        """The amounts cannot be worked out; what stood there is of before and goes."""
        self.error, self.now, self.drawn, self.progress = error, None, None, None

    def sheet(self, case: Case, read: ReadAnswer) -> Sheet:
        """The sheet, empty while nothing is known."""
        shown = self.shown
        if shown is None:
            return Sheet([])
        return build_amounts(Amounts(shown, self.drawn, read, standing(case.standing())))

    def state(self) -> str:
        """A word: contradict, ~ while something is worked out, wide, ok."""
        if self.error is not None:
            return "!"
        now = self.now
        if now is None:
            return "~"
        if not isinstance(now.contradiction, str):
            return "contradict"
        if self.progress is not None:
            return "~"
        stays = now.totals.get("nonvolatile_110c")
        if stays is None or stays.hard is None:
            return "empty"
        return "wide" if stays.hard[1] > WIDE_FROM * max(stays.hard[0], LEAST) else "ok"

    def working(self) -> str:
        """How far the draws are, for the course band."""
        if self.stopped:
            return "stopped; 2 draws again"
        if self.progress is None:
            return ""
        done, wanted = self.progress
        return f"drawing {done:,}/{wanted:,}, . stops" if wanted else "drawing, . stops"

    def empty_words(self) -> str:
        """What the station says while it has no sheet."""
        if self.error is not None:
            return self.error.what
        if self.now is None:
            return "~ the amounts are being worked out"
        return "No list was found in this text; paste another."
