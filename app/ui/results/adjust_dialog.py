"""Adjusting the coming week from what was done: taken, changed or left, one by one or all.

What is taken goes into the program as one step; the file's log says why. The checks tell beforehand
what they would say of it.
"""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import QPoint, QTimer
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QVBoxLayout, QWidget

from app.domain.adjust import Change, adjust, advise, coming_week, reason
from app.domain.errors import CoachError
from app.domain.findings import Edit, Finding, edit
from app.domain.watch import Watched, watch
from app.domain.wording import tr, trn
from app.domain.working import Working
from app.ui import worker
from app.ui.bench import Bench
from app.ui.forms import Sheet, Wrapped, button, plain
from app.ui.results.adjust_rows import Line
from app.ui.results.adjust_table import AdjustTable
from app.ui.words import week_span
from app.ui.working_popup import show_working

SOON_MS = 150
MOST_FINDINGS = 4


class AdjustDialog(Sheet):
    """Signs above, suggestions slot by slot, and below what the checks would say."""

    def __init__(self, bench: Bench, parent: QWidget | None, *, today: date) -> None:
        super().__init__(
            parent,
            tr("Adjust {program}", program=bench.desk.program.name),
            verb=tr("Adjust"),
            about=tr(
                "Suggestions from the results, not orders: tick what you take, type over what you "
                "would rather do. How the client looked and felt counts for more than figures."
            ),
        )
        self.bench, self.today = bench, today
        desk = bench.desk
        self.diary = desk.diary
        self.week_box = QComboBox()
        self.week_box.setMinimumHeight(32)
        for index in range(len(desk.program.weeks)):
            span = week_span(desk.program, index, short=True)
            self.week_box.addItem(tr("Week {week}: {span}", week=index + 1, span=span), index)
        self.week_box.setCurrentIndex(coming_week(desk.program, self.diary.results, today))
        self.row(tr("Week"), self.week_box)
        self.signs = QVBoxLayout()
        self.table = AdjustTable()
        self.checks = Wrapped(role="small")
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(SOON_MS)
        self._timer.timeout.connect(self.check)
        self._job: worker.Job[tuple[Watched, ...]] | None = None
        self._lay_out()
        self.week_box.currentIndexChanged.connect(lambda _: self.show_week())
        self.table.changed.connect(self._changed)
        self.table.currentCellChanged.connect(lambda *_: self._enable())
        self.resize(1080, 680)
        self.show_week()
        self.table.setFocus()
        QTimer.singleShot(0, self.look_for_signs)

    def _lay_out(self) -> None:
        self.body.addLayout(self.signs)
        self.body.addWidget(self.table, 1)
        acts = QHBoxLayout()
        self.how_button = button(tr("How it came about"), self.show_how)
        for made in (
            button(tr("Take all"), lambda: self.take_all(True)),
            button(tr("Take none"), lambda: self.take_all(False)),
            self.how_button,
        ):
            acts.addWidget(made)
        acts.addStretch(1)
        self.body.addLayout(acts)
        self.body.addWidget(plain(tr("What the checks would say"), step="head"))
        self.body.addWidget(self.checks)

    @property
    def week(self) -> int:
        """The week that is adjusted, from 0."""
        return int(self.week_box.currentIndex())

    # -- suggestions -----------------------------------------------------------------------

    def show_week(self) -> None:
        """Show the suggestions for the chosen week; those that change something are ticked."""
        desk = self.bench.desk
        found = advise(
            desk.program,
            self.week,
            self.diary.results,
            client=desk.client,
            catalogue=desk.catalogue,
        )
        titles = {
            slot.id: session.title
            for _, session in desk.program.weeks[self.week].sessions()
            for slot in session.slots
        }
        # what a newer test has overtaken, or the coach set by hand, waits to be asked for
        self.table.show_lines(
            [
                Line(one, titles[one.slot.id], desk.client.units, one.changes and not one.moot)
                for one in found
            ]
        )
        self._changed()

    def take_all(self, taken: bool) -> None:
        """Tick every suggestion that changes something, or none."""
        for line in self.table.lines:
            line.taken = taken and line.wrong is None and self._change(line) is not None
        self.table.refresh()
        self._changed()

    def show_how(self) -> None:
        """Show how the suggestion at the cursor came about."""
        line = self.table.line
        if line is None:
            return
        box = self.table.visualRect(self.table.currentIndex())
        where = self.table.viewport().mapToGlobal(box.bottomLeft() + QPoint(0, 4))
        show_working(self.bench, line.advice.working(self.bench.desk.client.units), where, self)

    @staticmethod
    def _change(line: Line) -> Change | None:
        try:
            return line.change()
        except CoachError:
            return None

    def changes(self) -> tuple[Change, ...]:
        """What is taken."""
        taken = (self._change(line) for line in self.table.lines if line.taken)
        return tuple(change for change in taken if change is not None)

    def _changed(self) -> None:
        self.show_error("")
        self._enable()
        self._timer.start()

    def _enable(self) -> None:
        count = len(self.changes())
        week = self.week + 1
        self.keep_button.setEnabled(bool(count))
        self.keep_button.setText(
            trn(
                "Adjust week {week}: {n} change",
                "Adjust week {week}: {n} changes",
                count,
                week=week,
            )
        )
        line = self.table.line
        self.how_button.setEnabled(line is not None and bool(line.advice.adjustment.lines))

    # -- what it would do ------------------------------------------------------------------

    def _edit(self) -> Edit:
        changes = self.changes()
        label = trn(
            "Adjust week {week} from the results, {n} change",
            "Adjust week {week} from the results, {n} changes",
            len(changes),
            week=self.week + 1,
        )
        return edit(label, adjust, changes=changes)

    def check(self) -> None:
        """Say what the checks would say of what is taken."""
        self._timer.stop()
        if not self.changes():
            self.checks.setText(tr("Nothing is taken."))
            return
        try:
            preview = self.bench.desk.preview(self._edit())
        except CoachError as error:
            self.checks.setText(error.sentence)
            return
        told = [
            *_told(tr("New: {finding}"), preview.gained),
            *_told(tr("No longer: {finding}"), preview.lost),
        ]
        self.checks.setText("\n".join(told) or tr("Nothing new, and nothing less."))

    def keep(self) -> None:
        """Keep what is taken as one step. Raises CoachError if it cannot be kept."""
        wrong = next((line for line in self.table.lines if line.wrong is not None), None)
        if wrong is not None and wrong.wrong is not None:
            raise CoachError(
                wrong.wrong.what, where=wrong.advice.exercise.name, mend=wrong.wrong.mend
            )
        desk = self.bench.desk
        advices = [line.advice for line in self.table.lines]
        why = reason(advices, self.changes(), desk.client.units)
        desk.keep(self._edit(), reason=why)
        self.bench.show_week(self.week)

    # -- signs -----------------------------------------------------------------------------

    def look_for_signs(self) -> None:
        """Look for stalls and strain off this thread; the library behind it is slow to load."""
        desk = self.bench.desk
        program, diary, client, catalogue = desk.program, self.diary, desk.client, desk.catalogue
        today = self.today
        if not diary.results:
            return

        def look() -> tuple[Watched, ...]:
            from scipy.stats import theilslopes

            return watch(
                program, diary, client, catalogue=catalogue, on=today, regression=theilslopes
            )

        self._job = worker.start(
            look, self.show_signs, lambda error: self.show_error(error.sentence)
        )

    def show_signs(self, found: tuple[Watched, ...]) -> None:
        """Show the signs above the table, each with its account."""
        self._job = None
        for one in found:
            name = one.exercise.name if one.exercise is not None else self.bench.desk.client.name
            row = QHBoxLayout()
            text = tr("{name}: {text}", name=name, text=one.suggestion.text)
            row.addWidget(Wrapped(text), 1)
            how = button(tr("How"), lambda: None)
            how.setAccessibleName(tr("{name}, how that came about", name=name))
            working = Working(name, tr("sign"), one.suggestion.lines, one.suggestion.sources)
            how.clicked.connect(
                lambda _c=False, w=working, b=how: show_working(
                    self.bench, w, b.mapToGlobal(b.rect().bottomLeft()), self
                )
            )
            row.addWidget(how)
            self.signs.addLayout(row)

    def done(self, result: int) -> None:
        """Let go of work that is still under way."""
        if self._job is not None:
            self._job.cancel()
            self._job = None
        super().done(result)


def _told(template: str, findings: tuple[Finding, ...]) -> list[str]:
    """The first few findings as lines, and how many more there are."""
    lines = [
        template.format(finding=f"{one.text} ({one.place_text})" if one.place_text else one.text)
        for one in findings[:MOST_FINDINGS]
    ]
    more = len(findings) - MOST_FINDINGS
    if more > 0:
        lines.append(trn("and {n} more", "and {n} more", more))
    return lines
