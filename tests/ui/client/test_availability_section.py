"""When the client can train and with what, as the pane says it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pytestqt.qtbot import QtBot

from app.domain.client import FreeTime, Place
from app.domain.edits.place import move_session
from app.domain.exercise import Equipment
from app.domain.findings import edit
from app.ui.bench import Bench
from app.ui.client.availability_section import AvailabilitySection, equipment_line
from tests.ui.client.panes import texts
from tests.ui.desks import RUNA, with_client


@pytest.fixture
def section(qtbot: QtBot, bench: Bench) -> AvailabilitySection:
    made = AvailabilitySection(bench)
    qtbot.addWidget(made)
    made.resize(252, 400)
    bench.changed.connect(made.work_changed)
    bench.week_shown.connect(lambda _week: made.show_week())
    made.refresh()
    made.show()
    return made


def test_days_with_a_session_follow_the_plan(section: AvailabilitySection, bench: Bench) -> None:
    assert section.days.used == {0, 3}
    session = bench.desk.program.weeks[0].days[3].sessions[0]
    bench.keep(edit("Move", move_session, session_id=session.id, day=4))
    assert section.days.used == {0, 4}
    bench.show_week(1)
    assert section.days.used == {0, 3}


@pytest.mark.parametrize(
    ("things", "line"),
    [
        (frozenset(), "Own weight only. Enter the equipment in reach."),
        ({Equipment.BODY}, "Own weight only. Enter the equipment in reach."),
        ({Equipment.BARBELL, Equipment.BENCH}, "Barbell, plates from 1.25 kg, bench"),
        ({Equipment.DUMBBELLS, Equipment.BAND}, "Dumbbells to 40 kg, band"),
    ],
)
def test_equipment_is_told_in_one_line(things: set[Equipment], line: str) -> None:
    assert equipment_line(replace(RUNA, equipment=frozenset(things))) == line


def test_other_places_are_said_with_their_days(section: AvailabilitySection, bench: Bench) -> None:
    free = (FreeTime(60, place="home"), *bench.desk.client.free[1:])
    home = Place("home", frozenset({Equipment.BODY, Equipment.BAND}))
    with_client(bench, places=(home, Place("hut")), free=free)
    told = texts(section)
    assert "home (Mon): Band" in told
    assert any(text.startswith("hut (no day yet): Own weight only") for text in told)
