"""Who hands booklets out: the coach's name, contact and team, as printed on the cover."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from app.domain.program import require_name
from app.domain.wording import tr
from app.domain.work import Coach
from app.ui.forms import Sheet, text_field
from db.store import Store


class CoachSheet(Sheet):
    """Changes the coach's name, contact and team in the file."""

    def __init__(self, store: Store, parent: QWidget | None) -> None:
        super().__init__(
            parent,
            tr("Your name on booklets"),
            verb=tr("Keep"),
            about=tr("Printed on the cover and at the foot of every booklet from now on."),
        )
        self.store = store
        coach = store.coach()
        self.name = text_field(coach.name)
        self.contact = text_field(coach.contact, hint=tr("Where the client can ask"))
        self.team = text_field(coach.team)
        self.row(tr("Name"), self.name)
        self.row(tr("Contact"), self.contact)
        self.row(tr("Team"), self.team)
        self.setMinimumWidth(460)

    def keep(self) -> None:
        """Keep what was entered. Raises CoachError for an empty name."""
        name = require_name(self.name.text(), "coach")
        contact, team = self.contact.text().strip(), self.team.text().strip()
        self.store.set_coach(Coach(name, contact=contact, team=team))
