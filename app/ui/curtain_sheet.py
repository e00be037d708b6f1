"""After how many minutes without use what is personal hides by itself."""

from __future__ import annotations

from PySide6.QtWidgets import QWidget

from app.domain.wording import tr
from app.ui.curtain import MINUTES, MOST_MINUTES, Idle
from app.ui.forms import NumberField, Sheet
from db.store import Store


class CurtainSheet(Sheet):
    """Asks for the minutes; an empty field means never."""

    def __init__(self, store: Store, idle: Idle, parent: QWidget | None) -> None:
        super().__init__(
            parent,
            tr("Hide what is personal by itself"),
            verb=tr("Keep"),
            about=tr("After so many minutes without use. Empty: never."),
        )
        self.store, self.idle = store, idle
        self.minutes = NumberField(
            tr("Minutes"), low=1, high=MOST_MINUTES, unit=tr("min"), whole=True, optional=True
        )
        self.minutes.set_value(idle.minutes or None)
        self.row(tr("Minutes"), self.minutes)
        self.setMinimumWidth(420)
        self.minutes.setFocus()

    def keep(self) -> None:
        """Keep the minutes in the file, and wait so long from now on."""
        value = self.minutes.value()
        minutes = 0 if value is None else int(value)
        self.store.set_setting(MINUTES, str(minutes) if minutes else "")
        self.idle.set_minutes(minutes)
