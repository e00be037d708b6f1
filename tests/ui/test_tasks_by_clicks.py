"""The main tasks of a coach by clicks alone: no drag, no shortcut, text typed where it is asked.

Menus are gone through with the pointer as well: the bar, then the entry. A modal dialog is answered
by the clicks that the task says, at the end by the button that does what the dialog is for.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt, QThreadPool
from PySide6.QtGui import QContextMenuEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QDialog,
    QFileDialog,
    QLineEdit,
    QListWidget,
    QMenu,
    QWidget,
)
from pytestqt.qtbot import QtBot

from app.domain.program import Slot, SlotId, Span
from app.ui.actions import BY_ID
from app.ui.window import Window
from app.ui.working_popup import WorkingPopup
from tests.ui.test_tasks import click, hover, label

LEFT, RIGHT = Qt.MouseButton.LeftButton, Qt.MouseButton.RightButton
WAIT_MS = 60_000

Answer = Callable[[Any], object]


class Pointer:
    """Somebody who has nothing but the left and the right button, and letters."""

    def __init__(self, window: Window, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
        self.window, self.qtbot = window, qtbot
        self.answers: list[Answer] = []
        monkeypatch.setattr(QDialog, "exec", lambda dialog: Pointer.answer(self, dialog))

    # -- dialogs ---------------------------------------------------------------------------

    def answer(self, dialog: QDialog) -> int:
        """Do what was said of the dialog that comes up now."""
        dialog.show()
        QApplication.processEvents()
        assert self.answers, f"nothing was said of {type(dialog).__name__}"
        self.answers.pop(0)(dialog)
        assert not dialog.isVisible(), f"{type(dialog).__name__} was left open"
        return dialog.result()

    def press(self, inside: QWidget, text: str) -> None:
        """Click the button of that text."""
        (found,) = (
            one
            for one in inside.findChildren(QAbstractButton)
            if one.isVisible() and one.text().replace("&", "") == text
        )
        assert found.isEnabled(), text
        click(found)

    def keep(self, dialog: Any) -> None:
        """Click what the dialog is for, once it can be clicked."""
        self.qtbot.waitUntil(dialog.keep_button.isEnabled, timeout=WAIT_MS)
        click(dialog.keep_button)

    def kept(self, **texts: str) -> Answer:
        """Type into fields of a dialog, then click what it is for."""

        def answer(dialog: Any) -> None:
            for name, text in texts.items():
                field = getattr(dialog, name)
                edit = field if isinstance(field, QLineEdit) else field.edit
                click(edit)
                edit.clear()
                QTest.keyClicks(edit, text)
            self.keep(dialog)

        return answer

    # -- menus -----------------------------------------------------------------------------

    def menu(self, wanted: str) -> None:
        """Open a menu of the bar and click an entry."""
        bar = self.window.top.menus
        title = next(one for one in bar.actions() if one.text() == BY_ID[wanted].menu)
        click(bar, bar.actionGeometry(title).center())
        self._take(self.window.actions_by_id[wanted].text())

    def _take(self, text: str) -> None:
        menu = QApplication.activePopupWidget()
        assert isinstance(menu, QMenu), text
        entry = next(one for one in menu.actions() if one.text().startswith(text))
        assert entry.isEnabled(), text
        click(menu, menu.actionGeometry(entry).center())
        QApplication.processEvents()

    def card_menu(self, slot: Slot | SlotId, wanted: str) -> None:
        """The right button on a card, then an entry."""
        at = self.card(slot).toPoint()
        grid = self.window.grid
        QTest.mouseClick(grid, RIGHT, pos=at)
        reason = QContextMenuEvent.Reason.Mouse
        QApplication.sendEvent(grid, QContextMenuEvent(reason, at, grid.mapToGlobal(at)))
        self._take(self.window.actions_by_id[wanted].text())

    def library_menu(self, name: str, text: str) -> None:
        """Search the library, then the right button on the first row, and an entry."""
        library = self.window.library
        click(library.search)
        library.search.clear()
        QTest.keyClicks(library.search, name)
        first = library.model.index(0, 0)
        self.qtbot.waitUntil(lambda: first.data() == name)
        where = library.list.visualRect(first).center()
        QTest.mouseClick(library.list.viewport(), RIGHT, pos=where)
        menu = QContextMenuEvent(QContextMenuEvent.Reason.Mouse, where, QPoint(200, 200))
        QApplication.sendEvent(library.list.viewport(), menu)
        self._take(text)

    # -- the week --------------------------------------------------------------------------

    def card(self, slot: Slot | SlotId) -> QPointF:
        """The middle of a card."""
        grid = self.window.grid
        found = grid.layout_now.card(slot.id if isinstance(slot, Slot) else slot)
        assert found is not None
        return grid.card_rect(*found).center()

    def put_down(self, at: QPointF) -> None:
        """The pointer goes there, then a click."""
        hover(self.window.grid, at)
        assert self.window.bench.preview is not None, "nothing says what would happen"
        click(self.window.grid, at)

    def day(self, number: int) -> QPointF:
        """The ground of a day below its cards."""
        body = self.window.grid.layout_now.days[number].body
        return QPointF(body.center().x(), body.bottom() - 12)

    def week(self, number: int) -> None:
        """A click on a column of the season."""
        season = self.window.season
        click(season, season.frame().column(number).center())
        assert self.window.bench.week == number


@pytest.fixture
def pointer(full: Window, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> Pointer:
    full.bench.show_week(0)
    return Pointer(full, qtbot, monkeypatch)


@pytest.fixture
def saved(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """Where the system's own dialog says a file goes."""
    path = tmp_path / "out.pdf"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_, **__: (str(path), ""))
    return path


