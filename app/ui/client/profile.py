"""The profile: name, birth date, sex for the equations, size, training status, emphasis."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from uuid import uuid4

from PySide6.QtCore import QDate
from PySide6.QtWidgets import QCheckBox, QComboBox, QDateEdit, QHBoxLayout, QWidget

from app.domain.client import Client, ClientId, Goal, Sex, Status
from app.domain.errors import CoachError
from app.domain.program import require_name
from app.ui.bench import Bench
from app.ui.emphasis_sheet import EmphasisChoice
from app.ui.forms import NumberField, Sheet, entered, plain, text_field
from app.ui.words import pydate, qdate

SEXES: tuple[tuple[str, Sex | None], ...] = (
    ("not said", None),
    ("female", Sex.FEMALE),
    ("male", Sex.MALE),
    ("average of both", Sex.AVERAGE),
)
STATUSES = (
    ("novice: new to it, or years off", Status.NOVICE),
    ("intermediate: about six months of regular training", Status.INTERMEDIATE),
    ("advanced: years of regular training", Status.ADVANCED),
)
GOALS = (
    ("muscle", Goal.HYPERTROPHY),
    ("strength", Goal.STRENGTH),
    ("health", Goal.HEALTH),
)
OLDEST_YEARS = 110


class OptionalDate(QWidget):
    """A date that may be unknown."""

    def __init__(self, name: str, value: date | None, *, usual: date) -> None:
        super().__init__()
        self.known = QCheckBox("known")
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
    """Changes the profile of a client, or makes a new one; `client` holds it once accepted."""

    def __init__(self, bench: Bench, parent: QWidget | None, client: Client | None) -> None:
        new = client is None
        super().__init__(
            parent,
            "New client" if client is None else f"Profile of {client.name}",
            verb="Add client" if new else "Keep",
            about="Only the name is needed. The rest makes checks, loads and energy fit."
            if new
            else "",
        )
        self.bench, self.new = bench, new
        self.client = client or Client(ClientId(uuid4().hex), "New client")
        self._build("" if new else self.client.name)
        self.setMinimumWidth(540)
        self.name.setFocus()

    def _build(self, name: str) -> None:
        client = self.client
        self.name = text_field(name, hint="First and last name")
        self.team = text_field(client.team)
        self.contact = text_field(client.contact, hint="Telephone or address, if you like")
        self.born = OptionalDate("Birth date", client.born, usual=date(1995, 1, 1))
        self.sex = _choice(SEXES, client.sex)
        self.height_field = NumberField("Stature", low=100, high=250, unit="cm", optional=True)
        self.mass = NumberField("Body mass", low=25, high=350, unit="kg", optional=True)
        self.status = _choice(STATUSES, client.status)
        self.years = NumberField("Years of training", low=0, high=80, unit="years")
        self.goal = _choice(GOALS, client.goal)
        self.emphasis = EmphasisChoice(self.bench, client.emphasis)
        self.height_field.set_value(client.height_cm)
        self.mass.set_value(client.mass_kg)
        self.years.set_value(client.trained_years)
        for label, field in (
            ("Name", self.name),
            ("Team", self.team),
            ("Contact", self.contact),
            ("Birth date", self.born),
            ("Sex, for the equations", self.sex),
            ("Stature", self.height_field),
            ("Body mass", self.mass),
            ("Training status", self.status),
            ("Years of training", self.years),
            ("Trains for", self.goal),
            ("Emphasis", self.emphasis),
        ):
            self.row(label, field)
        self.form.labelForField(self.emphasis).setToolTip("The muscles that matter most, in order")
        self.body.addWidget(
            plain("Status after the American College of Sports Medicine, 2009.", role="small")
        )

    def result_client(self) -> Client:
        """The client as entered. Raises CoachError for what cannot be."""
        today = datetime.now().astimezone().date()
        born, sex = self.born.value(), self.sex.currentData()
        if born is not None and not 0 <= (today - born).days <= OLDEST_YEARS * 366:
            raise CoachError(
                f"Birth date {born}: not in the last {OLDEST_YEARS} years.",
                mend="Enter a day in the past, or untick 'known'.",
            )
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
        )

    def keep(self) -> None:
        """Keep the profile; a new client is left to the caller."""
        client = self.result_client()
        if not self.new:
            keep_client(self.bench, "Change the profile", client)
        self.client = client


def keep_client(bench: Bench, label: str, client: Client) -> None:
    """Keep the client. Raises CoachError, so that the sheet stays open with the sentence."""
    bench.desk.keep_client(label, client)


def ask_new_client(window: QWidget) -> Client | None:
    """The new client the coach enters; None if it was cancelled."""
    sheet = ProfileSheet(window.bench, window, None)  # type: ignore[attr-defined]
    return sheet.client if sheet.exec() == Sheet.DialogCode.Accepted else None


def _choice(entries: tuple[tuple[str, object], ...], value: object) -> QComboBox:
    box = QComboBox()
    box.setMinimumHeight(32)
    for text, data in entries:
        box.addItem(text, data)
    box.setCurrentIndex(next((k for k, (_, d) in enumerate(entries) if d == value), 0))
    return box
