"""The case: whole or not at all, newer refused, a moved file not overwritten."""

from __future__ import annotations

import json

import pytest

from formulate.casefile import open_case, save_case
from formulate.domain.edit import Case, PastedText
from formulate.errors import CaseError
from formulate.workflow.session import Session


def a_case() -> Case:
    return Case(id="c", texts=(PastedText(id="t", text="Aqua, [/nope]\u202e, Wax \udce4"),))


def test_a_case_comes_back_as_it_was(tmp_path):
    path = tmp_path / "roof.case.json"
    save_case(a_case(), path)
    assert open_case(path).case == a_case()
    assert not list(tmp_path.glob("*.part"))


def test_a_file_changed_by_another_is_not_overwritten(tmp_path):
    path = tmp_path / "roof.case.json"
    opened = save_case(a_case(), path)
    theirs = path.read_text(encoding="utf-8") + "\n"
    path.write_text(theirs, encoding="utf-8")
    saved = save_case(a_case(), path, opened.digest)
    assert saved.path.name == "roof (2).case.json"
    assert path.read_text(encoding="utf-8") == theirs


def test_a_new_case_takes_no_existing_name(tmp_path):
    path = tmp_path / "roof.case.json"
    path.write_text("something", encoding="utf-8")
    assert save_case(a_case(), path).path.name == "roof (2).case.json"


def test_a_newer_schema_is_refused_and_unknown_fields_are_kept(tmp_path):
    path = tmp_path / "roof.case.json"
    path.write_text(json.dumps({"schema": 2, "id": "c"}), encoding="utf-8")
    with pytest.raises(CaseError, match="newer formulate"):
        open_case(path)
    path.write_text(json.dumps({"schema": 1, "id": "c", "shelf": "left"}), encoding="utf-8")
    saved = save_case(open_case(path).case, tmp_path / "again.case.json")
    assert json.loads(saved.path.read_text(encoding="utf-8"))["shelf"] == "left"


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"{",
        b"[]",
        b"\xff\xfe",
        b'{"schema": 1}',
        b'{"schema": 0, "id": "a"}',
        b'{"schema": "1", "id": "a"}',
        b'{"schema": 1, "id": "a", "cursor": 3}',
        b'{"schema": 1, "id": "a", "cursor": -1}',
        b'{"schema": 1, "id": "a", "texts": "water"}',
        b"[" * 100_000,
    ],
    ids=["empty", "cut", "list", "not-text", "no-id", "schema-0", "schema-word", "cursor", "below", "texts", "deep"],
)
def test_a_damaged_case_is_an_error_in_four_parts(tmp_path, content):
    path = tmp_path / "roof.case.json"
    path.write_bytes(content)
    with pytest.raises(CaseError) as caught:
        open_case(path)
    assert caught.value.what
    assert caught.value.at
    assert caught.value.why
    assert caught.value.try_


def test_a_session_is_kept_and_opened(tmp_path):
    session = Session()
    session.paste("Aqua, Silica")
    session.correct(
        session.answers().roles.ingredients[1].line, "role", "abrasive", when="2026-11-25T13:02:00", who="you"
    )
    path = session.save(tmp_path / "roof.case.json")
    again = Session.open(path)
    assert again.answers().roles == session.answers().roles
    assert again.save() == path
