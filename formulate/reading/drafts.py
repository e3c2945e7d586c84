"""The entries of one block of text: which of the shapes it has, and what each of its lines or pieces tells."""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import NamedTuple

from formulate.reading import patterns
from formulate.reading.amount_words import words_joined
from formulate.reading.amounts import shares_in
from formulate.reading.bare_columns import bare_column_drafts, with_parts
from formulate.reading.bars import bar_drafts
from formulate.reading.block import Block
from formulate.reading.cells import head_of, is_head_line
from formulate.reading.claims import claim_drafts
from formulate.reading.columns import capital_entries
from formulate.reading.cuts import Entry, bare_name
from formulate.reading.detergents import with_bands
from formulate.reading.formulas import formula_rows, line_rows, with_functions, without_phases
from formulate.reading.grids import cells_joined, counted_drafts, without_counters
from formulate.reading.item import MORE_THAN_ONE, Draft, read_item
from formulate.reading.kitchen import is_measured, measured_drafts, without_steps
from formulate.reading.lazily import lazy
from formulate.reading.limits import limit_drafts
from formulate.reading.lists import list_entries
from formulate.reading.prose import is_thing, prose_drafts
from formulate.reading.records import is_records, record_drafts
from formulate.reading.repeats import without_refrains, without_repeats
from formulate.reading.row_drafts import draft_of
from formulate.reading.rows import ranges_joined, separated_rows, separator_of, table_rows
from formulate.reading.stream import after_head, is_headed_run
from formulate.reading.surface import squeezed

Known = Callable[[str], bool]
Span = tuple[int, int]
_CONTENT_LINE = lazy(r"\S[^\n]*")
_TWO_COLUMNS = lazy(r"[^\s.:]+(?:\s[^\s.:]+){0,5}(?:\s{3,}|\t)[^\s.:]+(?:\s[^\s.:]+){0,2}")
_FEW = 4
_LONGEST_RUN = 4_000
_COLUMNS_LOST = "the head of a table stands in the line; its columns are lost"
_ABSENT = lazy(
    r"\W{0,3}(?:[^\s,.:]{1,20}\s){0,4}?(?:(?:contains?|includes?|has|uses?)\s(?:no|neither)|free\s(?:of|from)|without)\s",
    re.IGNORECASE,
)
_JOINING = frozenset({"and", "or", "und", "oder", "et", "ou", "y", "e", "of"})
_WORDS_OF_A_SENTENCE = 14
_SIGN = ("%", "%)", "% w/w", "wt.%", "percent", "ppm")
_LONGEST_NAME = 600
_PROSE = lazy(
    r"\b(?:is|are|was|were|has|have|gives?|which|to\s(?:give|provide|make)|added\sin|thereby|wherein|claimed|would"
    r"|you|your|we|i|it|does|do|did|cannot)\b",
    re.IGNORECASE,
)
_BRACKETED = lazy(r"[(\[][^()\[\]A-Za-z]{0,4}(?:[a-z]{2,3}\s)?[^()\[\]A-Za-z]{0,16}%[^()\[\]]{0,12}[)\]][\s.,;]*$")
_PREPOSITION = lazy(r"(?:in|for|with|to|as|on|at|by|from)\s(?:an?|the|your|all)\s", re.IGNORECASE)
_ASIDE = lazy(r"\([^()\n]{0,200}\)")
_AFTER_NUMBER = lazy(r"[\d%)]\s?[,;]\s?(?!\d|EUH?\s?\d|[HR]\s?\d{2}|\s)(?=[^\W\d_]|\d,\d)")


class _Amounts(NamedTuple):
    """How a list prints its amounts: as bare numbers, in brackets."""

    bare: bool
    bracketed: bool


