"""Where a case is kept, and under which name."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import datetime
from pathlib import Path

Clock = Callable[[], datetime]


def local_clock() -> datetime:
    """Now, in local time."""
    return datetime.now().astimezone()


def case_folder() -> Path:
    """The folder of cases in the user's data folder."""
    from platformdirs import user_data_path

    return user_data_path("formulate") / "cases"


def case_name(text: str, when: datetime) -> str:
    """A name for a new case: date, time, and the first words of the text.

    >>> case_name("Aqua, Alcohol Denat., Silica", datetime(2026, 11, 25, 13, 2))
    '2026-11-25-1302-aqua-alcohol-denat.case.json'
    """
    words = re.findall(r"[a-z0-9]+", text[:400].casefold())[:3]
    return "-".join([f"{when:%Y-%m-%d-%H%M}", *(word[:16] for word in words)]) + ".case.json"
