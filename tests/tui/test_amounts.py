"""Station 2: certain amounts at once, likely ones when they are drawn, each with what sets it, each correctable."""

from __future__ import annotations

import re
import threading

import pytest

import formulate
from formulate.domain.edit import Case, Edit, PastedText
from formulate.domain.model import digest
from formulate.errors import Stopped
from formulate.tui.signs import STAND, terminal_signs
from formulate.workflow.session import Session
from tests.tui.conftest import CHURCH_FLOOR
from tests.tui.test_hostile import HOSTILE, clean

CLASH = "Aqua 60-70 %, Ethanol 20-30 %, Silica sol 40-50 %, Carnauba wax 1-5 %"
"""An invented list whose amounts cannot sum to a hundred per cent."""
FORTY = ", ".join(["Aqua", "Ethanol", "Silica", *(f"Invented Matter {i}" for i in range(4, 41))])


def stand(on, key):
    on.app.desk.stand_on(key)
    on.app.draw()


def key_of(on, position, field):
    row = next(one for one in on.app.desk.amounts.now.ingredients if one.position == position)
    return f"{row.line}/{field}"


def row_of(on, name):
    return next(text for text in on.screen().splitlines() if name in text)


class Held:
    """A session whose draws wait until they are let go; every call is counted."""

    def __init__(self, session, monkeypatch):
        self.go, self.calls, self.begun, draw = threading.Event(), 0, threading.Event(), session.drawn

        def drawn(case, stop=None, progress=None):
            self.calls += 1
            self.begun.set()
            while not self.go.wait(0.005):
                if stop is not None and stop():
                    raise Stopped("held")
            return draw(case, stop, progress)

        monkeypatch.setattr(session, "drawn", drawn)

    async def running(self, on):
        while not self.begun.is_set():
            await on.pilot.pause(0.005)
        self.begun.clear()


# --- what stands there -----------------------------------------------------------------------------------------------


async def test_figures_are_those_of_the_command_line(bench):
    async with bench() as on:
        await on.press("2")
        await on.drawn()
        answer, shown = formulate.bounds(CHURCH_FLOOR), on.app.desk.amounts.now
        assert [row.hard for row in shown.ingredients] == [row.hard for row in answer.ingredients]
        assert [row.plausible for row in shown.ingredients] == [row.plausible for row in answer.ingredients]
        assert shown.totals == answer.totals
        assert shown.seed == answer.seed


async def test_totals_stand_on_top_then_every_line_with_a_bar(bench):
    async with bench(size=(120, 40)) as on:
        await on.press("2")
        await on.drawn()
        rows = on.screen().splitlines()
        assert next(i for i, row in enumerate(rows) if "stays, dried at 110 C" in row) < next(
            i for i, row in enumerate(rows) if "Silica (form not said)" in row
        )
        assert re.search(r"├─*█+●█*─*┤?", row_of(on, "Phenoxyethanol"))
        assert "[2 amounts] wide" in on.band("course")


async def test_every_figure_can_be_reached_and_has_reasons(bench):
    async with bench(f"{CHURCH_FLOOR} Silica sol 5 %") as on:
        await on.press("2")
        await on.drawn()
        desk = on.app.desk
        desk.stand_on(desk.sheet.figures[0].key)
        seen = []
        for _ in desk.sheet.figures:
            seen.append(desk.figure.key)
            assert desk.step().children, desk.figure
            desk.walk(1, 0)
        assert seen == [figure.key for figure in desk.sheet.figures]


async def test_every_way_down_ends_in_a_source_or_a_pasted_place(bench):
    async with bench() as on:
        await on.press("2")
        await on.drawn()
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
                figure,
                ends,
            )


async def test_why_a_bound_is_so_names_the_statement_that_sets_it(bench):
    async with bench() as on:
        await on.press("2", "c", "down", "enter", "enter")
        stand(on, key_of(on, 4, "high"))
        await on.press("enter")
        said = " ".join(chain[-1].says for chain in on.app.desk.page.listed)
        assert "3 stand before Silica (form not said), each at least as much" in on.app.desk.page.top.says
        assert "EU cosmetic label" in said


async def test_one_stands_where_one_stood_at_each_station(bench):
    async with bench() as on:
        await on.press("down", "down")
        first = on.app.desk.stand
        await on.press("2", "down", "right")
        second = on.app.desk.stand
        await on.press("1")
        assert on.app.desk.stand == first
        await on.press("2")
        assert on.app.desk.stand == second
        assert on.screen().count(STAND) == 1


