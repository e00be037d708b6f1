"""Forms open for the open client, whoever asks for them."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QDialog, QWidget
from pytestqt.qtbot import QtBot

from app.ui.bench import Bench
from app.ui.charts.kinds import ACTS
from app.ui.charts.window import ChartsWindow
from app.ui.client import open_form
from app.ui.forms import Sheet
from app.ui.window import Window


@pytest.mark.parametrize(
    ("name", "title"),
    [
        ("profile", "Profile of Runa Estvik"),
        ("screening", "Screening of Runa Estvik"),
        ("limitations", "Limitations"),
        ("days", "When Runa Estvik can train"),
        ("equipment", "Equipment of Runa Estvik"),
        ("strength_test", "Strength test of Runa Estvik"),
        ("energy", "Energy and protein of Runa Estvik"),
        ("check_in", "Check-in of Runa Estvik"),
        ("check_in_weeks", "Check-ins of Runa Estvik, several weeks"),
        ("check_ins", "Check-ins of Runa Estvik"),
        ("progress_report", "Progress report of Runa Estvik"),
    ],
)
def test_a_form_opens_for_the_open_client(
    qtbot: QtBot, bench: Bench, monkeypatch: pytest.MonkeyPatch, name: str, title: str
) -> None:
    opened: list[str] = []
    monkeypatch.setattr(Sheet, "exec", lambda sheet: opened.append(sheet.windowTitle()))
    window = QWidget()
    qtbot.addWidget(window)
    getattr(open_form, name)(bench, window)
    assert opened == [title]
    for sheet in window.findChildren(QDialog):
        sheet.deleteLater()


def test_charts_open_once_and_come_back(window: Window) -> None:
    open_form.charts(window.bench, window)
    first = window.findChild(ChartsWindow)
    assert first.isVisible()
    first.close()
    open_form.charts(window.bench, window)
    assert window.findChildren(ChartsWindow) == [first]
    assert first.isVisible()
    first.close()


@pytest.mark.parametrize("key", ACTS)
def test_an_empty_chart_leads_to_the_form_that_fills_it(
    window: Window, monkeypatch: pytest.MonkeyPatch, key: str
) -> None:
    opened: list[str] = []
    monkeypatch.setattr(open_form, key, lambda *_: opened.append(key))
    open_form.charts(window.bench, window)
    shown = window.findChild(ChartsWindow)
    shown.wanted.emit(key)
    assert opened == [key]
    shown.close()
