"""One day's check-in: what the client reported, whole or in part, to enter or to change."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from PySide6.QtCore import QSignalBlocker
from PySide6.QtWidgets import (
    QComboBox,
    QDateEdit,
    QGridLayout,
    QGroupBox,
    QHBoxLayout,
    QVBoxLayout,
    QWidget,
)

from app.domain.doubt import require_day
from app.domain.errors import CoachError
from app.domain.progress.check_in_doubts import doubt_weighing, is_empty
from app.domain.progress.reported import SITE_NAMES
from app.domain.results import CheckIn, Girth, Site
from app.domain.units import CM_PER_IN, KG_PER_LB
from app.domain.wording import tr
from app.ui.bench import Bench
from app.ui.client.check_in_cells import ENDS, NAMES, Column
from app.ui.client.check_in_pictures import Pictures
from app.ui.client.doubt_line import DoubtLine
from app.ui.forms import NumberField, Sheet, button, entered, plain, text_field
from app.ui.words import full_date, pydate, qdate


class CheckInSheet(Sheet):
    """Enters a check-in, or changes the one of that day; keeping is one undo step."""

    def __init__(
        self, bench: Bench, parent: QWidget | None, *, today: date, day: date | None = None
    ) -> None:
        client = bench.desk.client
        super().__init__(
            parent,
            tr("Check-in of {name}", name=client.name),
            verb=tr("Keep the check-in"),
            about=tr("Only what was asked; everything else stays empty. Mass in the morning."),
        )
        self.bench, self.today = bench, today
        self.units = client.units
        self.cm = 1.0 if self.units == "kg" else CM_PER_IN  # what a unit of length counts, cm
        self.open_day = day or today
        self.before = CheckIn(self.open_day)
        self._build()
        self.show_day(self.open_day)
        self.setMinimumWidth(860)
        self.mass.edit.setFocus()

    def _build(self) -> None:
        self.day = QDateEdit(qdate(self.open_day))
        self.day.setDisplayFormat("ddd d MMM yyyy")
        self.day.setCalendarPopup(True)
        self.day.setMaximumDate(qdate(self.today))
        self.day.setMinimumHeight(32)
        self.state = plain("", role="small")
        self.open_button = button(tr("Open that one"), self._open_other)
        self.open_button.hide()
        kg = 1.0 if self.units == "kg" else KG_PER_LB
        self.kg = kg
        self.mass = NumberField(
            tr("Body mass"), low=25 / kg, high=400 / kg, unit=self.units, optional=True
        )
        self.doubt = DoubtLine(self._take_mass, unit=self.units)
        self.kcal = NumberField(
            tr("Eaten that day"), low=0, high=15_000, unit="kcal", optional=True
        )
        self.marks = {column: self._scale(column) for column in ENDS}
        self.share = NumberField(
            tr("Training done"), low=0, high=100, unit=tr("% of what was planned"), optional=True
        )
        self.note = text_field()
        self.girths = {
            site: NumberField(
                tr(SITE_NAMES[site]),
                low=10 / self.cm,
                high=300 / self.cm,
                unit="cm" if self.units == "kg" else "in",
                optional=True,
            )
            for site in Site
        }
        self.pictures = Pictures(self.bench.desk.store, (), self.show_error)
        self._lay_out()
        self.day.dateChanged.connect(lambda _day: self._day_changed())
        self.mass.edit.textChanged.connect(lambda _text: self._doubt_mass())
        self.finished.connect(lambda _result: self.pictures.let_go())

    def _scale(self, column: Column) -> QComboBox:
        low, high = (tr(word) for word in ENDS[column])
        box = QComboBox()
        box.setMinimumHeight(32)
        box.addItem(tr("not asked"), None)
        for value in range(1, 6):
            words = {1: f"1  {low}", 5: f"5  {high}"}
            box.addItem(words.get(value, str(value)), value)
        return box

    def _lay_out(self) -> None:
        self.row(tr("Day"), self.day)
        self.form.addRow("", self.state)
        self.form.addRow("", self.open_button)
        self.row(tr("Body mass"), self.mass)
        self.form.addRow("", self.doubt)
        self.row(tr("Eaten that day"), self.kcal)
        scales = QWidget()
        grid = QGridLayout(scales)
        grid.setContentsMargins(0, 0, 0, 0)
        for at, (column, box) in enumerate(self.marks.items()):
            label = plain(tr(NAMES[column]))
            label.setBuddy(box)
            box.setAccessibleName(tr(NAMES[column]))
            grid.addWidget(label, at // 2, at % 2 * 2)
            grid.addWidget(box, at // 2, at % 2 * 2 + 1)
        grid.setHorizontalSpacing(12)
        grid.setColumnStretch(4, 1)
        self.form.addRow(plain(tr("Marks, 1 to 5")), scales)
        self.row(tr("Training done"), self.share)
        self.row(tr("Note"), self.note)
        group = QGroupBox(tr("Girths, with the tape level and loose"))
        grid = QGridLayout(group)
        for at, (site, field) in enumerate(self.girths.items()):
            label = plain(tr(SITE_NAMES[site]))
            label.setBuddy(field)
            grid.addWidget(label, at, 0)
            grid.addWidget(field, at, 1)
        self.column.removeItem(self.form)
        left, right = QVBoxLayout(), QVBoxLayout()
        left.addLayout(self.form)
        left.addStretch(1)
        right.addWidget(group)
        right.addWidget(self.pictures)
        right.addStretch(1)
        row = QHBoxLayout()
        row.setSpacing(22)
        row.addLayout(left, 3)
        row.addLayout(right, 2)
        self.body.addLayout(row, 1)

    # -- days ----------------------------------------------------------------------------------

    def show_day(self, day: date) -> None:
        """Show what is kept of a day; an empty form where nothing is."""
        kept = self.bench.desk.diary.check_in(day)
        self.open_day, self.before = day, kept or CheckIn(day)
        with QSignalBlocker(self.day):
            self.day.setDate(qdate(day))
        before = self.before
        self.mass.set_value(None if before.mass_kg is None else before.mass_kg / self.kg)
        self.kcal.set_value(before.kcal)
        for column, box in self.marks.items():
            box.setCurrentIndex(getattr(before, column.value) or 0)
        self.share.set_value(None if before.adherence is None else 100 * before.adherence)
        self.note.setText(before.note)
        self.note.setProperty("kept", (self.note.text(), before.note))
        kept_cm = {girth.site: girth.cm for girth in before.girths}
        for site, field in self.girths.items():
            cm = kept_cm.get(site)
            field.set_value(None if cm is None else cm / self.cm)
        self.pictures.show_names(before.pictures)
        self._say_state(kept is not None)

    def _say_state(self, kept: bool) -> None:
        self.open_button.hide()
        self.state.setText(tr("You are changing the check-in of this day.") if kept else "")

    def _day_changed(self) -> None:
        """Another day: an untouched form shows what is kept of it; what was typed stays."""
        day = pydate(self.day.date())
        kept = self.bench.desk.diary.check_in(day)
        if not self._touched():
            self.show_day(day)
        elif kept is not None and day != self.open_day:
            self.state.setText(tr("There is a check-in of {day} already.", day=full_date(day)))
            self.open_button.show()
        else:
            self._say_state(False)
        self._doubt_mass()

    def _touched(self) -> bool:
        try:
            return replace(self._entered(), on=self.before.on) != self.before
        except CoachError:
            return True

    def _open_other(self) -> None:
        self.show_day(pydate(self.day.date()))

    # -- values --------------------------------------------------------------------------------

    def _entered(self) -> CheckIn:
        """What stands in the fields. Raises CoachError for what cannot be."""
        mass, share = self.mass.value(), self.share.value()
        girths = ((site, field.value()) for site, field in self.girths.items())
        return CheckIn(
            pydate(self.day.date()),
            mass_kg=self._kept_or(mass, self.before.mass_kg, self.kg),
            kcal=self.kcal.value(),
            sleep=self.marks[Column.SLEEP].currentData(),
            soreness=self.marks[Column.SORENESS].currentData(),
            mood=self.marks[Column.MOOD].currentData(),
            stress=self.marks[Column.STRESS].currentData(),
            adherence=self._kept_or(share, self.before.adherence, 0.01),
            note=entered(self.note),
            girths=tuple(self._girth(site, value) for site, value in girths if value is not None),
            pictures=self.pictures.names,
        )

    def _kept_or(self, value: float | None, kept: float | None, factor: float) -> float | None:
        """The value in its own unit; one that nobody changed comes back every place of it."""
        if value is None:
            return None
        return kept if kept is not None and value == kept / factor else value * factor

    def _girth(self, site: Site, value: float) -> Girth:
        for girth in self.before.girths:
            if girth.site is site and value == girth.cm / self.cm:
                return girth
        return Girth(site, value * self.cm)

    def _take_mass(self, value: float) -> None:
        self.mass.set_value(value)

    def _doubt_mass(self) -> None:
        """Ask about a mass that jumps."""
        try:
            value = self.mass.value()
        except CoachError:
            self.mass.show_error("")  # half a number is not wrong yet
            value = None
        desk = self.bench.desk
        mass_kg = None if value is None else value * self.kg
        day = pydate(self.day.date())
        self.doubt.put(doubt_weighing(mass_kg, day, desk.diary.check_ins, desk.client))

    def keep(self) -> None:
        """Keep the check-in of the day."""
        desk = self.bench.desk
        check_in = self._entered()
        require_day(tr("Check-in"), check_in.on, today=self.today, born=desk.client.born)
        if self.pictures.busy:
            raise CoachError(tr("Pictures are still being copied."), mend=tr("Wait a moment."))
        if is_empty(check_in):
            raise CoachError(
                tr("Nothing is said of {day} yet.", day=full_date(check_in.on)),
                mend=tr("Fill in what the client reported."),
            )
        diary = desk.diary
        if check_in.on != self.open_day:
            if diary.check_in(check_in.on) is not None:
                raise CoachError(
                    tr("There is a check-in of {day} already.", day=full_date(check_in.on)),
                    mend=tr("Open that one to change it, or choose another day."),
                )
            diary = diary.without_check_in(self.before.on)  # it was entered for the wrong day
        self._doubt_mass()
        self.doubt.require_answer()
        label = tr("Check-in of {day}", day=full_date(check_in.on))
        desk.keep_diary(label, diary.with_check_in(check_in))
