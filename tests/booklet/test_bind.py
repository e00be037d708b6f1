"""The booklet as a file: what stands in it agrees with the issue, and the file is sound."""

from __future__ import annotations

import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from app.booklet import ALL_PARTS, BookletError, Kind, Options, Paper, Part, make
from app.booklet.bind import bind, open_book
from app.booklet.book import FOOT_MM, TOP_MM, margins_mm, zoom_of
from app.booklet.fonts import SMALLEST_PT, Faces, Style
from app.booklet.words import dose_text, load_words, rest_text
from app.domain.client import Client, ClientId
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue, ExerciseKey, LoadKind, UnknownExercise
from app.domain.program import ProgramId, empty_program
from app.domain.units import number_text
from app.domain.wording import speaking
from app.domain.work import Coach
from app.resources.languages import PSEUDO, find_language
from tests.booklet.reading_pdf import Letter, Printed
from tests.booklet.sample import TAUGHT, content, issue, lifter, season
from tests.builders import START, program

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def printed() -> Printed:
    return Printed(make(issue(), content()))


@pytest.fixture(scope="module")
def letter() -> Printed:
    return Printed(make(issue(season(7)), content(), Options(paper=Paper.LETTER)))


def spread(printed: Printed, week: int, weeks: int) -> str:
    """The text of the pages of one week."""
    return " ".join(printed.text(page) for page in printed.pages_with(f"Week {week} of {weeks} "))


def test_every_slot_stands_on_its_week_with_sets_load_and_rest(printed: Printed):
    handed = issue()
    loads = {load.slot: load.load_kg for load in handed.loads}
    for number, week in enumerate(handed.program.weeks, start=1):
        text = spread(printed, number, 21)
        for slot in week.slots():
            exercise = TAUGHT[slot.exercise]
            dose = dose_text(slot, exercise).replace("\u00a0", " ")
            head = re.escape(dose)
            load_kg = loads[slot.id]
            if load_kg is not None and exercise.load_kind is not LoadKind.BODY:
                figure = number_text(load_kg, 2)
                words = load_words(exercise, "kg").replace("\u00a0", " ")
                assert figure in text, (number, exercise.name)
                assert words in text
            assert re.search(head, text), (number, exercise.name, dose)
            assert rest_text(slot.rest_s) in text
            assert exercise.name.split()[0] in text


def test_each_load_is_printed_as_often_as_the_week_has_it(printed: Printed):
    handed = issue()
    loads = {load.slot: load.load_kg for load in handed.loads}
    week = handed.program.weeks[6]
    text = spread(printed, 7, 21)
    for slot in week.slots():
        load_kg = loads[slot.id]
        if load_kg:
            row = rf"{re.escape(dose_text(slot, TAUGHT[slot.exercise]))}"
            row = row.replace("\u00a0", " ").replace("\\ ", " ")
            assert re.search(rf"{row}.{{0,40}}?{number_text(load_kg, 2)}\b", text), slot


def test_the_number_of_pages_is_a_multiple_of_four(printed: Printed, letter: Printed):
    assert len(printed) % 4 == 0
    assert len(letter) % 4 == 0
    for page in (2, len(printed) - 1):
        assert f"page {page} of {len(printed)}" in printed.text(page)


def test_pages_have_the_size_of_the_paper(printed: Printed, letter: Printed):
    assert printed.size_mm(1) == pytest.approx((210, 297), abs=0.1)
    assert letter.size_mm(1) == pytest.approx((215.9, 279.4), abs=0.1)


def test_each_week_begins_on_a_left_page(printed: Printed):
    for week in range(1, 22):
        pages = printed.pages_with(f"Week {week} of 21 ")
        assert pages[0] % 2 == 0
        assert len(pages) == 2


VARIANTS = {
    "A4": Options(),
    "Letter": Options(paper=Paper.LETTER),
    "A5": Options(paper=Paper.A5),
    "large": Options(large=True, weeks=(1, 2)),
    "large Letter": Options(paper=Paper.LETTER, large=True, weeks=(1, 1)),
    "form": Options(kind=Kind.FORM, weeks=(1, 1)),
    "phone": Options(kind=Kind.FORM, paper=Paper.PHONE, weeks=(1, 1)),
    "bare": Options(loads=False, grey=True, units="lb", spread=False, weeks=(1, 2)),
    "bare A5": Options(loads=False, grey=True, units="lb", paper=Paper.A5, weeks=(1, 2)),
}
"""Every kind of booklet that can be chosen."""


def in_variants(test):
    return pytest.mark.parametrize("options", VARIANTS.values(), ids=VARIANTS)(test)


