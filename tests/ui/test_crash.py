"""The last resort: one box, a log that says where and never of whom, and a program that goes on."""

from __future__ import annotations

import logging
import logging.handlers
import sys
import threading
from collections.abc import Iterator
from pathlib import Path
from types import TracebackType

import pytest
from PySide6.QtCore import qInstallMessageHandler, qWarning
from PySide6.QtWidgets import QMessageBox
from pytestqt.qtbot import QtBot

from app.domain.errors import CoachError
from app.ui import crash
from tests.ui.desks import RUNA

SECRET = f"{RUNA.name}, 66.4 kg, told of her left knee"


class Told:
    """The boxes that were shown, each with what it said."""

    def __init__(self) -> None:
        self.texts: list[str] = []

    def show(self, box: QMessageBox) -> int:
        self.texts.append(f"{box.text()} {box.informativeText()}")
        return 0


@pytest.fixture
def told(qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> Told:
    made = Told()

    def show(box: QMessageBox) -> int:
        return made.show(box)

    monkeypatch.setattr(QMessageBox, "exec", show)
    return made


def broken() -> tuple[type[BaseException], BaseException, TracebackType | None]:
    try:
        try:
            raise KeyError(SECRET)
        except KeyError as error:
            raise ValueError(f"no card for {SECRET}") from error
    except ValueError as error:
        return type(error), error, error.__traceback__


def test_the_coach_is_told_that_edits_are_kept_and_where_the_log_lies(told: Told) -> None:
    crash.caught(*broken())
    (text,) = told.texts
    assert "Every edit up to the last one is kept." in text
    assert str(crash.log_file()) in text
    assert "Traceback" not in text


def test_what_a_coach_can_mend_is_said_in_its_own_words(told: Told) -> None:
    error = CoachError("The disk reported an error.", where="coach.db", mend="Check the disk.")
    crash.caught(type(error), error, None)
    assert told.texts == [f"{error.sentence} "]


def test_the_log_says_where_and_not_of_whom(told: Told, caplog: pytest.LogCaptureFixture) -> None:
    crash.caught(*broken())
    (record,) = caplog.records
    assert record.levelno == logging.ERROR
    assert "builtins.ValueError" in caplog.text
    assert "builtins.KeyError" in caplog.text
    assert "in broken" in caplog.text
    for word in ("Runa", "Estvik", "66.4", "knee"):
        assert word not in caplog.text
    assert "Runa" not in told.texts[0]


def test_an_error_in_a_thread_is_logged_without_its_words(
    told: Told, caplog: pytest.LogCaptureFixture
) -> None:
    kind, error, trace = broken()
    crash._caught_in_thread(threading.ExceptHookArgs((kind, error, trace, None)))
    assert "in a thread" in caplog.text
    assert "builtins.ValueError" in caplog.text
    assert "Runa" not in caplog.text
    assert not told.texts


def test_an_error_that_is_its_own_cause_is_told_once() -> None:
    error = ValueError(SECRET)
    error.__cause__ = error
    assert crash.account(error, None).count("builtins.ValueError") == 1


def test_a_cause_that_was_put_aside_is_left_out() -> None:
    _, error, trace = broken()
    error.__cause__, error.__suppress_context__ = None, True
    assert "KeyError" not in crash.account(error, trace)


def test_while_one_box_stands_no_second_is_shown(
    qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    shown: list[str] = []

    def show(box: QMessageBox) -> int:
        shown.append(box.text())
        crash.caught(*broken())  # a painter behind the box fails again
        return 0

    monkeypatch.setattr(QMessageBox, "exec", show)
    crash.caught(*broken())
    assert len(shown) == 1
    assert len(caplog.records) == 2
    crash.caught(*broken())
    assert len(shown) == 2


def test_ctrl_c_is_no_fault(told: Told, monkeypatch: pytest.MonkeyPatch) -> None:
    passed_on: list[type[BaseException]] = []
    monkeypatch.setattr(sys, "__excepthook__", lambda kind, *_: passed_on.append(kind))
    crash.caught(KeyboardInterrupt, KeyboardInterrupt(), None)
    assert passed_on == [KeyboardInterrupt]
    assert not told.texts


@pytest.fixture
def installed(qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """The last resort with its log in a folder of the test, and everything as before after it."""
    path = tmp_path / "state" / "weekloom.log"
    monkeypatch.setattr(crash, "log_file", lambda: path)
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(threading, "excepthook", threading.excepthook)
    root = logging.getLogger()
    before, level = list(root.handlers), root.level
    handler = qInstallMessageHandler(None)
    crash.install()
    yield path
    qInstallMessageHandler(handler)
    for added in [one for one in root.handlers if one not in before]:
        root.removeHandler(added)
        added.close()
    root.setLevel(level)


def test_installed_everything_ends_in_one_log_file(installed: Path, told: Told) -> None:
    logging.getLogger("app.desk").info("kept an edit")
    qWarning("a painter was not ended")
    sys.excepthook(*broken())
    text = installed.read_text(encoding="utf-8")
    assert "INFO app.desk kept an edit" in text
    assert "Qt: a painter was not ended" in text
    assert "builtins.ValueError" in text
    assert "Runa" not in text
    assert installed.stat().st_mode & 0o077 == 0, "nobody else may read it"


def test_without_room_for_a_log_errors_are_still_caught(
    qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    monkeypatch.setattr(crash, "log_file", lambda: tmp_path / "file" / "weekloom.log")
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(threading, "excepthook", threading.excepthook)
    late = crash.install()
    assert sys.excepthook is crash.caught
    try:
        late.open_file()
        logging.getLogger("app.desk").info("kept an edit")
    finally:
        logging.getLogger().removeHandler(late)
    assert (tmp_path / "file").read_text(encoding="utf-8") == ""


def test_what_a_start_logs_is_held_until_the_file_is_opened(installed: Path) -> None:
    (late,) = (one for one in logging.getLogger().handlers if isinstance(one, crash.LateLog))
    logging.getLogger("db.opening").info("made a new file")
    assert not installed.exists()
    late.open_file()
    late.open_file()
    logging.getLogger("app.desk").info("kept an edit")
    lines = installed.read_text(encoding="utf-8").splitlines()
    assert [line.partition("INFO ")[2] for line in lines] == [
        "db.opening made a new file",
        "app.desk kept an edit",
    ]


def test_trouble_while_starting_is_written_at_once(installed: Path) -> None:
    logging.getLogger("db.opening").info("made a new file")
    logging.getLogger("app.ui.start").warning("an own range is left out")
    assert installed.read_text(encoding="utf-8").count("\n") == 2
