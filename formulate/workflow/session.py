"""One bottle under work: the case, its answers, corrections forward and back. No screen in it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from formulate._version import __version__
from formulate.casefile import Opened, open_case, save_case
from formulate.catalog.amounts import disclosure_rule
from formulate.catalog.names import name_key
from formulate.catalog.store import Catalog, open_catalog
from formulate.domain.edit import Case, Edit, Field_, PastedText
from formulate.domain.line import Reading
from formulate.domain.model import digest
from formulate.domain.vocabulary import RULES
from formulate.errors import CaseError, FormulateError
from formulate.workflow.amount_edits import check_edit, said_supposed
from formulate.workflow.answers import BriefAnswer, ReadAnswer, RolesAnswer
from formulate.workflow.assemble import brief_answer, read_answer, roles_answer
from formulate.workflow.graph import KEPT, Inputs
from formulate.workflow.moves import Moved, moves
from formulate.workflow.nodes import build_graph, standing

if TYPE_CHECKING:
    from formulate.workflow.amount_answers import BoundsAnswer

MOST_DRAWN = 150
"""Lines of a list up to which likely amounts are drawn: twenty thousand draws of more fill the memory."""


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
        self.case = case or Case(
            id=digest(["new", sorted(self.options.items(), key=str)]), program=__version__, data=self.catalog.version
        )
        self._graph = build_graph(self.catalog)
        self._bounds: dict[object, BoundsAnswer] = {}
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

    def bounded(self, case: Case, stop: Callable[[], bool] | None = None) -> BoundsAnswer:
        """What is certain of the amounts of one state: fast, nothing is drawn.

        Raises
        ------
        FormulateError
            Where what was said of amounts cannot be read, or the list is too long.
        Stopped
            If ``stop`` turns true.
        """
        return self._amounts(case, "hard", stop, None)

    def drawn(
        self,
        case: Case,
        stop: Callable[[], bool] | None = None,
        progress: Callable[[int, int, str], None] | None = None,
    ) -> BoundsAnswer:
        """What is certain and what is plausible of the amounts: slow. Raises as :meth:`bounded`.

        Of a list of more than ``MOST_DRAWN`` lines only what is certain: draws of it would fill the memory.
        """
        count = len(self.reading(case).lines)
        return self._amounts(case, "draws" if count <= MOST_DRAWN else "hard", stop, progress)

    def _amounts(
        self,
        case: Case,
        wanted: str,
        stop: Callable[[], bool] | None,
        progress: Callable[[int, int, str], None] | None,
    ) -> BoundsAnswer:
        from formulate.workflow.bounds_answer import bounds_answer

        inputs = self._inputs(case)._replace(progress=progress)
        done = self._graph.get(inputs, wanted, stop)
        suppose = said_supposed(inputs.edits)
        key = (wanted, tuple(output.digest for output in done.values()), suppose)
        found = self._bounds.get(key)
        if found is None:
            found = bounds_answer(done, self.catalog, suppose, stop)
            self._bounds[key] = found
            for old in list(self._bounds)[:-KEPT]:
                self._bounds.pop(old, None)
        return found

    def rules(self) -> tuple[tuple[str, str, str], ...]:
        """The rules of disclosure that can be assumed: name, title, and what each says."""
        found = (disclosure_rule(self.catalog, name) for name in RULES)
        return tuple((one.rule, one.title, one.says) for one in found)

    def refusal(self, target: str, field: Field_, value: str | None) -> FormulateError | None:
        """Why something said of amounts cannot be taken; None if it can."""
        try:
            check_edit(field, value)
            if field == "assumption" and value is not None:
                self.bounded(self.would(target, field, value))
        except FormulateError as error:
            return error
        return None

    def _inputs(self, case: Case) -> Inputs:
        text = case.texts[-1] if case.texts else PastedText(id=digest(""), text="")
        return Inputs(text.text, text.id, standing(case.standing()), self.options, case.seed)

    def _answers(self, case: Case, stop: Callable[[], bool] | None = None) -> Answers:
        done = self._graph.get(self._inputs(case), "brief", stop)
        return Answers(
            read_answer(done, self.catalog), roles_answer(done, self.catalog), brief_answer(done, self.catalog)
        )

    def paste(self, text: str) -> Answers:
        """Take a text under work. Earlier texts and corrections are kept; corrections hold where their lines recur."""
        self.take(text)
        return self.answers()

    def take(self, text: str) -> None:
        """As :meth:`paste`, without working anything out: a screen asks for the answers in a thread of its own."""
        pasted = PastedText(id=digest(text), text=text)
        others = tuple(one for one in self.case.texts if one.id != pasted.id)
        self.case = self.case.model_copy(update={"texts": (*others, pasted)})

    def reading(self, case: Case, most: int | None = None) -> Reading:
        """The lines of a case only: the first thing that can be shown of a long text. ``most``: of its first characters
        only, without the last line, which may be cut short."""
        inputs = self._inputs(case)
        if most is not None:
            inputs = inputs._replace(text=inputs.text[:most], text_id=digest([inputs.text_id, most]))
        reading: Reading = self._graph.get(inputs, "lines")["lines"].value
        return reading if most is None else reading.model_copy(update={"lines": reading.lines[:-1], "left_over": ()})

    def compare(
        self, before: Case | None, after: Case, stop: Callable[[], bool] | None = None
    ) -> tuple[Answers, tuple[Moved, ...]]:
        """Answers of one state, and what moved since another (None: nothing). Raises Stopped if ``stop`` turns true."""
        new = self._answers(after, stop)
        if before is None:
            return new, ()
        old = self._answers(before, stop)
        return new, moves((old.roles, old.brief), (new.roles, new.brief))

    def name_of(self, ingredient: str) -> str:
        """Name of an ingredient of the dataset; anything else as it is."""
        try:
            return self.catalog.ingredient(ingredient).name
        except KeyError:
            return ingredient

    def suggest(self, text: str, most: int = 8) -> list[tuple[str, str]]:
        """Ingredients (id, name) whose names are, begin with or hold the words typed, in that order."""
        wanted = name_key(text)
        if not wanted:
            return []
        keys = self.catalog.name_keys
        starts = sorted((key for key in keys if key.startswith(wanted)), key=len)
        holds = sorted((key for key in keys if wanted in key and not key.startswith(wanted)), key=len)
        found: dict[str, str] = {}
        for key in (*starts, *holds):
            for hit in self.catalog.by_key(key):
                found.setdefault(hit.ingredient, self.catalog.ingredient(hit.ingredient).name)
            if len(found) >= most:
                break
        return list(found.items())[:most]

    def preview(self, target: str, field: Field_, value: str | None) -> tuple[Moved, ...]:
        """What a correction would move, without making it."""
        return self._moved(self.case, self._edited(target, field, value, "", "", ""))

    def correct(
        self, target: str, field: Field_, value: str | None, note: str = "", when: str = "", who: str = "you"
    ) -> tuple[Moved, ...]:
        """Make a correction; returns what moved. Corrections that were undone before it go to the notes."""
        before = self.case
        self.make(target, field, value, note, when, who)
        return self._moved(before, self.case)

    def make(
        self, target: str, field: Field_, value: str | None, note: str = "", when: str = "", who: str = "you"
    ) -> None:
        """As :meth:`correct`, without working out what moved."""
        self.case = self._edited(target, field, value, note, when, who)

    def would(self, target: str, field: Field_, value: str | None) -> Case:
        """The case as it would be with one more correction."""
        return self._edited(target, field, value, "", "", "")

    def _edited(self, target: str, field: Field_, value: str | None, note: str, when: str, who: str) -> Case:
        case = self.case
        edit = Edit(
            id=digest([target, field, value, note, when, case.cursor]),
            when=when,
            who=who,
            target=target,
            field=field,
            value=value,
            note=note,
        )
        undone = tuple(f"undone: {one.field} of {one.target} = {one.value}" for one in case.edits[case.cursor :])
        return case.model_copy(
            update={"edits": (*case.standing(), edit), "cursor": case.cursor + 1, "notes": (*case.notes, *undone)}
        )

    def undo(self) -> tuple[Moved, ...]:
        """Take the last correction back; returns what moved."""
        return self._step(-1)

    def redo(self) -> tuple[Moved, ...]:
        """Make the last undone correction again; returns what moved."""
        return self._step(+1)

    def _step(self, step: int) -> tuple[Moved, ...]:
        before = self.case
        self.step(step)
        return self._moved(before, self.case)

    def step(self, step: int) -> bool:
        """Take corrections back (-1) or make them again (+1), without working anything out; whether there was one."""
        cursor = min(max(self.case.cursor + step, 0), len(self.case.edits))
        stepped = cursor != self.case.cursor
        self.case = self.case.model_copy(update={"cursor": cursor})
        return stepped

    def note(self, text: str) -> None:
        """Keep a note with the case."""
        self.case = self.case.model_copy(update={"notes": (*self.case.notes, text)})

    def _moved(self, before: Case, after: Case) -> tuple[Moved, ...]:
        old, new = self._answers(before), self._answers(after)
        return (*moves((old.roles, old.brief), (new.roles, new.brief)), *self.amounts_moved(before, after))

    def amounts_moved(self, before: Case, after: Case, stop: Callable[[], bool] | None = None) -> tuple[Moved, ...]:
        """Which certain amounts moved between two states; none where those of one cannot be worked out."""
        from formulate.workflow.amount_moves import amount_moves

        try:
            return amount_moves(self.bounded(before, stop), self.bounded(after, stop))
        except FormulateError:
            return ()

    def save(self, path: Path | None = None) -> Path:
        """Keep the case atomically; a file changed by another program is not overwritten. Raises CaseError."""
        saved = self._saved
        if path is None and saved is None:
            raise ValueError("a new case needs a path")
        target = path if path is not None else saved.path if saved is not None else Path()
        try:
            target.parent.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise CaseError(
                f'The folder "{target.parent}" cannot be made.',
                str(target.parent),
                str(error.strerror or error),
                "choose another folder; what you typed is still here",
            ) from None
        digest_read = saved.digest if saved is not None and saved.path == target else None
        self._saved = save_case(self.case, target, digest_read)
        return self._saved.path
