"""Properties: possible at all, in one unit, and held against libraries that do not share their source."""

import csv
import shutil
import warnings
from collections import defaultdict
from functools import cache
from pathlib import Path

import pytest

from formulate.catalog.properties import PROPERTIES, fault
from formulate.catalog.quality import VOLATILE, confirmed, coverage, origins, total
from formulate.catalog.store import data_root
from formulate.catalog.tables import read_tables
from formulate.errors import DataError

ROOT = data_root()
KNOWN = Path(__file__).with_name("known_disagreements.csv")
OWN_METHOD = {
    "crc-handbook": {"CRC_ORG", "CRC_INORG"},
    "nist-webbook": {"WEBBOOK", "ANTOINE_WEBBOOK"},
    "yaws-boiling": {"YAWS"},
    "yaws-handbook": {"YAWS"},
    "coolprop-heos": {"HEOS", "HEOS_FIT"},
    "perry-8e": {"DIPPR_PERRY_8E"},
    "vdi-atlas": {"VDI_PPDS"},
    "landolt-bornstein-v20": {"LANDOLT"},
    "poling-5e": {"ANTOINE_POLING", "WAGNER_POLING", "ANTOINE_EXTENDED_POLING"},
    "mcgarry-1983": {"WAGNER_MCGARRY"},
    "wikidata": {"WIKIDATA"},
}
"""Methods of the libraries that carry the very table a row was read from: no check of that row."""
BOILING = ("HEOS", "CRC_ORG", "WEBBOOK", "YAWS")
LIQUID = ("HEOS_FIT", "DIPPR_PERRY_8E", "VDI_PPDS")
SATURATION = ("HEOS_FIT", "DIPPR_PERRY_8E", "ANTOINE_POLING", "WAGNER_POLING", "VDI_PPDS", "LANDOLT")


@pytest.fixture(scope="module")
def tables():
    return read_tables(ROOT)


@pytest.fixture(scope="module")
def molecules(tables):
    """Ingredients that are one molecule with a CAS number, by id."""
    return {row.id: row for row in tables.ingredients if row.structure_of == "molecule" and row.smiles and row.cas}


@pytest.mark.parametrize(
    ("name", "unit", "value", "low", "high", "column"),
    [
        ("colour", "1", 1, None, None, "property"),
        ("density", "kg/m3", 870, None, None, "unit"),
        ("density", "g/mL", 870, None, None, "value"),
        ("boiling_point", "degC", -300, None, None, "value"),
        ("boiling_point", "degC", None, 120, 100, "value_min"),
        ("boiling_point", "degC", 110, 100, 120, "value"),
        ("flash_point", "degC", None, None, None, "value"),
        ("flash_point_none", "1", 0, None, None, "value"),
        ("lower_flammable_limit", "vol %", 0.011, None, None, "value"),
    ],
)
def test_a_slip_is_found_in_its_column(name, unit, value, low, high, column):
    wrong = fault(name, unit, value, low, high)
    assert wrong is not None
    assert wrong[0] == column


@pytest.mark.parametrize(
    ("column", "cells"),
    [("property", "smell,100,,,degC"), ("unit", "boiling_point,373,,,K"), ("value", "boiling_point,99999,,,degC")],
)
def test_a_row_that_cannot_be_is_refused_with_its_place(tmp_path, column, cells):
    root = tmp_path / "data_public"
    shutil.copytree(ROOT, root)
    path = root / "properties.csv"
    text = path.read_text(encoding="utf-8")
    path.write_text(f"{text}water,{cells},,tabulated,,crc-handbook,CAS 7732-18-5,,\n", encoding="utf-8")
    with pytest.raises(DataError) as caught:
        read_tables(root)
    assert f'properties.csv row {len(text.splitlines()) + 1}, column "{column}"' in caught.value.what


def test_every_property_of_the_vocabulary_is_used_or_states_an_absence(tables):
    used = {row.property for row in tables.properties}
    assert {name for name in set(PROPERTIES) - used if not name.endswith("_none")} == set()


def test_a_value_says_where_it_was_read(tables):
    bare = [
        (row.ingredient, row.property, row.source)
        for row in tables.properties
        if row.origin in {"computed", "estimated"} and not (row.via or row.note)
    ]
    assert bare == []


def test_an_estimate_says_what_it_rests_on(tables):
    assert [row for row in tables.properties if row.origin == "estimated" and not row.note] == []


def test_memory_is_marked_in_both_columns(tables):
    assert [row for row in tables.properties if (row.source == "memory") != (row.origin == "from-memory")] == []


def test_no_property_is_given_and_denied(tables):
    """Unless the rows that deny it say what they mean: some sources print NA for a gas that always burns."""
    held = defaultdict(set)
    for row in tables.properties:
        held[row.ingredient].add(row.property)
    both = [
        (row.ingredient, row.property)
        for row in tables.properties
        if row.property.endswith("_none")
        and row.property.removesuffix("_none") in held[row.ingredient]
        and not row.note
    ]
    assert both == []


