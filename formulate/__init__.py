"""Reads the ingredient list of a surface treatment and says what each ingredient does there, and why."""

from __future__ import annotations

__version__ = "0.1.0"
