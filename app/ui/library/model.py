"""The exercises that the list shows, in order, with the words of each row."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from PySide6.QtCore import (
    QMimeData,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    QStringListModel,
    Qt,
)

from app.domain.exercise import Exercise, ExerciseKey, Muscle
from app.domain.wording import tr
from app.ui.bench import Bench
from app.ui.carry import MIME, Carried, to_mime
from app.ui.library import rows
from app.ui.words import tip

EXERCISE = Qt.ItemDataRole.UserRole
USED = Qt.ItemDataRole.UserRole + 1
LINES = Qt.ItemDataRole.UserRole + 2
AT_HAND = Qt.ItemDataRole.UserRole + 3

Index = QModelIndex | QPersistentModelIndex


class ExerciseModel(QStringListModel):
    """The listed exercises, in order.

    Qt asks for the number of rows once for every row it lays out, and asking Python ten thousand
    times takes two frames: so Qt's own list of empty lines counts, and only what is painted is
    asked of us.
    """

    def __init__(self, bench: Bench, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self.names = {muscle: name.trade for muscle, name in bench.shelf.muscles.items()}
        self.exercises: Sequence[Exercise] = ()
        self.used: dict[ExerciseKey, str] = {}
        self.at_hand: Collection[ExerciseKey] = ()
        self.about: Muscle | None = None
        self._lines: dict[ExerciseKey, tuple[str, str]] = {}

    def show_exercises(self, exercises: Sequence[Exercise], *, about: Muscle | None = None) -> None:
        """List these; about: the muscle whose reported activation the rows tell."""
        if about is not self.about:
            self.about = about
            self._lines.clear()
        self.exercises = exercises
        self.setStringList([""] * len(exercises))

    def forget_words(self) -> None:
        """Word the rows anew, as when exercises have changed."""
        self._lines.clear()

    def show_used(self, used: dict[ExerciseKey, str]) -> None:
        """Say where each stands in the open week."""
        if used != self.used:
            self.used = used
            self._all_changed(USED)

    def show_at_hand(self, keys: Collection[ExerciseKey]) -> None:
        """Mark these as kept at hand."""
        self.at_hand = keys
        self._all_changed(AT_HAND)

    def _all_changed(self, role: int) -> None:
        if self.exercises:
            self.dataChanged.emit(self.index(0), self.index(len(self.exercises) - 1), [role])

    def row_of(self, key: ExerciseKey) -> int:
        """The row of an exercise; -1 if it is not listed."""
        return next((n for n, one in enumerate(self.exercises) if one.key == key), -1)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or index.row() >= len(self.exercises):
            return None
        exercise = self.exercises[index.row()]
        match role:
            case Qt.ItemDataRole.DisplayRole:
                return exercise.name
            case Qt.ItemDataRole.ToolTipRole:
                return tip(exercise.name, *self._words(exercise))
            case Qt.ItemDataRole.AccessibleTextRole:
                return self._spoken(exercise)
            case _ if role == EXERCISE:
                return exercise
            case _ if role == USED:
                return self.used.get(exercise.key, "")
            case _ if role == LINES:
                return self._words(exercise)
            case _ if role == AT_HAND:
                return exercise.key in self.at_hand
        return None

    def _words(self, exercise: Exercise) -> tuple[str, str]:
        lines = self._lines.get(exercise.key)
        if lines is None:
            muscles = rows.muscles_text(exercise, self.names)
            if self.about is None:
                last = rows.equipment_text(exercise)
            else:
                last = rows.reported_text(exercise, self.about, self.bench.shelf.references)
            lines = self._lines[exercise.key] = (muscles, last)
        return lines

    def _spoken(self, exercise: Exercise) -> str:
        parts = [
            exercise.name,
            *self._words(exercise),
            self.used.get(exercise.key, ""),
            tr("kept at hand") if exercise.key in self.at_hand else "",
            tr("your own") if exercise.own else "",
        ]
        return ", ".join(part for part in parts if part)

    def flags(self, index: Index) -> Qt.ItemFlag:
        if not index.isValid():
            return Qt.ItemFlag.NoItemFlags
        return (
            Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsDragEnabled
        )

    def carried(self, index: Index) -> Carried:
        """What a drag of that row carries."""
        return Carried(exercise=self.exercises[index.row()].key, source=self.bench.source)

    def mimeData(self, indexes: Sequence[QModelIndex]) -> QMimeData:
        return to_mime(self.carried(indexes[0]))

    def mimeTypes(self) -> list[str]:
        return [MIME]
