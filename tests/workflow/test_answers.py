"""What the functions promise: contract keys, determinism, reasons behind every figure, on all examples."""

from __future__ import annotations

import csv
import importlib
import json
import math
import os
import pkgutil
import random
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import formulate
from formulate.catalog.store import data_root
from formulate.domain.reason import LEAF_KINDS, UNSOURCED, Node, leaves
from formulate.domain.vocabulary import ROLES, TOP_CLASSES
from formulate.errors import FormulateError, UsageError
from formulate.workflow.answers import Answer
from tests.conftest import EXAMPLES, example_ids

FUNCTIONS = (formulate.read, formulate.roles, formulate.brief)


def answers(path: Path) -> list[Answer]:
    return [function(path, form="spray", claim="ceramic silica shield", date="2026-11-25") for function in FUNCTIONS]


def corpus() -> list[str]:
    import tomllib

    folder = Path(__file__).parents[1] / "corpus"
    return [tomllib.loads(path.read_text(encoding="utf-8"))["list"] for path in sorted(folder.glob("*.toml"))]


@pytest.mark.parametrize("path", EXAMPLES, ids=example_ids)
def test_every_answer_carries_what_the_contract_fixes(path):
    for answer, command in zip(answers(path), ("read", "roles", "brief"), strict=True):
        printed = answer.model_dump(mode="json")
        assert printed["schema"] == f"formulate/{command}/1"
        assert printed["formulate"] == formulate.__version__
        assert {"data", "product", "notes", "why", "reasons"} <= set(printed)
        assert json.loads(answer.model_dump_json()) == printed


@pytest.mark.parametrize("path", EXAMPLES, ids=example_ids)
def test_roles_sum_to_one_and_use_the_vocabulary(path):
    answer = formulate.roles(path)
    assert answer.ingredients
    for row in answer.ingredients:
        assert math.isclose(sum(one.probability for one in row.roles), 1.0, abs_tol=1e-9)
        assert {one.role for one in (*row.roles, *row.also)} <= set(ROLES)
        assert "unexplained" in {one.role for one in row.roles}
        assert row.class_ in TOP_CLASSES
        assert [one.probability for one in row.roles] == sorted((one.probability for one in row.roles), reverse=True)


def shown_figures(answer: Answer) -> list[str]:
    """Pointers of every figure and statement of an answer that a face shows."""
    printed = answer.model_dump(mode="json")
    pointers = [f"/notes/{i}" for i in range(len(printed["notes"]))]
    pointers += [f"/product/{name}" for name in ("form", "claim", "substrate") if printed["product"][name]]
    for i, row in enumerate(printed.get("lines", [])):
        pointers += [f"/lines/{i}", f"/lines/{i}/ingredient", f"/lines/{i}/class", f"/lines/{i}/match"]
        pointers += [f"/lines/{i}/stated"] if row["stated"] else []
    pointers += [f"/left_over/{i}" for i in range(len(printed.get("left_over", [])))]
    pointers += [f"/facts/{name}" for name in printed.get("facts", {})]
    for i, row in enumerate(printed.get("ingredients", [])):
        pointers += [f"/ingredients/{i}/{name}" for name in ("ingredient", "class", "name", "raw", "fate")]
        pointers += [f"/ingredients/{i}/roles/{j}" for j in range(len(row["roles"]))]
        pointers += [f"/ingredients/{i}/also/{j}" for j in range(len(row["also"]))]
    for name in ("conflicts", "cautions", "sentences"):
        pointers += [f"/{name}/{i}" for i in range(len(printed.get(name, [])))]
    pointers += [f"/{name}" for name in ("carrier", "stays", "evaporates", "headline", "caution") if printed.get(name)]
    return pointers


@pytest.mark.parametrize("path", EXAMPLES, ids=example_ids)
def test_every_figure_has_a_tree_that_ends_where_a_reason_may_end(path, catalog):
    for answer in answers(path):
        for pointer in shown_figures(answer):
            assert pointer in answer.why, pointer
            for leaf in leaves(formulate.why(answer, pointer).tree):
                assert leaf.kind in LEAF_KINDS | {"rule"}, (pointer, leaf)
                assert leaf.kind != "pasted" or leaf.place is not None or "You" in leaf.says
                assert leaf.kind not in {"looked-up", "rule"} or leaf.citations, (pointer, leaf)
                for cited in leaf.citations:
                    assert catalog.source(cited.source)
                    assert cited.at


def ends(node: Node) -> Iterator[Node]:
    """Where an argument rests: nodes without children, and every node that cites a source."""
    if node.citations or not node.children:
        yield node
    for child in node.children:
        yield from ends(child)


