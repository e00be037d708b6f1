"""Energy in the pane follows the open week."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from app.domain.client import EnergyGoal
from app.ui.bench import Bench
from app.ui.client.energy_section import EnergySection
from tests.ui.client.panes import texts
from tests.ui.desks import with_client


@pytest.fixture
def section(qtbot: QtBot, bench: Bench) -> EnergySection:
    made = EnergySection(bench)
    qtbot.addWidget(made)
    made.resize(252, 400)
    bench.changed.connect(made.work_changed)
    bench.week_shown.connect(lambda _week: made.show_week())
    made.refresh()
    made.show()
    return made


def test_the_energy_target_follows_the_open_week(section: EnergySection, bench: Bench) -> None:
    with_client(bench, energy_goal=EnergyGoal.GAIN, kcal_now=2200.0)
    assert any(text.startswith("Target, week 1: ") for text in texts(section))
    bench.show_week(2)
    assert any(text.startswith("Target, week 3: ") for text in texts(section))
    assert not any(text.startswith("Target, week 1: ") for text in texts(section))