def cards(pointer: Pointer) -> list[Slot]:
    return list(pointer.window.bench.open_week.slots())


def on_day(pointer: Pointer, number: int) -> list[Slot]:
    return [
        s for session in pointer.window.bench.open_week.days[number].sessions for s in session.slots
    ]


def free_day(pointer: Pointer) -> int:
    return next(k for k in range(7) if not on_day(pointer, k))


# -- cards -----------------------------------------------------------------------------------------


def test_a_card_goes_to_another_day(pointer: Pointer) -> None:
    moved, to = cards(pointer)[0], free_day(pointer)
    pointer.card_menu(moved, "pick_up")
    pointer.put_down(pointer.day(to))
    assert [slot.exercise for slot in on_day(pointer, to)] == [moved.exercise]


def test_a_card_goes_to_another_week_through_the_season(pointer: Pointer) -> None:
    moved, to = cards(pointer)[0], free_day(pointer)
    count = len(cards(pointer))
    pointer.card_menu(moved, "pick_up")
    pointer.week(2)
    pointer.put_down(pointer.day(to))
    assert moved.exercise in [slot.exercise for slot in on_day(pointer, to)]
    pointer.week(0)
    assert len(cards(pointer)) == count - 1


def test_an_exercise_of_the_library_goes_onto_a_day(pointer: Pointer) -> None:
    to = free_day(pointer)
    pointer.library_menu("Front plank", "Pick up")
    pointer.put_down(pointer.day(to))
    assert len(on_day(pointer, to)) == 1
    assert "plank" in on_day(pointer, to)[0].exercise


def test_an_exercise_put_down_on_a_card_takes_its_place(pointer: Pointer) -> None:
    old = cards(pointer)[0]
    pointer.library_menu("Leg press", "Pick up")
    pointer.put_down(pointer.card(old))
    assert "leg_press" in next(s for s in cards(pointer) if s.id == old.id).exercise


def test_several_cards_are_chosen_and_moved(pointer: Pointer) -> None:
    first, second, _ = cards(pointer)[:3]
    to = free_day(pointer)
    click(pointer.window.grid, pointer.card(first))
    pointer.menu("gather")
    click(pointer.window.grid, pointer.card(second))
    assert set(pointer.window.bench.selection) == {first.id, second.id}
    pointer.card_menu(second, "pick_up")
    pointer.put_down(pointer.day(to))
    assert {s.exercise for s in on_day(pointer, to)} == {first.exercise, second.exercise}
    pointer.menu("gather")
    click(pointer.window.grid, pointer.card(cards(pointer)[0]))
    assert len(pointer.window.bench.selection) == 1


def test_a_whole_day_is_chosen_and_paired(pointer: Pointer) -> None:
    first = cards(pointer)[0]
    day = next(k for k in range(7) if first in on_day(pointer, k))
    pointer.card_menu(first, "choose_day")
    assert len(pointer.window.bench.selection) == len(on_day(pointer, day))
    pointer.card_menu(first, "pair")
    assert all(slot.pair for slot in on_day(pointer, day))


