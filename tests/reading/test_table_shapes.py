"""Tables in shapes that do not tell the common three rows. All rows are invented."""

from __future__ import annotations

from tests.reading.test_lists import read
from tests.reading.test_tables import HEAD, rows


def test_names_and_functions_in_two_columns_without_any_number() -> None:
    text = (
        "            Ingredient                Function\n"
        "               Water                  Carrier\n"
        "           Wipe fleece                Fabric\n"
        "        C9-11 Pareth-6              Surfactant\n"
        "   Sodium polyacrylate              Thickener\n"
        "            Perfume                   Perfume\n"
    )
    assert [(line.name, line.function, line.stated) for line in read(text).lines] == [
        ("Water", "Carrier", None),
        ("Wipe fleece", "Fabric", None),
        ("C9-11 Pareth-6", "Surfactant", None),
        ("Sodium polyacrylate", "Thickener", None),
        ("Perfume", "Perfume", None),
    ]


def test_a_name_above_the_line_of_its_number_and_codes_below() -> None:
    text = (
        f"{HEAD}  3.1     Substances:\n          Not applicable\n  3.2     Mixtures:\n"
        "          Chemical description: Solvent mixture\n          Components:\n"
        "     Identification                 Chemical name/Classification               Concentration\n"
        "                      Hydrocarbons, C9-C11, isoalkanes, < 0.1 % EC 201-069-1\n"
        "     CAS: 64742-49-0                                                            20 - <40 %\n"
        "                      Asp. Tox. 1: H304; Flam. Liq. 3: H226 - Danger\n"
        "                      Film-forming resin\n"
        "     CAS: Trade Secret   Eye Irrit. 2: H319 - Warning                           2.5 - <5 %\n"
        "                      ethanol\n"
        "     CAS: 64-17-5                                                               1 - <2.5 %\n"
        "                      Flam. Liq. 2: H225; Eye Irrit. 2A: H319 - Danger\n"
    )
    assert rows(read(text)) == [
        ("Hydrocarbons, C9-C11, isoalkanes", "64742-49-0", 0.2, 0.4),
        ("Film-forming resin", None, 0.025, 0.05),
        ("ethanol", "64-17-5", 0.01, 0.025),
    ]


def test_a_withheld_number_between_name_and_bare_amount() -> None:
    text = f"{HEAD}Ingredients CAS No. Percent\nAcrylic/wax dispersion Proprietary 25.0\nWater 7732-18-5 75.0\n"
    assert rows(read(text)) == [
        ("Acrylic/wax dispersion", None, 0.25, 0.25),
        ("Water", "7732-18-5", 0.75, 0.75),
    ]


def test_a_range_printed_with_one_sign() -> None:
    text = (
        f"{HEAD}     Ingredients                    CAS Number/Weight-%\n"
        "  Purified water                 7732-18-5/ 91<95%\n"
        "  Resins                         Withheld/ 2<4%\n"
        "  Wetting blend                  Withheld/<1%\n"
    )
    assert rows(read(text)) == [
        ("Purified water", "7732-18-5", 0.91, 0.95),
        ("Resins", None, 0.02, 0.04),
        ("Wetting blend", None, None, 0.01),
    ]


def test_a_name_cut_short_goes_on_beside_the_amount() -> None:
    text = (
        f"{HEAD}        Chemical Name            CAS-No.               Weight percent\n"
        "  Ethanol                        64-17-5               1.00 - 5.00\n"
        "  Hexanedioic acid, polymer with 9010-92-8\n"
        "  ethane-1,2-diol and (2-                              2.00 - 6.00\n"
        "  methyl)propanol\n"
        "  Xylene                         1330-20-7             0.10 - 1.00\n"
    )
    assert rows(read(text)) == [
        ("Ethanol", "64-17-5", 0.01, 0.05),
        ("Hexanedioic acid, polymer with ethane-1,2-diol and (2-methyl)propanol", "9010-92-8", 0.02, 0.06),
        ("Xylene", "1330-20-7", 0.001, 0.01),
    ]


def test_risk_phrases_behind_a_sign_are_no_range() -> None:
    text = (
        f"{HEAD}Substance\n\nRange [%]\n\nPotash solution\n\n\n0,5 - < 5\n\nC 34-35\n\n"
        "Xylene\n\n1330-20-7\n\n1 - < 10\n\nF&Xn 10-20-38\n"
    )
    assert rows(read(text)) == [("Potash solution", None, 0.005, 0.05), ("Xylene", "1330-20-7", 0.01, 0.1)]