def test_at_most_a_tenth_of_what_answers_rest_on_is_assumed():
    """Over all figures of all examples and of the corpus: an end is an assumption if it is one, or has no source."""
    assumed = total = 0
    for text in [path.read_text(encoding="utf-8") for path in EXAMPLES] + corpus():
        for function in FUNCTIONS:
            answer = function(text, form="spray")
            for pointer in shown_figures(answer):
                for end in ends(formulate.why(answer, pointer).tree):
                    total += 1
                    unsourced = end.citations and all(cited.source in UNSOURCED for cited in end.citations)
                    assumed += end.kind == "assumed" or bool(unsourced)
    assert total > 5000
    assert assumed / total <= 0.10, f"{assumed} of {total}"


def test_the_same_input_gives_the_same_bytes():
    text = EXAMPLES[0].read_text(encoding="utf-8")
    for function in FUNCTIONS:
        assert function(text).model_dump_json() == function(text).model_dump_json()


def test_changing_what_a_figure_rests_on_changes_the_figure_or_its_tree():
    """Fifty figures picked at random: the pasted line behind each is renamed; figure or tree must move."""
    picks = random.Random(26)
    texts = [path.read_text(encoding="utf-8") for path in EXAMPLES]
    moved = 0
    for _ in range(50):
        text = picks.choice(texts)
        answer = formulate.roles(text)
        index = picks.randrange(len(answer.ingredients))
        pointer = picks.choice([p for p in shown_figures(answer) if p.startswith(f"/ingredients/{index}/")])
        line = formulate.read(text).lines[index]
        changed = text[: line.place.start] + "Zorvanol" + text[line.place.end :]
        before, after = formulate.why(answer, pointer).tree, formulate.roles(changed)
        now = after.why.get(pointer)
        assert now is None or formulate.why(after, pointer).tree.id != before.id, (pointer, line.raw)
        moved += 1
    assert moved == 50


def test_changing_the_cited_records_changes_the_tree_of_what_rests_on_them(tmp_path):
    """Fifty figures at random: the place cited in every record of the tables is reworded; every such tree must move."""
    root = tmp_path / "data_public"
    shutil.copytree(data_root(), root)
    for name in ("ingredients", "names", "properties", "roles", "class_words", "word_forms", "headlines"):
        with (root / f"{name}.csv").open(encoding="utf-8", newline="") as stream:
            rows = list(csv.DictReader(stream))
        with (root / f"{name}.csv").open("w", encoding="utf-8", newline="") as stream:
            writer = csv.DictWriter(stream, rows[0], lineterminator="\n")
            writer.writeheader()
            writer.writerows({**row, "at": row["at"] + ", corrected"} for row in rows)
    picks = random.Random(11)
    chosen = []
    while len(chosen) < 50:
        path = picks.choice(EXAMPLES)
        answer = formulate.roles(path)
        pointer = picks.choice([p for p in shown_figures(answer) if p.startswith("/ingredients/")])
        node = formulate.why(answer, pointer).tree
        if any(end.kind == "looked-up" for end in ends(node)):
            chosen.append((str(path), pointer, node.id))
    code = (
        "import json, sys, pathlib, formulate\n"
        "for path, pointer, _ in json.load(sys.stdin):\n"
        "    print(formulate.why(formulate.roles(pathlib.Path(path)), pointer).tree.id)"
    )
    environment = {**os.environ, "FORMULATE_DATA": str(root)}
    done = subprocess.run(
        [sys.executable, "-c", code],
        input=json.dumps(chosen),
        capture_output=True,
        text=True,
        env=environment,
        timeout=120,
    )
    assert done.returncode == 0, done.stderr
    moved = [now != before for now, (_, _, before) in zip(done.stdout.split(), chosen, strict=True)]
    assert all(moved)
    assert len(moved) == 50


def test_no_module_has_the_name_of_a_public_function_and_functions_can_be_called_twice():
    modules = {module.name for module in pkgutil.iter_modules(formulate.__path__)}
    assert not modules & set(formulate.__all__)
    for name in ("read", "roles", "brief"):
        importlib.import_module("formulate.reading")
        importlib.import_module("formulate.workflow.api")
        assert getattr(formulate, name)("Aqua, Dimethicone") == getattr(formulate, name)("Aqua, Dimethicone")


@pytest.mark.parametrize("text", ["", "   \n ", "a sentence that holds no list at all"])
def test_text_without_a_list_is_answered(text):
    for function in FUNCTIONS:
        answer = function(text)
        printed = answer.model_dump(mode="json")
        assert printed.get("lines", printed.get("ingredients", printed.get("sentences"))) == [] or text.strip()
        assert answer.notes or text.strip()


@pytest.mark.parametrize("wrong", [{"form": "rain"}, {"jurisdiction": "moon"}, {"date": "yesterday"}])
def test_options_are_checked_as_the_command_line_checks_them(wrong):
    with pytest.raises(UsageError):
        formulate.roles("Aqua, Silica", **wrong)


@pytest.mark.parametrize("pointer", ["/ingredients/9/roles/0", "/nothing", "/", "nobody"])
def test_why_of_what_is_not_there_is_an_error(pointer):
    with pytest.raises(FormulateError):
        formulate.why(formulate.roles("Aqua, Silica"), pointer)
