"""Sessions on pages: whole where they can be, never past the foot."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.booklet import Options, Paper
from app.booklet.bind import open_book
from app.booklet.row import ROOMY_MM, TIGHT_MM
from app.booklet.week_layout import LOG_MM, lay_out_week, note_paragraphs
from tests.booklet.sample import content, issue
from tests.builders import program

KEYS = ("back_squat", "curl", "plank", "leg_curl", "step_up")
SLOT = st.builds("{} {}x8 pair {}".format, st.sampled_from(KEYS), st.integers(1, 20), st.just("A"))
SESSION = st.lists(SLOT, max_size=14).map(", ".join)
DAYS = st.lists(st.tuples(st.sampled_from(["Mon", "Wed", "Sat"]), SESSION), max_size=4)


def book_of(text: str, paper: Paper = Paper.A4):
    return open_book(issue(program(text)), content(), Options(paper=paper))


@given(DAYS, st.sampled_from(Paper))
def test_every_row_stands_once_in_order_and_no_page_overflows(days, paper):
    text = " | ".join(f"{day}: {slots}" for day, slots in sorted(days))
    book = book_of(text, paper)
    week = book.issue.program.weeks[0]
    layout = lay_out_week(book, week)
    printed = [row.slot.id for page in layout.pages for part in page for row in part.rows]
    assert printed == [slot.id for slot in week.slots()]
    assert len(layout.pages) % 2 == 0
    for page in layout.pages:
        used = sum(part.height(first=not at) for at, part in enumerate(page))
        assert used <= book.frame.room + 1e-6


@given(DAYS)
def test_the_log_has_its_room_after_the_last_session(days):
    text = " | ".join(f"{day}: {slots}" for day, slots in sorted(days))
    book = book_of(text)
    layout = lay_out_week(book, book.issue.program.weeks[0])
    used = sum(part.height(first=not at) for at, part in enumerate(layout.pages[layout.log_page]))
    assert used + LOG_MM <= book.frame.room + 1e-6
    assert not any(layout.pages[layout.log_page + 1 :])


def test_two_short_sessions_share_the_left_page():
    book = book_of("Tue: back_squat 4x5, curl 3x8 | Fri: leg_curl 3x8, plank 2x30")
    layout = lay_out_week(book, book.issue.program.weeks[0])
    assert [len(page) for page in layout.pages] == [2, 0]
    assert layout.pages[0][0].rows[0].height == ROOMY_MM


def test_rows_shrink_before_a_session_needs_another_spread():
    many = ", ".join(["back_squat 4x5"] * 6)
    text = f"Mon: {many} | Wed: {many} | Fri: {many}"
    book = book_of(f"{text} | Sat: back_squat 3x5")
    layout = lay_out_week(book, book.issue.program.weeks[0])
    heights = {row.height for page in layout.pages for part in page for row in part.rows}
    assert heights <= {ROOMY_MM, TIGHT_MM}
    assert len(heights) == 1


def test_three_full_sessions_stay_on_one_spread_by_going_on_from_left_to_right():
    six = ", ".join(["back_squat 4x5"] * 6)
    book = book_of(f"Mon: {six} | Wed: {six} | Sat: {six}")
    layout = lay_out_week(book, book.issue.program.weeks[0])
    assert len(layout.pages) == 2
    left, right = layout.pages
    assert [part.day for part in left] == ["Monday", "Wednesday"]
    assert [(part.day, part.goes_on) for part in right] == [
        ("Wednesday", True),
        ("Saturday", False),
    ]
    assert right[0].minutes == ""


def test_a_pair_is_not_parted_by_a_page():
    pairs = ", ".join(["back_squat 4x5 pair A, curl 3x8 pair A, plank 2x30"] * 5)
    book = book_of(f"Mon: {pairs}")
    layout = lay_out_week(book, book.issue.program.weeks[0])
    for page in layout.pages:
        for part in page:
            assert not part.rows[0].joins


def test_letter_paper_always_takes_the_tight_row():
    book = book_of("Mon: back_squat 4x5", Paper.LETTER)
    layout = lay_out_week(book, book.issue.program.weeks[0])
    assert layout.pages[0][0].rows[0].height == TIGHT_MM


def test_a_session_taller_than_a_page_goes_on_under_its_head():
    many = ", ".join(["back_squat 8x5"] * 14)
    book = book_of(f"Mon: {many}")
    layout = lay_out_week(book, book.issue.program.weeks[0])
    parts = [part for page in layout.pages for part in page]
    assert len(parts) > 1
    assert [part.goes_on for part in parts] == [False] + [True] * (len(parts) - 1)
    assert {part.day for part in parts} == {"Monday"}


def test_two_sessions_of_a_day_are_told_apart():
    book = book_of("Mon: back_squat 3x5 | Mon: curl 3x8")
    layout = lay_out_week(book, book.issue.program.weeks[0])
    days = [part.day for page in layout.pages for part in page]
    assert days == ["Monday, session 1", "Monday, session 2"]


def test_notes_of_week_and_days_keep_their_order():
    book = book_of("Mon: back_squat 3x5")
    week = book.issue.program.weeks[0]
    days = tuple(replace(d, note="patrol" if n == 2 else "") for n, d in enumerate(week.days))
    heads = [head for head, _ in note_paragraphs(book, replace(week, note="Snow.", days=days))]
    assert heads == ["", "Wednesday"]


@pytest.mark.parametrize("lines", [1, 12, 40])
def test_a_note_never_pushes_a_plan_off_its_page(lines: int):
    book = book_of("Mon: back_squat 3x5")
    week = replace(book.issue.program.weeks[0], note="one line\n" * lines)
    ((_, printed),) = note_paragraphs(book, week)
    assert len(printed) == min(lines, 12)
    assert printed[-1].endswith("…") == (lines > 12)
