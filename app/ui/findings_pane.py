"""Findings: one row each with sign, sentence, place and source, and its mend as a button."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import (
    QAbstractItemModel,
    QEvent,
    QModelIndex,
    QPersistentModelIndex,
    QPoint,
    QRectF,
    QSize,
    Qt,
)
from PySide6.QtGui import (
    QFont,
    QFontMetricsF,
    QHelpEvent,
    QMouseEvent,
    QPainter,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QMenu,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QToolTip,
    QVBoxLayout,
    QWidget,
)

from app.domain.edits.fields import accept, take_back
from app.domain.findings import Edit, Finding, Weight, edit
from app.domain.mends import Mender
from app.domain.working import UNSOURCED
from app.ui import signs
from app.ui.bench import Bench
from app.ui.forms import ask_text, plain
from app.ui.theme import current, font
from app.ui.words import DOT, label_text, tip

ROW = Qt.ItemDataRole.UserRole
WORDS = (("conflict", "conflicts"), ("outside", "outside"), ("remark", "remarks"))


@dataclass(frozen=True, slots=True)
class Row:
    """A finding in the list. state: '', 'would appear' or 'would go'; reason: why accepted."""

    finding: Finding
    state: str = ""
    reason: str = ""


class FindingsPane(QWidget):
    """The findings of the open week, or of the whole program, heaviest first."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self.compact = False
        self._mender: Mender | None = None
        self.title = plain("Findings", step="head")
        self.counts = [CountLabel(weight) for weight in Weight]
        self.accepted = plain("", role="small")
        self.whole = QCheckBox("all weeks")
        self.whole.setToolTip("Show the findings of every week, not of the open one alone")
        self.whole.toggled.connect(lambda _on: self.refresh())
        self.list = QListWidget()
        self.list.setItemDelegate(FindingDelegate(self))
        self.list.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.list.setMouseTracking(True)
        self.list.setAccessibleName("Findings")
        self.list.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        self.list.customContextMenuRequested.connect(self._menu)
        self.list.itemActivated.connect(self._go_to)
        self.empty = plain("", role="small")
        self.empty.setWordWrap(True)
        head = QHBoxLayout()
        head.setSpacing(10)
        head.addWidget(self.title)
        for label in self.counts:
            head.addWidget(label)
        head.addStretch(1)
        head.addWidget(self.accepted)
        head.addWidget(self.whole)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 6, 8, 2)
        column.setSpacing(4)
        column.addLayout(head)
        column.addWidget(self.empty)
        column.addWidget(self.list, 1)
        self.setMinimumWidth(330)
        self.setAutoFillBackground(True)
        bench.changed.connect(lambda *_: self.refresh())
        bench.week_shown.connect(lambda _: self.refresh())
        bench.previewed.connect(lambda _: self.refresh())
        self.refresh()

    def set_compact(self, compact: bool) -> None:
        """Shorter mend buttons."""
        self.compact = compact
        self.list.viewport().update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        for label in self.counts:
            label.say_words(self.width() > 430)

    # -- rows ------------------------------------------------------------------------------

    def refresh(self) -> None:
        """Read the findings again; rows of a tried edit come first."""
        rows = self._rows()
        self.list.setUpdatesEnabled(False)
        self.list.clear()
        for row in rows:
            item = QListWidgetItem(spoken(self.bench, row))
            item.setData(ROW, row)
            self.list.addItem(item)
        self.list.setUpdatesEnabled(True)
        open_rows = [r for r in rows if not r.reason and r.state != "would appear"]
        for label in self.counts:
            label.show_count(sum(r.finding.weight is label.weight for r in open_rows))
        done = sum(bool(r.reason) for r in rows)
        self.accepted.setText(f"{done} accepted" if done else "")
        self._say_empty(bool(rows))

    def _say_empty(self, any_rows: bool) -> None:
        self.empty.setVisible(not any_rows)
        self.list.setVisible(any_rows)
        if not self.bench.desk.has_program:
            self.empty.setText("Findings appear here while you plan.")
        else:
            where = "the program" if self.whole.isChecked() else f"week {self.bench.week + 1}"
            self.empty.setText(
                f"Nothing to say about {where}. A plan inside every range is still only a plan: "
                "the client's record decides."
            )

    def _rows(self) -> list[Row]:
        desk = self.bench.desk
        if not desk.has_program:
            return []
        preview = self.bench.preview
        week = self.bench.open_week
        here = None if self.whole.isChecked() or week is None else week.id

        def stands(finding: Finding) -> bool:
            return here is None or finding.place.week in (here, None)

        reasons = {a.finding: a.reason for a in desk.program.accepted}
        lost = set() if preview is None else {f.id for f in preview.lost}
        rows = [
            Row(f, "would go" if f.id in lost else "", reasons.get(f.id, ""))
            for f in desk.findings
            if stands(f)
        ]
        rows.sort(key=lambda row: bool(row.reason))
        if preview is not None:
            new = [Row(f, "would appear") for f in preview.gained if stands(f)]
            rows = [*new, *rows]
        return rows

    def mend_of(self, finding: Finding) -> Edit | None:
        """The edit that would settle it; worked out once, when its row is first painted."""
        desk, mender = self.bench.desk, self._mender
        context = desk.context
        if mender is None or mender.program is not desk.program or mender.context is not context:
            mender = self._mender = Mender(desk.program, context, earlier=mender)
        return mender.mended(finding).mend

    # -- acts ------------------------------------------------------------------------------

    def _go_to(self, item: QListWidgetItem) -> None:
        self.go_to(item.data(ROW).finding)

    def go_to(self, finding: Finding) -> None:
        """Open the week of a finding and select its card."""
        program = self.bench.desk.program
        if finding.place.week is not None:
            self.bench.show_week(program.week_index(finding.place.week))
        if finding.place.slot is not None:
            self.bench.select((finding.place.slot,))

    def mend(self, finding: Finding) -> None:
        """Apply the finding's mend as one edit."""
        mend = self.mend_of(finding)
        if mend is not None and self.bench.keep(mend):
            self.bench.said.emit(f"{mend.label}. Undo takes it back.")

    def accept(self, finding: Finding) -> None:
        """Ask for a reason and let the finding rest."""
        reason = ask_text(self, "Accept this finding", "Reason", verb="Accept", text="")
        if reason is not None:
            self.bench.keep(
                edit(f"Accept: {finding.text}", accept, finding=finding.id, reason=reason)
            )

    def take_back(self, finding: Finding) -> None:
        """Let an accepted finding speak up again."""
        self.bench.keep(edit(f"Take back: {finding.text}", take_back, finding=finding.id))

    def _menu(self, where: QPoint) -> None:
        item = self.list.itemAt(where)
        if item is None:
            return
        row: Row = item.data(ROW)
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.addAction("Go there", lambda: self.go_to(row.finding))
        mend = self.mend_of(row.finding)
        if mend is not None:
            menu.addAction(label_text(mend.label), lambda: self.mend(row.finding))
        if row.reason:
            menu.addAction("Take the acceptance back", lambda: self.take_back(row.finding))
        else:
            menu.addAction("Accept, with a reason…", lambda: self.accept(row.finding))
        menu.popup(self.list.viewport().mapToGlobal(where))

    def button_text(self, row: Row) -> str:
        """What the row's button says; empty without one."""
        if row.state:
            return ""
        if row.reason:
            return "Take back"
        mend = self.mend_of(row.finding)
        if mend is None:
            return "Accept…"
        return "Mend" if self.compact else mend.label

    def press_button(self, row: Row) -> None:
        """What the row's button does."""
        if row.reason:
            self.take_back(row.finding)
        elif self.mend_of(row.finding) is None:
            self.accept(row.finding)
        else:
            self.mend(row.finding)


