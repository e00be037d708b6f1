"""The program as it is beside an earlier state of it, week by week."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtGui import QFont
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QHBoxLayout,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.desk import Desk
from app.domain.compare import Mark, Row, SetCount, WeekPair, compare, whole_differences
from app.domain.errors import CoachError
from app.domain.muscle_groups import muscle_name
from app.domain.prescription_text import format_slot
from app.domain.program import Program, Slot
from app.domain.wording import mark, tr, trn
from app.domain.work import IssueId
from app.ui import theme
from app.ui.bench import Bench
from app.ui.forms import Sheet, Wrapped, plain
from app.ui.lines_table import add_line, choose, chosen, lines_table
from app.ui.words import ARROW, DOT, MINUS, full_date, list_of, number, tip
from db.store import Store

SIGNS = {
    Mark.SAME: "=",
    Mark.CHANGED: "\N{NOT EQUAL TO}",
    Mark.MOVED: ARROW,
    Mark.ADDED: "+",
    Mark.REMOVED: MINUS,
}
"""The form that stands before the word, so that neither colour nor reading is needed."""

COLUMNS = (mark("Where"), mark("Mark"), mark("Before"), mark("Now"), mark("Different"))
WEEK_COLUMNS = (mark("Week"), mark("Different"))


@dataclass(frozen=True, slots=True)
class Earlier:
    """A state to compare with: an issue that was handed out, or a program of this session."""

    text: str
    issue: IssueId | None = None
    program: Program | None = None


def earlier_states(desk: Desk, store: Store) -> tuple[Earlier, ...]:
    """What the open program can be compared with: issues, then states of this session."""
    program = desk.program
    found = [
        Earlier(tr("Handed out on {on}", on=full_date(line.on)), issue=line.id)
        for line in store.issues(program.id)
    ]
    history = desk.history
    for done in range(history.done, 0, -1):
        step = history.steps[done - 1]
        state = step.before.program
        if state is not None and state.id == program.id and state != step.after.program:
            found.append(Earlier(tr("Before: {step}", step=step.label), program=state))
    for step in history.steps[history.done :]:
        state = step.after.program
        if state is not None and state.id == program.id and state != step.before.program:
            found.append(Earlier(tr("Undone: {step}", step=step.label), program=state))
    return tuple(found)


class CompareDialog(Sheet):
    """Which state above, weeks left, the chosen week's slots before and now right."""

    def __init__(self, bench: Bench, store: Store, parent: QWidget | None) -> None:
        super().__init__(
            parent, tr("Compare {program}", program=bench.desk.program.name), verb=tr("Close")
        )
        self.bench, self.store = bench, store
        self.states = earlier_states(bench.desk, store)
        self.pairs: tuple[WeekPair, ...] = ()
        self.choice = QComboBox()
        self.choice.setMinimumHeight(32)
        for state in self.states:
            self.choice.addItem(state.text)
        self.row(tr("Compare with"), self.choice)
        self.summary = Wrapped("", step="medium")
        self.only = QCheckBox(tr("Only what differs"))
        self.only.setChecked(True)
        self.weeks = lines_table(tr("Weeks"), tuple(map(tr, WEEK_COLUMNS)), wide=1)
        self.slots = slot_table()
        self.title = plain("", step="head")
        self.sets = Wrapped("", role="small")
        self._lay_out()
        self.choice.currentIndexChanged.connect(lambda _k: self.refresh())
        self.only.toggled.connect(lambda _on: self.show_weeks())
        self.weeks.currentItemChanged.connect(lambda *_: self.show_week())
        self.cancel_button.hide()
        self.setMinimumSize(820, 480)
        self.resize(1060, 640)
        self.refresh()

    def _lay_out(self) -> None:
        top = QHBoxLayout()
        top.addWidget(self.summary, 1)
        top.addWidget(self.only)
        self.body.addLayout(top)
        right = QVBoxLayout()
        right.addWidget(self.title)
        right.addWidget(self.sets)
        right.addWidget(self.slots, 1)
        row = QHBoxLayout()
        row.setSpacing(16)
        self.weeks.setFixedWidth(300)
        row.addWidget(self.weeks)
        row.addLayout(right, 1)
        self.body.addLayout(row, 1)
        self.body.addStretch(0 if self.states else 1)
        for part in (self.weeks, self.slots, self.only):
            part.setVisible(bool(self.states))
        self.form.setRowVisible(self.choice, bool(self.states))

    # -- what is compared ------------------------------------------------------------------

    def _program(self, state: Earlier) -> Program:
        """The program of a state. Raises CoachError if the issue cannot be read."""
        if state.issue is not None:
            return self.store.load_issue(state.issue).program
        assert state.program is not None
        return state.program

    def refresh(self) -> None:
        """Compare with the chosen state."""
        self.pairs = ()
        self.show_error("")
        if not self.states:
            self.summary.setText(
                tr("There is nothing to compare with yet: hand a booklet out, or make an edit.")
            )
        else:
            desk = self.bench.desk
            try:
                before = self._program(self.states[max(0, self.choice.currentIndex())])
                self.pairs = compare(before, desk.program, desk.catalogue)
                self.summary.setText(
                    summary_text(self.pairs, whole_differences(before, desk.program))
                )
            except CoachError as error:
                self.summary.setText("")
                self.show_error(error.sentence)
        self.show_weeks()

    def show_weeks(self) -> None:
        """List the weeks, the open one chosen if it is among them."""
        self.weeks.clear()
        for number_, pair in enumerate(self.pairs):
            if pair.changed or not self.only.isChecked():
                add_line(self.weeks, (week_text(pair), counts_text(pair)), number_)
        here = next((n for n, p in enumerate(self.pairs) if p.after == self.bench.week), None)
        choose(self.weeks, here)
        self.show_week()

    def show_week(self) -> None:
        """Show the chosen week's slots side by side."""
        key = chosen(self.weeks)
        self.slots.clear()
        if not isinstance(key, int):
            self.title.setText("")
            self.sets.setText("")
            return
        pair = self.pairs[key]
        notes = f" {DOT} {', '.join(pair.notes)}" if pair.notes else ""
        self.title.setText(f"{week_text(pair)}{notes}")
        self.sets.setText(tr("Sets: {sets}", sets=sets_text(pair.sets)) if pair.sets else "")
        for row in pair.rows:
            if row.mark is not Mark.SAME or not self.only.isChecked():
                self._add(row)

    def _add(self, row: Row) -> None:
        place = row.becomes or row.was
        where = "" if place is None else place.text
        if row.was and row.becomes and row.was.day != row.becomes.day:
            where = f"{row.was.text}\n{ARROW} {row.becomes.text}"
        cells = (
            where,
            f"{SIGNS[row.mark]} {tr(row.mark.value)}",
            self._slot_text(row.before),
            self._slot_text(row.after),
            ", ".join(row.differs),
        )
        item = QTreeWidgetItem(list(cells))
        for column, text in enumerate(cells):
            item.setToolTip(column, tip(*text.splitlines()))
        if row.mark is Mark.REMOVED:
            font = QFont(item.font(2))
            font.setStrikeOut(True)
            item.setFont(2, font)
        self.slots.addTopLevelItem(item)

    def _slot_text(self, slot: Slot | None) -> str:
        """The exercise and its line; a dash where there is none."""
        if slot is None:
            return MINUS
        desk = self.bench.desk
        exercise = desk.catalogue[slot.exercise]
        line = format_slot(slot, timed=exercise.timed, unit=desk.client.units)
        return f"{exercise.name}\n{line}"


