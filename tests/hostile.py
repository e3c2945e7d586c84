"""Fifteen kinds of hostile text, and what must never reach a screen."""

from __future__ import annotations

HOSTILE: dict[str, str] = {
    "markup": "[bold red]Water[/bold red], Silica",
    "closing-markup": "[/nope], Silica",
    "click": "[@click=app.bell]x[/], Silica",
    "link": "[link=file:///etc/passwd]Wax[/link], Silica",
    "script": "<script>alert(1)</script>, Silica",
    "escape": "Wa\x1b[31mter\x1b[0m, Silica",
    "cursor": "Water\x1b[2J\x1b[1;1H, Silica",
    "osc": "Water\x1b]0;title\x07\x1b]52;c;aGk=\x07, Silica",
    "c1": "Wa\x9b31mter, Silica",
    "bidi": "Wat\u202eer, Sil\u2066ica\u2069",
    "zero-width": "Wa\u200bter\u200d, Sil\ufeffica",
    "combining": "W" + "\u0301" * 40 + "ater, Silica",
    "null-and-bell": "Wa\x00ter\x07, Silica\x08\x08",
    "format": "{0.__class__}, {says}, %s%n, ${HOME}, Silica",
    "surrogate": "Wa\udce4ter, Silica",
}
"""Each is pasted text; each must come back from the models as it went in, and reach no screen as it is."""

FORBIDDEN = [chr(code) for code in (*range(0x0A), *range(0x0B, 0x20), 0x7F, *range(0x80, 0xA0))] + [
    "\u200b",
    "\u200d",
    "\u202e",
    "\u2066",
    "\u2069",
    "\ufeff",
    "\udce4",
]
"""Characters that must never be written to a terminal."""
