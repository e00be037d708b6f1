"""The season at a glance: one column a week, read like a score."""

from __future__ import annotations

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt, QTimer, Signal
from PySide6.QtGui import (
    QDragEnterEvent,
    QDragLeaveEvent,
    QDragMoveEvent,
    QDropEvent,
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPixmap,
    QResizeEvent,
)
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from app.domain.exercise import Muscle
from app.domain.program import Program
from app.ui import carry, theme
from app.ui.bench import Bench
from app.ui.season_columns import Column, columns, spoken
from app.ui.season_paint import Frame, Over, paint_columns, paint_frame, paint_over, season_height

OPEN_AFTER_MS = 700
"""A drag that rests this long over a column opens its week."""


class SeasonStrip(QWidget):
    """One column a week: blocks, rep target, emphasis sets, findings. Click opens a week.

    weeks_chosen(range): a run of weeks was chosen by dragging across or with Shift.
    """

    weeks_chosen = Signal(object)

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self.compact = False
        self.chosen = range(0)
        self._columns: dict[int, Column] = {}
        self._would: dict[int, Column] = {}
        self._picture: QPixmap | None = None
        self._press: int | None = None
        self._anchor: int | None = None
        self._hovered: int | None = None
        self._open_later = QTimer(self)
        self._open_later.setSingleShot(True)
        self._open_later.setInterval(OPEN_AFTER_MS)
        self._open_later.timeout.connect(self._open_hovered)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setAcceptDrops(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setAccessibleName("Season")
        bench.changed.connect(lambda *_: self.refresh())
        bench.week_shown.connect(lambda _: self._shown())
        bench.span_chosen.connect(lambda _: self.update())
        bench.previewed.connect(self._previewed)
        self.set_compact(False)
        self.refresh()

    # -- what is shown ---------------------------------------------------------------------

    def set_compact(self, compact: bool) -> None:
        """Take less height, without the title line."""
        self.compact = compact
        self.setFixedHeight(season_height(compact=compact))
        self._picture = None
        self.update()

    def refresh(self) -> None:
        """Read the open program again."""
        desk = self.bench.desk
        self._would = {}
        self._columns = columns(desk, desk.program, desk.findings) if desk.has_program else {}
        if self.chosen.stop > len(self._columns):
            self.chosen = range(0)
        self._shown()

    def _shown(self) -> None:
        self._picture = None
        names = self._names()
        column = self._columns.get(self.bench.week)
        self.setAccessibleDescription("" if column is None else spoken(column, names))
        self.update()

    def _names(self) -> dict[Muscle, str]:
        return {muscle: name.trade for muscle, name in self.bench.shelf.muscles.items()}

    def _previewed(self, preview: object) -> None:
        shown = self.bench.preview
        self._would = {}
        if shown is not None and len(shown.after.weeks) == len(shown.before.weeks):
            changed = [
                i
                for i, (a, b) in enumerate(zip(shown.before.weeks, shown.after.weeks, strict=True))
                if a is not b
            ]
            self._would = columns(self.bench.desk, shown.after, shown.findings, changed)
        self.update()

    def frame(self) -> Frame:
        """The geometry at the present size."""
        program = self.bench.desk.program if self.bench.desk.has_program else None
        return Frame(QRectF(self.rect()), len(self._columns), program=program, compact=self.compact)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        colours = theme.current()
        frame = self.frame()
        ratio = self.devicePixelRatioF()
        if self._picture is None or self._picture.size() != self.size() * ratio:
            self._picture = QPixmap(self.size() * ratio)
            self._picture.setDevicePixelRatio(ratio)
            self._picture.fill(colours.sheet)
            inner = QPainter(self._picture)
            inner.setRenderHint(QPainter.RenderHint.Antialiasing)
            paint_frame(inner, frame, self._names(), theme=colours, empty=not self._columns)
            paint_columns(inner, frame, self._columns.values(), theme=colours)
            inner.end()
        painter.drawPixmap(0, 0, self._picture)
        if not self._columns:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_over(
            painter,
            frame,
            self._columns,
            would=self._would,
            over=Over(self.bench.week, self.chosen, self._reach(), self.hasFocus()),
            theme=colours,
        )

    def _reach(self) -> range:
        program: Program = self.bench.desk.program
        return program.reach(min(self.bench.week, len(program.weeks) - 1), self.bench.span)

    def resizeEvent(self, event: QResizeEvent) -> None:
        self._picture = None
        super().resizeEvent(event)

    def changeEvent(self, event: QEvent) -> None:
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self._picture = None
        super().changeEvent(event)

    # -- mouse and keys --------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:
        at = self.frame().column_at(event.position())
        if event.button() is not Qt.MouseButton.LeftButton or at is None:
            return
        if event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            self._anchor = self.bench.week
            self._choose(min(at, self._anchor), max(at, self._anchor))
            return
        self._press = at
        self.chosen = range(0)
        self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        at = self.frame().column_at(event.position())
        pressed = event.buttons() & Qt.MouseButton.LeftButton
        if pressed and self._press is not None and at is not None and at != self._press:
            self._anchor = self._press
            self._choose(min(at, self._press), max(at, self._press))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        at = self.frame().column_at(event.position())
        if self._press is not None and at == self._press and not self.chosen:
            self.bench.show_week(at)
        self._press = None

    def _choose(self, first: int, last: int) -> None:
        self.chosen = range(first, last + 1)
        self.weeks_chosen.emit(self.chosen)
        self.bench.said.emit(f"Weeks {first + 1} to {last + 1} chosen")
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
        week = self.bench.week
        if event.key() in steps and self._columns:
            to = max(0, min(week + steps[Qt.Key(event.key())], len(self._columns) - 1))
            if event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
                if not self.chosen or self._anchor is None:
                    self._anchor = week
                self._choose(min(self._anchor, to), max(self._anchor, to))
            else:
                self.chosen = range(0)
            self.bench.show_week(to)
        elif event.key() == Qt.Key.Key_Home:
            self.bench.show_week(0)
        elif event.key() == Qt.Key.Key_End:
            self.bench.show_week(len(self._columns) - 1)
        elif event.key() == Qt.Key.Key_Escape and self.chosen:
            self.chosen = range(0)
            self.update()
        else:
            super().keyPressEvent(event)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            at = self.frame().column_at(QPointF(event.pos()))
            column = None if at is None else self._columns.get(at)
            text = "" if column is None else spoken(column, self._names())
            QToolTip.showText(event.globalPos(), text, self)
            return True
        return super().event(event)

    # -- a drag that passes over -----------------------------------------------------------

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if carry.from_mime(event.mimeData()) is not None:
            event.acceptProposedAction()

    def dragMoveEvent(self, event: QDragMoveEvent) -> None:
        self._hover(event.position().toPoint())
        event.ignore()  # a week is opened here; things are put down in the grid

    def dragLeaveEvent(self, event: QDragLeaveEvent) -> None:
        self._open_later.stop()
        self._hovered = None

    def dropEvent(self, event: QDropEvent) -> None:
        self._open_later.stop()
        event.ignore()

    def _hover(self, where: QPoint) -> None:
        at = self.frame().column_at(QPointF(where))
        if at != self._hovered:
            self._hovered = at
            self._open_later.stop()
            if at is not None and at != self.bench.week:
                self._open_later.start()

    def _open_hovered(self) -> None:
        if self._hovered is not None:
            self.bench.show_week(self._hovered)
