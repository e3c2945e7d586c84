"""What `c` asks at station 2: at a figure, or at the step where the mistake is."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from formulate.tui import amounts_asks as asks
from formulate.tui.asking import Answered, Asking
from formulate.tui.asks import Ask, ask_identity
from formulate.tui.figures import Figure
from formulate.tui.steps import Step
from formulate.workflow.amount_answers import BoundsAnswer, IngredientBounds
from formulate.workflow.amount_edits import line_told

if TYPE_CHECKING:
    from formulate.tui.app import Workbench

MEASURABLE = {"nonvolatile_110c": "nonvolatile", "silica": "silica", "density_g_per_ml": "density"}
"""Totals that can be measured, and under which name."""
FOLLOWS = "This figure follows from others. Enter climbs down to the step where the mistake is; c corrects it there."


def correct_amounts(bench: Workbench, with_reason: Answered, made: Answered) -> None:
    """Ask what is right. ``with_reason`` asks why afterwards, ``made`` does not."""
    desk, session = bench.desk, bench.session
    figure, bounds = desk.figure, desk.amounts.now
    if figure is None or bounds is None or session is None:
        bench.say(
            "The amounts are not worked out yet." if desk.amounts.error is None else "u takes the last edit back."
        )
        return
    step = desk.page.step if desk.page is not None else None
    asked = _of_step(bench, step, bounds, figure) if step is not None else None
    asked = asked or _of_figure(bench, figure, bounds)
    if asked is None:
        bench.say(FOLLOWS)
    else:
        bench.ask(Asking(asked, made if asked.id == "suppose" else with_reason))


def _of_figure(bench: Workbench, figure: Figure, bounds: BoundsAnswer) -> Ask | None:
    session = bench.session
    assert session is not None
    row = next((one for one in bounds.ingredients if one.line == figure.line), None)
    if row is not None:
        asked = _OF_LINE.get(figure.field)
        return asked(bench, row, bounds) if asked is not None else None
    total = figure.key.split("/")[1] if figure.key.startswith("total/") else ""
    if total and figure.field in {"total", "low", "high", "likely", "told"}:
        if total in MEASURABLE and figure.field != "likely":
            return asks.ask_measured(f"{MEASURABLE[total]}=")
        return asks.ask_suppose(f"{total}=") if total != "density_g_per_ml" else asks.ask_measured("density=")
    if figure.field == "clash":
        step = bench.desk.step()
        return _of_step(bench, step.children[0] if step is not None and step.children else step, bounds, figure)
    if figure.field in {"rule", "note"}:
        return asks.ask_rule(session.rules())
    if figure.field == "line":
        return _line(bench, None, bounds)
    if figure.field == "measured":
        return asks.ask_measured()
    return asks.ask_suppose() if figure.field in {"suppose", "supposed"} else None


def _line(bench: Workbench, row: IngredientBounds | None, bounds: BoundsAnswer) -> Ask:
    assert bench.session is not None
    told = line_told(bench.session.case.standing())
    lines = [(one.line, one.position, one.name) for one in bounds.ingredients]
    return asks.ask_line(lines, told, row.line if row is not None else None)


def _amount(_: Workbench, row: IngredientBounds, __: BoundsAnswer) -> Ask:
    return asks.ask_amount(row.line, row.position)


def _suppose(_: Workbench, row: IngredientBounds, __: BoundsAnswer) -> Ask:
    return asks.ask_suppose(f"{row.ingredient or row.name}=")


def _means(_: Workbench, row: IngredientBounds, __: BoundsAnswer) -> Ask:
    return asks.ask_means(row.line, row.position)


def _identity(bench: Workbench, row: IngredientBounds, _: BoundsAnswer) -> Ask:
    assert bench.session is not None
    return ask_identity(row.line, row.position, bench.session.suggest)


_OF_LINE: dict[str, Callable[[Workbench, IngredientBounds, BoundsAnswer], Ask | None]] = {
    "place": _line,
    "name": _identity,
    "low": _amount,
    "high": _amount,
    "printed": _amount,
    "likely": _suppose,
    "supplied": _means,
}
"""What is asked at each figure of a line."""


def _of_step(bench: Workbench, step: Step | None, bounds: BoundsAnswer, figure: Figure) -> Ask | None:
    """What is asked at a step below a figure: of the statement that the step is, else of the line it speaks of."""
    session, answers = bench.session, bench.desk.answers
    if step is None or session is None or answers is None:
        return None
    reason = next((one for one in bounds.reasons.values() if one.says == step.says), None)
    if reason is not None and reason.kind == "measured":
        return asks.ask_measured()
    if reason is not None and reason.id == bounds.rule.why:
        return asks.ask_rule(session.rules())
    if reason is not None and reason.id == bounds.why.get("/supposed"):
        return asks.ask_suppose()
    row = next((one for one in bounds.ingredients if one.line == (step.line or figure.line)), None)
    if row is None:
        return None
    if reason is not None and reason.id == row.supplied_as.why:
        return _means(bench, row, bounds)
    stated = {
        answers.read.why.get(f"/lines/{i}/stated") for i, one in enumerate(answers.read.lines) if one.id == row.line
    }
    if reason is not None and reason.id in stated:
        return _amount(bench, row, bounds)
    return _identity(bench, row, bounds) if step.line is not None else None
