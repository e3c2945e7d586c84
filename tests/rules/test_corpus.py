"""The corpus of invented lists: the expected top roles, further functions and conflicts, each with its basis."""

from __future__ import annotations

from typing import Any

import pytest

from tests.rules.engine_room import corpus, corpus_scene, judge, position_of

CASES = [(key, number) for key, record in corpus() for number in range(len(record["expect"]))]


@pytest.mark.parametrize(("key", "number"), CASES, ids=[f"{key}-{number}" for key, number in CASES])
def test_expectation(key: str, number: int) -> None:
    expect: dict[str, Any] = dict(corpus())[key]["expect"][number]
    scene = corpus_scene(key)
    found = judge(scene)
    position = position_of(scene, expect["line"])
    line = found.lines[position - 1]
    if "role" in expect:
        assert line.roles[0].role == expect["role"], [(one.role, round(one.probability, 2)) for one in line.roles]
    for role in expect.get("also", ()):
        assert role in {one.role for one in line.also} | {one.role for one in line.roles[:2]}, line.also
    if "conflict" in expect:
        assert any(one.id == expect["conflict"] and position in one.between for one in found.conflicts), found.conflicts


@pytest.mark.parametrize("key", [key for key, _ in corpus()])
def test_no_conflict_is_invented(key: str) -> None:
    meant = {row["conflict"] for row in dict(corpus())[key]["expect"] if "conflict" in row}
    found = {one.id for one in judge(corpus_scene(key)).conflicts}
    assert found <= meant, found - meant


FILM_WORDS = {"water-repellent", "gloss-and-slip", "film-former", "binder", "hard-particle"}


@pytest.mark.parametrize("key", [key for key, _ in corpus()])
def test_what_leaves_is_no_part_of_the_film(key: str) -> None:
    for line in judge(corpus_scene(key)).lines:
        if line.fate == "leaves":
            said = {line.roles[0].role} | {one.role for one in line.also}
            assert not said & FILM_WORDS, (line.name, said)
