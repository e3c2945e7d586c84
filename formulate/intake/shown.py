"""A value of a spreadsheet as the sheet shows it: percents as percents, plain decimals, no binary noise."""

from __future__ import annotations

import re
from datetime import date, datetime, time
from decimal import Decimal

_DIGITS = 15
"""Significant decimal digits that a spreadsheet keeps of a number."""

_PLACES = 400
_KEPT = " -+()"
_PIECE = re.compile(r'"([^"]*)"|\\(.)|_.|\*.|\[[^\]]*\]|(%)|([0#?][0#?.,/ ]*(?:E[+-]0+)?|General|@)|(.)', re.IGNORECASE)


def shown(value: object, number_format: str) -> str:
    """The value of a cell as text.

    Parameters
    ----------
    value
        Number, date, time, truth value or text.
    number_format
        As Excel writes it: ``0.0%``, ``0.0" ppm"``, ``"<"0.1``. A percent sign outside quotes scales by 100; signs in
        quotes are shown as they stand. Of several sections the first is taken. Places are not rounded away.
    """
    if isinstance(value, bool):
        return "TRUE" if value else "FALSE"
    if isinstance(value, datetime):
        return value.date().isoformat() if value.time() == time() else value.isoformat(" ", "minutes")
    if isinstance(value, (date, time)):
        return value.isoformat()
    if isinstance(value, (int, float)):
        return _number(value, number_format)
    return str(value)


def _number(value: int | float, number_format: str) -> str:
    number = Decimal(str(value) if isinstance(value, int) else format(value, f".{_DIGITS}g"))
    before, after, percent = _signs(number_format)
    if not number.is_finite() or abs(number.adjusted()) > _PLACES:
        return str(value)
    text = _plain(number.scaleb(2) if percent else number)
    return f"{before}{text}{after}"


def _plain(number: Decimal) -> str:
    text = format(number, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def _signs(number_format: str) -> tuple[str, str, bool]:
    """What a format prints before and behind the number, and whether it shows percents."""
    before, after = "", ""
    seen = percent = False
    for match in _PIECE.finditer(number_format[:255]):
        quoted, escaped, sign, digits, other = match.groups()
        if other == ";":
            break
        if digits:
            seen = True
            continue
        percent = percent or sign is not None
        kept = other if other and other in _KEPT else ""
        text = " %" if sign and seen else quoted or escaped or kept
        if seen:
            after += text
        else:
            before += text
    return before, after.replace("  %", " %"), percent