class CountLabel(QWidget):
    """A sign with how many findings have its weight."""

    def __init__(self, weight: Weight) -> None:
        super().__init__()
        self.weight = weight
        self.count = 0
        self.wordy = True
        self.text = plain("", step="small")
        self.setMinimumHeight(20)
        row = QHBoxLayout(self)
        row.setContentsMargins(18, 0, 0, 0)
        row.addWidget(self.text)

    def show_count(self, count: int) -> None:
        """Show a number with its word."""
        one, many = WORDS[self.weight]
        word = one if count == 1 else many
        self.text.setText(f"{count} {word}" if self.wordy else str(count))
        self.setToolTip(f"{count} {word}")
        self.setAccessibleName(f"{count} {word}")
        self.count = count
        self.setVisible(count > 0)

    def say_words(self, wordy: bool) -> None:
        """Show the word beside the number, or the number alone."""
        if wordy is not self.wordy:
            self.wordy = wordy
            self.show_count(self.count)

    def paintEvent(self, event: object) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        at = QRectF(0, self.height() / 2 - 7, 14, 14)
        signs.paint_weight(painter, at, weight=self.weight, theme=current())


def source_text(bench: Bench, finding: Finding) -> str:
    """'Baz-Valle 2022, trained young men', or 'common practice'."""
    key = finding.source
    name = key
    if key not in UNSOURCED and key in bench.shelf.references:
        name = bench.shelf.references[key].short
    note = getattr(finding.range, "note", "") if finding.range is not None else ""
    return f"{name}, {note}" if note and name else name or note


def spoken(bench: Bench, row: Row) -> str:
    """The row in words."""
    finding = row.finding
    parts = [finding.weight.word, finding.text]
    if finding.place_text:
        parts.append(finding.place_text)
    if row.state:
        parts.append(row.state)
    if row.reason:
        parts.append(f"accepted: {row.reason}")
    source = source_text(bench, finding)
    if source:
        parts.append(source)
    return ". ".join(parts)


