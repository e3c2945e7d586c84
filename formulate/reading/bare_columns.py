"""Two columns without a head, names and bare numbers: shares where the numbers make up a hundred."""

from __future__ import annotations

from collections.abc import Callable

from formulate.domain.line import Stated
from formulate.reading import patterns
from formulate.reading.cuts import bare_name
from formulate.reading.item import Draft, clean_name
from formulate.reading.lazily import lazy
from formulate.reading.recipes import unmeasured

Known = Callable[[str], bool]
Span = tuple[int, int]
_ROW = lazy(
    r"(?P<name>[^\t\n|]{2,120}?)(?:[ ]{0,4}\t[\t ]{0,8}|[ ]{3,80}|[ ]?\.{4,80}[ ]?)(?P<number>\d{1,5}(?:[.,]\d{1,4})?)"
)
_PARTS = lazy(r"\b(?:parts?|teile?|partes|pts)\b|\u0447\u0430\u0441\u0442|\u90e8|\u4efd", 2)
_DASHED = lazy(r"\s?[-:=]\s(?P<number>\d{1,4}(?:[.,]\d{1,3})?)[\s.,;]*$")
_HUNDRED = (97.0, 103.0)


def bare_column_drafts(text: str, copy: str, lines: list[Span], known: Known) -> list[Draft]:
    """The entries of lines that are each a name and a bare number far behind it; a title may stand above.

    Shares where the numbers add up to about 100 and a name is in the word list; else, where most names are in it, the
    names with their numbers unread. Otherwise empty: it is a table of something else.
    """
    rows = [_ROW.fullmatch(copy, *span) for span in lines]
    told = [row for row in rows[1 if rows and rows[0] is None else 0 :] if row is not None]
    if len(told) < 2 or len(told) + (rows[0] is None) < len(rows):
        return []
    names = [clean_name(row["name"]) for row in told]
    if not all(patterns.LETTER.search(name) for name, _ in names):
        return []
    hits = sum(known(bare_name(name)) for name, _ in names)
    total = sum(_number(row["number"]) for row in told)
    whole = hits > 0 and _HUNDRED[0] <= total <= _HUNDRED[1]
    if not whole and hits * 2 <= len(told):
        return []
    drafts = []
    for row, (name, function) in zip(told, names, strict=True):
        number = row.span("number")
        stated = _share(text, number, _number(row["number"])) if whole else unmeasured(text, *number)
        drafts.append(Draft((row.span(),), name, stated=stated, function=function))
    return drafts


def with_parts(text: str, copy: str, drafts: list[Draft]) -> list[Draft]:
    """The entries of a recipe in parts, where some print the bare number: 'wax - 30 parts', 'rosin - 10'."""
    if not any(draft.stated and _PARTS.search(draft.stated.text) for draft in drafts):
        return drafts
    told = []
    for draft in drafts:
        start, end = draft.spans[-1]
        number = _DASHED.search(copy, max(start, end - 16), end) if draft.stated is None else None
        if number is not None:
            name, _ = clean_name(copy[start : number.start()])
            draft = draft._replace(name=name, stated=unmeasured(text, *number.span("number")))
        told.append(draft)
    return told


def _number(digits: str) -> float:
    return float(digits.replace(",", "."))


def _share(text: str, number: Span, per_cent: float) -> Stated:
    share = float(f"{per_cent / 100:.12g}")
    return Stated.model_construct(low=share, high=share, text=text[slice(*number)])
