"""``formulate data``: its flags, and its answer as text, who says so beside each value."""

from __future__ import annotations

import argparse
from collections.abc import Iterable, Iterator, Sequence
from datetime import date
from itertools import zip_longest
from textwrap import wrap
from typing import TYPE_CHECKING, Any

from formulate.cli.diagnostics import Exit, say
from formulate.cli.output import json_text, put
from formulate.workflow.gate import cut, padded, shown

if TYPE_CHECKING:
    from formulate.workflow.data_answers import DataAnswer, IngredientData

WIDTH = 80
SAYS = 30
"""Columns kept for who says so."""
FORMATS = ("csv", "json", "sqlite", "parquet")
MOST_NAMES = 24
MOST_WHOLE = 3
"""Records printed whole; more are listed, one a line."""
SECTIONS = (
    ("properties", "properties"),
    ("supply_forms", "sold as"),
    ("roles", "known for"),
    ("hazards", "classification"),
    ("exposure_limits", "limits in air"),
    ("restrictions", "restrictions and lists"),
    ("use_levels", "usual amounts in a product (mass)"),
)


def add(commands: Any, parser_class: type[argparse.ArgumentParser]) -> None:
    """Add the command to the parser of all commands."""
    help_ = "what is known of an ingredient, and who says so"
    command: argparse.ArgumentParser = commands.add_parser(
        "data",
        help=help_,
        formatter_class=argparse.RawDescriptionHelpFormatter,
        description=(
            "examples:\n  formulate data isopropanol\n  formulate data 107-51-7 --json\n  formulate data class:wax\n"
            "  formulate data --quality\n  formulate data --export sqlite -o ingredients.sqlite\n\n"
            f"prints {help_}"
        ),
    )
    command.add_argument("search", metavar="SEARCH", nargs="?", help="name, id, CAS or EC number, class, beginning")
    command.add_argument("--quality", action="store_true", help="counts, coverage, ages of the checks")
    command.add_argument("--export", choices=FORMATS, help="write the whole dataset (csv and parquet: a zip)")
    command.add_argument("-o", "--output", metavar="FILE", help="where --export or the page of --quality goes")
    command.add_argument("--date", help="day of the answer, as 2026-11-25 (default: today; for a page: newest check)")
    command.add_argument("--json", action="store_true", help="print the answer as JSON")
    command.add_argument("--why", metavar="POINTER", help="print the source of one value, as /records/0/hazards/0")
    command.add_argument("--strict", action="store_true", help="exit 1 if nothing was found")


def answer(options: argparse.Namespace) -> int:
    """Run the command and print its answer."""
    from formulate.workflow.dataset import data

    page = options.quality and options.output and not options.export
    found = data(
        options.search,
        quality=options.quality,
        export=options.export,
        output=options.output,
        date=options.date or (None if page else date.today().isoformat()),
    )
    if options.why:
        from formulate.cli.render import why_lines
        from formulate.workflow.api import why

        tree = why(found, options.why)
        put([json_text(tree)] if options.json else why_lines(tree))
    elif options.json:
        put([json_text(found)])
    else:
        put(lines(found))
    return Exit.CONTRADICTION_OR_STRICT if options.strict and options.search and not found.records else Exit.ANSWERED


def lines(found: DataAnswer) -> Iterator[str]:
    """The answer as text."""
    from formulate.workflow.quality_page import plain

    if found.written:
        yield f"written: {shown(found.written)}"
        return
    for note in found.notes:
        yield from _wrap(note, WIDTH)
    if len(found.records) <= MOST_WHOLE:
        for record in found.records:
            yield from _record(record)
    else:
        yield from _listed(found.records)
        say(f"{len(found.records)} ingredients; one of them in full: formulate data {found.records[0].ingredient}")
    if found.quality is not None:
        yield from plain(found.quality)
    elif found.search is None:
        yield "Say what to look up, or ask for --quality; formulate data --help has examples."


def _listed(records: Sequence[IngredientData]) -> Iterator[str]:
    for record in records:
        yield f"{padded(record.name, 40)} {padded(record.cas or '-', 12)} {cut(record.subclass, 26)}"


def _record(record: IngredientData) -> Iterator[str]:
    """One record: who it is, then each kind of value with its source on the right."""
    from formulate.workflow.dataset import WORDS

    yield cut(record.name, WIDTH)
    numbers = [f"CAS {record.cas}" if record.cas else "no CAS number", f"EC {record.ec}" if record.ec else ""]
    about = [record.ingredient, *numbers, f"{record.kind}, {record.subclass}", f"{record.fate} on an open surface"]
    yield from _beside("; ".join(filter(None, (*about, record.note))), _who(record))
    if record.names:
        yield ""
        told = [f"{row.name} ({row.language})" if row.language not in {"", "en"} else row.name for row in record.names]
        more = f" and {len(told) - MOST_NAMES} more (--json has them)" if len(told) > MOST_NAMES else ""
        yield from _wrap("also called: " + "; ".join(told[:MOST_NAMES]) + more, WIDTH, rest="  ")
    for field, title in SECTIONS:
        rows = getattr(record, field)
        if not rows:
            continue
        yield ""
        yield title
        for row in rows:
            yield from _beside(WORDS[field](row), _who(row))
        yield from _meanings(record) if field == "hazards" else ()
    if record.hazards is None:
        yield from ("", "classification", "  not looked up: without a number there is nothing to look for")
    yield from ("", "sources")
    for key, title in sorted(_cited(record).items()):
        yield from _wrap(f"{key}: {title}", WIDTH, "  ", "    ")
    yield ""


def _meanings(record: IngredientData) -> Iterable[str]:
    """What the notes and marks of the entry mean, each once."""
    told = dict.fromkeys(meaning for row in record.hazards or () for meaning in row.meanings)
    for meaning in told:
        yield from _wrap(meaning, WIDTH, "    ", "      ")


def _who(row: Any) -> str:
    """Who says so: the key of the source, told in full below the record, the place in it, and the day of the check."""
    from formulate.domain.reason import UNSOURCED

    checked = getattr(row, "checked_on", "")
    place = "" if row.source in UNSOURCED else f": {row.at}"
    return f"{row.source}{place}" + (f", checked {checked}" if checked else "")


def _cited(record: IngredientData) -> dict[str, str]:
    """Titles of the sources that are cited, by key."""
    rows = [row for field, _ in SECTIONS for row in getattr(record, field) or ()]
    return {row.source: row.source_title for row in (record, *rows)}


def _wrap(text: str, width: int, first: str = "", rest: str = "") -> list[str]:
    """Text through the gate, in lines of at most the width in cells: some letters take two."""
    from wcwidth import wcswidth

    text = shown(text)
    if text.isascii() or wcswidth(text) == len(text):
        return wrap(text, width, initial_indent=first, subsequent_indent=rest)
    lines, line = [], first
    for word in text.split(" "):
        if line.strip() and wcswidth(f"{line} {word}") > width:
            lines.append(line)
            line = rest
        line += word if not line.strip() else f" {word}"
    return [cut(one, width) for one in (*lines, line)]


def _beside(value: str, who: str) -> Iterator[str]:
    """A value on the left, who says so on the right."""
    left = _wrap(value, WIDTH - SAYS - 4, rest="  ") or [""]
    right = wrap(shown(who), SAYS, max_lines=5, placeholder=" ...") or [""]
    for one, other in zip_longest(left, right, fillvalue=""):
        yield f"  {padded(one, WIDTH - SAYS - 3)} {other}".rstrip()
