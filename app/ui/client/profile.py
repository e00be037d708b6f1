"""The profile: name, birth date, sex for the equations, size, training status, emphasis."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from uuid import uuid4

from PySide6.QtCore import QDate
from PySide6.QtWidgets import QCheckBox, QComboBox, QDateEdit, QHBoxLayout, QWidget

from app.domain.client import Client, ClientId, Goal, Sex, Status
from app.domain.doubt import doubt_mass, require_birth
from app.domain.errors import CoachError
from app.domain.program import require_name
from app.domain.wording import mark, tr
from app.ui.bench import Bench
from app.ui.client.doubt_line import DoubtLine
from app.ui.client.section import this_day
from app.ui.client.status_sheet import StatusSheet
from app.ui.emphasis_sheet import EmphasisChoice
from app.ui.forms import NumberField, Sheet, button, entered, plain, text_field
from app.ui.mass_field import MassField
from app.ui.words import full_date, pydate, qdate

SEXES: tuple[tuple[str, Sex | None], ...] = (
    (mark("not said"), None),
    (mark("female"), Sex.FEMALE),
    (mark("male"), Sex.MALE),
    (mark("average of both"), Sex.AVERAGE),
)
STATUSES = (
    (mark("novice: new to it, or years off"), Status.NOVICE),
    (mark("intermediate: about six months of regular training"), Status.INTERMEDIATE),
    (mark("advanced: years of regular training"), Status.ADVANCED),
)
GOALS = (
    (mark("muscle"), Goal.HYPERTROPHY),
    (mark("strength"), Goal.STRENGTH),
    (mark("health"), Goal.HEALTH),
)


class OptionalDate(QWidget):
    """A date that may be unknown."""

    def __init__(self, name: str, value: date | None, *, usual: date) -> None:
        super().__init__()
        self.known = QCheckBox(tr("known"))
        self.edit = QDateEdit(qdate(value or usual))
        self.edit.setDisplayFormat("d MMMM yyyy")
        self.edit.setCalendarPopup(True)
        self.edit.setMinimumHeight(32)
        self.edit.setAccessibleName(name)
        self.edit.setMinimumDate(QDate(1900, 1, 1))
        self.known.setChecked(value is not None)
        self.edit.setEnabled(value is not None)
        self.known.toggled.connect(self.edit.setEnabled)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self.known)
        row.addWidget(self.edit)
        row.addStretch(1)

    def value(self) -> date | None:
        """The date; None if it is not known."""
        return pydate(self.edit.date()) if self.known.isChecked() else None


class ProfileSheet(Sheet):
    """Changes the profile of a client, or makes a new one; `client` holds it once accepted.

    part: 'person' or 'training' shows that half alone, and leaves the other as it is.
    """

    def __init__(
        self,
        bench: Bench,
        parent: QWidget | None,
        client: Client | None,
        *,
        part: str = "",
    ) -> None:
        new = client is None
        super().__init__(
            parent,
            tr("New client") if client is None else tr("Profile of {client}", client=client.name),
            verb=tr("Add client") if new else tr("Keep"),
            about=tr("Only the name is needed. The rest makes checks, loads and energy fit.")
            if new
            else "",
        )
        self.bench, self.new = bench, new
        from app.ui.paper_habits import usual_units  # it brings the booklets along

        self.client = client or Client(ClientId(uuid4().hex), tr("New client"), units=usual_units())
        self._build("" if new else self.client.name)
        self._show_part(part)
        self.setMinimumWidth(600)
        self.name.setFocus()

    def _show_part(self, part: str) -> None:
        """Hide the half that is not asked for."""
        training = (self.status_row, self.years, self.goal, self.emphasis)
        person = (
            self.name,
            self.team,
            self.contact,
            self.born,
            self.sex,
            self.height_field,
            self.mass,
            self.language,
            self.paper,
        )
        hidden = {"person": training, "training": person}.get(part, ())
        for field in hidden:
            self.form.setRowVisible(field, False)
        self.source.setVisible(part != "person")

    def _build(self, name: str) -> None:
        client = self.client
        self.name = text_field(name, hint=tr("First and last name"))
        self.team = text_field(client.team)
        self.contact = text_field(client.contact, hint=tr("Telephone or address, if you like"))
        from app.ui.paper_habits import language_box, size_box

        self.born = OptionalDate(tr("Birth date"), client.born, usual=date(1995, 1, 1))
        self.sex = _choice(SEXES, client.sex)
        self.height_field = NumberField(tr("Stature"), low=100, high=250, unit="cm", optional=True)
        units = client.units
        self.mass = MassField(tr("Body mass"), low=25, high=350, units=units, optional=True)
        self.doubt = DoubtLine(self.mass.set_value)
        self.status = _choice(STATUSES, client.status)
        self.ask_status = button(tr("Ask…"), self.decide_status)
        self.ask_status.setToolTip(tr("Three questions that decide the training status"))
        self.status_row = _beside(self.status, self.ask_status)
        self.years = NumberField(tr("Years of training"), low=0, high=80, unit="years")
        self.goal = _choice(GOALS, client.goal)
        self.emphasis = EmphasisChoice(self.bench, client.emphasis)
        self.height_field.set_value(client.height_cm)
        self.mass.set_value(client.mass_kg)
        self.years.set_value(client.trained_years)
        self.language = language_box(client.language, usual=tr("As your other papers"))
        self.paper = size_box(client.paper, usual=tr("As your other papers"))
        for label, field in (
            (tr("Name"), self.name),
            (tr("Team"), self.team),
            (tr("Contact"), self.contact),
            (tr("Birth date"), self.born),
            (tr("Sex, for the equations"), self.sex),
            (tr("Stature"), self.height_field),
            (tr("Body mass"), self.mass),
            (tr("Training status"), self.status_row),
            (tr("Years of training"), self.years),
            (tr("Trains for"), self.goal),
            (tr("Emphasis"), self.emphasis),
            (tr("Language of papers"), self.language),
            (tr("Paper"), self.paper),
        ):
            self.row(label, field)
            if field is self.mass:
                self.form.addRow(self.doubt)
        self.mass.edit.editingFinished.connect(self._doubt_mass)
        self.height_field.edit.editingFinished.connect(self._doubt_mass)
        self.form.labelForField(self.emphasis).setToolTip(
            tr("The muscles that matter most, in order")
        )
        self.source = plain(
            tr("Status after the American College of Sports Medicine, 2009."), role="small"
        )
        self.body.addWidget(self.source)

    def decide_status(self) -> None:
        """Ask what decides the training status, and take the answer over."""
        try:
            years = self.years.value() or 0.0
        except CoachError:
            years = 0.0
        sheet = StatusSheet(self, status=Status(self.status.currentData()), years=years)
        if sheet.exec() == Sheet.DialogCode.Accepted and sheet.decision is not None:
            self.status.setCurrentIndex(self.status.findData(sheet.decision.status))
            self.years.set_value(sheet.answers().trained_years)

    def _doubt_mass(self) -> None:
        """Question a mass that another unit would explain; say nothing of what is no number."""
        try:
            mass, height = self.mass.value(), self.height_field.value()
        except CoachError:
            self.doubt.put(None)
            return
        known = self.client.mass_kg
        doubted = None if mass is None or mass == known else doubt_mass(mass, known, height)
        self.doubt.put(doubted)

    def result_client(self) -> Client:
        """The client as entered. Raises CoachError for what cannot be."""
        born, sex = self.born.value(), self.sex.currentData()
        if born is not None:
            require_birth(born, today=this_day())
            self._require_born_first(born)
        return replace(
            self.client,
            name=require_name(self.name.text(), "client"),
            team=entered(self.team),
            contact=entered(self.contact),
            born=born,
            sex=None if sex is None else Sex(sex),  # a box gives plain text back
            height_cm=self.height_field.value(),
            mass_kg=self.mass.value(),
            status=Status(self.status.currentData()),
            trained_years=self.years.value() or 0.0,
            goal=Goal(self.goal.currentData()),
            emphasis=self.emphasis.chosen(),
            language=str(self.language.currentData()),
            paper=str(self.paper.currentData()),
        )

    def _require_born_first(self, born: date) -> None:
        """Refuse a birth date after something that was noted of the client."""
        days = [*(t.on for t in self.client.tests), *(s.on for s in self.client.screenings)]
        first = min(days, default=born)
        if first < born:
            raise CoachError(
                tr(
                    "Birth date {born}: a test or screening of {day} lies before it.",
                    born=full_date(born),
                    day=full_date(first),
                ),
                mend=tr("Correct the birth date, or that day."),
            )

    def keep(self) -> None:
        """Keep the profile; a new client is left to the caller."""
        client = self.result_client()
        self._doubt_mass()
        self.doubt.require_answer()
        if not self.new:
            keep_client(self.bench, tr("Change the profile"), client)
        self.client = client


def keep_client(bench: Bench, label: str, client: Client) -> None:
    """Keep the client. Raises CoachError, so that the sheet stays open with the sentence."""
    bench.desk.keep_client(label, client)


def ask_new_client(window: QWidget) -> Client | None:
    """The new client the coach enters; None if it was cancelled."""
    sheet = ProfileSheet(window.bench, window, None)  # type: ignore[attr-defined]
    return sheet.client if sheet.exec() == Sheet.DialogCode.Accepted else None


def _beside(field: QWidget, button: QWidget) -> QWidget:
    """The field with a button at its right, as one field of a form."""
    holder = QWidget()
    row = QHBoxLayout(holder)
    row.setContentsMargins(0, 0, 0, 0)
    row.addWidget(field, 1)
    row.addWidget(button)
    holder.setFocusProxy(field)
    field.setAccessibleName(tr("Training status"))
    return holder


def _choice(entries: tuple[tuple[str, object], ...], value: object) -> QComboBox:
    box = QComboBox()
    box.setMinimumHeight(32)
    for text, data in entries:
        box.addItem(tr(text), data)
    box.setCurrentIndex(next((k for k, (_, d) in enumerate(entries) if d == value), 0))
    return box
