"""The same work without a screen: asks, answers line by line, and can be read aloud or driven by a pipe."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from datetime import datetime
from pathlib import Path

from formulate.cli import render
from formulate.cli.diagnostics import Exit, fail, say
from formulate.cli.output import put
from formulate.cli.render_bounds import bounds_lines
from formulate.domain.edit import Field_
from formulate.domain.vocabulary import FORMS, ROLES, RULES
from formulate.errors import FormulateError, UsageError
from formulate.intake import text_of_bytes
from formulate.workflow import api
from formulate.workflow.amount_edits import SUPPOSE, check_edit, line_told, measured_edit, said_measured
from formulate.workflow.gate import cut, shown
from formulate.workflow.moves import Moved
from formulate.workflow.session import Session

END = "."
NOT_KNOWN = "?"
ONLY_LIKELY = "Nothing that is certain moved; amounts prints where the likely ranges are now."
MOST_SHOWN = 60
HELP = (
    "N or a name          why: the reasons behind a line",
    "is N NAME            correct what line N is",
    "amount N 5 %         correct how much of it there is",
    "role N ROLE          correct what it does",
    "drop N               line N is no ingredient",
    "claim TEXT           what the front of the bottle says",
    "form WORD            how it is put on: " + ", ".join(FORMS),
    "amounts              how much of each there can be: asks for the rule and what was measured, then prints",
    "rule WORD            the rule is: " + ", ".join(RULES),
    "measured NAME=VALUE  what was measured: nonvolatile=2.3+-0.2 %; ? takes it back",
    "line N               the 1 % line falls after line N; ? if that is open",
    "means N WORD         the amount of line N means: active, as-supplied; ? not known",
    "suppose NAME=VALUE   what if: silica=2 %; ? takes it back",
    "roles, brief, read   print these again",
    "undo, redo           take the last correction back, or make it again",
    "paste                another list",
    "keep FILE            keep the case (a name that ends with .case.json)",
    "quit",
)
CORRECTIONS: dict[str, Field_] = {
    "is": "ingredient",
    "amount": "amount",
    "role": "role",
    "drop": "drop",
    "means": "means",
}
AMOUNT_WORDS = ("rule", "measured", "suppose", "line")


def plain(path: str | None = None) -> int:
    """Ask and answer until the input ends; ``path`` is a case kept earlier. A mistake is told and loses nothing."""
    options: dict[str, str | None] = {"date": datetime.now().astimezone().date().isoformat()}
    try:
        session = Session.open(Path(path), options) if path else Session(options)
        if path is None:
            _paste(session)
        put([*_roles(session), "", *_brief(session)])
        for line in _asked("What next? (help lists what can be asked) "):
            if line in {"quit", "q", "exit"}:
                break
            try:
                put(_answer(session, line))
            except FormulateError as error:
                say(str(error))
    except FormulateError as error:
        return fail(error, as_json=False)
    except KeyboardInterrupt:
        say("Stopped.")
        return Exit.INTERRUPTED
    return Exit.ANSWERED


def _asked(prompt: str) -> Iterator[str]:
    """Lines typed in answer to a prompt, until the input ends."""
    while (text := _line(prompt)) is not None:
        if text:
            yield text


def _line(prompt: str) -> str | None:
    """One line typed in answer to a prompt, which goes to standard error; None at the end of the input."""
    sys.stderr.write(prompt)
    sys.stderr.flush()
    line = sys.stdin.buffer.readline() if sys.stdin is not None else b""
    return line.decode("utf-8", "replace").strip() if line else None


def _paste(session: Session) -> None:
    say(f"Paste the list, then a line that holds only a full stop ({END}).")
    lines: list[bytes] = []
    while sys.stdin is not None and (line := sys.stdin.buffer.readline()) and line.strip() != END.encode():
        lines.append(line)
    session.paste(text_of_bytes(b"".join(lines), "what was pasted"))


def _roles(session: Session) -> Iterator[str]:
    return render.roles_lines(session.answers().roles)


def _brief(session: Session) -> Iterator[str]:
    return render.brief_lines(session.answers().brief)


def _read(session: Session) -> Iterator[str]:
    return render.read_lines(session.answers().read)


PRINTED: dict[str, Callable[[Session], Iterator[str]]] = {"roles": _roles, "brief": _brief, "read": _read}


def _answer(session: Session, line: str) -> Iterator[str]:
    """What one line typed is answered with. Raises FormulateError."""
    word, _, rest = line.partition(" ")
    if word in PRINTED and not rest:
        yield from PRINTED[word](session)
    elif line in {"help", "?"}:
        yield from HELP
    elif line == "paste":
        _paste(session)
        yield from _roles(session)
    elif line in {"undo", "redo"}:
        yield from _moved(session.undo() if line == "undo" else session.redo())
    elif line == "amounts":
        yield from _amounts(session)
    elif word in AMOUNT_WORDS and rest:
        yield from _said(session, word, rest.strip())
    elif word == "keep" and rest:
        yield f"kept: {session.save(Path(rest.strip()))}"
    elif word in {"claim", "form"} and rest:
        yield from _told(session, word, rest.strip())
    elif word in CORRECTIONS and rest.split(" ")[0].isdecimal():
        yield from _corrected(session, word, rest)
    else:
        yield from render.why_lines(api.why(session.answers().roles, line))


def _amounts(session: Session) -> Iterator[str]:
    """Station 2: the rule, what was measured, then the ranges. An empty line leaves things as they are."""
    edits = session.case.standing()
    rule = session.bounded(session.case).rule
    known = ", ".join(name for name, _, _ in session.rules())
    _question(session, "rule", f"the rule is? ({known}; now: {rule.title}) ")
    _question(session, "measured", f"measured anything? (now: {', '.join(said_measured(edits)) or 'nothing'}) ")
    yield from bounds_lines(session.drawn(session.case))


def _question(session: Session, word: str, prompt: str) -> None:
    """Ask until the answer can be read, or is empty, or the input ends."""
    while True:
        text = _line(prompt)
        if not text:
            return
        try:
            put(_said(session, word, text))
            return
        except FormulateError as error:
            say(str(error))


def _said(session: Session, word: str, text: str) -> Iterator[str]:
    """Something said of the amounts. Raises UsageError for what cannot be read."""
    target, field, value = _amount_edit(session, word, text)
    error = session.refusal(target, field, value)
    if error is not None:
        raise error
    moved = session.correct(target, field, value, when=_now())
    yield from _moved(moved) if moved or word != "measured" else [ONLY_LIKELY]


def _amount_edit(session: Session, word: str, text: str) -> tuple[str, Field_, str | None]:
    if word == "measured":
        target, value = measured_edit(text)
        return target, "measured", value
    given = None if text == NOT_KNOWN else text
    if word == "rule":
        return "/rule", "rule", given
    if word == "suppose":
        return SUPPOSE, "assumption", given
    rows = session.answers().read.lines
    told = line_told(session.case.standing())
    row = next((one for one in rows if str(one.position) == text or (given is None and one.id == told)), None)
    if row is None:
        raise _no(text, "line", [str(one.position) for one in rows])
    return row.id, "one-percent-line", "yes" if given else None


def _told(session: Session, word: str, value: str) -> Iterator[str]:
    if word == "form" and value not in FORMS:
        raise _no(value, "way to put it on", FORMS)
    field: Field_ = "application" if word == "form" else "claim"
    yield from _moved(session.correct(f"/product/{word}", field, value, when=_now()))


def _corrected(session: Session, word: str, rest: str) -> Iterator[str]:
    number, _, value = rest.partition(" ")
    value = value.strip().lstrip("=").strip()
    rows = session.answers().read.lines
    row = next((one for one in rows if one.position == int(number)), None)
    if row is None:
        raise _no(number, "line", [str(one.position) for one in rows])
    if word == "drop":
        value = "yes"
    elif word == "is":
        value = _meant(session, value)
    elif word == "role" and value not in ROLES:
        raise _no(value, "role", sorted(ROLES))
    elif word == "means":
        check_edit("means", None if value == NOT_KNOWN else value)
    before = session.case
    moved = session.correct(
        row.id, CORRECTIONS[word], None if word == "means" and value == NOT_KNOWN else value, when=_now()
    )
    if word == "amount" and session.answers().read.lines[rows.index(row)].stated == row.stated:
        session.case = before
        raise _no(value, "amount", ["5 %", "1 - 5 %", "< 2 %"])
    yield from _moved(moved)


def _meant(session: Session, name: str) -> str:
    """The one ingredient that a name typed means: its id, its name, or the only one that has the words."""
    found = session.suggest(name)
    if not found:
        raise _no(name, "ingredient of the dataset", ["a name, or a part of one, that the dataset holds"])
    exact = [key for key, known in found if name.casefold() in {key, known.casefold()}]
    if len(found) > 1 and not exact:
        raise _no(name, "single ingredient", [f"{key} ({known})" for key, known in found])
    return exact[0] if exact else found[0][0]


def _moved(moved: Sequence[Moved]) -> Iterator[str]:
    for one in moved:
        yield f"{shown(one.what)}: {cut(one.was, MOST_SHOWN)} -> {cut(one.now, MOST_SHOWN)}"
    if not moved:
        yield "Nothing that is shown moved."


def _no(value: str, kind: str, known: Sequence[str]) -> UsageError:
    return UsageError(
        f'"{value[:60]}" is no {kind}.',
        "what you typed",
        "nothing was changed",
        f"take one of: {', '.join(known[:40])}",
    )


def _now() -> str:
    return datetime.now().astimezone().isoformat(timespec="seconds")
