"""Screening and limitations, as the pane says them."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from app.ui.bench import Bench
from app.ui.client.screening_section import ScreeningSection
from tests.ui.client.panes import texts
from tests.ui.desks import with_client


@pytest.fixture
def section(qtbot: QtBot, bench: Bench) -> ScreeningSection:
    made = ScreeningSection(bench)
    qtbot.addWidget(made)
    made.resize(252, 400)
    bench.changed.connect(made.work_changed)
    bench.week_shown.connect(lambda _week: made.show_week())
    made.refresh()
    made.show()
    return made


def test_the_outcome_and_the_limitations_are_said(section: ScreeningSection) -> None:
    told = texts(section)
    assert "No clearance needed: may carry on and progress." in told
    assert any(text.startswith("Left knee: no jolts and jumps") for text in told)


def test_without_a_screening_the_questions_are_asked_for(
    section: ScreeningSection, bench: Bench
) -> None:
    with_client(bench, screenings=(), limitations=())
    assert texts(section)[-1].startswith("Not screened yet.")
