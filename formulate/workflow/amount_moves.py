"""Which amounts moved between two answers: ranges whose shown digits changed."""

from __future__ import annotations

from collections.abc import Iterator

from formulate.workflow.amount_answers import BoundsAnswer, IngredientBounds, TotalBounds
from formulate.workflow.bars import TITLES, span
from formulate.workflow.moves import Moved

Pair = tuple[float, float]


def amount_moves(before: BoundsAnswer, after: BoundsAnswer) -> tuple[Moved, ...]:
    """Figures that moved; likely ranges only where both answers have them. Lines are compared by id."""
    return (
        *_rule_moves(before, after),
        *_ingredient_moves(before, after),
        *_total_moves(before, after),
    )


def supposed_rows(answer: BoundsAnswer) -> tuple[tuple[IngredientBounds, ...], dict[str, TotalBounds], str]:
    """Ingredients and totals as they are shown, under what is supposed if that is possible; and where they stand."""
    said = answer.supposed
    if said is None or not said.possible:
        return answer.ingredients, answer.totals, ""
    return said.forces, said.totals, "/supposed"


def _rule_moves(before: BoundsAnswer, after: BoundsAnswer) -> Iterator[Moved]:
    if before.rule.name != after.rule.name:
        yield Moved(pointer="/rule", what="rule", was=before.rule.title, now=after.rule.title)
    then, now = (_clash(one) for one in (before, after))
    if then != now:
        yield Moved(pointer="/contradiction", what="contradiction", was=then, now=now)


def _clash(answer: BoundsAnswer) -> str:
    if isinstance(answer.contradiction, str):
        return "none"
    return f"{len(answer.contradiction.statements)} statements clash"


def _ingredient_moves(before: BoundsAnswer, after: BoundsAnswer) -> Iterator[Moved]:
    old = {row.line: row for row in supposed_rows(before)[0]}
    rows, _, _ = supposed_rows(after)
    for i, row in enumerate(rows):
        was = old.get(row.line)
        if was is not None:
            yield from _moved(f"/ingredients/{i}", row.name, was, row)


def _total_moves(before: BoundsAnswer, after: BoundsAnswer) -> Iterator[Moved]:
    old, new = supposed_rows(before)[1], supposed_rows(after)[1]
    for total, now in new.items():
        if total in old:
            yield from _moved(f"/totals/{total}", TITLES.get(total, total), old[total], now)


def _moved(
    pointer: str, name: str, was: IngredientBounds | TotalBounds, now: IngredientBounds | TotalBounds
) -> Iterator[Moved]:
    ratio = isinstance(now, TotalBounds) and now.unit == "g/mL"
    pairs = [("hard", name, was.hard, now.hard)]
    if was.plausible is not None and now.plausible is not None:
        pairs.append(
            (
                "plausible",
                f"{name}, likely",
                (was.plausible.low, was.plausible.high),
                (now.plausible.low, now.plausible.high),
            )
        )
    for field, what, old, new in pairs:
        then, at_last = shown_span(old, ratio), shown_span(new, ratio)
        if then != at_last:
            yield Moved(pointer=f"{pointer}/{field}", what=what, was=then, now=at_last)


def shown_span(pair: Pair | None, density: bool = False) -> str:
    """A range as it is shown; '-' where there is none."""
    if pair is None:
        return "-"
    return f"{pair[0]:.3f} - {pair[1]:.3f}" if density else span(*pair)
