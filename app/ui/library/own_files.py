"""Own exercises saved as a file, taken in from one, or brought back: dialogs around their rules."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QListWidget, QMessageBox, QWidget

from app.domain.errors import CoachError
from app.domain.wording import tr
from app.exchange.exercise_file import SUFFIX
from app.own_exercises import Delivery, keep, read_own, retired, take_in, write_own
from app.ui.bench import Bench
from app.ui.forms import Sheet, Wrapped, tell
from app.ui.words import list_of

FILTER = f"Exercise files (*{SUFFIX} *.toml);;All files (*)"
NAMED = 4


def save_own(bench: Bench, window: QWidget) -> Path | None:
    """Ask where to and write all own exercises; the path, None if nothing was written."""
    mine = [exercise for exercise in bench.desk.catalogue if exercise.own]
    if not mine:
        tell(
            window,
            tr("Nothing to save"),
            tr("There is no exercise of your own yet. Make one, or copy and change another."),
        )
        return None
    chosen, _ = QFileDialog.getSaveFileName(
        window, tr("Save own exercises"), f"own{SUFFIX}", FILTER
    )
    if not chosen:
        return None
    path = Path(chosen)
    if not path.suffix:
        path = path.with_name(path.name + SUFFIX)
    try:
        count = write_own(path, mine, bench.desk.catalogue)
    except CoachError as error:
        tell(window, tr("The exercises were not saved"), error.sentence)
        return None
    bench.said.emit(tr("{count} saved: {path}", count=_count(count), path=path.name))
    return path


def take_in_own(bench: Bench, window: QWidget) -> int:
    """Ask for a file and take its exercises in; how many."""
    chosen, _ = QFileDialog.getOpenFileName(window, tr("Take in exercises"), "", FILTER)
    return take_in_file(bench, Path(chosen), window) if chosen else 0


def take_in_file(bench: Bench, path: Path, window: QWidget) -> int:
    """Take the exercises of a file in, all of it or nothing; how many."""
    try:
        brought = read_own(path, bench.desk.catalogue, bench.shelf.references)
        replacing = bool(brought.changed) and ask_to_replace(brought, window)
        count = take_in(bench.desk, brought, replacing=replacing)
    except CoachError as error:
        tell(window, tr("No exercise was taken in"), error.sentence)
        return 0
    same = tr(", {same} the same as yours", same=len(brought.same)) if brought.same else ""
    bench.said.emit(
        tr("{count} taken in{same}: {path}", count=_count(count), same=same, path=path.name)
    )
    return count


def ask_to_replace(brought: Delivery, window: QWidget) -> bool:
    """True if what differs from the coach's own is to take its place."""
    names = [exercise.name for exercise in brought.changed]
    shown = names[:NAMED] + (
        [tr("{names} more", names=len(names) - NAMED)] if len(names) > NAMED else []
    )
    box = QMessageBox(window)
    box.setWindowTitle(tr("Take in exercises"))
    box.setTextFormat(Qt.TextFormat.PlainText)
    box.setText(tr("The file has another form of {shown} than yours.", shown=list_of(shown)))
    replacing = box.addButton(tr("Take the file's"), QMessageBox.ButtonRole.DestructiveRole)
    keeping = box.addButton(tr("Keep mine"), QMessageBox.ButtonRole.AcceptRole)
    box.setDefaultButton(keeping)
    box.setEscapeButton(keeping)
    box.exec()
    return box.clickedButton() == replacing


class BringBack(Sheet):
    """Choose a retired exercise; its verb offers it again."""

    def __init__(self, bench: Bench, parent: QWidget | None) -> None:
        super().__init__(parent, tr("Bring back a retired exercise"), verb=tr("Bring back"))
        self.setModal(False)
        self.bench = bench
        self.some = retired(bench.desk.store)
        self.list = QListWidget()
        self.list.setAccessibleName(tr("Retired exercises"))
        self.list.addItems([exercise.name for exercise in self.some])
        self.list.setCurrentRow(0)
        if self.some:
            self.body.addWidget(self.list)
        else:
            self.body.addWidget(Wrapped(tr("No exercise of your own is retired.")))
        self.keep_button.setEnabled(bool(self.some))
        self.resize(380, 320)

    def keep(self) -> None:
        """Offer the marked exercise again."""
        exercise = self.some[self.list.currentRow()]
        keep(self.bench.desk, exercise)
        self.bench.said.emit(tr("{exercise} is offered again.", exercise=exercise.name))


def _count(count: int) -> str:
    return tr("{count} exercise{word}", count=count, word="" if count == 1 else "s")
