"""Two states of a program side by side."""

from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from app.domain.compare import Mark, WeekPair, compare, differences, whole_differences
from app.domain.edits import fields, place, weeks
from app.domain.edits.parts import Spot
from app.domain.errors import EditError
from app.domain.exercise import ExerciseKey, Muscle
from app.domain.findings import Edit
from app.domain.program import Field, Program, Role, SlotId, Span, StrandId
from tests import builders
from tests.domain.edits.random_edits import edits_of, start
from tests.domain.edits.reading import slot_at, slot_id

CURL = builders.CATALOGUE[ExerciseKey("curl")]
PLAN = builders.program("Mon: back_squat 4x8 core, leg_curl 3x12 | Thu: hip_thrust 3x10", times=3)


def between(before: Program, after: Program) -> tuple[WeekPair, ...]:
    return compare(before, after, builders.CATALOGUE)


def marks(pair: WeekPair) -> list[tuple[str, str]]:
    rows = ((row, row.after or row.before) for row in pair.rows)
    return [(slot.exercise, row.mark.value) for row, slot in rows]


def test_the_same_program_differs_in_nothing() -> None:
    pairs = between(PLAN, PLAN)
    assert [(p.before, p.after) for p in pairs] == [(0, 0), (1, 1), (2, 2)]
    assert not any(pair.changed for pair in pairs)
    assert all(row.mark is Mark.SAME for pair in pairs for row in pair.rows)


def test_a_changed_prescription_is_named_by_its_fields() -> None:
    slot = slot_at(PLAN, 0, 0)
    other = replace(slot, sets=5, rest_s=240, load_kg=80, role=Role.ASSISTANCE)
    assert differences(slot, other) == ("sets", "rest", "role", "load set by hand")
    assert differences(slot, replace(slot, pinned=frozenset({Field.SETS}))) == ()


def test_what_came_and_what_went_stand_where_they_are_or_were() -> None:
    after = place.place(PLAN, exercise=CURL, at=Spot(0, 3))
    after = place.remove(after, slot_id(after, 0, 0))
    first, second, _ = between(PLAN, after)
    assert marks(first) == [
        ("back_squat", "removed"),
        ("leg_curl", "same"),
        ("hip_thrust", "same"),
        ("curl", "added"),
    ]
    assert (first.count(Mark.ADDED), first.count(Mark.REMOVED)) == (1, 1)
    assert first.changed
    assert not second.changed


def test_another_exercise_in_the_same_place_is_a_change() -> None:
    after = place.replace_exercise(PLAN, slot_id(PLAN, 0, 0), exercise=CURL, span=Span.THIS_WEEK)
    row = between(PLAN, after)[0].rows[0]
    assert row.mark is Mark.CHANGED
    assert "exercise" in row.differs
    assert (row.before.exercise, row.after.exercise) == ("back_squat", "curl")


def test_what_moved_to_another_day_is_neither_added_nor_removed() -> None:
    after = place.move(PLAN, slot_id(PLAN, 0, 0), to=Spot(0, 4))
    row = next(r for r in between(PLAN, after)[0].rows if r.after.exercise == "back_squat")
    assert (row.mark, row.was.day, row.becomes.day, row.differs) == (Mark.MOVED, 0, 4, ("day",))
    assert row.was.text.startswith("Monday")


def test_weeks_are_matched_wherever_they_went() -> None:
    longer = weeks.add_week(PLAN, after=0)
    assert [(p.before, p.after) for p in between(PLAN, longer)] == [
        (0, 0),
        (None, 1),
        (1, 2),
        (2, 3),
    ]
    shorter = weeks.remove_weeks(PLAN, indices=(1,))
    pairs = between(PLAN, shorter)
    assert [(p.before, p.after) for p in pairs] == [(0, 0), (1, None), (2, 1)]
    assert pairs[1].changed
    assert {row.mark for row in pairs[1].rows} == {Mark.REMOVED}


def test_the_sets_of_emphasised_muscles_are_counted_before_and_after() -> None:
    plan = replace(PLAN, emphasis=(Muscle.QUADRICEPS,))
    after = fields.add_sets(plan, slot_id(plan, 0, 0), by=2)
    after = replace(after, emphasis=(Muscle.GLUTEALS, Muscle.QUADRICEPS))
    counts = {one.muscle: (one.before, one.after) for one in between(plan, after)[0].sets}
    assert list(counts) == [Muscle.GLUTEALS, Muscle.QUADRICEPS]
    assert counts[Muscle.QUADRICEPS] == (4, 6), "a squat's sets count whole for the thighs"
    assert counts[Muscle.GLUTEALS] == (7, 9), "and so for the gluteals, with the thrust's three"


