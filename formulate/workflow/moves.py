"""What changed between two states: figures whose shown digit, word or rank moved."""

from __future__ import annotations

from collections.abc import Iterator

from formulate.domain.model import Model
from formulate.workflow.answers import BriefAnswer, RolesAnswer


class Moved(Model):
    """One figure that moved: its pointer in the new answer, what it is about, what it was and is now."""

    pointer: str
    what: str
    was: str
    now: str


def moves(before: tuple[RolesAnswer, BriefAnswer], after: tuple[RolesAnswer, BriefAnswer]) -> tuple[Moved, ...]:
    """Figures that moved. Lines are compared by id, so that lines inserted above move nothing."""
    return tuple(_role_moves(before[0], after[0])) + tuple(_brief_moves(before[1], after[1]))


def _role_moves(before: RolesAnswer, after: RolesAnswer) -> Iterator[Moved]:
    old = {row.line: row for row in before.ingredients}
    new = {row.line: row for row in after.ingredients}
    for i, row in enumerate(after.ingredients):
        base, name = f"/ingredients/{i}", f"line {row.position}"
        was = old.get(row.line)
        if was is None:
            yield Moved(pointer=base, what=name, was="-", now=row.name)
            continue
        pairs = (
            ("/ingredient", "is", was.ingredient or "unknown", row.ingredient or "unknown"),
            ("/class", "class", was.class_, row.class_),
            ("/fate", "stays or leaves", was.fate or "not known", row.fate or "not known"),
            (
                "/roles/0",
                "purpose",
                f"{was.roles[0].role} {was.roles[0].probability:.2f}",
                f"{row.roles[0].role} {row.roles[0].probability:.2f}",
            ),
        )
        for pointer, what, then, now in pairs:
            if then != now:
                yield Moved(pointer=base + pointer, what=f"{name} {what}", was=then, now=now)
    for key, gone in old.items():
        if key not in new:
            yield Moved(pointer="/ingredients", what=f"line {gone.position}", was=gone.name, now="-")
    said = {one.says for one in before.conflicts}
    for i, conflict in enumerate(after.conflicts):
        if conflict.says not in said:
            yield Moved(pointer=f"/conflicts/{i}", what="conflict", was="-", now=conflict.says)
    still = {one.says for one in after.conflicts}
    for gone_conflict in before.conflicts:
        if gone_conflict.says not in still:
            yield Moved(pointer="/conflicts", what="conflict", was=gone_conflict.says, now="-")


def _brief_moves(before: BriefAnswer, after: BriefAnswer) -> Iterator[Moved]:
    then, now = _promised(before), _promised(after)
    if then != now:
        yield Moved(pointer="/headline", what="what the front promises", was=then, now=now)
    for field, what in (("carrier", "carrier"), ("stays", "stays"), ("evaporates", "leaves")):
        then, now = ", ".join(getattr(before, field)) or "-", ", ".join(getattr(after, field)) or "-"
        if then != now:
            yield Moved(pointer=f"/{field}", what=what, was=then, now=now)
    then = before.caution.text if before.caution else "-"
    now = after.caution.text if after.caution else "-"
    if then != now:
        yield Moved(pointer="/caution", what="first caution", was=then, now=now)


def _promised(brief: BriefAnswer) -> str:
    if brief.headline is None:
        return "-"
    return {True: "in the list", False: "not in the list", None: "cannot be said"}[brief.headline.in_list]