# --- threads ---------------------------------------------------------------------------------------------------------


async def test_what_is_certain_stands_before_what_is_likely(bench, monkeypatch):
    async with bench() as on:
        held = Held(on.app.session, monkeypatch)
        await on.tap("2", "end")
        await held.running(on)
        await on.pilot.pause()
        assert re.search(r"0 - 100 +~ +├─+┤", row_of(on, "Phenoxyethanol"))
        assert "[2 amounts] ~" in on.band("course")
        assert ". stops" in on.band("course")
        held.go.set()
        await on.drawn()
        assert "●" in row_of(on, "Phenoxyethanol")
        assert "[2 amounts] wide" in on.band("course")


async def test_old_likely_ranges_stay_marked_while_newer_ones_are_drawn(bench, monkeypatch):
    async with bench() as on:
        await on.press("2")
        await on.drawn()
        before = on.app.desk.sheet.figure(key_of(on, 4, "likely")).text
        held = Held(on.app.session, monkeypatch)
        await on.tap("c", "down", "enter", "enter")
        await held.running(on)
        assert on.app.desk.sheet.figure(key_of(on, 4, "likely")).text == f"~{before}"
        assert on.app.desk.sheet.figure(key_of(on, 4, "high")).text == "25"
        held.go.set()
        await on.drawn()
        assert not on.app.desk.sheet.figure(key_of(on, 4, "likely")).text.startswith("~")


async def test_draws_of_an_older_state_are_dropped(bench, monkeypatch):
    async with bench() as on:
        held = Held(on.app.session, monkeypatch)
        await on.tap("2")
        await held.running(on)
        old = on.app.session.case
        await on.tap("c", "down", "enter", "enter")
        await held.running(on)
        held.go.set()
        await on.drawn()
        assert on.app.session.case is not old
        assert on.app.desk.amounts.drawn.rule.name == "eu-label"
        assert held.calls == 2


async def test_quick_steps_draw_once(bench, monkeypatch):
    async with bench() as on:
        await on.press("2", "c", "down", "enter", "enter")
        await on.drawn()
        held = Held(on.app.session, monkeypatch)
        held.go.set()
        on.app.draw_after = 0.2
        for key in "uUuUu":
            await on.pilot.press(key)
        await on.drawn()
        assert held.calls == 1
        assert on.app.desk.amounts.drawn.rule.name == "none"


async def test_a_full_stop_stops_and_2_draws_again(bench, monkeypatch):
    async with bench() as on:
        held = Held(on.app.session, monkeypatch)
        await on.tap("2")
        await held.running(on)
        await on.pilot.press("full_stop")
        await on.settle()
        assert on.app.desk.amounts.drawn is None
        assert "stopped; 2 draws again" in on.band("course")
        assert "Stopped" in on.band("body")
        held.go.set()
        await on.press("2")
        await on.drawn()
        assert on.app.desk.amounts.drawn is not None
        await on.press("full_stop")
        assert "Nothing is being worked out" in on.band("body")


async def test_likely_amounts_are_drawn_in_idle_time_too(bench):
    async with bench(idle_after=0.01) as on:
        await on.drawn()
        assert on.app.desk.station == "list"
        assert on.app.desk.amounts.drawn.sampling is not None


async def test_a_page_one_climbed_down_to_stays_open_when_draws_arrive(bench, monkeypatch):
    async with bench() as on:
        held = Held(on.app.session, monkeypatch)
        await on.tap("2")
        await held.running(on)
        await on.pilot.press("down", "enter")
        held.go.set()
        await on.drawn()
        assert on.app.desk.page is not None


async def test_an_error_nobody_foresaw_is_said_and_the_workbench_goes_on(bench, monkeypatch):
    async with bench() as on:

        def trip(*_: object) -> None:
            raise RuntimeError("[/nope] \x1b[31m")

        monkeypatch.setattr(on.app.session, "bounded", trip)
        await on.press("2", "m", *"wipe", "enter")
        assert "This could not be worked out" in on.band("body")
        assert clean(on.screen())


# --- what is said of the amounts -------------------------------------------------------------------------------------


