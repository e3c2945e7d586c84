"""Coverage-guided fuzzing of what a person pastes: no exception, no hang, places inside the text.

python tests/fuzz/fuzz_pasted.py CORPUS -max_total_time=1800 -timeout=10 -max_len=3000

Needs the fuzzing library of the ``fuzz`` extra. Figures of finished runs stand in README.md beside this file.
"""

from __future__ import annotations

import sys
from pathlib import Path

import atheris

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

with atheris.instrument_imports(include=["formulate.reading", "formulate.identity"]):
    from formulate.catalog.store import open_catalog
    from formulate.domain.reason import Ledger
    from formulate.identity.match import identify
    from formulate.reading import add_pasted, read_text

CATALOG = open_catalog()


def one_paste(data: bytes) -> None:
    """Read and identify one text, and check what must hold for every text."""
    text = data.decode("utf-8", "replace")
    reading, _ = read_text(text, "fuzz", CATALOG.knows)
    for line in reading.lines:
        assert 0 <= line.place.start < line.place.end <= len(text)
        assert line.name.strip()
        if line.stated is not None:
            low, high = line.stated.low, line.stated.high
            assert low is None or high is None or 0 <= low <= high <= 1.0001
    for piece in reading.left_over:
        assert text[piece.place.start : piece.place.end] == piece.text
    ledger = Ledger()
    pasted = {line.id: add_pasted(ledger, line, len(reading.lines)) for line in reading.lines}
    matches, _ = identify(reading.lines, pasted, ledger, CATALOG, ())
    assert len(matches) == len(reading.lines)
    assert all(0 <= match.confidence <= 1 for match in matches)


def main() -> None:
    """Hand over to the fuzzer."""
    atheris.Setup(sys.argv, one_paste)
    atheris.Fuzz()


if __name__ == "__main__":
    main()
