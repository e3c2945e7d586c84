"""Patterns compiled when first used: a plain label needs few of them, and the start is what a person waits for."""

from __future__ import annotations

import re
from typing import Any, cast


class _Lazy:
    """Stands for a compiled pattern until one of its methods is asked for, and keeps that method."""

    def __init__(self, pattern: str, flags: int) -> None:
        self._source = (pattern, flags)

    def __getattr__(self, name: str) -> Any:
        value = getattr(re.compile(*self._source), name)
        self.__dict__[name] = value
        return value


def lazy(pattern: str, flags: int | re.RegexFlag = 0) -> re.Pattern[str]:
    """A pattern that is compiled on first use; raises ``re.error`` then, not now."""
    return cast("re.Pattern[str]", _Lazy(pattern, int(flags)))