def block_drafts(text: str, copy: str, block: Block, known: Known) -> list[Draft]:
    """The entries of one block: a table if it shows registry numbers or columns, else a list."""
    if is_records(copy, block.start, block.end):
        return record_drafts(text, copy, block.start, block.end)
    spans = physical_lines(copy, block.start, block.end)
    head_spans = [span for span in spans if is_head_line(copy[span[0] : span[1]])]
    heads = [copy[a:b] for a, b in head_spans]
    roles = any(patterns.FUNCTION_HEAD.search(head) for head in heads)
    numbered = is_numbered(copy, block.start, block.end)
    spans = cells_joined(copy, ranges_joined(copy, spans))
    spans = [s for s in (without_counters(copy, spans) if numbered else spans) if not _is_noise(copy, *s, roles)]
    spans = without_phases(copy, spans, heads)
    if not spans:
        return [] if numbered else told_in_sentences(text, copy, block, [], known)
    sign = separator_of(copy, head_spans[0], spans) if head_spans and head_spans[0][0] < spans[0][0] else None
    if sign:
        head = head_of(heads)
        return [draft for row in separated_rows(copy, spans, sign, head) if (draft := draft_of(text, copy, row, head))]
    if not numbered:
        if not heads and (bare := bare_column_drafts(text, copy, spans, known)):
            return bare
        limits = limit_drafts(copy, physical_lines(copy, block.start, block.end)) if block.why == "whole" else []
        counted = limits or counted_drafts(text, copy, spans, known)
        if counted:
            return counted
    barred = [] if numbered else bar_drafts(text, copy, physical_lines(copy, block.start, block.end), known)
    if barred:
        return barred
    if _is_table(copy, spans, heads):
        head = head_of(heads or [_before_numbers(copy, *spans[0])])
        rows = table_rows(copy, spans, head, known)
        return without_repeats([draft for row in rows if (draft := draft_of(text, copy, row, head)) and draft.name])
    began = after_head(copy, *spans[0])
    if began > spans[0][0]:
        spans[0] = (began, spans[0][1])
        block = block._replace(doubtful=block.doubtful or _COLUMNS_LOST)
    entries = line_rows(copy, spans, heads) or words_joined(copy, list_entries(copy, spans, known), known)
    short = len(spans) == 1 and spans[0][1] - spans[0][0] < _LONGEST_RUN
    if block.doubtful == _COLUMNS_LOST and short and not shares_in(copy, *spans[0]):
        entries = max(entries, capital_entries(copy, *spans[0]), key=len)
    formula = formula_rows(copy, entries, "\n".join(copy[a:b] for a, b in spans[:3]))
    if formula:
        entries = [entry for entry, _ in formula]
    amounts = _Amounts(bool(formula) or _bare_amounts(copy, entries, heads), _bracketed_amounts(copy, entries))
    drafts = [draft for entry in entries if (draft := _drafted(text, copy, entry, amounts, block, known))]
    drafts = with_bands(copy, with_functions(copy, drafts, formula))
    drafts = with_parts(text, copy, without_refrains(without_steps(copy, drafts), known))
    claims = [] if numbered or not _is_unclear(drafts) else claim_drafts(text, copy, block.start, block.end, known)
    if len(claims) > len(drafts) or (claims and MORE_THAN_ONE in {draft.doubtful for draft in drafts}):
        return claims
    printed = sum(entry.end - entry.start for entry in entries)
    drafts = drafts if _is_list(copy, drafts, block, known, printed) else []
    return drafts if numbered else told_in_sentences(text, copy, block, drafts, known)


def is_numbered(copy: str, start: int, end: int) -> bool:
    """Whether registry numbers are printed: a CAS number, or several EC numbers under their label."""
    if patterns.CAS.search(copy, start, end):
        return True
    labelled = (
        m
        for m in patterns.EC.finditer(copy, start, end)
        if patterns.EC_LABEL.search(copy, max(start, m.start() - 20), m.start())
    )
    return next(labelled, None) is not None and next(labelled, None) is not None


def told_in_sentences(text: str, copy: str, block: Block, drafts: list[Draft], known: Known) -> list[Draft]:
    """What running sentences tell, where the text read as a list holds less: measures first, then names alone.

    Entries with an amount stay; a sentence adds what it names besides.
    """
    if len(drafts) > _FEW or any(is_measured(draft) for draft in drafts):
        return drafts
    shares = len(drafts) > 1 and all(_has_limits(draft) for draft in drafts)
    measured = [] if shares else measured_drafts(text, copy, block.start, block.end, known)
    if len(measured) > len(drafts):
        return measured
    named = prose_drafts(text, copy, block.start, block.end, known)
    if len(named) <= sum(draft.stated is not None or is_thing(draft.name, known) for draft in drafts):
        return drafts
    kept = [draft for draft in drafts if draft.stated is not None]
    told = [" ".join(bare_name(draft.name).lower().split()) for draft in kept]
    fresh = [
        draft for draft in named if not any(draft.name.lower() in name or name in draft.name.lower() for name in told)
    ]
    return sorted([*kept, *fresh], key=lambda draft: draft.spans[0][0])


def _has_limits(draft: Draft) -> bool:
    return draft.stated is not None and (draft.stated.low, draft.stated.high) != (None, None)


def _is_unclear(drafts: list[Draft]) -> bool:
    """Whether a sentence was cut badly: few entries, all with an amount, so that nothing told without one is lost."""
    return len(drafts) < 5 and all(draft.stated is not None for draft in drafts)


def physical_lines(copy: str, start: int, end: int) -> list[Span]:
    """The lines of a stretch that hold something, without the blanks around them."""
    return [
        (match.start(), match.start() + len(match.group().rstrip()))
        for match in _CONTENT_LINE.finditer(copy, start, end)
    ]


def _is_noise(copy: str, start: int, end: int, roles: bool) -> bool:
    line = copy[start:end] if end - start < 400 else copy[start : start + 400]
    if is_head_line(line) or any(noise.match(line) for noise in patterns.NOISE):
        return True
    if roles and len(line) < 120 and _TWO_COLUMNS.fullmatch(line):
        return False  # 'Wipe cloth     Carrier' under a head of names and functions is a row
    if _ABSENT.match(line) and not patterns.DIGIT.search(line):
        return True
    first = line.split(". ", 1)[0]  # 'less than 5 % soap. Keep away from children' holds an entry
    return patterns.INSTRUCTION.search(first) is not None and not patterns.CAS.search(line) and "," not in line[:30]


