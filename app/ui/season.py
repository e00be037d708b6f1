"""The season at a glance: one column a week, read like a score."""

from __future__ import annotations

from collections.abc import Mapping

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt, QTimer, Signal
from PySide6.QtGui import (
    QAccessible,
    QContextMenuEvent,
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
from PySide6.QtWidgets import QApplication, QSizePolicy, QToolTip, QWidget

from app.domain.exercise import Muscle
from app.domain.program import Program
from app.domain.wording import tr
from app.ui import carry, parts, theme
from app.ui.bench import Bench
from app.ui.heat_paint import (
    HeatFrame,
    heat_height,
    marks_legend,
    paint_heat,
    paint_heat_changes,
)
from app.ui.heat_rows import HeatRow, heat_rows, heat_sets, spoken_cell, spoken_week
from app.ui.season_columns import Column, columns, spoken
from app.ui.season_move import WeekMove, gap_at, paint_gap, step
from app.ui.season_paint import (
    Frame,
    Over,
    legend,
    paint_columns,
    paint_frame,
    paint_over,
    season_height,
)
from app.ui.words import HOW_BY_MENU, tip

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
        self.heat = False
        self._heat_rows: tuple[HeatRow, ...] = ()
        self._heat_would: dict[int, Mapping[str, float]] = {}
        self._columns: dict[int, Column] = {}
        self._would: dict[int, Column] = {}
        self._picture: QPixmap | None = None
        self._press: int | None = None
        self._pressed_at = QPointF()
        self._taken: range | None = None
        self._move: WeekMove | None = None
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
        self.setAccessibleName(tr("Season"))
        parts.install(parts.Speaker(SeasonStrip, SeasonStrip.part_count, SeasonStrip.part))
        bench.replanned.connect(lambda *_: self.refresh())
        bench.week_shown.connect(lambda _: self._shown())
        bench.span_chosen.connect(lambda _: self.update())
        bench.previewed.connect(self._previewed)
        self.set_compact(False)
        self.refresh()

    # -- what is shown ---------------------------------------------------------------------

    @property
    def chosen(self) -> range:
        """The chosen run of weeks; empty without one."""
        return self.bench.chosen

    @chosen.setter
    def chosen(self, run: range) -> None:
        self.bench.chosen = run

    def choose(self, run: range) -> None:
        """Choose a run of weeks, or none."""
        self.chosen = run
        self.weeks_chosen.emit(run)
        self.update()

    def set_compact(self, compact: bool) -> None:
        """Take less height, without the title line and without groups that no week trains."""
        changed = compact is not self.compact
        self.compact = compact
        if changed and self.heat:
            self.refresh()
        self._take_height()

    def show_heat(self, on: bool) -> None:
        """Show sets per muscle over all weeks as a heat strip, or the score again."""
        self.heat = on
        self.refresh()

    def _take_height(self) -> None:
        if self.heat and self._heat_rows:
            self.setFixedHeight(heat_height(len(self._heat_rows), compact=self.compact))
        else:
            self.setFixedHeight(season_height(compact=self.compact))
        self._picture = None
        self.update()

    def refresh(self) -> None:
        """Read the open program again."""
        desk = self.bench.desk
        self._would = {}
        self._columns = columns(desk, desk.program, desk.findings) if desk.has_program else {}
        self._heat_rows = ()
        self._heat_would = {}
        if self.heat and desk.has_program:
            roomy = not self.compact
            self._heat_rows = heat_rows(desk, desk.program, self._names(), untrained=roomy)
        if self.chosen.stop > len(self._columns):
            self.chosen = range(0)
        self._take_height()
        marks = (
            marks_legend()
            if self._heat_rows
            else legend(desk.program if desk.has_program else None, self._names())
        )
        self.setToolTip(tip(marks))
        self._shown()

    def _shown(self) -> None:
        self._picture = None
        self.setAccessibleDescription(self._told(self.bench.week))
        parts.focus_moved(self)
        self.update()

    def part_count(self) -> int:
        """How many things are spoken: the weeks, then the heat strip's cells row by row."""
        return len(self._columns) * (1 + len(self._heat_rows))

    def part(self, number: int) -> parts.Part:
        """A week, or a cell of the heat strip."""
        line, week = divmod(number, len(self._columns))
        frame = self.frame()
        if line and isinstance(frame, HeatFrame):
            told = spoken_cell(self._heat_rows[line - 1], week, light=self._columns[week].light)
            return parts.Part(told, frame.cell(line - 1, week), QAccessible.Role.Cell)
        return parts.Part(
            self._told(week),
            frame.column(week),
            selected=week in self.chosen,
            focused=week == self.bench.week,
        )

    def _told(self, week: int) -> str:
        """A week in words, as the view shows it."""
        column = self._columns.get(week)
        if column is None:
            return ""
        if self._heat_rows:
            return spoken_week(self._heat_rows, week, light=column.light)
        return spoken(column, self._names())

    def _names(self) -> dict[Muscle, str]:
        return {muscle: name.trade for muscle, name in self.bench.shelf.muscles.items()}

    def _previewed(self, preview: object) -> None:
        shown = self.bench.preview
        self._would, self._heat_would = {}, {}
        if shown is not None and len(shown.after.weeks) == len(shown.before.weeks):
            changed = [
                i
                for i, (a, b) in enumerate(zip(shown.before.weeks, shown.after.weeks, strict=True))
                if a is not b
            ]
            self._would = columns(self.bench.desk, shown.after, shown.findings, changed)
            if self._heat_rows:
                self._heat_would = heat_sets(self.bench.desk, shown.after, changed)
        self.update()

    def frame(self) -> Frame:
        """The geometry at the present size."""
        program = self.bench.desk.program if self.bench.desk.has_program else None
        rect, count = QRectF(self.rect()), len(self._columns)
        if self._heat_rows:
            names = tuple(row.name for row in self._heat_rows)
            return HeatFrame(rect, count, program=program, compact=self.compact, names=names)
        return Frame(rect, count, program=program, compact=self.compact)

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
            if isinstance(frame, HeatFrame):
                light = [column.light for column in self._columns.values()]
                paint_heat(inner, frame, self._heat_rows, light=light, theme=colours)
            else:
                paint_frame(inner, frame, self._names(), theme=colours, empty=not self._columns)
                paint_columns(inner, frame, self._columns.values(), theme=colours)
            inner.end()
        painter.drawPixmap(0, 0, self._picture)
        if not self._columns:
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        heat = isinstance(frame, HeatFrame)
        if isinstance(frame, HeatFrame):
            paint_heat_changes(painter, frame, self._heat_rows, self._heat_would, theme=colours)
        paint_over(
            painter,
            frame,
            self._columns,
            would={} if heat else self._would,
            over=Over(self.bench.week, self.chosen, self._reach(), self.hasFocus()),
            theme=colours,
        )
        if self._move is not None:
            paint_gap(painter, frame, self._move.gap, colour=colours.accent)

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
        self._press, self._pressed_at = at, event.position()
        self._taken = self._weeks_at(event.position())
        if self._taken is None:
            self.chosen = range(0)
        self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        where = event.position()
        if not event.buttons() & Qt.MouseButton.LeftButton:
            hand = Qt.CursorShape.OpenHandCursor
            over_number = self._weeks_at(where) is not None
            self.setCursor(hand if over_number else Qt.CursorShape.ArrowCursor)
            return
        if self._press is None:
            return
        if self._taken is not None:
            far = (where - self._pressed_at).manhattanLength()
            if self._move is not None or far >= QApplication.startDragDistance():
                self._move_to(gap_at(self.frame(), where.x()))
            return
        at = self.frame().column_at(where)
        if at is not None and at != self._press:
            self._anchor = self._press
            self._choose(min(at, self._press), max(at, self._press))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        at, press = self.frame().column_at(event.position()), self._press
        self._press = None
        if self._move is not None:
            self._put_down()
        elif press is not None and at == press:
            if self._taken is not None:
                self.chosen = range(0)
                self.update()
            if not self.chosen:
                self.bench.show_week(at)

    # -- moving weeks ----------------------------------------------------------------------

    @property
    def movable(self) -> range:
        """What a move takes along: the chosen run, or the open week."""
        return self.chosen or range(self.bench.week, self.bench.week + 1)

    def _weeks_at(self, where: QPointF) -> range | None:
        """The weeks that a drag by the number under the pointer takes along; None beside numbers.

        A number of the chosen run takes the whole run, any other its own week.
        """
        frame = self.frame()
        at = frame.column_at(where)
        if at is None or where.y() < frame.numbers.top():
            return None
        return self.chosen if at in self.chosen else range(at, at + 1)

    def _move_to(self, gap: int) -> None:
        if self._move is None or gap != self._move.gap:
            self.setCursor(Qt.CursorShape.ClosedHandCursor)
            self._move = WeekMove(self._taken or self.movable, gap)
            if self._move.goes:
                self.bench.try_edit(self._move.edit())
            else:
                self.bench.clear_preview()
            self.bench.said.emit(self._move.told)
            self.update()

    def _let_go(self) -> None:
        self._move = self._press = None
        self.unsetCursor()
        self.bench.clear_preview()
        self.update()

    def _put_down(self) -> None:
        move = self._move
        self._let_go()
        if move is not None and move.goes:
            self._keep_move(move)

    def step_weeks(self, by: int) -> None:
        """Move the chosen run, or the open week, one week earlier (-1) or later (+1)."""
        move = step(self.movable, by, len(self._columns))
        if move is None:
            self.bench.said.emit(tr("There is no week to pass on that side."))
        else:
            self._keep_move(move)

    def _keep_move(self, move: WeekMove) -> None:
        """Keep a move; the open week stays open and the run stays chosen."""
        open_week = self.bench.open_week
        run = self.chosen if move.run == self.chosen else range(0)
        if open_week is None or not self.bench.keep(move.edit()):
            return
        self.chosen = range(move.first, move.first + len(run)) if run else run
        self.bench.show_week(self.bench.desk.program.week_index(open_week.id))
        name = move.name.capitalize()
        self.bench.said.emit(tr("{name} moved. Undo takes it back.", name=name))
        self.update()

    def _choose(self, first: int, last: int) -> None:
        self.choose(range(first, last + 1))
        self.bench.said.emit(tr("Weeks {first} to {last} chosen", first=first + 1, last=last + 1))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
        week = self.bench.week
        alt = bool(event.modifiers() & Qt.KeyboardModifier.AltModifier)
        if event.key() == Qt.Key.Key_Escape and self._move is not None:
            self._let_go()
        elif event.key() in steps and self._columns and alt:
            self.step_weeks(steps[Qt.Key(event.key())])
        elif event.key() in steps and self._columns:
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
            self.choose(range(0))
        else:
            super().keyPressEvent(event)

    # -- how it came about -----------------------------------------------------------------

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        where = QPointF(event.pos())
        if event.reason() == QContextMenuEvent.Reason.Keyboard:
            self.show_account()
            return
        at = self.frame().column_at(where)
        if at is not None:
            self._show_account(at, where)

    def show_account(self) -> None:
        """Show how the numbers of the open week's column came about."""
        if self._columns:
            self._show_account(self.bench.week, None)

    def _show_account(self, week: int, where: QPointF | None) -> None:
        """Of a column, or of the heat strip's cell under the point."""
        from app.ui import accounts
        from app.ui.working_popup import show_account

        frame, bench = self.frame(), self.bench
        at = frame.row_at(where) if isinstance(frame, HeatFrame) and where is not None else None
        cell = None if at is None else self._heat_rows[at].cells[week]
        if cell is not None:
            account = accounts.of_row(bench, cell, bench.desk.program.weeks[week])
        else:
            account = accounts.of_week(bench, week, whole=bool(self._heat_rows))
        show_account(bench, account, frame.column(week).toRect(), self)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            at = self.frame().column_at(QPointF(event.pos()))
            told = "" if at is None else self._tip(at, QPointF(event.pos()))
            text = tip(f"{told}. {tr(HOW_BY_MENU)}") if told else self.toolTip()
            QToolTip.showText(event.globalPos(), text, self)
            return True
        return super().event(event)

    def _tip(self, week: int, where: QPointF) -> str:
        frame = self.frame()
        row = frame.row_at(where) if isinstance(frame, HeatFrame) else None
        if row is not None:
            return spoken_cell(self._heat_rows[row], week, light=self._columns[week].light)
        if self._weeks_at(where) is not None:
            return tr(
                "{told}. Drag the number to move the week; Alt and arrows do so too",
                told=self._told(week),
            )
        return self._told(week)

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
