"""Fields to fill in: a general PDF library finds them by name, in a tree, with a font embedded."""

from __future__ import annotations

from io import BytesIO

import pikepdf
import pytest
from fontTools.ttLib import TTFont
from pypdf import PdfReader, PdfWriter

from app.booklet import Kind, Options, Paper, make
from app.booklet.fields import ON, Fields, FormCanvas, latin_font
from app.booklet.fonts import open_faces
from app.booklet.palette import COLOUR
from app.booklet.pen import PT, Box, Pen
from app.domain.form_names import What, read_day_name, read_set_name
from app.exchange.pdf_fields import read_fields
from tests.booklet.sample import FONTS, content, issue, season

HANDED = issue(season(2))


@pytest.fixture(scope="module", params=[Paper.A4, Paper.PHONE])
def form(request) -> pikepdf.Pdf:
    options = Options(kind=Kind.FORM, paper=request.param)
    return pikepdf.open(BytesIO(make(HANDED, content(), options)))


def leaves(pdf: pikepdf.Pdf) -> dict[str, pikepdf.Object]:
    found = {}

    def walk(node, above: str) -> None:
        name = f"{above}.{node.T}" if above else str(node.T)
        if "/Kids" in node:
            for kid in node.Kids:
                assert kid.Parent.objgen == node.objgen
                walk(kid, name)
        else:
            found[name] = node

    for node in pdf.Root.AcroForm.Fields:
        walk(node, "")
    return found


def test_every_set_has_its_fields_and_no_name_comes_twice(form):
    names = leaves(form)
    wanted = {
        (number, session.id, slot.id, at)
        for number, week in enumerate(HANDED.program.weeks, start=1)
        for _, session in week.sessions()
        for slot in session.slots
        for at in range(1, slot.sets + 1)
    }
    found: dict[tuple[int, int, int, int], set[What]] = {}
    for name in names:
        if read := read_set_name(name):
            place, what = read
            key = (place.week, place.session, place.slot, place.number)
            found.setdefault(key, set()).add(what)
    assert set(found) == wanted
    assert all({What.REPS, What.RIR, What.NOTE} <= kinds for kinds in found.values())
    days = [read_day_name(name) for name in names if read_day_name(name)]
    assert len(days) == sum(1 for week in HANDED.program.weeks for _ in week.sessions())


def test_fields_say_what_they_ask_and_lie_on_their_page(form):
    for name, field in leaves(form).items():
        if name.startswith("weekloom."):
            assert int(field.F) == 2
            continue
        assert "Week " in str(field.TU)
        left, bottom, right, top = map(float, field.Rect)
        width, height = map(float, form.pages[0].MediaBox[2:])
        assert 0 < left < right < width
        assert 0 < bottom < top < height
        assert top - bottom >= 20  # points: a finger's width on a phone


def test_a_form_holds_its_issue_and_nothing_of_the_client(form):
    names = leaves(form)
    assert str(names["weekloom.issue"].V) == HANDED.id
    assert str(names["weekloom.units"].V) == "kg"
    assert str(names["weekloom.form"].V) == "1"
    told = " ".join(str(value) for value in form.docinfo.values())
    assert HANDED.client.name.split()[0] not in told


def test_the_font_of_the_fields_is_embedded_and_nothing_runs(form):
    (font,) = form.Root.AcroForm.DR.Font.values()
    file = font.FontDescriptor.FontFile2
    assert int(file.Length1) == len(file.read_bytes())
    assert "/OpenAction" not in form.Root
    assert all("/AA" not in field and "/A" not in field for field in leaves(form).values())


def test_the_font_shows_western_letters_and_figures():
    cmap = TTFont(BytesIO(latin_font(FONTS))).getBestCmap()
    assert {ord(letter) for letter in "0123456789,.-kgäößéñ€"} <= set(cmap)
    assert len(latin_font(FONTS)) < 40_000


def test_six_weeks_are_small_enough_for_a_phone():
    options = Options(kind=Kind.FORM, paper=Paper.PHONE, weeks=(1, 6))
    assert len(make(issue(season(6)), content(), options)) < 600_000


def test_a_booklet_on_paper_has_no_fields():
    assert b"AcroForm" not in make(HANDED, content(), Options())


def ticked_form() -> bytes:
    out = BytesIO()
    canvas = FormCanvas(out, pagesize=(200, 200))
    faces = open_faces(FONTS)
    pen = Pen(canvas, faces, COLOUR, 200 / PT)
    fields = Fields(canvas, faces, FONTS)
    fields.tick(pen, Box(10, 10, 5, 5), "goal.muscle", tip="Goal: muscle")
    fields.tick(pen, Box(20, 10, 5, 5), "goal.health", tip="Goal: health")
    fields.finish()
    canvas.showPage()
    canvas.save()
    return out.getvalue()


def test_a_box_can_be_ticked_by_a_general_library_and_read_back():
    writer = PdfWriter(clone_from=PdfReader(BytesIO(ticked_form())))
    writer.update_page_form_field_values(
        writer.pages[0], {"goal.muscle": f"/{ON}"}, auto_regenerate=False
    )
    out = BytesIO()
    writer.write(out)
    assert read_fields(out.getvalue(), where="a.pdf") == {"goal.muscle": ON, "goal.health": ""}


def test_a_tick_is_drawn_and_an_empty_box_is_not():
    pdf = pikepdf.open(BytesIO(ticked_form()))
    (first, _) = leaves(pdf).values()
    assert b"l S" in first.AP.N[f"/{ON}"].read_bytes()
    assert b"l S" not in first.AP.N["/Off"].read_bytes()
    assert pdf.check_pdf_syntax() == []
