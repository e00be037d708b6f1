"""The third page: the program that the table makes, with what the checks say, before it is kept."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date, timedelta

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QButtonGroup,
    QDateEdit,
    QFormLayout,
    QHBoxLayout,
    QRadioButton,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.domain.exercise import Catalogue
from app.domain.findings import Finding, Weight
from app.domain.prescription_text import format_slot
from app.domain.program import DAYS, MAX_WEEKS, Program
from app.domain.wording import tr, trn
from app.exchange.coach_plan.build import Built
from app.ui.forms import NumberField, Wrapped, plain, text_field
from app.ui.refit_lines import RefitLines
from app.ui.words import pydate, qdate, tip

MOST_REMARKS = 200


class ProgramPage(QWidget):
    """Name, first week and number of weeks; the program week by week; what is worth knowing."""

    def __init__(self, *, today: date, open_program: str) -> None:
        super().__init__()
        self.name = text_field()
        self.start = QDateEdit(qdate(today + timedelta(days=-today.weekday() % 7)))
        self.start.setCalendarPopup(True)
        self.start.setDisplayFormat("d MMM yyyy")
        self.start.setMinimumHeight(32)
        self.weeks = NumberField(tr("Weeks"), low=1, high=MAX_WEEKS, whole=True)
        self.fresh = QRadioButton(tr("As a new program"))
        self.instead = QRadioButton(
            tr("In the place of what stands in {program}", program=open_program)
        )
        self.group = QButtonGroup(self)
        for choice in (self.fresh, self.instead):
            choice.setMinimumHeight(28)
            self.group.addButton(choice)
        self.fresh.setChecked(True)
        self.instead.setVisible(bool(open_program))
        self.summary = Wrapped()
        self.tree = QTreeWidget()
        self.tree.setHeaderHidden(True)
        self.tree.setAccessibleName(tr("The program"))
        self.tree.setMinimumHeight(200)
        self.tree.setStyleSheet("QTreeView::item { min-height: 24px; }")
        self.remarks = RefitLines()
        self.remarks.setAccessibleName(tr("Worth knowing"))
        self._lay_out()

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.setHorizontalSpacing(16)
        form.setLabelAlignment(Qt.AlignmentFlag.AlignLeft)
        for name, field in (
            (tr("Name"), self.name),
            (tr("First week of"), self.start),
            (tr("Weeks"), self.weeks),
        ):
            label = plain(name)
            label.setMinimumHeight(32)  # as high as its field, and so in line with it
            label.setBuddy(field)
            field.setAccessibleName(name)
            form.addRow(label, field)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(form)
        column.addWidget(
            Wrapped(tr("With more weeks than the table has, its last one goes on."), role="small")
        )
        column.addWidget(self.fresh)
        column.addWidget(self.instead)
        column.addWidget(self.summary)
        row = QHBoxLayout()
        row.addWidget(self.tree, 3)
        row.addWidget(self.remarks, 2)
        column.addLayout(row, 1)

    def start_day(self) -> date:
        """The day whose week is the first."""
        return pydate(self.start.date())

    def show_built(
        self,
        built: Built,
        findings: tuple[Finding, ...],
        *,
        catalogue: Catalogue,
        remarks: Iterable[str],
        unit: str,
    ) -> None:
        """Show the program, what the checks find in it and what had to be decided."""
        program = built.program
        self.summary.setText(" ".join(_summary(built, findings)))
        self._show_weeks(program, catalogue, unit)
        conflicts = [
            tr("Conflict: {text}", text=one.text)
            for one in findings
            if one.weight is Weight.CONFLICT
        ]
        lines = list(dict.fromkeys([*remarks, *conflicts]))
        shown = lines[:MOST_REMARKS]
        if len(lines) > len(shown):
            shown.append(tr("{n} more", n=len(lines) - len(shown)))
        self.remarks.say(*(shown or [tr("Nothing had to be decided for you.")]))

    def _show_weeks(self, program: Program, catalogue: Catalogue, unit: str) -> None:
        self.tree.clear()
        for index, week in enumerate(program.weeks):
            title = tr("Week {n}", n=index + 1)
            top = QTreeWidgetItem([tr("{week}, light", week=title) if week.light else title])
            self.tree.addTopLevelItem(top)
            for day, session in week.sessions():
                line = tr(DAYS[day])
                if session.title != line:
                    line = tr("{day}: {session}", day=line, session=session.title)
                child = QTreeWidgetItem([line])
                top.addChild(child)
                for slot in session.slots:
                    exercise = catalogue[slot.exercise]
                    text = f"{exercise.name}: {format_slot(slot, timed=exercise.timed, unit=unit)}"
                    leaf = QTreeWidgetItem([text])
                    leaf.setToolTip(0, tip(text))
                    child.addChild(leaf)
        first = self.tree.topLevelItem(0)
        if first is not None:
            self.tree.expandRecursively(self.tree.indexFromItem(first))


def _summary(built: Built, findings: tuple[Finding, ...]) -> list[str]:
    weeks = len(built.program.weeks)
    sessions = sum(1 for week in built.program.weeks for _ in week.sessions())
    said = [
        tr(
            "{weeks}, {sessions}.",
            weeks=trn("{n} week", "{n} weeks", weeks),
            sessions=trn("{n} session", "{n} sessions", sessions),
        )
    ]
    if built.left_out:
        said.append(trn("{n} line is left out.", "{n} lines are left out.", built.left_out))
    count = {weight: sum(one.weight is weight for one in findings) for weight in Weight}
    counts = (
        trn("{n} conflict", "{n} conflicts", count[Weight.CONFLICT]),
        trn("{n} outside a range", "{n} outside a range", count[Weight.OUTSIDE]),
        trn("{n} remark", "{n} remarks", count[Weight.REMARK]),
    )
    said.append(tr("The checks find: {counts}.", counts=", ".join(counts)))
    return said
