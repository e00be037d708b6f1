"""The desk: what is open, edits kept and taken back, previews, loads, issues."""

from __future__ import annotations

import shutil
import tempfile
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, rule

from app import resources
from app.desk import Desk
from app.domain.client import ClientId, FreeTime, Increments, Place, StrengthTest
from app.domain.edits import fields, place, weeks
from app.domain.edits.parts import Spot
from app.domain.edits.whole import rename
from app.domain.errors import CoachError, EditError, StoreError
from app.domain.exercise import ExerciseKey
from app.domain.findings import Edit, edit
from app.domain.program import Field, Program, ProgramId, SlotId, Span, broken_laws
from app.domain.ranges import Override, Who
from app.domain.results import Diary, SetDone, SlotResult
from app.domain.work import Coach, Work
from db.errors import Cause, StoreFailure
from db.store import Store
from tests import builders
from tests.domain.edits.random_edits import edits_of, start
from tests.domain.edits.reading import slot_at, slot_id
from tests.strategies import slot_results

CURL = builders.CATALOGUE[ExerciseKey("curl")]
RUNA = builders.client(tests=(StrengthTest(ExerciseKey("back_squat"), date(2026, 10, 2), 90, 5),))
PLAN = builders.program("Mon: back_squat 4x10 core, leg_curl 3x12 | Thu: leg_press 3x10", times=3)
JORUNN = builders.client(id=ClientId("jorunn"), name="Jorunn Aske")
HILL = replace(builders.program("Tue: curl 3x12"), id=ProgramId("hill"), name="Hill season")


class Stubborn(Store):
    """A store in memory that can be told to have no room left."""

    full = False

    def save(self, before: Work | None, after: Work, *, label: str) -> None:
        if self.full:
            raise StoreFailure(Cause.FULL, where=self.where)
        super().save(before, after, label=label)


@pytest.fixture
def store():
    made = Stubborn.in_memory()
    made.save(None, Work(RUNA, PLAN), label="Add")
    made.save(None, Work(JORUNN, HILL), label="Add")
    yield made
    made.close()


@pytest.fixture
def desk(store: Store) -> Desk:
    made = Desk(store, builders.CATALOGUE, resources.range_book())
    made.open(RUNA.id, PLAN.id)
    return made


def placing(day: int = 4, week: int = 0) -> Edit:
    return edit("Place Curl", place.place, exercise=CURL, at=Spot(week, day))


def saved(desk: Desk) -> Work:
    """What the store holds of what is open."""
    return Work(desk.store.load_client(desk.client.id), desk.store.load_program(desk.program.id))


# ---------------------------------------------------------------------------- what is open


def test_nothing_is_open_at_first(store: Store) -> None:
    desk = Desk(store, builders.CATALOGUE, resources.range_book())
    assert not desk.has_program
    assert desk.findings == ()
    assert desk.history.undoable is None
    assert desk.undo() is None
    assert desk.redo() is None
    for ask in (lambda: desk.client, lambda: desk.program, lambda: desk.keep_client("x", RUNA)):
        with pytest.raises(LookupError, match="is open"):
            ask()


def test_a_client_may_be_open_without_a_program(desk: Desk) -> None:
    desk.open(JORUNN.id)
    assert desk.client == JORUNN
    assert not desk.has_program
    with pytest.raises(LookupError, match="no program is open"):
        desk.keep(placing())


def test_who_is_not_in_the_file_leaves_open_what_was(desk: Desk) -> None:
    with pytest.raises(StoreError):
        desk.open(ClientId("nobody"))
    with pytest.raises(StoreError):
        desk.open(JORUNN.id, ProgramId("nothing"))
    assert desk.work == Work(RUNA, PLAN)


def test_listeners_hear_what_was_and_what_is_open(desk: Desk) -> None:
    heard: list[tuple[Work | None, Work | None]] = []
    desk.listen(lambda before, after: heard.append((before, after)))
    was = desk.work
    desk.keep(placing())
    desk.close()
    kept = heard[0][1]
    assert heard == [(was, kept), (kept, None)]
    assert kept.program != PLAN


