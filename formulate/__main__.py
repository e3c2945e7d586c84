"""Which face? A terminal and no arguments, or a kept case alone: the workbench; else the command line."""

from __future__ import annotations

import gc
import os
import sys


def main() -> int:
    """Entry point of the ``formulate`` command."""
    arguments = sys.argv[1:]
    # One command is one short process: collecting garbage and looking for plugins would only delay its answer.
    os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")
    gc.disable()
    if arguments[:1] == ["--plain"] and len(arguments) <= 2:
        from formulate.cli.plain import plain

        return plain(arguments[1] if len(arguments) == 2 else None)
    kept = len(arguments) == 1 and arguments[0].endswith(".case.json")
    if (not arguments or kept) and sys.stdin.isatty() and sys.stdout.isatty():
        gc.enable()
        from formulate.tui.app import run_workbench

        return run_workbench(arguments[0] if kept else None)
    from formulate.cli.main import run

    return run(arguments)


if __name__ == "__main__":
    raise SystemExit(main())
