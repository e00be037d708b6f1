"""Tests and what they stand for, or how to find a load."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from app.booklet import Options, make
from app.booklet.bind import open_book
from app.booklet.loads_page import pages
from app.domain.client import Client, ClientId, StrengthTest
from app.domain.exercise import ExerciseKey
from app.domain.loads import one_rep_max_of
from app.domain.one_rm import EQUATIONS
from app.domain.wording import speaking
from app.resources import references
from app.resources.languages import NAMES, find_language
from tests.booklet.reading_pdf import Printed
from tests.booklet.sample import TAUGHT, content, issue, lifter, season
from tests.booklet.test_bind import overlaps
from tests.builders import program


def test_each_tested_exercise_stands_with_its_test_and_interval():
    who = lifter()
    booklet = Printed(make(issue(season(2), who), content()))
    (page,) = booklet.pages_with("Where your loads come from Each load")
    text = booklet.text(page)
    for key in ("hip_thrust", "back_squat", "bench_press"):
        found = one_rep_max_of(TAUGHT[ExerciseKey(key)], who)
        test = next(t for t in who.tests if t.exercise == key)
        row = f"{TAUGHT[ExerciseKey(key)].name} {test.load_kg:g} kg × {test.reps}, 5 Oct 2026"
        assert row in text
        assert f"{round(found.low, 1):g} to {round(found.high, 1):g}" in text


def test_a_test_at_own_weight_or_with_help_is_told_in_words():
    for load_kg, said in ((0, "own weight × 8"), (-10, "10 kg of help × 8")):
        test = StrengthTest(ExerciseKey("chin_up"), date(2026, 10, 5), load_kg, 8)
        handed = issue(program("Mon: chin_up 3x5"), replace(lifter(), tests=(test,)))
        assert f"Chin up {said}, 5 Oct 2026" in Printed(make(handed, content())).whole


@pytest.mark.parametrize("code", NAMES)
@pytest.mark.parametrize("load_kg", [112.5, 0, -12.5])
def test_a_test_with_repetitions_in_reserve_keeps_to_its_column(code: str, load_kg: float):
    test = StrengthTest(ExerciseKey("chin_up"), date(2026, 9, 28), load_kg, 12, rir=2.5)
    handed = issue(program("Mon: chin_up 3x5"), replace(lifter(), tests=(test,)))
    with speaking(find_language(code)):
        booklet = Printed(make(handed, content()))
    for page in range(1, len(booklet) + 1):
        assert overlaps(list(booklet.letters(page))) == [], page


def test_a_load_set_by_hand_is_told_apart():
    said = "set by hand stands as it is"
    by_hand = issue(program("Mon: back_squat 3x5 60kg, bench_press 3x5"))
    assert said in Printed(make(by_hand, content())).whole
    assert said not in Printed(make(issue(season(1)), content())).whole


def test_an_untested_exercise_says_where_to_begin():
    booklet = Printed(make(issue(season(2)), content()))
    (page,) = booklet.pages_with("How to find a load where")
    assert "Curl Begin with the lightest load, 2 kg." in booklet.text(page)


def test_where_nothing_takes_a_load_there_is_no_such_page():
    book = open_book(issue(program("Mon: push_up 3x10, plank 2x30")), content(), Options())
    assert list(pages(book)) == []


def test_a_whole_library_of_untested_exercises_fits_on_its_pages():
    keys = [e.key for e in TAUGHT if e.key != "band_walk"]
    whole = program("Mon: " + ", ".join(f"{key} 3x8" for key in keys))
    handed = issue(whole, Client(ClientId("x"), "Bo"))
    booklet = Printed(make(handed, content()))
    found = booklet.pages_with("How to find a load where")
    text = " ".join(booklet.text(page) for page in found)
    loaded = [
        e.name for e in TAUGHT if e.key in keys and e.load_kind.value in ("barbell", "machine")
    ]
    for name in loaded:
        assert name in text


def test_every_equation_that_estimates_is_cited():
    book = open_book(issue(season(2), lifter()), content(), Options())
    (page,) = pages(book)
    cited = [cite.key for cite in page.cites if cite.used_for == "one-repetition maximum"]
    assert cited == [equation.source for equation in EQUATIONS.values()]
    assert len(set(cited)) == 7
    assert set(cited) <= set(references())


def test_a_load_that_rests_on_a_guess_says_so():
    guess = StrengthTest(
        ExerciseKey("back_squat"),
        date(2026, 10, 5),
        60,
        5,
        guessed_from=ExerciseKey("hip_thrust"),
    )
    handed = issue(program("Mon: back_squat 3x5"), replace(lifter(), tests=(guess,)))
    assert "guess: 60 kg × 5, 5 Oct 2026" in Printed(make(handed, content())).whole
