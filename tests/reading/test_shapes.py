"""One invented list for each shape in which compositions are printed: names, numbers, limits, doubts.

Scenes: a greenhouse roof, a church floor, ferry seats, a tram stop. Nothing here was copied from a product.
"""

from __future__ import annotations

import pytest

from tests.reading.test_lists import known, read

Row = tuple[str, float | None, float | None]

SHAPES: dict[str, tuple[str, list[Row]]] = {
    "percentages before": (
        "5 % montan wax, 20 % ethanol, 75 % water",
        [("montan wax", 5, 5), ("ethanol", 20, 20), ("water", 75, 75)],
    ),
    "percentages after": (
        "Montan wax 5 %, ethanol 20 %, water 75%",
        [("Montan wax", 5, 5), ("ethanol", 20, 20), ("water", 75, 75)],
    ),
    "1 - 5": ("Silica 1 - 5 %\nEthanol 10-20%\n", [("Silica", 1, 5), ("Ethanol", 10, 20)]),
    "<10": ("Silica <10 %\nEthanol < 3 %\n", [("Silica", None, 10), ("Ethanol", None, 3)]),
    ">= 10 - < 25": (
        "Ethanol 64-17-5 >= 10 - < 25 %\nGlycerin 56-81-5 >= 1 - < 5 %\n",
        [("Ethanol", 10, 25), ("Glycerin", 1, 5)],
    ),
    "> 15 < 30": ("Ethanol 64-17-5 > 15 < 30\nGlycerin 56-81-5 > 1 < 5\n", [("Ethanol", 15, 30), ("Glycerin", 1, 5)]),
    "10 < 25 % before names": ("10 < 25 % glycerin, < 2 % limonene", [("glycerin", 10, 25), ("limonene", None, 2)]),
    "5 % <= x < 10 %": (
        "Ethanol 64-17-5 5% \u2264 X <10%\nGlycerin 56-81-5 0 <= x % < 2.5\n",
        [("Ethanol", 5, 10), ("Glycerin", 0, 2.5)],
    ),
    "over lines": (
        "Ethanol\n64-17-5\n10,00\n-\n25,00\nGlycerin\n56-81-5\n1,00\n-\n2,50\n",
        [("Ethanol", 10, 25), ("Glycerin", 1, 2.5)],
    ),
    ".0036": (
        "Ethanol 64-17-5 .0036 %\nGlycerin 56-81-5 .5 %\n",
        [("Ethanol", 0.0036, 0.0036), ("Glycerin", 0.5, 0.5)],
    ),
    "0.45 % on its own line": (
        "Ethanol\n64-17-5\n0.45%\nGlycerin\n56-81-5\n12%\n",
        [("Ethanol", 0.45, 0.45), ("Glycerin", 12, 12)],
    ),
    "</=2.0": ("Ethanol 64-17-5 </=2.0\nGlycerin 56-81-5 </=1.8\n", [("Ethanol", None, 2), ("Glycerin", None, 1.8)]),
    "wide dash": ("Ethanol 10\uff5e20 %, Glycerin 1\uff5e2 %", [("Ethanol", 10, 20), ("Glycerin", 1, 2)]),
    "99 to about 85": (
        "water in an amount of 99 to about 85 percent and silica in an amount of 1 to about 15 percent",
        [("water", 85, 99), ("silica", 1, 15)],
    ),
    "bound in the head": (
        "Ingredient CAS No. Weight % Less Than\nEthanol 64-17-5 20.0\nGlycerin 56-81-5 5.0\n",
        [("Ethanol", None, 20), ("Glycerin", None, 5)],
    ),
    "balance": (
        "Ethanol 20 %, Glycerin 2 %, Water balance",
        [("Ethanol", 20, 20), ("Glycerin", 2, 2), ("Water", None, None)],
    ),
    "q.s.": (
        "Ethanol 20 %, Glycerin 2 %, Water q.s. to 100 %",
        [("Ethanol", 20, 20), ("Glycerin", 2, 2), ("Water", None, None)],
    ),
    "proprietary": (
        "Ethanol 64-17-5 10-20%\nSilane blend Proprietary 1-5%\n",
        [("Ethanol", 10, 20), ("Silane blend", 1, 5)],
    ),
    "not told, in Portuguese": (
        "\u00c1lcool 64-17-5 < 20 % ND ND\nTensoativo ND < 0,5 % ND ND\n",
        [("\u00c1lcool", None, 20), ("Tensoativo", None, 0.5)],
    ),
    "ppm": ("Ethanol 5 %, Limonene 150 ppm", [("Ethanol", 5, 5), ("Limonene", 0.015, 0.015)]),
    "molar": (
        "Tetraethoxysilane 1 mol%, Ethanol 20 mol%",
        [("Tetraethoxysilane", None, None), ("Ethanol", None, None)],
    ),
    "parts per hundred": ("Silica 12 phr, Dimethicone 3 phr", [("Silica", None, None), ("Dimethicone", None, None)]),
    "parts": ("2 parts montan wax\n1 part paraffin wax\n", [("montan wax", None, None), ("paraffin wax", None, None)]),
    "parts, in German": (
        "1 Teil Carnauba wax\n2 Teile Montan wax\n",
        [("Carnauba wax", None, None), ("Montan wax", None, None)],
    ),
    "recipe units": (
        "2 1/2 ounces montan wax (be careful - it is hot)\n\u00be cup ethanol\n20 drops limonene\n",
        [("montan wax (be careful - it is hot)", None, None), ("ethanol", None, None), ("limonene", None, None)],
    ),
    "recipe with title and steps": (
        "Pew cream\n50 g montan wax\n200 ml limonene\nMethod\nMelt the wax and stir.\n",
        [("montan wax", None, None), ("limonene", None, None)],
    ),
    "recipe in French": (
        "- 110 g de carnauba wax\n- 285 ml d'ethanol\n",
        [("carnauba wax", None, None), ("ethanol", None, None)],
    ),
    "measures in steps": (
        "Melt \u00bd pound of montan wax. Then add 4 oz of ethanol and 4 oz of limonene, and stir.",
        [("montan wax", None, None), ("ethanol", None, None), ("limonene", None, None)],
    ),
    "detergent bands": (
        "Contains: < 5 % anionic surfactants, 5 - 15 % nonionic surfactants",
        [("anionic surfactants", None, 5), ("nonionic surfactants", 5, 15)],
    ),
    "band of two": (
        "less than 5 %: anionic surfactants, soap; perfume, limonene",
        [("anionic surfactants", None, 5), ("soap", None, 5), ("perfume", None, None), ("limonene", None, None)],
    ),
    "table on one line": (
        "Ingredient CAS % Ethanol 64-17-5 10-20 Glycerin 56-81-5 1-5 Silica 7631-86-9 0.5-2",
        [("Ethanol", 10, 20), ("Glycerin", 1, 5), ("Silica", 0.5, 2)],
    ),
    "column blocks": (
        "Name\nEthanol\nGlycerin\nSilica\nCAS\n64-17-5\n56-81-5\n7631-86-9\n%\n10-20\n1-5\n0.5-2\n",
        [("Ethanol", 10, 20), ("Glycerin", 1, 5), ("Silica", 0.5, 2)],
    ),
    "cell per line": (
        "Ethanol\n64-17-5\n10 - 20\nGlycerin\n56-81-5\n1 - 5\n",
        [("Ethanol", 10, 20), ("Glycerin", 1, 5)],
    ),
    "subscripts on lines of their own": (
        "Ethoxylated C\n12-14\nalcohol\n68439-50-9\n5 - 10\nGlycerin\n56-81-5\n1 - 5\n",
        [("Ethoxylated C 12-14 alcohol", 5, 10), ("Glycerin", 1, 5)],
    ),
    "CAS first": ("64-17-5 10-20 Ethanol\n56-81-5 1-5 Glycerin\n", [("Ethanol", 10, 20), ("Glycerin", 1, 5)]),
    "CAS above its name": (
        "64-17-5\nEthanol\n56-81-5\nGlycerin\nOTHER: CAS Wt% Name\n7631-86-9 7-13 Silica\n",
        [("Ethanol", None, None), ("Glycerin", None, None), ("Silica", 7, 13)],
    ),
    "name last after codes": (
        "64-17-5 200-578-6 65-75 % F R11 Ethanol 107-21-1 203-473-3 15-20 % Xn R22 Glycol",
        [("Ethanol", 65, 75), ("Glycol", 15, 20)],
    ),
    "amount first, EC alone": (
        "10 < 25 % Naphtha, heavy EC 265-185-4 Index No. 649-330-00-2 < 2,5 % Xylene EC 215-535-7 Index "
        "No. 601-022-00-9 < 0,5 % Oxime EC 202-496-6 Index No. 616-014-00-0",
        [("Naphtha, heavy", 10, 25), ("Xylene", None, 2.5), ("Oxime", None, 0.5)],
    ),
    "glued cells": ("Water 7732-18-5/ 94<98%\nLimonene 5989-27-5/ 1<2%\n", [("Water", 94, 98), ("Limonene", 1, 2)]),
    "unreadable bound": (
        "Water 7732-18-5/ 94<98%\nLimonene 5989-27-5/ <!%\n",
        [("Water", 94, 98), ("Limonene", None, None)],
    ),
    "wrapped around its number": (
        "Distillates, petroleum,\n</= 5.3% 64742-48-9\nhydrotreated light\nEthanol\n</= 1.8% 64-17-5\n",
        [("Distillates, petroleum, hydrotreated light", None, 5.3), ("Ethanol", None, 1.8)],
    ),
    "note below its name": (
        "Acetone 67-64-1 25 - 50\nXylene\n(mixture of isomers)\n1330-20-7 10 - 25\n",
        [("Acetone", 25, 50), ("Xylene (mixture of isomers)", 10, 25)],
    ),
    "begins mid-row": (
        "Acute Tox. 4, H332\nEthanol 64-17-5 2.5 - 10 F; R11\nGlycerin 56-81-5 1 - 5\n",
        [("Ethanol", 2.5, 10), ("Glycerin", 1, 5)],
    ),
    "page heads inside": (
        "Ethanol 64-17-5 10-20\nPage 2 of 9\nRevision date 2019-04-01\nGlycerin 56-81-5 1-5\n",
        [("Ethanol", 10, 20), ("Glycerin", 1, 5)],
    ),
    "hazard codes without letters": (
        "Ammonia solution 1336-21-6 1 - < 5 C 34-50\nNaphtha 64742-48-9 10 - < 20 Xn 65-66\n",
        [("Ammonia solution", 1, 5), ("Naphtha", 10, 20)],
    ),
    "hazard classes in small letters": (
        "Ethanol 64-17-5 10-20 flam. liq. 2; h225\nGlycerin 56-81-5 1-5 eye irrit. 2; h319\n",
        [("Ethanol", 10, 20), ("Glycerin", 1, 5)],
    ),
    "exposure limits in the rows": (
        "Component CAS % PEL TLV\nEthanol 64-17-5 10-20 1000 ppm 1000 ppm\nGlycerin 56-81-5 1-5 15 mg/m3 10 mg/m3\n",
        [("Ethanol", 10, 20), ("Glycerin", 1, 5)],
    ),
    "vapour pressure in the rows": (
        "Ingredient CAS Weight % VP mm Hg\nEthanol 64-17-5 10-20 44 mm Hg\nGlycerin 56-81-5 1-5 0.01 mm Hg\n",
        [("Ethanol", 10, 20), ("Glycerin", 1, 5)],
    ),
    "strength of a raw material": (
        "Sodium laureth sulfate (28 %) 5.0 %, Ethanol 10 %",
        [("Sodium laureth sulfate", 5, 5), ("Ethanol", 10, 10)],
    ),
    "relative percentages": (
        "Dimethicone 40 % of the silicone component, Ethanol 5 %",
        [("Dimethicone 40 % of the silicone component", None, None), ("Ethanol", 5, 5)],
    ),
    "O for 0": ("Montan wax 5O-7O %, Ethanol 1O %", [("Montan wax", 50, 70), ("Ethanol", 10, 10)]),
    "blanks in a number": (
        "Ethanol 64 - 17 - 5 10-20\nGlycerin 56- 81-5 1-5\n",
        [("Ethanol", 10, 20), ("Glycerin", 1, 5)],
    ),
    "look-alike letters in a number": (
        "Ethanol 64-l7-5 10-20\nGlycerin 56-8l-5 1-5\n",
        [("Ethanol", 10, 20), ("Glycerin", 1, 5)],
    ),
    "leading zeros in a number": (
        "Ethanol CAS Number: 0000064-17-5\n10 - 20\nGlycerin CAS Number: 0000056-81-5\n1.0 - 5\n",
        [("Ethanol", 10, 20), ("Glycerin", 1, 5)],
    ),
    "slashes": (
        "Water / Ethanol / Glycerin / Silica",
        [("Water", None, None), ("Ethanol", None, None), ("Glycerin", None, None), ("Silica", None, None)],
    ),
    "bars": (
        "Water | Ethanol | Glycerin | Silica",
        [("Water", None, None), ("Ethanol", None, None), ("Glycerin", None, None), ("Silica", None, None)],
    ),
    "bars with a head": (
        "| Phase | Ingredient | % w/w | Amount (g) |\n|---|---|---|---|\n| A | Water | 85.0 | 850 |\n"
        "| B | Silica | 15.0 | 150 |\n| Total | | 100.0 | 1000 |\n",
        [("Water", 85, 85), ("Silica", 15, 15)],
    ),
    "bars, a share and grams": (
        "Ethanol | 17,78 % | = 30 gr | |\nLimonene | 82,22 % | = 138 gr | = 150 ml |\n",
        [("Ethanol", 17.78, 17.78), ("Limonene", 82.22, 82.22)],
    ),
    "tabs": (
        "Water\tEthanol\tGlycerin\tSilica",
        [("Water", None, None), ("Ethanol", None, None), ("Glycerin", None, None), ("Silica", None, None)],
    ),
    "blanks alone": (
        "Water Ethanol Glycerin Silica",
        [("Water", None, None), ("Ethanol", None, None), ("Glycerin", None, None), ("Silica", None, None)],
    ),
    "CI numbers": (
        "Water, Glycerin, CI 19140, CI 42090",
        [("Water", None, None), ("Glycerin", None, None), ("CI 19140", None, None), ("CI 42090", None, None)],
    ),
    "(and)": (
        "Glycerin (and) Silica (and) Xanthan gum, Water",
        [("Glycerin", None, None), ("Silica", None, None), ("Xanthan gum", None, None), ("Water", None, None)],
    ),
    "und": (
        "Water, Ethanol, Glycerin und Silica",
        [("Water", None, None), ("Ethanol", None, None), ("Glycerin", None, None), ("Silica", None, None)],
    ),
    "e.g.": (
        "Water, surfactant (e.g. sodium laureth sulfate), Glycerin",
        [("Water", None, None), ("surfactant (e.g. sodium laureth sulfate)", None, None), ("Glycerin", None, None)],
    ),
    "may contain": (
        "Water, Glycerin, may contain: Limonene",
        [("Water", None, None), ("Glycerin", None, None), ("Limonene", None, None)],
    ),
    "footnotes of stars": (
        "Water, Glycerin*, Limonene. (* = from organic farming). 10 % organic of total.",
        [("Water", None, None), ("Glycerin", None, None), ("Limonene", None, None)],
    ),
    "explained": (
        "- Glycerin: a sugar-like liquid that keeps the leather of the ferry seats supple.\n"
        "- Carnauba wax: forms the hard layer on the outside that can be buffed.\n",
        [("Glycerin", None, None), ("Carnauba wax", None, None)],
    ),
    "sentence without amounts": (
        "A pew polish comprising at least one montan wax, a volatile solvent, and water.",
        [("montan wax", None, None), ("volatile solvent", None, None), ("water", None, None)],
    ),
    "what is mixed with what": (
        "First a silane is mixed with ethanol. Then water is added to the mixed solution.",
        [("silane", None, None), ("ethanol", None, None), ("water", None, None)],
    ),
    "formulary": (
        "Ingredient Weight % Function\n1. Water 77.00 Diluent\n2. Ethanol 20.00 Solvent\n"
        "3. Oleic acid 3.00 Emulsifier\n",
        [("Water", 77, 77), ("Ethanol", 20, 20), ("Oleic acid", 3, 3)],
    ),
    "Chinese parts": (
        "\u8be5\u84dd\u4ea7\u54c1\u7531\u4ee5\u4e0b\u91cd\u91cf\u4efd\u7ec4\u5206\u5236\u5907\u800c"
        "\u6210:\u786c\u8721 8~12\u4efd\u3001\u6c34 60~80\u4efd\u3002",
        [("\u786c\u8721", None, None), ("\u6c34", None, None)],
    ),
    "Chinese names": (
        "\u4e3b\u8981\u6210\u5206\u4e3a:\u7518\u6cb9\u3001\u4e59\u9187\u3001\u6c34\u7b49\u3002",
        [("\u7518\u6cb9", None, None), ("\u4e59\u9187", None, None), ("\u6c34", None, None)],
    ),
}

