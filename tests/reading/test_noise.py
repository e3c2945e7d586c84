"""What noise costs: rows and amounts of the invented lists, clean and with each kind of noise."""

from __future__ import annotations

import tomllib
from collections import Counter
from pathlib import Path

import pytest

from formulate.catalog.store import open_catalog
from formulate.domain.line import Line
from formulate.reading import read_text
from tests.reading.noise import KINDS, key, noisy

CORPUS = Path(__file__).parents[1] / "corpus"
SEEDS = range(3)
# invented, with amounts: a greenhouse roof, a church floor, ferry seats, a tram stop
WITH_AMOUNTS = [
    "Water 60-80 %, Isopropyl alcohol 10-20 %, 2-Butoxyethanol 1-5 %, Dimethicone < 1 %, Fragrance 0.2 %",
    "Aqua (70-90 %), Glycerin (5-15 %), Cera Carnauba (1.5 %), Morpholine (0.5 %), Kaolin (2-10 %)",
    "40-60 % naphtha, 10-20 % montan wax, 5-10 % kaolin, 1-3 % triethanolamine, 0.5 % oleic acid",
    "Triethoxyoctylsilane 10.5 %, Ethanol 80-85 %, Water 2.5 %, Acetic acid 0.15 %",
    "Propane 10-21 %, Butane 20-31 %, Dimethicone 5-11 %, Isoparaffin 40-61 %",
    "Sodium silicate 15-20 %, Potassium hydroxide 1.2 %, Water 75-80 %",
    "Beeswax 12 %, Turpentine 61 %, Linseed oil 21 %, Limonene 1.1 %, Colophonium 2 %",
]
MOST_LOST = 0.02


def _lists() -> list[str]:
    lists = [tomllib.loads(path.read_text(encoding="utf-8"))["list"] for path in sorted(CORPUS.glob("*.toml"))]
    return [*lists, *WITH_AMOUNTS]


def _lines(text: str) -> tuple[Line, ...]:
    return read_text(text, "noise", open_catalog().knows)[0].lines


def _amount(line: Line) -> tuple[float | None, float | None]:
    return (line.stated.low, line.stated.high) if line.stated else (None, None)


def test_the_same_seed_gives_the_same_noise() -> None:
    text = "Aqua, Cera Carnauba 1.5 %, C\u00e9r\u00e9sine (2-5 %), Morpholine"
    for kind in KINDS:
        assert noisy(text, kind, 1) == noisy(text, kind, 1)
    assert noisy(text, "decimal comma", 0) == text.replace("1.5", "1,5")
    assert "\u00e9" not in noisy(text, "accents", 0)
    assert len({noisy(text, "separators", seed) for seed in range(12)}) > 2


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_rows_and_amounts_of_the_invented_lists_stay(kind: str) -> None:
    rows = found = amounts = right = extra = 0
    for text in _lists():
        clean = _lines(text)
        for seed in SEEDS:
            spoilt = noisy(text, kind, seed)
            left = Counter(key(line.name) for line in clean)
            wanted = {key(line.name): _amount(line) for line in clean}
            rows += len(clean)
            amounts += sum(_amount(line) != (None, None) for line in clean)
            for line in _lines(spoilt):
                name = key(line.name)
                if not left[name]:
                    extra += 1
                    continue
                left[name] -= 1
                found += 1
                told = _amount(line)
                if wanted[name] != (None, None):
                    right += told == wanted[name] or bool(line.stated and line.stated.doubtful)
                else:
                    assert told == (None, None) or (line.stated is not None and line.stated.doubtful), spoilt
    assert rows > 1000
    assert amounts > 100
    assert (found / rows, extra / rows) >= (1 - MOST_LOST, 0), (found, rows)
    assert extra / rows <= MOST_LOST, (extra, rows)
    assert right / amounts >= 1 - MOST_LOST, (right, amounts)
