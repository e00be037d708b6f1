"""Findings: one row each with sign, sentence, place and source, and its mend as a button."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QPoint, Qt, Signal
from PySide6.QtGui import QFocusEvent, QKeyEvent, QMouseEvent, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QMenu,
    QVBoxLayout,
    QWidget,
)

from app.domain.edits.fields import accept, take_back
from app.domain.errors import CoachError
from app.domain.findings import Edit, Finding, Weight, edit
from app.domain.wording import mark, tr
from app.ui.bench import Bench
from app.ui.client import open_form
from app.ui.finding_delegate import FIRST_OF_GROUP, ROW, FindingDelegate, RowActs
from app.ui.finding_rows import Row, count_open, finding_rows, spoken
from app.ui.forms import ask_text, plain
from app.ui.mend_trial import MendTrial, full_label
from app.ui.weight_button import WORDS, WeightButton
from app.ui.words import label_text, list_of

if TYPE_CHECKING:
    from app.domain.mends import Mender


class FindingList(QListWidget):
    """The list; its keys: Enter goes there, Space shows what mending would do, M mends, A accepts
    or takes an acceptance back. pointed_at(row or None): whose button the pointer is on.
    """

    mend_wanted = Signal(object)
    accept_wanted = Signal(object)
    trial_wanted = Signal(object)
    pointed_at = Signal(object)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        item = self.currentItem()
        wanted = {
            Qt.Key.Key_M: self.mend_wanted,
            Qt.Key.Key_A: self.accept_wanted,
            Qt.Key.Key_Space: self.trial_wanted,
        }.get(Qt.Key(event.key()))
        if wanted is None or self.currentRow() < 0 or event.modifiers():
            super().keyPressEvent(event)
        else:
            wanted.emit(item.data(ROW))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        super().mouseMoveEvent(event)
        item, delegate = self.itemAt(event.position().toPoint()), self.itemDelegate()
        row: Row | None = None
        if item is not None and isinstance(delegate, FindingDelegate):
            place = delegate.button_of(self.visualItemRect(item).toRectF(), item.data(ROW))
            row = item.data(ROW) if place.contains(event.position()) else None
        self.pointed_at.emit(row)

    def leaveEvent(self, event: QEvent) -> None:
        self.pointed_at.emit(None)
        super().leaveEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        self.pointed_at.emit(None)
        super().focusOutEvent(event)


class FindingsPane(QWidget):
    """The findings of the open week, or of the whole program, heaviest first.

    range_wanted(str): the range behind a finding is asked for, by the name of its rule;
    day_wanted(int): the day that a finding is about is to be shown.
    """

    range_wanted = Signal(str)
    day_wanted = Signal(int)

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self.compact = False
        self._mender: Mender | None = None
        self._shown: list[Row] = []
        self.title = plain(tr("Findings"), step="head")
        self.counts = [WeightButton(weight) for weight in Weight]
        for count in self.counts:
            count.toggled.connect(lambda _on: self.refresh())
        self.accepted = plain("", role="small")
        self.whole = QCheckBox(tr("all weeks"))
        self.whole.setToolTip(tr("Show the findings of every week, not of the open one alone"))
        self.whole.toggled.connect(lambda _on: self.refresh())
        self.trial = MendTrial(bench, self.mend_of, self)
        self.list = self._made_list()
        self.empty = plain("", role="small")
        self.empty.setWordWrap(True)
        self._lay_out()
        self.setMinimumWidth(330)
        self.setAutoFillBackground(True)
        bench.replanned.connect(lambda *_: self.refresh())
        bench.week_shown.connect(lambda _: self.refresh())
        bench.previewed.connect(lambda _: self._previewed())
        self.refresh()

    def _made_list(self) -> FindingList:
        made = FindingList()
        acts = RowActs(self.button_text, self.press_button, self.go_to)
        made.setUniformItemSizes(True)
        made.setItemDelegate(FindingDelegate(self.bench, acts, self))
        made.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        made.setMouseTracking(True)
        made.setAccessibleName(tr("Findings"))
        made.setContextMenuPolicy(Qt.ContextMenuPolicy.CustomContextMenu)
        made.customContextMenuRequested.connect(self._menu)
        made.itemActivated.connect(self._go_to)
        made.mend_wanted.connect(self._mend_by_key)
        made.accept_wanted.connect(self._accept_by_key)
        made.trial_wanted.connect(self._try_by_key)
        made.pointed_at.connect(self._pointed_at)
        made.currentRowChanged.connect(lambda _: self.trial.stop())
        return made

    def _lay_out(self) -> None:
        head = QHBoxLayout()
        head.setSpacing(6)
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

    def set_compact(self, compact: bool) -> None:
        """Shorter mend buttons."""
        self.compact = compact
        self.list.viewport().update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._say_words()

    def _say_words(self) -> None:
        """Words beside the counts where the whole line has room for them."""
        for label in self.counts:
            label.say_words(True)
        parts = (self.title, *self.counts, self.accepted, self.whole)
        shown = [part.sizeHint().width() for part in parts if not part.isHidden()]
        if sum(shown) + 6 * len(shown) > self.width() - 24:
            for label in self.counts:
                label.say_words(False)

    # -- rows ------------------------------------------------------------------------------

    def refresh(self) -> None:
        """Read the findings again; rows of a tried edit come first, then weight by weight."""
        rows = self._rows()
        only = self.only
        self._show([row for row in rows if not only or row.finding.weight in only])
        counts = count_open(rows)
        for label in self.counts:
            label.show_count(counts[label.weight])
        done = sum(bool(r.reason) for r in rows)
        self.accepted.setText(tr("{done} accepted", done=done) if done else "")
        self._say_words()
        self._say_empty(bool(self._shown))

    def _previewed(self) -> None:
        if not self.trial.is_on:
            self.refresh()

    @property
    def only(self) -> frozenset[Weight]:
        """The weights that are shown alone; empty where all are."""
        return frozenset(label.weight for label in self.counts if label.isChecked())

    def _show(self, rows: list[Row]) -> None:
        """Put rows on show; items of findings that stay are kept, for the sake of a drag."""
        old = self._shown
        self._shown = rows
        most = min(len(old), len(rows))
        same_ends = 0
        while same_ends < most and old[-1 - same_ends].finding is rows[-1 - same_ends].finding:
            same_ends += 1
        same = 0
        while same < most - same_ends and old[same].finding is rows[same].finding:
            same += 1
        self.list.setUpdatesEnabled(False)
        for _ in range(len(old) - same - same_ends):
            self.list.takeItem(same)
        for at in range(same, len(rows) - same_ends):
            self.list.insertItem(at, QListWidgetItem())
        shift = len(old) - len(rows)
        for at, row in enumerate(rows):
            before = at if at < same else at + shift if at >= len(rows) - same_ends else None
            if before is None or not row.shows_as(old[before]):
                item = self.list.item(at)
                item.setText(spoken(self.bench, row))
                item.setData(ROW, row)
            first = _first(rows, at)
            if before is None or first is not _first(old, before):
                self.list.item(at).setData(FIRST_OF_GROUP, first)
        self.list.setUpdatesEnabled(True)

    def _say_empty(self, any_rows: bool) -> None:
        self.empty.setVisible(not any_rows)
        self.list.setVisible(any_rows)
        where = (
            tr("the program")
            if self.whole.isChecked()
            else tr("week {week}", week=self.bench.week + 1)
        )
        if not self.bench.desk.has_program:
            self.empty.setText(tr("Findings appear here while you plan."))
        elif self.only:
            words = list_of([tr(WORDS[weight]) for weight in sorted(self.only)])
            self.empty.setText(
                tr(
                    "No {words} in {where}. Press the sign above again to see the other findings.",
                    words=words,
                    where=where,
                )
            )
        else:
            self.empty.setText(
                tr(
                    "Nothing to say about {where}. A plan inside every range is "
                    "still only a plan: the client's record decides.",
                    where=where,
                )
            )

    def _rows(self) -> list[Row]:
        desk, week = self.bench.desk, self.bench.open_week
        if not desk.has_program:
            return []
        here = None if self.whole.isChecked() or week is None else week.id
        return finding_rows(desk, self.bench.preview, here)

    def mend_of(self, finding: Finding) -> Edit | None:
        """The edit that would settle it; worked out once, when its row is first painted."""
        from app.domain.mends import Mender

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
        elif finding.place.day is not None:
            self.day_wanted.emit(finding.place.day)

    def _pointed_at(self, row: Row | None) -> None:
        mends = row is not None and not row.state and not row.reason
        self.trial.point_at(row.finding if row is not None and mends else None)

    def _try_by_key(self, row: Row) -> None:
        if not row.state and not row.reason:
            self.trial.toggle(row.finding)

    def mend(self, finding: Finding) -> None:
        """Apply the finding's mend as one edit."""
        self.trial.stop()
        mend = self.mend_of(finding)
        if mend is None:
            return
        desk = self.bench.desk
        try:
            label = full_label(mend, desk.program, mend(desk.program), desk.catalogue)
        except CoachError as error:
            self.bench.refused.emit(error.sentence)
            return
        if self.bench.keep(replace(mend, label=label)):
            self.bench.said.emit(tr("{mend}. Undo takes it back.", mend=label))

    def accept(self, finding: Finding) -> None:
        """Ask for a reason and let the finding rest."""
        self.trial.stop()
        reason = ask_text(
            self,
            tr("Accept this finding"),
            tr("Reason"),
            verb=tr("Accept"),
            about=tr("{finding}. It stays quiet, and the reason is kept.", finding=finding.text),
        )
        if reason is not None:
            self.bench.keep(
                edit(
                    tr("Accept: {finding}", finding=finding.text),
                    accept,
                    finding=finding.id,
                    reason=reason,
                )
            )

    def show_account(self) -> None:
        """Show how the measured value of the row in focus came about."""
        from app.ui import accounts
        from app.ui.working_popup import show_account

        item = self.list.item(max(0, self.list.currentRow()))
        if self.list.count():
            row: Row = item.data(ROW)
            near = self.list.visualItemRect(item)
            account = accounts.of_finding(self.bench, row.finding)
            show_account(self.bench, account, near, self.list.viewport())

    def _mend_by_key(self, row: Row) -> None:
        if row.state or row.reason:
            return
        if self.mend_of(row.finding) is None:
            self.bench.said.emit(
                tr("No single edit would settle this. A accepts it with a reason.")
            )
        else:
            self.mend(row.finding)

    def _accept_by_key(self, row: Row) -> None:
        if row.reason:
            self.take_back(row.finding)
        elif not row.state:
            self.accept(row.finding)

    def take_back(self, finding: Finding) -> None:
        """Let an accepted finding speak up again."""
        self.bench.keep(
            edit(tr("Take back: {finding}", finding=finding.text), take_back, finding=finding.id)
        )

    def _menu(self, where: QPoint) -> None:
        item = self.list.itemAt(where)
        if item is None:
            return
        row: Row = item.data(ROW)
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.addAction(tr("Go there"), lambda: self.go_to(row.finding))
        self.list.setCurrentItem(item)
        menu.addAction(tr("How this came about") + "\tF3", self.show_account)
        mend = self.mend_of(row.finding)
        if mend is not None:
            menu.addAction(label_text(mend.label), lambda: self.mend(row.finding))
        if row.reason:
            menu.addAction(tr("Take the acceptance back"), lambda: self.take_back(row.finding))
        else:
            menu.addAction(tr("Accept, with a reason…"), lambda: self.accept(row.finding))
        if row.finding.range is not None and row.finding.range.text:
            rule = row.finding.rule
            menu.addAction(tr("Range of this rule…"), lambda: self.range_wanted.emit(rule))
        menu.popup(self.list.viewport().mapToGlobal(where))

    def button_text(self, row: Row) -> str:
        """What the row's button says; empty without one."""
        if row.state:
            return ""
        if row.reason:
            return tr("Take back")
        mend = self.mend_of(row.finding)
        if mend is None:
            form, _ = open_form.SETTLED_BY.get(row.finding.rule, (mark("Accept…"), None))
            return tr(form)
        return tr("Mend") if self.compact else mend.label

    def press_button(self, row: Row) -> None:
        """What the row's button does."""
        if row.reason:
            self.take_back(row.finding)
        elif self.mend_of(row.finding) is None:
            _, form = open_form.SETTLED_BY.get(row.finding.rule, ("", None))
            if form is None:
                self.accept(row.finding)
            else:
                form(self.bench, self.window())
        else:
            self.mend(row.finding)


def _first(rows: list[Row], at: int) -> bool:
    return at == 0 or rows[at - 1].group != rows[at].group