async def test_the_rule_is_changed_and_taken_back(bench):
    async with bench() as on:
        await on.press("2", "c")
        await on.type("eu-label")
        assert "Silica (form not said) 0 - 100 % -> 0 - 25 %" in " ".join(
            f"{one.what} {one.was} -> {one.now}" for one in on.app.asking.moved
        )
        assert re.search(r"11\.1 - 100", row_of(on, " water"))  # the bars have moved already
        await on.press("enter")
        await on.type("printed so")
        await on.press("enter")
        edit = on.app.session.case.edits[0]
        assert (edit.target, edit.field, edit.value, edit.note) == ("/rule", "rule", "eu-label", "printed so")
        assert "rule: EU cosmetic label*" in on.screen()
        assert "changed:" in on.band("changed")
        await on.press("u")
        assert "rule: no law assumed" in on.screen()
        await on.press("U")
        assert "rule: EU cosmetic label*" in on.screen()


async def test_leaving_the_question_takes_the_preview_back(bench):
    async with bench() as on:
        await on.press("2", "c", "down")
        assert on.app.desk.amounts.would.rule.name == "eu-label"
        await on.press("escape")
        assert on.app.desk.amounts.would is None
        assert "rule: no law assumed" in on.screen()


async def test_the_one_percent_line_is_set_on_a_row(bench):
    async with bench() as on:
        await on.press("2", "c", "down", "enter", "enter")
        stand(on, key_of(on, 5, "place"))
        await on.press("c", "enter", "enter")
        edit = on.app.session.case.edits[-1]
        assert (edit.field, edit.value) == ("one-percent-line", "yes")
        assert edit.target == on.app.desk.amounts.now.ingredients[4].line
        assert [row.hard[1] for row in on.app.desk.amounts.now.ingredients[5:]] == pytest.approx([0.01] * 4)
        assert [row.hard[0] for row in on.app.desk.amounts.now.ingredients[:5]] >= [0.01] * 5
        rows = on.screen().splitlines()
        line = next(i for i, row in enumerate(rows) if "1 % line, as you said" in row)
        assert "Carnauba" in rows[line - 1]
        assert "You said that the one-percent line falls" in on.band("body")
        stand(on, "said/line")
        await on.press("c")
        await on.type("?")
        await on.press("enter", "enter")
        assert on.app.desk.amounts.now.one_percent_after is None


async def test_a_line_that_is_no_longer_there_is_kept_and_does_nothing(bench):
    async with bench() as on:
        await on.press("2")
        stand(on, key_of(on, 5, "place"))
        await on.press("c", "enter", "enter")
        await on.paste("Aqua, Ethanol, Dimethicone")
        assert on.app.desk.amounts.error is None
        assert on.app.desk.amounts.now.one_percent_after is None
        assert len(on.app.session.case.standing()) == 1


async def test_an_amount_is_corrected_at_its_bound(bench):
    async with bench() as on:
        await on.press("2")
        stand(on, key_of(on, 4, "high"))
        await on.press("c")
        await on.type("0.4-1.1 %")
        await on.press("enter", "enter")
        assert on.app.desk.amounts.now.ingredients[3].hard == pytest.approx((0.004, 0.011))
        assert on.app.desk.figure.field == "high"
        assert "printed 0.4-1.1 %*" in on.screen()


@pytest.mark.parametrize("typed", ["much", "120 %", "5-2 %"])
async def test_an_amount_that_cannot_be_read_is_refused_and_the_question_stays(bench, typed):
    async with bench() as on:
        await on.press("2")
        stand(on, key_of(on, 4, "low"))
        await on.press("c")
        await on.type(typed)
        await on.press("enter")
        assert on.app.asking is not None
        assert "is no amount" in on.band("body")
        assert not on.app.session.case.edits


async def test_a_measured_value_moves_the_likely_ranges(bench):
    async with bench() as on:
        await on.press("2")
        await on.drawn()
        before = on.app.desk.amounts.now.totals["nonvolatile_110c"].plausible
        stand(on, "total/nonvolatile_110c/high")
        await on.press("c")
        assert on.app.asking.ask.start == "nonvolatile="
        await on.type("2.3")
        await on.press("enter")
        assert "If you meant per cent, write 2.3 %" in on.band("body")
        await on.type(" %")
        await on.press("enter", "enter")
        await on.drawn()
        after = on.app.desk.amounts.now.totals["nonvolatile_110c"]
        assert after.measured == pytest.approx(0.023)
        assert after.plausible.high - after.plausible.low < (before.high - before.low) / 5
        assert any(one.pointer.endswith("/plausible") for one in on.app.desk.moved)
        assert "measured: nonvolatile=2.3 %*" in on.screen()
        stand(on, "said/measured")
        await on.press("c")
        await on.type("nonvolatile=?")
        await on.press("enter", "enter")
        assert "measured: nothing" in on.screen()


