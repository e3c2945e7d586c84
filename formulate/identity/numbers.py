"""Registry numbers of a line: check digits, what the dataset files under them, and what was said of those that fail."""

from __future__ import annotations

import re
from typing import Literal, NamedTuple

from formulate.catalog.records import NameHit
from formulate.catalog.store import Catalog
from formulate.domain.line import Line

_NOT_FIGURES = re.compile(r"\D")
Kind = Literal["cas", "ec"]


class Numbered(NamedTuple):
    """A number that passes its check digit, and the ingredients filed under it (none: it is in no table)."""

    kind: Kind
    number: str
    hits: tuple[NameHit, ...]


def read_numbers(line: Line, catalog: Catalog, tried: list[str]) -> list[Numbered]:
    """The numbers of a line that pass their check digit, CAS first; what was found or failed is added to ``tried``."""
    found = []
    kinds: tuple[tuple[Kind, str | None], ...] = (("cas", line.cas), ("ec", line.ec))
    for kind, printed in kinds:
        if not printed:
            continue
        number = printed.replace(" ", "").lstrip("0")
        said = f"{kind.upper()} {number}"
        fault = check_digit_fault(kind, number)
        if fault:
            tried.append(f"{said}: {fault}")
            continue
        if _NOT_FIGURES.sub("", number) not in _NOT_FIGURES.sub("", line.raw):
            said += ", read from a broken print: its check digit fits"
        hits = tuple(catalog.by_number(number))
        tried.append(said if hits else f"{said}: not in the dataset")
        found.append(Numbered(kind, number, hits))
    return found


def check_digit_fault(kind: Kind, number: str) -> str:
    """What is wrong with a number's check digit or form; '' if nothing is.

    >>> check_digit_fault("cas", "7732-18-4")
    'its check digit is 5, not 4'
    """
    from stdnum import casrn
    from stdnum.eu import ecnumber
    from stdnum.exceptions import InvalidChecksum, ValidationError

    rule = casrn if kind == "cas" else ecnumber
    try:
        rule.validate(number)
    except InvalidChecksum:
        return f"its check digit is {rule.calc_check_digit(number[:-2])}, not {number[-1]}"
    except ValidationError:
        return f"it has not the form of {'a CAS' if kind == 'cas' else 'an EC'} number"
    return ""
