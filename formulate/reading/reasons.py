"""Why a line, an amount or a left-over is there: it was pasted, and where."""

from __future__ import annotations

from formulate.domain.line import HazardCode, LeftOver, Line, Reading, StatedFact
from formulate.domain.reason import Ledger
from formulate.reading.surface import squeezed

SHOWN = 120


def shown(text: str) -> str:
    """A pasted text on one line, cut after 120 signs."""
    flat = squeezed(text[: SHOWN * 4])
    return flat if len(flat) <= SHOWN else flat[: SHOWN - 1] + "\u2026"


def add_pasted(ledger: Ledger, line: Line, of: int) -> str:
    """Add the reason that this line was pasted as one of ``of`` lines; return its id (the same each time)."""
    return ledger.add(
        "pasted",
        'You pasted "{raw}" as line {position} of {of}.',
        {"raw": shown(line.raw), "position": line.position, "of": of},
        place=line.place,
    )


def add_stated(ledger: Ledger, line: Line) -> str:
    """Add the reason for a line's stated amount; return its id.

    Raises
    ------
    ValueError
        If the line states no amount.
    """
    if line.stated is None:
        raise ValueError(f"line {line.position} states no amount")
    template = 'Your text states "{amount}" for {name}.'
    if line.stated.doubtful:
        template = 'Your text states "{amount}" for {name}; the print leaves a doubt how to read it.'
    return ledger.add(
        "pasted", template, {"amount": shown(line.stated.text), "name": shown(line.name)}, place=line.place
    )


def add_left_over(ledger: Ledger, left_over: LeftOver) -> str:
    """Add the reason why a stretch of text was not used; return its id."""
    return ledger.add(
        "pasted",
        '"{text}" was not read as an ingredient: {why}.',
        {"text": shown(left_over.text), "why": left_over.why},
        place=left_over.place,
    )


def add_fact(ledger: Ledger, key: str, fact: StatedFact) -> str:
    """Add the reason for a measurement printed beside the list; return its id."""
    return ledger.add(
        "pasted",
        'Your text states "{text}" ({quantity}).',
        {"text": shown(fact.text), "quantity": key},
        place=fact.place,
    )


def add_hazard_code(ledger: Ledger, code: HazardCode) -> str:
    """Add the reason for a hazard code of the product; return its id."""
    return ledger.add(
        "pasted",
        'Your text states "{code}" in its section on hazards, for the {of} as a whole.',
        {"code": shown(code.text), "of": code.of},
        place=code.place,
    )


def ledger_of(reading: Reading) -> Ledger:
    """The ledger of what a reading took from the text."""
    ledger = Ledger()
    for line in reading.lines:
        add_pasted(ledger, line, len(reading.lines))
        if line.stated is not None:
            add_stated(ledger, line)
    for left_over in reading.left_over:
        add_left_over(ledger, left_over)
    for key, fact in reading.facts.items():
        add_fact(ledger, key, fact)
    for code in reading.hazard_codes:
        add_hazard_code(ledger, code)
    return ledger
