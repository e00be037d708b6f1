"""What can be chosen about a chart: which, of what exercise or muscles, over which days."""

from __future__ import annotations

from datetime import date, timedelta

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QDateEdit,
    QGridLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from app.domain.exercise import ExerciseKey, Muscle
from app.domain.muscle_groups import muscle_name
from app.domain.program import Program
from app.domain.progress.series import EVERY_DAY, Days
from app.domain.wording import mark, tr
from app.ui.charts.data import exercises_to_show, muscles_to_show
from app.ui.charts.kinds import MOST_MUSCLES, NAMES, Asked, Choice, Kind
from app.ui.forms import plain
from app.ui.words import pydate, qdate

SPANS: tuple[tuple[str, int | None], ...] = (
    (mark("All days"), None),
    (mark("This program"), 0),
    (mark("Last 4 weeks"), 4),
    (mark("Last 12 weeks"), 12),
    (mark("Last 26 weeks"), 26),
    (mark("Last 52 weeks"), 52),
    (mark("From … to …"), -1),
)
BETWEEN = len(SPANS) - 1


class Choices(QWidget):
    """A list of charts, and below it what the chosen one can be asked.

    changed(): another chart is wanted.
    """

    changed = Signal()

    def __init__(self, today: date) -> None:
        super().__init__()
        self.today = today
        self.program: Program | None = None
        self.kinds = QListWidget()
        self.kinds.setAccessibleName(tr("Charts"))
        for kind in Kind:
            item = QListWidgetItem(tr(NAMES[kind]))
            item.setData(Qt.ItemDataRole.UserRole, kind)
            self.kinds.addItem(item)
        self.kinds.setStyleSheet("QListView::item { min-height: 28px; }")
        self.kinds.setCurrentRow(0)
        self.kinds.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.kinds.setSizeAdjustPolicy(QListWidget.SizeAdjustPolicy.AdjustToContents)
        self.kinds.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self.exercise = _combo(tr("Exercise"))
        self.muscles = QListWidget()
        self.muscles.setAccessibleName(tr("Muscles, at most {n}", n=MOST_MUSCLES))
        for muscle in Muscle:
            item = QListWidgetItem(muscle_name(muscle))
            item.setData(Qt.ItemDataRole.UserRole, muscle)
            item.setCheckState(Qt.CheckState.Unchecked)
            self.muscles.addItem(item)
        self.muscles.setStyleSheet("QListView::item { min-height: 24px; }")
        self.span = _combo(tr("Days shown"))
        for text, weeks in SPANS:
            self.span.addItem(tr(text), weeks)
        self.first, self.last = (_day(name, today) for name in (tr("From"), tr("To")))
        self.first.setDate(qdate(today - timedelta(weeks=12)))
        self._lay_out()
        self.kinds.currentRowChanged.connect(lambda _row: self._tell())
        self.exercise.currentIndexChanged.connect(lambda _at: self._tell())
        self.span.currentIndexChanged.connect(lambda _at: self._tell())
        self.muscles.itemChanged.connect(self._muscle_ticked)
        for edit in (self.first, self.last):
            edit.dateChanged.connect(lambda _day: self._tell())
        self._show_fields()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(6)
        column.addWidget(self.kinds)
        self.exercise_label = _label(tr("Exercise"), self.exercise)
        self.muscles_label = _label(tr("Muscles"), self.muscles)
        for label, field in (
            (self.exercise_label, self.exercise),
            (self.muscles_label, self.muscles),
            (_label(tr("Days shown"), self.span), self.span),
        ):
            column.addWidget(label)
            column.addWidget(field)
        grid = QGridLayout()
        self.between = QWidget()
        self.between.setLayout(grid)
        grid.setContentsMargins(0, 0, 0, 0)
        for row, (word, edit) in enumerate(((tr("From"), self.first), (tr("To"), self.last))):
            grid.addWidget(_label(word, edit), row, 0)
            grid.addWidget(edit, row, 1)
        column.addWidget(self.between)
        column.addStretch(1)

    # -- filling -----------------------------------------------------------------------------

    def fill(self, asked: Asked) -> None:
        """Offer what this client has; what was chosen stays where it can."""
        self.program = asked.program
        kept = self.exercise.currentData()
        with QSignalBlocker(self.exercise):
            self.exercise.clear()
            for key in exercises_to_show(asked):
                self.exercise.addItem(asked.catalogue[key].name, key)
            self.exercise.setCurrentIndex(max(0, self.exercise.findData(kept)))
        self.exercise.setEnabled(self.exercise.count() > 0)
        if not self._ticked():
            with QSignalBlocker(self.muscles):
                for muscle in muscles_to_show(asked):
                    self._item(muscle).setCheckState(Qt.CheckState.Checked)
        self._show_fields()

    def forget(self) -> None:
        """Drop what was chosen for another client."""
        with QSignalBlocker(self.muscles):
            for muscle in Muscle:
                self._item(muscle).setCheckState(Qt.CheckState.Unchecked)
        with QSignalBlocker(self.exercise):
            self.exercise.clear()

    def _item(self, muscle: Muscle) -> QListWidgetItem:
        return self.muscles.item(tuple(Muscle).index(muscle))

    def _ticked(self) -> tuple[Muscle, ...]:
        return tuple(
            muscle for muscle in Muscle if self._item(muscle).checkState() == Qt.CheckState.Checked
        )

    def _muscle_ticked(self, item: QListWidgetItem) -> None:
        if len(self._ticked()) > MOST_MUSCLES:
            with QSignalBlocker(self.muscles):
                item.setCheckState(Qt.CheckState.Unchecked)
            return
        self._tell()

    # -- what is chosen ----------------------------------------------------------------------

    @property
    def kind(self) -> Kind:
        """The chart that is chosen."""
        return Kind(self.kinds.currentItem().data(Qt.ItemDataRole.UserRole))

    def choose(self, kind: Kind) -> None:
        """Choose a chart."""
        self.kinds.setCurrentRow(tuple(Kind).index(kind))

    def choice(self) -> Choice:
        """All that is chosen."""
        key = self.exercise.currentData()
        return Choice(
            self.kind, self.days(), None if key is None else ExerciseKey(key), self._ticked()
        )

    def days(self) -> Days:
        """The days that are shown."""
        match self.span.currentData():
            case None:
                return EVERY_DAY
            case -1:
                first, last = sorted((pydate(self.first.date()), pydate(self.last.date())))
                return Days(first, last)
            case 0 if self.program is not None:
                first = self.program.start
                return Days(first, first + timedelta(weeks=len(self.program.weeks), days=-1))
            case 0:
                return EVERY_DAY
            case weeks:
                return Days(self.today - timedelta(weeks=weeks, days=-1), self.today)

    def _show_fields(self) -> None:
        for widget in (self.exercise, self.exercise_label):
            widget.setVisible(self.kind is Kind.STRENGTH)
        for part in (self.muscles, self.muscles_label):
            part.setVisible(self.kind is Kind.MUSCLES)
        self.between.setVisible(self.span.currentIndex() == BETWEEN)

    def _tell(self) -> None:
        self._show_fields()
        self.changed.emit()


def _combo(name: str) -> QComboBox:
    box = QComboBox()
    box.setMinimumHeight(32)
    box.setAccessibleName(name)
    box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    box.setMinimumContentsLength(16)
    return box


def _label(text: str, field: QWidget) -> QLabel:
    label = plain(text, role="small")
    label.setBuddy(field)
    return label


def _day(name: str, today: date) -> QDateEdit:
    edit = QDateEdit(qdate(today))
    edit.setDisplayFormat("d MMM yyyy")
    edit.setCalendarPopup(True)
    edit.setMinimumHeight(32)
    edit.setAccessibleName(name)
    return edit
