"""Saving the sessions of the open program as a calendar file: zone, hours, weeks, what is told."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, time
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QCompleter,
    QFileDialog,
    QGridLayout,
    QLineEdit,
    QWidget,
)

from app.calendars import (
    Choice,
    calendar_of,
    sent_before,
    starting,
    usual_choice,
    write_calendar,
    zones,
)
from app.domain.errors import CoachError
from app.domain.program import DAYS
from app.domain.wording import tr, trn
from app.exchange.calendar_file import SUFFIX, Made
from app.exchange.files import safe_name
from app.ui import worker
from app.ui.bench import Bench
from app.ui.forms import NumberField, Sheet, Wrapped, plain, text_field
from db.store import Store


class CalendarDialog(Sheet):
    """When sessions begin on the days that have some, and what their events say."""

    def __init__(self, bench: Bench, store: Store, parent: QWidget | None) -> None:
        super().__init__(
            parent,
            tr("Calendar file"),
            verb=tr("Save…"),
            about=tr(
                "One event a session. Saved again after a change, the file takes the place of what "
                "a calendar has of the earlier one."
            ),
        )
        self.bench, self.store = bench, store
        self.program = bench.desk.program
        self._job: worker.Job[Made] | None = None
        self.choice = usual_choice(store)
        self.zone = self._zone_box(self.choice.zone)
        self.row(tr("Time zone"), self.zone)
        weeks = len(self.program.weeks)
        self.first = NumberField(tr("First week"), low=1, high=weeks, whole=True)
        self.last = NumberField(tr("Last week"), low=1, high=weeks, whole=True)
        self.first.set_value(1)
        self.last.set_value(weeks)
        self.row(tr("First week"), self.first)
        self.row(tr("Last week"), self.last)
        self.body.addWidget(plain(tr("Sessions begin at"), step="head"))
        self.hours = self._hours()
        self.body.addLayout(self._hour_grid())
        self.loads = self._box(tr("Write the loads behind the exercises"))
        self.named = self._box(tr("Write {name}'s name into the titles", name=self._client))
        self.told = Wrapped("", role="small")
        self.body.addWidget(self.told)
        self.body.addStretch(1)
        self._say_sent()
        self.finished.connect(lambda _result: self._let_go())
        self.setMinimumWidth(480)
        self.zone.setFocus()

    @property
    def _client(self) -> str:
        return self.bench.desk.client.name

    def _zone_box(self, zone: str) -> QComboBox:
        box = QComboBox()
        box.setMinimumHeight(32)
        box.setEditable(True)
        box.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        box.addItems(zones())
        box.setCurrentText(zone)
        completer = box.completer() or QCompleter(box.model(), box)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completer.setCompletionMode(QCompleter.CompletionMode.PopupCompletion)
        return box

    def _hours(self) -> dict[int, QLineEdit]:
        used = sorted({day for week in self.program.weeks for day, _ in week.sessions()})
        return {day: self._hour(tr(DAYS[day]), self.choice.starts[day]) for day in used}

    def _hour(self, name: str, at: time) -> QLineEdit:
        field = text_field(f"{at:%H:%M}", hint="18:00")
        field.setAccessibleName(name)
        field.setFixedWidth(84)
        return field

    def _hour_grid(self) -> QGridLayout:
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        for place, (day, field) in enumerate(self.hours.items()):
            label = plain(tr(DAYS[day]))
            label.setBuddy(field)
            row, column = divmod(place, 2)
            grid.addWidget(label, row, 2 * column)
            grid.addWidget(field, row, 2 * column + 1)
        grid.setColumnStretch(4, 1)
        if not self.hours:
            grid.addWidget(plain(tr("The program has no session yet."), role="small"), 0, 0)
        self.keep_button.setEnabled(bool(self.hours))
        return grid

    def _box(self, text: str) -> QCheckBox:
        box = QCheckBox(text)
        box.setMinimumHeight(28)
        self.body.addWidget(box)
        return box

    def _say_sent(self) -> None:
        before = sent_before(self.store, self.program)
        there = {
            f"{self.program.id}.{s.id}@weekloom"
            for w in self.program.weeks
            for _, s in w.sessions()
        }
        gone = sum(uid not in there for uid in before)
        parts = [tr("Notes, tests and limitations are never written into it.")]
        if gone:
            parts.append(
                trn(
                    "{n} session that was saved earlier is gone; the file cancels it.",
                    "{n} sessions that were saved earlier are gone; the file cancels them.",
                    gone,
                )
            )
        self.told.setText(" ".join(parts))

    def chosen(self) -> Choice:
        """What is chosen. Raises CoachError for hours and weeks that cannot be."""
        first, last = self.first.whole_value(), self.last.whole_value()
        if first > last:
            raise CoachError(
                tr("Week {first} comes after week {last}.", first=first, last=last),
                mend=tr("Put the earlier week first."),
            )
        whole = (first, last) == (1, len(self.program.weeks))
        starts = tuple(
            starting(self.hours[day].text()) if day in self.hours else start
            for day, start in enumerate(self.choice.starts)
        )
        return replace(
            self.choice,
            zone=self.zone.currentText().strip(),
            starts=starts,
            weeks=None if whole else range(first - 1, last),
            named=self.named.isChecked(),
            loads=self.loads.isChecked(),
        )

    def try_keep(self) -> None:
        """Ask where to, make the calendar off this thread, and write it."""
        self.show_error("")
        try:
            choice = self.chosen()
        except CoachError as error:
            self.show_error(error.sentence)
            return
        name = safe_name(self._client, self.program.name) + SUFFIX
        chosen, _ = QFileDialog.getSaveFileName(
            self, tr("Calendar file"), name, tr("Calendars (*.ics)")
        )
        if not chosen:
            return
        path = Path(chosen)
        if not path.suffix:
            path = path.with_name(path.name + SUFFIX)
        self.keep_button.setEnabled(False)
        desk, program, store = self.bench.desk, self.program, self.store
        client, catalogue = desk.client, desk.catalogue
        now = datetime.now().astimezone()
        earlier = _Remembered(store, program.id)
        self._job = worker.start(
            lambda: calendar_of(program, client, catalogue, choice, memory=earlier, now=now),
            lambda made: self._made(path, made, choice),
            self._failed,
        )

    def _made(self, path: Path, made: Made, choice: Choice) -> None:
        self.keep_button.setEnabled(True)
        try:
            write_calendar(path, made, self.program, choice, memory=self.store)
        except CoachError as error:
            self.show_error(error.sentence)
            return
        said = trn("{n} session", "{n} sessions", made.sessions)
        self.bench.said.emit(
            tr("Calendar saved with {sessions}: {name}", sessions=said, name=path.name)
        )
        self.accept()

    def _failed(self, error: CoachError) -> None:
        self.keep_button.setEnabled(True)
        self.show_error(error.sentence)

    def _let_go(self) -> None:
        if self._job is not None:
            self._job.cancel()


class _Remembered:
    """What the store remembers of a program's calendars, read before another thread asks."""

    def __init__(self, store: Store, program_id: str) -> None:
        from app.calendars import SENT_KEY

        self._key = SENT_KEY + program_id
        self._text = store.setting(self._key)

    def setting(self, key: str) -> str:
        """The value under the one key that is known."""
        return self._text if key == self._key else ""

    def set_setting(self, key: str, value: str) -> None:
        """Nothing is kept from another thread."""
