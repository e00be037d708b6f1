"""A session being filled in: lines become results, and results become lines again."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from app.domain.exercise import ExerciseKey
from app.domain.log_sheet import Typed
from app.domain.program import ProgramId
from app.domain.results import Diary, SetDone, SlotResult
from app.ui.bench import Bench
from app.ui.results.draft import Known, SessionDraft
from app.ui.results.meant import meant_weeks
from tests.ui.desks import START

DAY = START
LATER = START + timedelta(days=30)


@pytest.fixture
def draft(bench: Bench) -> SessionDraft:
    return drafted(bench, Diary())


def drafted(bench: Bench, diary: Diary, on: date | None = None) -> SessionDraft:
    desk = bench.desk
    return SessionDraft(
        meant_weeks(desk)[0].sessions()[0],
        Known(diary, desk.program.id),
        program=desk.program.id,
        catalogue=desk.catalogue,
        unit="kg",
        today=LATER,
        on=on,
    )


def done(draft: SessionDraft, at: int, *sets: SetDone, on: date = DAY) -> SlotResult:
    slot = draft.slots[at].meant.slot
    return SlotResult(draft.program, slot.id, slot.exercise, on, sets)


def test_an_empty_session_is_no_result_and_stands_on_its_day(draft: SessionDraft) -> None:
    assert draft.on == DAY
    assert draft.results() == ()
    assert draft.applied(Diary()) == Diary()


def test_as_planned_is_a_result_for_every_slot(draft: SessionDraft, bench: Bench) -> None:
    for slot in draft.slots:
        slot.last_kg = 20.0
        slot.plan(bench.desk.program.curve)
    results = draft.results()
    assert [r.slot for r in results] == [s.meant.slot.id for s in draft.slots]
    assert [len(r.sets) for r in results] == [s.meant.slot.sets for s in draft.slots]
    assert {r.on for r in results} == {DAY}
    assert draft.faults() == ()


def test_what_is_kept_is_shown_again(draft: SessionDraft, bench: Bench) -> None:
    diary = Diary(results=(done(draft, 0, SetDone(60.0, 10, 2.0), SetDone(60.0, 9, 1.0)),))
    again = drafted(bench, diary)
    assert again.slots[0].lines[:2] == [Typed("60", "10", "2"), Typed("60", "9", "1")]
    assert all(line.is_skipped for line in again.slots[0].lines[2:])
    assert again.applied(diary) is diary


def test_a_cleared_slot_is_no_result_any_more(draft: SessionDraft, bench: Bench) -> None:
    diary = Diary(results=(done(draft, 0, SetDone(60.0, 10)), done(draft, 1, SetDone(90.0, 8))))
    again = drafted(bench, diary)
    again.slots[0].lines = [Typed()] * 4
    assert again.applied(diary).results == (diary.results[1],)


def test_a_slot_that_was_left_out_is_a_result_without_sets(draft: SessionDraft) -> None:
    draft.slots[2].leave_out()
    (result,) = draft.results()
    assert (result.slot, result.sets) == (draft.slots[2].meant.slot.id, ())


def test_a_moved_session_takes_its_results_along(draft: SessionDraft, bench: Bench) -> None:
    diary = Diary(results=(done(draft, 0, SetDone(60.0, 10)),))
    again = drafted(bench, diary)
    again.on = DAY + timedelta(days=1)
    moved = again.applied(diary)
    assert [(r.slot, r.on) for r in moved.results] == [
        (draft.slots[0].meant.slot.id, DAY + timedelta(days=1))
    ]


def test_the_last_of_several_days_is_shown_unless_another_is_asked_for(
    draft: SessionDraft, bench: Bench
) -> None:
    second = DAY + timedelta(days=2)
    diary = Diary(
        results=(done(draft, 0, SetDone(60.0, 10)), done(draft, 0, SetDone(62.5, 9), on=second))
    )
    assert drafted(bench, diary).on == second
    first = drafted(bench, diary, on=DAY)
    assert first.slots[0].lines[0].load == "60"
    first.slots[0].lines[0] = Typed("61", "10")
    assert {r.on for r in first.applied(diary).results} == {DAY, second}


def test_a_substitute_is_kept_under_its_own_name(draft: SessionDraft, bench: Bench) -> None:
    other = bench.desk.catalogue[ExerciseKey("front_squat")]
    slot = draft.slots[0]
    slot.done = other
    assert slot.is_swapped
    assert slot.asked.load_kg is None
    slot.lines[0] = Typed("50", "10")
    (result,) = draft.results()
    assert result.exercise == other.key
    again = drafted(bench, Diary(results=(result,)))
    assert again.slots[0].done is other


def test_loads_in_the_wrong_unit_are_questioned_and_put_right(draft: SessionDraft) -> None:
    slot = draft.slots[0]
    slot.last_kg = 60.0
    slot.lines = [Typed("132.5", "10", "2"), Typed("132.5", "9"), Typed(), Typed()]
    doubt = slot.doubt()
    assert doubt is not None
    slot.multiply(doubt.factor)
    # 132.5 lb is 60.1 kg
    assert [line.load for line in slot.lines] == ["60.1", "60.1", "", ""]
    assert slot.doubt() is None


def test_what_was_last_done_is_looked_up_by_exercise_and_day(draft: SessionDraft) -> None:
    early = done(draft, 0, SetDone(60.0, 10), SetDone(62.5, 8))
    late = done(draft, 0, SetDone(70.0, 8), on=DAY + timedelta(days=7))
    known = Known(Diary(results=(early, late)), draft.program)
    squat = draft.slots[0].meant.exercise
    assert known.last_kg(squat, DAY) is None
    assert known.last_kg(squat, DAY + timedelta(days=7)) == 62.5
    assert known.last_kg(squat, LATER) == 70.0
    other = replace(early, program=ProgramId("another"))
    assert Known(Diary(results=(other,)), draft.program).count([early.slot]) == 0
