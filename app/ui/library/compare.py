"""Two exercises side by side: what differs stands out; activation only where one study has both."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QWheelEvent
from PySide6.QtWidgets import (
    QComboBox,
    QCompleter,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from app.domain.activation import REVIEWS
from app.domain.exercise import Exercise, Muscle
from app.domain.figure import Phase
from app.domain.wording import tr
from app.ui.bench import Bench
from app.ui.forms import Sheet, Wrapped, plain
from app.ui.library import facts, rows
from app.ui.library.detail import figure_picture, height_on_screen
from app.ui.library.evidence import CAUTION
from app.ui.library.search import Finder, entries

FIGURE = QSize(150, 150)


class CompareDialog(Sheet):
    """Both can be chosen anew; the one that was marked stands left, its nearest relative right."""

    def __init__(self, bench: Bench, exercise: Exercise, parent: QWidget | None) -> None:
        super().__init__(parent, tr("Compare two exercises"), verb=tr("Close"))
        self.setModal(False)
        self.bench = bench
        self.names = {m: n.trade for m, n in bench.shelf.muscles.items()}
        self.cancel_button.hide()
        pick = QHBoxLayout()
        pick.setSpacing(12)
        self.left = ExerciseBox(bench, tr("First exercise"))
        self.right = ExerciseBox(bench, tr("Second exercise"))
        pick.addWidget(self.left, 1)
        pick.addWidget(self.right, 1)
        self.body.addLayout(pick)
        self.page_area = QScrollArea()
        self.page_area.setAccessibleName(tr("The two exercises side by side"))
        self.page_area.setWidgetResizable(True)
        self.page_area.setFrameShape(QFrame.Shape.NoFrame)
        self.body.addWidget(self.page_area)
        self.left.choose(exercise)
        self.right.choose(nearest(bench, exercise))
        for box in (self.left, self.right):
            box.currentIndexChanged.connect(lambda _row: self.refresh())
        self.resize(760, height_on_screen(self, 760))
        self.refresh()
        self.right.setFocus()

    def refresh(self) -> None:
        """Show the two that are chosen."""
        one, other = self.left.exercise(), self.right.exercise()
        page = QVBoxLayout()
        page.setContentsMargins(0, 0, 12, 0)
        grid = QGridLayout()
        grid.setHorizontalSpacing(14)
        grid.setVerticalSpacing(6)
        for column, weight in ((0, 0), (1, 1), (2, 1)):
            grid.setColumnStretch(column, weight)
        for column, exercise in ((1, one), (2, other)):
            grid.addWidget(self._figure(exercise), 0, column, Qt.AlignmentFlag.AlignLeft)
        for row, (label, left, right) in enumerate(differences(one, other, self.names), 1):
            same = left == right
            grid.addWidget(plain(label, role="small"), row, 0, Qt.AlignmentFlag.AlignTop)
            for column, text in ((1, left), (2, right)):
                shown = Wrapped(text or "\N{EN DASH}", step="body" if same else "medium")
                if same:
                    shown.setProperty("role", "small")
                grid.addWidget(shown, row, column)
        page.addLayout(grid)
        page.addWidget(plain(tr("Reported activation of both"), step="head"))
        for line in both_measured(self.bench, one, other, self.names):
            page.addWidget(Wrapped(line))
        page.addWidget(Wrapped(tr(CAUTION), role="small"))
        page.addStretch(1)
        holder = QWidget()
        holder.setLayout(page)
        self.page_area.setWidget(holder)

    def _figure(self, exercise: Exercise) -> QLabel:
        label = QLabel()
        picture = figure_picture(self.bench, exercise, Phase.END, FIGURE)
        if picture is not None:
            label.setPixmap(picture)
        label.setAccessibleName(exercise.name)
        return label


class ExerciseBox(QComboBox):
    """Any exercise of the catalogue; typing a part of its name, even with slips, finds it."""

    def __init__(self, bench: Bench, title: str) -> None:
        super().__init__()
        self.bench = bench
        self.setAccessibleName(title)
        self.setEditable(True)
        self.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.setMinimumHeight(32)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.names = {m: n.trade for m, n in bench.shelf.muscles.items()}
        self.exercises = sorted(bench.desk.catalogue, key=lambda one: one.name.casefold())
        self.addItems([exercise.name for exercise in self.exercises])  # one by one takes long
        edit = self.lineEdit()
        assert edit is not None
        edit.editingFinished.connect(self._settle)
        completer = self.completer()
        assert completer is not None
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        completer.setCompletionMode(QCompleter.CompletionMode.PopupCompletion)

    def exercise(self) -> Exercise:
        """The one that is chosen."""
        return self.exercises[self.currentIndex()]

    def choose(self, exercise: Exercise) -> None:
        """Choose that one."""
        keys = [one.key for one in self.exercises]
        self.setCurrentIndex(keys.index(exercise.key) if exercise.key in keys else 0)

    def _settle(self) -> None:
        """Choose what was typed, or what is most like it; else show again what is chosen."""
        typed = self.currentText()
        if typed != self.itemText(self.currentIndex()):
            every = entries(self.bench.desk.catalogue, self.names)
            found = Finder(every).find(every, typed).entries if typed.strip() else ()
            if found:
                self.choose(found[0].exercise)
        self.setEditText(self.itemText(self.currentIndex()))

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.ignore()


def nearest(bench: Bench, exercise: Exercise) -> Exercise:
    """What could stand in for it best; the exercise itself if nothing could."""
    desk = bench.desk
    ranked = facts.stand_ins(
        exercise,
        desk.catalogue,
        client=None if desk.work is None else desk.client,
        program=desk.program if desk.has_program else None,
    )
    return ranked[0].exercise if ranked else exercise


def differences(
    one: Exercise, other: Exercise, names: dict[Muscle, str]
) -> tuple[tuple[str, str, str], ...]:
    """Every fact of either as label, left text and right text; empty where one has none."""
    left, right = dict(facts.facts(one, names)), dict(facts.facts(other, names))
    return tuple((label, left.get(label, ""), right.get(label, "")) for label in left | right)


def both_measured(
    bench: Bench, one: Exercise, other: Exercise, names: dict[Muscle, str]
) -> tuple[str, ...]:
    """A sentence for each muscle and study that has both; one that says so if none has.

    Reviews gather many studies, so their figures do not count as of one study.
    """
    lines = []
    theirs = {(row.muscle, row.study) for row in other.activation if row.study not in REVIEWS}
    shared = dict.fromkeys(
        (row.muscle, row.study) for row in one.activation if (row.muscle, row.study) in theirs
    )
    for muscle, study in shared:
        texts = [
            ", ".join(
                rows.range_text(row.low, row.high)
                for row in exercise.activation
                if (row.muscle, row.study) == (muscle, study)
            )
            for exercise in (one, other)
        ]
        source = rows.study_text(study, bench.shelf.references)
        lines.append(
            f"{names[muscle]}: {one.name} {texts[0]} %, {other.name} {texts[1]} % MVIC ({source})."
        )
    return tuple(lines) or (tr("No study known to us measured both."),)
