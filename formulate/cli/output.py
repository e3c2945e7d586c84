"""Standard output: the result, nothing else."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable
from typing import TYPE_CHECKING

from formulate.errors import InputError

if TYPE_CHECKING:
    from pydantic import BaseModel


def put(lines: Iterable[str]) -> None:
    """Print lines that have been through the gate; a reader that closed the pipe ends quietly."""
    if sys.stdout is None:
        raise InputError(
            "The answer cannot be printed.",
            "standard output",
            "it is closed",
            "run the command with an output",
            "output",
        )
    text = "\n".join(lines) + "\n"
    encoding = sys.stdout.encoding or "utf-8"
    try:
        sys.stdout.write(text.encode(encoding, "replace").decode(encoding))
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except OSError as error:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        raise InputError(
            "The answer cannot be printed.",
            "standard output",
            str(error.strerror or error),
            "make room where the output goes",
            "output",
        ) from None


def json_text(model: BaseModel) -> str:
    """A model as JSON; half of a surrogate pair, which no text can carry, is written as an escape."""
    import json

    try:
        return model.model_dump_json()
    except ValueError:
        return json.dumps(model.model_dump(mode="python"), ensure_ascii=True, separators=(",", ":"))
