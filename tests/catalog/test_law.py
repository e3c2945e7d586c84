"""Law in the dataset: against the criteria of the regulation, against the public list, and within itself."""

from __future__ import annotations

import csv
import re
import shutil
from collections import defaultdict

import pytest

from formulate.catalog.law import HazardRow
from formulate.catalog.store import data_root
from formulate.catalog.tables import read_rows, read_tables
from formulate.errors import DataError

ROOT = data_root()

STATEMENTS = {
    # Regulation (EC) No 1272/2008, Annex VI Part 1, Table 1.1: hazard class and category -> statements it can carry
    "Flam. Gas 1": "H220", "Flam. Gas 2": "H221", "Flam. Liq. 1": "H224", "Flam. Liq. 2": "H225",
    "Flam. Liq. 3": "H226", "Flam. Sol. 1": "H228", "Flam. Sol. 2": "H228", "Press. Gas ": "",
    "Org. Perox. B": "H241", "Pyr. Sol. 1": "H250", "Self-heat. 1": "H251", "Water-react. 2": "H261",
    "Ox. Liq. 1": "H271", "Ox. Liq. 2": "H272", "Ox. Liq. 3": "H272", "Ox. Sol. 2": "H272", "Ox. Sol. 3": "H272",
    "Acute Tox. 1": "H300 H310 H330", "Acute Tox. 2": "H300 H310 H330", "Acute Tox. 3": "H301 H311 H331",
    "Acute Tox. 4": "H302 H312 H332", "Asp. Tox. 1": "H304", "Skin Corr. 1": "H314", "Skin Corr. 1A": "H314",
    "Skin Corr. 1B": "H314", "Skin Corr. 1C": "H314", "Skin Irrit. 2": "H315", "Skin Sens. 1": "H317",
    "Skin Sens. 1A": "H317", "Skin Sens. 1B": "H317", "Eye Dam. 1": "H318", "Eye Irrit. 2": "H319",
    "Resp. Sens. 1": "H334", "STOT SE 1": "H370", "STOT SE 2": "H371", "STOT SE 3": "H335 H336", "Muta. 1B": "H340",
    "Muta. 2": "H341", "Carc. 1A": "H350", "Carc. 1B": "H350", "Carc. 2": "H351", "Repr. 1A": "H360",
    "Repr. 1B": "H360", "Repr. 2": "H361", "Lact. ": "H362", "Ox. Gas 1": "H270",
    "Ox. Sol. 1": "H271", "Org. Perox. D": "H242", "Org. Perox. E": "H242", "Org. Perox. F": "H242",
    "Pyr. Liq. 1": "H250", "Self-react. C": "H242", "Water-react. 1": "H260", "STOT RE 1": "H372", "STOT RE 2": "H373",
    "Aquatic Acute 1": "H400", "Aquatic Chronic 1": "H410", "Aquatic Chronic 2": "H411", "Aquatic Chronic 3": "H412",
    "Aquatic Chronic 4": "H413", "Ozone 1": "H420",
}  # fmt: skip
ACUTE = {
    # the same regulation, Annex I, Table 3.1.1: upper ends of categories 1 to 4
    ("oral", "mg/kg bw"): (5, 50, 300, 2000),
    ("dermal", "mg/kg bw"): (50, 200, 1000, 2000),
    ("inhaled", "mg/L vapour"): (0.5, 2, 10, 20),
    ("inhaled", "mg/L dust or mist"): (0.05, 0.5, 1, 5),
    ("inhaled", "ppm gas"): (100, 500, 2500, 20000),
}
ROUTES = {"H30": "oral", "H31": "dermal", "H33": "inhaled"}


@pytest.fixture(scope="module")
def tables():
    return read_tables(ROOT)


@pytest.fixture(scope="module")
def law(tables):
    return tables.law


def of(law, ingredient, statement=None):
    return [
        row for row in law.hazards if row.ingredient == ingredient and (statement is None or row.statement == statement)
    ]


def test_every_class_carries_a_statement_of_its_own(law):
    for row in law.hazards:
        if row.hazard_class == "supplemental":
            assert row.statement.startswith("EUH"), row
        elif row.hazard_class:
            allowed = STATEMENTS[f"{row.hazard_class} {row.category}"].split()
            assert row.statement[:4] in (allowed or [""]), row


