"""Whatever a coach plans and writes: nothing lies on anything or leaves its page, all is said.

A check of the geometry over random programs, and of the file by a general PDF library.
"""

from __future__ import annotations

import re
from dataclasses import replace
from io import BytesIO

import pikepdf
import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from app.booklet import Kind, Options, Paper, make
from app.booklet.book import FOOT_MM, TOP_MM, margins_mm, zoom_of
from app.booklet.fonts import SMALLEST_PT
from app.booklet.words import dose_text
from app.domain.effort import PercentOneRm, PercentRepMax, Rir
from app.domain.program import (
    MAX_SETS,
    Block,
    Day,
    Program,
    ProgramId,
    Reps,
    Role,
    Session,
    SessionId,
    Slot,
    SlotId,
    StrandId,
    Week,
    WeekId,
)
from app.domain.units import number_text
from app.domain.wording import speaking
from app.resources.languages import PSEUDO, find_language
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import TAUGHT, content, issue, lifter, season
from tests.booklet.test_bind import VARIANTS, hard_issue, in_variants, overlaps
from tests.builders import START, drills_of
from tests.strategies import numbered

# no j: the serif lets its foot reach under the letter before it
LETTERS = "abcdefgh iklmnop qrstuvwxyz ÄÖÜß Łódź ñ Ελλάδα Кириллица 0123456789 –/-()×½"
words = st.text(LETTERS, max_size=60)
notes = st.just("") | words | words.map(lambda text: text * 9)

slots = st.builds(
    Slot,
    id=st.just(SlotId(0)),
    strand=st.just(StrandId(0)),
    exercise=st.sampled_from([exercise.key for exercise in TAUGHT]),
    sets=st.integers(1, 6) | st.integers(1, MAX_SETS),
    reps=st.tuples(st.integers(1, 30), st.integers(0, 10)).map(lambda p: Reps(p[0], sum(p))),
    effort=st.one_of(
        st.integers(0, 5).map(Rir),
        st.integers(40, 95).map(PercentOneRm),
        st.integers(60, 100).map(PercentRepMax),
    ),
    rest_s=st.sampled_from([0, 45, 90, 150, 300]),
    tempo=st.sampled_from(["", "", "3-0-1-0", "10-10-10-10", "4-1-X-0"]),
    pair=st.sampled_from(["", "", "A", "B"]),
    note=notes,
    role=st.sampled_from(Role),
    load_kg=st.none() | st.sampled_from([2.5, 62.5, 497.5]),
)
sessions = st.builds(
    Session,
    id=st.just(SessionId(0)),
    strand=st.just(StrandId(0)),
    title=words,
    slots=st.lists(slots, max_size=5).map(tuple)
    | st.lists(slots, min_size=10, max_size=12).map(tuple),
    note=notes,
    warmup=st.just(()) | st.just(drills_of("band_walk")) | st.just(drills_of("band_walk 2x8-10")),
)
days = st.builds(Day, sessions=st.lists(sessions, max_size=2).map(tuple), note=notes)
week_days = st.lists(days, max_size=3).map(lambda some: (*some, *[Day()] * (7 - len(some))))
weeks = st.builds(Week, id=st.just(WeekId(0)), days=week_days, light=st.booleans(), note=notes)


@st.composite
def programs(draw: st.DrawFn) -> Program:
    """Programs of one or two weeks, of anything that a coach can plan and write."""
    made = tuple(draw(st.lists(weeks, min_size=1, max_size=2)))
    name = draw(words.filter(lambda text: text.strip() != ""))
    blocks = (Block(draw(words.filter(lambda text: text.strip() != "")), len(made)),)
    return numbered(Program(ProgramId("p"), name, START, made, blocks))


# a booklet takes a second to read back: few programs each, and none made smaller when one fails
RANDOM = settings(
    max_examples=4,
    deadline=None,
    phases=[Phase.reuse, Phase.generate],
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)

SIZES = {
    name: replace(options, weeks=None)
    for name, options in VARIANTS.items()
    if name in ("A4", "A5", "large", "form", "phone", "bare")
}


@pytest.mark.parametrize("options", SIZES.values(), ids=SIZES)
@RANDOM
@given(programs(), st.sampled_from(["Bo", "Александра Константиновна Преображенская-Вознесенская"]))
def test_nothing_lies_on_anything_or_leaves_its_page(options, whole, name):
    booklet = Printed(make(issue(whole, lifter(name=name)), content(), options))
    zoom, paper = zoom_of(options), options.paper
    for page in range(1, len(booklet) + 1):
        letters = list(booklet.letters(page))
        found = overlaps(letters)
        assert found == [], (page, "".join(a.text + b.text for a, b in found), booklet.text(page))
        spine, outer = margins_mm(paper)
        left, right = (spine, outer) if page % 2 else (outer, spine)
        for one in letters:
            assert one.left >= left - 0.5, (page, one)
            assert one.right <= paper.width_mm - right + 0.5, (page, one)
            assert one.top >= TOP_MM * zoom - 0.8, (page, one)
            assert one.bottom <= paper.height_mm - (FOOT_MM - 1.2) * zoom, (page, one)
            assert one.size >= SMALLEST_PT - 0.01, (page, one)


