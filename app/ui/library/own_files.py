"""Saving own exercises as a file and taking others in: file dialogs around `app.own_exercises`."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget

from app.domain.errors import CoachError
from app.exchange.exercise_file import SUFFIX
from app.own_exercises import Delivery, read_own, take_in, write_own
from app.ui.bench import Bench
from app.ui.forms import tell
from app.ui.words import list_of

FILTER = f"Exercise files (*{SUFFIX} *.toml);;All files (*)"
NAMED = 4


def save_own(bench: Bench, window: QWidget) -> Path | None:
    """Ask where to and write all own exercises; the path, None if nothing was written."""
    mine = [exercise for exercise in bench.desk.catalogue if exercise.own]
    if not mine:
        tell(
            window,
            "Nothing to save",
            "There is no exercise of your own yet. Make one, or copy and change another.",
        )
        return None
    chosen, _ = QFileDialog.getSaveFileName(window, "Save own exercises", f"own{SUFFIX}", FILTER)
    if not chosen:
        return None
    path = Path(chosen)
    if not path.suffix:
        path = path.with_name(path.name + SUFFIX)
    try:
        count = write_own(path, mine, bench.desk.catalogue)
    except CoachError as error:
        tell(window, "The exercises were not saved", error.sentence)
        return None
    bench.said.emit(f"{_count(count)} saved: {path.name}")
    return path


def take_in_own(bench: Bench, window: QWidget) -> int:
    """Ask for a file and take its exercises in; how many."""
    chosen, _ = QFileDialog.getOpenFileName(window, "Take in exercises", "", FILTER)
    return take_in_file(bench, Path(chosen), window) if chosen else 0


def take_in_file(bench: Bench, path: Path, window: QWidget) -> int:
    """Take the exercises of a file in, all of it or nothing; how many."""
    try:
        brought = read_own(path, bench.desk.catalogue)
        replacing = bool(brought.changed) and ask_to_replace(brought, window)
        count = take_in(bench.desk, brought, replacing=replacing)
    except CoachError as error:
        tell(window, "No exercise was taken in", error.sentence)
        return 0
    same = f", {len(brought.same)} the same as yours" if brought.same else ""
    bench.said.emit(f"{_count(count)} taken in{same}: {path.name}")
    return count


def ask_to_replace(brought: Delivery, window: QWidget) -> bool:
    """True if what differs from the coach's own is to take its place."""
    names = [exercise.name for exercise in brought.changed]
    shown = names[:NAMED] + ([f"{len(names) - NAMED} more"] if len(names) > NAMED else [])
    box = QMessageBox(window)
    box.setWindowTitle("Take in exercises")
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setText(f"The file has another form of {list_of(shown)} than yours.")
    replacing = box.addButton("Take the file's", QMessageBox.ButtonRole.DestructiveRole)
    keeping = box.addButton("Keep mine", QMessageBox.ButtonRole.AcceptRole)
    box.setDefaultButton(keeping)
    box.setEscapeButton(keeping)
    box.exec()
    return box.clickedButton() == replacing


def _count(count: int) -> str:
    return f"{count} exercise{'' if count == 1 else 's'}"
