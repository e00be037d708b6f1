"""Who the plan is for, as the pane says it."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from app.ui.bench import Bench
from app.ui.client.person_section import PersonSection
from tests.ui.client.panes import texts
from tests.ui.desks import RUNA, with_client


@pytest.fixture
def section(qtbot: QtBot, bench: Bench) -> PersonSection:
    made = PersonSection(bench)
    qtbot.addWidget(made)
    made.resize(252, 400)
    bench.changed.connect(made.work_changed)
    bench.week_shown.connect(lambda _week: made.show_week())
    made.refresh()
    made.show()
    return made


def test_name_size_status_team_and_emphasis_are_said(section: PersonSection) -> None:
    name, line, team, emphasis = texts(section)
    assert name == RUNA.name
    assert "171 cm" in line
    assert "66.4 kg" in line
    assert team == RUNA.team
    assert emphasis == "Emphasis: gluteals, quadriceps"


def test_what_is_not_known_leaves_no_gap(section: PersonSection, bench: Bench) -> None:
    with_client(bench, team="", emphasis=(), height_cm=None, mass_kg=None, born=None)
    name, line = texts(section)
    assert name == RUNA.name
    assert line.startswith("intermediate")
