"""Prints what becomes of the shared texts from the paste to the ingredient: rows, amounts, identities, errors.

python tests/evaluation/pasted.py [--misses] [--noise SEED] [FOLDER]

FOLDER holds ``raw/`` and ``gold/`` in the form of the shared inputs. ``--noise`` disturbs every text first
(case, look-alikes, separators, accents) with a fixed seed.
"""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from formulate.catalog.store import Catalog, open_catalog
from formulate.domain.line import IDENTIFIED
from formulate.workflow.answers import ReadLine
from formulate.workflow.api import read
from tests.conftest import SHARED
from tests.evaluation.material import is_open, marks
from tests.evaluation.score import DOUBTFUL_IDENTITY


class Tally(NamedTuple):
    """Counts over texts: what the gold holds and what of it was found."""

    rows: int = 0
    found: int = 0
    substances: int = 0
    identified: int = 0
    classes: int = 0
    recognised: int = 0
    amounts: int = 0
    exact: int = 0
    flagged: int = 0
    flagged_right: int = 0
    invented: int = 0
    extra: int = 0
    extra_known: int = 0
    checked: int = 0
    wrong: int = 0

    def plus(self, other: Tally) -> Tally:
        """The sum of two tallies."""
        return Tally(*(a + b for a, b in zip(self, other, strict=True)))

    def report(self) -> str:
        """The figures that are asked for, a line each."""
        figures = (
            ("rows found", self.found, self.rows, ">= 99 %"),
            ("rows that name a substance, identified", self.identified, self.substances, ">= 97 %"),
            ("class words and withheld names recognised as such", self.recognised, self.classes, ""),
            ("printed amounts exact or flagged", self.exact + self.flagged, self.amounts, "100 %"),
            ("  flagged", self.flagged, self.amounts, "<= 5 %"),
            ("  flags whose figures are right all the same", self.flagged_right, self.flagged, ">= 80 %"),
            ("amounts where none is printed, not flagged", self.invented, self.rows, "0"),
            ("lines too many", self.extra, self.rows, ""),
            ("  of these with an ingredient", self.extra_known, self.rows, "<= 2 %"),
            ("identified as what the printed number contradicts", self.wrong, self.checked, "0"),
        )
        return "\n".join(
            f"{title:<52}{100 * part / whole if whole else 0:7.1f} %  ({part} of {whole})  {asked}"
            for title, part, whole, asked in figures
        )


def score(text: str, gold: dict[str, Any], kinds: dict[int, str], catalog: Catalog) -> tuple[Tally, list[str]]:
    """Tally of one text against its careful reading, and the misses in words."""
    answer = read(text)
    free = list(answer.lines)
    tally, misses = Tally(), []
    for number, row in enumerate(gold["ingredients"], 1):
        kind = kinds.get(number, "substance" if row.get("cas") else "unmarked")
        line = next((one for one in free if _same(one, row)), None)
        if line is None:
            misses.append(f"not found: {row['raw'][:70]!r}")
        else:
            free.remove(line)
        one, more = _row(line, row, kind, catalog)
        tally = tally.plus(one)
        misses += more
    known = [line for line in free if line.ingredient]
    misses += [f"too many: {line.raw[:60]!r} {line.ingredient or ''}" for line in free]
    return tally.plus(Tally(extra=len(free), extra_known=len(known))), misses