# ---------------------------------------------------------------------------- keeping


def test_a_kept_edit_is_in_memory_in_the_file_and_in_the_history(desk: Desk, store: Store) -> None:
    step = desk.keep(placing())
    assert step.label == "Place Curl"
    assert step.before.program == PLAN
    assert desk.program == placing()(PLAN)
    assert saved(desk) == desk.work
    assert desk.history.undoable is step
    assert desk.kept_label == "Place Curl"
    assert desk.kept_at.tzinfo is not None
    assert [line.label for line in store.log(PLAN.id)] == ["Place Curl", "Add"]


def test_an_edit_that_changes_nothing_leaves_no_step(desk: Desk) -> None:
    same = edit("Rename", rename, name=PLAN.name)
    assert desk.keep(same) is None
    assert desk.keep_client("Profile", replace(desk.client)) is None
    assert desk.history.undoable is None
    assert desk.kept_at is None


def test_a_refused_edit_leaves_everything_as_it_was(desk: Desk) -> None:
    heard = []
    desk.listen(lambda *both: heard.append(both))
    was = desk.work
    with pytest.raises(EditError):
        desk.keep(edit("Remove", place.remove, slot_id=SlotId(9999)))
    assert desk.work is was
    assert heard == []
    assert desk.history.undoable is None


def test_what_cannot_be_stored_leaves_everything_as_it_was(desk: Desk, store: Stubborn) -> None:
    heard = []
    desk.keep(placing())
    desk.listen(lambda *both: heard.append(both))
    was, history = desk.work, desk.history
    store.full = True
    for act in (
        lambda: desk.keep(placing(5)),
        lambda: desk.keep_client("Profile", replace(RUNA, note="x")),
        desk.undo,
        lambda: desk.add_client(replace(JORUNN, id=ClientId("third"))),
        lambda: desk.add_program(replace(HILL, id=ProgramId("other"))),
    ):
        with pytest.raises(StoreError, match="no room left"):
            act()
    assert desk.work is was
    assert desk.history is history
    assert heard == []
    store.full = False
    assert saved(desk) == was
    desk.undo()
    assert desk.program == PLAN


def test_the_steps_of_one_gesture_are_one_step(desk: Desk) -> None:
    here = slot_id(PLAN, 0, 0)
    for count in (5, 6, 7):
        desk.keep(
            edit("Sets", fields.set_field, slot_id=here, field=Field.SETS, value=count), key="sets"
        )
    desk.undo()
    assert desk.program == PLAN
    assert desk.history.undoable is None


def test_a_client_change_is_a_step_like_any_other(desk: Desk) -> None:
    desk.keep_client("Profile", replace(RUNA, team="Upper valley"))
    desk.keep(placing())
    assert saved(desk) == desk.work
    desk.undo()
    assert desk.client.team == "Upper valley"
    desk.undo()
    assert desk.work == Work(RUNA, PLAN)
    assert saved(desk) == desk.work


def test_a_new_client_and_a_new_program_are_kept_and_opened(desk: Desk, store: Store) -> None:
    desk.add_client(replace(RUNA, id=ClientId("third"), name="Ilse Brandal"))
    assert not desk.has_program
    assert next(line.name for line in store.clients()) == "Ilse Brandal"
    desk.add_program(replace(HILL, id=ProgramId("third")))
    assert desk.program.name == "Hill season"
    assert saved(desk) == desk.work


# ---------------------------------------------------------------------------- undo and redo


def test_each_client_has_a_history_of_its_own(desk: Desk) -> None:
    desk.keep(placing())
    desk.open(JORUNN.id, HILL.id)
    assert desk.history.undoable is None
    desk.keep(edit("Rename", rename, name="Hill and hut"))
    desk.open(RUNA.id, PLAN.id)
    back = desk.history.undoable
    assert back is not None
    assert back.label == "Place Curl"
    desk.undo()
    assert desk.program == PLAN
    desk.open(JORUNN.id, HILL.id)
    assert desk.program.name == "Hill and hut"


