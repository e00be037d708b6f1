"""The ways to the results; the diary is not read for them."""

from __future__ import annotations

from datetime import date

import pytest
from PySide6.QtWidgets import QLabel, QPushButton
from pytestqt.qtbot import QtBot

from app.domain.results import Diary, SetDone, SlotResult
from app.ui.bench import Bench
from app.ui.client import open_form
from app.ui.client.results_section import ResultsSection
from tests.ui.desks import slot, without_program


@pytest.fixture
def section(qtbot: QtBot, bench: Bench) -> ResultsSection:
    made = ResultsSection(bench)
    qtbot.addWidget(made)
    bench.changed.connect(made.work_changed)
    made.refresh()
    return made


def told(section: ResultsSection) -> str:
    return " ".join(label.text() for label in section._inner.findChildren(QLabel))


def test_the_diary_is_not_read_to_show_it(section: ResultsSection, bench: Bench) -> None:
    assert bench.desk.work.diary is None
    assert "days with results" not in told(section)


def test_days_with_results_are_counted_once_they_are_known(
    section: ResultsSection, bench: Bench
) -> None:
    squat = slot(bench)
    results = [
        SlotResult(bench.desk.program.id, squat.id, squat.exercise, day, (SetDone(60, 8),))
        for day in (date(2026, 11, 23), date(2026, 11, 30))
    ]
    bench.desk.keep_diary("Results", Diary(results=tuple(results)))
    assert "2 days with results, the last on 30 Nov 2026." in told(section)


def test_the_link_opens_the_results(
    section: ResultsSection, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[object] = []
    monkeypatch.setattr(open_form, "results", lambda bench, _window: opened.append(bench))
    section.refresh()
    link = next(b for b in section._inner.findChildren(QPushButton) if "Enter results" in b.text())
    link.click()
    assert opened == [section.bench]


def test_without_a_program_it_says_why_there_are_none(
    section: ResultsSection, bench: Bench
) -> None:
    without_program(bench)
    assert "none is open" in told(section)
    assert section._inner.findChildren(QPushButton) == []
