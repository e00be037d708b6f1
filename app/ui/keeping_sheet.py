"""What becomes of a client's records once they were kept as long as was agreed.

Nothing is removed here: the sheet asks, and each answer opens the window that does it, which asks
by itself.
"""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from PySide6.QtWidgets import QButtonGroup, QDialog, QRadioButton, QWidget

from app.domain.client import Client
from app.domain.due import Due, Need
from app.domain.wording import mark, tr
from app.ui.client import open_form
from app.ui.client.section import this_day
from app.ui.commands import Commands
from app.ui.forms import Sheet, Wrapped
from app.ui.words import full_date


class Answer(StrEnum):
    """What is to become of the records."""

    SAVE = "save"
    ERASE = "erase"
    LONGER = "longer"


ANSWERS: dict[Answer, str] = {
    Answer.SAVE: mark("Save all that is held, for the client, and ask again"),
    Answer.ERASE: mark("Erase the client: what goes and what stays is said first"),
    Answer.LONGER: mark("Keep them longer: enter the day that was agreed on now"),
}


class KeepingSheet(Sheet):
    """Says until when records were to be kept and asks what now; `answer` is the chosen one."""

    def __init__(self, client: Client, until: date, parent: QWidget | None, *, today: date) -> None:
        super().__init__(
            parent,
            tr("Records of {client}", client=client.name),
            verb=tr("Go on…"),
            about=tr(
                "{due}: it was agreed to keep them until {until}.",
                due=Due(Need.KEEP_UNTIL, until).text(today),
                until=full_date(until),
            ),
        )
        group = QButtonGroup(self)
        self.choices: dict[Answer, QRadioButton] = {}
        for answer, text in ANSWERS.items():
            choice = QRadioButton(tr(text))
            choice.setMinimumHeight(24)
            group.addButton(choice)
            self.form.addRow(choice)
            self.choices[answer] = choice
        self.choices[Answer.SAVE].setChecked(True)
        self.body.addWidget(
            Wrapped(
                tr(
                    "How long records have to be kept, and may be, is a matter of the rules of "
                    "your place. Nothing is removed by itself."
                ),
                role="small",
            )
        )
        self.setMinimumWidth(520)

    @property
    def answer(self) -> Answer:
        """The chosen answer."""
        return next(answer for answer, choice in self.choices.items() if choice.isChecked())

    def keep(self) -> None:
        """Nothing is kept here: who opened the sheet goes on with the answer."""


def propose(window: Commands) -> None:
    """Ask what becomes of the open client's records; before their end, open what was agreed."""
    from app.ui.file_actions import erase, save_held

    client, today = window.bench.desk.client, this_day()
    until = client.keep_until
    if until is None or until > today:
        open_form.record(window.bench, window)
        return
    while True:
        sheet = KeepingSheet(client, until, window, today=today)
        if sheet.exec() != QDialog.DialogCode.Accepted:
            return
        if sheet.answer is not Answer.SAVE:
            break
        save_held(window)
    if sheet.answer is Answer.ERASE:
        erase(window)
    else:
        open_form.record(window.bench, window)
