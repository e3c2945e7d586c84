"""The house: imports point one way, nothing heavy without need, no network, the wheel is whole."""

from __future__ import annotations

import ast
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from tests.conftest import ROOT

HEAVY = ("rdkit", "pandas", "networkx", "scipy", "thermo", "textual", "matplotlib", "numpy", "pdfminer", "openpyxl")
HEAVY += ("miepython", "numba")


def python(code: str, **kwargs: object) -> subprocess.CompletedProcess[str]:
    return subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, timeout=120, **kwargs)


def test_imports_point_one_way():
    script = Path(sys.executable).with_name("lint-imports")
    done = subprocess.run([script, "--no-cache"], cwd=ROOT, capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stdout


def test_importing_formulate_loads_nothing_heavy():
    done = python("import formulate, sys; print([name for name in sys.modules])")
    assert not [name for name in (*HEAVY, "pydantic", "sqlite3") if f"'{name}'" in done.stdout]


def test_roles_load_no_heavy_library():
    code = "import formulate, sys; formulate.roles('Aqua, Silica'); print(list(sys.modules))"
    python(code)  # an editable copy compiles its tables on first use, and that needs rdkit
    done = python(code)
    assert done.returncode == 0, done.stderr
    assert not [name for name in HEAVY if f"'{name}'" in done.stdout]


def test_roles_and_tui_need_no_network():
    code = (
        "import socket\n"
        "def no(*a, **k): raise OSError('the network was asked for')\n"
        "socket.socket.connect = no; socket.create_connection = no; socket.getaddrinfo = no\n"
        "import formulate\n"
        "print(formulate.brief('Aqua, Dimethicone', form='spray').caution.text[:7])\n"
        "import formulate.tui.app\n"
    )
    done = python(code)
    assert done.returncode == 0, done.stderr
    assert done.stdout.startswith("Sprayed")


@pytest.mark.parametrize(
    "path", sorted((ROOT / "formulate").rglob("*.py")), ids=lambda path: str(path.relative_to(ROOT))
)
def test_modules_are_short_and_calculation_is_pure(path):
    text = path.read_text(encoding="utf-8")
    assert len(text.splitlines()) <= 500
    room = path.relative_to(ROOT / "formulate").parts[0]
    pure = {"domain", "reading", "identity", "rules", "attribution", "film", "workflow"}
    if room not in pure:
        return
    called = {
        node.func.id
        for node in ast.walk(ast.parse(text))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name)
    }
    assert not called & {"print", "open", "input"}
    imported = {
        alias.name for node in ast.walk(ast.parse(text)) if isinstance(node, ast.Import) for alias in node.names
    }
    assert not imported & {"time", "random", "os", "socket", "subprocess"}


def test_the_wheel_is_whole_and_works_from_any_folder(tmp_path):
    """The wheel is built without isolation (the test extras hold what it needs), unpacked, and run from elsewhere."""
    source = tmp_path / "source"
    shutil.copytree(
        ROOT,
        source,
        ignore=shutil.ignore_patterns(".git", ".venv", "*.egg-info", "__pycache__", ".*cache", ".hypothesis"),
    )
    built = subprocess.run(
        [sys.executable, "-m", "pip", "wheel", "--no-deps", "--no-build-isolation", "-q", "-w", tmp_path, source],
        capture_output=True,
        text=True,
        timeout=280,
    )
    assert built.returncode == 0, built.stderr
    wheel = next(tmp_path.glob("formulate_surface-*.whl"))
    names = zipfile.ZipFile(wheel).namelist()
    for wanted in ("data_public/compiled.sqlite", "data_public/ingredients.csv", "data_public/LICENSE", "tui/app.tcss"):
        assert f"formulate/{wanted}" in names
    site = tmp_path / "site"
    zipfile.ZipFile(wheel).extractall(site)
    code = f"""
import sys
sys.path.insert(0, {str(site)!r})
import formulate
from formulate.catalog.digest import tables_digest
from formulate.catalog.store import compiled_path, data_root
root = data_root()
assert compiled_path(root, tables_digest(root)) == root / "compiled.sqlite", root
print(formulate.__file__, formulate.roles("Aqua, Silica").ingredients[0].roles[0].role)
"""
    done = python(code, cwd=tmp_path)
    assert done.returncode == 0, done.stderr
    assert str(site) in done.stdout
    assert "carrier" in done.stdout