def test_undo_goes_back_to_the_program_it_was_done_in(desk: Desk) -> None:
    desk.keep(placing())
    desk.add_program(replace(HILL, id=ProgramId("second")))
    desk.undo()
    assert desk.program == PLAN
    assert saved(desk) == Work(RUNA, PLAN)


def test_undo_and_redo_are_noted_with_what_they_did(desk: Desk, store: Store) -> None:
    desk.keep(placing())
    desk.undo()
    assert desk.kept_label == "Undo: Place Curl"
    desk.redo()
    assert desk.kept_label == "Redo: Place Curl"
    assert [line.label for line in store.log(PLAN.id)][:2] == [
        "Redo: Place Curl",
        "Undo: Place Curl",
    ]


# ---------------------------------------------------------------------------- checks and previews


def test_a_preview_tells_what_keeping_would_bring_and_changes_nothing(desk: Desk) -> None:
    act = edit("Clear", weeks.clear_weeks, indices=(0,))
    preview = desk.preview(act)
    assert desk.program == PLAN
    assert desk.history.undoable is None
    before = {f.id for f in desk.findings}
    desk.keep(act)
    assert desk.program == preview.after
    assert desk.findings == preview.findings
    after = {f.id for f in desk.findings}
    assert {f.id for f in preview.gained} >= after - before
    assert {f.id for f in preview.lost} >= before - after


def test_findings_follow_the_client_too(desk: Desk) -> None:
    assert desk.findings
    desk.keep_client("Equipment", replace(RUNA, equipment=frozenset()))
    assert any("equipment" in f.rule for f in desk.findings)
    assert desk.findings == desk.check(desk.program)


def test_a_preview_of_what_cannot_be_is_an_error(desk: Desk) -> None:
    with pytest.raises(EditError):
        desk.preview(edit("Remove", place.remove, slot_id=SlotId(9999)))


def test_facts_of_a_week_are_worked_out_once(desk: Desk) -> None:
    week = desk.program.weeks[0]
    assert desk.facts(week) is desk.facts(week)


# ---------------------------------------------------------------------------- loads and issues


def test_a_load_follows_from_the_clients_test_and_is_worked_out_once(desk: Desk) -> None:
    squat, curl = slot_at(desk.program, 0, 0), slot_at(desk.program, 0, 0, 1)
    load = desk.load(squat)
    assert 50 < load.load_kg < 90, "ten repetitions with two left, from five with 90 kg"
    assert desk.load(squat) is load
    assert desk.load(curl) is None, "nothing was tested"


def test_a_new_test_changes_the_load(desk: Desk) -> None:
    squat = slot_at(desk.program, 0, 0)
    before = desk.load(squat).load_kg
    heavier = StrengthTest(ExerciseKey("back_squat"), date(2026, 11, 2), 120, 5)
    desk.keep_client("Test", replace(RUNA, tests=(*RUNA.tests, heavier)))
    assert desk.load(slot_at(desk.program, 0, 0)).load_kg > before
    desk.undo()
    assert desk.load(slot_at(desk.program, 0, 0)).load_kg == before


def test_an_issue_freezes_the_program_and_its_loads(desk: Desk, store: Store) -> None:
    store.set_coach(Coach("Tavi Hellmark"))
    issue = desk.draft_issue(date(2026, 11, 25))
    assert store.issues(PLAN.id) == ()
    assert issue.coach.name == "Tavi Hellmark"
    loads = {printed.slot: printed.load_kg for printed in issue.loads}
    assert set(loads) == {s.id for week in PLAN.weeks for s in week.slots()}
    assert loads[slot_id(PLAN, 0, 0)] == desk.load(slot_at(desk.program, 0, 0)).load_kg
    assert loads[slot_id(PLAN, 0, 0, 1)] is None
    desk.hand_out(issue)
    desk.keep(placing())
    assert store.load_issue(issue.id) == issue


