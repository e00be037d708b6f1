"""All check-ins of the open client: the list, its trend, weeks without any, what they suggest."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import date

from PySide6.QtWidgets import QHBoxLayout, QTreeWidgetItem, QWidget

from app.domain.client import Client
from app.domain.energy import Referral
from app.domain.energy.from_logs import EnergySuggestion, suggest_from_logs
from app.domain.errors import CoachError
from app.domain.progress.series import mass_series
from app.domain.progress.told import mass_text
from app.domain.results import CheckIn
from app.domain.trend import Regression
from app.domain.wording import tr, trn
from app.ui import worker
from app.ui.bench import Bench
from app.ui.client.check_in_cells import Column, cells, head
from app.ui.forms import Sheet, Wrapped, button
from app.ui.lines_table import add_line, choose, chosen, lines_table
from app.ui.working_popup import show_working

SHOWN = tuple(column for column in Column if column is not Column.NOTE)


class CheckInsDialog(Sheet):
    """The list, newest first; every act of it is one undo step."""

    def __init__(self, bench: Bench, parent: QWidget | None, *, today: date) -> None:
        super().__init__(
            parent, tr("Check-ins of {name}", name=bench.desk.client.name), verb=tr("New check-in…")
        )
        self.bench, self.today = bench, today
        self.suggestion: EnergySuggestion | None = None
        self._job: worker.Job[tuple[str, EnergySuggestion | str]] | None = None
        units = bench.desk.client.units
        heads = tuple(head(column, units) for column in SHOWN)
        self.table = lines_table(tr("Check-ins"), (*heads, tr("More")), wide=len(SHOWN))
        self.trend = Wrapped()
        self.energy = Wrapped()
        self.change_button = button(tr("Change…"), self.change)
        self.remove_button = button(tr("Remove"), self.remove)
        self.weeks_button = button(tr("Several weeks…"), self.enter_weeks)
        self.why_button = button(tr("How that came about"), self.show_why)
        self.take_button = button(tr("Take it over"), self.take_over)
        self._lay_out()
        self.table.itemDoubleClicked.connect(lambda _item, _column: self.change())
        self.table.currentItemChanged.connect(lambda _now, _before: self._enable())
        bench.changed.connect(self.refresh)
        self.finished.connect(lambda _result: self._let_go())
        self.cancel_button.setText(tr("Close"))
        self.resize(860, 620)
        self.refresh()

    def _lay_out(self) -> None:
        self.body.addWidget(self.table, 1)
        self.body.addWidget(self.trend)
        self.body.addWidget(self.energy)
        row = QHBoxLayout()
        row.addWidget(self.take_button)
        row.addWidget(self.why_button)
        row.addStretch(1)
        self.body.addLayout(row)
        for at, each in enumerate((self.change_button, self.remove_button, self.weeks_button)):
            self.foot.insertWidget(at, each)

    def refresh(self) -> None:
        """Show what is kept now."""
        desk = self.bench.desk
        if desk.work is None:
            self.reject()
            return
        kept = chosen(self.table)
        self.table.clear()
        for check_in in reversed(desk.diary.check_ins):
            add_line(self.table, self._cells(check_in), check_in.on)
        choose(self.table, kept)
        self._say()
        self._enable()

    def _cells(self, check_in: CheckIn) -> tuple[str, ...]:
        texts = cells(check_in, self.bench.desk.client.units)
        more = [check_in.note]
        if check_in.girths:
            more.append(trn("{n} girth", "{n} girths", len(check_in.girths)))
        if check_in.pictures:
            more.append(trn("{n} picture", "{n} pictures", len(check_in.pictures)))
        return (*(texts[column] for column in SHOWN), "; ".join(part for part in more if part))

    def _say(self) -> None:
        """Say the trend and what it suggests for energy; both are worked out off this thread."""
        if self._job is not None:
            self._job.cancel()
            self._job = None
        desk = self.bench.desk
        client, checks, on = desk.client, desk.diary.check_ins, self.today
        program = desk.program if desk.has_program else None
        self.suggestion = None
        self._show_suggestion("")
        if not checks:
            self.trend.setText(
                tr("No check-in yet. Enter one, or several weeks at once from your notes.")
            )
            return

        def worked_out() -> tuple[str, EnergySuggestion | str]:
            from scipy.stats import theilslopes

            series = mass_series(client, checks, regression=theilslopes, program=program)
            told = mass_text(series, client.units)
            return told, of_energy(client, checks, theilslopes, on=on)

        self._job = worker.start(
            worked_out, self._worked_out, lambda error: self.show_error(error.sentence)
        )

    def _worked_out(self, found: tuple[str, EnergySuggestion | str]) -> None:
        self._job = None
        told, energy = found
        self.trend.setText(told)
        if isinstance(energy, EnergySuggestion):
            self.suggestion = energy
            self._show_suggestion(energy.text)
        else:
            self._show_suggestion(energy)

    def _show_suggestion(self, sentence: str) -> None:
        self.energy.setText(sentence)
        self.energy.setVisible(bool(sentence))
        for each in (self.take_button, self.why_button):
            each.setVisible(self.suggestion is not None)
        if self.suggestion is not None:
            taken = self.suggestion.client == self.bench.desk.client
            self.take_button.setEnabled(not taken)
            self.take_button.setText(tr("Taken over") if taken else tr("Take it over"))

    def _enable(self) -> None:
        there = chosen(self.table) is not None
        self.change_button.setEnabled(there)
        self.remove_button.setEnabled(there)

    # -- acts ----------------------------------------------------------------------------------

    def try_keep(self) -> None:
        """Enter a check-in; this dialog stays open."""
        self._sheet(None)

    def change(self) -> None:
        """Change the chosen check-in."""
        day = chosen(self.table)
        if isinstance(day, date):
            self._sheet(day)

    def _sheet(self, day: date | None) -> None:
        from app.ui.client.check_in import CheckInSheet

        CheckInSheet(self.bench, self, today=self.today, day=day).exec()

    def enter_weeks(self) -> None:
        """Enter several weeks at once."""
        from app.ui.client.check_in_weeks import WeeksSheet

        WeeksSheet(self.bench, self, today=self.today).exec()

    def remove(self) -> None:
        """Remove the chosen check-in; undo brings it back."""
        day = chosen(self.table)
        if isinstance(day, date):
            item: QTreeWidgetItem | None = self.table.currentItem()
            told = "" if item is None else item.text(0)
            desk = self.bench.desk
            self._do(
                lambda: desk.keep_diary(
                    tr("Remove the check-in of {day}", day=told), desk.diary.without_check_in(day)
                )
            )

    def take_over(self) -> None:
        """Take over what the check-ins say of energy, as one undo step."""
        if self.suggestion is not None:
            client = self.suggestion.client
            label = tr("Take over the energy from the check-ins")
            self._do(lambda: self.bench.desk.keep_client(label, client))

    def show_why(self) -> None:
        """Show how the suggestion came about."""
        if self.suggestion is not None:
            place = self.why_button.mapToGlobal(self.why_button.rect().bottomLeft())
            show_working(self.bench, self.suggestion.working(), place, self)

    def _do(self, act: Callable[[], object]) -> None:
        self.show_error("")
        try:
            act()
        except CoachError as error:
            self.show_error(error.sentence)

    def _let_go(self) -> None:
        self.bench.changed.disconnect(self.refresh)
        if self._job is not None:
            self._job.cancel()


def of_energy(
    client: Client, checks: Sequence[CheckIn], regression: Regression, *, on: date
) -> EnergySuggestion | str:
    """What the check-ins suggest for energy; else the referral, what is missing, or nothing."""
    if client.energy_goal is None or all(check_in.kcal is None for check_in in checks):
        return ""
    try:
        found = suggest_from_logs(client, checks, regression, on=on)
    except CoachError as error:
        return tr("Energy: {sentence}", sentence=error.sentence)
    return " ".join((found.text, *found.reasons)) if isinstance(found, Referral) else found
