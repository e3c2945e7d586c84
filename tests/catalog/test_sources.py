"""The sources: each used, each once, each says what was read, and no address of somebody who sells."""

import csv
import re
import tomllib
from collections import Counter
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from formulate.catalog.store import data_root
from formulate.catalog.tables import read_sources

ROOT = data_root()
PROJECT = Path(__file__).parents[2]
SOURCES = read_sources(ROOT / "sources.toml")

GOVERNMENT = {
    "gov",
    "eu",
    "canada.ca",
    "gov.uk",
    "gov.au",
    "govt.nz",
    "bayern.de",  # a state of Germany
    "mst.dk",  # environmental protection agency of Denmark
    "gov.ua",
    "npl.co.uk",  # national standards laboratory of the United Kingdom
    "intox.org",  # poison centres of the World Health Organization
}
SCHOLARSHIP = {
    "edu",
    "ac.uk",
    "doi.org",
    "escholarship.org",
    "libretexts.org",
    "wikipedia.org",
    "wikimedia.org",
    "wikidata.org",
    "mfa.org",
    "culturalheritage.org",
}
JOURNALS = {"link.springer.com", "ocl-journal.org", "pcimag.com", "spraytm.com", "teknoscienze.com"}
ASSOCIATIONS = {"wax.org", "plasticisers.org"}
SOFTWARE = {"rdkit.org"}
ALLOWED = GOVERNMENT | SCHOLARSHIP | JOURNALS | ASSOCIATIONS | SOFTWARE


def _cited() -> set[str]:
    """Keys cited by a table, a rule, a labelled example or the program itself."""
    cited: set[str] = set()
    for path in ROOT.glob("*.csv"):
        with path.open(encoding="utf-8", newline="") as stream:
            cited |= {row["source"] for row in csv.DictReader(stream) if row.get("source")}
    for path in (ROOT / "rules").rglob("*.toml"):
        cited |= {one["id"] for one in tomllib.loads(path.read_text(encoding="utf-8")).get("sources", [])}
    for path in (PROJECT / "tests" / "corpus").glob("*.toml"):
        cited |= set(re.findall(r'\bid = "([^"]+)"', path.read_text(encoding="utf-8")))
    for path in (PROJECT / "formulate").rglob("*.py"):
        cited |= set(re.findall(r'"([a-z0-9.-]+)"', path.read_text(encoding="utf-8")))
    return cited


def _allowed(host: str) -> bool:
    return any(host == end or host.endswith(f".{end}") for end in ALLOWED)


def _twice(values: list[str]) -> list[str]:
    return [value for value, count in Counter(values).items() if count > 1]


def test_every_source_is_cited_somewhere():
    assert sorted(set(SOURCES) - _cited()) == []


@pytest.mark.parametrize("field", ["doi", "url", "title"])
def test_no_work_stands_under_two_keys(field):
    assert _twice([value.casefold() for card in SOURCES.values() if (value := getattr(card, field))]) == []


def test_no_patent_stands_under_two_keys():
    numbers = []
    for card in SOURCES.values():
        if card.kind == "patent":
            found = re.search(r"(?:US|EP|European|WO|AU|JP)\s*(?:patent\s*)?([A-Z]?[\d/-]{5,})", card.title)
            numbers += [re.sub(r"\D", "", found[1])] if found else []
    assert len(numbers) > 20
    assert _twice(numbers) == []


def test_every_source_has_title_kind_and_says_what_was_read():
    for key, card in SOURCES.items():
        assert card.title.strip(), key
        assert card.kind.strip(), key
        assert (card.read_as == "none") == (card.kind == "unsourced"), key


def test_only_memory_and_common_practice_are_unsourced():
    assert {key for key, card in SOURCES.items() if card.kind == "unsourced"} == {"memory", "common-practice"}


def test_no_address_of_a_vendor_or_a_mirror():
    hosts = {key: urlsplit(card.url).hostname or card.url for key, card in SOURCES.items() if card.url}
    offending = {key: host for key, host in hosts.items() if not _allowed(host)}
    assert offending == {}


def test_no_source_forbids_commercial_use():
    assert [key for key, card in SOURCES.items() if re.search(r"\bNC\b|non-?commercial", card.licence)] == []
