"""What cards and days say, in print and in speech."""

from __future__ import annotations

from datetime import date

import pytest

from app.domain.client import FreeTime
from app.domain.findings import Finding, Place, Weight
from app.domain.loads import load_for
from app.domain.program import Acceptance, Reps
from app.ui.grid import face
from app.ui.grid.face import Source
from tests import builders
from tests.ui.grid import scene

CLIENT = builders.client(free=scene.FREE, tests=scene.TESTS)


def source(client=CLIENT) -> Source:
    return Source(
        builders.CATALOGUE,
        client,
        lambda slot: load_for(slot, builders.CATALOGUE[slot.exercise], client),
        scene.TODAY,
    )


def card(text: str, client=CLIENT) -> face.CardFace:
    week = face.week_face(builders.program(f"Mon: {text}"), 0, source(client))
    return week.days[0].cards[0]


def test_a_card_says_sets_reps_effort_rest_and_what_is_odd():
    shown = card("split_squat 3x8-10 RIR 1 rest 90 tempo 3-1-1-0 core pin sets")
    assert (shown.name, shown.scheme, shown.effort) == ("Split squat", "3 × 8–10", "RIR 1")
    assert shown.rest == "1:30"
    assert shown.details == ("each side", "tempo 3-1-1-0")
    assert shown.core


def test_timed_sets_count_seconds():
    assert card("plank 3x30").scheme == "3 × 30 s"


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("back_squat 4x10 70kg", "70 kg"),
        ("back_squat 4x10 72.5kg", "72.5 kg"),
        ("curl 3x10 12kg", "2 × 12 kg"),
        ("chin_up 3x5", "own weight"),
        ("chin_up 3x5 10kg", "+10 kg"),
        ("chin_up 3x5 0kg", "own weight"),
        ("band_walk 2x12", "band"),
        ("plank 3x30", ""),
        ("bench_press 3x8", ""),
    ],
)
def test_the_load_is_said_in_the_exercises_own_terms(text, shown):
    assert card(text).load_text == shown


def test_a_client_who_thinks_in_pounds_reads_pounds():
    client = builders.client(units="lb", tests=scene.TESTS)
    assert card("back_squat 4x10 100kg", client).load_text == "220.5 lb"


def test_cards_begin_when_the_timetable_says():
    week = face.week_face(builders.program("Mon: back_squat 4x10, curl 3x10"), 0, source())
    first, second = week.days[0].cards
    assert 0 < first.start_min < second.start_min < week.days[0].minutes


def test_a_day_knows_its_date_its_time_and_whether_it_is_today():
    days = face.week_face(builders.program(scene.WEEK), 0, source()).days
    assert [day.on.day for day in days] == [23, 24, 25, 26, 27, 28, 29]
    assert [day.today for day in days].index(True) == 2
    assert [day.free for day in days[:3]] == ["60 min free", "team evening", "30 min free"]
    assert days[0].sets == 10
    assert face.free_text(FreeTime(0)) == "not free"


def finding(weight: Weight, slot, *, text: str = "odd", rule: str = "rule") -> Finding:
    return Finding(rule, weight, Place(slot=slot.id, strand=slot.strand), "", text)


def test_the_heaviest_finding_marks_the_card_and_accepted_ones_come_last():
    program = builders.program("Mon: back_squat")
    slot = program.weeks[0].days[0].sessions[0].slots[0]
    light = finding(Weight.REMARK, slot, rule="a")
    heavy = finding(Weight.CONFLICT, slot, rule="b")
    by_slot, _ = face.marks_of(program, 0, [light, heavy])
    assert by_slot[slot.id].weight is Weight.CONFLICT
    assert by_slot[slot.id].sentences == ("Conflict: odd", "Remark: odd")
    accepted = builders.program("Mon: back_squat", accepted=(Acceptance(heavy.id, "known"),))
    by_slot, _ = face.marks_of(accepted, 0, [light, heavy])
    assert (by_slot[slot.id].weight, by_slot[slot.id].accepted) == (Weight.REMARK, False)


def test_findings_of_another_week_leave_the_open_one_alone():
    program = builders.program("Mon: back_squat", times=2)
    place = Place(week=program.weeks[1].id, day=0)
    other = Finding("minutes", Weight.OUTSIDE, place, "", "long")
    assert face.marks_of(program, 0, [other]) == ({}, {})
    assert 0 in face.marks_of(program, 1, [other])[1]


def test_a_card_is_spoken_with_day_name_sets_effort_and_load():
    week = face.week_face(builders.program("Tue: back_squat 4x10 RIR 2 70kg"), 0, source())
    day = week.days[1]
    spoken = face.spoken_card(day, day.cards[0])
    assert spoken == "Tuesday, Back squat, 4 sets of 10, RIR 2, 70 kg"


def test_a_day_is_spoken_with_its_sets_and_minutes():
    days = face.week_face(builders.program(scene.WEEK), 0, source()).days
    assert face.spoken_day(days[2]) == "Wednesday 25, today, 30 min free, nothing yet"
    assert face.spoken_day(days[0]).startswith("Monday 23, Mon 1, 10 sets, ")
    assert face.spoken_day(days[0]).endswith(" of 60 minutes")


def test_a_tooltip_holds_what_a_narrow_card_leaves_out():
    lines = face.tooltip(card("split_squat 3x8 tempo 3-1-1-0 pin rest")).split("\n")
    assert lines[0] == "Split squat"
    assert "rest 2:00, each side, tempo 3-1-1-0" in lines
    assert "Set by hand: rest" in lines


def test_words_for_ranges_and_times():
    assert face.reps_text(Reps(8, 8)) == "8"
    assert face.reps_text(Reps(8, 12)) == "8–12"
    assert face.clock_text(150) == "2:30"
    assert face.clock_text(45) == "0:45"


def test_the_week_begins_on_the_programs_monday():
    week = face.week_face(builders.program("Mon: curl", times=3), 2, source())
    assert week.days[0].on == date(2026, 12, 7)


def test_a_days_tooltip_is_plain_lines():
    day = face.week_face(builders.program(scene.WEEK), 0, source()).days[0]
    assert face.day_tooltip(day).split("\n") == ["Monday 23", "Mon 1", "60 min free"]