DOUBTFUL = {
    "64 76": ("Light distillate 64742-47-8 64 76 %\nParaffin wax 8002-74-2 8 12 %\n", [(64, 76), (8, 12)]),
    "letters for digits": ("Montan wax 5O-7O %, Ethanol 1O %", [(50, 70), (10, 10)]),
}


def _share(value: float | None) -> float | None:
    return None if value is None else round(value * 100, 9)


@pytest.mark.parametrize("shape", sorted(SHAPES))
def test_each_shape_is_read(shape: str) -> None:
    text, rows = SHAPES[shape]
    lines = read(text).lines
    assert [
        (line.name, *((_share(line.stated.low), _share(line.stated.high)) if line.stated else (None, None)))
        for line in lines
    ] == rows


@pytest.mark.parametrize("shape", sorted(DOUBTFUL))
def test_what_the_print_leaves_open_is_flagged(shape: str) -> None:
    text, rows = DOUBTFUL[shape]
    stated = [line.stated for line in read(text).lines]
    assert [(_share(one.low), _share(one.high)) for one in stated if one] == rows
    assert all(one and one.doubtful for one in stated)


def test_numbers_of_the_shapes_with_damaged_ones() -> None:
    for shape in ("blanks in a number", "look-alike letters in a number", "leading zeros in a number"):
        assert [line.cas for line in read(SHAPES[shape][0]).lines] == ["64-17-5", "56-81-5"], shape
    doubled = read("Ethanol 64--17-5 10-20\nGlycerin 56-81-5 1-5\n").lines
    assert [line.cas for line in doubled] == ["64-17-5", "56-81-5"]
    assert doubled[0].doubtful
    assert not doubled[1].doubtful


def test_two_names_glued_together_between_known_ones() -> None:
    text = (
        "Ingredient C.A.S. No. % by Wt WATER ETHANOL POLY(OXYALKYL)HYDROXYPROPYLENE GLYCOL GLYCERIN "
        "7732-18-5 64-17-5 25322-69-4 57-55-6 56-81-5 40 - 60 10 - 30 7 - 13 1- 5 <2"
    )
    lines = read(text).lines
    assert [(line.name, line.cas) for line in lines] == [
        ("WATER", "7732-18-5"),
        ("ETHANOL", "64-17-5"),
        ("POLY(OXYALKYL)HYDROXY", "25322-69-4"),
        ("PROPYLENE GLYCOL", "57-55-6"),
        ("GLYCERIN", "56-81-5"),
    ]
    assert known("propylene glycol")
    assert all(line.doubtful for line in lines)
