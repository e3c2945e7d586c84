"""The workbench behind the screen: session, threads, keeping. Every thread ends in a message; none touches a widget."""

from __future__ import annotations

import os
import threading
from collections.abc import Callable
from concurrent.futures import Future
from contextlib import suppress
from functools import partial
from pathlib import Path
from typing import TypeVar

from textual import work
from textual.app import App
from textual.timer import Timer
from textual.worker import Worker, WorkerState, get_current_worker

from formulate.domain.edit import Case
from formulate.errors import FormulateError, Stopped
from formulate.tui.asking import Asking
from formulate.tui.desk import Desk
from formulate.tui.example import EXAMPLE
from formulate.tui.keeping import Clock, case_folder, case_name, local_clock
from formulate.tui.messages import Bounded, Computed, Cut, Drawing, Failed, Kept, Opened, Previewed, Unbounded
from formulate.workflow.amount_answers import BoundsAnswer
from formulate.workflow.moves import Moved
from formulate.workflow.session import Session

LONG = 8_000
"""Characters from which the lines are shown before it is worked out what they are."""
FIRST = 2_000
"""Characters of a long text that are cut first, so that something true stands on the screen at once."""
SAY_STALE_AFTER = 0.15
DRAW_AFTER = 0.15
"""Seconds of quiet before likely amounts are drawn for the station that is shown."""
IDLE_AFTER = 2.0
"""The same while another station is shown."""
Result = TypeVar("Result")


def aside(job: Callable[[], Result], stopped: Callable[[], bool]) -> Result:
    """Do slow work in a thread that nobody has to wait for: neither a newer text, nor leaving.

    Raises
    ------
    Stopped
        Once ``stopped()`` turns true; the work ends at its next own stop and what it gives is dropped.
    """
    done: Future[Result] = Future()

    def run() -> None:
        try:
            done.set_result(job())
        except BaseException as error:  # handed to the one who waits
            done.set_exception(error)

    threading.Thread(target=run, daemon=True).start()
    while not stopped():
        with suppress(TimeoutError):
            return done.result(timeout=0.02)
    raise Stopped("superseded")


def _preview(session: Session, after: Case, stop: Callable[[], bool]) -> tuple[tuple[Moved, ...], BoundsAnswer | None]:
    """What would move from the case as it stands, and the amounts as they would be."""
    before = session.case
    _, moved = session.compare(before, after, stop)
    try:
        return (*moved, *session.amounts_moved(before, after, stop)), session.bounded(after, stop)
    except FormulateError:  # said on Enter
        return moved, None


