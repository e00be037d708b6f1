"""Parts of the form for own exercises: muscles, joints, checklists, relatives, the pose."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from enum import StrEnum

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QWheelEvent
from PySide6.QtWidgets import (
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPlainTextEdit,
    QVBoxLayout,
    QWidget,
)

from app.domain.exercise import Exercise, ExerciseKey, Joint, Muscle, Work, joint_name
from app.domain.figure import Phase
from app.domain.wording import mark, tr
from app.ui.bench import Bench
from app.ui.forms import button, plain
from app.ui.library.compare import ExerciseBox
from app.ui.library.detail import pose_picture
from app.ui.library.facts import FEELS

KEY = Qt.ItemDataRole.UserRole
PARTS = (
    ("\N{EN DASH}", 0.0),
    (mark("¼ helps a little"), 0.25),
    (mark("½ helps"), 0.5),
    (mark("1 prime mover"), 1.0),
)
POSE = QSize(120, 120)
NO_POSE = mark("No figure")


class DeafBox(QComboBox):
    """A combo box that the wheel does not change."""

    def __init__(self, title: str, values: Iterable[tuple[str, object]]) -> None:
        super().__init__()
        self.setAccessibleName(title)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumHeight(30)
        for name, value in values:
            self.addItem(name, value)

    def choose(self, value: object) -> None:
        """Choose that value; the first one where it is not among them."""
        found = (row for row in range(self.count()) if self.itemData(row) == value)
        self.setCurrentIndex(next(found, 0))

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()


class PartsGrid(QWidget):
    """A grade for each of several things, such as a part of the work for each muscle.

    Its boxes are made by `build`, for a form that lays out one page after the other; until then it
    holds what it is to show.
    """

    changed = Signal()

    def __init__(
        self,
        names: Mapping[str, str],
        grades: Sequence[tuple[str, float | int]],
        *,
        columns: int,
    ) -> None:
        super().__init__()
        self.boxes: dict[str, DeafBox] = {}
        self._names, self._grades, self._columns = names, grades, columns
        self._held: dict[str, float | int] = {}

    def build(self) -> None:
        """Make the boxes, unless that was done already."""
        if self.boxes:
            return
        names, columns = self._names, self._columns
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(10)
        grid.setVerticalSpacing(4)
        rows = -(-len(names) // columns)
        for place, (value, name) in enumerate(names.items()):
            row, column = place % rows, 2 * (place // rows)
            box = self.boxes[value] = DeafBox(name, self._grades)
            label = plain(name)
            label.setBuddy(box)
            grid.addWidget(label, row, column)
            grid.addWidget(box, row, column + 1)
            grid.setColumnStretch(column + 1, 1)
        self.show_values(self._held)
        for box in self.boxes.values():
            box.currentIndexChanged.connect(lambda _row: self.changed.emit())

    def values(self) -> dict[str, float | int]:
        """What is graded above nothing, the highest grade first."""
        graded = {value: box.currentData() for value, box in self.boxes.items()} or self._held
        return dict(sorted(((v, g) for v, g in graded.items() if g), key=lambda pair: -pair[1]))

    def show_values(self, values: Mapping[str, float | int]) -> None:
        """Show these grades; one that is not on offer is added."""
        self._held = {value: values.get(value, 0) for value in self._names}
        for value, box in self.boxes.items():
            grade = values.get(value, 0)
            if all(box.itemData(row) != grade for row in range(box.count())):
                box.addItem(f"{grade:g}", grade)
            box.choose(grade)


def muscle_grid(names: Mapping[Muscle, str]) -> PartsGrid:
    """The part of a set that counts for each muscle."""
    return PartsGrid(
        {m.value: name for m, name in names.items()},
        tuple((tr(word), part) for word, part in PARTS),
        columns=2,
    )


def stress_grid() -> PartsGrid:
    """How much each joint feels of it."""
    grades = (("\N{EN DASH}", 0), *((tr(word), level) for level, word in FEELS.items()))
    return PartsGrid({j.value: joint_name(j) for j in Joint}, grades, columns=2)


def work_values(work: Iterable[Work]) -> dict[str, float | int]:
    """A muscle's part by its word."""
    return {one.muscle.value: one.fraction for one in work}


