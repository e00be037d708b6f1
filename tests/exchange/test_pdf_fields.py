from __future__ import annotations

import random
from io import BytesIO

import pikepdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pypdf import PdfReader, PdfWriter
from reportlab.pdfgen.canvas import Canvas

from app.exchange import pdf_fields
from app.exchange.pdf_fields import FormError, read_fields


def form() -> bytes:
    out = BytesIO()
    canvas = Canvas(out)
    canvas.drawString(50, 780, "A form")
    canvas.acroForm.textfield(name="who", x=50, y=700, width=200, height=20)
    canvas.acroForm.textfield(name="week.load", x=50, y=660, width=200, height=20)
    canvas.acroForm.checkbox(name="agreed", x=50, y=620)
    canvas.acroForm.checkbox(name="other", x=90, y=620)
    canvas.save()
    return out.getvalue()


def filled(values: dict[str, str]) -> bytes:
    writer = PdfWriter(clone_from=PdfReader(BytesIO(form())))
    writer.update_page_form_field_values(writer.pages[0], values, auto_regenerate=False)
    out = BytesIO()
    writer.write(out)
    return out.getvalue()


def test_text_and_ticks_come_back_as_they_were_entered() -> None:
    found = read_fields(
        filled({"who": "Łukasz Ångström", "week.load": "82,5", "agreed": "/Yes"}), where="a.pdf"
    )
    assert found["who"] == "Łukasz Ångström"
    assert found["week.load"] == "82,5"
    assert found["agreed"] == "Yes"
    assert found["other"] == ""


def test_names_are_the_whole_path_in_a_tree() -> None:
    document = pikepdf.open(BytesIO(form()))
    branch = document.make_indirect(
        pikepdf.Dictionary(
            T="w03",
            Kids=[pikepdf.Dictionary(T="load", FT=pikepdf.Name.Tx, V="60")],
        )
    )
    document.Root.AcroForm.Fields.append(branch)
    out = BytesIO()
    document.save(out)
    assert read_fields(out.getvalue(), where="a.pdf")["w03.load"] == "60"


@pytest.mark.parametrize(
    ("data", "what"),
    [
        (b"", "no PDF"),
        (b"hello", "no PDF"),
        (b"%PDF-1.4 and then nothing", "damaged"),
        (b"%PDF-" + b" " * pdf_fields.MOST_BYTES, "larger"),
    ],
)
def test_what_is_no_form_is_refused(data: bytes, what: str) -> None:
    with pytest.raises(FormError, match=what) as error:
        read_fields(data, where="a.pdf")
    assert error.value.where == "a.pdf"


def test_a_printed_form_has_lost_its_fields_and_says_so() -> None:
    out = BytesIO()
    canvas = Canvas(out)
    canvas.drawString(50, 700, "flat")
    canvas.save()
    with pytest.raises(FormError, match="flattened"):
        read_fields(out.getvalue(), where="a.pdf")


def test_a_locked_form_is_refused() -> None:
    out = BytesIO()
    with pikepdf.open(BytesIO(form())) as document:
        document.save(out, encryption=pikepdf.Encryption(owner="o", user="u"))
    with pytest.raises(FormError, match="password"):
        read_fields(out.getvalue(), where="a.pdf")


def test_a_form_that_hangs_in_itself_is_refused() -> None:
    document = pikepdf.open(BytesIO(form()))
    knot = document.make_indirect(pikepdf.Dictionary(T="knot"))
    knot.Kids = pikepdf.Array([knot])
    document.Root.AcroForm.Fields.append(knot)
    out = BytesIO()
    document.save(out)
    with pytest.raises(FormError, match="more fields"):
        read_fields(out.getvalue(), where="a.pdf")


@settings(max_examples=150)
@given(st.randoms(use_true_random=False), st.integers(1, 60))
def test_a_damaged_form_gives_fields_or_a_sentence(luck: random.Random, hits: int) -> None:
    data = bytearray(filled({"who": "somebody"}))
    for _ in range(hits):
        data[luck.randrange(len(data))] = luck.randrange(256)
    try:
        found = read_fields(bytes(data), where="a.pdf")
    except FormError as error:
        assert str(error)  # noqa: PT017 - either is right
        return
    assert all(isinstance(text, str) for text in found.values())


@given(st.integers(0, 100))
def test_a_form_cut_short_gives_fields_or_a_sentence(percent: int) -> None:
    data = filled({"who": "somebody"})
    cut = data[: len(data) * percent // 100]
    try:
        read_fields(cut, where="a.pdf")
    except FormError as error:
        assert error.sentence  # noqa: PT017 - either is right
