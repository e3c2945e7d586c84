"""How is a case kept? One JSON file, written whole or not at all.

A newer schema is refused; a file that another program changed is not overwritten.
"""

from __future__ import annotations

import hashlib
import json
import os
import tempfile
from pathlib import Path
from typing import NamedTuple

from pydantic import ValidationError

from formulate.domain.edit import SCHEMA, Case
from formulate.errors import CaseError

LOCK_SECONDS = 5.0


class Opened(NamedTuple):
    """A case with the path it was read from and the digest of what was read."""

    case: Case
    path: Path
    digest: str


def open_case(path: Path) -> Opened:
    """Read a case. Raises CaseError if it is missing, damaged or from a newer program."""
    try:
        data = path.read_bytes()
    except OSError as error:
        raise CaseError(
            f'The case "{path}" cannot be opened.',
            str(path),
            str(error.strerror or error),
            "check the path; formulate writes cases with the ending .case.json",
        ) from None
    try:
        record = json.loads(data)
        schema = record.get("schema") if isinstance(record, dict) else None
        if schema is None:
            raise ValueError("it has no schema number")
        if isinstance(schema, int) and schema > SCHEMA:
            raise CaseError(
                f'The case "{path.name}" was written by a newer formulate (schema {schema}).',
                str(path),
                f"this program knows schema {SCHEMA} and would lose what it does not know",
                "open it with the newer program",
                "case-newer",
            )
        case = Case.model_validate(record)
    except (ValueError, ValidationError, RecursionError) as error:
        raise CaseError(
            f'The case "{path.name}" is damaged.',
            str(path),
            (str(error) or type(error).__name__).splitlines()[0],
            "restore a copy; nothing was changed",
            "case-damaged",
        ) from None
    return Opened(case, path, hashlib.sha256(data).hexdigest())


def save_case(case: Case, path: Path, digest: str | None = None) -> Opened:
    """Write a case atomically: temporary file in the same folder, flush, fsync, replace, fsync of the folder.

    Parameters
    ----------
    case, path
        What to write, and where.
    digest
        Digest of the file as it was read, or None for a new file. If the file has changed since (or a new file's
        name is taken) nothing is overwritten: the case goes to ``name (2)`` and so on.
    """
    from filelock import FileLock, Timeout

    data = (json.dumps(case.model_dump(mode="json"), ensure_ascii=False, indent=1) + "\n").encode(
        "utf-8", "backslashreplace"
    )
    try:
        with FileLock(str(path) + ".lock", timeout=LOCK_SECONDS):
            target = path if _unchanged(path, digest) else _free_name(path)
            _replace(target, data)
    except Timeout:
        raise CaseError(
            f'The case "{path.name}" is in use.',
            str(path),
            "another program holds its lock",
            "close the other program and save again",
            "case-locked",
        ) from None
    except OSError as error:
        raise CaseError(
            f'The case "{path.name}" cannot be written.',
            str(path),
            str(error.strerror or error),
            "choose another folder; what you typed is still here",
        ) from None
    Path(str(path) + ".lock").unlink(missing_ok=True)
    return Opened(case, target, hashlib.sha256(data).hexdigest())


def _unchanged(path: Path, digest: str | None) -> bool:
    if not path.exists():
        return True
    return digest is not None and hashlib.sha256(path.read_bytes()).hexdigest() == digest


def _free_name(path: Path) -> Path:
    suffix = "".join(path.suffixes)
    stem = path.name.removesuffix(suffix)
    number = 2
    while (other := path.with_name(f"{stem} ({number}){suffix}")).exists():
        number += 1
    return other


def _replace(path: Path, data: bytes) -> None:
    handle, name = tempfile.mkstemp(dir=path.parent, prefix=".", suffix=".part")
    try:
        with os.fdopen(handle, "wb") as stream:
            stream.write(data)
            stream.flush()
            os.fsync(stream.fileno())
        Path(name).replace(path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise
    if hasattr(os, "O_DIRECTORY"):
        folder = os.open(path.parent, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)
