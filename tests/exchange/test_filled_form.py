"""A booklet is handed out, filled in by other people's programs, and read back."""

from __future__ import annotations

from contextlib import suppress
from io import BytesIO

import pikepdf
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pypdf import PdfReader, PdfWriter

from app.booklet import Kind, Options, Paper, make
from app.domain.form_names import SetPlace, What
from app.domain.form_results import look_over
from app.domain.results import Diary, SetDone
from app.domain.wording import ENGLISH, Language, speaking
from app.exchange.filled_form import read_filled_form
from app.exchange.pdf_fields import FormError
from tests.booklet.sample import TAUGHT, content, issue, season

HANDED = issue(season(2))
OPTIONS = Options(kind=Kind.FORM, paper=Paper.PHONE)
PDF = make(HANDED, content(), OPTIONS)
LOADS = {load.slot: load.load_kg for load in HANDED.loads}


def places():
    for number, week in enumerate(HANDED.program.weeks, start=1):
        for _, session in week.sessions():
            for slot in session.slots:
                for at in range(1, slot.sets + 1):
                    yield slot, SetPlace(number, session.id, slot.id, at)


def answers() -> dict[str, str]:
    """Every set of the booklet done as it was printed, or with 20 kg."""
    texts = {}
    for slot, place in places():
        load = LOADS[slot.id]
        texts[place.field(What.LOAD)] = f"{load or 20:g}".replace(".", ",")
        texts[place.field(What.REPS)] = str(slot.reps.low)
        texts[place.field(What.RIR)] = "2"
    return texts


def filled_by_pypdf(data: bytes, texts: dict[str, str]) -> bytes:
    writer = PdfWriter(clone_from=PdfReader(BytesIO(data)))
    for page in writer.pages:
        writer.update_page_form_field_values(page, texts, auto_regenerate=False)
    out = BytesIO()
    writer.write(out)
    return out.getvalue()


def filled_by_pikepdf(data: bytes, texts: dict[str, str], **how) -> bytes:
    pdf = pikepdf.open(BytesIO(data))
    fields = {field.fully_qualified_name: field for field in pdf.acroform.fields}
    for name, text in texts.items():
        if name in fields:
            fields[name].set_value(text)
    out = BytesIO()
    pdf.save(out, **how)
    return out.getvalue()


@pytest.mark.parametrize("fill", [filled_by_pypdf, filled_by_pikepdf])
def test_every_set_comes_back_as_it_was_filled_in(fill):
    form = read_filled_form(fill(PDF, answers()), where="form.pdf")
    assert (form.issue, form.units) == (HANDED.id, "kg")
    lines = look_over(form, HANDED, TAUGHT, Diary(), today=HANDED.program.week_start(3))
    slots = [slot for week in HANDED.program.weeks for slot in week.slots()]
    assert [line.result.slot for line in lines] == [slot.id for slot in slots]
    for line, slot in zip(lines, slots, strict=True):
        assert len(line.result.sets) == slot.sets
        for done in line.result.sets:
            assert (done.reps, done.rir) == (slot.reps.low, 2.0)
            if LOADS[slot.id]:
                assert done == SetDone(LOADS[slot.id], slot.reps.low, 2.0)
                assert line.sure


def test_a_form_that_was_saved_with_compressed_objects_is_read():
    slot, place = next(places())
    texts = {place.field(What.REPS): "7", place.field(What.NOTE): "felt good, Łukasz"}
    data = filled_by_pikepdf(PDF, texts, object_stream_mode=pikepdf.ObjectStreamMode.generate)
    form = read_filled_form(data, where="form.pdf")
    assert form.sets == {place: {What.REPS: "7", What.NOTE: "felt good, Łukasz"}}
    assert slot.id == place.slot


def test_an_empty_form_says_nothing():
    assert read_filled_form(PDF, where="form.pdf").sets == {}


def test_a_booklet_on_paper_and_other_forms_are_refused():
    with pytest.raises(FormError, match="no fields"):
        read_filled_form(make(HANDED, content(), Options()), where="form.pdf")
    pdf = pikepdf.open(BytesIO(PDF))
    for field in pdf.Root.AcroForm.Fields:
        if str(field.T).startswith("weekloom"):
            field.T = pikepdf.String("other")
    out = BytesIO()
    pdf.save(out)
    with pytest.raises(FormError, match="no booklet of Weekloom's"):
        read_filled_form(out.getvalue(), where="form.pdf")


def test_a_later_version_is_refused():
    changed = filled_by_pikepdf(PDF, {"weekloom.form": "2"})
    with pytest.raises(FormError, match="another version"):
        read_filled_form(changed, where="form.pdf")


def test_a_locked_form_is_refused_with_its_reason():
    out = BytesIO()
    pikepdf.open(BytesIO(PDF)).save(out, encryption=pikepdf.Encryption(owner="a", user="b"))
    with pytest.raises(FormError, match="password"):
        read_filled_form(out.getvalue(), where="form.pdf")


def test_a_flattened_form_is_refused_with_its_reason():
    pdf = pikepdf.open(BytesIO(PDF))
    for page in pdf.pages:
        if "/Annots" in page:
            del page.Annots
    del pdf.Root.AcroForm
    out = BytesIO()
    pdf.save(out)
    with pytest.raises(FormError, match="flattened"):
        read_filled_form(out.getvalue(), where="form.pdf")


@settings(max_examples=40, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(st.integers(0, len(PDF) - 1), st.binary(max_size=60))
def test_a_half_written_or_damaged_file_is_refused_or_read_and_never_breaks(cut: int, junk: bytes):
    for data in (PDF[:cut] + junk, PDF[:cut] + junk + PDF[cut + len(junk) :]):
        with suppress(FormError):  # anything else would be a crash
            assert read_filled_form(data, where="form.pdf").issue


def test_a_form_reads_the_same_in_another_language():
    data = filled_by_pikepdf(PDF, answers())
    with speaking(Language("de", ENGLISH.catalogue, ",")):
        assert read_filled_form(data, where="f") == read_filled_form(data, where="f")
