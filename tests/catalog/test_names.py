"""Keys of names: what carries no meaning goes, what does stays."""

import pytest

from formulate.catalog.names import name_key, pattern_key, pattern_keys, word_key


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("Sodium Laureth Sulfate", "sodium laureth sulphate"),
        ("Aluminum oxide", "ALUMINIUM OXIDE"),
        ("Eau", "eau "),
        ("Iso-propyl alcohol", "isopropyl alcohol"),
        ("α-pinene", "alpha-Pinene"),
        ("1,2-Hexanediol", "1, 2-hexane diol"),
        ("Glycérine", "glycerine"),
    ],
)
def test_same_key(one, other):
    assert name_key(one) == name_key(other)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("1,2-hexanediol", "12-hexanediol"),
        ("C9-11 Pareth-6", "C911 Pareth-6"),
        ("methanol", "ethanol"),
        ("1-butoxyethanol", "2-butoxyethanol"),
        ("Disiloxane", "Disilazane"),
    ],
)
def test_other_key(one, other):
    assert name_key(one) != name_key(other)


def test_word_order_is_a_key_of_its_own():
    assert word_key("Silica, amorphous") == word_key("amorphous silica")


def test_pattern_keeps_its_own_numbers():
    assert pattern_key("C9-11 pareth-#") in pattern_keys("C9-11 Pareth-6")
    assert pattern_key("C9-11 pareth-#") not in pattern_keys("C12-15 Pareth-6")
    assert pattern_key("C#-# pareth-#") in pattern_keys("C12-15 Pareth-6")
    keys = pattern_keys("C9-11 Pareth-6")
    assert keys.index(pattern_key("C9-11 pareth-#")) < keys.index(pattern_key("C#-# pareth-#"))
    assert pattern_key("trideceth-#") in pattern_keys("Trideceth-6-10")
