"""Weeks of the progression's chart: now and after, in numbers and words."""

from __future__ import annotations

from app.domain import progression
from app.domain.effort import Rir
from app.domain.program import Role
from app.domain.progression import EffortPath, Scheme, SetsPath, Stepwise
from app.ui.bench import Bench
from app.ui.progression_weeks import chart_weeks, common_effort, course
from tests.builders import week

SCHEME = Scheme(
    path=Stepwise(9, 4),
    effort=EffortPath(Rir(4), Rir(1)),
    assistance_effort=EffortPath(Rir(3), Rir(3)),
    sets=SetsPath(2),
)


def test_the_commonest_effort_of_each_kind_of_work_is_told() -> None:
    built = week("Mon: back_squat 3x5 RIR 2 core, hip_thrust 3x5 RIR 1 core, plank 2x30 RIR 3")
    more = week("Mon: back_squat 3x5 RIR 2 core, hip_thrust 3x5 RIR 2 core, row 3x5 RIR 1 core")
    assert common_effort(more, Role.CORE) == "RIR 2"
    assert common_effort(built, Role.ASSISTANCE) == "RIR 3"
    assert common_effort(more, Role.ASSISTANCE) == ""


def test_a_weeks_course_is_read_off_its_slots() -> None:
    built = week("Mon: back_squat 3x5 RIR 2 core, plank 2x30 RIR 3")
    found = course(built)
    assert (found.reps, found.sets, found.light) == ("5", 5, False)


def test_every_week_is_told_now_and_after(bench: Bench) -> None:
    now = bench.desk.program
    after = progression.apply(now, SCHEME, bench.desk.catalogue)
    weeks = chart_weeks(now, after)
    assert [one.index for one in weeks] == list(range(6))
    assert weeks[0].after.reps == "9"
    assert weeks[0].told.startswith("Week 1: core work 10 → 9 reps, ")
    assert "core RIR 2 → RIR 4" in weeks[0].told
    assert "assistance " in weeks[0].told
    assert weeks[-1].after.sets > weeks[-1].now.sets


def test_what_stays_is_told_without_an_arrow(bench: Bench) -> None:
    now = bench.desk.program
    weeks = chart_weeks(now, now)
    assert not any("→" in one.told for one in weeks)
    assert weeks[3].told.startswith("Week 4, light week: ")
