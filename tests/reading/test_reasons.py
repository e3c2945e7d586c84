"""Every line, amount, left-over and fact has its reason, and reasons added again are the same."""

from __future__ import annotations

import pytest

from formulate.domain.reason import Ledger, leaves, tree
from formulate.reading import add_fact, add_left_over, add_pasted, add_stated, read_text

TEXT = "Church floor care\nIngredients: Water 80 %, Wax <5 %, Fragrance. Shake well before use.\npH: 8"


def test_the_ledger_holds_a_reason_for_each_thing_read() -> None:
    reading, ledger = read_text(TEXT, "t", lambda _: False)
    ids = [add_pasted(ledger, line, len(reading.lines)) for line in reading.lines]
    ids += [add_stated(ledger, line) for line in reading.lines if line.stated]
    ids += [add_left_over(ledger, piece) for piece in reading.left_over]
    ids += [add_fact(ledger, key, fact) for key, fact in reading.facts.items()]
    assert set(ids) == set(ledger)
    assert all(ledger[key].kind == "pasted" and ledger[key].place is not None for key in ids)
    assert all(node.kind == "pasted" for key in ids for node in leaves(tree(ledger, key)))


def test_what_a_reason_says() -> None:
    reading, ledger = read_text(TEXT, "t", lambda _: False)
    assert ledger[add_pasted(ledger, reading.lines[1], 3)].says == 'You pasted "Wax <5 %" as line 2 of 3.'
    assert ledger[add_stated(ledger, reading.lines[1])].says == 'Your text states "<5 %" for Wax.'


def test_braces_in_a_text_do_no_harm() -> None:
    reading, ledger = read_text("{raw}, {0}x, Wax", "t", lambda _: False)
    assert any("{raw}" in reason.says for reason in ledger.values())
    assert len(reading.lines) == 3


def test_no_amount_no_reason() -> None:
    reading, _ = read_text("Water, Wax", "t", lambda _: False)
    with pytest.raises(ValueError, match="states no amount"):
        add_stated(Ledger(), reading.lines[0])


def test_long_lines_are_shown_short() -> None:
    reading, ledger = read_text("w" * 300 + " 5 %, Water", "t", lambda _: False)
    assert all(len(reason.says) < 300 for reason in ledger.values())
    assert len(reading.lines[0].raw) > 300