class Bench(App[int]):
    """Session, workers and what comes back from them; how it looks is the workbench's affair."""

    def __init__(
        self,
        session: Session | None = None,
        *,
        folder: Path | None = None,
        path: Path | None = None,
        clock: Clock = local_clock,
        keep_after: float = 1.0,
        draw_after: float = DRAW_AFTER,
        idle_after: float = IDLE_AFTER,
    ) -> None:
        super().__init__(ansi_color=True if "NO_COLOR" in os.environ else None)
        self.session = session
        self.desk = Desk()
        self.asking: Asking | None = None
        self.clock, self.keep_after = clock, keep_after
        self.draw_after, self.idle_after = draw_after, idle_after
        self.folder, self.path = folder, path
        self.kept_case: Case | None = None
        self._file_lock = threading.Lock()
        self._pauses: dict[str, Timer] = {}
        self._waiting: str | None = None
        self._leave_anyway = False

    def draw(self, keep: bool = True) -> None:
        """Draw every band from what lies on the desk."""
        raise NotImplementedError

    def read_text(self, text: str) -> None:
        """Take a text under work and work out what it says."""
        self.desk.page = None
        self.desk.clear()
        if self.session is None:
            self._waiting = text
            self.desk.busy = True
            self.draw()
            return
        self.session.take(text)
        if len(text) > LONG:
            self.desk.said = (f"Reading {len(text):,} characters; the lines are shown as soon as they are cut.",)
        self.work_out(fresh=True)

    def work_out(self, fresh: bool = False) -> None:
        """Work out the answers of the case as it stands; ``fresh``: of another text, so that nothing 'changed'."""
        if self.session is None:
            return
        self.desk.busy = True
        self.cancel_amounts()
        self.desk.amounts.edited(fresh)
        if fresh:
            self.desk.redraw_amounts()
        self._after("stale", SAY_STALE_AFTER, self._say_stale)
        self._compute(None if fresh else self.desk.shown, self.session.case)
        if self.worth_keeping():
            self._after("keep", self.keep_after, self.keep_now)
        self.draw()

    def _say_stale(self) -> None:
        if self.desk.busy:
            self.desk.stale = True
            self.draw()

    def _after(self, name: str, seconds: float, what: Callable[[], None]) -> None:
        """Do something once, after a pause that starts anew each time."""
        if name in self._pauses:
            self._pauses[name].stop()
        self._pauses[name] = self.set_timer(seconds, what)

    # --- amounts: what is certain at once, what is likely after a pause ------------------------------------------

    def cancel_amounts(self) -> None:
        """Drop what is being worked out of the amounts: its case is of before."""
        if "draw" in self._pauses:
            self._pauses["draw"].stop()
        for group in ("bound", "draws"):
            self.workers.cancel_group(self, group)

    def draw_soon(self) -> None:
        """Draw likely amounts after a pause: a short one if they are in sight. Does nothing where they are known."""
        amounts = self.desk.amounts
        if amounts.now is not None and amounts.waiting and amounts.progress is None and not amounts.stopped:
            pause = self.draw_after if self.desk.station == "amounts" else self.idle_after
            self._after("draw", pause, self.draw_amounts)

    def draw_amounts(self) -> None:
        """Draw likely amounts now, in a thread."""
        if self.session is not None:
            self.desk.amounts.progress, self.desk.amounts.stopped = (0, 0), False
            self._draws(self.session.case)
            self.draw()

    def stop_work(self) -> bool:
        """Stop what is being worked out; whether there was anything."""
        amounts, working = self.desk.amounts, self.desk.busy or self.desk.amounts.progress is not None
        self.cancel_amounts()
        if self.desk.busy:
            self.workers.cancel_group(self, "read")
            self.desk.busy = False
        amounts.progress, amounts.stopped = None, working
        return working

    def show_kept(self) -> None:
        """Show a case that was kept: its list is read, there is nothing to paste."""
        self.work_out(fresh=True)

    def worth_keeping(self) -> bool:
        """Whether there is anything of the person's own: more than the invented example."""
        case = self.session.case if self.session is not None else None
        return case is not None and bool(case.edits or case.notes or any(one.text != EXAMPLE for one in case.texts))

    def keep_now(self) -> None:
        """Keep the case, in a thread."""
        self.keep()

    # --- work in threads: ends in a message ----------------------------------------------------------------------

    @work(thread=True, group="open", exit_on_error=False)
    def _open_session(self) -> None:
        try:
            self.post_message(Opened(Session({})))
        except FormulateError as error:
            self.post_message(Failed(error))

    @work(thread=True, exclusive=True, group="read", exit_on_error=False)
    def _compute(self, before: Case | None, after: Case) -> None:
        worker, session = get_current_worker(), self.session
        if session is None:
            return
        try:
            if before is None and after.texts and len(after.texts[-1].text) > LONG:
                for most in (FIRST, None):
                    reading = aside(partial(session.reading, after, most), lambda: worker.is_cancelled)
                    self.post_message(Cut(reading, after))
            answers, moved = aside(
                lambda: session.compare(before, after, lambda: worker.is_cancelled), lambda: worker.is_cancelled
            )
            self.post_message(Computed(answers, after, moved))
        except Stopped:
            return
        except FormulateError as error:
            self.post_message(Failed(error))

    @work(thread=True, exclusive=True, group="bound", exit_on_error=False)
    def _bound(self, case: Case) -> None:
        """Work out what is certain of the amounts."""
        self._amounts(case, full=False)

    @work(thread=True, exclusive=True, group="draws", exit_on_error=False)
    def _draws(self, case: Case) -> None:
        """Draw what is likely."""
        self._amounts(case, full=True)

    def _amounts(self, case: Case, full: bool) -> None:
        worker, session = get_current_worker(), self.session
        if session is None:
            return

        def stopped() -> bool:
            return worker.is_cancelled

        def progress(done: int, wanted: int, _: str) -> None:
            self.post_message(Drawing(case, done, wanted))

        def job() -> BoundsAnswer:
            return session.drawn(case, stopped, progress) if full else session.bounded(case, stopped)

        try:
            self.post_message(Bounded(aside(job, stopped), case, full))
        except Stopped:
            return
        except FormulateError as error:
            self.post_message(Unbounded(error, case))

    @work(thread=True, exclusive=True, group="preview", exit_on_error=False)
    def preview(self, text: str, after: Case) -> None:
        """Work out what a correction would move."""
        worker, session = get_current_worker(), self.session
        if session is None:
            return
        try:
            moved, bounds = aside(
                lambda: _preview(session, after, lambda: worker.is_cancelled), lambda: worker.is_cancelled
            )
            self.post_message(Previewed(text, moved, bounds))
        except Stopped:
            return

    @work(thread=True, group="keep", exit_on_error=False)
    def keep(self, leaving: bool = False) -> None:
        """Keep the case in its file."""
        session, now = self.session, self.clock()
        if session is None:
            return
        case = session.case
        try:
            with self._file_lock:
                path = self.path or (self.folder or case_folder()) / case_name(session.text, now)
                self.path = session.save(path)
            self.post_message(Kept(case, f"{now:%H:%M}", leaving))
        except FormulateError as error:
            self.post_message(Failed(error))

    def on_opened(self, message: Opened) -> None:
        """The dataset is open: read what was pasted meanwhile."""
        self.session = message.session
        self.desk.card = message.session.catalog.source
        self.desk.name_of = message.session.name_of
        if self._waiting is not None:
            text, self._waiting = self._waiting, None
            self.read_text(text)
        elif message.session.text:
            self.show_kept()
        self.draw()

    def on_cut(self, message: Cut) -> None:
        """Show the lines of a long text."""
        if self.session is not None and message.case is self.session.case:
            self.desk.take_reading(message.reading)
            self.draw()

    def on_computed(self, message: Computed) -> None:
        """Show the answers, unless the case has gone on since."""
        if self.session is not None and message.case is self.session.case:
            self.desk.take_answers(message.answers, message.case, message.moved)
            if self.desk.said and self.desk.said[0].startswith("Reading "):
                self.desk.clear()
            self._bound(message.case)
            self.draw()

    def on_bounded(self, message: Bounded) -> None:
        """Show amounts, unless the case has gone on since."""
        if self.session is not None and message.case is self.session.case:
            self.desk.take_amounts(message.bounds, message.full)
            self.draw_soon()
            self.draw()

    def on_drawing(self, message: Drawing) -> None:
        """Say how far the draws are."""
        amounts = self.desk.amounts
        if self.session is not None and message.case is self.session.case and amounts.progress is not None:
            amounts.progress = (message.done, message.wanted)
            self.draw()

    def on_unbounded(self, message: Unbounded) -> None:
        """The amounts cannot be worked out: station 2 says why, the others go on."""
        if self.session is not None and message.case is self.session.case:
            self.desk.amounts.fail(message.error)
            self.desk.redraw_amounts()
            self.draw()

    def on_previewed(self, message: Previewed) -> None:
        """Show what a correction would move, if it is still the one typed."""
        if self.asking is not None:
            if self.asking.previewed(message.text, message.moved):
                self.desk.amounts.would = message.bounds
                self.desk.redraw_amounts()
            self.draw()

    def on_kept(self, message: Kept) -> None:
        """Say when the case was kept; leave if that was asked for."""
        self.kept_case, self.desk.kept = message.case, message.at
        if message.leaving:
            self.exit(0)
        self.draw()

    def on_failed(self, message: Failed) -> None:
        """Say an error in its four parts; what was typed stays."""
        self.desk.busy = self.desk.stale = False
        self.desk.error = message.error
        self.draw()

    def on_worker_state_changed(self, event: Worker.StateChanged) -> None:
        """An error nobody foresaw is said like the others."""
        if event.state is WorkerState.ERROR:
            said = f"{type(event.worker.error).__name__}: {event.worker.error}"
            self.on_failed(
                Failed(
                    FormulateError(
                        "This could not be worked out.",
                        "what you did last",
                        f"the program tripped ({said[:200]})",
                        "u takes the last correction back; the text and your corrections are still here",
                        "tripped",
                    )
                )
            )

    def leave(self) -> None:
        """Keep what there is, then leave; a second time leaves in any case."""
        case = self.session.case if self.session is not None else None
        if not self.worth_keeping() or case is self.kept_case or self._leave_anyway:
            self.exit(0)
            return
        self._leave_anyway = True
        self.keep(leaving=True)
