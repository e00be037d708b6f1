"""The plates of every load on a bar add up to it."""

from __future__ import annotations

from dataclasses import replace

import pytest

from app.booklet import Options, Paper, Part, make
from app.booklet.bind import open_book
from app.booklet.plates_page import BarLoad, bar_loads, plates_text
from app.domain.client import Increments, Place
from app.domain.exercise import LoadKind
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import TAUGHT, content, issue, lifter, season


def test_bar_and_plates_add_up_to_every_printed_load():
    handed = issue(season(9))
    book = open_book(handed, content(), Options())
    loads = {load.slot: load.load_kg for load in handed.loads}
    wanted = {
        loads[slot.id]
        for week in handed.program.weeks
        for slot in week.slots()
        if loads[slot.id] and TAUGHT[slot.exercise].load_kind is LoadKind.BARBELL
    }
    found = bar_loads(book)
    assert {load.load_kg for load in found} == wanted
    assert len(found) > 5
    for load in found:
        assert 20 + 2 * sum(load.plates_kg) + load.rest_kg == pytest.approx(load.load_kg)


@pytest.mark.parametrize("paper", Paper)
def test_every_load_is_printed_with_its_plates(paper: Paper):
    handed = issue(season(5))
    options = Options(paper=paper, parts=frozenset({Part.PLATES}))
    booklet = Printed(make(handed, content(), options))
    text = " ".join(booklet.text(page) for page in booklet.pages_with("Plates for the bar"))
    book = open_book(handed, content(), options)
    for load in bar_loads(book):
        assert plates_text(book, load).replace("\u00a0", " ") in text


def test_a_session_elsewhere_gets_the_plates_that_are_there():
    hut = Place("hut", frozenset(), Increments(bar_kg=15.0, plates_kg=(15.0, 10.0, 2.5)))
    who = lifter(places=(hut,))
    free = tuple(
        replace(time, place="hut" if day == 1 else "") for day, time in enumerate(who.free)
    )
    handed = issue(season(2), replace(who, free=free))
    loads = bar_loads(open_book(handed, content(), Options()))
    assert {load.place for load in loads} == {"", "hut"}
    for load in loads:
        assert load.bar_kg == (15.0 if load.place else 20.0)
        found = load.bar_kg + 2 * sum(load.plates_kg) + load.rest_kg
        assert found == pytest.approx(load.load_kg)
        assert set(load.plates_kg) <= {15.0, 10.0, 2.5} or not load.place
    booklet = Printed(make(handed, content(), Options()))
    assert "hut: " in booklet.text(booklet.pages_with("Plates for the bar")[-1])


def test_what_cannot_be_made_up_is_said():
    book = open_book(issue(season(1)), content(), Options())
    assert plates_text(book, BarLoad(20.0, (), 0.0)) == "the bar alone"
    assert plates_text(book, BarLoad(15.0, (), -5.0)) == "a lighter bar"
    assert plates_text(book, BarLoad(63.0, (20.0,), 3.0)).endswith("(nearest)")


def test_plates_of_pounds_are_named_in_pounds():
    who = lifter(increments=Increments.pounds(), units="lb")
    book = open_book(issue(season(1), who), content(), Options())
    said = " ".join(plates_text(book, load) for load in bar_loads(book)).replace("\u00a0", " ")
    known = {"45", "35", "25", "10", "5", "2.5", "the", "bar", "alone"}
    assert set(said.replace("+", " ").split()) <= known


def test_without_loads_there_are_no_plates():
    booklet = Printed(make(issue(season(2)), content(), Options(loads=False)))
    assert "Plates for the bar" not in booklet.whole
    assert "Where your loads come from" not in booklet.whole


def test_a_plan_without_a_bar_has_no_such_page():
    whole = season(1)
    bare = replace(whole, weeks=(replace(whole.weeks[0], days=(whole.weeks[0].days[0],) * 7),))
    assert not bar_loads(open_book(issue(bare), content(), Options()))
