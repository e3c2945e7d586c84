"""The ground under the screen: because, what changed. Says unasked why the figure one stands on is so."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from formulate.errors import FormulateError
from formulate.tui.paint import Painted, Piece, rule, wrap
from formulate.tui.signs import DOT
from formulate.tui.steps import Step
from formulate.tui.words import role_word
from formulate.workflow.gate import padded
from formulate.workflow.moves import Moved

ORDER = {"-": 1, "?": 2}


def because_rows(step: Step, width: int, rows: int, rival: str = "") -> list[Painted]:
    """Reasons of a step: + for, - against, ? assumed or open, each with where it comes from.

    Reasons that do not fit are counted; a step without reasons below it says itself.
    """
    reasons = [child for child in step.children if child.kind != "card"] or list(step.children) or [step]
    reasons = sorted(reasons, key=lambda one: ORDER.get(one.sign, 0))
    if rival:
        reasons.insert(min(len(reasons), max(rows - 1, 1)), Step(rival, "the runner-up", "-"))
    shown = reasons[:rows] if len(reasons) <= rows else reasons[: rows - 1]
    origin = 30 if width < 100 else 44
    room = width - origin - 5
    heights = _heights([len(wrap(one.says, room)) for one in shown], rows - (len(reasons) > len(shown)))
    out: list[Painted] = []
    for one, height in zip(shown, heights, strict=True):
        said = wrap(one.says, room, height)
        for i, text in enumerate(said):
            out.append(
                (
                    Piece(f" {one.sign if i == 0 else ' ':1} ", "strong"),
                    Piece(padded(text, room)),
                    Piece("  " + (wrap(one.origin, origin - 1, 1)[0] if i == 0 else ""), "muted"),
                )
            )
    if len(reasons) > len(shown):
        out.append((Piece(f"   and {len(reasons) - len(shown)} more; Enter shows all", "muted"),))
    return out


def _heights(wanted: Sequence[int], rows: int) -> list[int]:
    """Rows for each reason: one each, what is left goes to the first that need more."""
    heights = [1] * len(wanted)
    spare = rows - len(heights)
    for i, want in enumerate(wanted):
        more = min(want - 1, max(spare, 0))
        heights[i] += more
        spare -= more
    return heights


def moved_words(moved: Sequence[Moved], name_of: Callable[[str], str]) -> list[str]:
    """What changed, figure by figure, in the words of the screen; ``name_of`` gives the name of an ingredient's id."""
    return [f"{one.what} {_worded(one, one.was, name_of)} -> {_worded(one, one.now, name_of)}" for one in moved]


def _worded(one: Moved, value: str, name_of: Callable[[str], str]) -> str:
    if one.pointer.endswith("/ingredient"):
        return name_of(value)
    if not one.pointer.endswith("/roles/0"):
        return value
    role, _, probability = value.rpartition(" ")
    return f"{role_word(role)} {probability}" if role else value


def changed_head(moved: Sequence[Moved] | None, preview: bool, width: int) -> Painted:
    """The title of the changed band."""
    if moved is None:
        left = "would change: being worked out"
    else:
        count = "nothing" if not moved else "1 figure" if len(moved) == 1 else f"{len(moved)} figures"
        left = f"{'would change' if preview else 'changed'}: {count}"
    return rule(width, left, "" if preview else "u takes it back")


def changed_rows(moved: Sequence[Moved], name_of: Callable[[str], str], width: int, rows: int) -> list[Painted]:
    """What changed, run together over at most so many rows."""
    if not moved or not rows:
        return []
    said = f" {DOT} ".join(moved_words(moved, name_of))
    return [(Piece(f" {text}"),) for text in wrap(said, width - 2, rows)]


def error_rows(error: FormulateError, width: int, rows: int) -> list[Painted]:
    """An error in its four parts, each on rows of its own."""
    parts = (
        error.what,
        f"Where: {error.at}",
        f"Why it matters: {error.why}",
        f"What to do: {error.try_}   ({error.reference})",
    )
    heights = _heights([len(wrap(part, width - 2)) for part in parts], max(rows, len(parts)))
    out: list[Painted] = []
    for i, (part, height) in enumerate(zip(parts, heights, strict=True)):
        out += [(Piece(f" {text}", "warn" if i == 0 else ""),) for text in wrap(part, width - 2, height)]
    return out


def said_rows(sentences: Sequence[str], width: int, rows: int) -> list[Painted]:
    """Plain sentences."""
    out: list[Painted] = []
    for text in sentences:
        out += [(Piece(f" {row}"),) for row in wrap(text, width - 2)]
    return out[:rows]
