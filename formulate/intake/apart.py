"""Documents are opened in a process of their own, under limits of memory, time and size; what comes back is text."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import threading
from contextlib import suppress
from pathlib import Path

from formulate.errors import InputError
from formulate.intake.limits import TEXT_CHARACTERS, WORKER_CLOCK, WORKER_MEMORY, WORKER_SECONDS

REFUSED = 3
"""Exit code of the worker that says why a document is refused; its output is then the four parts as JSON."""

# The worker looks for modules where this process does, in the same order; nothing else of the environment reaches it.
_START = (
    "import json, sys; sys.path[:] = json.loads(sys.argv.pop(1));"
    "from formulate.intake.worker import main; sys.exit(main())"
)
_KEPT = ("SYSTEMROOT",)


def text_apart(kind: str, data: bytes, name: str, seconds: float = WORKER_CLOCK) -> str:
    """The text of a document, read by ``formulate.intake.worker``.

    Parameters
    ----------
    kind
        ``pdf``, ``zip`` or ``page``.
    data
        The bytes of the document; they go through a pipe, never through a file.
    name
        What it is called, for the message and for the ending of its name.
    seconds
        Time on the clock after which the process is ended. [s]

    Raises
    ------
    InputError
        In the words of the worker; ``document-limits`` where it ran into a limit or broke.
    """
    worker = subprocess.Popen(
        [sys.executable, "-I", "-B", "-c", _START, json.dumps(_paths()), kind, Path(name).suffix],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        env={key: os.environ[key] for key in _KEPT if key in os.environ},
    )
    late = threading.Event()

    def end() -> None:
        late.set()
        worker.kill()

    clock = threading.Timer(seconds, end)
    clock.daemon = True
    try:
        clock.start()
        output = _exchanged(worker, data)
        code = worker.wait() if len(output) <= TEXT_CHARACTERS * 4 else None
    finally:  # also on Ctrl-C: the worker never outlives the question
        clock.cancel()
        worker.kill()
        worker.wait()
        for pipe in (worker.stdin, worker.stdout):
            if pipe is not None:
                with suppress(OSError):
                    pipe.close()
    if code == 0:
        return output.decode("utf-8", "replace")
    if code == REFUSED:
        raise _refusal(output, name)
    raise _broken(name, f"it took more than {seconds:g} seconds" if late.is_set() else None)


def _exchanged(worker: subprocess.Popen[bytes], data: bytes) -> bytes:
    """Hand the document over and take the text, never more than the limit and one sign."""
    assert worker.stdin is not None
    assert worker.stdout is not None
    with suppress(BrokenPipeError):  # a worker that ended early has said why, or is told as broken
        worker.stdin.write(data)
        worker.stdin.close()
    return worker.stdout.read(TEXT_CHARACTERS * 4 + 1)


def _paths() -> list[str]:
    """Where this process looks for modules; the folder one stands in only if this house is there."""
    house = str(Path(__file__).resolve().parents[2])
    paths = [path for path in sys.path if path]
    return paths if house in paths else [house, *paths]


def _refusal(output: bytes, name: str) -> InputError:
    try:
        what, at, why, try_, reference = map(str, json.loads(output))
    except ValueError:
        return _broken(name, None)
    return InputError(what, f"{name}, {at}" if at else name, why, try_, reference)


def _broken(name: str, said: str | None) -> InputError:
    memory = WORKER_MEMORY // 1024 // 1024
    return InputError(
        f'"{name}" could not be read within the limits{f": {said}" if said else ""}.',
        name,
        f"a document is opened under limits ({memory:,} MB of memory, {WORKER_SECONDS} seconds of processor time): a"
        " damaged or hostile one could otherwise take the whole machine.",
        "save only the pages with the ingredients (section 3 of a data sheet), or copy the list and paste it.",
        "document-limits",
    )
