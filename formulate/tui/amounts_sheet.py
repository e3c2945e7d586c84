"""From the answer of the amounts to the sheet of station 2: what clashes, what was said, totals, then every line."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from formulate.domain.edit import Edit
from formulate.tui.figures import Figure, Range, Row, Sheet
from formulate.tui.words import MEANS_WORDS, amount_word
from formulate.workflow.amount_answers import BoundsAnswer, IngredientBounds, PlausibleRange, TotalBounds
from formulate.workflow.amount_edits import line_told, said_measured, said_supposed
from formulate.workflow.amount_moves import shown_span, supposed_rows
from formulate.workflow.answers import ReadAnswer
from formulate.workflow.bars import TITLES, digits

NONE = (0.0, 0.0)


class Amounts(NamedTuple):
    """What the sheet is made from: the newest answer, the newest one with likely ranges (of before, while newer ones
    are drawn), what was read, and the corrections in force."""

    now: BoundsAnswer
    drawn: BoundsAnswer | None
    read: ReadAnswer | None
    edits: tuple[Edit, ...]

    @property
    def stale(self) -> bool:
        """Whether the likely ranges are still being worked out."""
        return self.now is not self.drawn


def build_amounts(amounts: Amounts) -> Sheet:
    """The sheet of one state of the amounts."""
    if not amounts.now.ingredients:
        return Sheet([])
    corrected = {(edit.target, edit.field) for edit in amounts.edits}
    return Sheet(
        [
            *_clash_rows(amounts.now),
            *_said_rows(amounts, corrected),
            *_supposed_rows(amounts.now),
            *_total_rows(amounts),
            *_line_rows(amounts, corrected),
            *_note_rows(amounts.now),
        ]
    )


def _clash_rows(now: BoundsAnswer) -> list[Row]:
    if isinstance(now.contradiction, str):
        return []
    said = [
        _text("clash", f"clash/{i}", says, "one of the statements that clash", f"/contradiction/statements/{i}")
        for i, says in enumerate(now.contradiction.statements)
    ]
    head = "These statements contradict each other; leave any one out and the rest agree:"
    return [_text("clash", "clash/all", head, "a contradiction", "/contradiction"), *said]


def _supposed_rows(now: BoundsAnswer) -> list[Row]:
    said = now.supposed
    if said is None:
        return []
    text = f"if {said.what.replace('_', ' ')} were {digits(said.value)} %: "
    if not said.possible:
        text += "it cannot be; no composition agrees with that and with what is certain"
    elif said.share_of_draws_below is None or said.share_of_draws_above is None:
        text += "possible; the bars below show what it would force"
    else:
        text += f"possible; {said.share_of_draws_below:.0%} of the likely compositions have less, "
        text += f"{said.share_of_draws_above:.0%} more. The bars show what it would force"
    return [_text("supposed", "supposed/said", text, "what if", "/supposed")]


def _said_rows(amounts: Amounts, corrected: set[tuple[str, str]]) -> list[Row]:
    """What was said of the amounts as a whole, two and two: the rule and the line, what was measured and supposed."""
    now, edits = amounts.now, amounts.edits
    fields = {field for _, field in corrected}
    after = line_told(edits)
    row = next((one for one in now.ingredients if one.line == after), None)
    line = f"after {row.position}, {row.name}" if row is not None else "open"
    measured = ", ".join(said_measured(edits)) or "nothing"
    supposed = said_supposed(edits) or "nothing"
    whole = now.rule.title
    at = next((f"/totals/{total}/measured" for total, one in now.totals.items() if one.measured is not None), "/rule")

    def figure(field: str, text: str, title: str, pointer: str, edited: bool, sentence: str) -> Figure:
        return Figure(f"said/{field}", field, text, title, "bounds", pointer, corrected=edited, sentence=sentence)

    said = f"{whole}: {now.rule.says}"
    return [
        Row(
            "said",
            "",
            (
                figure("rule", f"rule: {whole}", "the disclosure rule", "/rule", "rule" in fields, said),
                figure(
                    "line",
                    f"1 % line: {line}",
                    "where the one-percent line falls",
                    "/one_percent_after" if row is not None and now.one_percent_after else "/rule",
                    after is not None,
                    f"The one-percent line: {line}.",
                ),
            ),
        ),
        Row(
            "said",
            "",
            (
                figure(
                    "measured",
                    f"measured: {measured}",
                    "what was measured",
                    at,
                    measured != "nothing",
                    f"Measured: {measured}.",
                ),
                figure(
                    "suppose",
                    f"what if: {supposed}",
                    "what is supposed",
                    "/supposed" if now.supposed else "/rule",
                    supposed != "nothing",
                    f"Supposed: {supposed}.",
                ),
            ),
        ),
    ]


class _Ranges:
    """The figures of one range: its limits, and where it is likely to be."""

    def __init__(self, amounts: Amounts, key: str, name: str, pointer: str, line: str | None, position: int) -> None:
        self.amounts, self.key, self.name, self.pointer = amounts, key, name, pointer
        self.line, self.position = line, position

    def figures(
        self, hard: tuple[float, float] | None, likely: PlausibleRange | None, likely_at: str, density: bool
    ) -> tuple[Figure, ...]:
        """Least, most, likely."""
        clash = hard is None
        shown = ("-", "-") if hard is None else tuple(f"{one:.3f}" if density else digits(one) for one in hard)
        unit = "" if density else " %"
        figures = [
            self._figure(
                field,
                shown[side],
                f"at {word} {shown[side]}{unit}, certain",
                "bounds",
                "/contradiction" if clash else f"{self.pointer}/hard/{side}",
                f"{self.name}: at {word} {shown[side]}{unit}, certain." if not clash else f"{self.name}: not known.",
            )
            for side, (field, word) in enumerate((("low", "least"), ("high", "most")))
        ]
        between = "-" if likely is None else shown_span((likely.low, likely.high), density).removesuffix(" %")
        stale = self.amounts.stale
        text = f"~{between if likely is not None else ''}" if stale and not clash else between
        best = "" if likely is None else f", middle {f'{likely.best:.3f}' if density else digits(likely.best)}{unit}"
        said = f"{self.name}: likely {between}{unit}{best}." if likely is not None else f"{self.name}: not drawn yet."
        drawn = likely is not None and self.amounts.drawn is not None
        figures.append(
            self._figure(
                "likely",
                text,
                f"likely {between}{unit}{best}" if likely is not None else "likely, not drawn yet",
                "drawn" if drawn else "bounds",
                likely_at if drawn else "/contradiction" if clash else self.pointer,
                said,
            )
        )
        return tuple(figures)

    def _figure(self, field: str, text: str, title: str, answer: str, pointer: str, sentence: str) -> Figure:
        where = f"line {self.position}" if self.position else self.name
        return Figure(
            f"{self.key}/{field}",
            field,
            text,
            f"{where}, {title}",
            answer,  # type: ignore[arg-type]
            pointer,
            self.line,
            self.position,
            sentence=sentence,
        )


def _total_rows(amounts: Amounts) -> list[Row]:
    _, totals, base = supposed_rows(amounts.now)
    drawn, likely_base = _drawn_totals(amounts)
    rows, absent = [], []
    for total, found in totals.items():
        if found.hard is None:
            continue
        title = TITLES.get(total, total)
        if found.hard == NONE:
            absent.append(title)
            continue
        density = found.unit == "g/mL"
        likely = drawn[total].plausible if total in drawn else None
        ranges = _Ranges(amounts, f"total/{total}", title, f"{base}/totals/{total}", None, 0)
        name = Figure(f"total/{total}/name", "total", title, title, "bounds", f"/totals/{total}", sentence=title)
        figures = (name, *ranges.figures(found.hard, likely, f"{likely_base}/totals/{total}/plausible", density))
        told = amounts.now.totals[total].measured
        if told is not None:
            word = f"measured {told:.3f}" if density else f"measured {digits(told)} %"
            at = f"/totals/{total}/measured"
            figures += (Figure(f"total/{total}/told", "told", word, word, "bounds", at, sentence=f"{title}: {word}."),)
        rows.append(Row("range", "total", figures, 0, None if density else Range(found.hard, likely)))
    if absent:
        says = f"none in it: {', '.join(absent)}"
        rows.append(_text("absent", "total/absent", says, "totals that nothing counts towards", "/rule"))
    return rows


def _drawn_totals(amounts: Amounts) -> tuple[dict[str, TotalBounds], str]:
    if amounts.drawn is None:
        return {}, ""
    _, totals, base = supposed_rows(amounts.drawn)
    return totals, base


def _line_rows(amounts: Amounts, corrected: set[tuple[str, str]]) -> list[Row]:
    rows, _, base = supposed_rows(amounts.now)
    drawn = {} if amounts.drawn is None else _by_line(amounts.drawn)
    at = "/supposed/forces" if base else "/ingredients"
    found = [
        _line_row(amounts, one, f"{at}/{i}", drawn.get(one.line), corrected, f"/ingredients/{i}")
        for i, one in enumerate(rows)
    ]
    unnamed = amounts.now.unnamed
    if unnamed is not None and not base:
        old = amounts.drawn.unnamed if amounts.drawn is not None else None
        likely = (old.plausible, "/unnamed") if old is not None else None
        found.append(_line_row(amounts, unnamed, "/unnamed", likely, corrected, "/unnamed"))
    return found


def _by_line(drawn: BoundsAnswer) -> dict[str, tuple[PlausibleRange | None, str]]:
    rows, _, base = supposed_rows(drawn)
    at = "/supposed/forces" if base else "/ingredients"
    return {row.line: (row.plausible, f"{at}/{i}/plausible") for i, row in enumerate(rows)}


def _line_row(
    amounts: Amounts,
    one: IngredientBounds,
    pointer: str,
    drawn: tuple[PlausibleRange | None, str] | None,
    corrected: set[tuple[str, str]],
    own: str,
) -> Row:
    likely, likely_at = drawn if drawn is not None else (None, "")
    line = one.line or None
    where = f"line {one.position}" if one.position else "the rest"
    key = one.line or "unnamed"

    def figure(field: str, text: str, title: str, at: str, edit: str, sentence: str) -> Figure:
        return Figure(
            f"{key}/{field}",
            field,
            text,
            f"{where}, {title}",
            "bounds",
            at,
            line,
            one.position,
            (one.line, edit) in corrected,
            sentence,
        )

    name = figure("name", one.name, one.name, own, "ingredient", f"Line {one.position} is {one.name}.")
    ranges = _Ranges(amounts, key, one.name, pointer, line, one.position)
    figures = [name, *ranges.figures(one.hard, likely, likely_at, False)]
    if one.position:
        said = line_told(amounts.edits) == one.line
        text = "the 1 % line falls behind it" if said else f"number {one.position} of the list"
        at = "/one_percent_after" if said and amounts.now.one_percent_after else own
        figures.insert(0, figure("place", str(one.position), text, at, "", text)._replace(corrected=said))
    stated = _stated(amounts.read, one.line)
    if stated is not None:
        index, word = stated
        printed = figure("printed", word, f"printed {word}", f"/lines/{index}/stated", "amount", f"Printed: {word}.")
        figures.append(printed._replace(answer="read"))
    if one.position and (one.supplied_as.low < 1 or (one.line, "means") in corrected):
        word = _supplied_word(one, amounts.edits)
        figures.append(figure("supplied", word, word, f"{own}/supplied_as", "means", f"{one.name}: {word}."))
    return Row("range", "line", tuple(figures), one.position, None if one.hard is None else Range(one.hard, likely))


def _supplied_word(one: IngredientBounds, edits: Sequence[Edit]) -> str:
    said = next((edit.value for edit in reversed(edits) if edit.field == "means" and edit.target == one.line), None)
    if said in MEANS_WORDS:
        return f"amount means {MEANS_WORDS[said or '']}"
    return f"{digits(one.supplied_as.low)}-{digits(one.supplied_as.high)} % of it may be active"


def _stated(read: ReadAnswer | None, line: str) -> tuple[int, str] | None:
    for i, one in enumerate(read.lines if read is not None else ()):
        if one.id == line and one.stated is not None:
            return i, amount_word(one.stated)
    return None


def _note_rows(now: BoundsAnswer) -> list[Row]:
    return [
        _text("note", f"amount-note/{i}", note, "a remark on the amounts", f"/notes/{i}")
        for i, note in enumerate(now.notes)
        if now.why[f"/notes/{i}"] != now.rule.why  # the rule stands on top
    ]


def _text(field: str, key: str, text: str, title: str, pointer: str) -> Row:
    return Row("text", "", (Figure(f"{key}/text", field, text, title, "bounds", pointer, sentence=text),))
