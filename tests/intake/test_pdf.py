"""PDFs: rows of tables, pages, heads and feet; and those that are not read."""

from __future__ import annotations

from pathlib import Path

import pytest

import formulate
from formulate.errors import InputError
from formulate.intake import text_of_bytes
from tests.intake import made


def lines_of(text: str) -> list[str]:
    return [line for line in text.split("\n") if line.strip()]


@pytest.mark.parametrize("ruled", [True, False], ids=["ruled", "spaced"])
def test_a_table_comes_out_row_by_row(ruled: bool) -> None:
    text = text_of_bytes(made.data_sheet(ruled), "sheet.pdf")
    lines = lines_of(text)
    for row in made.ROWS:
        assert "\t".join(row) in lines
    assert text.count("\f") == 1
    assert lines.count("\t".join(made.HEAD)) == 2
    assert "[page foot] Invented data, for tests\tPage 1 of 2" in lines
    assert lines[0] == "Safety data sheet (invented): ferry seat protectant\tRevision 3"


@pytest.mark.parametrize("ruled", [True, False], ids=["ruled", "spaced"])
def test_end_to_end_rows_amounts_and_pages(ruled: bool, tmp_path: Path) -> None:
    path = tmp_path / "sheet.pdf"
    path.write_bytes(made.data_sheet(ruled))
    answer = formulate.read(path)
    assert [line.cas for line in answer.lines] == [cas for _, cas, _ in made.ROWS]
    assert [line.stated.text for line in answer.lines if line.stated] == [amount for _, _, amount in made.ROWS]
    assert [line.place.page for line in answer.lines] == [1, 1, 1, 2, 2, 2]
    assert answer.facts["ph"].place.page == 2
    assert answer.facts["ph"].best == 4.5
    assert {piece.why for piece in answer.left_over if "page foot" in piece.text} == {
        "page furniture: it stands on several pages"
    }
    text = text_of_bytes(path.read_bytes(), path.name)
    for line in answer.lines:
        assert text[line.place.start : line.place.end].split("\t")[0].startswith(line.name.split(",")[0])
        assert text.split("\n")[line.place.line - 1][line.place.column - 1 :].startswith(line.name[:4])


@pytest.mark.parametrize("middle", [False, True], ids=["top", "middle"])
@pytest.mark.parametrize("rules", ["all", "level", "shaded", "none"])
def test_a_table_whose_cells_wrap_in_several_columns(rules: str, middle: bool) -> None:
    text = text_of_bytes(made.wide_table(rules, middle), "x.pdf")
    lines = lines_of(text)
    assert "\t".join(made.WIDE) in lines
    for row in made.WIDE_ROWS:
        assert "\t".join(" ".join(cell) for cell in row) in lines
    read = formulate.read(text).lines
    assert [line.cas for line in read] == ["64742-49-0", "70131-67-8", "67-63-0"]
    assert [line.stated and line.stated.high for line in read] == [0.5, 0.03, 0.25]


def test_a_page_of_its_own_has_no_page_number() -> None:
    pdf = made.raw_pdf(
        [made.CATALOGUE, made.ONE_PAGE, made.page_object(4), made.stream(b"BT /F1 9 Tf 50 700 Td (Water, wax) Tj ET")]
    )
    text = text_of_bytes(pdf, "x.pdf")
    assert text == "Water, wax"
    assert formulate.read(text).lines[0].place.page is None


def test_bytes_before_the_head_are_skipped() -> None:
    assert "Amodimethicone" in text_of_bytes(b"\x00\x01 junk \xff\n" + made.data_sheet(), "x.pdf")


def test_a_table_without_rules_or_gaps_keeps_its_lines() -> None:
    """A line below a row is its end only where rows are set apart; else an ingredient could be lost in a name."""
    pdf = made.Sheet(1)
    pdf.add_page()
    for number, cells in enumerate([made.HEAD, made.ROWS[0], ("Perfume", "", ""), made.ROWS[3], made.ROWS[4]]):
        for (x, _), text in zip(made.COLUMNS, cells, strict=True):
            pdf.put(x, 30 + 4 * number, text)
    lines = lines_of(text_of_bytes(bytes(pdf.output()), "x.pdf"))
    assert "Perfume" in lines
    assert "\t".join(made.ROWS[0]) in lines


def test_a_whole_table_between_two_rules_is_not_one_row() -> None:
    pdf = made.Sheet(1)
    pdf.add_page()
    for y in (28, 35, 60):
        pdf.line(15, y, 150, y)
    for number, cells in enumerate([made.HEAD, *made.ROWS[2:6]]):
        for (x, _), text in zip(made.COLUMNS, cells, strict=True):
            pdf.put(x, 29 + 7 * number, text)
    lines = lines_of(text_of_bytes(bytes(pdf.output()), "x.pdf"))
    for row in made.ROWS[2:6]:
        assert "\t".join(row) in lines