def test_a_card_is_copied_instead_of_moved(pointer: Pointer) -> None:
    copied, to = cards(pointer)[0], free_day(pointer)
    count = len(cards(pointer))
    pointer.card_menu(copied, "copy")
    click(pointer.window.grid, pointer.day(to))
    pointer.menu("paste")
    assert len(cards(pointer)) == count + 1
    assert [slot.exercise for slot in on_day(pointer, to)] == [copied.exercise]


def test_a_card_is_written_and_taken_away(pointer: Pointer) -> None:
    changed = cards(pointer)[0]
    pointer.answers.append(pointer.kept(sets="5"))
    pointer.card_menu(changed, "all_fields")
    assert next(s for s in cards(pointer) if s.id == changed.id).sets == 5
    pointer.card_menu(changed, "remove")
    assert changed.id not in [s.id for s in cards(pointer)]


def test_a_substitute_is_chosen(pointer: Pointer) -> None:
    old = cards(pointer)[0]
    pointer.answers.append(pointer.keep)
    pointer.card_menu(old, "substitute")
    assert cards(pointer)[0].exercise != old.exercise


# -- weeks and spans -------------------------------------------------------------------------------


def test_weeks_are_opened_and_the_span_is_chosen(pointer: Pointer) -> None:
    pointer.week(3)
    for span, button in pointer.window.head.buttons.items():
        click(button)
        assert pointer.window.bench.span is span
    click(pointer.window.head.buttons[Span.THIS_WEEK])
    pointer.menu("light")
    assert pointer.window.bench.open_week.light


def test_undo_and_redo_by_their_buttons(pointer: Pointer) -> None:
    before = pointer.window.bench.desk.program
    pointer.menu("light")
    after = pointer.window.bench.desk.program
    click(pointer.window.top.undo_button)
    assert pointer.window.bench.desk.program == before
    click(pointer.window.top.redo_button)
    assert pointer.window.bench.desk.program == after


def test_days_without_a_session_are_hidden(pointer: Pointer) -> None:
    rest = free_day(pointer)
    before = pointer.window.grid.layout_now.days[rest].column.width()
    pointer.menu("hide_rest_days")
    assert pointer.window.grid.layout_now.days[rest].column.width() < before


