"""Minutes of the seven weekdays, each with a note."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from app.domain.client import FreeTime, Place
from app.ui.bench import Bench
from app.ui.client.days import DaysSheet
from tests.ui.desks import with_client
from tests.ui.steps import kept, nothing_kept, one_step, refused_with, retype

TUESDAY = 1


@pytest.fixture
def sheet(qtbot: QtBot, bench: Bench) -> DaysSheet:
    made = DaysSheet(bench, None)
    qtbot.addWidget(made)
    return made


def test_minutes_and_notes_are_kept_as_one_step(sheet: DaysSheet, bench: Bench) -> None:
    before = bench.desk.client.free
    minutes, note = sheet.fields[TUESDAY]
    retype(minutes, "50")
    retype(note, " before the team evening ")
    with one_step(bench, "Change the days"):
        kept(sheet)
    free = bench.desk.client.free
    assert free[TUESDAY] == FreeTime(50, "before the team evening")
    assert free[:TUESDAY] == before[:TUESDAY]
    assert free[TUESDAY + 1 :] == before[TUESDAY + 1 :]


@pytest.mark.parametrize("typed", ["", "0"])
def test_empty_and_nought_both_mean_not_free(sheet: DaysSheet, bench: Bench, typed: str) -> None:
    retype(sheet.fields[0][0], typed)
    kept(sheet)
    assert bench.desk.client.free[0].minutes == 0


def test_a_day_that_is_not_free_keeps_its_note(sheet: DaysSheet, bench: Bench) -> None:
    assert sheet.fields[TUESDAY][0].edit.text() == ""
    with nothing_kept(bench):
        kept(sheet)
    assert bench.desk.client.free[TUESDAY].note == "team evening"


def test_untouched_notes_stay_letter_for_letter(qtbot: QtBot, bench: Bench) -> None:
    with_client(bench, free=(FreeTime(45, " on call \n two weekends"),) * 7)
    sheet = DaysSheet(bench, None)
    qtbot.addWidget(sheet)
    with nothing_kept(bench):
        kept(sheet)


@pytest.mark.parametrize(
    ("typed", "says"), [("601", "out of range"), ("7.5", "not a whole number"), ("x", "'x'")]
)
def test_minutes_that_cannot_be_name_their_day(
    sheet: DaysSheet, bench: Bench, typed: str, says: str
) -> None:
    retype(sheet.fields[4][0], typed)
    refused_with(sheet, bench, "Friday", says, "Enter 0 to 600.")


def test_a_day_with_fewer_minutes_brings_the_finding_on_its_session(
    sheet: DaysSheet, bench: Bench
) -> None:
    before = {finding.rule for finding in bench.desk.findings}
    retype(sheet.fields[0][0], "20")
    kept(sheet)
    assert "session_minutes" not in before
    assert "session_minutes" in {finding.rule for finding in bench.desk.findings}


def test_each_day_names_its_place_and_keeps_it(qtbot: QtBot, bench: Bench) -> None:
    free = (FreeTime(60, "early", "home"), *bench.desk.client.free[1:])
    with_client(bench, places=(Place("home"), Place("hut")), free=free)
    sheet = DaysSheet(bench, None)
    qtbot.addWidget(sheet)
    assert sheet.places[0].currentData() == "home"
    with nothing_kept(bench):
        sheet.keep()
    sheet.places[TUESDAY].setCurrentIndex(2)
    with one_step(bench, "Change the days"):
        kept(sheet)
    assert bench.desk.client.free[TUESDAY].place == "hut"
    assert bench.desk.client.free[0] == free[0]


def test_without_places_no_place_is_asked(sheet: DaysSheet) -> None:
    assert all(box.isHidden() for box in sheet.places)
