"""The estimates of the pane, each with its working."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QPushButton
from pytestqt.qtbot import QtBot

from app.domain.loads import one_rep_max_of
from app.ui.bench import Bench
from app.ui.client.strength_section import StrengthSection
from app.ui.working_popup import WorkingPopup
from tests.ui.client.panes import buttons, texts
from tests.ui.desks import with_client


@pytest.fixture
def section(qtbot: QtBot, bench: Bench) -> StrengthSection:
    made = StrengthSection(bench)
    qtbot.addWidget(made)
    made.resize(252, 400)
    bench.changed.connect(made.work_changed)
    bench.week_shown.connect(lambda _week: made.show_week())
    made.refresh()
    made.show()
    return made


def test_every_test_shows_its_estimate_and_its_working(
    section: StrengthSection, bench: Bench
) -> None:
    client = bench.desk.client
    for test in client.tests:
        exercise = bench.desk.catalogue[test.exercise]
        estimate = one_rep_max_of(exercise, client)
        value = next(
            b
            for b in section.findChildren(QPushButton)
            if b.accessibleName().startswith(f"{exercise.name}, ")
        )
        assert float(value.text()) == pytest.approx(estimate.median, abs=0.5)
        QTest.mouseClick(value, Qt.MouseButton.LeftButton)
        (popup,) = (p for p in section.findChildren(WorkingPopup) if p.isVisible())
        assert any("Sources: " in label.text() for label in popup.findChildren(QLabel))
        popup.close()


def test_of_several_tests_of_an_exercise_the_newest_counts(
    section: StrengthSection, bench: Bench
) -> None:
    old = bench.desk.client.tests[0]
    newer = replace(old, on=old.on.replace(month=11), load_kg=100)
    with_client(bench, tests=(newer, *bench.desk.client.tests))
    names = [
        b.accessibleName() for b in buttons(section) if "show the working" in b.accessibleName()
    ]
    assert len(names) == len({test.exercise for test in bench.desk.client.tests})
    estimate = one_rep_max_of(bench.desk.catalogue[old.exercise], bench.desk.client)
    assert any(f"{estimate.median:.0f} kg" in name for name in names)


def test_old_tests_and_guesses_are_marked(section: StrengthSection, bench: Bench) -> None:
    today = section.today
    old = replace(bench.desk.client.tests[0], on=today - timedelta(days=120))
    guess = replace(bench.desk.client.tests[1], on=today, guessed_from=old.exercise)
    with_client(bench, tests=(old, guess))
    told = texts(section)
    assert "old" in told
    assert "guess" in told
    with_client(bench, tests=(replace(old, on=today),))
    assert "old" not in texts(section)
