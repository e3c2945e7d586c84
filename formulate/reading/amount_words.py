"""Amounts told in words in a cell, a line or behind a comma of their own: 'q.s.', 'balance', 'ad 100 %', 'trace'."""

from __future__ import annotations

from collections.abc import Callable

from formulate.reading.amounts import shares_in
from formulate.reading.cuts import Entry, bare_name
from formulate.reading.lazily import lazy
from formulate.reading.surface import stripped

_TO = r"(?:to|ad|auf|bis|up\sto|zu|\u00e0|a|\u0434\u043e)"
_SUFFICIENT = r"q\.?\s?s\.?(?:\s?p\.?)?|c\.?\s?s\.?\s?p\.?|q\.?\s?b\.?|quantum\s(?:satis|sufficit|sufficiat)"
_WORDS = (
    rf"(?:(?:{_SUFFICIENT}|balance|bal\.?|remainder|remaining|rest|reste|resto|restante|\u043e\u0441\u0442\u0430\u043b\u044c\u043d\u043e\u0435)"
    rf"(?:[\s,]{{1,2}}(?:{_TO}\s)?100(?:[.,]0{{1,2}})?\s?(?:%|g|ml|parts|teile)?)?"
    rf"|{_TO}\s100(?:[.,]0{{1,2}})?\s?(?:%|g|ml|parts|teile)?"
    r"|traces?(?:\samounts?)?|spuren|as\s(?:needed|required)|sufficient(?:\s(?:amount|quantity))?)"
)
_CELL = lazy(rf"[(\[]?{_WORDS}[)\]]?\.?", 2)
_END = lazy(rf"(?<=[^\W_])(?:[\s:=-]{{1,4}}|\s?\()({_WORDS})\)?[\s.]*$", 2)
_LONGEST = 40
Known = Callable[[str], bool]


def is_amount_word(words: str) -> bool:
    """Whether a stretch tells an amount in words and nothing else."""
    return len(words) <= _LONGEST and _CELL.fullmatch(words) is not None


def stem_end(copy: str, start: int, end: int) -> int:
    """Where the name in front of an amount in words ends ('Water balance'); ``end`` where none is told."""
    match = _END.search(copy, max(start, end - _LONGEST), end)
    return match.start() if match and copy[start : match.start()].strip() else end


def words_joined(copy: str, entries: list[Entry], known: Known) -> list[Entry]:
    """Entries that are an amount and nothing else put to the entry before them: 'Water', 'q.s.', 'Ethanol', '5 %'.

    Figures only where that entry has none; to the entry behind them where the list begins with one, be it below a
    title, and ends with a name.
    """
    if turned := _figures_first(copy, entries, known):
        return turned
    kept: list[Entry] = []
    for number, entry in enumerate(entries):
        start, end = stripped(copy, entry.start, entry.end)
        alone = copy[start:end].strip(" ,;-") if end - start <= _LONGEST else ""
        figure = number > 0 and _is_figure(alone)
        told = figure and kept and shares_in(copy, kept[-1].start, kept[-1].end)
        if kept and (is_amount_word(alone) or (figure and not told)):
            kept[-1] = kept[-1]._replace(end=entry.end)
        else:
            kept.append(entry)
    return kept


def _figures_first(copy: str, entries: list[Entry], known: Known) -> list[Entry]:
    """The entries with each lone figure put in front of the one behind it; empty where figures do not come first."""
    figures = [_is_figure(copy[one.start : one.end].strip(" ,;-\n\t")) for one in entries]
    if len(entries) < 2 or figures[-1] or True not in figures[:2]:
        return []
    if not figures[0] and known(bare_name(copy[entries[0].start : entries[0].end])):
        return []
    kept: list[Entry] = []
    for number, entry in enumerate(entries):
        if number and figures[number - 1] and not figures[number]:
            kept[-1] = kept[-1]._replace(end=entry.end)
        else:
            kept.append(entry)
    return kept


def _is_figure(alone: str) -> bool:
    """Whether a stretch is an amount with its unit and nothing else."""
    amounts = shares_in(alone, 0, len(alone))
    return len(amounts) == 1 and (amounts[0].start, amounts[0].end) == (0, len(alone))
