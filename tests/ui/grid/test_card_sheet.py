"""All fields of one card in a sheet."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QWidget

from app.domain.edits.parts import find_slot
from app.domain.effort import PercentOneRm, Rir
from app.domain.program import Field, Reps, Role
from app.ui.bench import Bench
from app.ui.grid.acts import Acts
from app.ui.grid.card_sheet import CardSheet
from tests.ui.grid import scene
from tests.ui.grid.test_acts import Standing


@pytest.fixture
def on(qapp) -> Bench:
    return scene.bench()


@pytest.fixture
def window(qtbot) -> QWidget:
    made = QWidget()
    qtbot.addWidget(made)
    return made


@pytest.fixture
def sheet(on, window) -> CardSheet:
    return opened(on, window)


def opened(on: Bench, window: QWidget, *, unit: str = "kg") -> CardSheet:
    slot = find_slot(on.desk.program, scene.slot_id(on, 0, 0))
    acts = Acts(on, Standing())
    return CardSheet(window, acts, slot, name="Back squat", timed=False, unit=unit)


def slot(on: Bench):
    return find_slot(on.desk.program, scene.slot_id(on, 0, 0))


def test_it_opens_with_what_is_kept_and_keeping_it_changes_nothing(on, sheet):
    assert (sheet.sets.edit.text(), sheet.low.edit.text(), sheet.rest.edit.text()) == (
        "4",
        "10",
        "150",
    )
    sheet.try_keep()
    assert on.desk.history.steps == ()


def test_all_fields_are_kept_as_one_step(on, sheet):
    sheet.sets.set_value(5)
    sheet.low.set_value(6)
    sheet.high.set_value(8)
    sheet.kind.setCurrentIndex(1)
    sheet.amount.set_value(80)
    sheet.rest.set_value(180)
    sheet.tempo.setText("3-0-1")
    sheet.load.set_value(82.5)
    sheet.role.setCurrentIndex(1)
    sheet.note.setText("belt on")
    sheet.try_keep()
    kept = slot(on)
    assert (kept.sets, kept.reps, kept.effort) == (5, Reps(6, 8), PercentOneRm(80))
    assert (kept.rest_s, kept.tempo, kept.load_kg) == (180, "3-0-1-0", 82.5)
    assert (kept.role, kept.note) == (Role.ASSISTANCE, "belt on")
    assert kept.pinned == frozenset(Field)
    assert [step.label for step in on.desk.history.steps] == ["Set prescription of Back squat"]


def test_an_empty_load_follows_the_tests_again(on, window):
    first = opened(on, window)
    first.load.set_value(82.5)
    first.try_keep()
    second = opened(on, window)
    assert second.load.edit.text().startswith("82")
    second.load.set_value(None)
    second.try_keep()
    assert slot(on).load_kg is None
    assert Field.LOAD not in slot(on).pinned


def test_pounds_are_read_as_pounds(on, window):
    sheet = opened(on, window, unit="lb")
    sheet.load.set_value(220.46)
    sheet.try_keep()
    assert slot(on).load_kg == pytest.approx(100, abs=0.01)


@pytest.mark.parametrize(
    ("field", "text"),
    [
        ("sets", "0"),
        ("sets", "four"),
        ("low", "0"),
        ("high", "8"),
        ("amount", "11"),
        ("rest", "9999"),
    ],
)
def test_nonsense_stands_under_its_field_and_nothing_is_kept(on, sheet, field, text):
    shown = getattr(sheet, field)
    shown.edit.setText(text)
    sheet.try_keep()
    assert shown.wrong.text()
    assert on.desk.history.steps == ()
    assert slot(on).effort == Rir(2)


def test_a_tempo_that_is_none_is_refused_with_what_is_accepted(on, sheet):
    sheet.tempo.setText("slowly")
    sheet.try_keep()
    assert "3-0-1-0" in sheet.wrong.text()
    assert on.desk.history.steps == ()
