"""The last resort: what nobody caught goes to the log, and a plain sentence to the coach."""

from __future__ import annotations

import logging
import logging.handlers
import os
import sys
import threading
import traceback
from io import TextIOWrapper
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, cast

from platformdirs import user_state_path
from PySide6.QtCore import QMessageLogContext, Qt, QtMsgType, qInstallMessageHandler
from PySide6.QtWidgets import QApplication

from app.domain.errors import CoachError
from app.domain.wording import tr

if TYPE_CHECKING:
    from PySide6.QtWidgets import QMessageBox

log = logging.getLogger(__name__)

_telling: list[QMessageBox] = []

_LEVELS = {
    QtMsgType.QtDebugMsg: logging.DEBUG,
    QtMsgType.QtInfoMsg: logging.INFO,
    QtMsgType.QtWarningMsg: logging.WARNING,
    QtMsgType.QtCriticalMsg: logging.ERROR,
    QtMsgType.QtFatalMsg: logging.CRITICAL,
}


class PrivateLog(logging.handlers.RotatingFileHandler):
    """A log that rotates; each of its files is the owner's alone from its first byte."""

    def _open(self) -> TextIOWrapper:
        handle = os.open(self.baseFilename, os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600)
        os.chmod(self.baseFilename, 0o600)  # noqa: PTH101  # one from an earlier version
        return cast("TextIOWrapper", os.fdopen(handle, self.mode, encoding=self.encoding))


def log_file() -> Path:
    """Where the log is written."""
    return user_state_path("weekloom", appauthor=False) / "weekloom.log"


def install() -> None:
    """Catch what nobody caught, and write a log that rotates where one can be written."""
    sys.excepthook = caught
    threading.excepthook = _caught_in_thread
    path = log_file()
    try:
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        handler = PrivateLog(path, maxBytes=500_000, backupCount=3, encoding="utf-8")
    except OSError:
        return  # a program without a log is better than none
    handler.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(name)s %(message)s"))
    root = logging.getLogger()
    root.setLevel(logging.INFO)
    root.addHandler(handler)
    qInstallMessageHandler(_from_qt)


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
