"""Every dialog that the menus open, one by one, for tests that hold all of them to a rule."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QApplication, QDialog, QFileDialog, QMessageBox, QTabWidget

from app.ui.actions import ACTIONS
from app.ui.window import Window

LEFT_OUT = {"quit"}


@contextmanager
def answered(monkeypatch: pytest.MonkeyPatch, look: Callable[[QDialog], object]) -> Iterator[None]:
    """While it lasts, a modal dialog is looked at and left; the system's own ask for nothing."""

    def leave(dialog: QDialog) -> int:
        look(dialog)
        dialog.reject()
        return int(QDialog.DialogCode.Rejected)

    with monkeypatch.context() as patch:
        for kind in (QDialog, QMessageBox):
            patch.setattr(kind, "exec", leave)
        for ask in ("getOpenFileName", "getSaveFileName"):
            patch.setattr(QFileDialog, ask, lambda *_, **__: ("", ""))
        patch.setattr(QFileDialog, "getExistingDirectory", lambda *_, **__: "")
        yield


def walk_dialogs(
    window: Window, monkeypatch: pytest.MonkeyPatch, look: Callable[[str, QDialog], object]
) -> set[str]:
    """Open every dialog, show each of its pages to `look` and close it; the classes seen."""
    seen: set[str] = set()

    def pages(dialog: QDialog) -> None:
        seen.add(type(dialog).__name__)
        dialog.show()
        QApplication.processEvents()
        look(type(dialog).__name__, dialog)
        for tabs in dialog.findChildren(QTabWidget):
            for number in range(1, tabs.count()):
                tabs.setCurrentIndex(number)
                QApplication.processEvents()
                look(f"{type(dialog).__name__}, page {number + 1}", dialog)

    with answered(monkeypatch, pages):
        for action in ACTIONS:
            if action.id in LEFT_OUT:
                continue
            window.grid.setFocus()
            window.grid.walk(0, 1)  # some are about the marked card
            if not action.text.endswith("…") or not action.enabled(window.bench):
                continue
            before = {id(one) for one in QApplication.topLevelWidgets()}
            action.run(window)
            QApplication.processEvents()
            for other in QApplication.topLevelWidgets():
                if id(other) not in before and other.isVisible() and isinstance(other, QDialog):
                    pages(other)
                    other.close()
            QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    return seen
