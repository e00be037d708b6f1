"""The profile: what is typed is kept as one step, what is not touched stays as it was."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from hypothesis import HealthCheck, assume, given, settings
from PySide6.QtCore import QLocale, QPoint, QPointF, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.domain.client import Client, Goal, Sex, Status
from app.domain.exercise import Muscle
from app.ui.bench import Bench
from app.ui.client.profile import ProfileSheet
from app.ui.client.status_sheet import StatusSheet
from app.ui.words import qdate
from tests import strategies
from tests.ui.desks import with_client
from tests.ui.steps import choose, kept, nothing_kept, one_step, refused_with, retype


@pytest.fixture
def sheet(qtbot: QtBot, bench: Bench) -> ProfileSheet:
    made = ProfileSheet(bench, None, bench.desk.client)
    qtbot.addWidget(made)
    return made


def test_what_is_entered_is_kept_as_one_step(sheet: ProfileSheet, bench: Bench) -> None:
    retype(sheet.name, "  Runa   Estvik-Aske ")
    retype(sheet.height_field, "172,5")
    retype(sheet.mass, "67.25")
    retype(sheet.years, "4")
    choose(sheet.status, "advanced")
    choose(sheet.sex, "average")
    choose(sheet.goal, "strength")
    choose(sheet.emphasis.boxes[0], "Hamstrings")
    sheet.emphasis.boxes[1].setCurrentIndex(0)
    with one_step(bench, "Change the profile"):
        kept(sheet)
    client = bench.desk.client
    assert client.name == "Runa Estvik-Aske"
    assert (client.height_cm, client.mass_kg, client.trained_years) == (172.5, 67.25, 4)
    assert (client.status, client.sex, client.goal) == (Status.ADVANCED, Sex.AVERAGE, Goal.STRENGTH)
    assert client.emphasis == (Muscle.HAMSTRINGS,)


def test_keeping_an_untouched_profile_makes_no_step(sheet: ProfileSheet, bench: Bench) -> None:
    with nothing_kept(bench):
        kept(sheet)


@pytest.mark.parametrize("language", ["C", "en_US", "de_DE", "fr_FR", "de_CH", "sv_SE", "ar_EG"])
def test_an_untouched_profile_stays_whatever_the_platform_writes_numbers_like(
    qtbot: QtBot, bench: Bench, language: str
) -> None:
    QLocale.setDefault(QLocale(language))
    client = replace(bench.desk.client, height_cm=171.4375, mass_kg=66.41, trained_years=2.5)
    sheet = ProfileSheet(bench, None, client)
    qtbot.addWidget(sheet)
    assert sheet.result_client() == client


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=25)
@given(client=strategies.clients)
def test_an_untouched_profile_is_the_same_client(bench: Bench, client: Client) -> None:
    today = date.today()  # noqa: DTZ011 - the sheet judges birth dates by the machine's day
    assume(client.born is None or 0 <= (today - client.born).days <= 110 * 366)
    days = [*(t.on for t in client.tests), *(s.on for s in client.screenings)]
    assume(client.born is None or client.born <= min(days, default=client.born))
    client = replace(client, name=" ".join(client.name.split()))
    sheet = ProfileSheet(bench, None, client)
    assert sheet.result_client() == client
    sheet.deleteLater()


@pytest.mark.parametrize(
    ("field", "typed", "parts"),
    [
        ("height_field", "17", ("Stature", "17", "out of range", "Enter 100 to 250.")),
        ("mass", "sixty", ("Body mass", "'sixty'", "is not a number", "Enter 25 to 350.")),
        ("mass", "nan", ("Body mass", "is not a number")),
        ("years", "-1", ("Years of training", "out of range", "Enter 0 to 80.")),
    ],
)
def test_a_wrong_number_is_named_with_what_is_right(
    sheet: ProfileSheet, bench: Bench, field: str, typed: str, parts: tuple[str, ...]
) -> None:
    number = getattr(sheet, field)
    retype(number, typed)
    refused_with(sheet, bench, *parts)
    assert number.is_wrong
    retype(number, "100")
    assert not number.is_wrong


def test_nobody_goes_without_a_name(sheet: ProfileSheet, bench: Bench) -> None:
    retype(sheet.name, "   ")
    refused_with(sheet, bench, "The client has no name.", "Give it one")


@pytest.mark.parametrize("born", [date(1900, 5, 1), date(2099, 1, 1)])
def test_a_birth_date_lies_within_a_life(sheet: ProfileSheet, bench: Bench, born: date) -> None:
    sheet.born.edit.setDate(qdate(born))
    refused_with(sheet, bench, f"Birth date {born}", "untick 'known'")
    sheet.born.known.setChecked(False)
    kept(sheet)
    assert bench.desk.client.born is None


def test_an_emptied_size_is_unknown_again(sheet: ProfileSheet, bench: Bench) -> None:
    retype(sheet.height_field, "")
    retype(sheet.mass, "")
    with one_step(bench, "Change the profile"):
        kept(sheet)
    assert bench.desk.client.height_cm is None
    assert bench.desk.client.mass_kg is None


def test_more_muscles_of_emphasis_than_usual_are_all_shown_and_kept(
    qtbot: QtBot, bench: Bench
) -> None:
    many = (Muscle.GLUTEALS, Muscle.CALVES, Muscle.CHEST, Muscle.BICEPS, Muscle.TRICEPS)
    with_client(bench, emphasis=many)
    sheet = ProfileSheet(bench, None, bench.desk.client)
    qtbot.addWidget(sheet)
    assert sheet.emphasis.chosen() == many
    choose(sheet.emphasis.boxes[4], "none")
    kept(sheet)
    assert bench.desk.client.emphasis == many[:4]


def test_a_new_client_is_left_to_whoever_asked(qtbot: QtBot, bench: Bench) -> None:
    sheet = ProfileSheet(bench, None, None)
    qtbot.addWidget(sheet)
    assert sheet.name.text() == ""
    refused_with(sheet, bench, "has no name")
    retype(sheet.name, "Jorunn Aske")
    with nothing_kept(bench):
        kept(sheet)
    assert sheet.client.name == "Jorunn Aske"
    assert sheet.client.id != bench.desk.client.id


def test_two_new_clients_have_ids_of_their_own(qtbot: QtBot, bench: Bench) -> None:
    sheets = [ProfileSheet(bench, None, None) for _ in range(2)]
    for sheet in sheets:
        qtbot.addWidget(sheet)
    assert sheets[0].client.id != sheets[1].client.id


def test_the_wheel_changes_no_number(sheet: ProfileSheet) -> None:
    before = sheet.mass.edit.text()
    _wheel(sheet.mass.edit)
    assert sheet.mass.edit.text() == before


def test_every_field_has_a_name_for_assistive_technology(sheet: ProfileSheet) -> None:
    for at in range(sheet.form.rowCount()):
        field = sheet.form.itemAt(at, sheet.form.ItemRole.FieldRole).widget()
        inner = field.focusProxy() or field
        assert inner.accessibleName() or field.accessibleName()


def _wheel(widget: QWidget) -> None:
    at = QPointF(5, 5)
    event = QWheelEvent(
        at,
        widget.mapToGlobal(at),
        QPoint(),
        QPoint(0, 120),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(widget, event)


def test_a_mass_in_the_other_unit_is_questioned_and_changed_with_one_click(
    sheet: ProfileSheet, bench: Bench
) -> None:
    sheet.show()
    retype(sheet.mass, "146")
    sheet.mass.edit.editingFinished.emit()
    assert sheet.doubt.isVisible()
    refused_with(sheet, bench, "A question waits", "tick that it is right")
    assert sheet.doubt.question.text().startswith("Is 146 kg right")
    assert sheet.mass.edit.text() == "146", "nothing is changed without being asked"
    QTest.mouseClick(sheet.doubt.change_button, Qt.MouseButton.LeftButton)
    assert sheet.mass.value() == 66.2
    assert not sheet.doubt.isVisible()
    kept(sheet)
    assert bench.desk.client.mass_kg == 66.2


def test_a_questioned_mass_that_is_right_is_kept(sheet: ProfileSheet, bench: Bench) -> None:
    retype(sheet.mass, "146")
    refused_with(sheet, bench, "A question waits")
    sheet.doubt.right.setChecked(True)
    kept(sheet)
    assert bench.desk.client.mass_kg == 146


def test_a_birth_date_lies_before_what_was_noted(sheet: ProfileSheet, bench: Bench) -> None:
    sheet.born.known.setChecked(True)
    sheet.born.edit.setDate(qdate(date(2026, 10, 3)))
    refused_with(sheet, bench, "Birth date 3 Oct 2026", "2 Oct 2026 lies before it")


def test_the_questions_decide_the_status(
    sheet: ProfileSheet, monkeypatch: pytest.MonkeyPatch
) -> None:
    def answer(asked: StatusSheet) -> int:
        retype(asked.years_trained, "0.3")
        asked.try_keep()
        return asked.result()

    monkeypatch.setattr(StatusSheet, "exec", answer)
    sheet.decide_status()
    assert sheet.result_client().status is Status.NOVICE
    assert sheet.result_client().trained_years == 0.3
