"""Pages for handwriting."""

from __future__ import annotations

from app.booklet import make
from app.booklet.book import NOTE_LINE_MM
from app.booklet.notes_page import page
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import content, issue, season


def test_a_page_for_notes_has_no_entry_in_the_outline():
    assert page("notes-3").title == ""
    assert page("notes-3").key == "notes-3"


def test_notes_fill_the_booklet_up():
    booklet = Printed(make(issue(season(2)), content()))
    assert len(booklet.pages_with("Notes Jorunn Aske")) <= 4
    assert NOTE_LINE_MM >= 8.5