def test_factors_and_estimates_stand_where_the_regulation_allows_them(law):
    for row in law.hazards:
        if row.m_factor is not None:
            assert (row.hazard_class, row.category) in {("Aquatic Acute", "1"), ("Aquatic Chronic", "1")}, row
            assert row.m_factor in {1, 10, 100, 1000, 10000, 100000}, row  # powers of ten: Annex I, 4.1.3.5.5.5
        if row.ate is not None:
            ends = (0, *ACUTE[ROUTES[row.statement[:3]], row.ate_unit])
            category = int(row.category)
            assert ends[category - 1] < row.ate <= ends[category], row


@pytest.mark.parametrize(
    ("ingredient", "class_", "category", "low", "high"),
    [
        # Annex VI Table 3, index 613-167-00-5: the public copy prints '>= ,6 %', ',06 % <= C < ,6 %' and '>= ,0015 %'
        ("cmit-mit", "Skin Corr.", "1C", 0.006, None),
        ("cmit-mit", "Skin Irrit.", "2", 0.0006, 0.006),
        ("cmit-mit", "Skin Sens.", "1A", 0.000015, None),
        ("methylisothiazolinone", "Skin Sens.", "1A", 0.000015, None),  # index 613-326-00-9
        ("methanol", "STOT SE", "1", 0.1, None),  # index 603-001-00-X: 10 %, and 3 to 10 %
        ("methanol", "STOT SE", "2", 0.03, 0.1),
        ("acetic-acid", "Skin Corr.", "1A", 0.9, None),  # index 607-002-00-6
        ("acetic-acid", "Skin Corr.", "1B", 0.25, 0.9),
        ("acetic-acid", "Skin Irrit.", "2", 0.1, 0.25),
        ("sodium-hydroxide", "Skin Irrit.", "2", 0.005, 0.02),  # index 011-002-00-6: '0,5 % <= C < 2 %'
        ("glutaral", "STOT SE", "3", 0.005, 0.05),  # index 605-022-00-X: ',5 % <= C < 5 %'
        ("hydrogen-peroxide", "STOT SE", "3", 0.35, None),  # index 008-003-00-9: 'H335; C >= 35 %'
        ("hydrochloric-acid", "Skin Corr.", "1B", 0.25, None),  # index 017-002-01-X
    ],
)
def test_specific_limits_are_read_as_the_law_means_them(law, ingredient, class_, category, low, high):
    rows = [row for row in of(law, ingredient) if (row.hazard_class, row.category) == (class_, category)]
    assert (low, high) in {(row.limit_low, row.limit_high) for row in rows}


def test_an_open_lower_limit_is_said(law):
    # index 017-012-00-7, calcium hypochlorite: '0,5 % < C < 3 %'
    row = next(row for row in of(law, "calcium-hypochlorite", "H319"))
    assert (row.limit_low, row.limit_high, row.limit_low_open) == (0.005, 0.03, "yes")


def test_bands_of_one_kind_of_harm_do_not_overlap(law):
    kinds = {"Skin Corr.": "skin", "Skin Irrit.": "skin", "Eye Dam.": "eye", "Eye Irrit.": "eye", "Ox. Liq.": "ox"}
    bands = defaultdict(list)
    for row in law.hazards:
        if row.limit_low is not None and row.hazard_class in kinds and not row.valid_to:
            bands[row.ingredient, row.index_number, kinds[row.hazard_class]].append((row.limit_low, row.limit_high))
    told = 0
    for where, found in bands.items():
        ordered = sorted(found)
        for (_, high), (low, _) in zip(ordered, ordered[1:], strict=False):
            told += 1
            assert high is not None, where
            assert high <= low, where
    assert told > 20


def test_no_entry_is_a_value_for_every_number_that_has_none(tables):
    stated = defaultdict(set)
    for row in tables.law.hazards:
        stated[row.ingredient].add(row.status)
    for ingredient in tables.ingredients:
        if ingredient.cas:
            assert stated[ingredient.id], ingredient.id
            assert stated[ingredient.id] == {"no-entry"} or "no-entry" not in stated[ingredient.id], ingredient.id
        else:
            assert not stated[ingredient.id], ingredient.id


@pytest.mark.parametrize(
    "ingredient",
    [
        "hexamethyldisiloxane",
        "octamethyltrisiloxane",
        "decamethylcyclopentasiloxane",
        "isododecane",
        "propylene-glycol",
    ],
)
def test_volatile_liquids_without_a_harmonised_entry_say_so(law, ingredient):
    # no row with their numbers in Annex VI Table 3 up to the 17th adaptation
    assert [row.status for row in of(law, ingredient)] == ["no-entry"]