def test_what_was_handed_out_is_known_until_more_is(desk: Desk) -> None:
    week = PLAN.weeks[0].id
    assert desk.handed_out().newest_by(week, date(2030, 1, 1)) is None
    desk.hand_out(desk.draft_issue(date(2026, 11, 25)))
    known = desk.handed_out()
    assert desk.handed_out() is known, "a booklet is read once, not at each drawing of a chart"
    assert known.newest_by(week, date(2030, 1, 1)).on == date(2026, 11, 25)
    desk.hand_out(desk.draft_issue(date(2026, 11, 26)))
    assert desk.handed_out().newest_by(week, date(2030, 1, 1)).on == date(2026, 11, 26)


def test_the_reason_of_an_edit_stands_in_the_log_of_the_file(desk: Desk, store: Store) -> None:
    step = desk.keep(placing(), reason="She asked for it.")
    assert step is not None
    assert store.log(PLAN.id)[0].label == f"{step.label}. She asked for it."
    assert desk.history.undoable is step


# ---------------------------------------------------------------------------- the diary


def squats(*reps: int, on: date = date(2026, 10, 12)) -> SlotResult:
    slot = slot_at(PLAN, 0, 0)
    sets = tuple(SetDone(60.0, n, 2.0) for n in reps)
    return SlotResult(PLAN.id, slot.id, slot.exercise, on, sets)