@pytest.mark.parametrize("options", SIZES.values(), ids=SIZES)
@RANDOM
@given(programs())
def test_every_set_and_every_load_of_the_issue_is_printed(options, whole):
    handed = issue(whole)
    booklet = Printed(make(handed, content(), options))
    text = re.sub(r"\s+", " ", booklet.whole)
    loads = {load.slot: load.load_kg for load in handed.loads}
    for week in whole.weeks:
        for slot in week.slots():
            exercise = TAUGHT[slot.exercise]
            assert dose_text(slot, exercise).replace("\u00a0", " ") in text
            if options.loads and loads[slot.id]:
                assert number_text(abs(loads[slot.id]), 2) in text


# -- the file ----------------------------------------------------------------------------------


@in_variants
def test_a_validator_has_nothing_to_say_about_the_file(options: Options):
    for handed in (issue(season(6)), hard_issue()):
        pdf = pikepdf.open(BytesIO(make(handed, content(), options)))
        assert pdf.check_pdf_syntax() == []
        wide, tall = (72 / 25.4 * edge for edge in options.size_mm)
        for page in pdf.pages:
            box = [float(edge) for edge in page.MediaBox]
            assert box == pytest.approx([0, 0, wide, tall], abs=0.1)
            assert "/CropBox" not in page or page.CropBox == page.MediaBox
            assert int(page.get("/Rotate", 0)) == 0


@in_variants
def test_every_font_is_embedded_in_part_and_no_other_is_named(options: Options):
    pdf = pikepdf.open(BytesIO(make(issue(season(6)), content(), options)))
    fonts = [
        thing
        for thing in pdf.objects
        if isinstance(thing, pikepdf.Dictionary) and thing.get("/Type") == "/Font"
    ]
    assert fonts
    whole = 400_000  # bytes of a whole font file
    for font in fonts:
        assert re.match(r"/[A-Z]{6}\+", str(font.BaseFont)), font.BaseFont
        assert len(font.FontDescriptor.FontFile2.read_bytes()) < whole


@in_variants
def test_every_link_and_bookmark_leads_to_a_page_of_the_file(options: Options):
    pdf = pikepdf.open(BytesIO(make(issue(season(6)), content(), options)))
    pages = {page.obj.objgen for page in pdf.pages}
    named = pdf.Root.get("/Dests", pikepdf.Dictionary())
    links = 0
    for page in pdf.pages:
        for one in page.get("/Annots", []):
            if one.Subtype == "/Widget":
                continue
            assert one.Subtype == "/Link"
            target = one.get("/Dest")
            if isinstance(target, pikepdf.Name):
                target = named[str(target)]
            target = target[0] if isinstance(target, pikepdf.Array) else target.D[0]
            assert target.objgen in pages
            links += 1
    assert links > 5
    with pdf.open_outline() as outline:
        assert len(outline.root) > 3


@in_variants
def test_the_file_says_its_language_and_what_it_is(options: Options):
    pdf = pikepdf.open(BytesIO(make(issue(season(2)), content(), replace(options, weeks=(1, 1)))))
    assert str(pdf.Root.Lang) == "en"
    assert str(pdf.docinfo.Title) == "Uphill with the stretcher"
    assert str(pdf.docinfo.Creator) == "Weekloom"
    assert "Jorunn" not in " ".join(map(str, pdf.docinfo.values()))


def test_a_sheet_for_the_wall_is_sound_as_well():
    data = make(issue(season(6)), content(), Options(kind=Kind.WALL, paper=Paper.LETTER))
    assert pikepdf.open(BytesIO(data)).check_pdf_syntax() == []


@in_variants
@pytest.mark.parametrize("code", ["de", "es", PSEUDO])
def test_longer_languages_stay_inside_their_page_and_off_each_other(options: Options, code: str):
    whole, paper, zoom = season(6), options.paper, zoom_of(options)
    with speaking(find_language(code)):
        booklet = Printed(make(issue(whole), content(), options))
    spine, outer = margins_mm(paper)
    for page in range(1, len(booklet) + 1):
        left, right = (spine, outer) if page % 2 else (outer, spine)
        letters = list(booklet.letters(page))
        assert overlaps(letters) == [], (page, booklet.text(page))
        for one in letters:
            assert one.left >= left - 0.5, (page, one)
            assert one.right <= paper.width_mm - right + 0.5, (page, one, booklet.text(page))
            assert one.bottom <= paper.height_mm - (FOOT_MM - 1.2) * zoom, (page, one)
