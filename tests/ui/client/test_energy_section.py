"""Energy in the pane follows the open week."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from app.domain.client import EnergyGoal
from app.ui.bench import Bench
from app.ui.client.energy_section import EnergySection
from app.ui.client.number_button import NumberButton
from tests.ui.client import panes
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


def texts(section: EnergySection) -> list[str]:
    """Sentences, and numbers that tell how they came about."""
    numbers = [button.text() for button in section.findChildren(NumberButton)]
    return [*panes.texts(section), *numbers]


def test_the_energy_target_follows_the_open_week(section: EnergySection, bench: Bench) -> None:
    with_client(bench, energy_goal=EnergyGoal.GAIN, kcal_now=2200.0)
    assert any(text.startswith("Target, week 1: ") for text in texts(section))
    bench.show_week(2)
    assert any(text.startswith("Target, week 3: ") for text in texts(section))
    assert not any(text.startswith("Target, week 1: ") for text in texts(section))


def test_every_number_tells_how_it_came_about_in_the_open_week(
    section: EnergySection, bench: Bench
) -> None:
    with_client(bench, energy_goal=EnergyGoal.GAIN, kcal_now=2200.0)
    bench.show_week(2)
    target, need, protein = section.findChildren(NumberButton)
    assert any(line.label == "Week 3" for line in target.working.lines)
    assert need.working.sources
    assert protein.working.title.endswith("g a day")


def test_a_referral_leaves_no_number(section: EnergySection, bench: Bench) -> None:
    with_client(bench, energy_goal=EnergyGoal.GAIN, refer=("kidney disease",))
    assert section.findChildren(NumberButton) == []
    assert not any("kcal" in text for text in texts(section))
