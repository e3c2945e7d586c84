"""Stations and actions are registered once; key line, help and 'find or do' read the registry."""

from __future__ import annotations

from formulate.tui.actions import ACTIONS, action_of, key_line, shown_key
from formulate.tui.doing import DO
from formulate.tui.stations import STATIONS


def test_every_action_has_key_label_and_help_and_does_something():
    for action in ACTIONS:
        assert action.key
        assert action.label
        assert len(action.help) > 10
        assert action.id in DO
    assert len({action.id for action in ACTIONS}) == len(ACTIONS)
    assert len({action.key for action in ACTIONS}) == len(ACTIONS)


def test_the_key_line_fits_the_smallest_screen_and_names_the_keys():
    for step in (False, True):
        assert len(key_line(step)) <= 78
    for action in ACTIONS:
        if action.line:
            assert f"{shown_key(action)} {action.label}" in key_line()


def test_what_is_not_built_is_not_listed():
    assert [station.id for station in STATIONS] == ["list", "amounts"]
    assert all(station.key and station.label and station.help for station in STATIONS)
    assert not {"x", "p", "5", "3"} & {action.key for action in ACTIONS}


def test_an_action_is_found_by_id():
    assert action_of("undo").key == "u"


async def test_every_key_answers_on_every_kind_of_screen(bench):
    async with bench() as on:
        for action in ACTIONS:
            if action.id in {"leave", "list"}:
                continue
            for before in ([], ["enter"]):
                await on.press(*before, action.key, "escape", "escape")
                assert on.app.is_running
                assert on.app.asking is None
