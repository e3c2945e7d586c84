"""The text of an Excel workbook: rows as lines, cells parted by tabs, sheets by form feeds. Runs in the worker only.

The names of the sheets are left out: they are no cells, and a name above a head would be read as an ingredient.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from io import BytesIO
from itertools import zip_longest
from typing import Any

import openpyxl

from formulate.intake.limits import TEXT_CHARACTERS
from formulate.intake.separated import line_of
from formulate.intake.shown import shown

SHEET_BREAK = "\n\f\n"
NOT_CALCULATED = "(formula without a kept value)"


def workbook_text(data: bytes) -> str:
    """The text of all sheets in order, numbers as the workbook shows them (0.05 under a percent format is '5 %')."""
    values = openpyxl.load_workbook(BytesIO(data), read_only=True, data_only=True)
    formulas = openpyxl.load_workbook(BytesIO(data), read_only=True, data_only=False)
    sheets = []
    size = 0
    for sheet, asked in zip(values.worksheets, formulas.worksheets, strict=True):
        lines: list[str] = []
        for line in _lines(sheet, asked):
            lines.append(line)
            size += len(line) + 1
            if size > TEXT_CHARACTERS:
                raise MemoryError
        sheets.append("\n".join(lines).strip("\n"))
    return SHEET_BREAK.join(sheets)


def _lines(sheet: Any, asked: Any) -> Iterator[str]:
    """Lines of a sheet; several empty rows are one blank line."""
    for one in (sheet, asked):
        one.reset_dimensions()  # the size a sheet says it has is not trusted
    blank = False
    for row, formulas in zip_longest(sheet.iter_rows(), asked.iter_rows(), fillvalue=()):
        line = line_of(_cells(row, formulas)) if row or formulas else ""
        if line or not blank:
            yield line
        blank = not line


def _cells(row: Sequence[Any], formulas: Sequence[Any]) -> Iterator[str]:
    for cell, formula in zip_longest(row, formulas):
        value = None if cell is None else cell.value
        if value is None:
            yield NOT_CALCULATED if formula is not None and formula.data_type == "f" else ""
        else:
            yield shown(value, cell.number_format)