def test_light_weeks_and_notes_are_named() -> None:
    light = weeks.make_light(PLAN, index=1)
    assert "light now" in between(PLAN, light)[1].notes
    assert "no longer light" in between(light, PLAN)[1].notes
    week = PLAN.weeks[0]
    noted = replace(week, note="hut", days=(replace(week.days[0], note="wind"), *week.days[1:]))
    session = replace(noted.days[0].sessions[0], title="Legs")
    noted = replace(noted, days=(replace(noted.days[0], sessions=(session,)), *noted.days[1:]))
    assert between(PLAN, replace(PLAN, weeks=(noted, *PLAN.weeks[1:])))[0].notes == (
        "note of the week",
        "note of Monday",
        "title of the session on Monday",
    )


def test_sessions_that_come_go_or_change_their_order_are_named() -> None:
    plan = builders.program("Mon: back_squat, leg_curl, curl | Thu: hip_thrust")
    more = place.add_session(plan, 0, day=5, title="Hut")
    assert between(plan, more)[0].notes == ("another session on Saturday",)
    assert between(more, plan)[0].notes == ("a session less on Saturday",)
    monday = plan.weeks[0].days[0].sessions[0]
    other = place.move(plan, slot_id(plan, 0, 0), to=Spot(0, 0, monday.id, 3))
    pair = between(plan, other)[0]
    assert pair.notes == ("order of the session on Monday",)
    assert pair.count(Mark.SAME) == 4
    moved = place.move_session(plan, monday.id, day=1)
    assert "session of Monday on Tuesday" in between(plan, moved)[0].notes
    assert between(plan, moved)[0].count(Mark.MOVED) == 3


def test_a_week_that_changed_its_place_is_named() -> None:
    moved = weeks.move_weeks(PLAN, (2,), 0)
    pairs = between(PLAN, moved)
    assert [(p.before, p.after) for p in pairs] == [(2, 0), (0, 1), (1, 2)]
    assert [p.notes for p in pairs] == [(), ("moved, was week 1",), ("moved, was week 2",)]


def test_what_differs_of_the_whole_is_named() -> None:
    other = replace(PLAN, name="Spring", emphasis=(Muscle.CHEST,), accepted=())
    assert whole_differences(PLAN, other) == ("name", "emphasis")
    assert whole_differences(PLAN, PLAN) == ()


def in_sight(program: Program) -> tuple[object, ...]:
    """Everything of a program that a client or a coach could see on paper."""
    return tuple(
        (
            week.light,
            week.note,
            tuple(
                (
                    day.note,
                    tuple(
                        (
                            session.title,
                            session.note,
                            session.warmup,
                            tuple(
                                replace(slot, id=SlotId(0), strand=StrandId(0), pinned=frozenset())
                                for slot in session.slots
                            ),
                        )
                        for session in day.sessions
                    ),
                )
                for day in week.days
            ),
        )
        for week in program.weeks
    )


@given(st.data())
def test_what_is_said_to_be_the_same_is_the_same(data: st.DataObject) -> None:
    before = after = start()
    for _ in range(3):
        try:
            after = data.draw(edits_of(after))(after)
        except EditError:
            continue
    pairs = between(before, after)
    if not any(pair.changed for pair in pairs) and not whole_differences(before, after):
        assert in_sight(after) == in_sight(before)
    if after == before:
        assert not any(pair.changed for pair in pairs)


@given(edits_of(start()))
def test_every_slot_of_both_states_stands_in_one_row(edit: Edit) -> None:
    before = start()
    try:
        after = edit(before)
    except EditError:
        return
    pairs = between(before, after)
    for state, side in ((before, "before"), (after, "after")):
        shown = [getattr(r, side).id for p in pairs for r in p.rows if getattr(r, side)]
        assert sorted(shown) == sorted(s.id for w in state.weeks for s in w.slots())
    swapped = between(after, before)
    assert sum(p.count(Mark.ADDED) for p in pairs) == sum(p.count(Mark.REMOVED) for p in swapped)
