"""The quality of the dataset as tables: for a terminal, and as the generated part of data_public/README.md."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from formulate.workflow.data_answers import Quality

BEGIN = "<!-- quality: written by `formulate data --quality -o data_public/README.md`, do not edit -->"
END = "<!-- quality: end -->"
MOST_OVERDUE = 40


class Table(NamedTuple):
    """A title, heads and rows of words; the first column is text, the others are numbers or short words."""

    title: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    below: str = ""


def tables(quality: Quality) -> list[Table]:
    """What the dataset holds, in the order in which a person asks."""
    values = sum(quality.origins.values()) or 1
    return [
        Table(
            "Rows, and what has no source",
            ("table", "rows", "memory", "custom", "unsourced"),
            tuple(
                (one.table, f"{one.rows}", f"{one.memory}", f"{one.custom}", _share(one.memory + one.custom, one.rows))
                for one in quality.tables
            ),
            "memory: remembered, not looked up; custom: common practice without a source",
        ),
        Table(
            "Values by origin (properties, classification, limits in air, usual amounts)",
            ("origin", "values", "share"),
            tuple((name, f"{many}", _share(many, values)) for name, many in quality.origins.items()),
        ),
        Table(
            "Coverage of the properties",
            ("group", "what", "asked", "with a source", "covered", "sourced", "measured", "of"),
            tuple(
                (
                    one.group,
                    one.what,
                    f"{one.asked:.0%}",
                    _share(one.sourced, one.of),
                    *(f"{many}" for many in (one.covered, one.sourced, one.measured, one.of)),
                )
                for one in quality.coverage
            ),
        ),
        Table("Law", ("what", "number"), _pairs(quality.law)),
        Table(
            "Age of the checks",
            ("table", "rows", "oldest check", "newest check", "over a year", "copy over a year"),
            tuple(
                (one.table, f"{one.rows}", one.oldest, one.newest, f"{one.over_a_year}", f"{one.copy_over_a_year}")
                for one in quality.checked
            ),
            "copy over a year: rows whose source was read in a copy that ends more than a year before",
        ),
        Table(
            "Checked more than twelve months ago",
            ("table", "what", "checked"),
            tuple((one.table, one.what, one.checked_on) for one in quality.overdue[:MOST_OVERDUE]),
            f"{len(quality.overdue)} in all" if len(quality.overdue) > MOST_OVERDUE else "",
        ),
        Table("Ingredients by class", ("class", "number"), _pairs(quality.classes)),
        Table(
            "Names by language",
            ("language", "names"),
            _pairs(quality.languages),
            f"{quality.few_names} of {quality.ingredients} ingredients have fewer than four names "
            f"({_share(quality.few_names, quality.ingredients)})",
        ),
    ]


def page(quality: Quality) -> str:
    """The tables in Markdown."""
    lines = ["", "## What it holds, counted"]
    for table in tables(quality):
        if not table.rows:
            continue
        lines += ["", f"### {table.title}", ""]
        lines.append("| " + " | ".join(table.heads) + " |")
        lines.append("|---" + "|---:" * (len(table.heads) - 1) + "|")
        lines += ["| " + " | ".join(cell.replace("|", "/") for cell in row) + " |" for row in table.rows]
        lines += ["", table.below] if table.below else []
    return "\n".join([*lines, ""]) + "\n"


def plain(quality: Quality) -> Iterable[str]:
    """The tables as lines of text, columns aligned."""
    for table in tables(quality):
        if not table.rows:
            continue
        yield table.title
        widths = [max(len(row[i]) for row in (table.heads, *table.rows)) for i in range(len(table.heads))]
        for row in (table.heads, *table.rows):
            cells = [
                row[0].ljust(widths[0]),
                *(cell.rjust(width) for cell, width in zip(row[1:], widths[1:], strict=True)),
            ]
            yield "  " + "  ".join(cells).rstrip()
        if table.below:
            yield f"  ({table.below})"
        yield ""


def _pairs(numbers: dict[str, int]) -> tuple[tuple[str, ...], ...]:
    return tuple((name, f"{many}") for name, many in numbers.items())


def _share(part: int, whole: int) -> str:
    return f"{100 * part / whole:.1f} %" if whole else "-"
