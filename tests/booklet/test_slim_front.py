"""How to read it and what to mind, in one column: nothing of the wide pages is lost."""

from __future__ import annotations

import re

import pytest

from app.booklet import ALL_PARTS, Kind, Options, Paper, Part, make
from app.booklet.reading import STOP, STOP_TITLE
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import content, issue, season

A5 = Options(paper=Paper.A5)


def folded(booklet: Printed) -> str:
    return re.sub(r"\s+", " ", booklet.whole)


@pytest.mark.parametrize("options", [A5, Options(large=True), Options(kind=Kind.FORM)])
def test_words_and_cautions_are_all_there(options: Options):
    text = folded(Printed(make(issue(season(2)), content(), options)))
    for head in ("Exercise", "Sets × reps", "Effort (RIR)", "Load", "Rest", "Your record", "Tempo"):
        assert head in text
    assert STOP_TITLE in text
    for sentence in STOP:
        assert sentence in text
    assert "What they and your local rules say comes before" in text


def test_without_the_words_the_cautions_still_say_when_to_stop():
    options = Options(paper=Paper.A5, parts=ALL_PARTS - {Part.READING})
    text = folded(Printed(make(issue(season(1)), content(), options)))
    assert STOP_TITLE in text
    assert "How to read this booklet" not in text


def test_the_contents_lead_to_the_parts():
    booklet = Printed(make(issue(season(2)), content(), A5))
    (page,) = booklet.pages_with("In this booklet")
    named = int(re.search(r"Where the numbers come from page (\d+)", booklet.text(page))[1])
    assert booklet.text(named).startswith("Where the numbers come from")


def test_a_form_says_how_to_send_it_back_and_a_booklet_without_loads_what_to_use():
    form = folded(Printed(make(issue(season(1)), content(), Options(kind=Kind.FORM))))
    assert "Save the file and send it to your coach" in form
    bare = folded(Printed(make(issue(season(1)), content(), Options(loads=False))))
    assert "This booklet names none." in bare
