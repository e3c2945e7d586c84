"""Standard error and exit codes: everything that is not the result."""

from __future__ import annotations

import sys
from enum import IntEnum

from formulate.errors import FormulateError, InputError, UsageError
from formulate.workflow.gate import shown


class Exit(IntEnum):
    """Exit codes that the contract promises."""

    ANSWERED = 0
    CONTRADICTION_OR_STRICT = 1
    USAGE = 2
    UNREADABLE = 3
    INTERRUPTED = 130


def say(text: str) -> None:
    """One line on standard error, through the gate."""
    sys.stderr.write(shown(text, lines=True) + "\n")


def fail(error: FormulateError, as_json: bool) -> Exit:
    """Tell an error in its four parts and give the exit code."""
    if as_json:
        from formulate.workflow.answers import ErrorAnswer, ErrorSaid

        answer = ErrorAnswer(
            error=ErrorSaid(reference=error.reference, what=error.what, at=error.at, why=error.why, try_=error.try_)
        )
        sys.stderr.write(answer.model_dump_json() + "\n")
    else:
        say(str(error))
    if isinstance(error, UsageError):
        return Exit.USAGE
    return Exit.UNREADABLE if isinstance(error, InputError) else Exit.USAGE
