"""Messages that workers and widgets send to the app."""

from __future__ import annotations

from textual.message import Message

from formulate.domain.edit import Case
from formulate.domain.line import Reading
from formulate.errors import FormulateError
from formulate.workflow.amount_answers import BoundsAnswer
from formulate.workflow.moves import Moved
from formulate.workflow.session import Answers, Session


class Opened(Message):
    """The dataset is open."""

    def __init__(self, session: Session) -> None:
        super().__init__()
        self.session = session


class Cut(Message):
    """The lines of a long text are cut; what they are is still being worked out."""

    def __init__(self, reading: Reading, case: Case) -> None:
        super().__init__()
        self.reading, self.case = reading, case


class Computed(Message):
    """Answers of a state of the case, and what moved."""

    def __init__(self, answers: Answers, case: Case, moved: tuple[Moved, ...]) -> None:
        super().__init__()
        self.answers, self.case, self.moved = answers, case, moved


class Previewed(Message):
    """What a correction would move, and the amounts as they would be (None: they cannot be worked out)."""

    def __init__(self, text: str, moved: tuple[Moved, ...], bounds: BoundsAnswer | None = None) -> None:
        super().__init__()
        self.text, self.moved, self.bounds = text, moved, bounds


class Bounded(Message):
    """Amounts of a state of the case; ``full``: with the likely ranges."""

    def __init__(self, bounds: BoundsAnswer, case: Case, full: bool) -> None:
        super().__init__()
        self.bounds, self.case, self.full = bounds, case, full


class Drawing(Message):
    """How far the draws are."""

    def __init__(self, case: Case, done: int, wanted: int) -> None:
        super().__init__()
        self.case, self.done, self.wanted = case, done, wanted


class Unbounded(Message):
    """The amounts of a state of the case cannot be worked out."""

    def __init__(self, error: FormulateError, case: Case) -> None:
        super().__init__()
        self.error, self.case = error, case


class Kept(Message):
    """The case is kept; ``leaving``: the workbench closes now."""

    def __init__(self, case: Case, at: str, leaving: bool) -> None:
        super().__init__()
        self.case, self.at, self.leaving = case, at, leaving


class Failed(Message):
    """Something that was asked for cannot be done."""

    def __init__(self, error: FormulateError) -> None:
        super().__init__()
        self.error = error


class Stand(Message):
    """A place was clicked; ``enter``: twice."""

    def __init__(self, at: str, enter: bool) -> None:
        super().__init__()
        self.at, self.enter = at, enter


class TextPasted(Message):
    """A text was pasted into a box; it is read, not typed."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.text = text


class BoxLeft(Message):
    """The box of the typed list was left; ``text`` may be empty."""

    def __init__(self, text: str, enter: bool) -> None:
        super().__init__()
        self.text, self.enter = text, enter