def slot_table() -> QTreeWidget:
    """The table of slots: two lines in each cell."""
    table = lines_table(tr("Before and now"), tuple(map(tr, COLUMNS)), wide=2)
    table.setUniformRowHeights(False)
    line = f"border-bottom: 1px solid {theme.current().hair.name()};"
    table.setStyleSheet(f"QTreeView::item {{ min-height: 40px; {line} }}")
    head = table.header()
    head.setSectionResizeMode(3, head.ResizeMode.Stretch)
    return table


def week_text(pair: WeekPair) -> str:
    """'Week 3', 'Week 4, was week 3', 'Week 2, removed' or 'Week 5, added'."""
    if pair.after is None:
        return tr("Week {before}, removed", before=(pair.before or 0) + 1)
    after = pair.after + 1
    if pair.before is None:
        return tr("Week {after}, added", after=after)
    if pair.before == pair.after:
        return tr("Week {after}", after=after)
    return tr("Week {after}, was week {before}", after=after, before=pair.before + 1)


def counted(mark: Mark, count: int) -> str:
    """'2 changed': how many slots bear a mark."""
    match mark:
        case Mark.SAME:
            return trn("{n} same", "{n} same", count)
        case Mark.CHANGED:
            return trn("{n} changed", "{n} changed", count)
        case Mark.MOVED:
            return trn("{n} moved", "{n} moved", count)
        case Mark.ADDED:
            return trn("{n} added", "{n} added", count)
        case Mark.REMOVED:
            return trn("{n} removed", "{n} removed", count)


def counts_text(pair: WeekPair) -> str:
    """'2 changed, 1 added'; what else differs; 'same' if nothing does."""
    marks = [(pair.count(mark), mark) for mark in Mark if mark is not Mark.SAME]
    parts = [f"{SIGNS[mark]} {counted(mark, count)}" for count, mark in marks if count]
    return (
        ", ".join(parts)
        or ", ".join(pair.notes)
        or (tr("same") if not pair.changed else tr("empty"))
    )


def summary_text(pairs: tuple[WeekPair, ...], whole: tuple[str, ...] = ()) -> str:
    """'3 of 12 weeks differ: 5 changed, 2 added. Of the whole: name.'"""
    weeks = _weeks_summary(pairs, alone=not whole)
    if not whole:
        return weeks
    return tr("{weeks} Of the whole: {list}.", weeks=weeks, list=list_of(list(whole)))


def _weeks_summary(pairs: tuple[WeekPair, ...], *, alone: bool) -> str:
    changed = [pair for pair in pairs if pair.changed]
    if not changed:
        return tr("Nothing differs.") if alone else tr("No week differs.")
    marks = [(sum(p.count(m) for p in pairs), m) for m in Mark if m is not Mark.SAME]
    told = ", ".join(counted(mark, count) for count, mark in marks if count)
    if not told:
        return trn(
            "{n} of {pairs} weeks differs.",
            "{n} of {pairs} weeks differ.",
            len(changed),
            pairs=len(pairs),
        )
    return trn(
        "{n} of {pairs} weeks differs: {told}.",
        "{n} of {pairs} weeks differ: {told}.",
        len(changed),
        pairs=len(pairs),
        told=told,
    )


def sets_text(counts: tuple[SetCount, ...]) -> str:
    """'Gluteals 12 before, 14 now (+2)': sets of each emphasised muscle."""
    return f" {DOT} ".join(_count_text(one) for one in counts)


def _count_text(one: SetCount) -> str:
    name = muscle_name(one.muscle)
    by = one.after - one.before
    if not by:
        return f"{name} {number(one.after)}"
    sign = "+" if by > 0 else MINUS
    return tr(
        "{name} {before} before, {after} now ({sign}{by})",
        name=name,
        before=number(one.before),
        after=number(one.after),
        sign=sign,
        by=number(abs(by)),
    )
