"""The screening questions, and what their answers say: a prompt, never a diagnosis."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QCheckBox, QGridLayout, QTreeWidget, QWidget

from app.domain import screening as screenings
from app.domain.client import Screening
from app.domain.doubt import require_day
from app.domain.errors import CoachError
from app.domain.wording import mark, tr
from app.ui.bench import Bench
from app.ui.client.profile import OptionalDate, keep_client
from app.ui.forms import Sheet, Wrapped, entered, text_field
from app.ui.lines_table import add_line, lines_table
from app.ui.words import full_date

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


class Question(Wrapped):
    """The words of a question; a click on them ticks its box, as on a box with words of its own."""

    def __init__(self, text: str, box: QCheckBox) -> None:
        super().__init__(text)
        self.box = box
        self.setBuddy(box)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        inside = self.rect().contains(event.position().toPoint())
        if inside and event.button() == Qt.MouseButton.LeftButton:
            self.box.click()


class ScreeningSheet(Sheet):
    """Asks, shows what follows, and keeps the screening with its date; earlier ones stand below.

    A clearance that is entered while the answers stay belongs to the screening that asked for it,
    so that one keeps its date; other answers make a new screening of today.
    """

    def __init__(self, bench: Bench, parent: QWidget | None, *, today: date) -> None:
        client = bench.desk.client
        super().__init__(
            parent,
            tr("Screening of {client}", client=client.name),
            verb=tr("Keep"),
            about=f"{tr(CAUTION)} {tr('Ask every question: an empty box stands for no.')}",
        )
        self.bench, self.today = bench, today
        last = client.latest_screening
        self.boxes: dict[str, QCheckBox] = {}
        questions = QGridLayout()
        questions.setColumnStretch(1, 1)
        self.column.insertLayout(2, questions)
        for key, question in QUESTIONS:
            box = QCheckBox("")
            label = Question(tr(question), box)
            label.setMinimumWidth(420)
            box.setAccessibleName(tr(question))
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
        self.kept_as = Wrapped(role="small")
        self.body.addWidget(self.answer)
        self.body.addWidget(self.kept_as)
        self.history = self._made_history()
        self.setMinimumWidth(620)
        self.refresh()

    def _made_history(self) -> QTreeWidget:
        """Earlier screenings with what they said on their day, the newest first."""
        table = lines_table(
            tr("Earlier screenings"),
            (tr("Day"), tr("What it said that day"), tr("Cleared"), tr("Note")),
            wide=1,
        )
        past = sorted(self.bench.desk.client.screenings, key=lambda s: s.on, reverse=True)
        for screening in past:
            said = screenings.outcome(screening, screenings.Wish.VIGOROUS, on=screening.on)
            cleared = "" if screening.cleared_on is None else full_date(screening.cleared_on)
            add_line(table, (full_date(screening.on), said.text, cleared, screening.note), None)
        table.setVisible(bool(past))
        table.setMaximumHeight(150)
        self.body.addWidget(table)
        return table

    def screening(self) -> Screening:
        """The screening as entered. Raises CoachError for a clearance in the future."""
        cleared, client = self.cleared.value(), self.bench.desk.client
        if cleared is not None:
            require_day(tr("Cleared"), cleared, today=self.today, born=client.born)
        answers = {key: box.isChecked() for key, box in self.boxes.items()}
        note, last = entered(self.note), client.latest_screening
        if last is not None and last.on < self.today and cleared not in (None, last.cleared_on):
            answered = replace(last, cleared_on=cleared, note=note)
            if all(getattr(last, key) == answer for key, answer in answers.items()):
                return answered
        return Screening(on=self.today, cleared_on=cleared, note=note, **answers)

    def refresh(self) -> None:
        """Say what the answers say."""
        self.show_error("")
        try:
            made = self.screening()
            said = screenings.outcome(made, screenings.Wish.VIGOROUS, on=self.today)
        except CoachError as error:
            self.show_error(error.sentence)
            return
        self.answer.setText(said.text)
        self.kept_as.setText(
            tr("Kept as a new screening of today.")
            if made.on == self.today
            else tr("Kept as the clearance of the screening of {day}.", day=full_date(made.on))
        )

    def keep(self) -> None:
        """Keep the screening; one of the same day is replaced."""
        client, made = self.bench.desk.client, self.screening()
        others = tuple(s for s in client.screenings if s.on != made.on)
        changed = replace(client, screenings=(*others, made))
        keep_client(self.bench, tr("Keep the screening"), changed)
