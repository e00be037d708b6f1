"""What is in hand: aiming, trying each place once, putting down and putting back."""

from __future__ import annotations

from app.desk import Preview
from app.domain.exercise import ExerciseKey
from app.domain.findings import Edit
from app.domain.program import Span
from app.ui.carry import Carried, Via
from app.ui.grid.geometry import Target
from app.ui.grid.hand import Hand, place_words
from tests.ui.grid import scene


def session(on, day: int):
    return on.desk.program.weeks[0].days[day].sessions[0].id


def test_every_place_is_tried_once_however_often_the_pointer_returns(qapp, monkeypatch):
    on = scene.bench()
    asked: list[Edit] = []
    real = on.desk.preview

    def preview(edit: Edit) -> Preview:
        asked.append(edit)
        return real(edit)

    monkeypatch.setattr(on.desk, "preview", preview)
    hand = Hand(on, Carried(exercise=ExerciseKey("curl")), via=Via.MOUSE)
    here, there = Target(0, session(on, 0), 1), Target(3, session(on, 3), 1)
    first = hand.point(here)
    hand.point(there)
    assert hand.point(here) is first
    assert on.preview is first.preview
    assert len(asked) == 2


def test_every_pane_sees_the_aim_and_then_what_is_kept(qapp):
    on = scene.bench()
    seen: list[Preview | None] = []
    on.previewed.connect(seen.append)
    hand = Hand(on, Carried(exercise=ExerciseKey("curl")), via=Via.MOUSE)
    hand.point(Target(0, session(on, 0), 1))
    hand.put_back()
    assert [preview is None for preview in seen] == [False, True]


def test_a_refused_aim_clears_what_the_panes_showed(qapp):
    on = scene.bench()
    hand = Hand(on, Carried(slots=(scene.slot_id(on, 0, 0),), source="other"), via=Via.MOUSE)
    aim = hand.point(Target(3, session(on, 3)))
    assert aim.refusal is not None
    assert on.preview is None
    assert hand.put_down() is None


def test_the_status_line_says_what_letting_go_does(qapp):
    on = scene.bench()
    said: list[str] = []
    on.said.connect(said.append)
    on.choose_span(Span.FROM_HERE)
    hand = Hand(on, Carried(exercise=ExerciseKey("curl")), via=Via.MOUSE)
    hand.point(Target(3, session(on, 3), 1))
    assert said == ["Place Curl on Thursday, from week 1 on: let go to do so. Esc puts it back."]


def test_a_move_out_of_another_week_says_that_it_reaches_no_further(qapp):
    on = scene.bench()
    on.choose_span(Span.FROM_HERE)
    carried = Carried(slots=(scene.slot_id(on, 0, 0),), source=on.source)
    on.show_week(1)
    hand = Hand(on, carried, via=Via.MOUSE)
    target = Target(3, on.open_week.days[3].sessions[0].id, 1)
    hand.point(target)
    assert hand.sentence().startswith(
        "Move Back squat to Thursday of week 2, in these weeks only: let go to do so."
    )
    hand.point(target, copy=True)
    assert hand.sentence().startswith("Copy Back squat to Thursday, from week 2 on")


def test_a_slot_put_where_it_stands_says_that_it_stays(qapp):
    on = scene.bench()
    carried = Carried(slots=(scene.slot_id(on, 0, 0),), source=on.source)
    hand = Hand(on, carried, via=Via.KEYS)
    hand.point(Target(0, session(on, 0), 0))
    assert hand.sentence() == "Back squat stays where it is."
    assert hand.put_down() == carried.slots
    assert on.desk.history.steps == ()


def test_the_open_foot_says_the_place_it_will_be(qapp):
    on = scene.bench()
    hand = Hand(on, Carried(exercise=ExerciseKey("curl")), via=Via.MOUSE)
    hand.point(Target(0, session(on, 0), 1))
    assert hand.title() == "Put here, second of four"
    hand.point(Target(0, session(on, 0), onto=scene.slot_id(on, 0, 2)))
    assert hand.title() == "3 × 12 in place of Leg curl"
    hand.point(Target(4))
    assert hand.title() == "Put here"


def test_places_are_counted_in_words_up_to_twelve():
    assert place_words(2, 7) == "third of seven"
    assert place_words(12, 14) == "number 13 of 14"
    assert place_words(0, 1) == ""


def test_rows_show_the_muscles_involved_and_the_minutes_of_the_day(qapp):
    on = scene.bench()
    hand = Hand(on, Carried(exercise=ExerciseKey("leg_extension")), via=Via.MOUSE)
    assert hand.rows() == ()
    hand.point(Target(3, session(on, 3)))
    sets, minutes = hand.rows()
    assert (sets.name, sets.before, sets.after, sets.range_text) == ("Quadriceps", 10, 13, "12–20")
    assert minutes.name == "Minutes"
    assert minutes.after > minutes.before
    assert minutes.range_text == "60"


def test_of_slots_only_a_single_one_from_another_session_replaces_a_card(qapp):
    on = scene.bench()
    one, two = scene.slot_id(on, 0, 0), scene.slot_id(on, 0, 1)
    other = scene.slot_id(on, 3, 0)
    single = Hand(on, Carried(slots=(one,), source=on.source), via=Via.MOUSE)
    assert single.may_go_onto(other)
    assert not single.may_go_onto(two)
    both = Hand(on, Carried(slots=(one, two), source=on.source), via=Via.MOUSE)
    assert not both.may_go_onto(other)
    assert Hand(on, Carried(exercise=ExerciseKey("curl")), via=Via.MOUSE).may_go_onto(two)


def test_the_days_it_stands_on_are_its_home(qapp):
    on = scene.bench()
    hand = Hand(
        on,
        Carried(slots=(scene.slot_id(on, 0, 0), scene.slot_id(on, 5, 0)), source=on.source),
        via=Via.KEYS,
    )
    assert hand.home == {0, 5}
    assert hand.name == "2 exercises"
