"""Days and minutes: when the client can train, and why not."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtWidgets import QComboBox, QGridLayout, QLineEdit, QWidget

from app.domain.client import Client, FreeTime
from app.domain.program import DAYS
from app.domain.wording import tr
from app.ui.bench import Bench
from app.ui.client.profile import keep_client
from app.ui.forms import NumberField, Sheet, Wrapped, entered, plain, text_field


class DaysSheet(Sheet):
    """Seven rows of minutes and a note."""

    def __init__(self, bench: Bench, parent: QWidget | None) -> None:
        client = bench.desk.client
        super().__init__(
            parent,
            tr("When {client} can train", client=client.name),
            verb=tr("Keep"),
            about=tr(
                "Minutes from the first warm-up to the last set; empty or 0 "
                "for a day that is not free."
            ),
        )
        self.bench = bench
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        self.fields: list[tuple[NumberField, QLineEdit]] = []
        self.places: list[QComboBox] = []
        for number, day in enumerate(DAYS):
            minutes = NumberField(day, low=0, high=600, unit="min", whole=True, optional=True)
            minutes.set_value(client.free[number].minutes or None)
            note = text_field(client.free[number].note, hint=tr("team evening, on call …"))
            note.setAccessibleName(tr("{day}, note", day=day))
            label = plain(day)
            label.setBuddy(minutes)
            grid.addWidget(label, number, 0)
            grid.addWidget(minutes, number, 1)
            grid.addWidget(note, number, 3)
            self.fields.append((minutes, note))
            place = self._place_box(client, number)
            grid.addWidget(place, number, 2)
            self.places.append(place)
        grid.setColumnStretch(3, 1)
        self.body.addLayout(grid)
        self.body.addWidget(
            Wrapped(
                tr(
                    "Equipment that a session needs is looked for at the place of its day. Places "
                    "are made in Equipment."
                ),
                role="small",
            )
        )
        self.setMinimumWidth(680 if client.places else 480)

    def _place_box(self, client: Client, day: int) -> QComboBox:
        """Where the client trains that day."""
        box = QComboBox()
        box.setMinimumHeight(32)
        box.setAccessibleName(tr("{day}, place", day=DAYS[day]))
        box.addItem(tr("the usual place"), "")
        for place in client.places:
            box.addItem(place.name, place.name)
        box.setCurrentIndex(box.findData(client.free[day].place))
        box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        box.setMinimumContentsLength(14)
        box.setVisible(bool(client.places))
        return box

    def keep(self) -> None:
        """Keep the week's free time."""
        free = tuple(
            FreeTime(int(minutes.value() or 0), entered(note), place.currentData())
            for (minutes, note), place in zip(self.fields, self.places, strict=True)
        )
        changed = replace(self.bench.desk.client, free=free)
        keep_client(self.bench, tr("Change the days"), changed)
