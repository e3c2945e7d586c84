"""The open half of the gathered lists, read in place: rows found, numbers, ranges, nothing invented."""

from __future__ import annotations

import hashlib
import json
import re
from pathlib import Path
from typing import Any

from formulate.reading import read_text


def test_the_open_cases(shared: Path) -> None:
    folder = shared / "inputs"
    rows = found = ranges = right = invented = extra = 0
    for path in sorted((folder / "raw").glob("*.txt")):
        if hashlib.sha256(path.stem.encode()).digest()[0] % 2:
            continue
        gold = json.loads((folder / "gold" / f"{path.stem}.json").read_text(encoding="utf-8"))["ingredients"]
        free = list(read_text(path.read_text(encoding="utf-8"), path.stem, lambda _: False)[0].lines)
        for row in gold:
            rows += 1
            line = next((one for one in free if _same(one, row)), None)
            if line is None:
                continue
            free.remove(line)
            found += 1
            stated = line.stated
            low, high = row.get("low_wt_pct"), row.get("high_wt_pct")
            printed = (low is not None) or (high is not None)
            told = stated is not None and (stated.low, stated.high) != (None, None)
            ranges += printed
            right += (
                printed
                and stated is not None
                and (_close(stated.low, low) and _close(stated.high, high) or stated.doubtful)
            )
            invented += told and not printed and stated is not None and not stated.doubtful
        extra += len(free)
    assert rows > 200
    assert found / rows > 0.93
    assert right / ranges > 0.97
    assert invented == 0
    assert extra / rows < 0.03


def _close(value: float | None, percent: float | None) -> bool:
    return (value is None) == (percent is None) and (
        value is None or percent is None or abs(value * 100 - percent) < 1e-6
    )


def _same(line: Any, row: dict[str, Any]) -> bool:
    name, raw = (re.sub(r"\W", "", text.lower()) for text in (line.name, row["raw"]))
    return bool(name) and (
        name in raw
        and (not row.get("cas") or line.cas in {row["cas"], None})
        or (bool(line.cas) and line.cas == row.get("cas"))
    )
