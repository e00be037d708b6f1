"""The screening questions, and what their answers say: a prompt, never a diagnosis."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QGridLayout, QWidget

from app.domain import screening as screenings
from app.domain.client import Screening
from app.domain.errors import CoachError
from app.domain.wording import mark, tr
from app.ui.bench import Bench
from app.ui.client.profile import OptionalDate, keep_client
from app.ui.forms import Sheet, Wrapped, entered, text_field

CAUTION = mark(
    "These questions follow the logic published by the American College of "
    "Sports Medicine (Riebe 2015), in our words and from memory. They do not "
    "replace a practitioner, and local rules go first. When in doubt, refer."
)
QUESTIONS = (
    (
        "active",
        mark(
            "Active now: planned exercise of at least 30 minutes, moderate, on 3 "
            "days a week, for 3 months"
        ),
    ),
    ("known_disease", mark("Known heart, vascular, metabolic or kidney disease")),
    (
        "symptoms",
        mark(
            "Signs or symptoms: chest pain, breathlessness at rest or mild "
            "effort, dizziness or fainting, swollen ankles, palpitations, calf "
            "pain when walking"
        ),
    ),
    ("pregnant", mark("Pregnant, or gave birth lately")),
)


class ScreeningSheet(Sheet):
    """Asks, shows what follows, and keeps the screening with its date."""

    def __init__(self, bench: Bench, parent: QWidget | None, *, today: date) -> None:
        client = bench.desk.client
        super().__init__(
            parent,
            tr("Screening of {client}", client=client.name),
            verb=tr("Keep"),
            about=tr(CAUTION),
        )
        self.bench, self.today = bench, today
        last = client.latest_screening
        self.boxes: dict[str, QCheckBox] = {}
        questions = QGridLayout()
        questions.setColumnStretch(1, 1)
        self.column.insertLayout(2, questions)
        for key, question in QUESTIONS:
            box = QCheckBox("")
            label = Wrapped(question)
            label.setMinimumWidth(420)
            label.setBuddy(box)
            box.setAccessibleName(question)
            box.setMinimumHeight(24)
            box.setChecked(bool(last and getattr(last, key)))
            box.toggled.connect(lambda _on: self.refresh())
            self.boxes[key] = box
            at = questions.rowCount()
            questions.addWidget(box, at, 0, Qt.AlignmentFlag.AlignTop)
            questions.addWidget(label, at, 1)
        self.cleared = OptionalDate(
            tr("Cleared by a practitioner on"), last.cleared_on if last else None, usual=today
        )
        self.cleared.known.toggled.connect(lambda _on: self.refresh())
        self.cleared.edit.dateChanged.connect(lambda _day: self.refresh())
        self.note = text_field(last.note if last else "", hint=tr("What was agreed, by whom"))
        self.row(tr("Cleared on"), self.cleared)
        self.row(tr("Note"), self.note)
        self.answer = Wrapped(step="head")
        self.body.addWidget(self.answer)
        self.setMinimumWidth(560)
        self.refresh()

    def screening(self) -> Screening:
        """The screening as entered. Raises CoachError for a clearance in the future."""
        cleared = self.cleared.value()
        if cleared is not None and cleared > self.today:
            raise CoachError(
                tr("Cleared on {cleared}, which is in the future.", cleared=cleared),
                mend=tr("Enter the day it was given."),
            )
        answers = {key: box.isChecked() for key, box in self.boxes.items()}
        return Screening(on=self.today, cleared_on=cleared, note=entered(self.note), **answers)

    def refresh(self) -> None:
        """Say what the answers say."""
        self.show_error("")
        try:
            said = screenings.outcome(self.screening(), screenings.Wish.VIGOROUS, on=self.today)
        except CoachError as error:
            self.show_error(error.sentence)
            return
        self.answer.setText(said.text)

    def keep(self) -> None:
        """Keep the screening; one of the same day is replaced."""
        client = self.bench.desk.client
        earlier = tuple(s for s in client.screenings if s.on != self.today)
        changed = replace(client, screenings=(*earlier, self.screening()))
        keep_client(self.bench, tr("Keep the screening"), changed)
