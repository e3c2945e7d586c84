"""A whole data sheet pasted: the list is that of its section on composition, whatever stands around it.

The sheets are invented (coatings of greenhouse roofs, church floors, ferry seats). Headings of the law are those of
Regulation (EU) 2020/878, Annex II Part B and of OSHA form 174, as listed in ``data_public/section_titles.csv``.
"""

from __future__ import annotations

import pytest

from formulate.catalog.store import open_catalog
from formulate.reading.block import outline_of
from formulate.reading.sections import headings_in
from formulate.reading.surface import working_copy
from formulate.reading.titles import fold
from tests.reading.test_lists import read

ROWS = "Ethanol 64-17-5 10 - 20 %\nGlycerin 56-81-5 1 - 5 %\n"
LIMITS = "Ethanol 64-17-5 TWA 1000 ppm STEL 3000 ppm\n2-Butoxyethanol 111-76-2 20 ppm\n"
KINDS = [
    *("identification", "hazards", "composition", "first-aid", "fire", "release", "handling", "exposure"),
    *("properties", "stability", "toxicology", "ecology", "disposal", "transport", "regulation", "other"),
]
SAID = {
    "identification": "Invented glaze for greenhouse roofs\n",
    "hazards": "Flam. Liq. 3 H226\nContains: Limonene, Linalool\nEUH066\nP210 Keep away from heat.\n",
    "composition": ROWS,
    "exposure": LIMITS,
    "properties": "pH: 7.5\nFlash point: 38 \u00b0C (closed cup)\nDensity: 0,92 g/cm3\n",
    "toxicology": "Ethanol 64-17-5 LD50 7060 mg/kg oral rat\n",
    "regulation": "SARA 313: 2-Butoxyethanol 111-76-2 5 %\n",
    "other": "Changes in: SECTION 3: Composition/information on ingredients. Ethanol 64-17-5 99 %.\n",
}
WORDS = {
    "en": "SECTION", "de": "ABSCHNITT", "fr": "RUBRIQUE", "es": "SECCI\u00d3N", "it": "SEZIONE", "pl": "SEKCJA",
    "sv": "AVSNITT", "da": "PUNKT", "nl": "RUBRIEK", "pt": "SEC\u00c7\u00c3O", "cs": "ODD\u00cdL", "sk": "ODDIEL",
}  # fmt: skip


def _titles() -> dict[tuple[str, str], str]:
    """Heading by language and kind, from the law."""
    import csv

    from formulate.catalog.store import data_root

    with (data_root() / "section_titles.csv").open(encoding="utf-8", newline="") as stream:
        rows = [row for row in csv.DictReader(stream) if row["source"] == "reach-annex-ii"]
    return {(row["language"], row["kind"]): row["title"] for row in rows}


TITLES = _titles()


def sheet(language: str, form: str = "{word} {number}: {title}", between: str = "\n") -> str:
    """A sheet of sixteen sections with the headings of one language; where none is known, the number stands alone."""
    parts = []
    for number, kind in enumerate(KINDS, 1):
        title = TITLES.get((language, kind), "")
        parts.append(form.format(word=WORDS[language], number=number, title=title, upper=title.upper()))
        parts.append(SAID.get(kind, "No data.\n"))
    return between.join(parts)


def found(text: str) -> list[tuple[str, str | None]]:
    return [(line.name, line.cas) for line in read(text).lines]


LISTED = [("Ethanol", "64-17-5"), ("Glycerin", "56-81-5")]


@pytest.mark.parametrize("language", sorted(WORDS))
def test_the_section_on_composition_is_found_in_each_language(language: str) -> None:
    reading = read(sheet(language))
    assert [(line.name, line.cas) for line in reading.lines] == LISTED
    assert [code.code for code in reading.hazard_codes] == ["H226", "EUH066"]
    assert reading.facts["ph"].best == 7.5
    assert (reading.facts["flash_point_c"].best, reading.facts["flash_point_c"].cup) == (38.0, "closed")
    assert reading.facts["density_g_per_ml"].best == 0.92


@pytest.mark.parametrize(
    "form",
    [
        "{word} {number}: {upper}",
        "{word} {number}. {title}",
        "{word} {number} - {title}",
        "{word} {number} \u2013 {title}",
        "** {word} {number} **  {title}",
        "## **{word} {number}: {title}**",
        "{number}. {title}",
        "{number} {upper}",
        "{number} - {title}",
        "{number}) {title}",
        "0{number}. {title}",
        "| {word} {number} | {title} |",
        "--------------- {word} {number}: {title} ---------------",
        "{word} {number}\n{title}",
        "* {number} {title}",
        "\u00b7 {number}: {title}",
        "{title}",
    ],
)
@pytest.mark.parametrize("language", ["en", "de", "fr", "sv"])
def test_whatever_stands_around_the_number(language: str, form: str) -> None:
    assert found(sheet(language, form)) == LISTED


@pytest.mark.parametrize("language", ["en", "de", "it", "pl"])
def test_a_sheet_on_one_line(language: str) -> None:
    flat = sheet(language, between=" ").replace("\n", " ")
    assert found(flat) == LISTED


