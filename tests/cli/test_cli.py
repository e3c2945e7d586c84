"""The command line: result on standard output, everything else on standard error, exit codes, hostile input."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from formulate.cli.main import run
from tests.conftest import EXAMPLES, ROOT, example_ids
from tests.hostile import FORBIDDEN, HOSTILE

ROOF = ROOT / "examples" / "greenhouse-roof.txt"


def formulate(*arguments: str, stdin: bytes = b"") -> subprocess.CompletedProcess[bytes]:
    return subprocess.run([sys.executable, "-m", "formulate", *arguments], input=stdin, capture_output=True, timeout=60)


def four_parts(stderr: str) -> bool:
    return all(part in stderr for part in ("Where: ", "Why it matters: ", "What to do: "))


def test_roles_prints_the_breakdown_and_the_next_step():
    done = formulate("roles", str(ROOF), "--form", "spray")
    out, err = done.stdout.decode(), done.stderr.decode()
    assert done.returncode == 0
    for words in ("Water", "carrier", "Amodimethicone", "stays", "leaves the surface", "Vel-Tarn 40", "no such name"):
        assert words in out
    assert err.startswith("next: ")


def test_roles_says_why_a_line_is_no_substance():
    """A class is no failed look-up, and is not told as one."""
    out = formulate("roles", "-", stdin=b"Water, Silicone oil, Vel-Tarn 40").stdout.decode()
    rows = {line[5:].split("  ")[0]: line for line in out.splitlines() if line[:3].strip().isdigit()}
    assert "kind open" in rows["Silicone oil"]
    assert "no such name" in rows["Vel-Tarn 40"]


def test_standard_input_json_and_functions_agree():
    text = ROOF.read_text(encoding="utf-8")
    done = formulate("roles", "-", "--json", "--date", "2026-11-25", stdin=text.encode())
    import formulate as library

    assert json.loads(done.stdout) == library.roles(text, date="2026-11-25").model_dump(mode="json")
    assert done.stderr == b""


@pytest.mark.parametrize("path", EXAMPLES, ids=example_ids)
@pytest.mark.parametrize("command", ["read", "roles", "brief"])
def test_examples_answer_on_every_command(capsys, command, path):
    assert run([command, str(path), "--form", "spray"]) == 0
    assert len(capsys.readouterr().out.splitlines()) > 3


def test_why_prints_a_tree_down_to_sources_and_places(capsys):
    assert run(["roles", str(ROOF), "--why", "Acetic Acid"]) == 0
    out = capsys.readouterr().out
    assert "Acetic acid" in out
    assert "says " in out
    assert "in what you pasted, line" in out
    assert run(["roles", str(ROOF), "--why", "/ingredients/0/roles/0", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["schema"] == "formulate/why/1"


@pytest.mark.parametrize(
    ("arguments", "code", "reference"),
    [
        (["roles"], 2, "usage"),
        (["rolls", "x"], 2, "usage"),
        (["roles", str(ROOF), "--form", "sprinkle"], 2, "usage"),
        (["roles", str(ROOF), "--date", "yesterday"], 2, "usage-date"),
        (["roles", str(ROOF), "--why", "no such thing"], 2, "why-unknown"),
        (["roles", "/no/such/file"], 3, "unreadable-file"),
        (["roles", str(ROOT)], 3, "unreadable-file"),
    ],
)
def test_errors_have_four_parts_and_a_code(capsys, arguments, code, reference):
    assert run(arguments) == code
    err = capsys.readouterr().err
    assert four_parts(err)
    assert f"({reference})" in err


def test_an_error_as_json(capsys):
    assert run(["roles", "/no/such/file", "--json"]) == 3
    error = json.loads(capsys.readouterr().err)
    assert error["schema"] == "formulate/error/1"
    assert set(error["error"]) == {"reference", "what", "at", "why", "try"}


def test_strict_exits_1_if_a_line_stayed_unknown(capsys):
    assert run(["roles", str(ROOF), "--strict"]) == 1
    assert run(["brief", str(ROOF), "--strict"]) == 1
    assert run(["read", str(ROOT / "examples" / "museum-case.txt"), "--strict"]) == 0


def test_no_command_prints_help_and_exits_2():
    done = formulate()
    assert done.returncode == 2
    assert done.stdout == b""
    assert b"examples:" in done.stderr


@pytest.mark.parametrize("command", ["read", "roles", "brief"])
@pytest.mark.parametrize("kind", HOSTILE)
def test_hostile_text_reaches_no_terminal(capsys, tmp_path, command, kind):
    path = tmp_path / "list.txt"
    path.write_bytes(HOSTILE[kind].encode("utf-8", "surrogateescape"))
    for extra in ([], ["--why", "1"], ["--claim", HOSTILE[kind].replace("\x00", "")]):
        assert run([command, str(path), *extra]) in ({0, 2, 3} if kind == "null-and-bell" else {0, 2})
        printed = capsys.readouterr()
        assert not [char for char in FORBIDDEN if char in printed.out + printed.err]


@pytest.mark.parametrize(
    ("content", "codes"),
    [
        (b"", {0}),
        (b"\x00\x01\x02PNG" * 50, {3}),
        (b"%PDF-1.4 \x00\xff", {3}),
        (b"a," * 50_000, {3}),
        (b"x" * 100_000, {0}),
        (b"Water " * 3000, {0}),
        ("水，硅油".encode("utf-16"), {0}),
        (b"Aqua, W\xe4sser", {0}),
        (b"," * 1000, {0}),
        (b"Aqua\n" * 30_000, {3}),
        (b"Aqua, Silica. " * 800_000, {3}),
    ],
    ids=[
        "empty",
        "binary",
        "pdf",
        "commas",
        "one-line",
        "no-separators",
        "utf-16",
        "cp1252",
        "only-commas",
        "too-many-lines",
        "10-mb",
    ],
)
def test_bad_input_is_answered_or_refused_never_a_traceback(tmp_path, content, codes):
    path = tmp_path / "input.txt"
    path.write_bytes(content)
    done = formulate("roles", str(path))
    assert done.returncode in codes
    assert b"Traceback" not in done.stderr
    assert done.returncode == 0 or four_parts(done.stderr.decode())


def test_a_closed_pipe_ends_quietly():
    done = subprocess.run(
        f"{sys.executable} -m formulate roles {ROOF} --json | head -c 10", shell=True, capture_output=True, timeout=60
    )
    assert b"Traceback" not in done.stderr
    assert b"Exception" not in done.stderr


def test_a_terminal_without_utf_8_gets_marks_not_a_traceback(tmp_path):
    path = tmp_path / "list.txt"
    path.write_text("Węglan sodu, 水, Silica", encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "formulate", "roles", str(path)],
        capture_output=True,
        timeout=60,
        env={"PYTHONIOENCODING": "ascii", "PATH": "/usr/bin:/bin", "HOME": str(Path.home())},
    )
    assert done.returncode == 0
    assert done.stdout.isascii()


@pytest.mark.parametrize("command", ["read", "roles", "brief"])
@pytest.mark.parametrize("kind", HOSTILE)
def test_hostile_text_leaves_json_readable(capsys, tmp_path, command, kind):
    path = tmp_path / "list.txt"
    path.write_bytes(HOSTILE[kind].encode("utf-8", "surrogateescape"))
    assert run([command, str(path), "--json", "--claim", HOSTILE[kind].replace("\x00", "")]) in {0, 2, 3}
    printed = capsys.readouterr().out
    printed.encode("utf-8")
    assert printed == "" or json.loads(printed)["schema"].startswith(f"formulate/{command}/")


def test_why_of_the_brief_goes_by_name(capsys):
    assert run(["brief", str(ROOF), "--why", "Silica"]) == 0
    assert "Silica" in capsys.readouterr().out


@pytest.mark.parametrize("redirect", ["<&-", ">&-", ">/dev/full"])
def test_a_closed_stream_or_full_disk_is_no_traceback(redirect):
    done = subprocess.run(
        f"{sys.executable} -m formulate roles {'-' if '<' in redirect else ROOF} {redirect}",
        shell=True,
        capture_output=True,
        timeout=60,
    )
    assert b"Traceback" not in done.stderr
    assert b"Exception" not in done.stderr
    assert done.returncode in {0, 2, 3, 4}


def test_no_place_to_keep_the_compiled_table_is_no_error(tmp_path):
    away = tmp_path / "nowhere"
    away.write_text("a file where a folder should be", encoding="utf-8")
    done = subprocess.run(
        [sys.executable, "-m", "formulate", "roles", str(ROOF)],
        capture_output=True,
        timeout=120,
        env={"XDG_CACHE_HOME": str(away), "PATH": "/usr/bin:/bin", "HOME": str(away)},
    )
    assert done.returncode == 0, done.stderr
    assert b"Traceback" not in done.stderr
