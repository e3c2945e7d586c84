"""From a text to its reading: blocks, entries, lines with their places, and everything that was left over."""

from __future__ import annotations

from collections.abc import Callable

from formulate.domain.line import Line, Reading, line_id
from formulate.domain.place import LineIndex
from formulate.domain.reason import Ledger
from formulate.intake.limits import LIST_CHARACTERS, LIST_LINES
from formulate.intake.limits import check_list_size as check_size
from formulate.reading import patterns
from formulate.reading.block import Block, blocks_of
from formulate.reading.drafts import block_drafts, physical_lines
from formulate.reading.facts import facts_in
from formulate.reading.item import Draft
from formulate.reading.lazily import lazy
from formulate.reading.leftover import left_over_of
from formulate.reading.reasons import ledger_of, shown
from formulate.reading.surface import working_copy

Known = Callable[[str], bool]
Span = tuple[int, int]
_SAMPLE = 400
_ENTRY_END = lazy(r"[,;\n|\t\u2022]")


def read_text(text: str, text_id: str, known: Known) -> tuple[Reading, Ledger]:
    """Read a pasted text.

    Parameters
    ----------
    text
        The text as it came.
    text_id
        Identity of the text, for the places.
    known
        Whether the word list has a name; asked where the text does not fix the cut.

    Returns
    -------
    Reading and the ledger of what was pasted. Never raises on text: a text
    without a list gives no lines, the text in ``left_over``, and a note.
    """
    copy = working_copy(text)
    index = LineIndex.of(text_id, text)
    facts, fact_spans = facts_in(text, copy, index)
    drafts: list[Draft] = []
    cut = False
    for block in blocks_of(copy):
        within = block._replace(end=list_end(copy, block.start, block.end))
        cut = cut or within.end < block.end
        drafts += [] if _is_long_prose(text, copy, within, known) else block_drafts(text, copy, within, known)
    lines = _lines(text, drafts, index)
    claimed = [span for draft in drafts for span in draft.spans]
    left_over = left_over_of(text, copy, claimed, fact_spans, index)
    reading = Reading.model_construct(lines=lines, left_over=left_over, facts=facts, notes=_notes(text, lines, cut))
    return reading, ledger_of(reading)


def _is_long_prose(text: str, copy: str, block: Block, known: Known) -> bool:
    """Whether the first lines of a long text without any heading hold no list at all."""
    if block.why != "whole" or block.end - block.start < 100 * _SAMPLE:
        return False
    lines = physical_lines(copy, block.start, min(block.end, block.start + 400 * _SAMPLE))
    if len(lines) < _SAMPLE:
        return False
    return not block_drafts(text, copy, block._replace(end=lines[_SAMPLE - 1][1]), known)


def list_end(copy: str, start: int, end: int) -> int:
    """Where the part of a block ends that is read: 2 MB or 20,000 lines or entries at most."""
    end = min(end, start + LIST_CHARACTERS)
    if end - start <= LIST_LINES:
        return end
    for number, match in enumerate(_ENTRY_END.finditer(copy, start, end), 1):
        if number >= LIST_LINES:
            return match.end()
    return end


def check_list_size(text: str) -> None:
    """Refuse a text whose recognised list is over 2 MB or 20,000 lines, before reading it.

    Raises
    ------
    InputError
        ``too-large``, saying which part was recognised as the list.
    """
    if len(text) <= LIST_LINES:
        return
    copy = working_copy(text)
    for block in blocks_of(copy):
        lines = LIST_LINES + (list_end(copy, block.start, block.end) < block.end)
        place = LineIndex.of("", text).place(block.start, block.end)
        check_size(
            block.end - block.start,
            lines,
            f"{place.label()} of what was given",
            shown(text[block.start : block.start + 60]),
        )


def _lines(text: str, drafts: list[Draft], index: LineIndex) -> tuple[Line, ...]:
    seen: dict[str, int] = {}
    lines = []
    for position, draft in enumerate(drafts, 1):
        raw = " ".join(text[start:end] for start, end in draft.spans)
        seen[raw] = seen.get(raw, 0) + 1
        start, end = draft.spans[0][0], draft.spans[-1][1] if len(draft.spans) == 1 else draft.spans[0][1]
        lines.append(
            Line.model_construct(
                id=line_id(raw, seen[raw]),
                position=position,
                place=index.place(start, end),
                raw=raw,
                name=draft.name,
                cas=draft.cas,
                ec=draft.ec,
                stated=draft.stated,
                function=draft.function,
                doubtful=draft.doubtful,
            )
        )
    return tuple(lines)


def _notes(text: str, lines: tuple[Line, ...], cut: bool) -> tuple[str, ...]:
    if cut:
        return (
            f"The list is longer than {LIST_LINES:,} lines or {LIST_CHARACTERS // 1024 // 1024} MB: what follows was"
            " not read and stands in left_over.",
        )
    if lines:
        parts = sum(patterns.PART.match(line.strip()) is not None for line in text[:100_000].split("\n"))
        return ("The text lists several parts: each amount is a share of its own part.",) if parts > 1 else ()
    if not text.strip():
        return ("Nothing was pasted: the text is empty.",)
    return ("No list of ingredients was found in this text; all of it stands in left_over.",)
