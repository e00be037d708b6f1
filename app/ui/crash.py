"""The last resort: what nobody caught goes to the log, and a plain sentence to the coach."""

from __future__ import annotations

import logging
import sys
import threading
import traceback
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING

from platformdirs import user_state_path
from PySide6.QtCore import QMessageLogContext, Qt, QtMsgType, qInstallMessageHandler
from PySide6.QtWidgets import QApplication

from app.domain.errors import CoachError
from app.domain.wording import tr

if TYPE_CHECKING:
    from PySide6.QtWidgets import QMessageBox

    from app.ui.private_log import PrivateLog

log = logging.getLogger(__name__)

_telling: list[QMessageBox] = []

_LEVELS = {
    QtMsgType.QtDebugMsg: logging.DEBUG,
    QtMsgType.QtInfoMsg: logging.INFO,
    QtMsgType.QtWarningMsg: logging.WARNING,
    QtMsgType.QtCriticalMsg: logging.ERROR,
    QtMsgType.QtFatalMsg: logging.CRITICAL,
}


def log_file() -> Path:
    """Where the log is written."""
    return user_state_path("weekloom", appauthor=False) / "weekloom.log"


class LateLog(logging.Handler):
    """Holds what is logged while the window starts, and writes it once `open_file` is called.

    What is worse than news may be the last of this program: it opens the file at once.
    """

    def __init__(self) -> None:
        super().__init__()
        self._held: list[logging.LogRecord] | None = []
        self._to: PrivateLog | None = None

    def emit(self, record: logging.LogRecord) -> None:
        """Write the record, or hold it."""
        if self._held is None:
            if self._to is not None:
                self._to.handle(record)
            return
        self._held.append(record)
        if record.levelno >= logging.WARNING:
            self.open_file()

    def open_file(self) -> None:
        """Write what was held, and from now on all, where a log can be written."""
        if self._held is None:
            return
        from app.ui.private_log import PrivateLog  # brings in more than the first picture needs

        held, self._held = self._held, None
        path = log_file()
        try:
            path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            self._to = PrivateLog(path, maxBytes=500_000, backupCount=3, encoding="utf-8")
        except OSError:
            return  # a program without a log is better than none
        self._to.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(name)s %(message)s"))
        for record in held:
            self._to.handle(record)

    def close(self) -> None:
        if self._to is not None:
            self._to.close()
        super().close()


def install() -> LateLog:
    """Catch what nobody caught, and log it with all else; the log, whose file is opened later."""
    sys.excepthook = caught
    threading.excepthook = _caught_in_thread
    late = LateLog()
    root = logging.getLogger()
    root.setLevel(logging.INFO)
    root.addHandler(late)
    qInstallMessageHandler(_from_qt)
    return late


def _caught_in_thread(args: threading.ExceptHookArgs) -> None:
    error = args.exc_value or args.exc_type()
    log.error("in a thread\n%s", account(error, args.exc_traceback))


def account(error: BaseException, trace: TracebackType | None) -> str:
    """Where an error came from, without its words: those may name a client."""
    lines = []
    at: BaseException | None = error
    told: set[int] = set()
    while at is not None and id(at) not in told:
        told.add(id(at))
        frames = "".join(traceback.format_tb(at.__traceback__ or (trace if at is error else None)))
        lines.append(f"{frames}{type(at).__module__}.{type(at).__qualname__}")
        at = at.__cause__ or (None if at.__suppress_context__ else at.__context__)
    return tr("\nwhile this was dealt with:\n").join(reversed(lines))


def _from_qt(kind: QtMsgType, _context: QMessageLogContext, text: str) -> None:
    log.log(_LEVELS.get(kind, logging.WARNING), "Qt: %s", text)


def caught(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
    """Log an error of ours and tell the coach that every kept edit is safe."""
    if issubclass(kind, KeyboardInterrupt):
        sys.__excepthook__(kind, error, trace)
        return
    log.error("not caught\n%s", account(error, trace))
    if QApplication.instance() is None or _telling:
        return  # one box is enough, however often a painter fails behind it
    from PySide6.QtWidgets import QMessageBox

    box = QMessageBox()
    box.setWindowTitle("Weekloom")
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setIcon(QMessageBox.Icon.Warning)
    box.setText(tr("Something in Weekloom went wrong. Every edit up to the last one is kept."))
    box.setInformativeText(
        tr(
            "You can go on. If it happens again, send the last lines of {log_file} to us.",
            log_file=log_file(),
        )
    )
    if isinstance(error, CoachError):  # the file went away while it was read, say
        box.setText(error.sentence)
        box.setInformativeText("")
    _telling.append(box)
    try:
        box.exec()
    finally:
        _telling.clear()
