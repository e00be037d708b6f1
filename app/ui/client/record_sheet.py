"""The record on a client: stage, tags, consent, how long it is kept, and the unit of loads."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from PySide6.QtWidgets import QComboBox, QWidget

from app.domain.client import Client, Consent, Stage, tidy_tags
from app.domain.doubt import require_day
from app.domain.errors import CoachError
from app.domain.wording import mark, tr
from app.ui.bench import Bench
from app.ui.client.profile import OptionalDate, keep_client
from app.ui.forms import Sheet, Wrapped, entered, text_field
from app.ui.words import STAGE_WORDS, full_date

UNITS = (("kg", mark("kilograms")), ("lb", mark("pounds")))
USUAL_YEARS = 3
"""What the field for the end of keeping proposes. Common practice; local rules go first."""


class RecordSheet(Sheet):
    """Changes what is agreed with the client, and the unit that loads are shown in."""

    def __init__(self, bench: Bench, parent: QWidget | None, *, today: date) -> None:
        client = bench.desk.client
        super().__init__(parent, tr("Record of {client}", client=client.name), verb=tr("Keep"))
        self.bench, self.today = bench, today
        self.stage = _box([(stage.value, tr(word)) for stage, word in STAGE_WORDS.items()])
        self.stage.setCurrentIndex(self.stage.findData(client.stage.value))
        self.tags = text_field(", ".join(client.tags), hint=tr("Parted by commas"))
        self._tags_shown = self.tags.text()
        consent = client.consent
        self.consent = OptionalDate(
            tr("Consent given on"), consent.on if consent else None, usual=today
        )
        self.consent_note = text_field(
            consent.note if consent else "", hint=tr("How it was given: signed, by mail …")
        )
        self.keep_until = OptionalDate(
            tr("Records kept until"),
            client.keep_until,
            usual=today + timedelta(days=365 * USUAL_YEARS),
        )
        self.units = _box([(unit, tr(word)) for unit, word in UNITS])
        self.units.setCurrentIndex(self.units.findData(client.units))
        for label, field in (
            (tr("Stage"), self.stage),
            (tr("Tags"), self.tags),
            (tr("Consent given on"), self.consent),
            (tr("Note on consent"), self.consent_note),
            (tr("Records kept until"), self.keep_until),
            (tr("Loads in"), self.units),
        ):
            self.row(label, field)
        self.body.addWidget(
            Wrapped(
                tr(
                    "Consent is the client's agreement that records on health are kept. What has "
                    "to be agreed, and for how long, is a matter of the rules of your place."
                ),
                role="small",
            )
        )
        self.setMinimumWidth(520)

    def changed_client(self) -> Client:
        """The client as entered. Raises CoachError for what cannot be."""
        client = self.bench.desk.client
        consent, until = self._consent(client), self.keep_until.value()
        if until is not None and consent is not None and until < consent.on:
            raise CoachError(
                tr(
                    "Records kept until {until}: that is before the consent of {day}.",
                    until=full_date(until),
                    day=full_date(consent.on),
                ),
                mend=tr("Correct one of the two days."),
            )
        tags = client.tags
        if self.tags.text() != self._tags_shown:
            tags = tidy_tags(self.tags.text().split(","))
        return replace(
            client,
            stage=Stage(self.stage.currentData()),
            tags=client.tags if set(tags) == set(client.tags) else tags,
            consent=consent,
            keep_until=until,
            units=self.units.currentData(),
        )

    def _consent(self, client: Client) -> Consent | None:
        given = self.consent.value()
        if given is None:
            if entered(self.consent_note):
                raise CoachError(
                    tr("A note on consent without its day."),
                    mend=tr("Tick 'known' and enter the day, or empty the note."),
                )
            return None
        require_day(tr("Consent"), given, today=self.today, born=client.born)
        return Consent(given, entered(self.consent_note))

    def keep(self) -> None:
        """Keep the record."""
        keep_client(self.bench, tr("Change the record"), self.changed_client())


def _box(entries: list[tuple[str, str]]) -> QComboBox:
    box = QComboBox()
    box.setMinimumHeight(32)
    for data, text in entries:
        box.addItem(text, data)
    return box
