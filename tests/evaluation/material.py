"""The shared readings and disclosures as lines, with the committed marks beside them."""

from __future__ import annotations

import csv
import hashlib
import json
from collections import defaultdict
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from formulate.catalog.store import open_catalog
from formulate.domain.line import Line, Match, Reading, Stated, line_id
from formulate.domain.place import Place
from formulate.domain.reason import Ledger
from formulate.domain.roles import Attribution
from formulate.reading import add_pasted, add_stated
from formulate.reading.item import read_item
from formulate.reading.surface import working_copy
from formulate.workflow.graph import Inputs, Output
from formulate.workflow.nodes import Matches, _product, _roles

HERE = Path(__file__).parent


class Row(NamedTuple):
    """One marked row: kind (substance, class, withheld ...), class expected of a class row, and accepted roles."""

    case: str
    number: int
    raw: str
    name: str
    cas: str | None
    ec: str | None
    kind: str
    class_expected: str
    roles: tuple[str, ...]
    stated: Stated | None
    function: str | None
    gold_name: str
    gold_class: str


class Case(NamedTuple):
    """The rows of one case. ``open`` cases were looked at while building, the others not."""

    id: str
    open: bool
    rows: tuple[Row, ...]


def marks(name: str) -> list[dict[str, str]]:
    """Rows of one committed mark file."""
    with (HERE / f"{name}.csv").open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def is_open(case: str) -> bool:
    """The split: open when the first byte of the hash of the case's id is even."""
    return hashlib.sha256(case.encode()).digest()[0] % 2 == 0


def gold_cases(shared: Path) -> list[Case]:
    """The careful readings, as already cut: each row's own printed tokens are read as one entry."""
    kinds = {(mark["case"], int(mark["row"])): mark for mark in marks("row_kinds")}
    phrases = {
        mark["phrase"]: tuple(role for role in (mark["role_1"], mark["role_2"]) if role)
        for mark in marks("role_phrases")
    }
    cases = []
    for path in sorted((shared / "inputs" / "gold").glob("*.json")):
        gold = json.loads(path.read_text(encoding="utf-8"))
        rows = []
        for number, row in enumerate(gold["ingredients"], start=1):
            mark = kinds[(path.stem, number)]
            name, cas, ec, stated, function = printed(row["raw"])
            rows.append(
                Row(
                    path.stem,
                    number,
                    row["raw"],
                    name,
                    cas,
                    ec,
                    mark["kind"],
                    mark["class_expected"] or "",
                    phrases.get(row.get("role") or "", ()),
                    stated,
                    function,
                    (row["name"] or "").casefold(),
                    row.get("class") or "",
                )
            )
        cases.append(Case(path.stem, is_open(path.stem), tuple(rows)))
    return cases


Printed = tuple[str, str | None, str | None, Stated | None, str | None]
"""Name, CAS, EC number, amount and stated function of one row."""


def printed(raw: str) -> Printed:
    """What one printed row says."""
    draft = read_item(raw, working_copy(raw), 0, len(raw))
    if draft is None:
        return raw.strip(), None, None, None, None
    return draft.name, draft.cas, draft.ec, draft.stated, draft.function


def disclosed_products(shared: Path) -> dict[str, list[dict[str, str]]]:
    """Declared functions of real products, rows in order."""
    products: dict[str, list[dict[str, str]]] = defaultdict(list)
    path = shared / "facts" / "disclosed_products" / "declared_roles.csv"
    with path.open(encoding="utf-8", newline="") as stream:
        for row in csv.DictReader(stream):
            products[row["product_id"]].append(row)
    return dict(products)


def as_lines(entries: Sequence[Printed]) -> tuple[Line, ...]:
    """Entries as the lines of one list."""
    seen: dict[str, int] = defaultdict(int)
    lines = []
    for position, (name, cas, ec, stated, function) in enumerate(entries, start=1):
        seen[name] += 1
        place = Place(text_id="evaluation", start=position, end=position + 1, line=position, column=1)
        lines.append(
            Line(
                id=line_id(name, seen[name]),
                position=position,
                place=place,
                raw=name,
                name=name,
                cas=cas,
                ec=ec,
                stated=stated,
                function=function,
            )
        )
    return tuple(lines)


def identified(lines: tuple[Line, ...]) -> tuple[tuple[Match, ...], tuple[str, ...], Ledger]:
    """Matches of lines, their reasons and the ledger."""
    from formulate.identity.match import identify

    ledger = Ledger()
    pasted = {line.id: add_pasted(ledger, line, len(lines)) for line in lines}
    matches, reasons = identify(lines, pasted, ledger, open_catalog())
    return matches, reasons, ledger


def attributed(lines: tuple[Line, ...], form: str | None = None) -> tuple[tuple[Match, ...], Attribution]:
    """Matches and roles of lines, in the context of one another; nothing said about the product but its form."""
    matches, reasons, ledger = identified(lines)
    stated = tuple(add_stated(ledger, line) if line.stated is not None else None for line in lines)
    done = {
        "lines": Output(Reading(lines=lines), {}, ""),
        "matches": Output(Matches(matches, reasons, stated), ledger, ""),
    }
    inputs = Inputs("", "evaluation", (), {"form": form})
    product, reasons_so_far = _product(inputs, done)
    done["product"] = Output(product, reasons_so_far, "")
    attribution, _ = _roles(inputs, done)
    return matches, attribution
