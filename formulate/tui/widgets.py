"""The few widgets: rows of pieces, a window on a drawing, the box of the list, the one line that asks."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from rich.text import Text
from textual import events
from textual.binding import BindingType
from textual.message import Message
from textual.widget import Widget
from textual.widgets import Input, TextArea

from formulate.tui.messages import BoxLeft, Stand, TextPasted
from formulate.tui.paint import Drawing, Painted, Piece, wrap
from formulate.tui.signs import Signs, terminal_signs

SHORT = 300
"""Characters of a paste that still goes into the one line that asks."""


class Rows(Widget):
    """Rows of pieces. The only place where pieces become text on the screen: no markup, no raw bytes."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {
        "piece--stand",
        "piece--muted",
        "piece--strong",
        "piece--warn",
        "piece--group",
        "piece--rule",
    }
    signs: Signs = terminal_signs()

    def __init__(self, id: str) -> None:
        super().__init__(id=id)
        self.rows: Sequence[Painted] = ()

    def put(self, rows: Sequence[Painted]) -> None:
        """Show these rows."""
        self.rows = rows
        self.refresh(layout=False)

    def render(self) -> Text:
        """The rows as text."""
        text = Text(no_wrap=True, overflow="crop", end="")
        for i, row in enumerate(self.rows[: self.size.height or None]):
            if i:
                text.append("\n")
            for piece in row:
                style = self.get_component_rich_style(f"piece--{piece.style}", partial=True) if piece.style else ""
                text.append(self.signs.fit(piece.text), style)
        return text

    def plain(self) -> list[str]:
        """The rows without styles."""
        return [self.signs.fit("".join(piece.text for piece in row)) for row in self.rows]

    def on_click(self, event: events.Click) -> None:
        """Stand on what was clicked."""
        piece = self._piece(event.x, event.y)
        if piece is not None and piece.at is not None:
            self.post_message(Stand(piece.at, event.chain >= 2))

    def _piece(self, x: int, y: int) -> Piece | None:
        from wcwidth import wcswidth

        if not 0 <= y < len(self.rows):
            return None
        for piece in self.rows[y]:
            x -= max(wcswidth(piece.text), 0)
            if x < 0:
                return piece
        return None


class Window(Rows, can_focus=True):
    """A window on a drawing of many rows; the place one stands on is kept in sight."""

    class Wheel(Message):
        """The wheel was turned."""

        def __init__(self, by: int) -> None:
            super().__init__()
            self.by = by

    class Pressed(Message):
        """A key was pressed here; by the time that it is acted upon a question may have been opened."""

        def __init__(self, key: events.Key) -> None:
            super().__init__()
            self.key = key

    async def _on_key(self, event: events.Key) -> None:
        event.stop()
        event.prevent_default()
        self.post_message(self.Pressed(event))

    def __init__(self, id: str) -> None:
        super().__init__(id)
        self.top = 0
        self.left_below = 0

    def look(self, drawing: Drawing, height: int, keep: bool = True) -> None:
        """Show the part of a drawing that holds the place one stands on (``keep``), or where the window was moved.

        A ``head`` of the drawing stays on top.
        """
        head: Painted | None = getattr(drawing, "head", None)
        if head is not None:
            height -= 1
        first, last = drawing.span()
        if keep:
            self.top = min(self.top, first)
            if last >= self.top + height:
                self.top = min(last - height + 1, first)
        self.top = max(min(self.top, drawing.count - height), 0)
        end = min(self.top + height, drawing.count)
        self.left_below = drawing.count - end
        shown = [drawing.paint(i) for i in range(self.top, end)]
        self.rows = shown if head is None else [head, *shown]
        self.refresh(layout=False)

    def say(self, text: str) -> None:
        """Show a sentence instead of a drawing."""
        self.top = self.left_below = 0
        self.put([(Piece(f" {row}"),) for row in wrap(text, self.size.width - 2)])

    def on_mouse_scroll_down(self, event: events.MouseScrollDown) -> None:
        """Look further down."""
        event.stop()
        self.post_message(self.Wheel(+3))

    def on_mouse_scroll_up(self, event: events.MouseScrollUp) -> None:
        """Look further up."""
        event.stop()
        self.post_message(self.Wheel(-3))


class ListBox(TextArea):
    """The box in which a list is typed. A paste never enters it: it is read at once."""

    BINDINGS: ClassVar[list[BindingType]] = []

    async def _on_paste(self, event: events.Paste) -> None:
        event.stop()
        event.prevent_default()
        self.post_message(TextPasted(event.text))

    async def _on_key(self, event: events.Key) -> None:
        empty_enter = event.key == "enter" and not self.text.strip()
        if empty_enter or event.key in {"escape", "tab", "ctrl+j", "ctrl+enter"}:
            event.stop()
            event.prevent_default()
            self.post_message(BoxLeft(self.text, event.key == "enter"))
            return
        await super()._on_key(event)


class AskLine(Input):
    """The one line that asks. A short paste is typed, a long one is a list and is read."""

    class Chosen(Message):
        """An arrow key: another of the answers offered."""

        def __init__(self, by: int) -> None:
            super().__init__()
            self.by = by

    class Left(Message):
        """Esc or Tab: left without an answer."""

    def _on_paste(self, event: events.Paste) -> None:
        if len(event.text) <= SHORT and "\n" not in event.text.strip():
            super()._on_paste(event)
        else:
            self.post_message(TextPasted(event.text))
        event.stop()
        event.prevent_default()

    async def _on_key(self, event: events.Key) -> None:
        if event.key in {"up", "down"}:
            self.post_message(self.Chosen(-1 if event.key == "up" else 1))
        elif event.key in {"escape", "tab"}:
            self.post_message(self.Left())
        else:
            await super()._on_key(event)
            return
        event.stop()
        event.prevent_default()