def test_capitals_without_accents() -> None:
    text = (
        "RUBRIQUE 3: COMPOSITION/INFORMATIONS SUR LES COMPOSANTS\n"
        + ROWS
        + "RUBRIQUE 9: PROPRIETES PHYSIQUES ET CHIMIQUES\nEau 7732-18-5\n"
    )
    assert found(text) == LISTED


ROMAN = {1: "I", 2: "II", 3: "III", 4: "IV", 5: "V", 6: "VI", 7: "VII", 8: "VIII"}
OLD = [
    "Product Identification",
    "Hazardous Ingredients/Identity Information",
    "Physical/Chemical Characteristics",
    "Fire and Explosion Hazard Data",
    "Reactivity Data",
    "Health Hazard Data",
    "Precautions for Safe Handling and Use",
    "Control Measures",
]


@pytest.mark.parametrize(
    "form",
    ["SECTION {roman} - {title}", "Section {roman}--{title}", "** Section {roman} ** {title}", "{roman}. {title}",
     "SECTION {number}: {title}"],
)  # fmt: skip
def test_the_old_form_has_its_list_in_section_two(form: str) -> None:
    said = [
        "Invented wax for church floors",
        ROWS,
        "Specific Gravity (H2O = 1): 0.98",
        "Flash Point (Method Used): 104 F TCC",
    ]
    text = "".join(
        form.format(number=number, roman=ROMAN[number], title=title) + f"\n{body}\n"
        for number, (title, body) in enumerate(
            zip(OLD, [*said, "Stable", "LD50 5000", "Sweep", LIMITS], strict=True), 1
        )
    )
    reading = read(text)
    assert [(line.name, line.cas) for line in reading.lines] == LISTED
    fact = reading.facts["flash_point_c"]
    assert (fact.best, fact.unit, fact.cup, fact.method) == (40.0, "F", "closed", "TCC")
    assert reading.facts["density_g_per_ml"].qualifier == "H2O = 1"
    assert reading.hazard_codes == ()


def test_hazards_before_or_after_composition() -> None:
    text = f"SECTION 2 - COMPOSITION\n{ROWS}SECTION 3 - HAZARDS IDENTIFICATION\nContains: Limonene\nH226\n"
    assert found(text) == LISTED
    assert [code.code for code in read(text).hazard_codes] == ["H226"]


@pytest.mark.parametrize(
    "mention",
    [
        "For names see Section 3: Composition/information on ingredients of the sheet.\n",
        "Volatile share: refer to section 3: composition/information on ingredients\n",
        "(Section 3: Composition/information on ingredients)\n",
        "Composition of the vapour above the glaze depends on the temperature.\n",
        'Siehe Abschnitt 3: "Zusammensetzung/Angaben zu Bestandteilen".\n',
    ],
)
def test_a_mention_opens_no_list(mention: str) -> None:
    text = f"SECTION 9: Physical and chemical properties\n{mention}Density: 0.9 g/cm3\n"
    assert headings_in(text.lower())[1:] == []


def test_a_table_of_contents_opens_no_list() -> None:
    contents = "".join(f"SECTION {n}: {TITLES['en', kind]} ........ {n + 1}\n" for n, kind in enumerate(KINDS, 1))
    assert found(contents + sheet("en")) == LISTED
    assert found(contents.replace("\n", " ") + "\n" + sheet("en")) == LISTED


def test_a_later_mention_of_the_title_adds_nothing_but_a_second_sheet_does() -> None:
    other = sheet("en").replace("Ethanol", "Acetone").replace("64-17-5", "67-64-1").replace("Glycerin 56", "Silica 56")
    reading = read(sheet("en") + "\n" + other)
    assert [(line.name, line.part) for line in reading.lines] == [
        ("Ethanol", "sheet 1"), ("Glycerin", "sheet 1"), ("Acetone", "sheet 2"), ("Silica", "sheet 2"),
    ]  # fmt: skip
    assert {code.of for code in reading.hazard_codes} == {"sheet 1", "sheet 2"}
    assert any("several parts" in note for note in reading.notes)


def test_a_section_that_goes_on_after_a_page_break() -> None:
    text = (
        f"SECTION 3: Composition/information on ingredients\n{ROWS}\fInvented glaze page 2\n"
        "SECTION 3: Composition/information on ingredients (continued)\nSilica 7631-86-9 2 - 3 %\n"
        "SECTION 4: First aid measures\nRinse.\n"
    )
    assert found(text) == [*LISTED, ("Silica", "7631-86-9")]


def test_sub_numbers_are_no_sections() -> None:
    outline = outline_of(working_copy("9. Physical and chemical properties\npH: 7\n9.2 Other information\nVOC: 5 %\n"))
    assert [(heading.number, heading.kind) for heading in outline.headings] == [(9, "properties")]


def test_folding_leaves_letters_only() -> None:
    assert fold("First-Aid Measures") == fold("FIRST AID MEASURES") == "firstaidmeasures"
    assert fold("Propri\u00e9t\u00e9s physiques") == fold("PROPRIETES PHYSIQUES")


def test_every_heading_of_the_table_is_found_as_its_own_kind() -> None:
    for kind, title, _ in open_catalog().section_titles:
        if kind != "word":
            seen = headings_in(f"7. {title}\nmore text\n".lower())
            assert [heading.kind for heading in seen] == [kind], title
