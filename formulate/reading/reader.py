"""From a text to its reading: blocks, entries, lines with their places, and everything that was left over."""

from __future__ import annotations

from collections.abc import Callable

from formulate.domain.line import Line, Reading, line_id
from formulate.domain.place import LineIndex
from formulate.domain.reason import Ledger
from formulate.intake.limits import LIST_CHARACTERS, LIST_LINES
from formulate.intake.limits import check_list_size as check_size
from formulate.reading.block import Block, blocks_of, outline_of
from formulate.reading.bound_columns import bounds_joined
from formulate.reading.codes import hazard_codes_in
from formulate.reading.drafts import block_drafts, physical_lines
from formulate.reading.facts import facts_in
from formulate.reading.furniture import WHY as FURNITURE
from formulate.reading.furniture import furniture_in
from formulate.reading.item import Draft
from formulate.reading.kinds import fact_areas, kind_at, looks_like, section_notes, tells_no_amounts
from formulate.reading.lazily import lazy
from formulate.reading.leftover import left_over_of
from formulate.reading.parts import WHY as PART
from formulate.reading.parts import part_at, parts_in, without_headings
from formulate.reading.reasons import ledger_of, shown
from formulate.reading.sections import WHY as HEADING
from formulate.reading.sections import lowered
from formulate.reading.surface import blanked, stripped, working_copy

Known = Callable[[str], bool]
Span = tuple[int, int]
_SAMPLE = 400
_ENTRY_END = lazy(r"[,;\n|\t\u2022]")
_READ_AS = {
    "section": "the section on composition of a data sheet",
    "head": "the list after its heading",
    "whole": "one list, since no heading was found",
}


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
    copy = bounds_joined(working_copy(text))
    index = LineIndex.of(text_id, text)
    low = lowered(copy)
    furniture = furniture_in(text, copy, low)
    printed, copy = copy, blanked(copy, furniture)
    outline = outline_of(copy, blanked(low, furniture))
    looks = looks_like(copy, outline)
    facts = facts_in(text, copy, outline.low, index, fact_areas(outline, len(copy)))
    parts = parts_in(copy, outline.blocks)
    copy = without_headings(copy, parts)
    drafts: list[Draft] = []
    named: list[str | None] = []
    cut = False
    sheets = len({block.sheet for block in outline.blocks})
    for block, within in zip(outline.blocks, within_limits(copy, outline.blocks), strict=True):
        cut = cut or within.end < block.end
        read = [] if _is_long_prose(text, copy, within, known) else block_drafts(text, copy, within, known)
        drafts += [_without_limits(draft, kind_at(draft.spans[0][0], outline, looks)) for draft in read]
        named += [part_at(draft.spans[0][0], parts, block, sheets) for draft in read]
    lines = _lines(text, drafts, named, index)
    claimed = [span for draft in drafts for span in draft.spans] + facts.spans
    told = [(*stripped(copy, one.begin, one.after), HEADING) for one in outline.headings]
    told += [(start, end, FURNITURE) for start, end in furniture] + [(one.start, one.end, PART) for one in parts]
    left_over = left_over_of(text, printed, claimed, told, index)
    notes = _notes(text, lines, cut) + tuple(section_notes(copy, outline, looks, lines)) + tuple(facts.notes)
    reading = Reading.model_construct(
        lines=lines,
        left_over=left_over,
        facts=facts.by_key,
        hazard_codes=hazard_codes_in(text, copy, outline, index),
        notes=notes,
    )
    return reading, ledger_of(reading)


def _without_limits(draft: Draft, kind: str | None) -> Draft:
    """A row of a section that tells limits or doses keeps no amount, unless it is printed as a share."""
    if draft.stated is None or not tells_no_amounts(kind) or "%" in draft.stated.text:
        return draft
    return draft._replace(stated=None)


def _is_long_prose(text: str, copy: str, block: Block, known: Known) -> bool:
    """Whether the first lines of a long text without any heading hold no list at all."""
    if block.why != "whole" or block.end - block.start < 100 * _SAMPLE:
        return False
    lines = physical_lines(copy, block.start, min(block.end, block.start + 400 * _SAMPLE))
    if len(lines) < _SAMPLE:
        return False
    return not block_drafts(text, copy, block._replace(end=lines[_SAMPLE - 1][1]), known)


def within_limits(copy: str, blocks: list[Block]) -> list[Block]:
    """The blocks of a text, cut where 2 MB or 20,000 lines or entries of list have been read."""
    characters, entries = LIST_CHARACTERS, LIST_LINES
    cut: list[Block] = []
    for block in blocks:
        end = min(block.end, block.start + characters)
        if len(copy) > LIST_LINES:
            end, entries = _entries_end(copy, block.start, end, entries)
        characters -= end - block.start
        cut.append(block._replace(end=end))
    return cut


def _entries_end(copy: str, start: int, end: int, most: int) -> tuple[int, int]:
    """Where a stretch has shown so many entries, and how many may follow."""
    for match in _ENTRY_END.finditer(copy, start, end):
        most -= 1
        if most <= 0:
            return match.end(), 0
    return end, most


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
    blocks = blocks_of(copy)
    for block, cut in zip(blocks, within_limits(copy, blocks), strict=True):
        if cut.end == block.end:
            continue
        place = LineIndex.of("", text).place(block.start, block.end)
        check_size(
            max(block.end - block.start, sum(one.end - one.start for one in blocks)),
            LIST_LINES + 1,
            f"{place.label()} of what was given, read as {_READ_AS[block.why]}",
            shown(text[block.start : block.start + 60]),
        )


def _lines(text: str, drafts: list[Draft], named: list[str | None], index: LineIndex) -> tuple[Line, ...]:
    seen: dict[str, int] = {}
    lines = []
    for position, (draft, part) in enumerate(zip(drafts, named, strict=True), 1):
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
                part=part,
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
        parts = list(dict.fromkeys(line.part for line in lines if line.part))
        if not parts:
            return ()
        shown_parts = ", ".join(parts[:6]) + (" ..." if len(parts) > 6 else "")
        return (f"The text lists several parts ({shown_parts}): each amount is a share of its own part.",)
    if not text.strip():
        return ("Nothing was pasted: the text is empty.",)
    return ("No list of ingredients was found in this text; all of it stands in left_over.",)
