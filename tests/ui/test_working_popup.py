"""The account a number gives of itself, in a sheet beside it."""

from __future__ import annotations

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtWidgets import QLabel, QWidget
from pytestqt.qtbot import QtBot

from app.domain.working import Line, Working
from app.ui import accounts
from app.ui.bench import Bench
from app.ui.working_popup import in_lines, show_account, show_working, sources_text
from tests.ui.desks import slot

ACCOUNT = Working(
    "About 105 kg",
    "one repetition",
    (Line("tested", "90 kg × 5", "2 Oct"), Line("<b>median</b>", "105 kg")),
    ("common practice",),
)


@pytest.fixture
def host(qtbot: QtBot) -> QWidget:
    made = QWidget()
    qtbot.addWidget(made)
    made.resize(400, 300)
    made.show()
    return made


def test_it_shows_title_lines_and_sources_as_plain_text(host: QWidget, bench: Bench) -> None:
    popup = show_working(bench, ACCOUNT, QPoint(10, 10), host, extra="Range 12–20: so")
    labels = popup.findChildren(QLabel)
    texts = [label.text() for label in labels]
    for text in (
        "About 105 kg",
        "tested",
        "90 kg × 5",
        "2 Oct",
        "<b>median</b>",
        "Range 12–20: so",
    ):
        assert text in texts
    assert "Sources: common practice" in texts
    assert all(label.textFormat() is Qt.TextFormat.PlainText for label in labels)
    assert popup.accessibleName() == "How About 105 kg came about"
    assert "tested: 90 kg × 5 2 Oct" in popup.accessibleDescription()
    popup.close()


def test_it_stays_on_the_screen(host: QWidget, bench: Bench) -> None:
    screen = host.screen().availableGeometry()
    for corner in (screen.bottomRight(), screen.topLeft() - QPoint(50, 0)):
        popup = show_working(bench, ACCOUNT, corner, host)
        assert screen.contains(popup.geometry())
        popup.close()


def test_escape_closes_it_for_good(qtbot: QtBot, host: QWidget, bench: Bench) -> None:
    popup = show_working(bench, ACCOUNT, QPoint(10, 10), host)
    with qtbot.waitSignal(popup.destroyed, timeout=1000):
        qtbot.keyClick(popup, Qt.Key.Key_Escape)


def test_sources_are_named_short_and_unknown_ones_left_out(bench: Bench) -> None:
    key, reference = next(iter(bench.shelf.references.items()))
    assert sources_text(bench, ()) == ""
    assert sources_text(bench, (key, "value from memory", "nobody1900")) == (
        f"Sources: {reference.short}, value from memory"
    )


def test_an_account_opens_below_what_it_is_about_and_takes_the_keyboard(host, bench) -> None:
    account = accounts.of_card(bench, slot(bench).id)
    popup = show_account(bench, account, QRect(10, 10, 100, 40), host)
    assert "kg" in popup.accessibleName()
    assert popup.y() >= host.mapToGlobal(QPoint(10, 50)).y()
    assert popup.hasFocus()
    assert account.extra in popup.accessibleDescription()
    popup.close()


def test_a_value_that_lists_many_is_told_in_lines() -> None:
    assert in_lines("105 kg") == "105 kg"
    assert in_lines("20 kg × 8, 37.5 kg × 5, 52.5 kg × 3") == "20 kg × 8, 37.5 kg × 5,\n52.5 kg × 3"


def test_every_line_has_the_height_of_its_letters(dressed, host: QWidget, bench: Bench) -> None:
    popup = show_working(bench, ACCOUNT, QPoint(10, 10), host)
    for label in popup.findChildren(QLabel):
        assert label.height() >= label.fontMetrics().height(), label.text()
    popup.close()
