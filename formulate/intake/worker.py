"""The process that opens one document: started by ``apart`` with its kind and ending, bytes in, text out.

It limits itself before any library sees the bytes: memory, processor time, no file written, no process, no network.
"""

from __future__ import annotations

import json
import sys
import warnings
from typing import Any

from formulate.errors import InputError
from formulate.intake.apart import REFUSED
from formulate.intake.limits import TEXT_CHARACTERS, WORKER_MEMORY, WORKER_SECONDS
from formulate.intake.refusals import refused

_FORBIDDEN = ("socket.", "subprocess.", "os.exec", "os.fork", "os.posix_spawn", "os.spawn", "os.system")


def main() -> int:
    """Read a document from standard input; print its text, or the four parts of a refusal with exit code 3."""
    kind, suffix = sys.argv[1:3]
    limit_itself()
    try:
        text = document_text(kind, sys.stdin.buffer.read(), suffix)
    except InputError as error:
        parts = [error.what, error.at, error.why, error.try_, error.reference]
        sys.stdout.buffer.write(json.dumps(parts).encode())
        return REFUSED
    sys.stdout.buffer.write(text.encode("utf-8", "replace"))
    return 0


def limit_itself() -> None:
    """Set the limits of this process; they cannot be taken back."""
    warnings.simplefilter("ignore")
    sys.addaudithook(_forbid)
    try:
        import resource
    except ImportError:  # a system without them: the clock, the pipe and the hook remain
        return
    for name, most in (
        (resource.RLIMIT_AS, WORKER_MEMORY),
        (resource.RLIMIT_CPU, WORKER_SECONDS),
        (resource.RLIMIT_FSIZE, 0),
        (resource.RLIMIT_CORE, 0),
    ):
        try:
            resource.setrlimit(name, (most, most))
        except (OSError, ValueError):  # a stricter limit stands already, or the system has none of this kind
            continue


def _forbid(event: str, arguments: tuple[Any, ...]) -> None:
    """Audit hook: a document has no business with other processes, the network, or files to write."""
    if event.startswith(_FORBIDDEN):
        raise PermissionError(f"{event} while a document is open")
    if event == "open" and isinstance(arguments[1], str) and set(arguments[1]) & set("wax+"):
        raise PermissionError("a file to write while a document is open")


def document_text(kind: str, data: bytes, suffix: str) -> str:
    """The text of a document of a kind (``pdf``, ``zip``, ``page``).

    Raises
    ------
    InputError
        Whatever a library raises on hostile bytes is told as ``damaged-document`` or ``document-limits``.
    """
    try:
        text = _text(kind, data, suffix)
    except InputError:
        raise
    except MemoryError:
        raise refused("The document needs more memory than one may take.", "document-limits") from None
    except RecursionError:
        raise refused("The document is nested too deeply.", "document-limits") from None
    except Exception as error:
        raise refused(f"The document is damaged ({type(error).__name__}).", "damaged-document") from error
    if len(text) > TEXT_CHARACTERS:
        raise refused(f"The document holds more than {TEXT_CHARACTERS // 1024 // 1024} MB of text.", "too-large")
    return text


def _text(kind: str, data: bytes, suffix: str) -> str:
    if kind == "pdf":
        from formulate.intake.pdf import pdf_text

        return pdf_text(data)
    if kind == "page":
        from formulate.intake.webpage import page_text

        return page_text(data.decode("utf-8", "replace"))
    from formulate.intake.office import office_text

    return office_text(data, suffix)