def test_lower_limits_lie_in_the_band_of_vapours_in_air(tables):
    """0.4 vol % (long alkanes) to 15 vol % (ammonia), with room: NIOSH pocket guide, entries of the table."""
    values = [row.value for row in tables.properties if row.property == "lower_flammable_limit" and row.value]
    assert len(values) > 250
    assert min(values) >= 0.2
    assert max(values) <= 20


def test_molar_masses_agree_with_the_structure(tables, catalog):
    from rdkit.Chem import MolFromSmiles
    from rdkit.Chem.Descriptors import MolWt

    smiles = {row.id: row.smiles for row in tables.ingredients}
    compared = 0
    for row in tables.properties:
        if row.property == "molar_mass" and row.value and row.at.startswith("from ") and smiles[row.ingredient]:
            assert row.value == pytest.approx(MolWt(MolFromSmiles(smiles[row.ingredient])), rel=1e-3), row
            compared += 1
    assert compared >= 10


def _written(rows):
    """Disagreements as they stand in the table: what differs, without the reason."""
    return {(row["ingredient"], row["property"], row["source"], row["ours"], row["method"]) for row in rows}


@cache
def _known():
    with KNOWN.open(encoding="utf-8", newline="") as stream:
        return tuple(tuple(row.items()) for row in csv.DictReader(stream))


def _listed(*properties):
    return [row for row in map(dict, _known()) if row["property"] in properties]


def _row(row, shown, library, method):
    return {
        "ingredient": row.ingredient,
        "property": row.property,
        "source": row.source,
        "ours": shown,
        "library": library,
        "method": method,
    }


def _plain(row):
    """Whether a row is one number that nobody doubts and that was not estimated or remembered."""
    return row.value is not None and row.origin not in {"estimated", "from-memory"} and not row.note.startswith("doubt")


def formula_disagreements(molecules):
    """Formulas of ``chemicals`` 1.5.2 by CAS number that are not those of our structure."""
    import chemicals
    from rdkit.Chem import MolFromSmiles
    from rdkit.Chem.rdMolDescriptors import CalcMolFormula

    compared, found = 0, []
    for row in molecules.values():
        try:
            theirs = chemicals.search_chemical(row.cas).formula
        except ValueError:
            continue
        if not theirs:
            continue
        ours = CalcMolFormula(MolFromSmiles(row.smiles))
        compared += 1
        if chemicals.serialize_formula(ours) != chemicals.serialize_formula(theirs):
            found.append(
                {
                    "ingredient": row.id,
                    "property": "formula",
                    "source": row.source,
                    "ours": ours,
                    "library": theirs,
                    "method": "chemicals.search_chemical",
                }
            )
    return compared, found


def boiling_disagreements(tables, molecules, within=3.0):
    """Boiling points more than 3 K from ``chemicals.Tb`` by a method that is not the row's own table."""
    import chemicals

    compared, found = 0, []
    for row in tables.properties:
        if row.property != "boiling_point" or row.ingredient not in molecules or not _plain(row):
            continue
        cas = molecules[row.ingredient].cas
        offered = [one for one in BOILING if one not in OWN_METHOD.get(row.source, ())]
        method = next((one for one in offered if one in chemicals.Tb_methods(cas)), None)
        if method is None:
            continue
        compared += 1
        theirs = chemicals.Tb(cas, method=method) - 273.15
        if abs(theirs - row.value) > within:
            found.append(_row(row, f"{row.value:g}", f"{theirs:.1f}", f"chemicals.Tb {method}"))
    return compared, found


def density_disagreements(tables, molecules, within=0.02):
    """Densities of liquids at 20 or 25 C more than 2 % from ``thermo`` by a method that is not the row's own."""
    from rdkit.Chem import MolFromSmiles
    from rdkit.Chem.Descriptors import MolWt
    from thermo import VolumeLiquid

    def grams_per_ml(molecule, liquid, kelvin, method):
        return MolWt(MolFromSmiles(molecule.smiles)) / liquid.calculate(kelvin, method) / 1e6

    return _off_the_correlation(tables, molecules, "density", VolumeLiquid, LIQUID, grams_per_ml, within)


def pressure_disagreements(tables, molecules, within=0.15):
    """Vapour pressures at 20 or 25 C more than 15 % from ``thermo`` by another method inside its limits."""
    from thermo import VaporPressure

    def pascal(molecule, saturation, kelvin, method):
        return saturation.calculate(kelvin, method)

    return _off_the_correlation(tables, molecules, "vapour_pressure", VaporPressure, SATURATION, pascal, within)


def _off_the_correlation(tables, molecules, name, correlation, offered, number, within):
    """How many rows of a property could be compared at 20 or 25 C, and those further off than ``within``."""
    compared, found = 0, []
    for row in tables.properties:
        kelvin = {"20 degC": 293.15, "25 degC": 298.15}.get(row.conditions)
        if row.property != name or row.ingredient not in molecules or not _plain(row) or kelvin is None:
            continue
        molecule = molecules[row.ingredient]
        curve = correlation(CASRN=molecule.cas)
        method = _inside(curve, offered, OWN_METHOD.get(row.source, ()), kelvin)
        if method is None:
            continue
        theirs = number(molecule, curve, kelvin, method)
        compared += 1
        if abs(theirs / row.value - 1) > within:
            found.append(_row(row, f"{row.value:g}", f"{theirs:.4g}", f"thermo.{correlation.__name__} {method}"))
    return compared, found


