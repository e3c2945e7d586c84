"""Compiles the tables of ``data_public/`` when a wheel is built, so that an installed copy starts at once."""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path
from typing import Any

from hatchling.builders.hooks.plugin.interface import BuildHookInterface


class CustomBuildHook(BuildHookInterface):  # type: ignore[type-arg]
    """Puts ``compiled.sqlite`` beside the tables in the wheel; an editable install compiles on first use."""

    PLUGIN_NAME = "custom"

    def initialize(self, version: str, build_data: dict[str, Any]) -> None:
        """Compile the tables and add the file to the wheel."""
        if version == "editable":
            return
        root = Path(self.root)
        sys.path.insert(0, str(root))
        try:
            from formulate.catalog.compile import compile_tables

            target = Path(tempfile.mkdtemp()) / "compiled.sqlite"
            compile_tables(root / "data_public", target)
        finally:
            sys.path.remove(str(root))
        build_data["force_include"][str(target)] = "formulate/data_public/compiled.sqlite"
