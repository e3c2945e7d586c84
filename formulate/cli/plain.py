"""The same work without a screen: asks, answers line by line, and can be read aloud or driven by a pipe."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Sequence
from datetime import datetime
from pathlib import Path

from formulate.cli import render
from formulate.cli.diagnostics import Exit, fail, say
from formulate.cli.output import put
from formulate.domain.edit import Field_
from formulate.domain.vocabulary import FORMS, ROLES
from formulate.errors import FormulateError, UsageError
from formulate.intake import text_of_bytes
from formulate.workflow import api
from formulate.workflow.gate import cut, shown
from formulate.workflow.moves import Moved
from formulate.workflow.session import Session

END = "."
MOST_SHOWN = 60
HELP = (
    "N or a name          why: the reasons behind a line",
    "is N NAME            correct what line N is",
    "amount N 5 %         correct how much of it there is",
    "role N ROLE          correct what it does",
    "drop N               line N is no ingredient",
    "claim TEXT           what the front of the bottle says",
    "form WORD            how it is put on: " + ", ".join(FORMS),
    "roles, brief, read   print these again",
    "undo, redo           take the last correction back, or make it again",
    "paste                another list",
    "keep FILE            keep the case (a name that ends with .case.json)",
    "quit",
)
CORRECTIONS: dict[str, Field_] = {"is": "ingredient", "amount": "amount", "role": "role", "drop": "drop"}


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
    """Lines typed in answer to a prompt, until the input ends; the prompt goes to standard error."""
    while True:
        sys.stderr.write(prompt)
        sys.stderr.flush()
        line = sys.stdin.buffer.readline() if sys.stdin is not None else b""
        if not line:
            return
        text = line.decode("utf-8", "replace").strip()
        if text:
            yield text


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
    elif word == "keep" and rest:
        yield f"kept: {session.save(Path(rest.strip()))}"
    elif word in {"claim", "form"} and rest:
        yield from _told(session, word, rest.strip())
    elif word in CORRECTIONS and rest.split(" ")[0].isdecimal():
        yield from _corrected(session, word, rest)
    else:
        yield from render.why_lines(api.why(session.answers().roles, line))


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
    before = session.case
    moved = session.correct(row.id, CORRECTIONS[word], value, when=_now())
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