def _inside(correlation, offered, own, kelvin):
    """The first method offered that is not the row's own and holds at this temperature."""
    for method in offered:
        if method not in own and method in correlation.all_methods:
            low, high = correlation.T_limits[method]
            if low <= kelvin <= high:
                return method
    return None


@pytest.mark.filterwarnings("ignore")
@pytest.mark.parametrize(
    ("name", "least", "compare"),
    [
        ("formula", 400, lambda tables, molecules: formula_disagreements(molecules)),
        ("boiling_point", 400, boiling_disagreements),
        ("density", 120, density_disagreements),
        ("vapour_pressure", 250, pressure_disagreements),
    ],
)
def test_values_agree_with_independent_libraries_or_the_disagreement_is_listed(tables, molecules, name, least, compare):
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        compared, found = compare(tables, molecules)
    assert compared >= least
    assert _written(found) == _written(_listed(name))


def test_every_listed_disagreement_has_a_reason():
    assert [row for row in map(dict, _known()) if len(row["reason"]) < 10] == []


# Reached on 2026-11-25; a figure may rise, never fall. Asked by the issue: 0.95 of the cells of what is volatile, pKa
# and silicas and waxes 0.90, HLB 0.60, every charge.
REACHED = {
    (VOLATILE, "molar mass"): 1.0,
    (VOLATILE, "boiling point"): 0.96,
    (VOLATILE, "vapour pressure at 20 to 25 C"): 0.95,
    (VOLATILE, "flash point or none"): 0.95,
    (VOLATILE, "lower limit or none"): 0.95,
    (VOLATILE, "density"): 0.94,
    (VOLATILE, "UNIFAC groups or none"): 1.0,
    ("acids, bases and buffers", "pKa or none"): 0.90,
    ("surfactants", "charge"): 1.0,
    ("surfactants", "HLB"): 0.29,
    ("emulsifiers", "HLB"): 0.71,
    ("silicas", "size or surface"): 0.95,
    ("silicas", "supplied solids"): 0.61,
    ("waxes", "melting range"): 0.86,
}
CELLS_REACHED = 0.96
MEMORY_AT_MOST = 0.049
UNIFAC_AGREE = 240
UNIFAC_DIFFER = 2


def test_coverage_is_at_the_level_reached(tables):
    lines = {(line.group, line.what): line for line in coverage(tables)}
    assert set(lines) == set(REACHED)
    assert {key for key, share in REACHED.items() if lines[key].share < share} == set()


def test_coverage_counts_what_it_says(tables):
    for line in coverage(tables):
        assert 0 <= line.measured <= line.sourced <= line.covered <= line.of, line
        assert line.needed == 0 or line.share < line.asked
    cells = total(coverage(tables), VOLATILE, without=("UNIFAC groups or none",))
    assert cells.share >= CELLS_REACHED
    with pytest.raises(ValueError, match="no group"):
        total(coverage(tables), "stones")


def test_share_from_memory(tables):
    counted = origins(tables)
    assert counted.share_from_memory <= MEMORY_AT_MOST
    assert counted.estimated == sum(row.origin == "estimated" for row in tables.properties)


def test_a_value_is_confirmed_only_by_another_source(tables):
    flags = confirmed(tables.properties)
    assert sum(flags) == origins(tables).confirmed > 1000
    lone = [row for row in tables.properties if row.ingredient == "toluene" and row.source == "crc-handbook"]
    assert not any(confirmed(lone))


def test_unifac_is_stated_for_everything_volatile_and_holds_only_known_groups(tables):
    from thermo.unifac import DOUFSG, UFSG

    names = {"unifac": UFSG, "dortmund": DOUFSG}
    for row in tables.unifac:
        assert bool(row.groups) != (row.note.startswith(("no assignment", "a mixture"))), row
        for part in filter(None, row.groups.split("; ")):
            group, _, number = part.split(" ", 1)[1].rstrip("]").rpartition("[")
            assert names[row.model][int(number)].group == group, row


def test_unifac_groups_agree_with_a_cut_of_the_structure(tables, molecules):
    """Groups found anew by the patterns of ``thermo``; it cannot cut every molecule, and offers one of several cuts."""
    from thermo.group_contribution.group_contribution_base import smarts_fragment_priority
    from thermo.unifac import UFSG

    catalog = list(UFSG.values())
    agree = differ = 0
    for row in tables.unifac:
        if row.model != "unifac" or not row.groups or row.ingredient not in molecules:
            continue
        cut, _, _, whole, _ = smarts_fragment_priority(catalog=catalog, smi=molecules[row.ingredient].smiles)
        if whole:
            ours = {int(part.rpartition("[")[2].rstrip("]")): int(part.split()[0]) for part in row.groups.split("; ")}
            agree, differ = (agree + 1, differ) if cut == ours else (agree, differ + 1)
    assert agree >= UNIFAC_AGREE
    assert differ <= UNIFAC_DIFFER
