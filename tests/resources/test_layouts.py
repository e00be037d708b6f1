"""The layouts that a program can begin with."""

from __future__ import annotations

from datetime import date
from typing import Any

import pytest

from app import resources
from app.domain.checks import check
from app.domain.client import Client, ClientId, FreeTime, Status
from app.domain.exercise import Equipment, Exercise, Pattern
from app.domain.findings import Finding, Weight
from app.domain.fit import fits
from app.domain.layout import Layout, choose, lay_out
from app.domain.program import ProgramId, broken_laws, empty_program
from app.resources.layouts import layouts
from tests import builders

CATALOGUE = resources.catalogue()
ON = date(2026, 11, 23)
EACH = pytest.mark.parametrize("layout", layouts(), ids=[one.key for one in layouts()])


def test_layouts_are_read_once_and_have_keys_and_names_of_their_own() -> None:
    assert layouts() is layouts()
    assert len({one.key for one in layouts()}) == len({one.name for one in layouts()})
    assert len(layouts()) >= 10


@EACH
def test_a_layout_names_only_exercises_of_the_library_and_drills_for_its_warm_up(
    layout: Layout,
) -> None:
    for session in layout.sessions:
        for slot in session.slots:
            for key in slot.choices:
                assert key in CATALOGUE, key
        for key in session.warmup:
            assert CATALOGUE[key].warmup_for or CATALOGUE[key].pattern is Pattern.DRILL


@EACH
def test_a_layout_has_a_source_that_can_be_looked_up(layout: Layout) -> None:
    assert layout.source == "common practice" or layout.source in resources.references()


@EACH
def test_sessions_stand_on_days_of_their_own(layout: Layout) -> None:
    days = [session.day for session in layout.sessions]
    assert len(set(days)) == len(days)


@EACH
def test_asked_repetitions_or_seconds_lie_in_the_zone_of_the_first_choice(layout: Layout) -> None:
    for session in layout.sessions:
        for slot in session.slots:
            exercise = CATALOGUE[slot.choices[0]]
            assert exercise.rep_low <= slot.reps.low, exercise.key
            assert slot.reps.high <= exercise.rep_high, exercise.key


@EACH
def test_a_full_room_gets_every_place_and_own_weight_most_of_them(layout: Layout) -> None:
    places = sum(len(session.slots) for session in layout.sessions)
    for equipment, least in ((frozenset(Equipment), places), (frozenset({Equipment.BODY}), 1)):
        client = Client(ClientId("c"), "Runa Estvik", equipment=equipment)

        def fitting(exercise: Exercise, day: int, client: Client = client) -> bool:
            return fits(exercise, client, ON, day=day)

        chosen = [e for s in layout.sessions for e in choose(s, CATALOGUE, fitting, day=s.day)]
        assert sum(e is not None for e in chosen) >= least


@EACH
def test_a_layout_laid_out_keeps_the_laws(layout: Layout) -> None:
    client = builders.client()
    program = lay_out(
        empty_program(ProgramId("p"), "Season", start=ON, weeks=4),
        layout,
        client=client,
        catalogue=CATALOGUE,
        fits=lambda exercise, day: fits(exercise, client, ON, day=day),
    )
    assert broken_laws(program) == ()
    assert all(s.slots for _, s in program.weeks[3].sessions())


FITTING: dict[str, dict[str, Any]] = {
    "home_bands": {"equipment": frozenset({Equipment.BODY, Equipment.BAND})},
    "masters": {"born": date(1956, 3, 1)},
    "time_poor": {"free": (FreeTime(45),) * 7},
}
"""What the client a layout is meant for is like, beside a full room and 90 minutes a day."""

KNOWN = {
    "one_lower": {("weekly_frequency", m) for m in ("gluteals", "quadriceps", "hamstrings")},
    "time_poor": {("weekly_sets", "spinal_erectors")},
}
"""What a layout leaves outside the ranges by what it is: one day a week, little time."""


def found_on(layout: Layout, status: Status) -> tuple[Finding, ...]:
    """Findings on six weeks of the layout for a client it is meant for."""
    fields: dict[str, Any] = {
        "free": (FreeTime(90),) * 7,
        "emphasis": (),
        **FITTING.get(layout.key, {}),
    }
    client = builders.client(status=status, **fields)
    program = lay_out(
        empty_program(ProgramId("p"), "Season", start=ON, weeks=6),
        layout,
        client=client,
        catalogue=CATALOGUE,
        fits=lambda exercise, day: fits(exercise, client, ON, day=day),
    )
    return check(program, client, CATALOGUE, resources.range_book())


@EACH
@pytest.mark.parametrize("status", Status)
def test_a_layout_keeps_within_the_ranges_for_whom_it_is_meant(
    layout: Layout, status: Status
) -> None:
    findings = found_on(layout, status)
    assert [one.text for one in findings if one.weight is Weight.CONFLICT] == []
    outside = {(one.rule, one.about) for one in findings if one.weight is Weight.OUTSIDE}
    assert outside == KNOWN.get(layout.key, set())


def test_a_short_session_is_short_because_it_is_done_in_pairs() -> None:
    short = next(one for one in layouts() if one.key == "time_poor")
    assert all(slot.pair for session in short.sessions for slot in session.slots)


def test_masters_keep_more_in_reserve_than_the_layouts_for_everybody() -> None:
    masters = next(one for one in layouts() if one.key == "masters")
    assert all(slot.rir >= 3 for session in masters.sessions for slot in session.slots)
