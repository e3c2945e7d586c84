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


def test_columns_printed_apart_with_a_withheld_number() -> None:
    for text in (
        "SECTION 2: INGREDIENTS Ingredient\n\nC.A.S. No.\n\nEthanol 2-Butoxyethanol Fluorinated Acrylate\n\n"
        "64-17-5 111-76-2 Trade Secret\n\n% by Wt 40 - 50 5 - 15 0.5 - 2\n\nSECTION 3: HAZARDS IDENTIFICATION\n",
        f"{HEAD}\nComponent Ethanol 2-Butoxyethanol Fluorinated Acrylate\n\nCAS No. 64-17-5 111-76-2 Proprietary\n\n"
        "Amount 40-50 5-15 0.5-2\n\nPERCENT VOLATILE: ~97%\n",
    ):
        reading = read(text)
        assert rows(reading) == [
            ("Ethanol", "64-17-5", 0.4, 0.5),
            ("2-Butoxyethanol", "111-76-2", 0.05, 0.15),
            ("Fluorinated Acrylate", None, 0.005, 0.02),
        ]
        assert all(line.doubtful for line in reading.lines)


def test_a_column_of_amounts_that_cannot_be_shares_is_doubtful() -> None:
    text = f"{HEAD}\nComponent Ethanol Xylene Water\n\nCAS No. 64-17-5 1330-20-7 7732-18-5\n\nAmount 40-50 5-15 99%\n"
    assert [line.stated.doubtful for line in read(text).lines if line.stated] == [True, True, True]


def test_names_that_cannot_be_cut_are_told_from_the_ends_only() -> None:
    text = (
        "SECTION 2: INGREDIENTS Ingredient C.A.S. No. % by Wt WATER ETHANOL POLY[OXY-TRIMETHYLENE], "
        ".ALPHA.-BUTYL-OMEGA.HYDROXYGLUE ACID ESTER GLYCERIN PROPYLENE GLYCOL 7732-18-5 64-17-5 9003-13-8 60 - 90 "
        "5 - 15 2 - 6 111-90-0 56-81-5 57-55-6 1- 5 <3 <2 SECTION 3: HAZARDS IDENTIFICATION"
    )
    reading = read(text)
    assert rows(reading) == [
        ("WATER", "7732-18-5", 0.6, 0.9),
        ("ETHANOL", "64-17-5", 0.05, 0.15),
        ("GLYCERIN", "56-81-5", None, 0.03),
        ("PROPYLENE GLYCOL", "57-55-6", None, 0.02),
    ]
    assert all(line.doubtful for line in reading.lines)
    assert any("POLY[OXY-TRIMETHYLENE]" in left.text for left in reading.left_over)


def test_a_head_and_rows_without_numbers_on_one_line() -> None:
    text = (
        "2. Information on ingredients Description : A blend of oils. Carrier : Air Dangerous components : "
        "Name Component Concentration Range EC-Nr CAS-Nr Symbol(s) R-phrases Naphtha > 20 < 35 % Xn "
        "Blend of wax and aliphatic spirit > 10 < 25 % - - F-Xn Ethanol < 12 % F-Xi "
        "Butane ( 0.1 % pentadiene) > 20 < 30 % F+ 12 Xylene > 5 < 15 % F+ 12 "
        "All components of this preparation are classified in accordance with the directives"
    )
    assert rows(read(text)) == [
        ("Naphtha", None, 0.2, 0.35),
        ("Blend of wax and aliphatic spirit", None, 0.1, 0.25),
        ("Ethanol", None, None, 0.12),
        ("Butane ( 0.1 % pentadiene)", None, 0.2, 0.3),
        ("Xylene", None, 0.05, 0.15),
    ]


def test_bare_amounts_before_the_fillings_of_empty_columns() -> None:
    text = (
        "Section 2          Material Identification and Information\n\n"
        "Components (Chemical Names & Common Names) (Hazardous Components 1% or greater, Carcinogens 0.1% or greater\n"
        "CAS #'s\n\n.. ..\nEthanol 64-17-5 3.5 .. .. ..\nXylene 1330-20-7 4\nBlue dye S-20 N/A .0025 .. .. ..\n\n"
        "Section 3:     Hazards Identification\n"
    )
    assert rows(read(text)) == [
        ("Ethanol", "64-17-5", 0.035, 0.035),
        ("Xylene", "1330-20-7", 0.04, 0.04),
        ("Blue dye S-20", None, 0.000025, 0.000025),
    ]


def test_limits_behind_a_bare_amount_are_no_share() -> None:
    head = "Component(s)/ Chemical Names CAS Registry No {} SARA\n\n"
    body = (
        "Ethanol 64-17-5 20-30 500ppm 100ppm NO\n\nXylene 1330-20-7 <5.0 ND 100 YES\n\nWax 8002-74-2 10 1000 1000 NO\n"
    )
    assert rows(read(head.format("% PEL TLV") + body)) == [
        ("Ethanol", "64-17-5", 0.2, 0.3),
        ("Xylene", "1330-20-7", None, 0.05),
        ("Wax", "8002-74-2", 0.1, 0.1),
    ]
    assert rows(read(head.format("PEL TLV %") + body))[2][2:] == (None, None)


def test_a_share_before_limits_on_one_line_is_doubtful_and_the_vapour_pressure_no_share() -> None:
    text = (
        "===== Section II -- HAZARDOUS INGREDIENTS INGREDIENT ACGIH OSHA CAS No. % by WT TLV PEL UNITS V.P. "
        "----------Paraffin oil. 45 200 200 PPM 3.00 8012-95-1 Precipitated Silica. 4 10 6 MG/M3 as D 0.00 112926-00-8 "
        "===== Section III -- PHYSICAL DATA"
    )
    reading = read(text)
    assert rows(reading) == [
        ("Paraffin oil", "8012-95-1", 0.45, 0.45),
        ("Precipitated Silica", "112926-00-8", 0.04, 0.04),
    ]
    assert all(line.stated is not None and line.stated.doubtful for line in reading.lines)


def test_rows_with_labelled_values_under_one_heading() -> None:
    text = (
        "Components:\nEthanol CAS: 64-17-5 Concentration: 10-20 %\nXylene CAS: 1330-20-7 Concentration: 1-5 %\n"
        "Glycerin CAS: 56-81-5 Concentration: 1-3%\n"
    )
    assert rows(read(text)) == [
        ("Ethanol", "64-17-5", 0.1, 0.2),
        ("Xylene", "1330-20-7", 0.01, 0.05),
        ("Glycerin", "56-81-5", 0.01, 0.03),
    ]


def test_three_columns_run_together_on_one_line() -> None:
    text = (
        "SECTION 3 - INGREDIENTS Component Water Propylene Glycol Citric Acid CAS No. 7732-18-5 57-55-6 77-92-9 "
        "% 80-90 5-10 1-5 SECTION 4: First aid"
    )
    assert rows(read(text)) == [
        ("Water", "7732-18-5", 0.8, 0.9),
        ("Propylene Glycol", "57-55-6", 0.05, 0.1),
        ("Citric Acid", "77-92-9", 0.01, 0.05),
    ]


def test_head_words_in_the_line_of_the_names_are_no_name_and_the_cut_is_doubtful() -> None:
    text = f"SECTION {HEAD.strip()} SUBSTANCE DESCRIPTION PERCENT CAS# Ethanol, Glycerin, Carnauba Wax\n"
    lines = read(text).lines
    assert [line.name for line in lines] == ["Ethanol", "Glycerin", "Carnauba Wax"]
    assert all(line.doubtful for line in lines)