class FindingDelegate(QStyledItemDelegate):
    """Paints a row and takes clicks on its button."""

    def __init__(self, pane: FindingsPane) -> None:
        super().__init__(pane)
        self.pane = pane

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        tall = QFontMetricsF(font("body")).height() + QFontMetricsF(font("small")).height()
        return QSize(200, max(38, round(tall + 9)))

    def _button(self, rect: QRectF, row: Row) -> QRectF:
        text = self.pane.button_text(row)
        if not text:
            return QRectF()
        metrics = QFontMetricsF(font("body"))
        wide = min(metrics.horizontalAdvance(text) + 24, rect.width() * 0.42)
        return QRectF(rect.right() - wide - 4, rect.center().y() - 14, wide, 28)

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        row: Row = index.data(ROW)
        colours = current()
        rect = QRectF(option.rect)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        focused = bool(option.state & QStyle.StateFlag.State_HasFocus)
        if row.state == "would appear" or option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(rect, colours.wash)
        elif option.state & QStyle.StateFlag.State_MouseOver:
            painter.fillRect(rect, colours.hover)
        painter.setPen(QPen(colours.hair, 1))
        painter.drawLine(rect.bottomLeft(), rect.bottomRight())
        if focused:
            painter.setPen(QPen(colours.accent, 2))
            painter.drawRoundedRect(rect.adjusted(1, 1, -1, -1), 3, 3)
        sign = QRectF(rect.left() + 4, rect.top() + 5, 14, 14)
        signs.paint_weight(
            painter,
            sign,
            weight=row.finding.weight,
            theme=colours,
            below=row.finding.below,
            accepted=bool(row.reason),
        )
        right = self._paint_right(painter, rect, row)
        self._paint_text(
            painter,
            QRectF(rect.left() + 26, rect.top() + 3, right - rect.left() - 34, rect.height() - 6),
            row,
        )
        painter.restore()

    def _paint_right(self, painter: QPainter, rect: QRectF, row: Row) -> float:
        colours = current()
        if row.state:
            bold = font("body")
            bold.setWeight(QFont.Weight.DemiBold)
            painter.setFont(bold)
            painter.setPen(colours.accent)
            wide = painter.fontMetrics().horizontalAdvance(row.state) + 8
            box = QRectF(rect.right() - wide - 4, rect.top(), wide, rect.height())
            painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), row.state)
            return box.left()
        box = self._button(rect, row)
        painter.setPen(QPen(colours.rule, 1))
        painter.setBrush(colours.card)
        painter.drawRoundedRect(box, 4, 4)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setFont(font("body"))
        painter.setPen(colours.ink)
        text = painter.fontMetrics().elidedText(
            self.pane.button_text(row), Qt.TextElideMode.ElideRight, int(box.width() - 12)
        )
        painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), text)
        return box.left()

    def _paint_text(self, painter: QPainter, rect: QRectF, row: Row) -> None:
        colours, finding = current(), row.finding
        line = QFontMetricsF(font("body")).height()
        body = font("medium")
        body.setStrikeOut(row.state == "would go")
        painter.setFont(body)
        quiet = bool(row.reason) or row.state == "would go"
        painter.setPen(colours.ink3 if quiet else colours.ink)
        left = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        text = painter.fontMetrics().elidedText(
            finding.text, Qt.TextElideMode.ElideRight, int(rect.width())
        )
        painter.drawText(QRectF(rect.left(), rect.top(), rect.width(), line), left, text)
        small = font("small")
        small.setWeight(QFont.Weight.DemiBold)
        painter.setFont(small)
        by_weight = {Weight.CONFLICT: colours.conflict, Weight.OUTSIDE: colours.outside}
        painter.setPen(colours.ink3 if quiet else by_weight.get(finding.weight, colours.remark))
        second = QRectF(rect.left(), rect.top() + line, rect.width(), rect.height() - line)
        painter.drawText(second, left, finding.weight.word)
        used = painter.fontMetrics().horizontalAdvance(finding.weight.word) + 6
        painter.setFont(font("small"))
        painter.setPen(colours.ink3)
        if row.reason:
            parts = [f"accepted: {row.reason}"]
        else:
            parts = [p for p in (finding.place_text, source_text(self.pane.bench, finding)) if p]
        rest = "".join(f"{DOT} {part} " for part in parts)
        rest = painter.fontMetrics().elidedText(
            rest, Qt.TextElideMode.ElideRight, int(rect.width() - used)
        )
        painter.drawText(second.adjusted(used, 0, 0, 0), left, rest)

    def editorEvent(
        self,
        event: QEvent,
        model: QAbstractItemModel,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> bool:
        if (
            isinstance(event, QMouseEvent)
            and event.type() == QMouseEvent.Type.MouseButtonRelease
            and event.button() is Qt.MouseButton.LeftButton
        ):
            row: Row = index.data(ROW)
            if self._button(QRectF(option.rect), row).contains(event.position()):
                self.pane.press_button(row)
            else:
                self.pane.go_to(row.finding)
            return True
        return bool(super().editorEvent(event, model, option, index))

    def helpEvent(
        self,
        event: QHelpEvent,
        view: QAbstractItemView,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> bool:
        if not index.isValid():
            return False
        row: Row = index.data(ROW)
        lines = [row.finding.text, row.finding.reason, source_text(self.pane.bench, row.finding)]
        QToolTip.showText(event.globalPos(), tip(*lines), view)
        return True
