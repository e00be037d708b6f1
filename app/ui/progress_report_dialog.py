"""The client's progress report before it leaves the window: look at it, then keep or print it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date, datetime

from PySide6.QtCore import QTimer
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QPlainTextEdit,
    QVBoxLayout,
    QWidget,
)

from app.booklet import Paper
from app.booklet.progress_report import MOST_EXERCISES, MOST_NEXT, ProgressReport
from app.booklet.report_entries import client_text
from app.domain.errors import CoachError
from app.domain.progress.series import Days, StrengthSeries, mass_series, strength_series
from app.domain.trend import Regression
from app.domain.wording import mark, tr
from app.exchange.files import safe_name
from app.ui.bench import Bench
from app.ui.charts.data import exercises_to_show, weeks_to_show
from app.ui.charts.kinds import Asked
from app.ui.forms import Wrapped, plain
from app.ui.paper_sheet import PaperSheet

SIZES = ((Paper.A4, "A4"), (Paper.LETTER, mark("US Letter")))
SETTLE_MS = 400
"""Typing rests so long before the pages are made anew."""


class ProgressReportDialog(PaperSheet):
    """Options and the coach's words left, pages right, verbs at the foot."""

    def __init__(self, bench: Bench, parent: QWidget | None, *, today: date | None = None) -> None:
        name = bench.desk.client.name
        super().__init__(
            bench,
            parent,
            tr("Progress report of {name}", name=name),
            job_name=tr("Weekloom progress report"),
        )
        self.today = today or datetime.now().astimezone().date()
        self.paper = QComboBox()
        self.paper.setMinimumHeight(32)
        for _, size in SIZES:
            self.paper.addItem(tr(size))
        if bench.desk.client.paper == "Letter":
            self.paper.setCurrentIndex(1)
        self.named = QCheckBox(tr("With the client's name"))
        self.named.setChecked(True)
        self.words = QPlainTextEdit()
        self.words.setAccessibleName(tr("What comes next, in your words"))
        self.words.setTabChangesFocus(True)
        self.words.setPlaceholderText(
            tr("What comes next, in your words. Left empty, there are lines to write on.")
        )
        self.count = plain("", role="small")
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(SETTLE_MS)
        self._timer.timeout.connect(self.make)
        self._lay_out()
        self.paper.currentIndexChanged.connect(lambda _at: self.make())
        for box in (self.grey, self.named):
            box.setMinimumHeight(24)
            box.toggled.connect(lambda _on: self.make())
        self.words.textChanged.connect(self._typed)
        self.resize(1060, 780)
        self._count()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.make()

    def _lay_out(self) -> None:
        self.row(tr("Paper"), self.paper)
        self.column.removeItem(self.form)
        left = QVBoxLayout()
        left.setContentsMargins(0, 0, 0, 0)
        left.addLayout(self.form)
        left.addWidget(self.grey)
        left.addWidget(self.named)
        label = plain(tr("What comes next"))
        label.setBuddy(self.words)
        left.addWidget(label)
        left.addWidget(self.words, 1)
        left.addWidget(self.count)
        left.addWidget(
            Wrapped(
                tr(
                    "Two pages for the client: what was planned and done, strength with its "
                    "range, body mass with its corridor. Look at it together."
                ),
                role="small",
            )
        )
        self.put_beside(left, width=270)

    # -- making --------------------------------------------------------------------------------

    def _typed(self) -> None:
        self._count()
        self._timer.start()

    def _count(self) -> None:
        left = MOST_NEXT - len(self.words.toPlainText())
        if left >= 0:
            self.count.setText(tr("{n} letters left", n=left))
        else:
            self.count.setText(tr("{n} letters too many: they are not printed", n=-left))

    def _asked(self) -> Asked:
        desk = self.bench.desk
        program = desk.program if desk.has_program else None
        asked = Asked(desk.client, program, desk.diary, desk.catalogue)
        if program is None:
            return asked
        return replace(asked, printed=desk.handed_out().begun(program, self.today))

    def report(self) -> Callable[[Regression], ProgressReport]:
        """What makes the report as chosen, to be called off this thread."""
        asked, today = self._asked(), self.today
        words, named = self.words.toPlainText(), self.named.isChecked()
        coach = self.bench.desk.store.coach().name
        return lambda regression: report_of(
            asked, regression, on=today, words=words, coach=coach, named=named
        )

    def make(self) -> None:
        """Make the pages anew, off this thread."""
        from app import press

        self._timer.stop()
        try:
            made = self.report()
        except CoachError as error:
            self.refuse(error)
            return
        paper, grey = SIZES[self.paper.currentIndex()][0], self.grey.isChecked()

        def printed() -> bytes:
            from scipy.stats import theilslopes

            return press.print_progress(made(theilslopes), paper=paper, grey=grey)

        self.start(printed)

    def file_name(self) -> str:
        """'progress-runa-estvik.pdf'."""
        who = client_text(self.bench.desk.client, named=self.named.isChecked())
        return safe_name("progress", who) + ".pdf"

    def let_go(self) -> None:
        """Make nothing more."""
        self._timer.stop()
        super().let_go()


def report_of(
    asked: Asked, regression: Regression, *, on: date, words: str, coach: str, named: bool
) -> ProgressReport:
    """The report of the open program up to a day; of all days where no program is open."""
    program, diary = asked.program, asked.diary
    days = Days(None if program is None else program.start, on)
    series: list[StrengthSeries] = []
    for key in exercises_to_show(asked):
        found = strength_series(
            asked.catalogue[key], asked.client, diary.results, regression=regression, days=days
        )
        if found.points:
            series.append(found)
    series.sort(key=lambda one: -len(one.points))
    return ProgressReport(
        client=asked.client,
        program="" if program is None else program.name,
        on=on,
        weeks=weeks_to_show(asked, days),
        strength=tuple(series[:MOST_EXERCISES]),
        mass=mass_series(
            asked.client, diary.check_ins, regression=regression, program=program, days=days
        ),
        next_words=words,
        coach=coach,
        named=named,
    )
