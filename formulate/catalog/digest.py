"""The data version: a hash of every table and rule."""

from __future__ import annotations

import hashlib
from pathlib import Path


def tables_digest(root: Path) -> str:
    """Hash of every table and rule under ``root``. Same files, same version, wherever they lie."""
    digest = hashlib.sha256()
    for path in sorted(root.rglob("*")):
        if path.suffix in {".csv", ".toml"}:
            digest.update(path.relative_to(root).as_posix().encode())
            digest.update(path.read_bytes())
    return digest.hexdigest()[:12]
