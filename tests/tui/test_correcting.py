"""Correcting where the mistake is: preview before Enter, a reason that need not be given, back and forth."""

from __future__ import annotations

from textual import events


async def to_identity(on, position):
    desk = on.app.desk
    line = next(row for row in desk.answers.roles.ingredients if row.position == position)
    desk.stand_on(f"{line.line}/identity")
    on.app.draw()
    return line.line


def name_of(on, position):
    return next(row.name for row in on.app.desk.answers.roles.ingredients if row.position == position)


async def test_a_preview_stands_before_enter_and_changes_nothing(bench):
    async with bench() as on:
        await to_identity(on, 8)
        before = on.app.session.case
        await on.press("c")
        await on.type("dimethicone")
        assert "found" in on.band("body")
        assert "would change" in on.band("changed")
        assert "line 8 is unknown ->" in on.band("changed")
        assert on.app.session.case is before
        await on.press("escape")
        assert on.app.session.case is before
        assert "changed: nothing" in on.band("changed")


async def test_a_correction_is_kept_marked_and_taken_back(bench):
    async with bench() as on:
        await to_identity(on, 8)
        await on.press("c")
        await on.type("dimethicone")
        await on.press("enter")
        assert "why do you think so" in on.screen()
        await on.type("maker says")
        await on.press("enter")
        edit = on.app.session.case.edits[0]
        assert (edit.field, edit.note, edit.when[:16]) == ("ingredient", "maker says", "2026-11-25T13:02")
        assert on.app.desk.figure.corrected
        assert "*" in next(row for row in on.screen().splitlines() if "Vel-Tarn" in row)
        assert "changed:" in on.band("changed")
        await on.press("u")
        assert not on.app.session.case.standing()
        assert name_of(on, 8) == "Vel-Tarn 40"
        await on.press("U")
        assert len(on.app.session.case.standing()) == 1
        assert "*" in next(row for row in on.screen().splitlines() if "Vel-Tarn" in row)


async def test_the_reason_need_not_be_given(bench):
    async with bench() as on:
        await to_identity(on, 8)
        await on.press("c")
        await on.type("glycerin")
        await on.press("enter", "escape")
        assert len(on.app.session.case.edits) == 1
        assert on.app.session.case.edits[0].note == ""


async def test_any_name_can_be_typed(bench):
    async with bench() as on:
        await to_identity(on, 8)
        await on.press("c")
        await on.type("nobody knows this")
        await on.press("enter", "enter")
        assert on.app.session.case.edits[0].field == "name"


async def test_a_line_can_be_left_out(bench):
    async with bench() as on:
        await to_identity(on, 8)
        await on.press("c", "minus", "enter", "enter")
        assert len(on.app.desk.answers.roles.ingredients) == 8
        await on.press("u")
        assert len(on.app.desk.answers.roles.ingredients) == 9


async def test_a_purpose_is_corrected_on_the_purpose(bench):
    async with bench() as on:
        await on.press("down", "c")
        await on.type("sets p")
        await on.press("enter", "enter")
        edit = on.app.session.case.edits[0]
        assert (edit.field, edit.value) == ("role", "ph-adjuster")
        assert on.app.desk.figure.text == "sets pH"
        assert on.app.desk.figure.corrected


async def test_a_purpose_nobody_knows_is_refused_and_the_line_stays(bench):
    async with bench() as on:
        await on.press("c")
        await on.type("sparkle")
        await on.press("enter")
        assert on.app.asking is not None
        assert "none of the answers known here" in on.band("body")


async def test_a_step_corrects_the_line_it_speaks_of(bench):
    async with bench() as on:
        await on.press("end")
        desk = on.app.desk
        sentence = next(one for one in desk.sheet.figures if one.field == "sentence" and "carr" in one.text)
        desk.stand_on(sentence.key)
        await on.press("enter", "c")
        assert on.app.asking is not None
        assert on.app.asking.ask.label.startswith("line 1 is")


async def test_the_claim_is_typed_in_the_ground_and_shown_above(bench):
    async with bench("Aqua, Amodimethicone, Trideceth-6") as on:
        assert "press f" in on.band("answer").casefold()
        await on.press("f")
        await on.type("ceramic shield")
        await on.press("enter")
        assert '"ceramic shield"' in on.band("answer")
        assert "NOT IN THE LIST" in on.band("answer")
        assert on.app.session.case.edits[0].target == "/product/claim"


async def test_how_it_is_put_on_is_said_and_moves_things(bench):
    async with bench("Aqua, Amodimethicone, Trideceth-6") as on:
        await on.press("m")
        await on.type("spray")
        await on.press("enter")
        assert on.app.desk.answers.roles.product.form == "spray"
        assert on.app.session.case.edits[0].target == "/product/form"


async def test_undo_without_a_correction_says_so(bench):
    async with bench() as on:
        await on.press("u")
        assert "nothing to take back" in on.band("body")


async def test_all_edits_are_listed(bench):
    async with bench() as on:
        await on.press("down", "c")
        await on.type("carrier")
        await on.press("enter", "enter", "n")
        await on.type("ask the maker")
        await on.press("enter", "u", "h")
        said = " ".join(step.says for step in on.app.desk.page.top.children)
        assert "taken back: line 2 is there as carrier" in said
        assert "note: ask the maker" in said


async def test_quick_undo_and_redo_end_where_they_should(bench):
    async with bench() as on:
        await on.press("down", "c")
        await on.type("carrier")
        await on.press("enter", "enter")
        for key in "uUuUuU":
            await on.pilot.press(key)
        await on.settle()
        assert on.app.desk.shown is on.app.session.case
        assert on.app.desk.figure.corrected


async def test_a_long_paste_into_the_line_that_asks_is_a_list(bench):
    async with bench() as on:
        await on.press("c")
        await on.paste("Aqua, Dimethicone\n" * 40)
        assert on.app.asking is None
        assert on.app.desk.answers.roles.ingredients[0].raw == "Aqua"


async def test_a_short_paste_into_the_line_that_asks_is_typed(bench):
    async with bench() as on:
        await to_identity(on, 8)
        await on.press("c")
        await on.paste("glycerin")
        assert on.app.asking.text == "glycerin"


async def test_what_is_typed_ahead_goes_to_the_question_not_to_the_sheet(bench):
    async with bench() as on:
        await to_identity(on, 8)
        stood = on.app.desk.stand
        for key in ("c", *"glycerin", "enter", "enter"):
            on.app.post_message(events.Key(key, key if len(key) == 1 else None))
        await on.settle()
        edit = on.app.session.case.edits[0]
        assert (edit.field, edit.value, edit.note) == ("ingredient", "glycerin", "")
        assert on.app.desk.stand == stood
        assert on.app.asking is None
