"""Everything on one exercise: figures, facts, wording, evidence, relatives, where it is used."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, datetime

from PySide6.QtCore import QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPixmap
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from app.domain.exercise import Exercise
from app.domain.figure import Phase
from app.domain.wording import tr
from app.ui import figure_paint, signs, theme
from app.ui.bench import Bench
from app.ui.forms import Sheet, Wrapped, button, plain
from app.ui.library import facts, rows
from app.ui.library.at_hand import kept_at_hand, star_icon
from app.ui.library.evidence import BANDS_FROM, CAUTION, NOTHING, EvidenceChart
from app.ui.words import label_text

FIGURE = QSize(150, 150)
SUBSTITUTES = 5
FRAME = 48
"""What a window's frame and a panel take of a screen's height, px. Common practice."""
SIGN = 15


class DetailDialog(Sheet):
    """The sheet; its verb puts the exercise on the grid's day.

    place_wanted(key), star_wanted(key), compare_wanted(Exercise): what the coach asked for. Links
    show a relative in the same sheet; Back returns.
    """

    place_wanted = Signal(object)
    star_wanted = Signal(object)
    compare_wanted = Signal(object)

    def __init__(
        self, bench: Bench, exercise: Exercise, parent: QWidget | None, *, at_hand: bool = False
    ) -> None:
        super().__init__(parent, exercise.name, verb=tr("Place on the open day"))
        self.setModal(False)
        self.bench, self.exercise = bench, exercise
        self.came_from: list[Exercise] = []
        self.names = {m: n.trade for m, n in bench.shelf.muscles.items()}
        self.page_area = QScrollArea()
        self.page_area.setWidgetResizable(True)
        self.page_area.setFrameShape(QFrame.Shape.NoFrame)
        self.body.addWidget(self.page_area)
        self._build_foot(at_hand)
        self.resize(780, height_on_screen(self, 760))
        self._show()

    def _build_foot(self, at_hand: bool) -> None:
        self.back = button(tr("Back"), self.go_back)
        self.star = button(tr("Kept at hand"), self._turn_star)
        self.star.setCheckable(True)
        self.star.setChecked(at_hand)
        self.star.setIcon(star_icon())
        comparing = button(tr("Compare…"), lambda: self.compare_wanted.emit(self.exercise))
        for place, widget in enumerate((self.back, self.star, comparing)):
            self.foot.insertWidget(place, widget)
        self.keep_button.setEnabled(self.bench.desk.has_program)
        self.cancel_button.setText(tr("Close"))

    def show_exercise(self, exercise: Exercise) -> None:
        """Show another exercise in this sheet."""
        self.came_from.append(self.exercise)
        self.exercise = exercise
        self._show()

    def go_back(self) -> None:
        """Show the exercise again that a link led away from."""
        if self.came_from:
            self.exercise = self.came_from.pop()
            self._show()

    def _turn_star(self) -> None:
        self.star_wanted.emit(self.exercise.key)

    def _show(self) -> None:
        self.setWindowTitle(self.exercise.name)
        head = self.column.itemAt(0)
        if head is not None and isinstance(label := head.widget(), QLabel):
            label.setText(self.exercise.name)
        self.back.setVisible(bool(self.came_from))
        self.star.setChecked(self.exercise.key in kept_at_hand(self.bench.desk.store))
        holder = QWidget()
        holder.setLayout(self._page())
        self.page_area.setWidget(holder)

    # -- the page --------------------------------------------------------------------------

    def _page(self) -> QVBoxLayout:
        exercise = self.exercise
        page = QVBoxLayout()
        page.setContentsMargins(0, 0, 12, 0)
        page.setSpacing(10)
        also = ", ".join(exercise.aliases)
        if also or exercise.own:
            words = [
                tr("also {also}", also=also) if also else "",
                tr("your own") if exercise.own else "",
            ]
            page.addWidget(Wrapped("; ".join(w for w in words if w), role="small"))
        for sentence in self._ruled_out():
            page.addWidget(Refusal(sentence))
        halves = QHBoxLayout()
        halves.setSpacing(24)
        left, right = QVBoxLayout(), QVBoxLayout()
        left.addLayout(self._figures())
        left.addLayout(fact_grid(facts.facts(exercise, self.names)))
        left.addWidget(Wrapped(tr(facts.FACTS_FROM), step="small", role="small"))
        left.addStretch(1)
        right.addLayout(self._wording())
        right.addStretch(1)
        halves.addLayout(left, 1)
        halves.addLayout(right, 1)
        page.addLayout(halves)
        self._evidence(page)
        self._kin(page)
        self._used(page)
        page.addStretch(1)
        return page

    def _ruled_out(self) -> tuple[str, ...]:
        desk = self.bench.desk
        if desk.work is None:
            return ()
        return facts.ruled_out(self.exercise, desk.client, self._day())

    def _day(self) -> date:
        desk = self.bench.desk
        if desk.has_program:
            return desk.program.week_start(self.bench.week)
        return datetime.now().astimezone().date()

    def _figures(self) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(8)
        for phase, word in ((Phase.START, "start"), (Phase.END, "end")):
            picture = figure_picture(self.bench, self.exercise, phase, FIGURE)
            if picture is None:
                continue
            column = QVBoxLayout()
            label = QLabel()
            label.setPixmap(picture)
            label.setAccessibleName(f"{self.exercise.name}, {word}")
            column.addWidget(label)
            column.addWidget(plain(word.capitalize(), role="small"))
            row.addLayout(column)
        row.addStretch(1)
        return row

    def _evidence(self, page: QVBoxLayout) -> None:
        page.addWidget(plain(tr("Reported activation"), step="head"))
        references = self.bench.shelf.references
        tfl = facts.tfl_text(self.exercise, references)
        if tfl:
            page.addWidget(Wrapped(tfl))
        if not self.exercise.activation and tfl:
            return
        if not self.exercise.activation:
            page.addWidget(plain(tr(NOTHING), role="small"))
            return
        chart = EvidenceChart(self.exercise, self.names, references)
        page.addWidget(chart)
        page.addWidget(
            Wrapped(
                tr(
                    "{caution} Bands: {study_text}.",
                    caution=tr(CAUTION),
                    study_text=rows.study_text(BANDS_FROM, references),
                ),
                role="small",
            )
        )
        for row in chart.rows:
            if row.details:
                study = rows.study_text(row.study, references)
                muscle = self.names[row.muscle].lower()
                page.addWidget(Wrapped(f"{study}, {muscle}: {row.details}.", role="small"))

    def _wording(self) -> QGridLayout:
        """Set-up, cues and faults in one narrow column."""
        one = self.exercise
        grid = QGridLayout()
        grid.setVerticalSpacing(4)
        for title, lines in (
            (tr("Set up"), one.set_up),
            (tr("Do it"), one.cues),
            (tr("If you notice"), tuple(f"{f.notice}: {f.remedy}" for f in one.faults)),
        ):
            if lines:
                grid.addWidget(plain(title, step="head"), grid.rowCount(), 0)
            for line in lines:
                label = Wrapped(line)
                label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
                grid.addWidget(label, grid.rowCount(), 0)
        return grid

    def _kin(self, page: QVBoxLayout) -> None:
        """Easier and harder relatives, and what could stand in, as links."""
        desk = self.bench.desk
        some = [(tr(word.capitalize()), one, "") for word, one in self._relatives()]
        ranked = facts.stand_ins(
            self.exercise,
            desk.catalogue,
            client=None if desk.work is None else desk.client,
            program=desk.program if desk.has_program else None,
        )
        for one in ranked[:SUBSTITUTES]:
            why = (
                tr("held back: {blocked}", blocked=one.blocked)
                if one.blocked
                else "; ".join(one.reasons)
            )
            some.append((tr("Could stand in"), one.exercise, why))
        if not some:
            return
        page.addWidget(plain(tr("Relatives, and what could stand in, best first"), step="head"))
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        grid.setVerticalSpacing(0)
        grid.setColumnStretch(2, 1)
        before = ""
        for row, (word, exercise, why) in enumerate(some):
            grid.addWidget(plain(word if word != before else "", role="small"), row, 0)
            grid.addWidget(self._link(exercise), row, 1, Qt.AlignmentFlag.AlignLeft)
            grid.addWidget(Wrapped(why, role="small"), row, 2)
            before = word
        page.addLayout(grid)

    def _relatives(self) -> tuple[tuple[str, Exercise], ...]:
        return facts.relatives(self.exercise, self.bench.desk.catalogue)

    def _link(self, exercise: Exercise) -> QPushButton:
        link = QPushButton(label_text(exercise.name))
        link.setProperty("link", True)
        link.setCursor(Qt.CursorShape.PointingHandCursor)
        link.setAutoDefault(False)
        link.clicked.connect(lambda _on=False: self.show_exercise(exercise))
        return link

    def _used(self, page: QVBoxLayout) -> None:
        desk = self.bench.desk
        text = facts.used_text(self.exercise, desk.program if desk.has_program else None)
        if text:
            page.addWidget(plain(tr("Where it is used now"), step="head"))
            page.addWidget(Wrapped(text))

    def keep(self) -> None:
        """Ask for the exercise to be placed."""
        self.place_wanted.emit(self.exercise.key)


def height_on_screen(dialog: QWidget, wanted: int) -> int:
    """The height for a dialog, px: as wanted, but within its screen."""
    return min(wanted, dialog.screen().availableGeometry().height() - FRAME)


class Refusal(QWidget):
    """What rules the exercise out, with the sign of a conflict."""

    def __init__(self, sentence: str) -> None:
        super().__init__()
        row = QHBoxLayout(self)
        row.setContentsMargins(SIGN + 8, 2, 0, 2)
        row.addWidget(Wrapped(sentence, role="wrong"), 1)
        self.setAccessibleName(tr("Conflict: {sentence}", sentence=sentence))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        box = QRectF(0, (self.height() - SIGN) / 2, SIGN, SIGN)
        signs.paint_conflict(painter, box, colour=theme.current().conflict)
        painter.end()


def figure_picture(bench: Bench, exercise: Exercise, phase: Phase, size: QSize) -> QPixmap | None:
    """The exercise's figure at that size; None where it has no pose."""
    return pose_picture(bench, exercise.figure, phase, size)


def pose_picture(
    bench: Bench, key: str, phase: Phase, size: QSize, *, ratio: float = 2.0
) -> QPixmap | None:
    """A pose at that size, sharp on fine screens; None where there is none of that key."""
    pair = bench.shelf.poses.get(key)
    if pair is None:
        return None
    tones = figure_paint.DARK if theme.current().dark else figure_paint.LIGHT
    icons = figure_paint.FigureIcons(tones)
    return icons.pixmap(pair, phase, width_px=size.width(), height_px=size.height(), ratio=ratio)


def fact_grid(some: Iterable[facts.Fact]) -> QGridLayout:
    """Labels with their texts beside them."""
    grid = QGridLayout()
    grid.setHorizontalSpacing(12)
    grid.setVerticalSpacing(4)
    grid.setColumnStretch(1, 1)
    for number, (label, text) in enumerate(some):
        grid.addWidget(plain(label, role="small"), number, 0, Qt.AlignmentFlag.AlignTop)
        grid.addWidget(Wrapped(text), number, 1)
    return grid
