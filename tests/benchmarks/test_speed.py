"""Times as ratios to a named peer in the same run; milliseconds are printed with the machine, never asserted."""

from __future__ import annotations

import os
import platform
import resource
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import formulate
from formulate.catalog.store import open_catalog
from formulate.identity.spelling import nearest_keys
from tests.conftest import ROOT

FIFTEEN = """Aqua
Isopropyl Alcohol
Dimethicone
Amodimethicone
Silica
Carnauba Wax
Paraffin
Trideceth-6
Cetrimonium Chloride
Acetic Acid
Citric Acid
Phenoxyethanol
Methylisothiazolinone
Parfum
CI 42090"""


def seconds(call: Callable[[], object], repeats: int) -> float:
    """Median time of a call."""
    times = []
    for _ in range(repeats):
        start = time.perf_counter()
        call()
        times.append(time.perf_counter() - start)
    return statistics.median(times)


def report(what: str, ours: float, peer: float, peer_name: str) -> None:
    print(
        f"\n{what}: {ours * 1000:.1f} ms; {peer_name}: {peer * 1000:.1f} ms; ratio {ours / peer:.2f} "
        f"({platform.machine()}, Python {platform.python_version()})"
    )


def process(*arguments: str) -> Callable[[], object]:
    """A process as an installed program runs: with its bytecode kept, whatever this machine's environment says."""
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return lambda: subprocess.run(
        [sys.executable, *arguments], capture_output=True, check=True, cwd=ROOT, env=environment
    )


def processor_seconds(call: Callable[[], object]) -> float:
    """Processor time of the process that a call runs: what it costs, whatever else the machine is doing."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    call()
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


def test_roles_of_fifteen_lines_as_a_process(tmp_path: Path):
    """The whole process costs at most half of what importing pandas, networkx and rdkit.Chem costs."""
    path = tmp_path / "list.txt"
    path.write_text(FIFTEEN, encoding="utf-8")
    ours, peer = process("-m", "formulate", "roles", str(path)), process("-c", "import pandas, networkx, rdkit.Chem")
    ours(), peer()
    pairs = [(processor_seconds(ours), processor_seconds(peer)) for _ in range(11)]
    wall = seconds(ours, 5)
    mine, theirs = min(one for one, _ in pairs), min(one for _, one in pairs)
    report("roles, 15 lines, whole process, processor time", mine, theirs, "import pandas, networkx, rdkit.Chem")
    print(f"  by the clock: {wall * 1000:.0f} ms")
    assert mine <= 0.5 * theirs


def test_a_label_is_read_and_identified_quickly():
    """Twenty lines read and identified against a rapidfuzz ratio scan of all names for twenty lines."""
    from rapidfuzz import fuzz
    from rapidfuzz import process as scan

    lines = FIFTEEN.split("\n") + ["Glycerin", "Urea", "Morpholine", "Kaolin", "Alumina"]
    names = open_catalog().name_keys
    numbered = iter(range(10**6))
    mine = seconds(lambda: formulate.read("\n".join(lines) + f"\nSodium Chloride {next(numbered)}"), 15)
    theirs = seconds(lambda: [scan.extract(line, names, scorer=fuzz.ratio) for line in lines], 5)
    report("read, 21 lines, after load", mine, theirs, "rapidfuzz ratio scan of all names")
    assert mine <= theirs


def test_the_exact_path_is_far_faster_than_a_scan():
    from rapidfuzz import fuzz
    from rapidfuzz import process as scan

    catalog = open_catalog()
    mine = seconds(lambda: catalog.by_name("Cetrimonium Chloride"), 200)
    theirs = seconds(lambda: scan.extract("cetrimoniumchloride", catalog.name_keys, scorer=fuzz.ratio), 10)
    report("one exact look-up", mine, theirs, "rapidfuzz ratio scan of all names")
    assert mine <= theirs / 30


def test_the_spelling_path_costs_about_one_scan():
    from rapidfuzz import fuzz
    from rapidfuzz import process as scan

    catalog = open_catalog()
    mine = seconds(lambda: nearest_keys("Cetrimonum Chloride", catalog.name_keys), 20)
    theirs = seconds(lambda: scan.extract("cetrimonumchloride", catalog.name_keys, scorer=fuzz.ratio), 20)
    report("one misspelling", mine, theirs, "rapidfuzz ratio scan of all names")
    assert mine <= 3 * theirs
