"""The layouts that a program can begin with."""

from __future__ import annotations

from datetime import date

import pytest

from app import resources
from app.domain.client import Client, ClientId
from app.domain.exercise import Equipment, Exercise, Pattern
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
    assert len(layouts()) > 1


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

        def fitting(exercise: Exercise, client: Client = client) -> bool:
            return fits(exercise, client, ON)

        chosen = [e for s in layout.sessions for e in choose(s, CATALOGUE, fitting)]
        assert sum(e is not None for e in chosen) >= least


@EACH
def test_a_layout_laid_out_keeps_the_laws(layout: Layout) -> None:
    client = builders.client()
    program = lay_out(
        empty_program(ProgramId("p"), "Season", start=ON, weeks=4),
        layout,
        client=client,
        catalogue=CATALOGUE,
        fits=lambda exercise: fits(exercise, client, ON),
    )
    assert broken_laws(program) == ()
    assert all(s.slots for _, s in program.weeks[3].sessions())
