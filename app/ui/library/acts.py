"""What is done with exercises of the library: looked at, compared, kept at hand, made, retired."""

from __future__ import annotations

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QDialog, QWidget

from app.domain.errors import CoachError
from app.domain.exercise import Exercise, ExerciseKey
from app.domain.wording import tr
from app.own_exercises import retire
from app.ui.bench import Bench
from app.ui.library.at_hand import keep_at_hand, kept_at_hand


class LibraryActs(QObject):
    """The acts of one library pane.

    place_wanted(key): the exercise is to be put on the grid's day; at_hand_changed: another
    exercise is kept at hand, or one no longer.
    """

    place_wanted = Signal(object)
    at_hand_changed = Signal()

    def __init__(self, bench: Bench, pane: QWidget) -> None:
        super().__init__(pane)
        self.bench, self.pane = bench, pane
        self.at_hand = kept_at_hand(bench.desk.store)

    def turn_star(self, key: ExerciseKey) -> None:
        """Keep the exercise at hand, or no longer."""
        keys = self.at_hand ^ {key}
        try:
            keep_at_hand(self.bench.desk.store, keys)
        except CoachError as error:
            self.bench.refused.emit(error.sentence)
            return
        self.at_hand = keys
        name = self.bench.desk.catalogue[key].name
        self.bench.said.emit(
            tr("{name} is {tr}kept at hand.", name=name, tr="" if key in keys else tr("no longer "))
        )
        self.at_hand_changed.emit()

    def show_detail(self, exercise: Exercise) -> None:
        """Show everything on an exercise, beside the window."""
        from app.ui.library.detail import DetailDialog

        dialog = DetailDialog(
            self.bench, exercise, self.pane.window(), at_hand=exercise.key in self.at_hand
        )
        dialog.place_wanted.connect(self.place_wanted)
        dialog.star_wanted.connect(self.turn_star)
        dialog.compare_wanted.connect(self.compare)
        self._show(dialog)

    def compare(self, exercise: Exercise | None = None) -> None:
        """Show an exercise beside another; without one, the first of the library."""
        from app.ui.library.compare import CompareDialog

        one = exercise or next(iter(self.bench.desk.catalogue))
        self._show(CompareDialog(self.bench, one, self.pane.window()))

    def make_own(self, pattern: Exercise | None = None) -> None:
        """Ask for a new exercise of the coach's own, as a changed copy if a pattern is given."""
        from app.ui.library.own_sheet import OwnSheet

        self._show(OwnSheet(self.bench, pattern, self.pane.window()))

    def change_own(self, exercise: Exercise) -> None:
        """Ask what to change in an own exercise."""
        from app.ui.library.own_sheet import OwnSheet

        self._show(OwnSheet(self.bench, exercise, self.pane.window(), change=True))

    def retire_own(self, exercise: Exercise) -> None:
        """Offer an own exercise no longer."""
        try:
            retire(self.bench.desk, exercise.key)
        except CoachError as error:
            self.bench.refused.emit(error.sentence)
            return
        self.bench.said.emit(
            tr(
                "{exercise} is no longer offered. Plans that hold it keep it.",
                exercise=exercise.name,
            )
        )

    def bring_back(self) -> None:
        """Ask which retired exercise is to be offered again."""
        from app.ui.library.own_files import BringBack

        self._show(BringBack(self.bench, self.pane.window()))

    def save_own(self) -> None:
        """Save the coach's own exercises as a file."""
        from app.ui.library.own_files import save_own

        save_own(self.bench, self.pane.window())

    def take_in_own(self) -> None:
        """Take exercises in from a file."""
        from app.ui.library.own_files import take_in_own

        take_in_own(self.bench, self.pane.window())

    def _show(self, dialog: QDialog) -> None:
        dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        dialog.show()
