"""The answer of ``bounds`` as plain text: totals on top, then the ingredients with bars on a log scale."""

from __future__ import annotations

from collections.abc import Iterator

from formulate.cli.render import notes_of, wrapped
from formulate.workflow.amount_answers import BoundsAnswer, IngredientBounds, SupposedSaid, TotalBounds
from formulate.workflow.answers import Answer
from formulate.workflow.bars import BAR, TITLES, bar, span
from formulate.workflow.gate import padded


def bounds_lines(answer: Answer) -> Iterator[str]:
    """Totals, ingredients, what was supposed, and the notes."""
    assert isinstance(answer, BoundsAnswer)
    yield from wrapped(f"{answer.rule.title}. {answer.rule.says}", "", "  ")
    yield ""
    if not isinstance(answer.contradiction, str):
        yield "These statements contradict each other:"
        for says in answer.contradiction.statements:
            yield from wrapped(f"- {says}", "  ", "    ")
        yield from wrapped(answer.contradiction.because)
        yield ""
    if answer.ingredients:
        yield f"{'of the bottle':<30} {'certain':>17}   {'likely (9 in 10)':>19}   10 ppm {'·' * (BAR - 14)} 100 %"
        for total, found in answer.totals.items():
            if found.hard is not None:
                yield _total(total, found)
        yield ""
        for row in (*answer.ingredients, *([answer.unnamed] if answer.unnamed else [])):
            yield _row(row)
    if answer.supposed is not None:
        yield ""
        yield from _supposed(answer.supposed)
    yield ""
    yield from notes_of(answer)
    if answer.sampling is not None:
        yield from wrapped(
            f"likely ranges: {answer.sampling.effective:.0f} effective draws, seed {answer.sampling.seed}", "", "  "
        )


def _row(row: IngredientBounds) -> str:
    place = f"{row.position:>2}  " if row.position else "    "
    name = place + padded(row.name, 26)
    if row.hard is None:
        return (name + "  -").rstrip()
    likely = span(row.plausible.low, row.plausible.high) if row.plausible else "-"
    return f"{name} {span(*row.hard):>17}   {likely:>19}   {bar(row.hard, row.plausible)}".rstrip()


def _total(total: str, found: TotalBounds) -> str:
    assert found.hard is not None
    name = padded(TITLES.get(total, total), 30)
    if found.unit == "g/mL":
        likely = f"{found.plausible.low:.3f} - {found.plausible.high:.3f}" if found.plausible else "-"
        return f"{name} {f'{found.hard[0]:.3f} - {found.hard[1]:.3f}':>17}   {likely:>19}"
    likely = span(found.plausible.low, found.plausible.high) if found.plausible else "-"
    return f"{name} {span(*found.hard):>17}   {likely:>19}   {bar(found.hard, found.plausible)}".rstrip()


def _supposed(found: SupposedSaid) -> Iterator[str]:
    yield from wrapped(f"If {found.what} were {found.value * 100:.4g} %:")
    if not found.possible:
        yield "  it cannot be: no composition agrees with that and with what is certain."
        return
    if found.share_of_draws_below is not None and found.share_of_draws_above is not None:
        yield from wrapped(
            f"possible; {found.share_of_draws_below:.0%} of the likely compositions have less, "
            f"{found.share_of_draws_above:.0%} more.",
            "  ",
        )
    for row in found.forces:
        if row.hard is not None:
            yield "  " + _row(row)
