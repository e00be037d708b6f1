"""Time, limitations and equipment."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from app.domain.client import NO_TIME, FreeTime, Limitation, Place, Side
from app.domain.exercise import Equipment, Joint, Motion
from app.domain.findings import Weight
from tests.builders import START, client
from tests.domain.checks.ask import findings, texts

KNEE = Limitation(Joint.KNEE, Motion.FLEXION, Side.LEFT, past_degrees=90)


def free(minutes: int, note: str = "") -> tuple[FreeTime, ...]:
    """So many minutes on Monday and an hour on Sunday."""
    return (FreeTime(minutes, note), *(FreeTime(),) * 5, FreeTime(60))


# 6 min, 3 x 40 s, 3 x 120 s, 60 s: 15 min
QUARTER = "Mon: curl 3x10 rest 120"


@pytest.mark.parametrize(
    ("minutes", "said"), [(15, []), (14, ["Monday 15 min, 1 over the cap of 14"])]
)
def test_a_session_fits_the_day(minutes: int, said: list[str]) -> None:
    assert texts("session_minutes", QUARTER, who=client(free=free(minutes))) == said


def test_two_sessions_of_a_day_are_added_up() -> None:
    who = client(free=free(29))
    assert len(texts("session_minutes", f"{QUARTER} | {QUARTER}", who=who)) == 1


def test_a_day_that_is_not_free_is_named_with_its_reason() -> None:
    (finding,) = findings("session_minutes", QUARTER, who=client(free=free(0, "on call")))
    assert finding.text == "Monday 15 min, but Monday is not free (on call)"
    assert (finding.measured, finding.below) == (15, False)


def test_without_any_availability_nothing_is_said() -> None:
    assert texts("session_minutes", QUARTER, who=client(free=NO_TIME)) == []


def test_a_limitation_is_a_conflict_past_its_angle() -> None:
    who = client(limitations=(KNEE,))
    (finding,) = findings("limitation", "Mon: split_squat 3x8, leg_press 3x8, curl 3x8", who=who)
    assert finding.text == "Split squat bends the left knee past 90°"
    assert finding.weight is Weight.CONFLICT
    assert finding.place_text == "Monday"
    assert finding.source == "limitation"


def test_a_limitation_is_told_with_its_date() -> None:
    who = client(limitations=(replace(KNEE, since=date(2026, 10, 2)),))
    (finding,) = findings("limitation", "Mon: split_squat 3x8", who=who)
    assert finding.source == "limitation of 2 Oct 2026"


def test_time_and_equipment_are_the_clients_own_word() -> None:
    who = client(free=free(14), equipment=frozenset())
    (minutes,) = findings("session_minutes", QUARTER, who=who)
    (missing,) = findings("equipment", QUARTER, who=who)
    assert minutes.source == "the client's own time"
    assert missing.source == "the client's equipment"


def test_a_motion_can_be_ruled_out_altogether() -> None:
    who = client(limitations=(Limitation(Joint.SHOULDER, Motion.OVERHEAD, past_degrees=90),))
    assert texts("limitation", "Mon: overhead_press 3x8", who=who) == [
        "Overhead press works overhead with the shoulder"
    ]
    hip = client(limitations=(Limitation(Joint.HIP, Motion.FLEXION),))
    assert texts("limitation", "Mon: hip_thrust 3x8, curl 3x8", who=hip) == [
        "Hip thrust bends the hip"
    ]


@pytest.mark.parametrize(
    ("since", "until", "count"),
    [(-1, 0, 1), (0, 1, 1), (1, None, 0), (None, -1, 0), (None, None, 1)],
)
def test_a_limitation_holds_between_its_dates(
    since: int | None, until: int | None, count: int
) -> None:
    # days from the first Monday of the plan
    ends = [None if d is None else START + timedelta(days=d) for d in (since, until)]
    knee = Limitation(Joint.KNEE, Motion.FLEXION, past_degrees=90, since=ends[0], until=ends[1])
    who = client(limitations=(knee,))
    assert len(texts("limitation", "Mon: split_squat 3x8", who=who, plan_week=1)) == count


SPLIT = "Mon: split_squat 3x8, curl 3x8"
OVER = replace(KNEE, since=date(2026, 10, 2), until=START + timedelta(days=6))


def test_what_a_limitation_ruled_out_is_asked_about_in_the_first_week_after_it() -> None:
    found = findings("limitation_ended", *[SPLIT] * 3, who=client(limitations=(OVER,)), plan_week=1)
    (one,) = found
    assert one.text == (
        "Split squat bends the left knee past 90°, ruled out until 29 Nov 2026: "
        "ask before it comes back"
    )
    assert one.weight is Weight.REMARK
    assert one.source == "limitation of 2 Oct 2026"
    marked = findings("limitation", *[SPLIT] * 3, who=client(limitations=(OVER,)), plan_week=1)
    assert len(marked) == 1
    assert marked[0].place.week != one.place.week


@pytest.mark.parametrize(
    "limitations",
    [
        (KNEE,),
        (replace(OVER, until=START + timedelta(days=60)),),
        (OVER, replace(KNEE, until=None)),
        (replace(OVER, past_degrees=170),),
    ],
    ids=["no last day", "still in force", "another forbids it", "never broken"],
)
def test_nothing_is_asked_where_no_limitation_has_ended(
    limitations: tuple[Limitation, ...],
) -> None:
    who = client(limitations=limitations)
    assert texts("limitation_ended", *[SPLIT] * 3, who=who, plan_week=1) == []


def test_a_pause_after_a_limitation_does_not_hide_the_question() -> None:
    who = client(limitations=(OVER,))
    weeks = [SPLIT, "Mon: curl 3x8", "Mon: curl 3x8", SPLIT, SPLIT]
    assert len(texts("limitation_ended", *weeks, who=who, plan_week=1)) == 1


def test_a_limitation_that_was_renewed_is_asked_about_once_by_its_later_day() -> None:
    later = replace(OVER, until=START + timedelta(days=13))
    who = client(limitations=(OVER, later))
    (text,) = texts("limitation_ended", *[SPLIT] * 4, who=who, plan_week=1)
    assert "until 6 Dec 2026" in text


def test_two_limitations_on_the_same_motion_speak_once() -> None:
    who = client(limitations=(KNEE, Limitation(Joint.KNEE, Motion.FLEXION, Side.LEFT, 60)))
    found = findings("limitation", "Mon: split_squat 3x8", who=who)
    assert len({finding.id for finding in found}) == len(found) == 1


def test_missing_equipment_is_a_conflict() -> None:
    who = client(equipment=frozenset({Equipment.BODY, Equipment.BENCH}))
    (finding,) = findings("equipment", "Mon: back_squat 3x8, push_up 3x8", who=who)
    assert finding.text == "Back squat needs barbell and rack"
    assert (finding.weight, finding.measured) == (Weight.CONFLICT, 2)


def test_own_weight_is_always_in_reach() -> None:
    assert texts("equipment", "Mon: push_up 3x8", who=client(equipment=frozenset())) == []


def test_the_place_of_the_day_has_to_have_what_is_needed() -> None:
    home = Place("home", frozenset({Equipment.BODY}))
    who = client(
        places=(home,), free=(FreeTime(60), FreeTime(60, place="home"), *(FreeTime(60),) * 5)
    )
    assert texts("equipment", "Mon: back_squat 3x8", who=who) == []
    (finding,) = findings("equipment", "Mon: back_squat 3x8 | Tue: back_squat 3x8", who=who)
    assert finding.place.day == 1
    assert finding.text.endswith("needs barbell and rack, not at home")
