"""What lies on the desk: answers, where one stands, the page one climbed down to, what changed. No Textual in it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from formulate.domain.edit import Case
from formulate.domain.line import Reading
from formulate.errors import FormulateError
from formulate.tui import words
from formulate.tui.amounts_desk import AmountsDesk
from formulate.tui.figures import Figure, Sheet
from formulate.tui.layout import WIDE
from formulate.tui.page import Page
from formulate.tui.paint import Painted, Piece, cell
from formulate.tui.sheet import answer_row, build_sheet, read_sheet
from formulate.tui.signs import GRAVE
from formulate.tui.stations import STATIONS
from formulate.tui.steps import Grounds, Step, figure_step
from formulate.workflow.amount_answers import BoundsAnswer
from formulate.workflow.gate import cut, padded
from formulate.workflow.moves import Moved
from formulate.workflow.session import Answers


class Desk:
    """State of the workbench. ``shown`` is the case that the answers are of; ``busy`` while a newer one is worked out,
    ``stale`` once that has taken long enough to say so."""

    def __init__(self) -> None:
        self.answers: Answers | None = None
        self.shown: Case | None = None
        self.sheet = Sheet([])
        self.stand = ""
        self.column = "purpose"
        self.page: Page | None = None
        self.moved: tuple[Moved, ...] = ()
        self.error: FormulateError | None = None
        self.said: tuple[str, ...] = ()
        self.busy = self.stale = self.wide = False
        self.kept = ""
        self.card: Callable[[str], Mapping[str, Any]] = lambda key: {}
        self.name_of: Callable[[str], str] = str
        self._step: tuple[str, Step] | None = None
        self.station = STATIONS[0].id
        self.amounts = AmountsDesk()
        self._stood = ""  # where one stood before a preview, which can take that figure away
        self._places: dict[str, tuple[str, str]] = {station.id: ("", "high") for station in STATIONS}

    def go(self, station: str) -> None:
        """Go to a station; one stands where one stood there last."""
        self.clear()
        self.page = None
        if station != self.station:
            self._places[self.station] = (self.stand, self.column)
            self.station, (self.stand, self.column) = station, self._places[station]
            self.sheet, self._step = Sheet([]), None
            self._rebuild()

    def take_answers(self, answers: Answers, case: Case, moved: tuple[Moved, ...]) -> None:
        """Show new answers; one stays on the figure one stood on, if it is still there."""
        self.answers, self.shown, self.moved = answers, case, moved
        self.busy = self.stale = False
        self.page = None
        self._rebuild()

    def take_amounts(self, bounds: BoundsAnswer, full: bool) -> None:
        """Show new amounts; ``full``: with likely ranges. A page one climbed down to stays open."""
        moved = self.amounts.take(bounds, full)
        self.moved = (*(one for one in self.moved if one not in self.amounts.told), *moved)
        self.amounts.told = moved
        self.redraw_amounts()

    def redraw_amounts(self) -> None:
        """Make the sheet of the amounts anew, if it is the one that is shown."""
        if self.station == "amounts":
            stood = self._stood or self.stand
            self._rebuild()
            previewing = self.amounts.would is not None
            if not previewing and stood in self.sheet:
                self.stand = stood
            self._stood = stood if previewing else ""

    def take_reading(self, reading: Reading) -> None:
        """Show the lines of a long text, as cut, while the rest is worked out."""
        self.answers, self.shown, self.page = None, None, None
        self.amounts = AmountsDesk()
        self._put(read_sheet(reading) if self.station == "list" else Sheet([]))

    def resize(self, width: int) -> None:
        """The class has a column of its own on a wide screen, which changes the order in which one walks."""
        if (width >= WIDE) != self.wide:
            self.wide = width >= WIDE
            self._rebuild()

    def _rebuild(self) -> None:
        if self.station == "amounts":
            shown, answers = self.shown, self.answers
            self._put(self.amounts.sheet(shown, answers.read) if shown and answers else Sheet([]))
        elif self.answers is not None and self.shown is not None:
            self._put(build_sheet(self.answers, self.shown.standing(), self.wide))

    def _put(self, sheet: Sheet) -> None:
        old, self.sheet, self._step = self.sheet, sheet, None
        if self.stand not in sheet:
            row = old.rows[old.row_of(self.stand)] if self.stand in old else None
            same = [key for one in (row.figures if row else ()) if (key := one.key) in sheet]
            self.stand = same[0] if same else sheet.first()

    @property
    def figure(self) -> Figure | None:
        """The figure one stands on."""
        return self.sheet.figure(self.stand) if self.stand in self.sheet else None

    @property
    def grounds(self) -> Grounds | None:
        """What steps are made from."""
        if self.answers is None or self.shown is None:
            return None
        return Grounds(self.answers, self.shown, self.card, self.amounts.shown, self.amounts.drawn)

    def step(self) -> Step | None:
        """The step one stands on: on the page, or the top step of the figure of the sheet."""
        if self.page is not None:
            return self.page.step
        figure, grounds = self.figure, self.grounds
        if figure is None or grounds is None:
            return None
        if self._step is None or self._step[0] != figure.key:
            self._step = (figure.key, figure_step(figure, grounds))
        return self._step[1]

    def clear(self) -> None:
        """Take away what was said, so that the ground tells the reasons again."""
        self.error, self.said = None, ()

    def stand_on(self, key: str) -> None:
        """Stand on a figure of the sheet."""
        if key in self.sheet:
            self.stand, self.column = key, key.rpartition("/")[2]

    def walk(self, across: int, down: int) -> None:
        """Walk: ``across`` to the figure before or after, ``down`` to the same column of another row."""
        self.clear()
        if self.page is not None:
            self.page = self.page.walk(down) if down else self.page.level(across)
        elif across and self.stand in self.sheet:
            self.stand_on(self.sheet.beside(self.stand, across))
        elif down and self.stand in self.sheet:
            self.stand = self.sheet.vertical(self.stand, down, self.column)

    def enter(self) -> None:
        """One step down."""
        self.clear()
        if self.page is not None:
            below = self.page.down()
            if below is self.page:
                self.said = ("This is where it ends: " + self.page.step.says,)
            self.page = below
        elif (step := self.step()) is not None:
            self.page = Page((step,))

    def up_step(self) -> None:
        """One step up; above the top step lies the sheet."""
        self.clear()
        if self.page is not None:
            self.page = self.page.up()

    def open_page(self, step: Step) -> None:
        """Show a page of its own (who says, edits, help) over whatever one stood on; Backspace leads back there."""
        self.clear()
        path = self.page.path if self.page is not None else ()
        self.page = Page((*path, step)) if path and path[-1].kind == "reason" else Page((step,))

    def rival(self) -> str:
        """The purpose that comes second, for the ground of a purpose."""
        figure = self.figure
        if self.page is not None or self.answers is None or figure is None or figure.field != "purpose":
            return ""
        row = next((one for one in self.answers.roles.ingredients if one.line == figure.line), None)
        if row is None or len(row.roles) < 2 or row.roles[1].probability < 0.05:
            return ""
        return f"or it is there as: {words.role_word(row.roles[1].role)}, {row.roles[1].probability:.2f}"

    def title(self) -> str:
        """What one stands on, for the head of the ground."""
        if self.page is not None:
            return f"step {self.page.stand + 1} of {len(self.page.listed)}" if self.page.listed else ""
        return self.figure.title if self.figure is not None else ""

    def answer_row(self, width: int, opening: bool) -> Painted:
        """The answer band: claim, where it stands, and when it was kept; or the next thing to do, in words."""
        kept = f"kept {self.kept}" if self.kept else ""
        room = width - len(kept) - 2
        figures = [figure for row in self._answer_sheet().rows if row.kind == "answer" for figure in row.figures]
        if not figures:
            said = (
                "No list yet"
                if opening
                else "Reading the list"
                if self.answers is None
                else "What does the front claim? Press f."
            )
            if self.answers is not None and not self.answers.read.lines:
                said = "No list was found in this text; paste another"
            return (Piece(padded(f" {said}", room + 1), "strong"), Piece(kept, "muted"))
        pieces: list[Piece] = []
        for i, figure in enumerate(figures):
            left = room - sum(len(one.text) for one in pieces)
            size = left - 1 if i == len(figures) - 1 else min(len(cut(figure.text, room // 3)) + 1, left - 1)
            standing = self.page is None and figure.key == self.stand
            pieces += cell(figure.text, size, figure.key, standing, "strong", "*" if figure.corrected else "")
        return (*pieces, Piece(f" {kept}", "muted"))

    def _answer_sheet(self) -> Sheet:
        """The sheet that holds the figures of the answer band: the same at every station."""
        if self.station == "list" or self.answers is None or self.shown is None:
            return self.sheet
        return Sheet([answer_row(self.answers, self.shown.standing())])

    def course_row(self, working: str) -> Painted:
        """The course band: stations with a word of state; the one where one is stands in brackets."""
        pieces: list[Piece] = []
        states = {"list": self._state, "amounts": self._amounts_state}
        for station in STATIONS:
            here = station.id == self.station
            name = f"[{station.key} {station.label}]" if here else f" {station.key} {station.label} "
            pieces.append(Piece(name, "strong" if here else "", f"station:{station.id}"))
            pieces.append(Piece(" " if here else ""))
            pieces += [Piece(f"{word} ", style, self._first_of(style)) for word, style in states[station.id]()]
        return (*pieces, Piece(f"  {working}", "muted"))

    def _amounts_state(self) -> list[tuple[str, str]]:
        """Words of state of station 2."""
        if self.answers is None and not self.busy:
            return []
        word = "~" if self.busy else self.amounts.state()
        return [(word, "warn" if word in {"contradict", "!"} else "muted" if word == "~" else "")]

    def _first_of(self, style: str) -> str | None:
        """Where a click on a word of state leads: a warning to the first caution."""
        cautions = (one.key for one in self.sheet.figures if one.field in {"caution", "conflict"} and style == "warn")
        return next(cautions, None)

    def _state(self) -> list[tuple[str, str]]:
        """Words of state of station 1: being worked out, lines not known, cautions; ok if none of them."""
        if self.busy or self.answers is None:
            return [("~", "muted")] if self.busy else []
        unknown = len(self.answers.brief.unknown)
        roles = self.answers.roles
        grave = sum(one.severity == "grave" for one in roles.cautions)
        grave += sum(one.severity == "grave" for one in roles.conflicts)
        state = [(f"{unknown} not known", "")] if unknown else []
        state += [(f"{GRAVE}{grave} grave", "warn")] if grave else []
        return state or ([("ok", "")] if self.answers.read.lines else [("empty", "")])
