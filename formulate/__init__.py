"""Reads the ingredient list of a surface treatment and says what each ingredient does there, and why.

One function for each command: :func:`read`, :func:`roles`, :func:`brief`, :func:`bounds`, :func:`coverage`,
:func:`data`, and :func:`why` for the reasons. A ``str`` is the pasted text itself, a ``pathlib.Path`` is read.
``import formulate`` alone loads nothing heavy.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from formulate._version import __version__

if TYPE_CHECKING:
    from formulate.workflow.api import bounds, brief, read, roles, why
    from formulate.workflow.coverage import coverage
    from formulate.workflow.dataset import data

__all__ = ["__version__", "bounds", "brief", "coverage", "data", "read", "roles", "why"]


def __getattr__(name: str) -> Any:
    """The public functions, loaded when first asked for."""
    if name in {"bounds", "brief", "read", "roles", "why"}:
        from formulate.workflow import api

        return getattr(api, name)
    if name == "coverage":
        from formulate.workflow.coverage import coverage

        return coverage
    if name == "data":
        from formulate.workflow.dataset import data

        return data
    raise AttributeError(f"module 'formulate' has no attribute {name!r}")
