"""What a test says of steps: exactly one was kept, or nothing was."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QLineEdit

from app.ui.bench import Bench
from app.ui.forms import NumberField, Sheet


@contextmanager
def one_step(bench: Bench, label: str) -> Iterator[None]:
    """What is done inside keeps one step of that label; undo and redo are its two ends."""
    desk = bench.desk
    before, done = desk.work, desk.history.done
    yield
    after = desk.work
    assert desk.history.done == done + 1
    assert desk.history.undoable.label == label
    assert desk.undo().label == label
    assert desk.work == before
    desk.redo()
    assert desk.work == after


@contextmanager
def nothing_kept(bench: Bench) -> Iterator[None]:
    """What is done inside leaves client, program and history as they were."""
    before, history = bench.desk.work, bench.desk.history
    yield
    assert bench.desk.work is before
    assert bench.desk.history == history


def refused_with(sheet: Sheet, bench: Bench, *parts: str) -> None:
    """Keeping is refused: the sheet stays open, says all `parts`, and nothing is kept."""
    with nothing_kept(bench):
        sheet.try_keep()
    assert sheet.result() == 0
    assert not sheet.wrong.isHidden()
    for part in parts:
        assert part in sheet.wrong.text()


def kept(sheet: Sheet) -> None:
    """Keeping closes the sheet."""
    sheet.try_keep()
    assert sheet.wrong.text() == ""
    assert sheet.result() == Sheet.DialogCode.Accepted


def retype(field: NumberField | QLineEdit, text: str) -> None:
    """Write over what stands in a field, key by key."""
    edit = field.edit if isinstance(field, NumberField) else field
    edit.setFocus()
    edit.selectAll()
    QTest.keyClick(edit, Qt.Key.Key_Delete)
    QTest.keyClicks(edit, text)


def choose(box: QComboBox, text: str) -> None:
    """Choose the entry that begins with `text`."""
    at = next(k for k in range(box.count()) if box.itemText(k).startswith(text))
    box.setCurrentIndex(at)
