"""From answers to the sheet of station 1: lines by what becomes of them, then what is said of the whole."""

from __future__ import annotations

from collections.abc import Sequence

from formulate.domain.edit import Edit
from formulate.domain.interval import certainty_word
from formulate.domain.line import Reading
from formulate.tui import words
from formulate.tui.figures import AnswerName, Figure, Row, Sheet
from formulate.workflow.answers import IngredientRoles, ReadLine
from formulate.workflow.gate import cut
from formulate.workflow.session import Answers


def read_sheet(reading: Reading) -> Sheet:
    """The sheet while only the lines are cut: as printed, nothing known yet."""
    return Sheet(
        [
            Row("line", "being read", (_Line.raw_only(line.id, line.position, line.raw, i),), line.position)
            for i, line in enumerate(reading.lines)
        ]
    )


def build_sheet(answers: Answers, edits: Sequence[Edit], wide: bool) -> Sheet:
    """The sheet of one state. ``wide``: the class has a column of its own and is walked to after the identity."""
    corrected: set[tuple[str, str]] = {(edit.target, edit.field) for edit in edits}
    rows = [answer_row(answers, edits)]
    read = {line.id: (i, line) for i, line in enumerate(answers.read.lines)}
    grouped: dict[str, list[Row]] = {group: [] for group in words.GROUPS}
    for i, one in enumerate(answers.roles.ingredients):
        at, line = read.get(one.line, (i, None))
        group = words.group_of(one)
        grouped[group].append(Row("line", group, _Line(one, i, line, at, corrected).figures(wide), one.position))
    for group in words.GROUPS:
        rows.extend(grouped[group])
    return Sheet(
        [
            *rows,
            *_conflict_rows(answers),
            *_brief_rows(answers),
            *_caution_rows(answers),
            _product_row(answers, corrected),
            *_other_rows(answers),
        ]
    )


class _Line:
    """The figures of one line of the list."""

    def __init__(
        self, row: IngredientRoles, index: int, line: ReadLine | None, at: int, corrected: set[tuple[str, str]]
    ) -> None:
        self.row, self.line, self.at = row, line, at
        self.base = f"/ingredients/{index}"
        self.edited = corrected

    @staticmethod
    def raw_only(line: str, position: int, raw: str, index: int) -> Figure:
        """The line as printed, before anything is known of it."""
        return Figure(
            f"{line}/raw",
            "raw",
            raw,
            f"line {position}, as printed",
            "roles",
            f"/ingredients/{index}/raw",
            line,
            position,
        )

    def _figure(
        self,
        field: str,
        text: str,
        title: str,
        pointer: str,
        key: str = "",
        edits: tuple[str, ...] = (),
        sentence: str = "",
    ) -> Figure:
        edited = any((self.row.line, one) in self.edited for one in edits)
        return Figure(
            f"{self.row.line}/{key or field}",
            field,
            text,
            f"line {self.row.position}, {title}",
            "roles",
            self.base + pointer,
            self.row.line,
            self.row.position,
            edited,
            sentence,
        )

    def figures(self, wide: bool) -> tuple[Figure, ...]:
        """All figures in the order in which one walks them."""
        row, top = self.row, self.row.roles[0]
        purpose, is_ = words.role_word(top.role), words.identity_word(row, self.line)
        fate = words.FATE_WORDS.get(row.fate or "", "not known")
        kind = words.class_word(row)
        name = row.name if row.ingredient else row.raw
        class_ = self._figure("class", kind, f"class {kind}", "/class", sentence=f"{name}: class {kind}.")
        said = f"{name}, main purpose here: {purpose}, {words.sure_word(row)} ({top.probability:.2f})."
        figures = [
            self._figure("fate", fate, fate, "/fate", sentence=f"{name}: {fate}."),
            self._figure("raw", row.raw, "as printed", "/raw", sentence=f"Line {row.position} reads: {row.raw}"),
            self._figure(
                "identity",
                is_,
                is_,
                "/ingredient",
                edits=("ingredient", "name"),
                sentence=f"Line {row.position} is {is_}.",
            ),
            *((class_,) if wide else ()),
            self._figure(
                "purpose", purpose, f"{purpose} {top.probability:.2f}", "/roles/0", edits=("role",), sentence=said
            ),
            self._figure(
                "certainty",
                words.sure_word(row),
                f"{words.sure_word(row)} {top.probability:.2f}",
                "/roles/0",
                sentence=said,
            ),
            *(() if wide else (class_,)),
        ]
        for j, one in enumerate(row.also):
            word = f"{words.role_word(one.role)} {certainty_word(one.probability)}"
            figures.append(
                self._figure(
                    "also",
                    word,
                    f"also {words.role_word(one.role)} {one.probability:.2f}",
                    f"/also/{j}",
                    f"also{j}",
                    sentence=f"{name} may also be there as {words.role_word(one.role)}: {one.probability:.2f}.",
                )
            )
        if self.line is not None and self.line.stated is not None:
            amount = words.amount_word(self.line.stated)
            figures.append(
                self._figure("amount", amount, f"printed {amount}", "")._replace(
                    answer="read", pointer=f"/lines/{self.at}/stated"
                )
            )
        return tuple(figures)


