"""The workbench: composes the four bands, routes keys, starts workers. Holds no chemistry."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import ClassVar

from textual import events
from textual.app import ComposeResult
from textual.binding import Binding, BindingType
from textual.containers import Horizontal
from textual.widget import Widget
from textual.widgets import Static

from formulate.errors import FormulateError
from formulate.tui import ground
from formulate.tui.actions import ACTIONS, key_line
from formulate.tui.amounts_layout import AmountsLayout
from formulate.tui.asking import Asking
from formulate.tui.bench import DRAW_AFTER, IDLE_AFTER, Bench
from formulate.tui.doing import DO
from formulate.tui.example import EXAMPLE
from formulate.tui.keeping import Clock, local_clock
from formulate.tui.layout import Layout
from formulate.tui.messages import BoxLeft, Opened, Stand, TextPasted
from formulate.tui.page import PageDrawing
from formulate.tui.paint import Painted, Piece, rule
from formulate.tui.signs import Signs, terminal_signs
from formulate.tui.widgets import AskLine, ListBox, Rows, Window
from formulate.workflow.gate import cut, shown
from formulate.workflow.session import Session

FIRST_WORDS = "Paste the back of the bottle here. Or press Enter to look at an invented one."
TALL = 30


class Workbench(Bench):
    """The terminal workbench."""

    CSS_PATH = "app.tcss"
    TITLE = "formulate"
    ENABLE_COMMAND_PALETTE = False
    BINDINGS: ClassVar[list[BindingType]] = [
        *(Binding(one.key, f"do('{one.id}')", one.label, show=False) for one in ACTIONS),
        Binding("escape", "do('escape')", "back", show=False),
        Binding("ctrl+q", "do('leave')", "leave", show=False, priority=True),
    ]

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
        signs: Signs | None = None,
    ) -> None:
        super().__init__(
            session,
            folder=folder,
            path=path,
            clock=clock,
            keep_after=keep_after,
            draw_after=draw_after,
            idle_after=idle_after,
        )
        self._drawable = False
        self._layout: Layout | AmountsLayout | None = None
        Rows.signs = signs or terminal_signs()

    def compose(self) -> ComposeResult:
        """Answer, course, station, ground."""
        yield Rows("answer")
        yield Rows("course")
        yield Static(FIRST_WORDS, id="box-title", markup=False)
        yield ListBox(id="box", show_line_numbers=False, soft_wrap=True)
        yield Window("station")
        yield Rows("foot")
        yield Rows("head")
        with Horizontal(id="asking"):
            yield Static("", id="ask-label", markup=False)
            yield AskLine(id="ask", compact=True, select_on_focus=False)
        yield Rows("body")
        yield Rows("changed")
        yield Rows("keys")

    def on_mount(self) -> None:
        """Open the box, and the dataset in a thread."""
        self._drawable = True
        if self.no_color or self.console.color_system in {None, "standard"}:
            self.theme = "ansi-dark"
        self.open_box()
        if self.session is None:
            self._open_session()
        else:
            self.on_opened(Opened(self.session))

    def action_do(self, name: str) -> None:
        """Do one of the registered actions."""
        DO[name](self)
        self.draw()

    async def on_window_pressed(self, message: Window.Pressed) -> None:
        """Act on a key; one typed ahead of a question that has been opened since goes to that question."""
        focused = self.focused
        if focused is not None and not isinstance(focused, Window):
            focused._forward_event(events.Key(message.key.key, message.key.character))
        else:
            await self._check_bindings(message.key.key)

    def action_help_quit(self) -> None:
        """Ctrl+C leaves nothing: it says how one leaves."""
        self.say("q leaves; what you have is kept.")

    # --- what is shown -------------------------------------------------------------------------------------------

    def rows(self, name: str) -> Rows:
        """One of the bands."""
        return self.query_one(f"#{name}", Rows)

    @property
    def boxed(self) -> bool:
        """Whether the box of the typed list is open."""
        return self.screen.has_class("boxed")

    def open_box(self) -> None:
        """Open the box in which a list is typed, with the cursor in it."""
        self.screen.add_class("boxed")
        box = self.query_one(ListBox)
        box.text = ""
        self._focus_on(box)

    def close_box(self) -> None:
        """Leave the box."""
        self.screen.remove_class("boxed")
        self._focus_on(self.query_one(Window))

    def _focus_on(self, widget: Widget) -> None:
        """Let keys go to a widget from now on: at once, so that what is typed ahead of the screen goes there too."""
        self.screen.set_focus(widget)

    def say(self, *sentences: str) -> None:
        """Say something in the ground."""
        self.desk.error, self.desk.said = None, sentences
        self.draw()

    def draw(self, keep: bool = True) -> None:
        """Draw every band from what lies on the desk."""
        if not self._drawable or not self.query("#keys"):  # not up yet, or on the way down
            return
        width, desk = self.size.width, self.desk
        desk.resize(width)
        working = "reading ..." if desk.busy else desk.amounts.working()
        self.rows("answer").put([desk.answer_row(width, self.boxed)])
        self.rows("course").put([desk.course_row(working), rule(width)])
        self._draw_station(width, keep)
        self._draw_ground(width)
        keys = (
            "Enter reads an example  Ctrl+J or Esc reads what you typed  Ctrl+Q leave"
            if self.boxed
            else key_line(desk.page is not None)
        )
        if self.asking is not None:
            keys = self.asking.keys
        self.rows("keys").put([(Piece(" " + cut(keys, width - 2), "muted"),)])

    def _draw_station(self, width: int, keep: bool) -> None:
        window, desk, foot = self.query_one(Window), self.desk, self.rows("foot")
        height = self.size.height - 3 - 1 - self._ground_height()
        if self.asking is not None and self.asking.listing:
            drawing, tail = self.asking.drawing(width), ""
            window.look(drawing, height)
        elif desk.page is not None:
            window.look(PageDrawing(desk.page, width), height, keep)
            tail = f"{window.left_below} rows more below" if window.left_below else ""
        else:
            layout = self._layout
            if layout is None or layout.sheet is not desk.sheet or layout.width != width:
                kind = AmountsLayout if desk.station == "amounts" else Layout
                layout = self._layout = kind(desk.sheet, width)
            if desk.station == "amounts" and not desk.sheet.figures:
                window.say(desk.amounts.empty_words() if desk.answers is not None or desk.busy else "")
                foot.put([(Piece(" "),)])
                return
            layout.stand, layout.stale = desk.stand, desk.stale
            window.look(layout, height, keep)
            foot.put([layout.foot(window.left_below)])
            return
        foot.put([(Piece(" " + tail.rjust(width - 3), "muted"),)])

    def _ground_height(self) -> int:
        """Rows of the ground: head, reasons, what changed, keys."""
        return 8 if self.size.height < TALL else 13

    def _draw_ground(self, width: int) -> None:
        desk, asking = self.desk, self.asking
        moved = asking.moved if asking is not None else desk.moved
        body = self._ground_height() - 3 - (1 if asking is not None else 0)
        lines = ground.changed_rows(moved or (), desk.name_of, width, 2 if self.size.height < TALL else 3)
        body -= len(lines)
        title = (
            ("correct" if asking.previews else "ask")
            if asking is not None
            else "said"
            if desk.said
            else "error"
            if desk.error
            else "because"
        )
        self.rows("head").put([rule(width, title, desk.title())])
        self._put_high("body", self._body_rows(width, body), body)
        preview = asking is not None and asking.previews
        self._put_high("changed", [ground.changed_head(moved, preview, width), *lines], len(lines) + 1)

    def _put_high(self, name: str, rows: list[Painted], height: int) -> None:
        band = self.rows(name)
        band.styles.height = height
        band.put(rows)

    def _body_rows(self, width: int, rows: int) -> list[Painted]:
        desk = self.desk
        if self.asking is not None:
            return self.asking.rows(width, rows)
        if desk.error is not None:
            return ground.error_rows(desk.error, width, rows)
        if desk.said:
            return ground.said_rows(desk.said, width, rows)
        if self.boxed:
            return ground.said_rows(
                [
                    "A paste is read at once. A typed list is read when you leave the box.",
                    "What is invented says so. Nothing is sent anywhere.",
                ],
                width,
                rows,
            )
        if desk.station == "amounts" and desk.amounts.error is not None:
            return ground.error_rows(desk.amounts.error, width, rows)
        step = desk.step()
        if step is None:
            return (
                ground.said_rows(["What this line is, and why, is still being worked out."], width, rows)
                if desk.busy
                else []
            )
        return ground.because_rows(step, width, rows, desk.rival())

    # --- what comes in -------------------------------------------------------------------------------------------

    def on_resize(self, event: events.Resize) -> None:
        """Draw anew for another size."""
        self.call_after_refresh(self.draw)

    def on_paste(self, event: events.Paste) -> None:
        """A paste anywhere outside a box is a list."""
        self.read_text(event.text)

    def on_text_pasted(self, message: TextPasted) -> None:
        """A paste into a box is a list too."""
        self.read_text(message.text)

    def on_box_left(self, message: BoxLeft) -> None:
        """The box was left: read what was typed; Enter on the empty box shows the invented example."""
        if message.text.strip():
            self.read_text(message.text)
        elif message.enter:
            self.read_text(EXAMPLE)
        elif self.desk.answers is not None:
            self.close_box()
            self.draw()
        else:
            self.say("Nothing was typed yet. Paste a list, or press Enter to look at an invented one.")

    def read_text(self, text: str) -> None:
        """Take a text under work and show what it says."""
        self._end_asking()
        self.close_box()
        super().read_text(text)

    def show_kept(self) -> None:
        """Show a case that was kept, without the box."""
        self.close_box()
        super().show_kept()

    def go_to(self, station: str) -> None:
        """Go to a station; the slow work of the one in sight goes first."""
        if station == "amounts" and self.desk.station == "amounts":
            self.desk.amounts.stopped = False
        self.desk.go(station)
        self.draw_soon()
        self.draw()

    # --- asking --------------------------------------------------------------------------------------------------

    def ask(self, asking: Asking) -> None:
        """Open the one line in the ground."""
        self.asking = asking
        self.desk.clear()
        self.screen.add_class("asking")
        self.query_one("#ask-label", Static).update(cut(asking.ask.label, self.size.width // 3))
        line = self.query_one(AskLine)
        line.value = asking.ask.start
        line.cursor_position = len(line.value)
        self._focus_on(line)
        asking.typed(self, line.value)
        self.draw()

    def _end_asking(self) -> None:
        if self.asking is not None:
            self.asking = None
            if self.desk.amounts.would is not None:
                self.desk.amounts.would = None
                self.desk.redraw_amounts()
            self.screen.remove_class("asking")
            self._focus_on(self.query_one(Window))

    def on_input_changed(self, event: AskLine.Changed) -> None:
        """Offer answers, preview what would change."""
        if self.asking is not None:
            self.asking.typed(self, event.value)
            self.draw()

    def on_ask_line_chosen(self, message: AskLine.Chosen) -> None:
        """Another of the answers offered."""
        if self.asking is not None:
            self.asking.choose(self, message.by)
            self.draw()

    def on_ask_line_left(self, message: AskLine.Left) -> None:
        """Left without an answer."""
        asking = self.asking
        self._end_asking()
        if asking is not None:
            asking.left(self)
        self.draw()

    def on_input_submitted(self, event: AskLine.Submitted) -> None:
        """An answer: what was typed to this question, not to one before it that a quick second Enter still carries."""
        asking = self.asking
        if asking is not None and asking.accepts(self, asking.text):
            self._end_asking()
            asking.answered(self, asking.text)
        self.draw()

    # --- mouse ---------------------------------------------------------------------------------------------------

    def on_stand(self, message: Stand) -> None:
        """A click stands; a double click goes down."""
        if self.asking is not None:
            return
        desk = self.desk
        desk.clear()
        if message.at.startswith("station:"):
            self.go_to(message.at.removeprefix("station:"))
            return
        if desk.page is not None and message.at.isdigit():
            desk.page = desk.page.walk(int(message.at) - desk.page.stand)
        else:
            desk.stand_on(message.at)
        if message.enter:
            desk.enter()
        self.draw()

    def on_window_wheel(self, message: Window.Wheel) -> None:
        """Look elsewhere without walking."""
        self.query_one(Window).top += message.by
        self.draw(keep=False)


def run_workbench(kept: str | None = None) -> int:
    """Open the workbench, on a kept case if one is named; 0 when it was left, 3 if the case will not open."""
    if kept is None:
        return Workbench().run() or 0
    try:
        session = Session.open(Path(kept))
    except FormulateError as error:
        sys.stderr.write(shown(str(error), lines=True) + "\n")
        return 3
    return Workbench(session, path=Path(kept)).run() or 0