async def test_a_what_if_moves_the_bars_at_once_and_is_no_statement(bench):
    async with bench() as on:
        await on.press("2", "c", "down", "enter", "enter")
        certain = on.app.desk.amounts.now.ingredients[8].hard
        stand(on, key_of(on, 4, "likely"))
        await on.press("c")
        assert on.app.asking.ask.start == "silica="
        await on.type("2 %")
        assert on.app.desk.sheet.figure(key_of(on, 9, "high")).text == "2.22"  # 4th of nine at 2 %, silica 90-100 %
        await on.press("enter")
        await on.drawn()
        assert on.app.desk.amounts.now.ingredients[8].hard == certain
        assert on.app.desk.sheet.figure(key_of(on, 9, "high")).text == "2.22"
        assert on.app.session.case.edits[-1].field == "assumption"
        stand(on, "supposed/said/text")
        assert "of the likely compositions have less" in on.app.desk.figure.text
        stand(on, "said/suppose")
        await on.press("c")
        await on.press(*["backspace"] * 30)
        await on.type("king=2 %")
        await on.press("enter")
        assert '"king" is not in the list' in on.band("body")


async def test_a_what_if_that_cannot_be_says_so(bench):
    async with bench("Aqua 60-70 %, Ethanol 30-40 %") as on:
        await on.press("2")
        stand(on, "said/suppose")
        await on.press("c")
        await on.type("aqua=90 %")
        await on.press("enter")
        assert "it cannot be" in on.app.desk.sheet.figure("supposed/said/text").text


async def test_what_an_amount_means_is_said(bench):
    async with bench("Aqua q.s., Ethanol 20 %, Amodimethicone 5 %, Silica sol 10 %") as on:
        await on.press("2")
        row = next(one for one in on.app.desk.amounts.now.ingredients if one.name.startswith("Silica sol"))
        before = on.app.desk.amounts.now.totals["nonvolatile_110c"].hard
        stand(on, f"{row.line}/supplied")
        await on.press("c")
        await on.type("as-supplied")
        await on.press("enter", "enter")
        told = next(one for one in on.app.desk.amounts.now.ingredients if one.line == row.line)
        assert told.supplied_as.high < 1
        after = on.app.desk.amounts.now.totals["nonvolatile_110c"].hard
        assert after[1] < before[1]  # a sol is at most half silica, so at most 5 of its 10 % stay
        assert "amount means the raw material as sold*" in on.screen()
        assert "You said that the amount of" in " ".join(
            step.says for child in on.app.desk.step().children for step in (child, *child.children)
        )


async def test_what_was_said_survives_reopening(bench, tmp_path):
    async with bench() as on:
        await on.press("2", "c", "down", "enter", "enter")
        stand(on, key_of(on, 5, "place"))
        await on.press("c", "enter", "enter")
        stand(on, "said/suppose")
        await on.press("c")
        await on.type("silica=2 %")
        await on.press("enter")
        kept = on.app.session.save(tmp_path / "church.case.json")
        shown = on.app.desk.amounts.now
    again = Session.open(kept)
    answer = again.bounded(again.case)
    assert (answer.rule, answer.one_percent_after) == (shown.rule, shown.one_percent_after)
    assert answer.supposed.what == "silica"
    assert [row.hard for row in answer.ingredients] == [row.hard for row in shown.ingredients]


# --- what breaks -----------------------------------------------------------------------------------------------------


async def test_a_contradiction_stands_on_top_as_sentences(bench):
    async with bench(CLASH) as on:
        await on.press("2")
        await on.drawn()
        rows = on.screen().splitlines()
        assert "contradict" in on.band("course")
        assert "These statements contradict each other" in rows[4]
        assert "- Water 60 to 70 %" in on.screen()
        stand(on, "clash/1/text")
        await on.press("c")
        assert on.app.asking.ask.label == "line 3 is there at:"
        await on.type("5-10 %")
        assert "contradiction 3 statements clash -> none" in on.band("changed")
        await on.press("enter", "enter")
        assert "contradict" not in on.band("course")
        assert "These statements" not in on.screen()