# -- dialogs ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("wanted", ["progression", "split"])
def test_the_plan_is_changed_by_a_dialog(pointer: Pointer, wanted: str) -> None:
    before = pointer.window.bench.desk.program
    done = pointer.window.bench.desk.history.done

    def answer(dialog: Any) -> None:
        if wanted == "progression":
            click(dialog.with_sets, QPoint(10, dialog.with_sets.height() // 2))
        pointer.keep(dialog)
        assert not dialog.isVisible(), dialog.wrong.text()

    pointer.answers.append(answer)
    pointer.menu(wanted)
    assert pointer.window.bench.desk.program != before
    assert pointer.window.bench.desk.history.done == done + 1


def test_a_new_program_begins(pointer: Pointer) -> None:
    before = pointer.window.bench.desk.program.id
    pointer.answers.append(pointer.keep)
    pointer.menu("new_program")
    assert pointer.window.bench.desk.program.id != before


def test_a_limitation_is_added(pointer: Pointer) -> None:
    count = len(pointer.window.bench.desk.client.limitations)

    def answer(dialog: Any) -> None:
        pointer.kept(note="told on Monday")(dialog)
        if dialog.isVisible():
            pointer.press(dialog, "Close")

    pointer.answers.append(answer)
    pointer.menu("limitation")
    assert len(pointer.window.bench.desk.client.limitations) == count + 1


def test_a_strength_test_is_entered(pointer: Pointer) -> None:
    count = len(pointer.window.bench.desk.client.tests)
    pointer.answers.append(pointer.kept(load="80", reps="6", rir="1"))
    pointer.menu("test")
    assert len(pointer.window.bench.desk.client.tests) == count + 1


def test_a_check_in_is_entered(pointer: Pointer) -> None:
    pointer.answers.append(pointer.kept(mass="66"))
    pointer.menu("check_in")
    assert any(one.mass_kg == 66 for one in pointer.window.bench.desk.diary.check_ins)


def test_a_session_was_done_as_planned(pointer: Pointer) -> None:
    before = pointer.window.bench.desk.diary

    def answer(dialog: Any) -> None:
        pointer.press(dialog, "All as planned")
        pointer.keep(dialog)
        if dialog.isVisible():
            pointer.keep(dialog)  # it asks once about loads that nothing is known of

    pointer.answers.append(answer)
    pointer.menu("results")
    assert pointer.window.bench.desk.diary != before


def test_the_next_week_is_adjusted(pointer: Pointer) -> None:
    before = pointer.window.bench.desk.work

    def answer(dialog: Any) -> None:
        pointer.press(dialog, "Take all")
        pointer.keep(dialog)

    pointer.answers.append(answer)
    pointer.menu("adjust")
    assert pointer.window.bench.desk.work != before


# -- papers and files ------------------------------------------------------------------------------


def settled(pointer: Pointer, saved: Path) -> None:
    pointer.qtbot.waitUntil(saved.exists, timeout=WAIT_MS)
    QThreadPool.globalInstance().waitForDone(WAIT_MS)
    assert saved.read_bytes().startswith(b"%PDF")


def test_a_booklet_is_made(pointer: Pointer, saved: Path) -> None:
    def answer(dialog: Any) -> None:
        pointer.keep(dialog)
        settled(pointer, saved)
        dialog.close()

    pointer.answers.append(answer)
    click(pointer.window.top.booklet)
    assert saved.exists()


def test_a_poster_is_made(pointer: Pointer, saved: Path) -> None:
    def answer(dialog: Any) -> None:
        kinds: QListWidget = dialog.kinds
        rows = [kinds.item(k).text() for k in range(kinds.count())]
        at = next(k for k, text in enumerate(rows) if "poster" in text.casefold())
        click(kinds.viewport(), kinds.visualItemRect(kinds.item(at)).center())
        pointer.keep(dialog)
        settled(pointer, saved)
        dialog.close()

    pointer.answers.append(answer)
    pointer.menu("papers")
    assert saved.exists()


def test_a_plan_file_is_saved(pointer: Pointer, saved: Path) -> None:
    pointer.menu("export_plan")
    assert saved.exists()


def test_a_program_goes_to_the_archive(pointer: Pointer) -> None:
    pointer.menu("archive_program")
    assert pointer.window.bench.desk.program.archived


# -- numbers and findings --------------------------------------------------------------------------


def test_a_number_tells_how_it_came_about(pointer: Pointer) -> None:
    bars = pointer.window.tally.bars
    click(bars, bars._place(0).center())
    (popup,) = (one for one in pointer.window.findChildren(WorkingPopup) if one.isVisible())
    popup.close()
    pointer.card_menu(cards(pointer)[0], "working")
    # off screen, the menu that goes takes the popup with it
    (popup,) = pointer.window.grid.findChildren(WorkingPopup)
    assert popup.accessibleName()


def rows_with(pointer: Pointer, *, mend: bool) -> QPoint:
    """The middle of the button of the first finding of that kind, scrolled to."""
    findings = pointer.window.findings
    if not findings.whole.isChecked():
        click(findings.whole)
    at = next(
        k
        for k, row in enumerate(findings._shown)
        if not row.reason and (findings.mend_of(row.finding) is not None) is mend
    )
    item = findings.list.item(at)
    findings.list.scrollToItem(item)
    rect = findings.list.visualItemRect(item)
    return QPoint(rect.right() - 24, rect.center().y())


def test_a_finding_is_mended_by_its_button(pointer: Pointer) -> None:
    before = pointer.window.bench.desk.program
    click(pointer.window.findings.list.viewport(), rows_with(pointer, mend=True))
    assert pointer.window.bench.desk.program != before
    assert label(pointer.window)


def test_a_finding_is_accepted_with_a_reason(pointer: Pointer) -> None:
    count = len(pointer.window.bench.desk.program.accepted)

    def answer(dialog: Any) -> None:
        (field,) = dialog.findChildren(QLineEdit)
        click(field)
        QTest.keyClicks(field, "wanted so")
        pointer.keep(dialog)

    pointer.answers.append(answer)
    click(pointer.window.findings.list.viewport(), rows_with(pointer, mend=False))
    assert len(pointer.window.bench.desk.program.accepted) == count + 1


def test_a_line_of_the_start_page_opens_what_answers_it(pointer: Pointer) -> None:
    pointer.menu("home")
    home = pointer.window.home
    pointer.answers.append(lambda dialog: dialog.reject())
    index = home.model.index(0, 0)
    who = home.model.lines[0].entry.line.id
    click(home.table.viewport(), home.table.visualRect(index).center())
    assert pointer.window.bench.desk.client.id == who
    assert pointer.window.centre.currentWidget() is not home
