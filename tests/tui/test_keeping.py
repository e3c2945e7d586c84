"""What one has is kept; what cannot be kept is said in four parts."""

from __future__ import annotations

from pathlib import Path

from formulate.workflow.session import Session


async def test_kept_after_a_pause_and_said_so(bench):
    async with bench(keep_after=0.01) as on:
        await on.pilot.pause(0.05)
        await on.settle()
        assert "kept 13:02" in on.band("answer")
        assert on.app.path.name == "2026-11-25-1302-aqua-isopropyl-alcohol.case.json"
        assert Session.open(on.app.path).text == on.app.session.text


async def test_leaving_keeps(bench):
    async with bench() as on:
        await on.press("q")
        assert on.app.return_value == 0
        assert Session.open(on.app.path).text == on.app.session.text


async def test_leaving_with_nothing_keeps_nothing(bench, tmp_path):
    async with bench(None) as on:
        await on.press("ctrl+q")
        assert on.app.return_value == 0
        assert not (tmp_path / "cases").exists()


async def test_the_invented_example_is_not_kept_unless_something_was_added(bench, tmp_path):
    async with bench(None, keep_after=0.01) as on:
        await on.press("enter")
        await on.pilot.pause(0.05)
        await on.settle()
        assert not (tmp_path / "cases").exists()
        await on.press("n", *"mine", "enter")
        await on.pilot.pause(0.05)
        await on.settle()
        assert "kept 13:02" in on.band("answer")


async def test_a_folder_that_cannot_be_written_is_said_and_a_second_q_leaves(bench, tmp_path):
    (tmp_path / "cases").write_text("a file stands where the folder should be", encoding="utf-8")
    async with bench() as on:
        await on.press("q")
        body = on.band("body")
        assert "Where:" in body
        assert "Why it matters:" in body
        assert "What to do:" in body
        assert on.app.return_value is None
        await on.press("q")
        assert on.app.return_value == 0


async def test_an_error_nobody_foresaw_is_said_and_the_workbench_goes_on(bench, monkeypatch):
    async with bench() as on:

        def trip(*_: object) -> None:
            raise RuntimeError("[/nope] \x1b[31m")

        monkeypatch.setattr(on.app.session, "compare", trip)
        await on.press("down", "c")
        await on.type("carrier")
        await on.press("enter", "enter")
        assert "This could not be worked out" in on.band("body")
        assert "\x1b" not in on.screen()
        assert on.app.is_running
        monkeypatch.undo()
        await on.press("u")
        assert "This could not" not in on.band("body")


async def test_cases_go_to_the_users_data_folder_unless_told_otherwise(monkeypatch, tmp_path):
    from formulate.tui.keeping import case_folder

    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert case_folder().parts[-2:] == ("formulate", "cases")
    assert isinstance(case_folder(), Path)


async def test_a_kept_case_opens_on_its_list_and_not_on_an_empty_box(bench):
    async with bench() as on:
        await on.press("n", *"mine", "enter")
        await on.press("q")
        kept = Session.open(on.app.path).case
    async with bench(None, case=kept) as again:
        assert "Amodimethicone" in again.screen()
        assert not again.app.screen.has_class("boxed")
        await again.press("2")
        await again.drawn()
        assert "water" in again.screen().lower()
