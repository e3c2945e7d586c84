"""Hostile text goes through the gate on every screen: shown as marks, never markup, never raw bytes."""

from __future__ import annotations

import pytest

HOSTILE = {
    "markup": "[/nope]",
    "action": "[@click=app.bell]x[/]",
    "colour": "[red]loud[/red]",
    "escape": "a\x1b[31mred\x1b[0m",
    "title": "a\x1b]0;title\x07b",
    "bidi": "abc\u202edef",
    "zero-width": "zero\u200bwidth",
    "script": "<script>alert(1)</script>",
    "bell": "ding\x07dong",
    "c1": "a\x9b31mb",
    "combining": "a" + "\u0301" * 40,
    "wide": "漢字" * 60,
    "surrogate": "a\ud800b",
    "tag": "a\U000e0041b",
    "separator": "a\u2028b",
}
RAW = {chr(code) for code in (*range(0x20), 0x7F, *range(0x80, 0xA0))} - {"\n"} | {
    "\u202e",
    "\u200b",
    "\u2028",
    "\U000e0041",
    "\ud800",
}


def clean(screen: str) -> bool:
    return not RAW & set(screen)


@pytest.mark.parametrize("name", HOSTILE)
async def test_on_the_sheet_on_a_page_and_in_the_ground(bench, name):
    async with bench(f"Aqua, {HOSTILE[name]}, Silica. {HOSTILE[name]} for external use only") as on:
        for keys in ([], ["down"], ["enter"], ["enter"], ["escape", "left", "left", "enter"], ["escape", "end"], ["w"]):
            await on.press(*keys)
            assert clean(on.screen()), (name, keys)
        assert on.app.is_running


async def test_markup_stands_as_it_was_printed(bench):
    async with bench("Aqua, [/nope], [@click=app.bell]x[/], Silica", size=(120, 40)) as on:
        assert "[/nope]" in on.screen()
        assert "[@click=app.bell]x[/]" in on.screen()


@pytest.mark.parametrize("name", ["markup", "action", "bidi"])
async def test_as_claim_note_and_correction(bench, name):
    async with bench() as on:
        for key in ("f", "n"):
            await on.press(key)
            await on.paste(HOSTILE[name])
            await on.press("enter")
            assert clean(on.screen())
        await on.press("left", "c")
        await on.paste(HOSTILE[name])
        assert clean("".join(row for row in on.app.rows("body").plain()))
        await on.press("enter", "enter", "h")
        assert clean(on.screen())
        await on.press("escape", "slash")
        assert clean(on.screen())
