"""The brief: what it says first, what it never says, and what is absent when its reason is."""

from __future__ import annotations

import re

import pytest

import formulate
from tests.conftest import EXAMPLES, example_ids


def test_the_mist_comes_first_for_any_spray_of_a_repellent():
    """Scheepers et al. 2017, doi 10.1186/s12995-017-0180-7: water base and little solvent do not clear it."""
    for form in ("spray", "aerosol", "trigger"):
        for text in (
            "Aqua, Dimethicone",
            "Aqua, Fluoroacrylate Copolymer",
            "Aqua, Carnauba Wax",
            "Aqua, Acrylates Copolymer",
            "Butyl Acetate, Hexamethylene diisocyanate, Dimethicone",
            "Aqua, Sodium Hypochlorite, Hydrochloric Acid, Dimethicone",
        ):
            caution = formulate.brief(text, form=form).caution
            assert caution is not None
            assert "mist" in caution.text, text


def test_without_a_repellent_or_film_there_is_no_mist_caution():
    caution = formulate.brief("Aqua, Citric Acid", form="spray").caution
    assert caution is None or "mist of something that repels" not in caution.text


def test_a_headline_that_is_not_in_the_list_is_said_first():
    """traps.md: none of 23 disclosures with a 'ceramic' claim names silica, a silane or a silazane."""
    answer = formulate.brief("Aqua, Dimethicone, Trideceth-6, Carnauba Wax", claim="ceramic SiO2 coating")
    assert answer.headline.in_list is False
    assert answer.sentences[0].text == answer.headline.says
    for words in ("no line of the list names it", "below the amount", "withheld", "film will be made of"):
        assert words in answer.headline.says
    assert "Carnauba wax" in answer.headline.says


def test_a_headline_that_is_in_the_list_says_what_it_can_and_cannot_do():
    answer = formulate.brief("Aqua, Colloidal Silica, Amodimethicone", claim="SiO2 coating")
    assert answer.headline.in_list is True
    assert "wetted by water" in answer.headline.says


@pytest.mark.parametrize(
    "claim",
    ["wax-free glass spray", "contains no silica", "removes old wax", "for ceramic tiles", "cleans waxed floors"],
)
def test_what_is_denied_taken_off_or_treated_is_no_promise(claim):
    answer = formulate.brief("Aqua, Isopropyl Alcohol, Trideceth-6", claim=claim)
    assert answer.headline is None
    assert "front promises" not in " ".join(one.text for one in answer.sentences)


def test_a_guessed_class_settles_no_headline():
    """A word form is a guess: whether the promise is kept stays open."""
    answer = formulate.brief("Aqua, Vernotrimethoxysilane, Trideceth-6", claim="ceramic coating")
    assert answer.headline.in_list is None


def test_the_second_caution_is_said_too():
    answer = formulate.brief("Butane, Heptane, Dimethicone", form="aerosol")
    text = " ".join(one.text for one in answer.sentences)
    assert "mist" in answer.caution.text
    assert "catch fire" in text or "burns" in text


@pytest.mark.parametrize("form", [None, "spray"])
def test_nothing_is_said_twice(form):
    answer = formulate.brief("Aqua, Sodium Hypochlorite, Hydrochloric Acid, Isopropyl Alcohol", form=form)
    assert sum("toxic gas" in one.text for one in answer.sentences) == 1
    assert any("toxic gas" in one.text for one in answer.sentences)


def test_sentences_are_absent_when_their_reason_is():
    assert formulate.brief("").sentences == ()
    text = " ".join(one.text for one in formulate.brief("Aqua, Glycerin").sentences)
    assert "could make water bead" not in text
    assert "front promises" not in text


@pytest.mark.parametrize("path", EXAMPLES, ids=example_ids)
def test_nothing_is_ever_called_safe_and_every_sentence_hangs_on_a_reason(path):
    for form in (None, "spray", "wipe"):
        answer = formulate.brief(path, form=form)
        said = " ".join([one.text for one in answer.sentences] + [reason.says for reason in answer.reasons.values()])
        assert not re.search(r"(?<!data )\bsafe(?:ly)?\b", said.replace("safety data sheet", ""))
        assert all(one.why in answer.reasons for one in answer.sentences)