@in_variants
def test_no_letter_stands_in_the_margins_and_none_is_too_small(options: Options):
    paper, zoom = options.paper, zoom_of(options)
    spine, outer = margins_mm(paper)
    for handed in (issue(season(6)), hard_issue()):
        booklet = Printed(make(handed, content(), options))
        for page in range(1, len(booklet) + 1):
            left, right = (spine, outer) if page % 2 else (outer, spine)
            for one in booklet.letters(page):
                where = (page, one)
                assert one.left >= left - 0.5, where
                assert one.right <= paper.width_mm - right + 0.5, where
                assert one.top >= TOP_MM * zoom - 0.8, where
                # a descender may hang under the last baseline
                assert one.bottom <= paper.height_mm - (FOOT_MM - 1.2) * zoom, where
                assert one.size >= SMALLEST_PT - 0.01, where


SPOKEN = [
    (code, options)
    for code in ("de", "es", PSEUDO)
    for options in (Options(), Options(paper=Paper.A5), VARIANTS["phone"], VARIANTS["large"])
]


@pytest.mark.parametrize(("code", "options"), SPOKEN)
def test_every_language_stays_inside_the_margins_and_off_its_own_text(code, options):
    paper, zoom = options.paper, zoom_of(options)
    spine, outer = margins_mm(paper)
    for handed in (issue(season(2)), hard_issue()):
        with speaking(find_language(code)):
            booklet = Printed(make(handed, content(), options))
        for page in range(1, len(booklet) + 1):
            left, right = (spine, outer) if page % 2 else (outer, spine)
            letters = list(booklet.letters(page))
            assert overlaps(letters) == [], page
            for one in letters:
                assert left - 0.5 <= one.left, (page, one)
                assert one.right <= paper.width_mm - right + 0.5, (page, one)
                assert one.bottom <= paper.height_mm - (FOOT_MM - 1.2) * zoom, (page, one)
                assert one.size >= SMALLEST_PT - 0.01, (page, one)


@pytest.mark.parametrize("paper", [Paper.A4, Paper.LETTER])
@pytest.mark.parametrize("code", ["de", "es"])
def test_no_text_of_the_ordinary_booklet_is_cut_in_another_language(
    monkeypatch: pytest.MonkeyPatch, code: str, paper: Paper
) -> None:
    cut: set[str] = set()
    whole = Faces.shortened

    def noted(faces: Faces, text: str, style: Style, width_mm: float) -> str:
        shown = whole(faces, text, style, width_mm)
        if shown != text:
            cut.add(f"{text}: {shown}")
        return shown

    monkeypatch.setattr(Faces, "shortened", noted)
    with speaking(find_language(code)):
        make(issue(), content(), Options(paper=paper))
    assert cut == set()


def overlaps(letters: list[Letter]) -> list[tuple[Letter, Letter]]:
    """Pairs of letters that lie on each other by half their width and a third of their height."""
    found: list[tuple[Letter, Letter]] = []
    open_: list[Letter] = []
    for one in sorted(letters, key=lambda letter: letter.left):
        open_ = [other for other in open_ if other.right > one.left]
        for other in open_:
            wide = min(one.right, other.right) - max(one.left, other.left)
            tall = min(one.bottom, other.bottom) - max(one.top, other.top)
            least_wide = min(one.right - one.left, other.right - other.left)
            least_tall = min(one.bottom - one.top, other.bottom - other.top)
            if wide > least_wide / 2 and tall > least_tall / 3:
                found.append((other, one))
        open_.append(one)
    return found


@in_variants
def test_no_text_is_printed_over_other_text(options: Options):
    for handed in (issue(season(6)), hard_issue()):
        booklet = Printed(make(handed, content(), options))
        for page in range(1, len(booklet) + 1):
            assert overlaps(list(booklet.letters(page))) == [], page


def test_overlapping_text_would_be_found():
    one = Letter("a", 10, 12, 20, 23, 11)
    assert overlaps([one, Letter("b", 11, 13, 20, 23, 11)]) == []
    assert len(overlaps([one, Letter("b", 10.5, 12.5, 21, 24, 11)])) == 1


def hard_issue():
    """Long names, notes, many sets, many exercises, several sessions a day, nothing tested."""
    many = ", ".join(f"{e.key} 5x8-12 80%" for e in list(TAUGHT)[:14] if e.key != "band_walk")
    whole = program(
        f"Mon: {many} | Mon: curl 7x12-15 pair B, plank 20x30 pair B",
        "",
        "",
        "light | Sat: back_squat 3x5 95%RM core",
        name="Ένα πολύ μακρύ όνομα προγράμματος στην ομάδα ορεινής διάσωσης " * 2,
    )
    note = "Stop at the first slow repetition, and say so. " * 20
    first = whole.weeks[0]
    days = tuple(
        replace(
            day,
            note="patrol until noon",
            sessions=tuple(
                replace(
                    one,
                    title="Everything that a stretcher asks of legs, back and grip " * 2,
                    note=note,
                    slots=tuple(replace(s, note=note) for s in one.slots),
                )
                for one in day.sessions
            ),
        )
        for day in first.days
    )
    whole = replace(whole, weeks=(replace(first, days=days, note=note), *whole.weeks[1:]))
    who = Client(
        ClientId("x"),
        "Александра Константиновна Преображенская-Вознесенская Nguyễn Thị Ngọc Ánh",
        units="lb",
        team="Ombrel Valley Mountain Rescue, volunteer team of the upper valley and its huts " * 2,
    )
    return replace(issue(whole, who), coach=Coach("Tavi Hellmark", "gear room, " * 20))


