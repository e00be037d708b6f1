"""Copying a client: what goes into the copy."""

from __future__ import annotations

from PySide6.QtWidgets import QCheckBox, QWidget

from app import people
from app.domain.client import Client, ClientId
from app.domain.wording import tr
from app.ui.forms import Sheet, text_field
from db.store import Store


class CopySheet(Sheet):
    """Asks for the name and what else is copied; `made` is the copy once it is accepted."""

    def __init__(
        self, store: Store, client_id: ClientId, name: str, parent: QWidget | None
    ) -> None:
        super().__init__(
            parent,
            tr("Duplicate {client}", client=name),
            verb=tr("Duplicate"),
            about=tr(
                "Days, places, equipment, goal and wishes are copied. Check-ins, results and "
                "booklets stay with the client."
            ),
        )
        self.store, self.client_id = store, client_id
        self.made: Client | None = None
        self.name = text_field(tr("{client}, copy", client=name))
        self.name.selectAll()
        self.programs = QCheckBox(tr("Programs too"))
        self.health = QCheckBox(
            tr("Birth date, size, screening, limitations and tests too: it is the same person")
        )
        self.row(tr("Name"), self.name)
        for tick in (self.programs, self.health):
            tick.setMinimumHeight(24)
            self.form.addRow("", tick)
        self.setMinimumWidth(560)

    def keep(self) -> None:
        """Keep the copy."""
        self.made = people.copy_client(
            self.store,
            self.client_id,
            name=self.name.text(),
            programs=self.programs.isChecked(),
            health=self.health.isChecked(),
        )
