"""The client pane: what it says of the open client, its forms, and its folding."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QDialog, QLabel, QPushButton
from pytestqt.qtbot import QtBot

from app.domain.client import ClientId, FreeTime
from app.domain.errors import StoreError
from app.ui.bench import Bench
from app.ui.client.availability_section import AvailabilitySection
from app.ui.client.days import DaysSheet
from app.ui.client.energy import EnergySheet
from app.ui.client.equipment import EquipmentSheet
from app.ui.client.limits import LimitationSheet
from app.ui.client.pane import BELOW, RAIL, SECTIONS, WIDE, ClientPane
from app.ui.client.profile import ProfileSheet
from app.ui.client.screening import ScreeningSheet
from app.ui.client.strength_test import TestSheet
from app.ui.forms import Sheet
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.client.panes import button, texts
from tests.ui.desks import RUNA, TODAY, with_client, without_program
from tests.ui.steps import kept, refused_with, retype


@pytest.fixture
def pane(qtbot: QtBot, bench: Bench) -> ClientPane:
    made = ClientPane(bench)
    qtbot.addWidget(made)
    made.resize(WIDE, 900)
    made.show()
    return made


def test_the_pane_says_whom_the_plan_is_for(pane: ClientPane) -> None:
    told = texts(pane)
    assert told[0] == RUNA.name
    assert any("171 cm" in text and "66.4 kg" in text for text in told)
    assert RUNA.team in told
    assert "Emphasis: gluteals, quadriceps" in told
    assert any(text.startswith("Left knee: no jolts and jumps") for text in told)
    assert "No clearance needed: may carry on and progress." in told


def test_without_a_client_there_is_nothing_to_open(qtbot: QtBot, empty_bench: Bench) -> None:
    pane = ClientPane(empty_bench)
    qtbot.addWidget(pane)
    assert texts(pane) == ["No client is open"]
    assert not any(b.isVisibleTo(pane) for b in pane.findChildren(QPushButton))


def test_without_a_program_the_client_still_shows(pane: ClientPane, bench: Bench) -> None:
    without_program(bench)
    assert texts(pane)[0] == RUNA.name
    assert pane.section(AvailabilitySection).days.used == frozenset()


def test_a_changed_client_shows_at_once_and_undo_takes_it_back(
    pane: ClientPane, bench: Bench
) -> None:
    before = texts(pane)
    with_client(bench, name="Runa Aske", mass_kg=67.0)
    assert texts(pane)[0] == "Runa Aske"
    assert any("67 kg" in text for text in texts(pane))
    bench.undo()
    assert texts(pane) == before


def test_names_are_never_taken_for_markup(pane: ClientPane, bench: Bench) -> None:
    with_client(bench, name="<b>Runa</b>")
    labels = pane.sections[0].findChildren(QLabel)
    label = next(one for one in labels if one.isVisibleTo(pane))
    assert label.text() == "<b>Runa</b>"
    assert label.textFormat() is Qt.TextFormat.PlainText


def test_what_is_missing_is_asked_for(pane: ClientPane, bench: Bench) -> None:
    with_client(
        bench, screenings=(), tests=(), free=(FreeTime(),) * 7, equipment=frozenset(), emphasis=()
    )
    told = " ".join(texts(pane))
    for words in (
        "Not screened yet.",
        "No strength test yet.",
        "No days entered.",
        "Own weight only. Enter the equipment in reach.",
    ):
        assert words in told
    assert "Emphasis" not in told


@pytest.mark.parametrize(
    ("text", "title"),
    [
        ("Profile…", "Profile of Runa Estvik"),
        ("Screening…", "Screening of Runa Estvik"),
        ("Limitation…", "Limitations"),
        ("Days…", "When Runa Estvik can train"),
        ("Equipment…", "Equipment of Runa Estvik"),
        ("Enter a test…", "Strength test of Runa Estvik"),
        ("Energy…", "Energy and protein of Runa Estvik"),
    ],
)
def test_every_button_opens_its_form(
    pane: ClientPane, monkeypatch: pytest.MonkeyPatch, text: str, title: str
) -> None:
    opened: list[str] = []
    monkeypatch.setattr(Sheet, "exec", lambda sheet: opened.append(sheet.windowTitle()))
    QTest.mouseClick(button(pane, text), Qt.MouseButton.LeftButton)
    assert opened == [title]
    for sheet in pane.window().findChildren(QDialog):
        sheet.deleteLater()


def test_the_pane_folds_to_a_rail_and_a_click_opens_it(qtbot: QtBot, pane: ClientPane) -> None:
    pane.fold(True)
    assert pane.width() == RAIL
    assert pane.rail.isVisible()
    assert pane.rail.words[0] == RUNA.name
    with qtbot.waitSignal(pane.opened):
        QTest.mouseClick(pane.rail, Qt.MouseButton.LeftButton)
    assert not pane.folded
    assert pane.width() == WIDE


def sheets(bench: Bench) -> dict[str, Sheet]:
    """Every form of the pane."""
    return {
        "profile": ProfileSheet(bench, None, bench.desk.client),
        "days": DaysSheet(bench, None),
        "energy": EnergySheet(bench, None, today=TODAY),
        "equipment": EquipmentSheet(bench, None),
        "limitation": LimitationSheet(bench, None),
        "screening": ScreeningSheet(bench, None, today=TODAY),
        "test": TestSheet(bench, None, today=TODAY),
    }


def test_everybody_can_use_every_form(qtbot: QtBot, dressed: QApplication, bench: Bench) -> None:
    for name, sheet in sheets(bench).items():
        qtbot.addWidget(sheet)
        sheet.show()
        qtbot.waitExposed(sheet)
        assert unnamed(sheet) == [], name
        assert too_small(sheet) == [], name
        assert marked_up(sheet) == [], name
        sheet.close()


def test_everybody_can_use_the_pane(dressed: QApplication, pane: ClientPane) -> None:
    assert unnamed(pane) == []
    assert too_small(pane) == []
    assert marked_up(pane) == []


def test_a_form_that_the_store_cannot_keep_stays_open_with_its_sentence(
    qtbot: QtBot, bench: Bench
) -> None:
    def full(*_: object, **__: object) -> None:
        raise StoreError("The disk is full.", where="coach.weekloom", mend="Make room.")

    sheet = DaysSheet(bench, None)
    qtbot.addWidget(sheet)
    retype(sheet.fields[0][0], "33")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(bench.desk.store, "save", full)
        refused_with(sheet, bench, "coach.weekloom", "The disk is full.", "Make room.")
    kept(sheet)
    assert bench.desk.client.free[0].minutes == 33


def test_the_pane_is_made_of_its_sections_in_order(pane: ClientPane) -> None:
    assert [type(section) for section in pane.sections] == list(SECTIONS)
    tops = [section.y() for section in pane.sections]
    assert tops == sorted(tops)
    assert pane.rail.words[1:] == tuple(s.word for s in pane.sections if s.word)


def test_switching_the_client_shows_the_pane_from_its_top(pane: ClientPane, bench: Bench) -> None:
    pane.resize(WIDE, 200)
    bar = pane.scroll_area.verticalScrollBar()
    bar.setValue(80)
    with_client(bench, mass_kg=67.0)
    assert bar.value() == 80, "an edit leaves the place"
    other = replace(RUNA, id=ClientId("other"), name="Ottar Lied")
    bench.desk.add_client(other)
    assert bar.value() == 0


def test_the_foot_of_the_pane_follows_once_the_rest_is_painted(qtbot: QtBot, bench: Bench) -> None:
    pane = ClientPane(bench, foot_later=True)
    qtbot.addWidget(pane)
    foot = [section for section in pane.sections if isinstance(section, BELOW)]
    assert len(foot) == len(BELOW)
    assert not any(texts(section) for section in foot)
    assert texts(pane)[0] == RUNA.name
    pane.resize(WIDE, 900)
    pane.show()
    qtbot.waitUntil(lambda: all(section.isVisible() and texts(section) for section in foot))
    whole = ClientPane(bench)
    qtbot.addWidget(whole)
    assert texts(pane) == texts(whole)


def test_an_edit_before_that_fills_the_foot_as_well(qtbot: QtBot, bench: Bench) -> None:
    pane = ClientPane(bench, foot_later=True)
    qtbot.addWidget(pane)
    with_client(bench, name="Runa E.")
    whole = ClientPane(bench)
    qtbot.addWidget(whole)
    assert texts(pane) == texts(whole)