def answer_row(answers: Answers, edits: Sequence[Edit]) -> Row:
    """The figures of the answer band: the claim, and whether the list holds what it promises."""
    corrected = {(edit.target, edit.field) for edit in edits}
    product, headline = answers.roles.product, answers.brief.headline
    figures = []
    if product.claim is not None:
        figures.append(
            Figure(
                "/product/claim",
                "claim",
                f'"{product.claim}"',
                "the claim",
                "roles",
                "/product/claim",
                corrected=("/product/claim", "claim") in corrected,
            )
        )
    if headline is not None:
        stands = {True: "IN THE LIST", False: "NOT IN THE LIST", None: "CANNOT BE SAID"}[headline.in_list]
        figures.append(
            Figure(
                "/headline",
                "headline",
                f"{stands}: {words.first_sentence(headline.says)}",
                "the headline of the front",
                "brief",
                "/headline",
                sentence=headline.says,
            )
        )
    return Row("answer", "", tuple(figures))


def _conflict_rows(answers: Answers) -> list[Row]:
    rows = []
    for i, one in enumerate(answers.roles.conflicts):
        between = " and ".join(map(str, one.between))
        rows.append(
            _text(
                "conflict",
                "conflict",
                f"conflict/{one.conflict}/{between}",
                f"{one.severity}: {one.says}",
                f"conflict of lines {between}",
                "roles",
                f"/conflicts/{i}",
            )
        )
    return rows


def _caution_rows(answers: Answers) -> list[Row]:
    rows = []
    for i, caution in enumerate(answers.roles.cautions):
        rows.append(
            _text(
                "caution",
                "caution",
                f"caution/{caution.caution}",
                f"{caution.severity}: {caution.says}",
                "caution",
                "roles",
                f"/cautions/{i}",
            )
        )
    return rows


def _brief_rows(answers: Answers) -> list[Row]:
    said = {one.says for one in answers.roles.conflicts}
    caution = answers.brief.caution.text if answers.brief.caution is not None and answers.roles.cautions else None
    return [
        _text(
            "sentence", "in short", f"sentence/{i}", one.text, f"in short, sentence {i + 1}", "brief", f"/sentences/{i}"
        )
        for i, one in enumerate(answers.brief.sentences)
        if one.text not in said and one.text != caution
    ]


def _product_row(answers: Answers, corrected: set[tuple[str, str]]) -> Row:
    product = answers.roles.product
    said = {
        "assumed": "not said; press m to say it",
        "given": f"{product.form}, as you said",
        "read": f"{product.form}, by the text",
    }.get(product.form_origin, product.form)
    return Row(
        "text",
        "put on",
        (
            Figure(
                "/product/form",
                "form",
                said,
                "how it is put on",
                "roles",
                "/product/form",
                corrected=("/product/form", "application") in corrected,
            ),
        ),
    )


def _other_rows(answers: Answers) -> list[Row]:
    rows = [
        _text(
            "fact",
            "printed",
            f"fact/{name}",
            f"{name.replace('_', ' ')}: {fact.printed()}",
            "printed beside the list",
            "read",
            f"/facts/{name}",
        )
        for name, fact in answers.read.facts.items()
    ]
    rows += [
        _text(
            "code",
            "printed",
            f"code/{i}",
            f"{code.code}, printed for the {code.of} as a whole",
            "hazard code",
            "read",
            f"/hazard_codes/{i}",
        )
        for i, code in enumerate(answers.read.hazard_codes)
    ]
    rows += [
        _text(
            "left",
            "not used",
            f"left/{i}",
            f'"{cut(left.text, 160)}" ({left.why})',
            "not used",
            "read",
            f"/left_over/{i}",
        )
        for i, left in enumerate(answers.read.left_over)
    ]
    return rows + [
        _text("note", "remark", f"note/{i}", note, "a remark on the whole", "roles", f"/notes/{i}")
        for i, note in enumerate(answers.roles.notes)
    ]


def _text(field: str, group: str, key: str, text: str, title: str, answer: AnswerName, pointer: str) -> Row:
    return Row("text", group, (Figure(f"{key}/text", field, text, title, answer, pointer, sentence=text),))
