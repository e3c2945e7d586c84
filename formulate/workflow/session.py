"""One bottle under work: the case, its answers, corrections forward and back. No screen in it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import NamedTuple

from formulate import __version__
from formulate.casefile import Opened, open_case, save_case
from formulate.catalog.store import Catalog, open_catalog
from formulate.domain.edit import Case, Edit, Field_, PastedText
from formulate.domain.model import digest
from formulate.workflow.answers import BriefAnswer, ReadAnswer, RolesAnswer
from formulate.workflow.assemble import brief_answer, read_answer, roles_answer
from formulate.workflow.graph import Inputs
from formulate.workflow.moves import Moved, moves
from formulate.workflow.nodes import build_graph, standing


class Answers(NamedTuple):
    """What the stations show of one state."""

    read: ReadAnswer
    roles: RolesAnswer
    brief: BriefAnswer


class Session:
    """A case with its answers. Every change returns the figures that moved; nothing typed is lost.

    ``options`` are form, claim, substrate, jurisdiction, date and dilution as given by the face; corrections
    of claim and application in the case go before them.
    """

    def __init__(self, options: Mapping[str, str | None] | None = None, case: Case | None = None) -> None:
        self.catalog: Catalog = open_catalog()
        self.options = dict(options or {})
        self.case = case or Case(id=digest(["new", sorted(self.options.items(), key=str)]), program=__version__,
                                 data=self.catalog.version)
        self._graph = build_graph(self.catalog)
        self._saved: Opened | None = None

    @classmethod
    def open(cls, path: Path, options: Mapping[str, str | None] | None = None) -> Session:
        """Open a kept case. Raises CaseError."""
        opened = open_case(path)
        session = cls(options, opened.case)
        session._saved = opened
        return session

    @property
    def text(self) -> str:
        """The text under work: the one pasted last."""
        return self.case.texts[-1].text if self.case.texts else ""

    def answers(self, stop: Callable[[], bool] | None = None) -> Answers:
        """Answers of the case as it stands. Raises Stopped if ``stop`` turns true."""
        return self._answers(self.case, stop)

    def _answers(self, case: Case, stop: Callable[[], bool] | None = None) -> Answers:
        text = case.texts[-1] if case.texts else PastedText(id=digest(""), text="")
        inputs = Inputs(text.text, text.id, standing(case.standing()), self.options, case.seed)
        done = self._graph.get(inputs, "brief", stop)
        return Answers(read_answer(done, self.catalog), roles_answer(done, self.catalog), brief_answer(done, self.catalog))

    def paste(self, text: str) -> Answers:
        """Take a text under work. Earlier texts and corrections are kept; corrections hold where their lines recur."""
        pasted = PastedText(id=digest(text), text=text)
        others = tuple(one for one in self.case.texts if one.id != pasted.id)
        self.case = self.case.model_copy(update={"texts": (*others, pasted)})
        return self.answers()

    def preview(self, target: str, field: Field_, value: str | None) -> tuple[Moved, ...]:
        """What a correction would move, without making it."""
        return self._moved(self.case, self._edited(target, field, value, "", "", ""))

    def correct(
        self, target: str, field: Field_, value: str | None, note: str = "", when: str = "", who: str = "you"
    ) -> tuple[Moved, ...]:
        """Make a correction; returns what moved. Corrections that were undone before it go to the notes."""
        before, self.case = self.case, self._edited(target, field, value, note, when, who)
        return self._moved(before, self.case)

    def _edited(self, target: str, field: Field_, value: str | None, note: str, when: str, who: str) -> Case:
        case = self.case
        edit = Edit(id=digest([target, field, value, note, when, case.cursor]), when=when, who=who, target=target,
                    field=field, value=value, note=note)
        undone = tuple(f"undone: {one.field} of {one.target} = {one.value}" for one in case.edits[case.cursor:])
        return case.model_copy(update={"edits": (*case.standing(), edit), "cursor": case.cursor + 1,
                                       "notes": (*case.notes, *undone)})

    def undo(self) -> tuple[Moved, ...]:
        """Take the last correction back; returns what moved."""
        return self._step(-1)

    def redo(self) -> tuple[Moved, ...]:
        """Make the last undone correction again; returns what moved."""
        return self._step(+1)

    def _step(self, step: int) -> tuple[Moved, ...]:
        cursor = min(max(self.case.cursor + step, 0), len(self.case.edits))
        before, self.case = self.case, self.case.model_copy(update={"cursor": cursor})
        return self._moved(before, self.case)

    def note(self, text: str) -> None:
        """Keep a note with the case."""
        self.case = self.case.model_copy(update={"notes": (*self.case.notes, text)})

    def _moved(self, before: Case, after: Case) -> tuple[Moved, ...]:
        old, new = self._answers(before), self._answers(after)
        return moves((old.roles, old.brief), (new.roles, new.brief))

    def save(self, path: Path | None = None) -> Path:
        """Keep the case atomically; a file changed by another program is not overwritten. Raises CaseError."""
        saved = self._saved
        if path is None and saved is None:
            raise ValueError("a new case needs a path")
        target = path if path is not None else saved.path if saved is not None else Path()
        digest_read = saved.digest if saved is not None and saved.path == target else None
        self._saved = save_case(self.case, target, digest_read)
        return self._saved.path