def test_letters_printed_twice_are_one() -> None:
    pdf = made.Sheet(1)
    pdf.add_page()
    pdf.put(15, 50, "Wax")
    pdf.put(15.1, 50, "Wax")
    assert "Wax" in lines_of(text_of_bytes(bytes(pdf.output()), "x.pdf"))


def test_signs_drawn_in_one_piece_are_letters() -> None:
    font = made.FONT.replace(b"/Helvetica", b"/Helvetica /Encoding << /Differences [1 /fi] >>")
    contents = made.stream(b"BT /F1 9 Tf 50 700 Td (Paraf\\001n wax) Tj ET")
    pdf = made.raw_pdf([made.CATALOGUE, made.ONE_PAGE, made.page_object(4, font), contents])
    assert text_of_bytes(pdf, "x.pdf") == "Paraffin wax"


def test_text_that_stands_on_its_side_is_kept() -> None:
    pdf = made.Sheet(1)
    pdf.add_page()
    with pdf.rotation(90, 50, 100):
        pdf.put(50, 100, "Sideways")
    assert "Sideways" in text_of_bytes(bytes(pdf.output()), "x.pdf")


def refused(data: bytes, name: str = "sheet.pdf") -> InputError:
    with pytest.raises(InputError) as caught:
        text_of_bytes(data, name)
    error = caught.value
    assert all((error.what, error.at, error.why, error.try_))
    assert error.at.startswith(name)
    return error


def test_under_a_password() -> None:
    assert refused(made.data_sheet(password="secret")).reference == "encrypted-document"


def test_locked_by_its_owner_only_is_read() -> None:
    assert "Amodimethicone" in text_of_bytes(made.data_sheet(password=""), "x.pdf")


def test_scanned() -> None:
    error = refused(made.scanned_sheet())
    assert error.reference == "scanned-document"
    assert "picture" in error.what


def test_too_many_pages() -> None:
    kids = b" ".join(b"%d 0 R" % number for number in range(4, 4 + 201))
    pages = [made.page_object(3) for _ in range(201)]
    many = made.raw_pdf(
        [
            made.CATALOGUE,
            b"<< /Type /Pages /Kids [%s] /Count 201 >>" % kids,
            made.stream(b"BT /F1 9 Tf 50 700 Td (Water) Tj ET"),
            *pages,
        ]
    )
    error = refused(many)
    assert error.reference == "too-many-pages"
    assert error.at == "sheet.pdf, page 201"


def test_a_stream_that_unpacks_beyond_the_memory() -> None:
    data = made.swollen_pdf(3000)
    assert len(data) < 5_000_000
    assert refused(data).reference == "document-limits"


def test_a_page_tree_without_end() -> None:
    assert refused(made.deep_pdf(5000)).reference == "document-limits"
    turning = made.raw_pdf([made.CATALOGUE, b"<< /Type /Pages /Kids [2 0 R] /Count 1 >>"])
    assert refused(turning).reference in {"damaged-document", "scanned-document"}


def test_a_form_that_draws_itself() -> None:
    form = made.stream(
        b"/X Do", b"/Type /XObject /Subtype /Form /BBox [0 0 9 9] /Resources << /XObject << /X 4 0 R >> >>"
    )
    data = made.raw_pdf(
        [
            made.CATALOGUE,
            made.ONE_PAGE,
            made.page_object(5, b"<< /XObject << /X 4 0 R >> >>"),
            form,
            made.stream(b"/X Do"),
        ]
    )
    assert refused(data).reference in {"document-limits", "scanned-document"}


def test_damaged() -> None:
    assert refused(b"%PDF-1.7\n\x00\x01\x02\x80\x81" * 20).reference == "damaged-document"
    whole = made.data_sheet()
    assert refused(whole[:600] + b"\x00" * 20).reference in {"damaged-document", "scanned-document"}


def test_names_that_stand_first_on_two_pages_are_no_heads() -> None:
    pdf = made.Sheet(2)
    for names in (("Aqua", "Polysorbate 20", "Ethanol"), ("Aqua", "Polysorbate 80", "Wax")):
        pdf.add_page()
        for number, name in enumerate(names):
            pdf.put(15, 24 + 5 * number, name)
    lines = lines_of(text_of_bytes(bytes(pdf.output()), "x.pdf"))
    assert [line for line in lines if "[" not in line and "(" not in line] == [
        "Aqua",
        "Polysorbate 20",
        "Ethanol",
        "Aqua",
        "Polysorbate 80",
        "Wax",
    ]
    assert sum(line.startswith("[page head]") for line in lines) == 1
    assert sum(line.startswith("[page foot]") for line in lines) == 2


def test_a_page_that_is_only_a_picture_is_said() -> None:
    from PIL import Image

    pdf = made.Sheet(2)
    pdf.add_page()
    pdf.put(15, 50, "Water, wax")
    pdf.header = pdf.footer = lambda: None  # type: ignore[method-assign]
    pdf.add_page()
    pdf.image(Image.new("L", (60, 80), 200), 0, 0, 210, 297)
    assert lines_of(text_of_bytes(bytes(pdf.output()), "x.pdf"))[-1] == "[page without text: a picture]"
