"""Standard output: the result, nothing else."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterable


def put(lines: Iterable[str]) -> None:
    """Print lines that have been through the gate; a reader that closed the pipe ends quietly."""
    text = "\n".join(lines) + "\n"
    encoding = sys.stdout.encoding or "utf-8"
    try:
        sys.stdout.write(text.encode(encoding, "replace").decode(encoding))
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
