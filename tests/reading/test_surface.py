"""The working copy keeps every offset."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from formulate.reading.surface import working_copy


@given(st.text(max_size=400))
def test_the_copy_is_as_long_as_the_text(text: str) -> None:
    assert len(working_copy(text)) == len(text)


@pytest.mark.parametrize(
    ("text", "copy"),
    [
        ("1\u20135 \uff05", "1-5 %"),
        ("a<br>b", "a\n   b"),
        ("&lt;5&nbsp;%", "<   5      %"),
        ("<2 % aromatics", "<2 % aromatics"),
        ("x &amp; y", "x &     y"),
        ("\x1b[1mx", "    x"),
        ("\u200bx\u00ad", " x "),
        ("&#8804;5", "\u2264      5"),
        ("Wax<!-- 5 %\n-->Silica", "Wax        \n   Silica"),
        ("<SCRIPT src=x>'Wax'</script >, Silica", " " * 29 + ", Silica"),
        ("<style>p{}</style>Wax <!-- Silica", " " * 18 + "Wax <!-- Silica"),
    ],
)
def test_one_sign_for_each_look_alike(text: str, copy: str) -> None:
    assert working_copy(text) == copy
