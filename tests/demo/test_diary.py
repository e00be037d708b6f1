"""A diary follows from its few rules and the plan: nothing is random, exceptions stand out."""

from __future__ import annotations

import itertools
from datetime import date
from typing import Any

import pytest

from app import resources
from app.demo.diary import diary_from
from app.domain.errors import CoachError
from app.domain.results import Diary, Site, SlotResult
from tests.demo.test_member import plain, read

CATALOGUE = resources.catalogue()
PROGRAM = read(plain()).program


def noted(**changes: Any) -> Diary:
    table: dict[str, Any] = {
        "weeks": [1, 4],
        "check_ins": [["2026-10-18", 70.5, 4, 3, 4, 3, 0.9]],
        "loads": {"hip_thrust": [60, 2.5, 1], "leg_extension": [20, 5, 2]},
    }
    return diary_from(table | changes, PROGRAM, CATALOGUE)


def of(diary: Diary, exercise: str) -> list[SlotResult]:
    return [result for result in diary.results if result.exercise == exercise]


def test_the_same_rules_give_the_same_diary() -> None:
    assert noted() == noted()


def test_a_load_rises_by_its_step_every_so_many_weeks() -> None:
    assert [r.sets[0].load_kg for r in of(noted(), "hip_thrust")] == [60, 62.5, 65, 67.5]
    assert [r.sets[0].load_kg for r in of(noted(), "leg_extension")] == [20, 20, 25, 25]


def test_every_set_that_was_planned_was_done_about_as_meant() -> None:
    slots = {slot.id: slot for week in PROGRAM.weeks for slot in week.slots()}
    diary = noted()
    assert {result.slot for result in diary.results} == set(slots)
    for result in diary.results:
        slot = slots[result.slot]
        assert len(result.sets) == slot.sets
        assert all(abs(done.reps - slot.reps.high) <= 1 for done in result.sets)
        assert result.on.weekday() == 0


def test_a_stalled_week_falls_short_and_nothing_rises_after_it() -> None:
    stalled = of(noted(stalls=[[2, 3, "hip_thrust"]]), "hip_thrust")
    assert [r.sets[0].load_kg for r in stalled] == [60, 62.5, 62.5, 62.5]
    high = [next(w.slots()).reps.high for w in PROGRAM.weeks]
    assert all(done.reps < high[1] for done in stalled[1].sets)


def test_what_was_left_out_done_instead_or_remarked_on_is_told() -> None:
    diary = noted(
        missed=[[2, 0]],
        left_out=[[1, "leg_extension", 1], [3, "leg_extension", 0]],
        instead=[[1, "seated_leg_curl", "lying_leg_curl", 15]],
        remarks=[[4, "hip_thrust", "Felt light."]],
    )
    assert len({result.on for result in diary.results}) == 3
    assert [len(r.sets) for r in of(diary, "leg_extension")] == [1, 0, 3]
    (other,) = of(diary, "lying_leg_curl")
    assert {done.load_kg for done in other.sets} == {15.0}
    assert [r.note for r in of(diary, "hip_thrust")] == ["", "", "Felt light."]


def test_a_check_in_holds_its_marks_and_girths() -> None:
    diary = noted(
        girths=[["2026-10-18", ["waist", 80.0], ["neck", 35.0]]],
        reports=[["2026-10-18", "Slept well."]],
    )
    (one,) = diary.check_ins
    assert (one.on, one.mass_kg, one.sleep, one.adherence) == (date(2026, 10, 18), 70.5, 4, 0.9)
    assert [girth.site for girth in one.girths] == [Site.NECK, Site.WAIST]
    assert one.note == "Slept well."


def test_impossible_data_is_refused() -> None:
    with pytest.raises(CoachError, match="sleep"):
        noted(check_ins=[["2026-10-18", 70, 9]])


def test_the_team_has_one_whole_program_and_one_half_done_in_its_diaries() -> None:
    from app.demo import members

    team = {member.client.name: member for member in members(CATALOGUE)}
    done = {name: m for name, m in team.items() if m.diary.results}
    assert set(done) == {"Ilse Brandal", "Jorunn Aske"}
    for member in done.values():
        assert all(result.exercise in CATALOGUE for result in member.diary.results)
        assert member.diary.results_of(member.program.id) == member.diary.results
        days = [one.on for one in member.diary.check_ins]
        gaps = {(b - a).days for a, b in itertools.pairwise(days)}
        assert gaps == {7, 14}, "one week without a check-in"
    ilse, jorunn = done["Ilse Brandal"], done["Jorunn Aske"]
    assert len({r.on for r in ilse.diary.results}) == 23
    assert len({r.on for r in jorunn.diary.results}) == 19
    for member in (ilse, jorunn):
        meant = {s.id: s.exercise for w in member.program.weeks for s in w.slots()}
        others = [r for r in member.diary.results if r.exercise != meant[r.slot]]
        assert len(others) == 1
    assert any(not result.sets for result in jorunn.diary.results)
