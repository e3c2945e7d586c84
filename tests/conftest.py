"""What the tests share: the dataset, the examples, and where the shared material lies."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from formulate.catalog.store import Catalog, open_catalog

ROOT = Path(__file__).resolve().parents[1]
EXAMPLES = sorted((ROOT / "examples").glob("*.txt"))
SHARED = Path(os.environ.get("FORMULATE_SHARED", ROOT.parent / "shared"))


@pytest.fixture(scope="session")
def catalog() -> Catalog:
    return open_catalog()


@pytest.fixture(scope="session")
def shared() -> Path:
    if not (SHARED / "inputs").is_dir():
        pytest.skip("the shared material (../shared) is not on this machine")
    return SHARED


def example_ids(path: Path) -> str:
    return path.stem
