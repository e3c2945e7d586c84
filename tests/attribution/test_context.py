"""The same ingredient in different company: cases of the first issue and of traps.md, each with its basis."""

from __future__ import annotations

import pytest

import formulate


def row(text: str, name: str, **options: str):
    answer = formulate.roles(text, **options)
    return next(one for one in answer.ingredients if one.raw.casefold().startswith(name.casefold())), answer


def roles_of(text: str, name: str, **options: str) -> tuple[str, set[str]]:
    one, _ = row(text, name, **options)
    return one.roles[0].role, {also.role for also in one.also}


@pytest.mark.parametrize(
    ("text", "name", "role"),
    [
        # basis: the contract's word 'an amine by what it meets'; common practice, no source, for each company
        ("Aqua, Carnauba Wax, Oleic Acid, Triethanolamine", "Triethanolamine", "ph-adjuster"),
        ("Aqua, Dimethicone, Carbomer, Triethanolamine", "Triethanolamine", "ph-adjuster"),
        ("Aqua, Colloidal Silica, Triethanolamine", "Triethanolamine", "ph-adjuster"),
        ("Ethanol, Methyltrimethoxysilane, Aqua, Acetic Acid", "Acetic Acid", "catalyst"),  # traps.md R4
        ("Aqua, Amodimethicone, Trideceth-12, Cetrimonium Chloride, Acetic Acid", "Acetic Acid", "ph-adjuster"),  # R3
        ("Aqua, Acetic Acid, Laureth-7", "Acetic Acid", "ph-adjuster"),
        ("Aqua, Carnauba Wax, Oleic Acid, Morpholine", "Morpholine", "ph-adjuster"),
        ("Aqua, Carnauba Wax, Oleic Acid, Ammonium Hydroxide", "Ammonium Hydroxide", "ph-adjuster"),
        ("Isopropanol, Aqua, Silica Silylate", "Isopropanol", "carrier"),
        ("Aqua, Isopropanol, Laureth-7", "Isopropanol", "cosolvent"),
        (
            "Aqua, Amodimethicone, Trideceth-12, Cetrimonium Chloride, Phenoxyethanol, Isopropanol",
            "Isopropanol",
            "residue",
        ),
        ("Aqua, Amodimethicone, Trideceth-12, Cetrimonium Chloride, Acetic Acid", "Cetrimonium", "emulsifier"),  # R3
        ("Aqua, Dicocodimonium Chloride, White Mineral Oil, 2-Butoxyethanol", "Dicocodimonium", "drying-aid"),
        ("Aqua, Glycerin, Citric Acid, Sodium Citrate", "Sodium Citrate", "buffer"),
        ("Aqua, Carnauba Wax, Laureth-7", "Laureth-7", "emulsifier"),
        ("Aqua, Isopropanol, Laureth-7", "Laureth-7", "wetting-agent"),
        (
            "Aqua, Sodium Laureth Sulfate, Cocamide DEA, Sodium Chloride, Parfum, Dimethicone",
            "Dimethicone",
            "antifoam",
        ),  # R10
        ("Naphtha, Kaolin, Carnauba Wax", "Kaolin", "abrasive"),  # R6
        ("Aqua, Acrylates Copolymer, Kaolin, Hydroxyethylcellulose", "Kaolin", "hard-particle"),
        ("Disiloxane, Ethanol, Amodimethicone, Parfum", "Disiloxane", "carrier"),  # R1; boiling point 100 C
        ("Aqua, Sodium Methyl Siliconate 3 %", "Sodium Methyl", "water-repellent"),  # R8
        ("Isopropanol, Silica Silylate", "Silica Silylate", "water-repellent"),  # R6
        ("Aqua, Colloidal Silica, Potassium Hydroxide", "Colloidal", "hard-particle"),  # R6
        ("Aqua, Colloidal Silica, Potassium Hydroxide", "Potassium", "ph-adjuster"),  # R6
        ("Naphtha, Kaolin, Silica, Carnauba Wax", "Silica", "abrasive"),  # R6
    ],
)
def test_main_purpose_in_company(text, name, role):
    one, _ = row(text, name)
    assert one.roles[0].role == role, [(choice.role, round(choice.probability, 2)) for choice in one.roles[:4]]


@pytest.mark.parametrize(
    ("text", "name", "also"),
    [
        ("Aqua, Carnauba Wax, Oleic Acid, Triethanolamine", "Triethanolamine", "emulsifier"),  # soap made in place
        ("Aqua, Carnauba Wax, Oleic Acid, Morpholine", "Morpholine", "emulsifier"),
        ("Ethanol, Methyltrimethoxysilane, Aqua, Acetic Acid", "Methyltrimethoxysilane", "film-former"),  # R4
        ("Isopropanol, Silica Silylate", "Silica Silylate", "hard-particle"),  # R6
        ("Isopropanol, Polydimethylsiloxane 350 cSt", "Polydimethylsiloxane", "gloss-and-slip"),  # R2
    ],
)
def test_further_functions_in_company(text, name, also):
    role, further = roles_of(text, name)
    assert also in further | {role}


def test_viscosity_decides_whether_a_silicone_carries_or_repels():
    """traps.md R2: 1.5 cSt is decamethyltetrasiloxane-like and leaves; 350 cSt stays; not said keeps both."""
    assert roles_of("Polydimethylsiloxane 1.5 cSt, Dimethicone 350 cSt", "Polydimethylsiloxane 1.5")[0] == "carrier"
    assert roles_of("Isopropanol, Polydimethylsiloxane 350 cSt", "Polydimethylsiloxane")[0] == "water-repellent"
    one, _ = row("Isopropanol, Polydimethylsiloxane", "Polydimethylsiloxane")
    kept = {choice.role for choice in one.roles}
    assert {"carrier", "water-repellent"} <= kept
    assert one.fate == "depends"


def test_a_quat_clashes_with_an_anionic_sol_and_not_with_an_aminosilicone():
    clash = formulate.roles("Aqua, Colloidal Silica, Cetrimonium Chloride")
    assert clash.conflicts
    calm = formulate.roles("Aqua, Amodimethicone, Trideceth-12, Cetrimonium Chloride, Acetic Acid")
    assert not [one for one in calm.conflicts if one.severity in {"grave", "serious", "care"}]


def test_methanol_is_flagged_and_siliconate_is_called_alkaline():
    silane = formulate.roles("Ethanol, Methyltrimethoxysilane, Aqua, Acetic Acid")  # R4
    assert any("methanol" in one.says for one in silane.cautions)
    siliconate = formulate.roles("Aqua, Sodium Methyl Siliconate 3 %")  # R8
    assert any("alkaline" in one.says for one in siliconate.cautions)