def test_the_diary_is_read_once_and_not_before_it_is_asked_for(
    desk: Desk, store: Store, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[ClientId] = []
    load = store.load_diary

    def reading(who: ClientId) -> Diary:
        asked.append(who)
        return load(who)

    monkeypatch.setattr(store, "load_diary", reading)
    desk.keep(placing())
    desk.undo()
    assert asked == []
    assert desk.diary is desk.diary
    desk.keep(placing())
    desk.undo()
    assert desk.diary == Diary()
    assert asked == [RUNA.id]
    desk.open(JORUNN.id)
    assert desk.diary == Diary()
    assert asked == [RUNA.id, JORUNN.id]


def test_results_are_kept_taken_back_and_done_again(desk: Desk, store: Store) -> None:
    desk.keep(placing())  # made before the diary is read
    step = desk.keep_diary("Results of Monday", desk.diary.with_results([squats(10, 10, 9)]))
    assert step is not None
    noted = desk.diary
    assert store.load_diary(RUNA.id) == noted
    placed = desk.program
    desk.undo()
    assert desk.diary == store.load_diary(RUNA.id) == Diary()
    desk.undo()
    assert desk.program == PLAN
    desk.go_to(2)
    assert desk.program == placed
    assert desk.diary == store.load_diary(RUNA.id) == noted
    desk.go_to(0)
    assert saved(desk) == Work(RUNA, PLAN)
    assert store.load_diary(RUNA.id) == Diary()


def test_keeping_the_same_diary_is_no_step(desk: Desk) -> None:
    desk.keep_diary("Results", desk.diary.with_results([squats(10)]))
    assert desk.keep_diary("Results", Diary(results=(squats(10),))) is None
    assert len(desk.history.steps) == 1


def test_client_program_and_diary_change_in_one_step(desk: Desk, store: Store) -> None:
    heavier = StrengthTest(ExerciseKey("back_squat"), date(2026, 11, 2), 120, 5)
    client = replace(RUNA, tests=(*RUNA.tests, heavier))
    program = rename(desk.program, name="Peak")
    diary = Diary(results=(squats(8, 8),))
    desk.keep_work("From the results", client=client, program=program, diary=diary)
    assert (desk.client, desk.program, desk.diary) == (client, program, diary)
    assert saved(desk) == Work(client, program)
    desk.undo()
    assert saved(desk) == Work(RUNA, PLAN)
    assert store.load_diary(RUNA.id) == Diary()
    assert desk.redo() is not None
    assert store.load_diary(RUNA.id) == diary


def test_results_of_one_sitting_merge_and_are_taken_back_together(desk: Desk, store: Store) -> None:
    desk.keep_client("Team", replace(RUNA, team="Valley"), key="sitting")
    for reps in (8, 9, 10):
        desk.keep_diary("Results", desk.diary.with_results([squats(reps)]), key="sitting")
    assert len(desk.history.steps) == 1
    desk.undo()
    assert desk.client == RUNA
    assert desk.diary == store.load_diary(RUNA.id) == Diary()


def test_results_that_cannot_be_kept_leave_everything_as_it_was(
    desk: Desk, store: Stubborn
) -> None:
    store.full = True
    with pytest.raises(StoreError):
        desk.keep_diary("Results", desk.diary.with_results([squats(10)]))
    assert desk.diary == Diary()
    assert desk.history.undoable is None


def test_findings_are_not_worked_out_again_for_results(desk: Desk) -> None:
    found = desk.findings
    desk.keep_diary("Results", desk.diary.with_results([squats(10)]))
    assert desk.findings is found


# ---------------------------------------------------------------------------- at random


class DeskMachine(RuleBasedStateMachine):
    """Random edits, undo, redo and reopening on a real file, against a plain list."""

    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(tempfile.mkdtemp())
        self.store = Store.open(self.folder / "plans.weekloom")

    @initialize()
    def open_first(self) -> None:
        first = Work(RUNA, start(), Diary())
        self.store.save(None, first, label="Add")
        self._open(first)

    def _open(self, work: Work) -> None:
        self.desk = Desk(self.store, builders.CATALOGUE, resources.range_book())
        self.desk.open(work.client.id, work.program.id)
        assert self.desk.work == replace(work, diary=None)
        self.values, self.at = [work], 0

    def _done(self, work: Work) -> None:
        if work != self.values[self.at]:
            self.values = [*self.values[: self.at + 1], work]
            self.at += 1

    @rule(data=st.data())
    def edit(self, data: st.DataObject) -> None:
        act = data.draw(edits_of(self.desk.program), label="edit")
        now = self.values[self.at]
        try:
            after = replace(now, program=act(now.program))
        except EditError:
            with pytest.raises(CoachError):
                self.desk.keep(act)
            return
        step = self.desk.keep(act)
        assert (step is None) == (after == now)
        self._done(after)

    @rule(team=st.sampled_from(["", "Upper valley", "Lower valley"]))
    def change_client(self, team: str) -> None:
        client = replace(self.desk.client, team=team)
        self.desk.keep_client("Profile", client)
        self._done(replace(self.values[self.at], client=client))

    @rule(results=st.lists(slot_results, min_size=1, max_size=2))
    def note_results(self, results: list[SlotResult]) -> None:
        diary = self.desk.diary.with_results(results)
        self.desk.keep_diary("Results", diary)
        self._done(replace(self.values[self.at], diary=diary))

    @rule()
    def ask_for_the_diary(self) -> None:
        assert self.desk.diary == self.values[self.at].diary

    @rule()
    def undo(self) -> None:
        assert (self.desk.undo() is None) == (self.at == 0)
        self.at = max(0, self.at - 1)

    @rule()
    def redo(self) -> None:
        last = len(self.values) - 1
        assert (self.desk.redo() is None) == (self.at == last)
        self.at = min(last, self.at + 1)

    @rule()
    def close_and_reopen(self) -> None:
        now = self.values[self.at]
        self.store.close()
        self.store = Store.open(self.folder / "plans.weekloom")
        self._open(now)

    @invariant()
    def file_memory_and_list_agree(self) -> None:
        if not hasattr(self, "desk"):
            return
        now = self.values[self.at]
        assert (self.desk.client, self.desk.program) == (now.client, now.program)
        assert self.desk.work.diary in (None, now.diary)
        assert self.store.load_diary(now.client.id) == now.diary
        assert self.store.load_program(now.program.id) == now.program
        assert self.store.load_client(now.client.id) == now.client
        assert broken_laws(now.program) == ()
        history = self.desk.history
        assert (history.done, len(history.steps)) == (self.at, len(self.values) - 1)

    def teardown(self) -> None:
        self.store.close()
        shutil.rmtree(self.folder)


TestDeskAtRandom = DeskMachine.TestCase
TestDeskAtRandom.settings = settings(max_examples=8, stateful_step_count=15, deadline=None)


def test_a_long_run_can_be_taken_back_step_by_step(desk: Desk) -> None:
    values: list[Program] = [desk.program]
    for day in range(7):
        desk.keep(edit("Place", place.place, exercise=CURL, at=Spot(0, day), span=Span.FROM_HERE))
        values.append(desk.program)
    for wanted in reversed(values[:-1]):
        desk.undo()
        assert desk.program is wanted
    for wanted in values[1:]:
        desk.redo()
        assert desk.program is wanted
    assert saved(desk).program == values[-1]


# ---------------------------------------------------------------------------- many steps at once


@given(st.lists(st.integers(0, 4), min_size=1, max_size=6))
@settings(max_examples=15)
def test_any_step_can_be_gone_to_and_the_file_goes_along(targets: list[int]) -> None:
    store = Store.in_memory()
    store.save(None, Work(RUNA, PLAN), label="Add")
    desk = Desk(store, builders.CATALOGUE, resources.range_book())
    desk.open(RUNA.id, PLAN.id)
    states = [desk.work]
    for number in range(4):
        if number == 2:
            desk.keep_client("Profile", replace(desk.client, note="told"))
        else:
            desk.keep(placing(number))
        states.append(desk.work)
    here = 4
    for target in targets:
        assert desk.go_to(target) == abs(target - here)
        here = target
        assert desk.work == states[target]
        assert saved(desk) == desk.work
        assert desk.history.done == target
    store.close()


def test_going_back_many_steps_is_one_line_in_the_log(desk: Desk, store: Store) -> None:
    for day in range(3):
        desk.keep(placing(day))
    desk.go_to(0)
    assert store.log(PLAN.id)[0].label == "Undo 3 steps"
    desk.go_to(1)
    assert store.log(PLAN.id)[0].label == "Redo 1 step"


def test_a_way_that_cannot_be_kept_leaves_everything_as_it_was(desk: Desk, store: Stubborn) -> None:
    desk.keep(placing())
    was, history = desk.work, desk.history
    store.full = True
    with pytest.raises(StoreError):
        desk.go_to(0)
    assert desk.work is was
    assert desk.history == history


def test_forgotten_steps_can_no_longer_be_taken_back(desk: Desk) -> None:
    desk.keep(placing())
    desk.forget_steps(RUNA.id)
    assert desk.undo() is None
    desk.forget_steps(JORUNN.id)


def test_other_ranges_are_checked_by_at_once() -> None:
    store = Store.in_memory()
    store.save(None, Work(RUNA, PLAN), label="Add client")
    desk = Desk(store, builders.CATALOGUE, resources.range_book())
    desk.open(RUNA.id, PLAN.id)
    book = desk.ranges
    before = desk.findings
    few = next(r for r in book.ranges["weekly_frequency"] if r.low)
    own = Override(replace(few, low=7.0, who=Who()), by="Mette", on=date(2026, 1, 2), why="seen")
    told: list[Work | None] = []
    desk.listen(lambda _before, after: told.append(after))
    desk.use_ranges(book.with_own(own))
    assert told == [desk.work]
    assert any(f.range is not None and f.range.low == 7.0 for f in desk.findings)
    desk.use_ranges(book)
    assert desk.findings == before
    store.close()


def test_a_load_is_rounded_to_what_there_is_at_the_place_of_its_day(store: Store) -> None:
    desk = Desk(store, builders.CATALOGUE, resources.range_book())
    desk.open(RUNA.id, PLAN.id)
    squat = desk.program.weeks[0].days[0].sessions[0].slots[0]
    usual = desk.load(squat)
    coarse = Place("hut", frozenset(), Increments(plates_kg=(20.0, 10.0)))
    free = (FreeTime(60, place="hut"), *desk.client.free[1:])
    desk.keep_client("Change", replace(desk.client, places=(coarse,), free=free))
    there = desk.load(squat)
    assert there.load_kg != usual.load_kg
    assert (there.load_kg - 20) % 20 == 0
    session = desk.program.weeks[0].days[0].sessions[0]
    desk.keep(edit("Move", place.move_session, session_id=session.id, day=4))
    moved = desk.program.weeks[0].days[4].sessions[0].slots[0]
    assert desk.load(moved).load_kg == usual.load_kg
