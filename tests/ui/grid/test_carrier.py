"""Carrying over the grid: verdicts a moment later, other weeks while it rests, scrolling."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPointF

from app.domain.exercise import ExerciseKey
from app.domain.program import Span
from app.ui.carry import Carried, Via
from app.ui.grid import WeekGrid, carrier
from app.ui.grid.geometry import Target
from app.ui.grid.verdict import Word
from tests.ui.grid import scene

CURL = Carried(exercise=ExerciseKey("curl"))


@pytest.fixture
def grid(qtbot) -> WeekGrid:
    return scene.grid(qtbot)


def test_the_other_days_are_judged_a_moment_after_the_pick_up(grid, qtbot):
    hand = grid.carrier.pick_up(CURL, Via.MOUSE)
    assert hand.verdicts == ()
    qtbot.waitUntil(lambda: len(hand.verdicts) == 7)
    assert hand.verdicts[1].word is Word.NOT_FREE
    before = hand.verdicts
    grid.carrier.point_at(scene.ground(grid, 3))
    assert hand.verdicts is before, "they do not follow the pointer"


def test_the_weeks_an_edit_reaches_follow_while_the_pointer_rests(grid, qtbot):
    bench = grid.bench
    bench.choose_span(Span.FROM_HERE)
    grid.carrier.pick_up(CURL, Via.MOUSE)
    aim = grid.carrier.point_at(scene.ground(grid, 3))
    assert aim.preview.after.weeks[2] is bench.desk.program.weeks[2], "the open week at once"

    def reached() -> bool:
        return bench.preview.after.weeks[2] is not bench.desk.program.weeks[2]

    qtbot.waitUntil(reached)
    whole = bench.preview
    assert grid.carrier.put_down()
    assert bench.desk.program == whole.after


def test_what_is_shown_in_pieces_is_what_a_whole_preview_says(grid):
    bench = grid.bench
    bench.choose_span(Span.WHOLE_PROGRAM)
    grid.carrier.pick_up(CURL, Via.MOUSE)
    aim = grid.carrier.point_at(scene.ground(grid, 3))
    grid.carrier.finish_work()
    asked = bench.desk.preview(aim.edit)
    assert bench.preview.after == asked.after
    assert bench.preview.gained == asked.gained
    assert bench.preview.lost == asked.lost


def test_findings_of_the_open_week_are_the_same_at_once_and_later(grid):
    bench = grid.bench
    bench.choose_span(Span.WHOLE_PROGRAM)
    week = bench.desk.program.weeks[0].id
    grid.carrier.pick_up(Carried(exercise=ExerciseKey("leg_extension")), Via.MOUSE)
    grid.carrier.point_at(scene.ground(grid, 4))
    at_once = {f.text for f in bench.preview.gained if f.place.week == week}
    grid.carrier.finish_work()
    assert at_once == {f.text for f in bench.preview.gained if f.place.week == week}
    assert at_once


def test_a_week_that_cannot_take_it_makes_a_refusal(qtbot):
    full = "Mon: " + ", ".join(["curl"] * 24)
    bench = scene.bench("Mon: back_squat", full)
    bench.choose_span(Span.FROM_HERE)
    grid = scene.grid(qtbot, bench)
    grid.carrier.pick_up(CURL, Via.MOUSE)
    aim = grid.carrier.point_at(scene.ground(grid, 0))
    assert aim.refusal is not None or aim.preview is not None
    grid.carrier.finish_work()
    refusal = grid.carrier.hand.aim.refusal
    if refusal is not None:
        assert "24 exercises" in refusal.sentence
        assert bench.preview is None
        assert not grid.carrier.put_down()
    else:  # the session of the other week is another one, with room of its own
        assert grid.carrier.put_down()


def test_a_drag_near_the_edge_scrolls_a_long_day(qtbot):
    bench = scene.bench("Mon: " + ", ".join(["curl 3x12"] * 14))
    grid = scene.grid(qtbot, bench, height=360)
    day = grid.layout_now.days[0]
    grid.carrier.pick_up(Carried(exercise=ExerciseKey("back_squat")), Via.MOUSE)
    grid.carrier.point_at(QPointF(80, day.body.bottom() - 4))
    qtbot.waitUntil(lambda: grid.scrolls[0] > 20)
    grid.carrier.put_back()
    assert not grid.carrier._scroll.isActive()


def test_picking_up_again_puts_the_first_back(grid):
    grid.carrier.pick_up(CURL, Via.KEYS)
    grid.carrier.aim_at(Target(4))
    assert grid.bench.preview is not None
    grid.carrier.pick_up(CURL, Via.KEYS)
    assert grid.bench.preview is None
    grid.carrier.put_back()


def test_another_span_aims_afresh(grid):
    grid.bench.choose_span(Span.THIS_WEEK)
    grid.carrier.pick_up(CURL, Via.KEYS)
    grid.carrier.aim_at(Target(4))
    grid.bench.choose_span(Span.WHOLE_PROGRAM)
    grid.carrier.put_down()
    assert [scene.names(grid.bench, 4, week) for week in range(3)] == [["curl"]] * 3


def test_cards_stand_among_the_stops_only_where_they_may_be_replaced(grid):
    day = grid.layout_now.days[0]
    plain = carrier.stops_with_cards(day, lambda slot: False)
    mixed = carrier.stops_with_cards(day, lambda slot: True)
    assert len(plain) == len(day.cards) + 1
    assert len(mixed) == 2 * len(day.cards) + 1
    assert [stop for stop in mixed if stop.onto is None] == list(plain)


def test_with_nothing_in_hand_nothing_happens(grid):
    grid.carrier.step(1, 0)
    grid.carrier.set_copy(True)
    grid.carrier.judge()
    assert grid.carrier.point_at(scene.ground(grid, 0)) is None
    assert not grid.carrier.put_down()
