"""The tally: one bullet bar a muscle, its sets beside their range, all on one scale."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QEvent, QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import (
    QColor,
    QFontMetricsF,
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
)
from PySide6.QtWidgets import QScrollArea, QSizePolicy, QToolTip, QVBoxLayout, QWidget

from app.domain.exercise import Muscle
from app.domain.wording import tr
from app.ui import parts, signs
from app.ui.bench import Bench
from app.ui.tally_rows import TallyRow, range_text, scale_top, tally
from app.ui.theme import Step, Theme, current, font
from app.ui.words import ARROW, HOW_BY_CLICK, number, tip

BAR, LEAST_BAR, SIGN = 63.0, 40.0, 20.0
"""Of a compact row, px: its bar, the least it shrinks to for long names, room for a sign."""


class TallyPane(QWidget):
    """Title and bars for the open week; a tried edit shows as what it would add or take."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bars = TallyBars(bench)
        scroll = QScrollArea()
        scroll.setWidget(self.bars)
        scroll.setWidgetResizable(True)
        scroll.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(scroll)
        self.setMinimumWidth(360)

    def set_compact(self, compact: bool) -> None:
        """One line a muscle, with a short bar."""
        self.bars.compact = compact
        self.bars.refresh()


class TallyBars(QWidget):
    """The painted bars."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self.bench = bench
        self.compact = False
        self.rows: tuple[TallyRow, ...] = ()
        self.would: dict[str, TallyRow] = {}
        self.focus_row = 0
        self.light = False
        self._bar = 0.0
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.MinimumExpanding)
        self.setAccessibleName(tr("Tally"))
        parts.install(parts.Speaker(TallyBars, lambda bars: len(bars.rows), TallyBars.part))
        # methods, which Qt lets go of with a dialog's bars; a lambda would outlive them
        bench.replanned.connect(self.refresh)
        bench.week_shown.connect(self.refresh)
        bench.previewed.connect(self._previewed)
        self.refresh()

    # -- values ----------------------------------------------------------------------------

    def refresh(self, *_: object) -> None:
        """Read the open week again."""
        week = self.bench.open_week
        if week is None:
            self.rows = ()
        else:
            desk = self.bench.desk
            self.light = week.light
            self.rows = tally(desk.facts(week), desk.context, self.bench.week, self._names())
        self.focus_row = min(self.focus_row, max(0, len(self.rows) - 1))
        self.setAccessibleDescription("; ".join(map(self._spoken, self.rows)))
        self.setToolTip(tip(self._about()))
        self.setMinimumHeight(round(self._height()))
        self.would = self._tried()
        self.update()

    def _names(self) -> dict[Muscle, str]:
        return {muscle: name.trade for muscle, name in self.bench.shelf.muscles.items()}

    def _previewed(self, _: object = None) -> None:
        """Show what is tried; only rows that look different are painted again."""
        before, top = self.would, self._top()
        self.would = self._tried()
        if self._top() != top:
            self.update()
            return
        for k, row in enumerate(self.rows):
            if self.would.get(row.about) != before.get(row.about):
                self.update(self._place(k).adjusted(-8, -2, 8, 2).toAlignedRect())

    def _top(self) -> float:
        return scale_top((*self.rows, *self.would.values()))

    def _tried(self) -> dict[str, TallyRow]:
        """The rows that the edit being tried would change."""
        preview = self.bench.preview
        if preview is not None and self.bench.week < len(preview.after.weeks):
            desk, week = self.bench.desk, preview.after.weeks[self.bench.week]
            would = tally(desk.facts(week), desk.context, self.bench.week, self._names())
            now = {row.about: row for row in self.rows}
            return {
                row.about: row
                for row in would
                if row.about not in now or row.sets != now[row.about].sets
            }
        return {}

    def _spoken(self, row: TallyRow) -> str:
        text = tr("{row} {sets} sets", row=row.name, sets=number(row.sets))
        if row.range is not None and not self.light:
            text += tr(", range {range_text}", range_text=range_text(row))
            text += tr(", below") if row.below else tr(", above") if row.above else tr(", within")
        return text

    def part(self, number: int) -> parts.Part:
        """A row as a screen reader meets it."""
        name = self._spoken(self.rows[number])
        return parts.Part(name, self._place(number), focused=number == self.focus_row)

    # -- geometry --------------------------------------------------------------------------

    def _columns(self) -> int:
        return 3 if self.width() >= 480 else 2 if self.width() >= 330 else 1

    def _row_height(self) -> float:
        line = QFontMetricsF(font("body")).height()
        return max(24.0, line + 6) if self.compact else line + 19

    def _head(self) -> float:
        return QFontMetricsF(font("head")).height() + 14

    def _height(self) -> float:
        per_column = -(-len(self.rows) // self._columns()) if self.rows else 0
        return self._head() + per_column * self._row_height() + (6 if self.compact else 18)

    def _place(self, k: int) -> QRectF:
        columns = self._columns()
        per_column = -(-len(self.rows) // columns)
        gap, left = 28.0, 14.0
        width = (self.width() - 2 * left - gap * (columns - 1)) / columns
        column, line = divmod(k, per_column)
        return QRectF(
            left + column * (width + gap),
            self._head() + line * self._row_height(),
            width,
            self._row_height(),
        )

    def _bar_width(self) -> float:
        """How wide the bars of a compact tally are, all alike: less where a name needs room."""
        bold = font("body")
        bold.setWeight(bold.Weight.DemiBold)
        measure = QFontMetricsF(bold)
        name = max((measure.horizontalAdvance(row.name) for row in self.rows), default=0.0)
        number_room = QFontMetricsF(font("number")).horizontalAdvance("20.5") + 6
        left = self._place(0).width() - name - number_room - SIGN - 8
        return min(BAR, max(LEAST_BAR, left))

    def _row_at(self, where: QPointF) -> int | None:
        return next((k for k in range(len(self.rows)) if self._place(k).contains(where)), None)

    # -- painting --------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        colours = current()
        painter.fillRect(self.rect(), colours.sheet)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        wanted = QRectF(event.rect())
        if wanted.top() < self._head():
            self._paint_head(painter, colours)
        top = self._top()
        self._bar = self._bar_width() if self.compact else 0.0
        for k, row in enumerate(self.rows):
            if not self._place(k).adjusted(-8, -2, 8, 2).intersects(wanted):
                continue
            self._paint_row(painter, self._place(k), row, top=top, colours=colours)
            if self.hasFocus() and k == self.focus_row:
                signs.paint_ring(
                    painter, self._place(k).adjusted(-4, 0, 4, -2), colour=colours.accent
                )

    def _paint_head(self, painter: QPainter, colours: Theme) -> None:
        line = QRectF(14, 6, self.width() - 20, self._head() - 8)
        side = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        painter.setFont(font("head"))
        painter.setPen(colours.ink)
        painter.drawText(line, side, tr("Tally"))
        used = painter.fontMetrics().horizontalAdvance(tr("Tally")) + 12
        painter.setFont(font("small"))
        painter.setPen(colours.ink3)
        about = self._about()
        room = line.adjusted(used, 1, 0, 0)
        cut = Qt.TextElideMode.ElideRight
        shown = painter.fontMetrics().elidedText(about, cut, int(room.width()))
        painter.drawText(room, side, shown)

    def _about(self) -> str:
        """What the bars show; cut in the title where it is narrow, whole in the tooltip."""
        if not self.rows:
            return tr("opens with a program")
        return tr(
            "fractional sets in week {week} beside each muscle's range, emphasis first",
            week=self.bench.week + 1,
        )

    def _paint_row(
        self, painter: QPainter, place: QRectF, row: TallyRow, *, top: float, colours: Theme
    ) -> None:
        would = self.would.get(row.about)
        if would is not None:
            painter.fillRect(place.adjusted(-6, 0, 6, -3), colours.wash)
        shown = would or row
        line = QFontMetricsF(font("body")).height()
        text = QRectF(place.left(), place.top(), place.width(), line + 4)
        bar = self._bar
        words = text.adjusted(0, 0, -bar - 3 if bar else 0.0, 0)
        self._paint_words(painter, words, row, would=would, colours=colours)
        if self.compact:
            bed = QRectF(place.right() - bar, place.top() + 3, bar, line)
        else:
            bed = QRectF(place.left(), text.bottom() - 2, place.width(), 13)
        self._paint_bar(painter, bed, row, shown=shown, top=top, colours=colours)

    def _paint_words(
        self,
        painter: QPainter,
        rect: QRectF,
        row: TallyRow,
        *,
        would: TallyRow | None,
        colours: Theme,
    ) -> None:
        shown = would or row
        outside = not self.light and (shown.below or shown.above)
        bold = font("body")
        bold.setWeight(bold.Weight.DemiBold if row.emphasised else bold.Weight.Normal)
        tail = tr("light") if self.light else ("" if self.compact else range_text(row))
        parts: list[tuple[str, Step, QColor]] = [
            (tail, "small", colours.ink2),
            (
                number(shown.sets),
                "number",
                colours.accent if would else colours.outside if outside else colours.ink,
            ),
        ]
        if would is not None:
            parts.append((f"{number(row.sets)} {ARROW}", "body", colours.ink2))
        sign = SIGN if outside else 0
        wide = QFontMetricsF(bold).horizontalAdvance(row.name) + 4
        if wide + sign + sum(map(_width, parts)) > rect.width() and not self.light:
            del parts[0]  # the bed's brackets say it as well, and a name says it alone
        rest = rect
        for text, step, colour in parts:
            rest = self._put(painter, rest, text, colour=colour, step=step)
        right = rest.right()
        if outside:
            place = QRectF(right - 16, rect.center().y() - 7, 14, 14)
            signs.paint_outside(painter, place, colour=colours.outside, below=shown.below)
            right -= sign
        painter.setFont(bold)
        painter.setPen(colours.ink)
        room = right - rect.left() - 4
        name = painter.fontMetrics().elidedText(row.name, Qt.TextElideMode.ElideRight, int(room))
        painter.drawText(
            QRectF(rect.left(), rect.top(), room, rect.height()),
            int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter),
            name,
        )

    def _put(
        self, painter: QPainter, rect: QRectF, text: str, *, colour: QColor, step: Step
    ) -> QRectF:
        """Write at the right edge; what is left of the line."""
        if not text:
            return rect
        painter.setFont(font(step))
        painter.setPen(colour)
        wide = QFontMetricsF(painter.font()).horizontalAdvance(text)
        side = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        painter.drawText(rect, side, text)
        return rect.adjusted(0, 0, -wide - 6, 0)

    def _paint_bar(
        self,
        painter: QPainter,
        bed: QRectF,
        row: TallyRow,
        *,
        shown: TallyRow,
        top: float,
        colours: Theme,
    ) -> None:
        def x(sets: float) -> float:
            return bed.left() + bed.width() * min(sets, top) / top

        painter.setPen(QPen(colours.rule, 1))
        painter.drawLine(QLineF(bed.left(), bed.bottom(), bed.right(), bed.bottom()))
        band = row.range or shown.range
        if self.light:
            signs.paint_hatch(painter, bed, colour=colours.hair)
        elif band is not None:
            low = x(band.low or 0)
            high = bed.right() if band.high is None else x(band.high)
            signs.paint_bed(
                painter,
                QRectF(low, bed.top(), high - low, bed.height()),
                theme=colours,
                open_end=band.high is None,
            )
        tall = 9.0 if row.emphasised else 6.0
        middle = bed.center().y()
        kept = min(row.sets, shown.sets)
        body = QRectF(bed.left(), middle - tall / 2, x(kept) - bed.left(), tall)
        if self.light:
            painter.setPen(QPen(colours.bar, 1.2))
            painter.setBrush(colours.sheet)
            painter.drawRect(body)
            painter.setBrush(Qt.BrushStyle.NoBrush)
        else:
            self._paint_body(painter, body, kept, row=row, x=x, colours=colours)
        if shown.sets > row.sets:
            block = QRectF(x(row.sets) + 1, middle - 7.5, x(shown.sets) - x(row.sets) - 1, 15)
            painter.fillRect(block, colours.accent)
        elif shown.sets < row.sets:
            painter.setPen(QPen(colours.accent, 1.4))
            painter.setBrush(colours.sheet)
            gone = QRectF(x(shown.sets) + 1, middle - tall / 2, x(row.sets) - x(shown.sets), tall)
            painter.drawRect(gone)
            painter.setBrush(Qt.BrushStyle.NoBrush)
        elif shown.below and band is not None and band.low is not None and not self.light:
            signs.paint_dots(
                painter,
                left=x(shown.sets) + 3,
                right=x(band.low) - 1,
                y=middle,
                colour=colours.outside,
            )

    def _paint_body(
        self,
        painter: QPainter,
        body: QRectF,
        kept: float,
        *,
        row: TallyRow,
        x: Callable[[float], float],
        colours: Theme,
    ) -> None:
        band = row.range
        if band is not None and band.high is not None and kept > band.high:
            edge = x(band.high)
            painter.fillRect(
                QRectF(body.left(), body.top(), edge - body.left(), body.height()), colours.bar
            )
            painter.setPen(QPen(colours.outside, 1.4))
            painter.setBrush(colours.sheet)
            painter.drawRect(QRectF(edge, body.top(), body.right() - edge, body.height()))
            painter.setBrush(Qt.BrushStyle.NoBrush)
        else:
            painter.fillRect(body, colours.bar)

    # -- working ---------------------------------------------------------------------------

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        at = self._row_at(event.position())
        if at is not None:
            self.focus_row = at
            self._show_working(at)
            self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1, Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
        if event.key() in steps and self.rows:
            step = steps[Qt.Key(event.key())]
            self.focus_row = (self.focus_row + step) % len(self.rows)
            self.setAccessibleDescription(self._spoken(self.rows[self.focus_row]))
            parts.focus_moved(self)
            self.update()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Space, Qt.Key.Key_F3):
            self.show_account()
        else:
            super().keyPressEvent(event)

    def show_account(self) -> None:
        """Show how the sets in focus came about."""
        if self.rows:
            self._show_working(self.focus_row)

    def _show_working(self, at: int) -> None:
        from app.ui import accounts
        from app.ui.working_popup import show_account

        week = self.bench.open_week
        if week is not None:
            near = self._place(at).toRect()
            show_account(self.bench, accounts.of_row(self.bench, self.rows[at], week), near, self)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            at = self._row_at(QPointF(event.pos()))
            text = (
                self.toolTip()
                if at is None
                else f"{self._spoken(self.rows[at])}. {tr(HOW_BY_CLICK)}"
            )
            QToolTip.showText(event.globalPos(), text, self)
            return True
        return super().event(event)


def _width(part: tuple[str, Step, QColor]) -> float:
    """What a text at the right of a row takes, with the gap before it."""
    text, step, _ = part
    return QFontMetricsF(font(step)).horizontalAdvance(text) + 6 if text else 0.0
