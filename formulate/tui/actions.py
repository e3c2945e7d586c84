"""The registry of actions: key line, help and the 'find or do' list all read it."""

from __future__ import annotations

from typing import NamedTuple


class Action(NamedTuple):
    """Something a person can do: the key (several with commas; the first is shown), what the key line says, and the
    help. ``line`` says whether the key line shows it; ``found`` whether 'find or do' lists it."""

    id: str
    key: str
    label: str
    help: str
    line: bool = False
    found: bool = True


ACTIONS: tuple[Action, ...] = (
    Action("up", "up", "figure above", "go to the same column of the line above", found=False),
    Action("down", "down", "figure below", "go to the same column of the line below", found=False),
    Action("left", "left", "figure before", "go to the figure before this one", found=False),
    Action("right", "right", "next figure", "go to the next figure of the line", found=False),
    Action("first", "home", "first figure", "go to the top of the sheet"),
    Action("last", "end", "last figure", "go to the end of the sheet: notes and what was not used"),
    Action("page_up", "pageup", "a screen up", "go up by as many lines as the screen shows", found=False),
    Action("page_down", "pagedown", "a screen down", "go down by as many lines as the screen shows", found=False),
    Action("enter", "enter", "why", "climb one step down, towards the source of the figure", line=True, found=False),
    Action("up_step", "backspace", "up", "climb one step up again", found=False),
    Action(
        "correct",
        "c",
        "correct",
        "correct this figure, or the step where the mistake is; the band below says before Enter what would change",
        line=True,
    ),
    Action("who", "w", "who says", "the sources behind this figure: title, place in it, copy read", line=True),
    Action("front", "f", "front", "type what the front of the bottle claims", line=True),
    Action("manner", "m", "put on", "say how it is put on: spray, aerosol, trigger, wipe, pour, paste or dip"),
    Action("note", "n", "note", "keep a note with the case"),
    Action("copy", "y", "copy", "copy the sentence of this figure"),
    Action("undo", "u", "take back", "take the last correction back"),
    Action("redo", "U", "make again", "make the correction again that was taken back"),
    Action("history", "h", "edits", "all corrections and notes so far, and what the last one changed"),
    Action(
        "find",
        "slash",
        "do",
        "find an ingredient or a figure, or do something, by typing a part of its name",
        line=True,
        found=False,
    ),
    Action("help", "question_mark", "help", "what this figure is, and all keys", line=True),
    Action("list", "l", "another list", "type another list; a paste is read wherever you stand"),
    Action("colours", "k", "colours", "dark, light, or the sixteen colours of the terminal, in turn"),
    Action("station_list", "1", "list", "go to the list (station 1)"),
    Action(
        "station_amounts", "2", "amounts", "go to the amounts (station 2); press it again to draw again what . stopped"
    ),
    Action("stop", "full_stop", "stop", "stop what is being worked out; what stands on the screen stays"),
    Action("leave", "q", "leave", "leave; what you have is kept", line=True),
)

SHOWN_KEYS: dict[str, str] = {
    "slash": "/",
    "question_mark": "?",
    "full_stop": ".",
    "enter": "Enter",
    "backspace": "Backspace",
    "up": "up",
    "pageup": "PageUp",
    "pagedown": "PageDown",
    "home": "Home",
    "end": "End",
}


def shown_key(action: Action) -> str:
    """The key as a person reads it."""
    first = action.key.split(",")[0]
    return SHOWN_KEYS.get(first, first)


def action_of(name: str) -> Action:
    """An action by id. Raises KeyError."""
    return {one.id: one for one in ACTIONS}[name]


def key_line(step: bool = False) -> str:
    """What the last row of the screen says: the keys one needs here. ``step``: one stands below the sheet."""
    shown = "  ".join(
        f"{shown_key(one)} {one.label}" for one in ACTIONS if one.line and not (step and one.id == "front")
    )
    return f"{'Backspace up' if step else 'arrows walk'}  {shown}"
