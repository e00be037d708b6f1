"""Everything on one exercise: figures, set-up, cues, faults, evidence with its caution."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from app.domain.exercise import Exercise
from app.domain.figure import Phase
from app.ui import figure_paint, theme
from app.ui.bench import Bench
from app.ui.forms import Sheet, Wrapped, plain
from app.ui.library import rows
from app.ui.words import DASH, number

FIGURE = QSize(240, 210)
CAUTION = (
    "Amplitudes compare only within one study, and a large signal is not growth "
    "(Vigotsky 2018; in one trial the exercise with the larger signal built no more muscle, "
    "Plotkin 2023)."
)


class DetailDialog(Sheet):
    """The sheet; its verb puts the exercise on the grid's day."""

    place_wanted = Signal(object)

    def __init__(self, bench: Bench, exercise: Exercise, parent: QWidget | None) -> None:
        super().__init__(parent, exercise.name, verb="Place on the open day")
        self.bench, self.exercise = bench, exercise
        names = {m: n.trade for m, n in bench.shelf.muscles.items()}
        inner = QVBoxLayout()
        inner.setSpacing(8)
        inner.addLayout(self._figures())
        inner.addWidget(plain(rows.muscles_text(exercise, names)))
        facts = [
            rows.equipment_text(exercise),
            "multi-joint" if exercise.multi_joint else "single-joint",
            "each side" if exercise.unilateral else "both sides",
            f"{exercise.rep_low}{DASH}{exercise.rep_high} {'s' if exercise.timed else 'reps'}",
        ]
        inner.addWidget(plain(" \N{MIDDLE DOT} ".join(facts), role="small"))
        for title, lines in (("Set up", exercise.set_up), ("Do it", exercise.cues)):
            _section(inner, title, lines)
        _section(inner, "If you notice", tuple(f"{f.notice}: {f.remedy}" for f in exercise.faults))
        self._evidence(inner)
        inner.addStretch(1)
        holder = QWidget()
        holder.setLayout(inner)
        scroll = QScrollArea()
        scroll.setWidget(holder)
        scroll.setWidgetResizable(True)
        self.body.addWidget(scroll)
        self.keep_button.setEnabled(bench.desk.has_program)
        self.cancel_button.setText("Close")
        self.resize(620, 680)

    def _figures(self) -> QHBoxLayout:
        row = QHBoxLayout()
        pair = self.bench.shelf.poses.get(self.exercise.figure)
        if pair is None:
            return row
        tones = figure_paint.DARK if theme.current().dark else figure_paint.LIGHT
        icons = figure_paint.FigureIcons(tones)
        for phase, word in ((Phase.START, "start"), (Phase.END, "end")):
            picture: QPixmap = icons.pixmap(
                pair,
                phase,
                width_px=FIGURE.width(),
                height_px=FIGURE.height(),
                ratio=self.devicePixelRatioF(),
            )
            label = QLabel()
            label.setPixmap(picture)
            label.setAccessibleName(f"{self.exercise.name}, {word}")
            row.addWidget(label)
        row.addStretch(1)
        return row

    def _evidence(self, column: QVBoxLayout) -> None:
        column.addWidget(plain("Reported activation", step="head"))
        if not self.exercise.activation:
            column.addWidget(plain("No study at hand. Nothing is known to us.", role="small"))
            return
        grid = QGridLayout()
        grid.setHorizontalSpacing(16)
        names = self.bench.shelf.muscles
        for number_, row in enumerate(self.exercise.activation):
            low, high = number(row.low), number(row.high)
            value = f"{low} %" if low == high else f"{low}{DASH}{high} %"
            reference = self.bench.shelf.references.get(row.study)
            study = reference.short if reference is not None else row.study
            grid.addWidget(plain(names[row.muscle].trade), number_, 0)
            grid.addWidget(plain(value, step="number"), number_, 1)
            grid.addWidget(plain(f"{study} {row.detail}".strip(), role="small"), number_, 2)
        column.addLayout(grid)
        column.addWidget(Wrapped(CAUTION, role="small"))

    def keep(self) -> None:
        """Ask for the exercise to be placed."""
        self.place_wanted.emit(self.exercise.key)


def _section(column: QVBoxLayout, title: str, lines: tuple[str, ...]) -> None:
    if not lines:
        return
    column.addWidget(plain(title, step="head"))
    for line in lines:
        label = Wrapped(line)
        label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        column.addWidget(label)
