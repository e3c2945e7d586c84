"""Which face? No arguments and a terminal: the workbench; else the command line."""

from __future__ import annotations

import sys


def main() -> int:
    """Entry point of the ``formulate`` command."""
    arguments = sys.argv[1:]
    if not arguments and sys.stdin.isatty() and sys.stdout.isatty():
        from formulate.tui.app import run_workbench

        return run_workbench()
    from formulate.cli.main import run

    return run(arguments)


if __name__ == "__main__":
    raise SystemExit(main())
