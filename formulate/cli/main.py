"""The command line: parses words, calls ``workflow``, prints what comes back."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Callable, Sequence
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import formulate
from formulate._version import __version__
from formulate.cli import coverage_command, data_command
from formulate.cli.diagnostics import Exit, fail, say
from formulate.cli.output import json_text, put
from formulate.domain.vocabulary import FORMS, JURISDICTIONS, RULES
from formulate.errors import FormulateError, UsageError

if TYPE_CHECKING:
    from formulate.workflow.answers import Answer

COMMANDS: dict[str, tuple[str, str]] = {
    "read": ("what was understood, line by line", "read bottle.txt"),
    "roles": ("what every ingredient is doing there, and why", "roles bottle.txt --why Silica"),
    "bounds": ("how much of each there can be", "bounds bottle.txt --rule eu-label --measured nonvolatile=2.3+-0.2%"),
    "coverage": (
        "what is left on the surface, and what a count of it implies",
        "coverage bottle.txt --form spray --field-um 5 --counted 4,7,3/5,6",
    ),
    "brief": ("the mixture in a few sentences", 'brief bottle.txt --form spray --claim "ceramic shield"'),
}

MORE_FLAGS: dict[str, tuple[str, ...]] = {
    "bounds": ("rule", "measured", "one_percent_after", "suppose"),
    "coverage": coverage_command.NAMES,
}
"""Flags that a command has beside those of all."""


class _Parser(argparse.ArgumentParser):
    """An argument parser that tells errors in four parts."""

    def error(self, message: str) -> NoReturn:
        raise UsageError(
            f"This call is not understood: {message}.",
            "the command line",
            "a command, an input and known flags are needed",
            f"see: {self.prog} --help",
        )


def parser() -> argparse.ArgumentParser:
    """The parser of all commands."""
    examples = (
        "examples:\n  formulate roles bottle.txt\n  formulate brief - --form spray < bottle.txt\n"
        "\nwithout a command, in a terminal, the workbench opens;\n"
        "formulate --plain asks and answers line by line instead"
    )
    top = _Parser(
        prog="formulate",
        description="Reads the ingredient list of a surface treatment and says what each "
        "ingredient does there, and why.",
        epilog=examples,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    top.add_argument("--version", action="version", version=f"formulate {__version__}")
    commands = top.add_subparsers(dest="command", metavar="COMMAND", parser_class=_Parser)
    for name, (help_, example) in COMMANDS.items():
        command = commands.add_parser(
            name,
            help=help_,
            formatter_class=argparse.RawDescriptionHelpFormatter,
            description=f"examples:\n  formulate {example}\n  formulate {name} - --json < bottle.txt\n\nprints {help_}",
        )
        _common(command, needed=name != "coverage")
        if name == "bounds":
            _amounts(command)
        if name == "coverage":
            coverage_command.add(command)
    data_command.add(commands, _Parser)
    return top


def _amounts(command: argparse.ArgumentParser) -> None:
    command.add_argument("--rule", choices=RULES, default="none", help="law that the list is under (default: none)")
    command.add_argument(
        "--measured",
        action="append",
        default=[],
        metavar="QUANTITY=VALUE",
        help="nonvolatile, silica, density or ph, with its uncertainty: nonvolatile=0.023+-0.002; can be repeated",
    )
    command.add_argument("--one-percent-after", metavar="NAME", help="the last ingredient above one per cent")
    command.add_argument("--suppose", metavar="NAME=VALUE", help="what if: silica=0.02")


def _common(command: argparse.ArgumentParser, needed: bool) -> None:
    command.add_argument(
        "input",
        metavar="INPUT",
        nargs=None if needed else "?",
        help="a file (text, PDF, workbook, page), or - for standard input",
    )
    command.add_argument("--form", choices=FORMS, help="how the product is put on")
    command.add_argument("--dilution", metavar="1:20", help="dilution at use")
    command.add_argument("--jurisdiction", choices=JURISDICTIONS, help="none given: the stricter of EU and US")
    command.add_argument("--date", help="date of the answer, as 2026-11-25 (default: today)")
    command.add_argument("--claim", metavar="TEXT", help="what the front of the bottle says")
    command.add_argument("--substrate", help="what it is put on: glass, leather, wood, floor ...")
    command.add_argument("--seed", type=int, help="seed of sampled answers")
    command.add_argument("--json", action="store_true", help="print the answer as JSON")
    command.add_argument(
        "--why", metavar="NAME|POINTER", help="print the reasons behind one ingredient or figure as a tree"
    )
    command.add_argument("--strict", action="store_true", help="exit 1 if a line stayed unknown")


def run(arguments: Sequence[str]) -> int:
    """Run one command and return its exit code. Never lets a traceback out for what a person can cause."""
    as_json = "--json" in arguments
    try:
        options = parser().parse_args(arguments)
        if options.command is None:
            parser().print_help(sys.stderr)
            return Exit.USAGE
        return data_command.answer(options) if options.command == "data" else _answer(options)
    except FormulateError as error:
        return fail(error, as_json)
    except KeyboardInterrupt:
        say("Stopped.")
        return Exit.INTERRUPTED


def _answer(options: argparse.Namespace) -> int:
    from formulate.intake import text_of_stdin
    from formulate.workflow import api

    if options.input == "-" and sys.stdin is None:
        raise UsageError(
            "Standard input is closed.", "-", "there is no text to read", "give a file, or a text by a pipe"
        )
    source: str | Path | None = None
    if options.input is not None:
        source = text_of_stdin(sys.stdin.buffer) if options.input == "-" else Path(options.input)
    named = options.why is not None and not options.why.startswith("/")
    command = "roles" if options.command == "brief" and named else options.command  # a brief names no single line
    function: Callable[..., Answer] = getattr(formulate, command)
    more = {name: getattr(options, name) for name in MORE_FLAGS.get(command, ())}
    answer = function(
        source,
        form=options.form,
        dilution=options.dilution,
        jurisdiction=options.jurisdiction,
        date=options.date or date.today().isoformat(),
        claim=options.claim,
        substrate=options.substrate,
        seed=options.seed,
        **more,
    )
    _print(options, answer)
    if api.contradicts(answer) or (options.strict and api.unknown_positions(answer)):
        return Exit.CONTRADICTION_OR_STRICT
    return Exit.ANSWERED


def _print(options: argparse.Namespace, answer: Answer) -> None:
    from formulate.cli import render
    from formulate.workflow import api
    from formulate.workflow.answers import BriefAnswer, ReadAnswer, RolesAnswer

    if options.why:
        tree = api.why(answer, options.why)
        put([json_text(tree)] if options.json else render.why_lines(tree))
    elif options.json:
        put([json_text(answer)])
    elif isinstance(answer, ReadAnswer):
        put(render.read_lines(answer))
    elif isinstance(answer, RolesAnswer):
        put(render.roles_lines(answer))
        if answer.ingredients:
            say(f"next: formulate roles {options.input} --why 1, or formulate brief {options.input}")
    elif isinstance(answer, BriefAnswer):
        put(render.brief_lines(answer))
    elif options.command == "bounds":
        from formulate.cli.render_bounds import bounds_lines

        put(bounds_lines(answer))
    else:
        from formulate.cli.render_coverage import coverage_lines
        from formulate.workflow.film_answers import CoverageAnswer

        assert isinstance(answer, CoverageAnswer)
        put(coverage_lines(answer))
