"""A curtain before all that is personal: for a look at the screen by somebody else.

It hides the parts of every window of the program, so that neither the pixels nor what assistive
technology reads says anything of a client. It is no lock: whoever presses the key sees all again.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QObject, Qt, QTimer
from PySide6.QtGui import QGuiApplication, QKeyEvent, QKeySequence, QShortcut, QWindow
from PySide6.QtWidgets import QApplication, QPushButton, QVBoxLayout, QWidget
from shiboken6 import isValid

from app.domain.wording import tr
from app.ui.forms import Wrapped, button, plain

KEY = "F9"
"""Drops the curtain, and lifts it."""

MINUTES = "curtain minutes"
"""The setting that says after how many minutes it drops by itself; none for never."""

MOST_MINUTES = 240

_WATCHED = "watched for use"

_USE = frozenset(
    {
        QEvent.Type.KeyPress,
        QEvent.Type.MouseButtonPress,
        QEvent.Type.MouseMove,
        QEvent.Type.Wheel,
        QEvent.Type.TouchBegin,
    }
)
"""Events that say somebody is there."""


@dataclass(slots=True)
class _Covered:
    """A window behind the curtain: what was visible of it, its title, and where the focus was."""

    window: QWidget
    parts: list[QWidget]
    title: str
    focus: QWidget | None
    cloth: _Cloth


class Curtain(QObject):
    """The curtain of the program's windows.

    lifted: called when all is shown again.
    """

    def __init__(self, main: QWidget, lifted: Callable[[], object]) -> None:
        super().__init__(main)
        self._main = main
        self._lifted = lifted
        self._covered: list[_Covered] = []

    @property
    def is_down(self) -> bool:
        """True while everything is hidden."""
        return bool(self._covered)

    def drop(self) -> None:
        """Hide what every window shows."""
        if self.is_down:
            return
        while (popup := QApplication.activePopupWidget()) is not None:
            popup.close()
        for window in QApplication.topLevelWidgets():
            if window.isVisible() and window.isWindow():
                self._covered.append(self._cover(window))
        for covered in self._covered:
            if covered.window.isActiveWindow() or len(self._covered) == 1:
                covered.cloth.setFocus()

    def lift(self) -> None:
        """Show everything again, as it was."""
        covered, self._covered = self._covered, []
        for one in covered:
            if not isValid(one.window):  # what changed behind the curtain may have closed it
                continue
            one.cloth.hide()
            one.cloth.deleteLater()
            one.window.setWindowTitle(one.title)
            for part in filter(isValid, one.parts):
                part.show()
            if one.focus is not None and isValid(one.focus):
                one.focus.setFocus()
        if covered:
            self._lifted()

    def _cover(self, window: QWidget) -> _Covered:
        focus = window.focusWidget()
        parts = [
            part
            for part in window.children()
            if isinstance(part, QWidget) and part.isVisible() and not part.isWindow()
        ]
        title = window.windowTitle()
        size = window.size()
        for part in parts:
            part.hide()
        window.resize(size)
        cloth = _Cloth(window, self.lift)
        cloth.show()
        cloth.raise_()
        window.setWindowTitle("Weekloom")
        return _Covered(window, parts, title, focus, cloth)


class _Cloth(QWidget):
    """What is seen instead: a few words and the button that lifts it."""

    def __init__(self, window: QWidget, lift: Callable[[], object]) -> None:
        super().__init__(window)
        self.setAutoFillBackground(True)
        self.setAccessibleName(tr("What is personal is hidden"))
        column = QVBoxLayout(self)
        column.addStretch(2)
        title = plain(tr("What is personal is hidden"), step="title")
        column.addWidget(title, alignment=Qt.AlignmentFlag.AlignHCenter)
        about = Wrapped(tr("All edits are kept. This is a curtain, not a lock."))
        about.setAlignment(Qt.AlignmentFlag.AlignHCenter)
        column.addWidget(about)
        self.button: QPushButton = button(tr("Show it again"), lift, primary=True)
        column.addWidget(self.button, alignment=Qt.AlignmentFlag.AlignHCenter)
        column.addStretch(3)
        QShortcut(QKeySequence(KEY), self).activated.connect(lift)
        self.setFocusProxy(self.button)
        self.setGeometry(window.rect())
        window.installEventFilter(self)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        event.accept()  # Esc must not close the dialog that is behind

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() == QEvent.Type.Resize and isinstance(watched, QWidget):
            self.setGeometry(watched.rect())
        return False


class Idle(QObject):
    """Calls `away` once nobody has used the program for some minutes.

    Watches the windows themselves, not every event of the program: that would slow each repaint.
    """

    def __init__(self, parent: QObject, away: Callable[[], object]) -> None:
        super().__init__(parent)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(away)
        application = QGuiApplication.instance()
        assert isinstance(application, QGuiApplication)
        application.focusWindowChanged.connect(self._watch)

    def set_minutes(self, minutes: int) -> None:
        """Wait so many minutes from now on; 0 for ever."""
        self._timer.stop()
        self._timer.setInterval(minutes * 60_000)
        if minutes:
            self._timer.start()
            for window in QGuiApplication.topLevelWindows():
                self._watch(window)

    @property
    def minutes(self) -> int:
        """How long it waits; 0 for ever."""
        return self._timer.interval() // 60_000

    def _watch(self, window: QWindow | None) -> None:
        if window is None or not self.minutes or window.property(_WATCHED):
            return
        window.setProperty(_WATCHED, True)
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in _USE and self.minutes:
            self._timer.start()
        return False