def test_the_annulled_classification_of_titanium_dioxide_is_marked(law):
    # General Court T-279/20 (23 November 2022), upheld in C-71/23 P (1 August 2025)
    rows = of(law, "titanium-dioxide")
    assert [(row.status, row.statement, row.valid_to) for row in rows] == [("annulled", "H351", "2022-11-23")]


def test_d4_is_toxic_to_reproduction_with_a_factor_of_ten(law):
    # Delegated Regulation (EU) 2020/1182, index 014-018-00-1
    rows = {(row.hazard_class, row.category, row.m_factor) for row in of(law, "octamethylcyclotetrasiloxane")}
    assert rows == {("Repr.", "2", None), ("Aquatic Chronic", "1", 10)}


def test_naphtha_carries_note_p(law):
    # Annex VI 1.1.3.1: note P lifts carcinogen and mutagen below 0.1 % benzene
    rows = [row for row in law.hazards if "P" in row.notes.split()]
    assert len({row.ingredient for row in rows}) >= 8
    assert {row.hazard_class for row in rows} >= {"Carc.", "Muta.", "Asp. Tox."}


def test_days_are_in_order(law):
    acts = {row.act: row.applies_from for row in law.legal_acts}
    for row in law.hazards:
        if row.act:
            assert row.valid_from == max(acts[act] for act in row.act.split("/")), row
        if row.valid_to:
            assert row.valid_from < row.valid_to, row
    for row in (*law.hazards, *law.exposure_limits, *law.restrictions):
        assert "2026-11-01" <= row.checked_on <= "2036-01-01", row
        assert row.as_of <= row.checked_on, row
        assert not row.valid_from or "1970-01-01" <= row.valid_from <= "2036-01-01", row


def test_the_public_list_and_the_table_name_the_same_classes(law, tables, shared):
    """Every class and statement of the public list for our numbers, and nothing that it does not have."""
    listed = defaultdict(set)
    with (shared / "facts/eu_clp_annex_vi/clp_annex_vi_atp17.csv").open(encoding="utf-8", newline="") as stream:
        for row in csv.DictReader(stream):
            listed[row["index_no"]] |= set(re.findall(r"(?:EU)?H\d{3}[A-Za-z]{0,2}", f"{row['h_codes']} {row['euh']}"))
    mine = defaultdict(set)
    for row in law.hazards:
        if row.source == "clp-annex-vi-atp17" and row.applies_to == "substance" and row.statement:
            mine[row.index_number].add(row.statement)
    assert len(mine) > 300
    assert {index: listed[index] for index in mine} == dict(mine)


def test_limits_in_air_agree_in_both_units(law, catalog):
    """The ppm and mg/m3 of a row are printed, not computed: they agree through the molar mass within 12 %."""
    apart, told = set(), 0
    for row in law.exposure_limits:
        mass = catalog.ingredient(row.ingredient).structure.get("molar_mass")
        if row.ppm and row.mg_m3 and mass:
            told += 1
            ratio = row.mg_m3 / (row.ppm * mass / 24.05)  # molar volume at 20 C and 101.3 kPa, L/mol
            if not 0.88 < ratio < 1.12:
                apart.add((row.ingredient, row.limit, row.average))
    assert told > 400
    assert apart == set(KNOWN_APART)


