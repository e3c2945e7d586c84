"""The process that opens documents: its limits, how it is ended, and that nothing but InputError comes of any bytes."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from formulate.errors import InputError
from formulate.intake import apart, text_of_bytes
from formulate.intake.worker import document_text
from tests.conftest import ROOT
from tests.intake import made


def limited(code: str) -> subprocess.CompletedProcess[str]:
    """Run code in a process that has limited itself as the worker does."""
    whole = f"from formulate.intake.worker import limit_itself\nlimit_itself()\n{code}"
    return subprocess.run([sys.executable, "-c", whole], capture_output=True, text=True, timeout=100, cwd=ROOT)


@pytest.mark.parametrize(
    ("code", "says"),
    [
        ("import socket; socket.socket()", "PermissionError"),
        ("import socket; socket.getaddrinfo('localhost', 80)", "PermissionError"),
        ("import subprocess; subprocess.run(['true'])", "PermissionError"),
        ("import os; os.system('true')", "PermissionError"),
        ("import os; os.fork()", "PermissionError"),
        ("open('/tmp/formulate-never', 'w')", "PermissionError"),
        ("x = bytearray(2 * 1024 ** 3)", "MemoryError"),
    ],
)
def test_what_the_worker_cannot_do(code: str, says: str) -> None:
    done = limited(code)
    assert done.returncode != 0
    assert says in done.stderr.split("\n")[-2]


def test_no_file_is_written_even_past_the_hook(tmp_path: Path) -> None:
    path = tmp_path / "x"
    done = limited(f"import os; os.write(os.open({str(path)!r}, os.O_CREAT | os.O_WRONLY), b'text')")
    assert done.returncode != 0
    assert not path.exists() or path.stat().st_size == 0


def test_a_document_that_takes_too_long() -> None:
    page = ("<p>" + "x" * 50 + "</p>") * 200_000
    start = time.monotonic()
    with pytest.raises(InputError, match=r"more than 0\.2 seconds") as caught:
        apart.text_apart("page", page.encode(), "x.html", seconds=0.2)
    assert caught.value.reference == "document-limits"
    assert time.monotonic() - start < 5


def test_more_text_than_is_taken(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(apart, "TEXT_CHARACTERS", 10)
    with pytest.raises(InputError) as caught:
        text_of_bytes(b"<html><body><p>" + b"Water " * 100 + b"</p></body></html>", "x.html")
    assert caught.value.reference == "document-limits"


def test_standard_input_and_the_command_line(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "formulate", "read"]
    done = subprocess.run([*command, "-"], input=made.data_sheet(), capture_output=True, timeout=100, cwd=ROOT)
    assert done.returncode == 0, done.stderr
    assert b"amodimethicone" in done.stdout
    path = tmp_path / "scan.pdf"
    path.write_bytes(made.scanned_sheet())
    done = subprocess.run([*command, str(path)], capture_output=True, timeout=100, cwd=ROOT)
    assert done.returncode == 3
    assert b"scanned-document" in done.stderr


@pytest.mark.skipif(not Path("/proc").is_dir(), reason="looks at processes in /proc")
def test_an_interrupt_ends_the_worker_too(tmp_path: Path) -> None:
    path = tmp_path / "long.html"
    path.write_bytes(b"<html>" + b"<p>Water" * 2_000_000)
    done = subprocess.Popen(
        [sys.executable, "-m", "formulate", "read", str(path)], stderr=subprocess.PIPE, cwd=ROOT, start_new_session=True
    )
    worker = _child(done.pid)
    os.kill(done.pid, signal.SIGINT)  # to the program alone: it must end the worker itself
    _, said = done.communicate(timeout=30)
    assert done.returncode == 130
    assert said == b"Stopped.\n"
    until = time.monotonic() + 10  # interrupted while it was started, it ends by itself: nothing is handed to it
    while _runs(worker) and time.monotonic() < until:
        time.sleep(0.05)
    assert not _runs(worker)


def _runs(process: int) -> bool:
    """Whether a process runs; one that has ended and waits to be collected does not."""
    try:
        return Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0] != "Z"
    except OSError:
        return False


def _child(parent: int) -> int:
    """The process that a process has started, as soon as there is one."""
    until = time.monotonic() + 30
    while time.monotonic() < until:
        children = Path(f"/proc/{parent}/task/{parent}/children").read_text().split()
        if children:
            return int(children[0])
        time.sleep(0.02)
    raise AssertionError("no worker was started")


def test_text_starts_no_process_and_loads_no_library(tmp_path: Path) -> None:
    path = tmp_path / "list.txt"
    path.write_text("Water, wax 5 %")
    code = (
        f"import formulate, pathlib, sys; formulate.read(pathlib.Path({str(path)!r})); print(*sys.modules, sep='\\n')"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=100, cwd=ROOT)
    assert done.returncode == 0, done.stderr
    loaded = set(done.stdout.split("\n"))
    assert "formulate.intake" in loaded
    assert not loaded & {"pdfminer", "openpyxl", "zipfile", "csv", "html.parser", "formulate.intake.apart"}


WHOLE = {
    "pdf": made.data_sheet(),
    "zip": made.workbook([["Water", 0.05]], formats={"B1": "0%"}),
    "page": b"<table><tr><td>Water",
}


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_any_bytes_give_text_or_a_refusal(data: st.DataObject) -> None:
    """A document with a stretch replaced, or random bytes behind its first signs."""
    kind = data.draw(st.sampled_from(sorted(WHOLE)))
    whole = WHOLE[kind]
    start = data.draw(st.integers(0, len(whole)))
    end = data.draw(st.integers(start, min(len(whole), start + 300)))
    hostile = whole[:start] + data.draw(st.binary(max_size=60)) + whole[end:]
    try:
        text = document_text(kind, hostile, "")
    except InputError as error:
        text = str(error)
    assert isinstance(text, str)


@pytest.mark.parametrize(
    "magic", [b"%PDF-1.7\n", b"PK\x03\x04", b"PK\x05\x06", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", b"<html>"]
)
@settings(max_examples=4, deadline=None)
@given(tail=st.binary(max_size=400))
def test_any_bytes_behind_each_magic(magic: bytes, tail: bytes) -> None:
    try:
        text = text_of_bytes(magic + tail, "x")
    except InputError as error:
        text = str(error)
    assert isinstance(text, str)