def _row(line: ReadLine | None, row: dict[str, Any], kind: str, catalog: Catalog) -> tuple[Tally, list[str]]:
    low, high = row.get("low_wt_pct"), row.get("high_wt_pct")
    printed = low is not None or high is not None
    tally = Tally(
        rows=1,
        substances=int(kind == "substance"),
        classes=int(kind in {"class", "withheld"}),
        amounts=int(printed),
        found=int(line is not None),
    )
    if line is None:
        return tally, []
    misses = []
    stated = line.stated
    told = stated is not None and (stated.low, stated.high) != (None, None)
    right = stated is not None and _close(stated.low, low) and _close(stated.high, high)
    flagged = bool(stated is not None and stated.doubtful)
    recognised = line.match.how in {"class-only", "withheld"}
    named = line.match.how in IDENTIFIED
    wrong = named and _contradicts(line, row, catalog)
    if printed and not right:
        limits = stated and (stated.low, stated.high)
        misses.append(f"{'flagged' if flagged else 'WRONG'}: {row['raw'][:60]!r} {limits}")
    if told and not printed:
        misses.append(f"{'flagged' if flagged else 'INVENTED'}: {row['raw'][:60]!r} {stated and stated.text}")
    if kind == "substance" and not named:
        misses.append(f"not identified: {line.name[:60]!r} {line.cas} {line.match.how} {line.class_}")
    if kind in {"class", "withheld"} and not recognised:
        misses.append(f"{kind} taken for {line.match.how} {line.ingredient}: {line.name[:60]!r}")
    if wrong:
        misses.append(f"CONTRADICTS {row['cas']}: {line.name[:60]!r} -> {line.ingredient}")
    return tally._replace(
        identified=int(kind == "substance" and named),
        recognised=int(kind in {"class", "withheld"} and recognised),
        exact=int(printed and right and not flagged),
        flagged=int(printed and flagged),
        flagged_right=int(printed and right and flagged),
        invented=int(told and not printed and not flagged),
        checked=int(named and bool(row.get("cas"))),
        wrong=int(wrong),
    ), misses


def _contradicts(line: ReadLine, row: dict[str, Any], catalog: Catalog) -> bool:
    """Whether the reader's number belongs to other ingredients than the one that was told."""
    hits = catalog.by_number(row["cas"]) if row.get("cas") else []
    ids = {hit.ingredient for hit in hits}
    if not ids or line.ingredient is None or line.ingredient in ids:
        return False
    ours = catalog.ingredient(line.ingredient)
    return all(catalog.ingredient(one).class_ != ours.class_ for one in ids) or ours.kind == "substance"


def _close(value: float | None, percent: float | None) -> bool:
    return (value is None) == (percent is None) and (
        value is None or percent is None or abs(value * 100 - percent) < 1e-6
    )


def _same(line: ReadLine, row: dict[str, Any]) -> bool:
    name, raw = (re.sub(r"\W", "", text.lower()) for text in (line.name, row["raw"]))
    if line.cas and line.cas == row.get("cas"):
        return True
    return bool(name) and name in raw and (not row.get("cas") or line.cas in {row["cas"], None})


def texts(folder: Path) -> list[tuple[str, str, dict[str, Any]]]:
    """Id, pasted text and careful reading of every case of a folder."""
    return [
        (
            path.stem,
            path.read_text(encoding="utf-8"),
            json.loads((folder / "gold" / f"{path.stem}.json").read_text(encoding="utf-8")),
        )
        for path in sorted((folder / "raw").glob("*.txt"))
    ]


def tallies(folder: Path, disturb: Callable[[str], str] = str) -> tuple[dict[str, Tally], list[tuple[str, list[str]]]]:
    """Tallies of the open and the held half, and the misses by case."""
    catalog = open_catalog()
    kinds: dict[str, dict[int, str]] = {}
    for mark in marks("row_kinds"):
        doubtful = (mark["case"], int(mark["row"])) in DOUBTFUL_IDENTITY
        kinds.setdefault(mark["case"], {})[int(mark["row"])] = "doubtful" if doubtful else mark["kind"]
    halves = {"open": Tally(), "held": Tally()}
    misses = []
    for case, text, gold in texts(folder):
        one, missed = score(disturb(text), gold, kinds.get(case, {}), catalog)
        half = "open" if is_open(case) else "held"
        halves[half] = halves[half].plus(one)
        misses.append((case, missed))
    return halves, misses


def main(arguments: list[str]) -> None:
    """Print the figures of both halves and of all; the misses if asked."""
    folder = next((Path(word) for word in arguments if "/" in word), SHARED / "inputs")
    halves, misses = tallies(folder)
    for case, missed in misses if "--misses" in arguments else ():
        for miss in missed:
            print(f"{case}: {miss}")
    for half, tally in (*halves.items(), ("all", halves["open"].plus(halves["held"]))):
        print(f"\n{half}\n{tally.report()}")


if __name__ == "__main__":
    main(sys.argv[1:])
