"""The intake form: every question once, on one page, to fill in by hand or on a screen."""

from __future__ import annotations

from datetime import date
from io import BytesIO

import pikepdf
import pypdfium2
import pytest
from pypdf import PdfReader, PdfWriter

from app.booklet.content import Paper
from app.booklet.fields import ON
from app.booklet.intake_form import SOURCE, IntakeForm, make_intake_form
from app.domain.client import Client, ClientId
from app.domain.intake import require_form, take
from app.domain.intake_questions import QUESTIONS
from app.domain.wording import speaking, tr
from app.domain.work import Coach
from app.exchange.pdf_fields import read_fields
from app.resources.languages import NAMES, find_language
from tests.booklet.sample import FONTS
from tests.domain.test_intake import WHOLE

COACH = Coach("Tavi Hellmark", "radio 4")
PAPERS = [Paper.A4, Paper.LETTER]


def made(paper: Paper = Paper.A4, *, filled: bool = True) -> bytes:
    return make_intake_form(IntakeForm(COACH, paper, filled=filled), FONTS)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("filled", [True, False])
def test_it_is_one_sound_page_with_every_question(paper: Paper, filled: bool) -> None:
    pdf = made(paper, filled=filled)
    with pikepdf.open(BytesIO(pdf)) as document:
        assert document.check_pdf_syntax() == []
        assert len(document.pages) == 1
    said = " ".join(PdfReader(BytesIO(pdf)).pages[0].extract_text().split())
    for question in QUESTIONS:
        if question.text != "Agreed":
            assert question.text in said
        for _, words in question.choices:
            assert words in said
    assert "no medical examination" in said


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("code", NAMES)
def test_no_letter_leaves_the_margins_and_no_line_runs_into_another(
    paper: Paper, code: str
) -> None:
    with speaking(find_language(code)):
        page = pypdfium2.PdfDocument(made(paper, filled=False))[0]
    text = page.get_textpage()
    width, height = page.get_size()
    boxes = [text.get_rect(number) for number in range(text.count_rects())]
    for left, bottom, right, top in boxes:
        assert left >= 40
        assert right <= width - 40
        assert bottom >= 14
        assert top <= height - 14
    for number, (left, bottom, right, top) in enumerate(boxes):
        for other_left, other_bottom, other_right, other_top in boxes[number + 1 :]:
            wide = min(right, other_right) - max(left, other_left)
            tall = min(top, other_top) - max(bottom, other_bottom)
            assert wide <= 1 or tall <= 1.5


@pytest.mark.parametrize("code", NAMES)
def test_no_word_stands_on_a_box_and_none_is_lost(code: str) -> None:
    with speaking(find_language(code)):
        pdf = made()
        asked = [tr(question.text) for question in QUESTIONS]
        asked += [tr(words) for question in QUESTIONS for _, words in question.choices]
        asked.append(tr(SOURCE))
    text = pypdfium2.PdfDocument(pdf)[0].get_textpage()
    said = " ".join(text.get_text_range().split())
    assert [words for words in asked if words not in said] == []
    words_at = [text.get_rect(number) for number in range(text.count_rects())]
    with pikepdf.open(BytesIO(pdf)) as document:
        boxes = [[float(one) for one in annot.Rect] for annot in document.pages[0].Annots]
    for left, bottom, right, top in boxes:
        for at_left, at_bottom, at_right, at_top in words_at:
            wide = min(right, at_right) - max(left, at_left)
            tall = min(top, at_top) - max(bottom, at_bottom)
            assert wide <= 0.5 or tall <= 0.5


def test_every_field_of_every_question_stands_on_it_once() -> None:
    fields = read_fields(made(), where="form.pdf")
    wanted = {field for question in QUESTIONS for field in question.fields}
    assert set(fields) == wanted | {"form"}


def test_a_form_for_paper_has_no_fields() -> None:
    with pikepdf.open(BytesIO(made(filled=False))) as document:
        assert "/AcroForm" not in document.Root


def test_answers_filled_in_by_a_general_library_come_back() -> None:
    writer = PdfWriter(clone_from=PdfReader(BytesIO(made())))
    values = {key: f"/{ON}" if text == "x" else text for key, text in WHOLE.items()}
    writer.update_page_form_field_values(writer.pages[0], values, auto_regenerate=False)
    out = BytesIO()
    writer.write(out)
    answers = require_form(read_fields(out.getvalue(), where="form.pdf"))
    new = Client(ClientId("new"), "New client")
    today = date(2026, 11, 25)
    assert take(answers, new, today=today) == take(WHOLE, new, today=today)


def test_every_box_is_told_to_a_screen_reader() -> None:
    with pikepdf.open(BytesIO(made())) as document:
        for annotation in document.pages[0].Annots:
            if int(annotation.F) & 2:  # the hidden one
                continue
            assert str(annotation.TU).strip()
