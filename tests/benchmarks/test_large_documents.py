"""A list in a large document is found in time that grows with its length: the exponent is fitted, not assumed."""

from __future__ import annotations

import math
import statistics
import time
from collections.abc import Callable

import pytest

from formulate.errors import InputError
from formulate.reading import check_list_size, read_text

SHEET = (
    "SECTION 3: Composition/information on ingredients\nEthanol 64-17-5 5 - 10 %\nGlycerin 56-81-5 1 %\n"
    "SECTION 4: First aid measures\nRinse.\n"
)
AROUND = {
    "prose": "The roof of the greenhouse is washed twice a year and then left to dry in the sun.\n",
    "prose with accents": "Das Dach des Gew\u00e4chshauses wird gewaschen \u2013 und trocknet danach in der Sonne.\n",
    "other tables": "Row 12  64-17-5  5 - 10 %  200 ppm\t1.2 mg/m3\n",
    "one line": "The roof is washed, then dried; pH 7.5 and section 9 tells more of it. ",
    "short lines": "roof dry\n",
    "pages": "Page 3 of 9\nGreenhouse roofs\n" + "They are washed twice a year, and dried.\n" * 40 + "\f",
    "other sections": "SECTION 8: Exposure controls\n"
    + "Ethanol 1000 ppm\n" * 30
    + "SECTION 9: Physical and chemical properties\npH: 7\n"
    + "Roofs were looked at in rain.\n" * 20,
}
MB = 1024 * 1024


def document(around: str, size: int) -> str:
    """A data sheet in the middle of so many characters of something else."""
    half = AROUND[around] * (size // 2 // len(AROUND[around]))
    return half + (SHEET.replace("\n", " ") if around == "one line" else SHEET) + half


def found(text: str) -> list[str]:
    check_list_size(text)
    return [line.name for line in read_text(text, "t", lambda _: False)[0].lines]


def seconds(call: Callable[[], object], repeats: int) -> float:
    """Median processor time of a call: other work on the machine does not count."""
    times = []
    for _ in range(repeats):
        start = time.process_time()
        call()
        times.append(time.process_time() - start)
    return statistics.median(times)


def exponent(around: str, sizes: list[int], repeats: int) -> float:
    """Slope of the logarithm of time against that of size, least squares."""
    points = []
    for size in sizes:
        text = document(around, size)
        assert found(text) == ["Ethanol", "Glycerin"]
        points.append((math.log(size), math.log(seconds(lambda text=text: found(text), repeats))))  # type: ignore[misc]
    middle = [statistics.fmean(axis) for axis in zip(*points, strict=True)]
    return sum((x - middle[0]) * (y - middle[1]) for x, y in points) / sum((x - middle[0]) ** 2 for x, _ in points)


@pytest.mark.parametrize("around", sorted(AROUND))
def test_time_grows_with_length_up_to_two_megabytes(around: str) -> None:
    slope = exponent(around, [MB // 4, MB // 2, MB, 2 * MB], 3)
    print(f"\n{around}: exponent {slope:.2f}")
    assert slope <= 1.1


@pytest.mark.slow
@pytest.mark.parametrize("around", sorted(AROUND))
def test_time_grows_with_length_up_to_eight_megabytes(around: str) -> None:
    slope = exponent(around, [MB, 2 * MB, 4 * MB, 8 * MB], 3)
    print(f"\n{around}: exponent {slope:.2f}")
    assert slope <= 1.1


@pytest.mark.slow
@pytest.mark.parametrize("around", sorted(AROUND))
def test_the_list_in_ten_megabytes_is_found_within_two_seconds(around: str) -> None:
    text = document(around, 10 * MB)
    took = seconds(lambda: found(text), 3)
    print(f"\n{around}: {took:.2f} s for 10 MB")
    assert took < 2


@pytest.mark.parametrize(
    ("text", "part"),
    [
        (SHEET.split("SECTION 4")[0] + "Silica 7631-86-9 5 %\n" * 21_000, "the section on composition of a data sheet"),
        ("Ingredients: " + "water, " * 21_000, "the list after its heading"),
        ("Glycerin 56-81-5 1 %\n" * 21_000, "one list, since no heading was found"),
        ("SECTION 1: Identification\nGlaze\n" + SHEET * 1, ""),
        (("SECTION 1: Identification\nGlaze\n" + SHEET) * 30_000, "the section on composition of a data sheet"),
    ],
)
def test_a_list_that_is_too_large_is_refused_and_its_part_is_named(text: str, part: str) -> None:
    if not part:
        check_list_size(text)
        return
    with pytest.raises(InputError) as caught:
        check_list_size(text)
    assert caught.value.reference == "too-large"
    assert part in caught.value.at
    assert "2 MB and 20,000 lines" in caught.value.why
