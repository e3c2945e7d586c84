"""What each registered action does."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from formulate.tui import asks
from formulate.tui.actions import ACTIONS, shown_key
from formulate.tui.amounts_doing import correct_amounts
from formulate.tui.asking import Asking
from formulate.tui.asks import Change, Offer
from formulate.tui.ground import moved_words
from formulate.tui.steps import help_step, history_step, who_steps

if TYPE_CHECKING:
    from formulate.tui.app import Workbench

THEME_WORDS: dict[str, str] = {
    "textual-dark": "dark",
    "textual-light": "light",
    "ansi-dark": "the terminal's own, for a dark ground",
    "ansi-light": "the terminal's own, for a light ground",
}
THEMES = tuple(THEME_WORDS)
ROLE_FIELDS = frozenset({"purpose", "certainty", "also"})


def _walk(across: int, down: int) -> Callable[[Workbench], None]:
    return lambda bench: bench.desk.walk(across, down)


def _page(sign: int) -> Callable[[Workbench], None]:
    def do(bench: Workbench) -> None:
        bench.desk.walk(0, sign * max(bench.rows("station").size.height - 1, 1))

    return do


def _end(last: bool) -> Callable[[Workbench], None]:
    def do(bench: Workbench) -> None:
        desk = bench.desk
        desk.clear()
        if desk.page is not None:
            desk.page = desk.page.walk(10**6 if last else -(10**6))
        elif desk.sheet.figures:
            desk.stand_on(desk.sheet.figures[-1].key if last else desk.sheet.first())

    return do


def _enter(bench: Workbench) -> None:
    if bench.desk.answers is None and bench.desk.sheet.figures:
        bench.say("The reasons are still being worked out.")
    elif bench.desk.answers is None:
        bench.open_box()
    else:
        bench.desk.enter()


def _up_step(bench: Workbench) -> None:
    bench.desk.up_step()


def _escape(bench: Workbench) -> None:
    bench.desk.clear()
    bench.desk.page = None


def _who(bench: Workbench) -> None:
    step = bench.desk.step()
    if step is not None:
        bench.desk.open_page(who_steps(step))


def _correct(bench: Workbench) -> None:
    """Ask at the step where the mistake is: the line a step speaks of, or the figure one stands on."""
    figure, step, session, desk = bench.desk.figure, bench.desk.step(), bench.session, bench.desk
    if desk.station == "amounts":
        correct_amounts(bench, _with_reason, _made)
        return
    if figure is None or step is None or session is None or desk.answers is None:
        return
    if figure.field == "claim" or figure.field == "headline":
        _front(bench)
        return
    if figure.field == "form":
        _manner(bench)
        return
    line = step.line or figure.line
    row = next((one for one in desk.answers.roles.ingredients if one.line == line), None)
    if row is None:
        bench.say(
            "This figure follows from others. Enter climbs down to the step where the mistake is; c corrects it there."
        )
    elif (
        figure.field in ROLE_FIELDS
        and line == figure.line
        and (desk.page is None or step.origin.startswith(("rule", "a rule")))
    ):
        bench.ask(Asking(asks.ask_role(row.line, row.position), _with_reason))
    else:
        bench.ask(Asking(asks.ask_identity(row.line, row.position, session.suggest), _with_reason))


def _with_reason(bench: Workbench, asking: Asking) -> None:
    """A correction was named: ask, once, why one thinks so; then make it either way."""
    change = asking.change
    if change is None:
        return

    def make(bench: Workbench, reason: Asking) -> None:
        _make(bench, change, reason.text.strip())

    bench.ask(Asking(asks.ask_reason(), make, lambda bench: _make(bench, change), asking.moved))


def _make(bench: Workbench, change: Change, note: str = "") -> None:
    if bench.session is not None:
        bench.session.make(change.target, change.field, change.value, note, bench.clock().isoformat(timespec="seconds"))
        bench.work_out()


def _made(bench: Workbench, asking: Asking) -> None:
    if asking.change is not None:
        _make(bench, asking.change)


def _front(bench: Workbench) -> None:
    if bench.desk.answers is not None:
        bench.ask(Asking(asks.ask_claim(bench.desk.answers.roles.product.claim or ""), _made))


def _manner(bench: Workbench) -> None:
    if bench.desk.answers is not None:
        bench.ask(Asking(asks.ask_form(), _made))


def _note(bench: Workbench) -> None:
    bench.ask(Asking(asks.ask_note(), _noted))


def _noted(bench: Workbench, asking: Asking) -> None:
    if bench.session is not None and asking.text.strip():
        about = bench.desk.figure.title if bench.desk.figure is not None else ""
        bench.session.note(f"{asking.text.strip()} ({about})" if about else asking.text.strip())
        bench.work_out()
        bench.say("Noted; h shows all notes.")


def _copy(bench: Workbench) -> None:
    step, figure = bench.desk.step(), bench.desk.figure
    said = (
        step.says if bench.desk.page is not None and step is not None else figure.said() if figure is not None else ""
    )
    if said:
        bench.copy_to_clipboard(said)
        bench.say(f"Copied: {said}")


def _step(by: int, nothing: str) -> Callable[[Workbench], None]:
    def do(bench: Workbench) -> None:
        if bench.session is None:
            return
        if bench.session.step(by):
            bench.desk.clear()
            bench.work_out()
        else:
            bench.say(nothing)

    return do


def _history(bench: Workbench) -> None:
    desk = bench.desk
    if bench.session is not None:
        names = (
            {row.line: f"line {row.position}" for row in desk.answers.roles.ingredients}
            if desk.answers is not None
            else {}
        )
        desk.open_page(history_step(bench.session.case, names, moved_words(desk.moved, desk.name_of)))


def _find(bench: Workbench) -> None:
    desk = bench.desk
    entries = [
        Offer(f"figure:{one.key}", f"{one.title}: {one.text}") for one in desk.sheet.figures if one.field != "certainty"
    ]
    entries += [Offer(f"do:{one.id}", f"{one.label}: {one.help} ({shown_key(one)})") for one in ACTIONS if one.found]
    texts = bench.session.case.texts[:-1] if bench.session is not None else ()
    entries += [Offer(f"text:{one.id}", f"earlier text: {one.text[:80]}") for one in reversed(texts)]
    bench.ask(Asking(asks.ask_find(entries), _found))


def _found(bench: Workbench, asking: Asking) -> None:
    if asking.offer is None:
        return
    kind, _, what = asking.offer.value.partition(":")
    if kind == "figure":
        bench.desk.page = None
        bench.desk.stand_on(what)
    elif kind == "do":
        DO[what](bench)
    elif bench.session is not None:
        again = next((one.text for one in bench.session.case.texts if one.id == what), None)
        if again is not None:
            bench.read_text(again)


def _help(bench: Workbench) -> None:
    figure = bench.desk.figure
    field, title = ("step", "a step") if bench.desk.page is not None or figure is None else (figure.field, figure.title)
    bench.desk.open_page(help_step(field, title, [(shown_key(one), one.help) for one in ACTIONS]))


def _colours(bench: Workbench) -> None:
    after = THEMES[(THEMES.index(bench.theme) + 1) % len(THEMES)] if bench.theme in THEMES else THEMES[0]
    bench.theme = after
    bench.say(f"Colours: {THEME_WORDS[after]}.")


def _station(station: str) -> Callable[[Workbench], None]:
    return lambda bench: bench.go_to(station)


def _stop(bench: Workbench) -> None:
    bench.say(
        "Stopped; what stands here stays. 2 draws again." if bench.stop_work() else "Nothing is being worked out."
    )


DO: dict[str, Callable[[Workbench], None]] = {
    "up": _walk(0, -1),
    "down": _walk(0, 1),
    "left": _walk(-1, 0),
    "right": _walk(1, 0),
    "first": _end(False),
    "last": _end(True),
    "page_up": _page(-1),
    "page_down": _page(1),
    "enter": _enter,
    "up_step": _up_step,
    "escape": _escape,
    "correct": _correct,
    "who": _who,
    "front": _front,
    "manner": _manner,
    "note": _note,
    "copy": _copy,
    "undo": _step(-1, "There is nothing to take back."),
    "redo": _step(1, "There is nothing to make again."),
    "history": _history,
    "find": _find,
    "help": _help,
    "list": lambda bench: bench.open_box(),
    "station_list": _station("list"),
    "station_amounts": _station("amounts"),
    "stop": _stop,
    "colours": _colours,
    "leave": lambda bench: bench.leave(),
}
