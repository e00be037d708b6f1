"""The pages of a week."""

from __future__ import annotations

from dataclasses import replace

from app.booklet import Options, make
from app.booklet.bind import bind, open_book
from app.booklet.week_pages import pages, sums
from app.resources import range_book
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import content, issue, season
from tests.builders import program


def test_the_head_says_dates_reps_sets_and_whether_the_week_is_light():
    booklet = Printed(make(issue(season(6)), content()))
    text = booklet.text(booklet.pages_with("Week 5 of 6 ")[0])
    assert text.startswith("Week 5 of 6 21 Dec to 27 Dec 2026, light week")
    assert "core exercises 5 reps" in text
    assert "glutes" in text


def test_weeks_without_a_session_share_a_spread():
    whole = program("Mon: curl 3x8", "", "", "Mon: curl 3x8", "")
    book = open_book(issue(whole), content(), Options())
    keys = [page.key for page in pages(book)]
    assert keys == [
        "week-1",
        "week-1-2",
        "week-2",
        "week-2-2",
        "week-4",
        "week-4-2",
        "week-5",
        "week-5-2",
    ]
    booklet = Printed(make(book.issue, book.content))
    assert "no session is planned" in booklet.text(booklet.pages_with("Weeks 2 to 3 ")[0])


def test_a_week_without_a_session_keeps_its_notes():
    whole = program("", "", "")
    weeks = tuple(
        replace(w, note="Patrol week." if n == 1 else "") for n, w in enumerate(whole.weeks)
    )
    booklet = Printed(make(issue(replace(whole, weeks=weeks)), content()))
    (page,) = booklet.pages_with("Patrol week.")
    assert booklet.text(page).startswith("Week 2")


def test_every_week_opens_on_a_left_page():
    book = open_book(issue(season(9)), content(), Options())
    bound = bind(book)
    for number, page in enumerate(bound, start=1):
        if page.even:
            assert number % 2 == 0


def test_what_the_coach_wrote_about_days_without_a_session_is_printed():
    whole = program("Mon: curl 3x8")
    week = whole.weeks[0]
    days = tuple(replace(d, note="patrol" if n == 5 else "") for n, d in enumerate(week.days))
    whole = replace(whole, weeks=(replace(week, days=days, note="Snow is coming."),))
    booklet = Printed(make(issue(whole), content()))
    text = booklet.text(booklet.pages_with("From your coach")[0])
    assert "Snow is coming." in text
    assert "Saturday patrol" in text


def test_a_session_without_exercises_says_so():
    whole = program("Mon: curl 3x8")
    week = whole.weeks[0]
    session = replace(week.days[0].sessions[0], slots=())
    days = (replace(week.days[0], sessions=(session,)), *week.days[1:])
    whole = replace(whole, weeks=(replace(week, days=days),))
    booklet = Printed(make(issue(whole), content()))
    assert booklet.pages_with("No exercise is planned in this session.")


def test_the_rest_of_a_week_cites_what_the_check_of_rests_uses():
    used = {band.source for band in range_book().ranges["rest"]}
    book = open_book(issue(program("Mon: curl 3x8")), content(), Options())
    cited = {cite.key for page in pages(book) for cite in page.cites if cite.used_for == "rest"}
    assert cited == used


def test_a_week_never_counts_one_muscle_as_if_it_were_all() -> None:
    book = open_book(issue(season(2)), content(), Options())
    assert book.season.emphasis is not None
    muscle = book.muscle(book.season.emphasis)
    told = list(sums(book, 0))
    assert all(muscle in text for text in told)
    assert told == sorted(told, key=len, reverse=True)
