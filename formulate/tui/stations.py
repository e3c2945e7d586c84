"""The registry of stations. A station that is not built yet is not listed."""

from __future__ import annotations

from typing import NamedTuple


class StationSaid(NamedTuple):
    """A station of the workbench: the key that goes there, its name on the course band, and what it answers."""

    id: str
    key: str
    label: str
    help: str


STATIONS: tuple[StationSaid, ...] = (
    StationSaid(
        "list", "1", "list", "what every line of the list is, whether it leaves or stays, and what it is there for"
    ),
    StationSaid(
        "amounts", "2", "amounts", "how much of each there can be: what is certain, what is likely, and the totals"
    ),
)
