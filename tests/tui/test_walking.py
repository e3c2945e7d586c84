"""Arrow keys walk from figure to figure; the ground says why; Enter climbs down, Backspace up."""

from __future__ import annotations

import pytest

from formulate.tui.signs import STAND


async def test_one_stands_on_the_first_main_purpose(bench):
    async with bench() as on:
        assert on.app.desk.figure.field == "purpose"
        assert on.title.startswith("line 1, carrier")


async def test_only_the_place_one_stands_on_is_marked(bench):
    async with bench() as on:
        for key in ("down", "right", "end", "home", "enter", "down"):
            await on.press(key)
            assert on.screen().count(STAND) == 1


async def test_down_and_up_keep_the_column(bench):
    async with bench() as on:
        await on.press("left", "down", "down")
        assert on.app.desk.figure.field == "identity"
        await on.press("up", "up")
        assert on.title.startswith("line 1, Water")


async def test_right_walks_over_every_figure_of_the_line(bench):
    async with bench() as on:
        await on.press("down", "left", "left", "left")
        fields = [on.app.desk.figure.field]
        for _ in range(5):
            await on.press("right")
            fields.append(on.app.desk.figure.field)
        assert fields == ["fate", "raw", "identity", "purpose", "certainty", "class"]


async def test_class_has_a_column_on_a_wide_screen(bench):
    async with bench(size=(120, 40)) as on:
        await on.press("left")
        assert on.app.desk.figure.field == "class"


async def test_every_figure_can_be_reached_and_has_reasons(bench):
    async with bench(size=(100, 30)) as on:
        desk = on.app.desk
        desk.stand_on(desk.sheet.figures[0].key)
        seen = []
        for _ in range(len(desk.sheet.figures)):
            seen.append(desk.figure.key)
            assert desk.step().says
            assert desk.step().children, desk.figure
            desk.walk(1, 0)
        assert seen == [figure.key for figure in desk.sheet.figures]


async def test_every_way_down_ends_in_a_source_or_a_pasted_place(bench):
    async with bench() as on:
        desk = on.app.desk
        for figure in desk.sheet.figures:
            desk.stand_on(figure.key)
            stack, ends = [desk.step()], set()
            while stack:
                step = stack.pop()
                stack.extend(step.children if step.kind == "reason" else ())
                if not step.children or step.kind != "reason":
                    ends.add((step.kind, step.origin))
            assert all(kind in {"source", "place"} or origin in {"assumed", "you said so"} for kind, origin in ends), (
                figure
            )


async def test_the_ground_says_why_unasked(bench):
    async with bench() as on:
        assert on.app.desk.step().children[0].says.split(" ")[0] in on.band("body")
        assert "because" in on.band("head")
        before = on.band("body")
        await on.press("down")
        assert on.band("body") != before


async def test_enter_climbs_down_to_the_source_and_backspace_up_again(bench):
    async with bench() as on:
        await on.press("left", "enter")
        depth = 0
        while on.app.desk.page.step.children:
            await on.press("enter")
            depth += 1
            assert depth < 12
        assert on.app.desk.page.step.kind in {"place", "card", "source"}
        await on.press("enter")
        assert "This is where it ends" in on.band("body")
        for _ in range(depth + 1):
            await on.press("backspace")
        assert on.app.desk.page is None
        assert on.app.desk.figure.field == "identity"


async def test_backspace_stands_on_the_step_one_came_from(bench):
    async with bench() as on:
        await on.press("enter", "down")
        stood = on.app.desk.page.step.says
        await on.press("enter", "backspace")
        assert on.app.desk.page.step.says == stood


async def test_escape_goes_back_to_the_sheet(bench):
    async with bench() as on:
        await on.press("enter", "enter", "escape")
        assert on.app.desk.page is None


async def test_who_says_shows_the_sources_with_place_and_copy(bench):
    async with bench() as on:
        await on.press("left", "w")
        page = on.app.desk.page
        assert any(chain[-1].kind == "source" for chain in page.listed)
        cards = " ".join(chain[-1].says for chain in page.listed)
        assert "place in it:" in cards
        assert "copy read:" in cards


async def test_help_says_what_the_figure_is_and_lists_every_key(bench):
    from formulate.tui.actions import ACTIONS

    async with bench() as on:
        await on.press("right", "question_mark")
        said = " ".join(step.says for step in on.app.desk.page.top.children)
        assert "sure from 0.9" in said
        for action in ACTIONS:
            assert action.help in said


async def test_copy_takes_the_sentence(bench):
    async with bench() as on:
        await on.press("y")
        assert on.app.clipboard == on.app.desk.figure.said()
        assert "Copied" in on.band("body")


async def test_find_goes_to_a_figure_and_does_things(bench):
    async with bench() as on:
        await on.press("slash", *"phenoxy", "enter")
        assert on.app.desk.figure.line == on.app.desk.answers.roles.ingredients[8].line
        await on.press("slash", *"edits", "enter")
        assert on.app.desk.page.top.kind == "history"


async def test_a_click_stands_and_two_go_down(bench):
    async with bench() as on:
        row = next(i for i, text in enumerate(on.screen().splitlines()) if "Carnauba Wax" in text)
        column = on.screen().splitlines()[row].index("Carnauba Wax")
        await on.pilot.click(offset=(column + 2, row))
        await on.settle()
        assert on.title == "line 5, as printed"
        assert on.app.desk.page is None
        await on.pilot.click(offset=(column + 2, row), times=2)
        await on.settle()
        assert on.app.desk.page is not None


async def test_a_click_on_the_grave_sign_leads_to_the_caution(bench):
    async with bench("Spray. Ingredients: Aqua, Amodimethicone, Trideceth-6") as on:
        course = on.app.rows("course").plain()[0]
        if "grave" not in course:
            pytest.skip("no rule calls this grave now")
        await on.pilot.click(offset=(course.index("grave"), 1))
        await on.settle()
        assert on.app.desk.figure.field in {"caution", "conflict"}


@pytest.mark.parametrize("size", [(80, 24), (100, 30), (120, 40), (200, 60)])
async def test_nothing_is_wider_than_the_screen(bench, size):
    from wcwidth import wcswidth

    async with bench(size=size) as on:
        for keys in ([], ["enter"], ["escape", "w"], ["escape", "question_mark"], ["escape", "end"]):
            await on.press(*keys)
            rows = on.screen().splitlines()
            assert len(rows) == size[1]
            assert all(wcswidth(row) <= size[0] for row in rows)


async def test_a_smaller_screen_keeps_the_place(bench):
    async with bench(size=(120, 40)) as on:
        await on.press("down", "down", "left")
        stood = on.app.desk.stand
        await on.pilot.resize_terminal(80, 24)
        await on.settle()
        assert on.app.desk.stand == stood
        assert STAND in on.screen()
