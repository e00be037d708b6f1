"""A mass is typed in the client's unit and is kg to whoever asks."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from pytestqt.qtbot import QtBot

from app.domain.errors import CoachError
from app.ui.mass_field import MassField
from tests.ui.steps import retype


def field(qtbot: QtBot, units: str) -> MassField:
    made = MassField("Body mass", low=25, high=350, units=units, optional=True)
    qtbot.addWidget(made)
    return made


@pytest.mark.parametrize(("units", "kg"), [("kg", 154.0), ("lb", 69.853)])
def test_what_is_typed_is_kg(qtbot: QtBot, units: str, kg: float) -> None:
    made = field(qtbot, units)
    retype(made, "154")
    assert made.value() == pytest.approx(kg, abs=0.001)
    retype(made, "")
    assert made.value() is None


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.floats(25, 350), st.sampled_from(["kg", "lb"]))
def test_what_nobody_types_over_comes_back_as_it_was(qtbot: QtBot, kg: float, units: str) -> None:
    made = field(qtbot, units)
    made.set_value(kg)
    assert made.value() == kg


def test_limits_are_told_in_the_unit(qtbot: QtBot) -> None:
    made = field(qtbot, "lb")
    retype(made, "20")
    with pytest.raises(CoachError, match="20 is out of range. Enter 55.12 to 771.62"):
        made.value()
    made.set_low_kg(5)
    assert made.value() == pytest.approx(9.07, abs=0.01)