def test_the_same_issue_gives_the_same_bytes(printed: Printed):
    make(issue(season(2)), content(), Options(grey=True))
    assert make(issue(), content()) == printed.data


def test_another_process_gives_the_same_bytes():
    code = (
        "import hashlib; from app.booklet import make; from tests.booklet.sample import *;"
        "print(hashlib.sha256(make(issue(season(3)), content())).hexdigest())"
    )
    said = {
        subprocess.run(
            [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
        ).stdout
        for _ in range(2)
    }
    assert len(said) == 1


def test_every_font_is_embedded(printed: Printed):
    described = len(re.findall(rb"/Type /FontDescriptor", printed.data))
    assert described == len(re.findall(rb"/FontFile2 ", printed.data)) > 0
    assert described == len(re.findall(rb"/Type /Font\b(?!D)", printed.data))
    assert b"Helvetica" not in printed.data


def test_the_file_runs_nothing_and_leads_nowhere_outside(printed: Printed):
    for word in (b"/JS", b"/JavaScript", b"/Launch", b"/EmbeddedFile", b"/URI", b"/OpenAction"):
        assert word not in printed.data


def test_the_document_says_what_it_is_and_not_for_whom(printed: Printed):
    told = printed.pdf.get_metadata_dict()
    assert told["Title"] == "Uphill with the stretcher"
    assert told["Author"] == "Tavi Hellmark"
    assert "Jorunn" not in " ".join(told.values())
    assert b"/Lang (en)" in printed.data


def test_the_outline_leads_to_the_weeks(printed: Printed):
    found = {one.get_title(): one.get_dest().get_index() + 1 for one in printed.pdf.get_toc()}
    assert found["How to read this booklet"] == 2
    assert found["Week 7"] == printed.pages_with("Week 7 of 21 ")[0]
    assert found["Hip thrust"] in printed.pages_with("Hip thrust")


def test_page_references_name_the_page_of_the_exercise(printed: Printed):
    text = printed.text(printed.pages_with("Week 1 of 21 ")[0])
    page = int(re.search(r"Hip thrust page (\d+)", text)[1])
    assert printed.text(page).startswith("Hip thrust")


NAMES = (
    "Łukasz Żółć",
    "Jürgen Groß",
    "Nguyễn Thị Ánh Tuyết",
    "Ελένη Παπαδοπούλου",
    "Ἀριστοτέλης",
    "Александра Петровна",
    "Ђорђе Ћирић",
    "Қайрат Әбдіұлы",
    "Þórunn Æsa",
    "Ioannís Șerban Ğül",
    "İpek ẞtraße",
    "− ≤ ≥ ≈ → ½ x",
)


@pytest.mark.parametrize("name", NAMES)
def test_a_name_comes_back_as_it_was_written(name: str):
    data = make(
        issue(program("Mon: back_squat 3x5"), lifter(name=name)),
        content(),
        Options(parts=frozenset()),
    )
    booklet = Printed(data)
    assert f"for {name}" in booklet.text(1)
    assert name in booklet.text(2)


HOSTILE = (
    "<b>bold</b>",
    "<img src='http://x/y.png'/>",
    "a & b &amp; c",
    "$x^2$",
    "../../etc",
    "=1+1",
    "%s %(x)s {0}",
    "(a) \\n )",
)


@pytest.mark.parametrize("text", HOSTILE)
def test_what_a_coach_writes_is_printed_letter_by_letter(text: str):
    whole = program("Mon: back_squat 3x5", name=text)
    week = whole.weeks[0]
    monday = week.days[0]
    slot = replace(monday.sessions[0].slots[0], note=text)
    session = replace(monday.sessions[0], title=text, note=text, slots=(slot,))
    days = (replace(monday, note=text, sessions=(session,)), *week.days[1:])
    whole = replace(whole, weeks=(replace(week, days=days, note=text),))
    handed = replace(issue(whole, lifter(name=text)), coach=Coach(text, text, text))
    booklet = Printed(make(handed, content()))
    assert text in booklet.text(1)
    assert spread(booklet, 1, 1).count(text) >= 5


def test_letters_without_a_font_stop_the_print_by_name():
    with pytest.raises(BookletError, match="CJK UNIFIED IDEOGRAPH-6F22.*Write it in Latin") as told:
        make(issue(program("Mon: back_squat 3x5"), lifter(name="漢 Runa")), content())
    assert "漢 Runa" in told.value.where


def test_a_client_whose_name_has_no_letters_here_is_printed_under_another():
    handed = issue(program("Mon: back_squat 3x5"), lifter(name="漢 Runa"))
    with pytest.raises(BookletError, match="fill in the name to be printed"):
        make(handed, content())
    booklet = Printed(make(handed, content(), Options(name="Han Runa")))
    assert "for Han Runa" in booklet.text(1)
    assert handed.client.name == "漢 Runa"


def test_control_characters_vanish_and_line_ends_become_spaces():
    who = lifter(name="Runa\u200b\x00\nEstvik\u00ad")
    booklet = Printed(make(issue(program("Mon: back_squat 3x5"), who), content()))
    assert "for Runa Estvik" in booklet.text(1)


def test_only_the_chosen_weeks_are_printed():
    handed = issue(season(9))
    booklet = Printed(make(handed, content(), Options(weeks=(3, 4))))
    assert "weeks 3 to 4 of 9" in booklet.text(1)
    assert booklet.pages_with("Week 3 of 9 ")
    assert not booklet.pages_with("Week 5 of 9 ")


def test_large_print_on_small_paper_is_refused_with_a_mend():
    with pytest.raises(CoachError, match="no room on A5. Choose A4 or Letter"):
        make(issue(season(1)), content(), Options(paper=Paper.A5, large=True))


@pytest.mark.parametrize("weeks", [(0, 2), (3, 2), (2, 10)])
def test_weeks_outside_the_program_are_refused(weeks: tuple[int, int]):
    with pytest.raises(CoachError, match="the program has 9"):
        make(issue(season(9)), content(), Options(weeks=weeks))


@pytest.mark.parametrize("part", Part)
def test_a_part_can_be_left_out(part: Part):
    options = Options(parts=ALL_PARTS - {part})
    book = open_book(issue(season(2)), content(), options)
    assert len(bind(book)) % 4 == 0
    whole = {page.key for page in bind(open_book(issue(season(2)), content(), Options()))}
    left = {page.key for page in bind(book) if not page.key.startswith("notes")}
    expected = {
        Part.READING: "reading",
        Part.GLANCE: "glance",
        Part.LOADS: "loads",
        Part.PLATES: "plates",
        Part.WARMUP: "warmup",
        Part.WEEKS: "week-1",
        Part.EXERCISES: "exercise-hip_thrust",
        Part.REFERENCES: "sources",
    }
    if part in expected:
        assert expected[part] in whole - left
    assert {"cover", "cautions"} <= left
    assert "Chest pain" in Printed(make(issue(season(2)), content(), options)).whole


def test_a_client_with_nothing_filled_in_gets_a_booklet():
    bare = Client(ClientId("x"), "Bo")
    empty = empty_program(ProgramId("e"), "Empty", start=START, weeks=3)
    handed = replace(issue(empty, bare), coach=Coach())
    booklet = Printed(make(handed, content()))
    assert len(booklet) % 4 == 0
    assert "nothing planned yet" in booklet.whole
    assert "No screening yet" in booklet.whole


def test_where_nothing_was_tested_the_booklet_says_how_to_find_the_load():
    bare = Client(ClientId("x"), "Bo")
    booklet = Printed(make(issue(program("Mon: back_squat 3x5"), bare), content()))
    text = spread(booklet, 1, 1)
    page = int(re.search(r"find it: page (\d+)", text)[1])
    assert "How to find a load" in booklet.text(page)
    assert "empty bar, 20 kg" in booklet.text(page)


def test_without_the_page_on_loads_a_line_says_what_to_write_and_not_to_look_it_up():
    bare = Client(ClientId("x"), "Bo")
    options = Options(parts=ALL_PARTS - {Part.LOADS})
    text = Printed(make(issue(program("Mon: back_squat 3x5"), bare), content(), options)).whole
    assert "find it" not in text


def test_an_exercise_that_nobody_knows_is_named():
    with pytest.raises(UnknownExercise, match="hip_thrust"):
        make(issue(season(1)), content(catalogue=Catalogue(())))


def test_year_long_plans_print():
    booklet = Printed(
        make(issue(season(52)), content(), Options(parts=frozenset({Part.GLANCE, Part.WEEKS})))
    )
    assert booklet.pages_with("Week 52 of 52 ")


def test_an_exercise_key_in_the_plan_has_its_page(printed: Printed):
    keys = {slot.exercise for week in issue().program.weeks for slot in week.slots()}
    for key in sorted(keys):
        name = TAUGHT[ExerciseKey(key)].name
        assert any(printed.text(page).startswith(name) for page in printed.pages_with(name))