def _is_table(copy: str, spans: list[Span], heads: list[str]) -> bool:
    """Registry numbers that no comma list holds, or columns of at least two lines."""
    numbered = 0
    listed = 0
    marked = sum(patterns.BULLET.match(copy, *span) is not None for span in spans)
    if (
        marked * 5 >= len(spans) * 3
        and sum(patterns.CAS.search(copy, *span) is not None for span in spans) * 2 < marked
    ):
        return False  # bullets, a few of them with a number
    for start, end in spans:
        numbers = [match.span() for match in patterns.CAS.finditer(copy, start, end)]
        numbered += len(numbers)
        if (
            numbers
            and len(_AFTER_NUMBER.findall(copy, start, end)) >= max(1, len(numbers) - 1)
            and (len(numbers) > 1 or len(spans) == 1)
        ):
            listed += len(numbers)
    if numbered:
        return listed * 2 < numbered
    if spans and is_numbered(copy, spans[0][0], spans[-1][1]):
        return True
    if len(spans) == 1 and is_headed_run(copy[slice(*spans[0])]):
        return True
    columns = sum(re.search(r"\S(?:\s{3,}|\t|\s?\|\s?)\S", copy[a:b]) is not None for a, b in spans)
    return columns >= 2 and columns * 2 > len(spans)


def _before_numbers(copy: str, start: int, end: int) -> str:
    """The head of a table that stands on one line with its rows: what comes before the first registry number."""
    first = patterns.CAS.search(copy, start, end)
    return copy[start : min(first.start(), start + 600)] if first else ""


def _bracketed_amounts(copy: str, entries: list[Entry]) -> bool:
    """Whether nearly all entries end in a bracketed amount."""
    ends = sum(_BRACKETED.search(copy, max(entry.start, entry.end - 40), entry.end) is not None for entry in entries)
    return ends >= 3 and ends * 5 >= len(entries) * 4


def _bare_amounts(copy: str, entries: list[Entry], heads: list[str]) -> bool:
    """Whether numbers without a sign are amounts: the head says '%', or they add up to 100."""
    if any(patterns.PERCENT_HEAD.search(head) for head in heads):
        return True
    numbers = [
        re.search(r"(?<=[\s:=\t])(\d{1,2}(?:[.,]\d{1,3})?)[\s)]*(?:(?:weight\s)?parts?)?$", copy[e.start : e.end])
        for e in entries
    ]
    values = [float(match[1].replace(",", ".")) for match in numbers if match]
    return len(values) >= 2 and len(values) * 3 >= len(entries) * 2 and 97 <= sum(values) <= 103


def _drafted(text: str, copy: str, entry: Entry, amounts: _Amounts, block: Block, known: Known) -> Draft | None:
    if entry.end - entry.start > _LONGEST_NAME * 4:
        return None
    draft = read_item(text, copy, entry.start, entry.end, bare=amounts.bare, bracketed=amounts.bracketed)
    if draft is None or patterns.TOTAL.match(draft.name) or draft.name.lower() in _JOINING:
        return None
    if draft.stated is None and _PREPOSITION.match(draft.name):
        return None
    whole = draft.stated is not None and draft.stated.low == draft.stated.high == 1.0
    if whole and len(draft.name.split()) > 8 and _PROSE.search(draft.name):
        return None  # '100 % of the oils in it are ...' praises, it lists nothing
    printed = copy[entry.start : entry.end].strip()
    # "PDMS 350" is a grade of the word list, "PDMS 5 %" is an amount.
    if not amounts.bare and draft.stated is not None and not printed.endswith(_SIGN) and known(printed):
        draft = draft._replace(name=squeezed(printed), stated=None)
    if (
        draft.stated is None
        and draft.cas is None
        and _PROSE.search(_outside(draft.name))
        and len(draft.name.split()) > 3
        and not known(draft.name)
    ):
        return None
    if entry.band is not None and draft.stated is None:
        draft = draft._replace(stated=entry.band.stated(text))
    return draft._replace(doubtful=draft.doubtful or entry.doubtful or block.doubtful)


def _outside(name: str) -> str:
    """A name without its asides; an aside alone stays."""
    bare = _ASIDE.sub(" ", name)
    return bare if patterns.LETTER.search(bare) else name


def _is_list(copy: str, drafts: list[Draft], block: Block, known: Known, printed: int) -> bool:
    """Whether entries look like names; prose without one known name, number or amount is no list."""
    if not drafts:
        return False
    told = sum(draft.stated is not None or draft.cas is not None or known(draft.name) for draft in drafts)
    if told:
        return True
    if block.why == "head":
        return True
    if patterns.NONE_DECLARED.search(copy, block.start, block.end):
        return False
    if sum(end - start for draft in drafts for start, end in draft.spans) * 2 < printed:
        return False
    words = sorted(sum(patterns.LETTER.search(word) is not None for word in draft.name.split()) for draft in drafts)
    middle = words[len(words) // 2]
    return middle <= (5 if len(drafts) > 1 else 4) and max(words) <= _WORDS_OF_A_SENTENCE
