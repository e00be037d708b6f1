"""Saving the open program's sessions as a calendar."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import icalendar
import pytest
from PySide6.QtCore import QCoreApplication, QThreadPool
from PySide6.QtWidgets import QFileDialog
from pytestqt.qtbot import QtBot

from app.calendars import sent_before
from app.ui.bench import Bench
from app.ui.exchange.calendar_dialog import CalendarDialog
from db.store import Store
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import PROGRAM, RUNA

WAIT_MS = 30_000


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench, store: Store) -> Iterator[CalendarDialog]:
    made = CalendarDialog(bench, store, None)
    qtbot.addWidget(made)
    made.show()
    yield made
    made.reject()
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()


def save(
    dialog: CalendarDialog, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, path: Path
) -> icalendar.Calendar:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(path), ""))
    with qtbot.waitSignal(dialog.accepted, timeout=WAIT_MS):
        dialog.keep_button.click()
    return icalendar.Calendar.from_ical(path.with_suffix(".ics").read_bytes())


def test_the_hours_that_are_entered_are_those_of_the_sessions(
    dialog: CalendarDialog, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    dialog.zone.setCurrentText("Europe/Vienna")
    for day, field in dialog.hours.items():
        field.setText(f"{6 + day}:15")
    calendar = save(dialog, qtbot, monkeypatch, tmp_path / "mine")
    starts = {event["DTSTART"].dt.strftime("%w %H:%M") for event in calendar.walk("VEVENT")}
    assert starts == {f"{(day + 1) % 7} {6 + day:02}:15" for day in dialog.hours}
    assert RUNA.name.encode() not in calendar.to_ical()


def test_only_days_with_a_session_are_asked_about(dialog: CalendarDialog) -> None:
    assert set(dialog.hours) == {d for w in PROGRAM.weeks for d, _ in w.sessions()}


def test_some_weeks_with_loads_and_the_name(
    dialog: CalendarDialog, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    dialog.first.set_value(2)
    dialog.last.set_value(2)
    dialog.loads.setChecked(True)
    dialog.named.setChecked(True)
    calendar = save(dialog, qtbot, monkeypatch, tmp_path / "mine.ics")
    events = calendar.walk("VEVENT")
    assert len(events) == len(list(PROGRAM.weeks[1].sessions()))
    assert all(str(event["SUMMARY"]).startswith(RUNA.name) for event in events)
    assert " kg" in str(events[0]["DESCRIPTION"])


def test_what_is_saved_is_remembered_and_what_is_gone_is_told(
    dialog: CalendarDialog,
    bench: Bench,
    store: Store,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
) -> None:
    from app.domain.edits.weeks import remove_weeks
    from app.domain.findings import edit

    save(dialog, qtbot, monkeypatch, tmp_path / "mine.ics")
    assert sent_before(store, PROGRAM)
    bench.keep(edit("Remove week 1", remove_weeks, indices=(0,)))
    again = CalendarDialog(bench, store, None)
    qtbot.addWidget(again)
    assert "cancels" in again.told.text()


@pytest.mark.parametrize("zone", ["Nowhere/Town", ""])
def test_a_zone_that_is_none_is_said(
    dialog: CalendarDialog,
    qtbot: QtBot,
    monkeypatch: pytest.MonkeyPatch,
    tmp_path: Path,
    zone: str,
) -> None:
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "a.ics"), ""))
    dialog.zone.setCurrentText(zone)
    dialog.keep_button.click()
    qtbot.waitUntil(lambda: "time zone" in dialog.wrong.text(), timeout=WAIT_MS)
    assert list(tmp_path.iterdir()) == []


def test_an_hour_that_is_none_is_said(dialog: CalendarDialog) -> None:
    next(iter(dialog.hours.values())).setText("noon")
    dialog.keep_button.click()
    assert "no time of day" in dialog.wrong.text()


def test_weeks_the_wrong_way_round_are_said(dialog: CalendarDialog) -> None:
    dialog.first.set_value(3)
    dialog.last.set_value(2)
    dialog.keep_button.click()
    assert "comes after" in dialog.wrong.text()


def test_the_dialog_can_be_used_by_everybody(dialog: CalendarDialog) -> None:
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