async def test_an_empty_list_is_said_to_be_none(bench):
    async with bench("no list, nothing\x00") as on:
        await on.paste("")
        await on.press("2", "c", "enter", "w", "down", "backspace")
        assert "No list was found in this text" in on.screen()
        assert on.app.is_running


@pytest.mark.parametrize("field", ["measured", "rule", "assumption"])
async def test_a_case_that_says_what_cannot_be_read_leaves_station_1_alone(bench, field):
    target = {"measured": "/measured/king", "rule": "/rule", "assumption": "/suppose"}[field]
    edit = Edit(id="1", when="", who="you", target=target, field=field, value="[/king] \x1b=x")
    case = Case(id="1", texts=(PastedText(id=digest(CHURCH_FLOOR), text=CHURCH_FLOOR),), edits=(edit,), cursor=1)
    async with bench(None, case=case) as on:
        on.app.read_text(CHURCH_FLOOR)
        await on.settle()
        assert on.app.desk.answers.roles.ingredients
        assert "2 amounts !" in on.band("course")
        await on.press("2")
        assert "Why it matters:" in on.band("body")
        assert clean(on.screen())
        await on.press("u")
        assert on.app.desk.amounts.error is None
        assert "rule: no law assumed" in on.screen()


async def test_a_list_too_long_to_draw_shows_what_is_certain(bench, monkeypatch):
    monkeypatch.setattr("formulate.workflow.session.MOST_DRAWN", 5)
    async with bench() as on:
        await on.press("2")
        await on.drawn()
        assert on.app.desk.amounts.now.sampling is None
        assert "~" not in row_of(on, "stays, dried")
    monkeypatch.setattr("formulate.workflow.amounts.MOST_LINES", 5)
    async with bench() as on:
        await on.press("2")
        assert "too many for amounts" in on.screen()


@pytest.mark.parametrize("size", [(80, 24), (120, 40), (200, 60), (80, 16)])
async def test_forty_ingredients_scroll_and_nothing_is_wider_than_the_screen(bench, size):
    from wcwidth import wcswidth

    async with bench(FORTY, size=size) as on:
        await on.press("2")
        for keys in (["down"] * 14, ["pagedown"], ["end"], ["up", "up", "up"], ["enter"], ["escape", "c"], ["escape"]):
            await on.press(*keys)
            rows = on.screen().splitlines()
            assert len(rows) == size[1]
            assert all(wcswidth(row) <= size[0] for row in rows)
            assert on.screen().count(STAND) == 1
        assert "10 ppm" in on.screen()  # the heads of the columns stay


async def test_a_smaller_screen_keeps_the_place(bench):
    async with bench(FORTY, size=(120, 40)) as on:
        await on.press("2")
        stand(on, key_of(on, 38, "high"))
        await on.pilot.resize_terminal(80, 24)
        await on.settle()
        assert on.app.desk.stand == key_of(on, 38, "high")
        assert STAND in row_of(on, "Invented Matter 38")


async def test_without_utf_8_bars_are_drawn_in_plain_signs(bench):
    async with bench(signs=terminal_signs("ascii")) as on:
        await on.press("2")
        await on.drawn()
        await on.press("end", "up", "up", "up")
        assert on.screen().isascii()
        assert re.search(r"\|-+=+#=*-*\|?", row_of(on, "Phenoxyethanol"))


@pytest.mark.parametrize("name", HOSTILE)
async def test_hostile_names_go_through_the_gate(bench, name):
    async with bench(f"Aqua, {HOSTILE[name]} 3-5 %, Silica {HOSTILE[name]}, Ethanol 98 %") as on:
        await on.press("2")
        for keys in (
            [],
            ["end", "up", "up", "up"],
            ["left", "left"],
            ["enter"],
            ["enter"],
            ["escape", "c"],
            ["escape", "h"],
        ):
            await on.press(*keys)
            assert clean(on.screen()), (name, keys)
        assert on.app.is_running


async def test_a_click_goes_to_the_station_and_stands_on_a_bar(bench):
    async with bench() as on:
        await on.pilot.click(offset=(on.app.rows("course").plain()[0].index("amounts"), 1))
        await on.drawn()
        assert on.app.desk.station == "amounts"
        row = next(i for i, text in enumerate(on.screen().splitlines()) if "film formers" in text)
        await on.pilot.click(offset=(70, row))
        await on.settle()
        assert on.app.desk.stand == "total/film_formers/likely"
