"""The answer of ``bounds`` as plain text: totals on top, then the ingredients with bars on a log scale."""

from __future__ import annotations

from collections.abc import Iterator
from math import log10

from formulate.cli.render import notes_of, wrapped
from formulate.workflow.amount_answers import BoundsAnswer, IngredientBounds, PlausibleRange, SupposedSaid, TotalBounds
from formulate.workflow.answers import Answer
from formulate.workflow.gate import padded

BAR = 20
LEAST = 1e-5
"""Mass fraction at the left end of a bar, 10 ppm; the right end is all of it."""
TITLES = {
    "nonvolatile_110c": "left after drying at 110 C",
    "nonvolatile_one_day": "left after a day in the room",
    "silica": "silica particles",
    "silica_forming": "silica that forms",
    "silicon_as_sio2": "all silicon, as SiO2",
    "film_formers": "film formers",
    "water": "water",
    "voc_eu": "volatile organic, EU",
    "voc_us": "volatile organic, US",
    "density_g_per_ml": "density, g/mL",
}


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
    likely = _span(row.plausible.low, row.plausible.high) if row.plausible else "-"
    return f"{name} {_span(*row.hard):>17}   {likely:>19}   {bar(row.hard, row.plausible)}".rstrip()


def _total(total: str, found: TotalBounds) -> str:
    assert found.hard is not None
    name = padded(TITLES.get(total, total), 30)
    if found.unit == "g/mL":
        likely = f"{found.plausible.low:.3f} - {found.plausible.high:.3f}" if found.plausible else "-"
        return f"{name} {f'{found.hard[0]:.3f} - {found.hard[1]:.3f}':>17}   {likely:>19}"
    likely = _span(found.plausible.low, found.plausible.high) if found.plausible else "-"
    return f"{name} {_span(*found.hard):>17}   {likely:>19}   {bar(found.hard, found.plausible)}".rstrip()


def _span(low: float, high: float) -> str:
    """Two fractions in per cent; ppm where both are small."""
    if 0 < high < 1e-4:
        return f"{low * 1e6:.3g} - {high * 1e6:.3g} ppm"
    return f"{_digits(low)} - {_digits(high)} %"


def _digits(fraction: float) -> str:
    return f"{fraction * 100:.3g}" if fraction > 1e-6 else "0"


def bar(hard: tuple[float, float], plausible: PlausibleRange | None) -> str:
    """Certain range as a line, likely range as a block, the middle as a mark, on a log scale from 10 ppm to all."""
    cells = [" "] * BAR
    for at in range(_cell(hard[0]), _cell(hard[1]) + 1):
        cells[at] = "─"
    if plausible is not None:
        for at in range(_cell(plausible.low), _cell(plausible.high) + 1):
            cells[at] = "█"
        cells[_cell(plausible.best)] = "●"
    return "".join(cells)


def _cell(fraction: float) -> int:
    share = 1 - log10(max(fraction, LEAST)) / log10(LEAST)
    return max(0, min(BAR - 1, round(share * (BAR - 1))))


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