KNOWN_APART = {
    ("acetic-anhydride", "UK WEL", "15 min"): "2 ppm is 8.5 mg/m3; rounded to 10",
    ("acetic-anhydride", "UK WEL", "8 h"): "0.5 ppm is 2.1 mg/m3; printed as 2.5",
    ("biphenyl", "NIOSH REL", "10 h"): "0.2 ppm is 1.3 mg/m3; printed as 1",
    ("biphenyl", "OSHA PEL", "8 h"): "0.2 ppm is 1.3 mg/m3; printed as 1",
    ("dibutyl-phosphate", "NIOSH REL", "10 h"): "1 ppm is 8.7 mg/m3; printed as 5",
    ("dibutyl-phosphate", "NIOSH REL", "15 min"): "2 ppm is 17 mg/m3; printed as 10",
    ("dibutyl-phosphate", "OSHA PEL", "8 h"): "1 ppm is 8.7 mg/m3; printed as 5",
    ("diethanolamine", "NIOSH REL", "10 h"): "3 ppm is 13 mg/m3; printed as 15",
    ("ethanolamine", "OSHA PEL", "8 h"): "3 ppm is 7.6 mg/m3; the rule prints 6",
    ("formamide", "NIOSH REL", "10 h"): "10 ppm is 19 mg/m3; printed as 15",
    ("hydrochloric-acid", "UK WEL", "8 h"): "1 ppm is 1.5 mg/m3; rounded to 2",
    ("methyl-cyanoacrylate", "NIOSH REL", "10 h"): "2 ppm is 9.2 mg/m3; printed as 8",
    ("methyl-cyanoacrylate", "NIOSH REL", "15 min"): "4 ppm is 18 mg/m3; printed as 16",
    ("n-butyl-lactate", "NIOSH REL", "10 h"): "5 ppm is 30 mg/m3; printed as 25",
    ("propargyl-alcohol", "NIOSH REL", "10 h"): "1 ppm is 2.3 mg/m3; printed as 2",
    ("tributyl-phosphate", "NIOSH REL", "10 h"): "0.2 ppm is 2.2 mg/m3; printed as 2.5",
}


def test_a_short_limit_is_not_below_the_long_one(law):
    long = {}
    for row in law.exposure_limits:
        if row.average in {"8 h", "10 h"} and row.ppm:
            long[row.ingredient, row.limit] = row.ppm
    for row in law.exposure_limits:
        if row.average in {"15 min", "10 min", "ceiling"} and row.ppm and (row.ingredient, row.limit) in long:
            assert row.ppm >= long[row.ingredient, row.limit], row


def test_the_named_restrictions_are_there(law):
    found = {(row.ingredient or row.class_, row.threshold, row.valid_from) for row in law.restrictions}
    for ingredient in ("octamethylcyclotetrasiloxane", "decamethylcyclopentasiloxane", "dodecamethylcyclohexasiloxane"):
        assert (ingredient, 0.001, "2026-06-06") in found  # Regulation (EU) 2024/1328
    assert ("methanol", 0.006, "2019-05-09") in found  # Regulation (EU) 2018/589
    assert ("perfluorooctyltriethoxysilane", 2e-9, "2021-01-02") in found  # Regulation (EU) 2019/957
    assert ("diethylene-glycol-butyl-ether", 0.03, "2010-12-27") in found  # REACH Annex XVII entry 55
    assert ("cmit-mit", 0.000015, "2020-05-01") in found  # Regulation (EU) 2018/1480


def test_an_ingredient_with_two_entries_says_which_form_each_is_for(law):
    forms = defaultdict(dict)
    for row in law.hazards:
        if row.source == "clp-annex-vi-atp17" and row.index_number:
            forms[row.ingredient][row.index_number] = row.form
    several = {key: found for key, found in forms.items() if len(found) > 1}
    assert len(several) > 10
    assert [key for key, found in several.items() if len(set(found.values())) < len(found)] == []


def test_memory_is_never_the_only_support_of_a_hazard(law):
    assert not [row for row in law.hazards if row.source in {"memory", "common-practice"}]


def test_usual_amounts_are_one_distribution(law):
    for row in law.use_levels:
        assert row.low <= row.typical <= row.high <= 1
        if row.records:
            assert row.typical < row.recorded_median, row  # records lean high
            if row.high < 1:
                assert row.high / row.low == pytest.approx(2.718281828 ** (2 * 1.2816 * row.log_sd), rel=0.05), row


@pytest.mark.parametrize(
    ("column", "value"),
    [("statement", "H99"), ("m_factor", "0.1"), ("limit_low", "60"), ("status", "none"), ("valid_from", "1.6.2015")],
)
def test_a_broken_hazard_names_row_and_column(tmp_path, column, value):
    path = tmp_path / "hazards.csv"
    shutil.copy(ROOT / "hazards.csv", path)
    with path.open(encoding="utf-8", newline="") as stream:
        rows = list(csv.DictReader(stream))
    rows[2][column] = value
    with path.open("w", encoding="utf-8", newline="") as stream:
        writer = csv.DictWriter(stream, rows[0], lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
    with pytest.raises(DataError) as caught:
        read_rows(path, HazardRow)
    assert f'hazards.csv row 4, column "{column}"' in caught.value.what
