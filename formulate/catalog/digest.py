"""The data version: a hash of every table and rule, remembered while no file has moved."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator
from pathlib import Path


def tables_digest(root: Path) -> str:
    """Hash of every table and rule under ``root``. Same files, same version, wherever they lie."""
    digest = hashlib.sha256()
    for path in _files(root):
        digest.update(path.relative_to(root).as_posix().encode())
        digest.update(path.read_bytes())
    return digest.hexdigest()[:12]


def remembered_digest(root: Path, cache: Path) -> str:
    """As :func:`tables_digest`, taken from a stamp in ``cache`` if name, size and time of every file are as they were.

    The stamp saves reading a few megabytes at each start; a cache that cannot be written is done without.
    """
    marks = [(str(path.relative_to(root)), path.stat().st_size, path.stat().st_mtime_ns) for path in _files(root)]
    signature = hashlib.sha256(repr(marks).encode()).hexdigest()
    stamp = cache / f"stamp-{hashlib.sha256(str(root).encode()).hexdigest()[:12]}"
    try:
        kept, _, digest = stamp.read_text(encoding="ascii").partition(" ")
        if kept == signature:
            return digest
    except (OSError, ValueError):
        pass
    digest = tables_digest(root)
    try:
        cache.mkdir(parents=True, exist_ok=True)
        part = stamp.with_suffix(f".{os.getpid()}")
        part.write_text(f"{signature} {digest}", encoding="ascii")
        part.replace(stamp)
    except OSError:
        pass
    return digest


def _files(root: Path) -> Iterator[Path]:
    """Tables and rules in a fixed order."""
    found = []
    for folder, _, names in os.walk(root):
        found += [Path(folder, name) for name in names if name.endswith((".csv", ".toml"))]
    yield from sorted(found)
