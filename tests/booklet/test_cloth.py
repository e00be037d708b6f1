"""The cloth on the cover: which threads there are, how thick, and where they fit."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from app.booklet import Options
from app.booklet.bind import open_book
from app.booklet.cloth import Thread, labelled, scale_mm, threads
from app.booklet.palette import COLOUR
from app.domain.exercise import Muscle
from tests.booklet.sample import content, issue
from tests.builders import program


def rows(*weeks: str, emphasis=(Muscle.GLUTEALS,)):
    book = open_book(issue(program(*weeks, emphasis=emphasis)), content(), Options())
    return {row.name: row for row in threads(book)}


def test_a_thread_holds_the_sets_of_its_busiest_muscle_each_week():
    found = rows("Mon: back_squat 3x5, leg_extension 2x10", "Mon: back_squat 4x5")
    # quadriceps 3 + 2 and adductors 1.5: never added up
    assert found["Thighs"].sets == (5.0, 4.0)
    assert found["Glutes"].sets == (3.0, 4.0)
    assert found["Trunk"].sets == (1.5, 2.0)


def test_the_emphasis_lies_on_top_in_the_accent_and_its_neighbours_help():
    found = rows("Mon: hip_thrust 3x5, bench_press 3x5, back_squat 3x5")
    names = list(found)
    assert names[0] == "Glutes"
    assert found["Glutes"].tone == COLOUR.accent
    assert found["Hamstrings"].tone == COLOUR.helper
    assert found["Thighs"].tone == COLOUR.sage
    assert found["Chest"].tone == COLOUR.slate


def test_muscles_without_sets_have_no_thread():
    assert "Calves" not in rows("Mon: bench_press 3x5")
    assert rows("") == {}


SETS = st.lists(st.floats(0, 40), min_size=1, max_size=52)


@given(st.lists(SETS, min_size=1, max_size=10), st.floats(100, 160))
def test_all_threads_fit_the_room_on_one_scale(sets, room):
    found = tuple(Thread("x", "#000000", False, tuple(each)) for each in sets)
    scale = scale_mm(found, room)
    assert 0 < scale <= 1.6
    assert sum(max(row.most * scale + 4.6, 6.6) for row in found) <= room + 1e-6


def test_week_numbers_stay_apart():
    assert labelled(5) == (1, 2, 3, 4, 5)
    assert labelled(21) == (1, 5, 10, 15, 20)
    assert labelled(52) == (1, 10, 20, 30, 40, 50)