class CheckList(QListWidget):
    """Several of a closed set, each with a tick."""

    changed = Signal()

    def __init__(self, title: str, values: Iterable[StrEnum]) -> None:
        super().__init__()
        self.setAccessibleName(title)
        self.setMaximumHeight(150)
        for value in values:
            item = QListWidgetItem(tr(value.value.replace("_", " ").capitalize()))
            item.setData(KEY, value.value)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            item.setCheckState(Qt.CheckState.Unchecked)
            self.addItem(item)
        self.itemChanged.connect(lambda _item: self.changed.emit())

    def values(self) -> list[str]:
        """What is ticked."""
        items = [self.item(row) for row in range(self.count())]
        return [str(i.data(KEY)) for i in items if i.checkState() is Qt.CheckState.Checked]

    def show_values(self, values: Iterable[StrEnum]) -> None:
        """Tick these."""
        words = {value.value for value in values}
        for row in range(self.count()):
            item = self.item(row)
            ticked = item.data(KEY) in words
            item.setCheckState(Qt.CheckState.Checked if ticked else Qt.CheckState.Unchecked)


class LinesField(QPlainTextEdit):
    """Several lines of plain text; Tab goes on to the next field."""

    def __init__(self, title: str, *, lines: int = 4) -> None:
        super().__init__()
        self.setAccessibleName(title)
        self.setTabChangesFocus(True)
        self.setMinimumHeight(self.fontMetrics().lineSpacing() * lines + 16)


class KinField(QWidget):
    """Relatives: chosen from the library, taken out with Del."""

    changed = Signal()

    def __init__(self, bench: Bench, title: str) -> None:
        super().__init__()
        self.bench = bench
        self.box = ExerciseBox(bench, tr("{title}, to add", title=title))
        self.list = KinList(title)
        adding = QHBoxLayout()
        adding.addWidget(self.box, 1)
        self.add_button = button(tr("Add"), self.add)
        self.add_button.setAutoDefault(False)
        adding.addWidget(self.add_button)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(adding)
        column.addWidget(self.list)
        self.list.taken_out.connect(self.changed)

    def add(self) -> None:
        """Add the chosen exercise, if it is not there yet."""
        exercise = self.box.exercise()
        if exercise.key not in self.values():
            self._show(exercise)
            self.changed.emit()

    def _show(self, exercise: Exercise) -> None:
        item = QListWidgetItem(exercise.name)
        item.setData(KEY, exercise.key)
        self.list.addItem(item)

    def values(self) -> list[str]:
        """Keys of the relatives."""
        return [str(self.list.item(row).data(KEY)) for row in range(self.list.count())]

    def show_values(self, keys: Iterable[ExerciseKey]) -> None:
        """Show these relatives."""
        self.list.clear()
        for key in keys:
            if key in self.bench.desk.catalogue:
                self._show(self.bench.desk.catalogue[key])


class KinList(QListWidget):
    """Names of relatives; Del takes the marked one out."""

    taken_out = Signal()

    def __init__(self, title: str) -> None:
        super().__init__()
        self.setAccessibleName(title)
        self.setMaximumHeight(84)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Delete and self.currentRow() >= 0:
            self.takeItem(self.currentRow())
            self.taken_out.emit()
            return
        super().keyPressEvent(event)


def _pose_name(bench: Bench, key: str) -> str:
    """What the exercise that is drawn is called."""
    drawn = ExerciseKey(key)
    catalogue = bench.desk.catalogue
    if drawn in catalogue:
        return catalogue[drawn].name
    return key.replace("_", " ").capitalize()


class PoseBox(QWidget):
    """The figure: one of the poses that are there, shown at its start and end."""

    changed = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self.bench = bench
        named = ((_pose_name(bench, key), key) for key in bench.shelf.poses)
        in_order = sorted(named, key=lambda pair: pair[0].casefold())
        self.box = DeafBox(tr("Figure"), ((tr(NO_POSE), ""), *in_order))
        self.pictures = (QLabel(), QLabel())
        row = QHBoxLayout()
        for label in self.pictures:
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setFixedSize(POSE)
            row.addWidget(label)
        row.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.box)
        column.addLayout(row)
        self.box.currentIndexChanged.connect(lambda _row: self._chosen())

    def value(self) -> str:
        """The key of the pose; empty for none."""
        return str(self.box.currentData() or "")

    def show_value(self, key: str) -> None:
        """Choose that pose."""
        self.box.choose(key)
        self._chosen()

    def _chosen(self) -> None:
        for label, phase in zip(self.pictures, (Phase.START, Phase.END), strict=True):
            picture = pose_picture(self.bench, self.value(), phase, POSE)
            if picture is None:
                label.clear()
            else:
                label.setPixmap(picture)
        self.changed.emit()
