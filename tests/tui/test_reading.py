"""Pasting, typing, the invented example, and what is said meanwhile."""

from __future__ import annotations

import time

import pytest
from textual import events

from formulate.tui.app import FIRST_WORDS
from formulate.tui.widgets import ListBox

LONG_LINE = ", ".join(["Aqua", "Silica", "Ethanol", "Amodimethicone", "Vel-Tarn 40"] * 2100)[:100_000]


async def test_opens_with_the_cursor_in_an_empty_box(bench):
    async with bench(None) as on:
        assert isinstance(on.app.focused, ListBox)
        assert FIRST_WORDS in on.screen()


async def test_paste_is_read_at_once_and_the_cursor_leaves_the_box(bench):
    async with bench() as on:
        screen = on.screen()
        assert not on.app.boxed
        for word in ("Isopropyl Alcohol", "Carnauba Wax", "Vel-Tarn 40", "Phenoxyethanol"):
            assert word in screen
        assert [row.position for row in on.app.desk.sheet.rows if row.kind == "line"] != []
        assert {row.position for row in on.app.desk.sheet.rows if row.kind == "line"} == set(range(1, 10))


async def test_lines_stand_by_their_fate(bench):
    async with bench() as on:
        groups = {row.position: row.group for row in on.app.desk.sheet.rows if row.kind == "line"}
        assert groups[1] == "leaves"
        assert groups[8] == "not known"
        assert groups[6] == "holds it together"


async def test_what_was_not_used_is_said(bench):
    async with bench() as on:
        assert any(row.group == "not used" and "Shake well" in row.figures[0].text for row in on.app.desk.sheet.rows)


async def test_enter_on_the_empty_box_shows_the_invented_example(bench):
    async with bench(None) as on:
        await on.press("enter")
        assert "invented example" in on.app.session.text
        assert on.app.desk.answers.roles.ingredients


async def test_a_typed_list_is_read_on_leaving_the_box(bench):
    async with bench(None) as on:
        await on.press(*"Aqua", "comma", "space", *"Silica")
        await on.press("ctrl+j")
        assert [row.raw for row in on.app.desk.answers.roles.ingredients] == ["Aqua", "Silica"]


@pytest.mark.parametrize("key", ["escape", "tab"])
async def test_esc_and_tab_leave_the_box_too(bench, key):
    async with bench(None) as on:
        await on.press(*"Aqua", "comma", "space", *"Ethanol", key)
        assert len(on.app.desk.answers.roles.ingredients) == 2


async def test_keys_of_the_workbench_do_nothing_in_the_box(bench):
    async with bench(None) as on:
        await on.press("q", "u", "h")
        assert on.app.query_one(ListBox).text == "quh"


async def test_a_long_line_is_intercepted(bench):
    async with bench(None) as on:
        box = on.app.query_one(ListBox)
        began = time.perf_counter()
        on.app.post_message(events.Paste(LONG_LINE))
        while "100,000 characters" not in on.screen():
            await on.pilot.pause()
        assert time.perf_counter() - began < 3.0  # the pilot waits for quiet of its own accord
        assert box.text == ""
        assert not on.app.boxed
        began = time.perf_counter()
        on.app.read_text(LONG_LINE)
        assert time.perf_counter() - began < 0.2
        on.app.workers.cancel_all()


async def test_the_lines_of_a_long_text_stand_before_the_rest_is_known(bench):
    async with bench(None) as on:
        on.app.post_message(events.Paste(LONG_LINE))
        while not on.app.desk.sheet.figures:
            await on.pilot.pause(0.01)
        assert on.app.desk.answers is None
        assert "being read" in on.screen()
        await on.pilot.press("down")
        assert on.title == "line 2, as printed"
        on.app.workers.cancel_all()


@pytest.mark.parametrize("text", ["", "   \n", "no separators at all here", "\x00\x01\x02" * 50, "x" * 100_000])
async def test_text_without_a_list_is_said_to_have_none(bench, text):
    async with bench(None) as on:
        await on.paste(text)
        assert on.app.desk.answers is not None
        if not on.app.desk.answers.read.lines:
            assert "No list was found" in on.band("answer")
        assert on.app.is_running


async def test_a_second_paste_is_read_wherever_one_stands(bench):
    async with bench() as on:
        await on.press("enter")
        await on.paste("Aqua, Dimethicone")
        assert [row.raw for row in on.app.desk.answers.roles.ingredients] == ["Aqua", "Dimethicone"]
        assert on.app.desk.page is None


async def test_an_earlier_text_can_be_taken_up_again(bench):
    async with bench() as on:
        await on.paste("Aqua, Dimethicone")
        await on.press("slash", *"earlier", "enter")
        assert len(on.app.desk.answers.roles.ingredients) == 9
