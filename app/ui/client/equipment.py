"""Equipment in reach, and the steps there are to load with."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtWidgets import QCheckBox, QGridLayout, QWidget

from app.domain.client import Increments
from app.domain.errors import CoachError
from app.domain.exercise import Equipment
from app.domain.wording import tr
from app.ui.bench import Bench
from app.ui.client.profile import keep_client
from app.ui.forms import NumberField, Sheet, plain, text_field
from app.ui.words import number, typed_number


class EquipmentSheet(Sheet):
    """Ticks what there is; loads are rounded to the steps named."""

    def __init__(self, bench: Bench, parent: QWidget | None) -> None:
        client = bench.desk.client
        super().__init__(parent, tr("Equipment of {client}", client=client.name), verb=tr("Keep"))
        self.bench = bench
        self.boxes: dict[Equipment, QCheckBox] = {}
        grid = QGridLayout()
        things = [e for e in Equipment if e is not Equipment.BODY]
        for place, thing in enumerate(things):
            box = QCheckBox(thing.value.replace("_", " ").capitalize())
            box.setMinimumHeight(24)
            box.setChecked(thing in client.equipment)
            self.boxes[thing] = box
            grid.addWidget(box, place % 8, place // 8)
        self.column.insertLayout(1, grid)
        self.column.insertWidget(2, plain(tr("Steps to load with"), step="head"))
        steps = client.increments
        self.bar = self._step(tr("Bar"), steps.bar_kg, high=40)
        self.plates = text_field(", ".join(typed_number(p) for p in steps.plates_kg))
        self._plates_shown = self.plates.text()
        self.lightest = self._step(tr("Lightest dumbbell"), steps.dumbbells_kg[0], high=100)
        self.step = self._step(tr("Dumbbells go up by"), steps.dumbbells_kg[1], high=20)
        self.heaviest = self._step(tr("Heaviest dumbbell"), steps.dumbbells_kg[2], high=150)
        self.machine = self._step(tr("Machine step"), steps.machine_step_kg, high=25)
        self.cable = self._step(tr("Cable step"), steps.cable_step_kg, high=25)
        for label, field in (
            (tr("Bar"), self.bar),
            (tr("Plates, kg (pairs)"), self.plates),
            (tr("Lightest dumbbell"), self.lightest),
            (tr("Dumbbells go up by"), self.step),
            (tr("Heaviest dumbbell"), self.heaviest),
            (tr("Machine step"), self.machine),
            (tr("Cable step"), self.cable),
        ):
            self.row(label, field)
        self.setMinimumWidth(520)

    def _step(self, name: str, value: float, *, high: float) -> NumberField:
        field = NumberField(name, low=0.25, high=high, unit="kg")
        field.set_value(value)
        return field

    def _plates(self, kept: tuple[float, ...]) -> tuple[float, ...]:
        text = self.plates.text()
        return kept if text == self._plates_shown else plates_from(text)

    def keep(self) -> None:
        """Keep equipment and steps."""
        client = self.bench.desk.client
        low, step, top = (f.value() or 0.0 for f in (self.lightest, self.step, self.heaviest))
        if low > top:
            raise CoachError(
                tr(
                    "The lightest dumbbell ({low} kg) is heavier than the heaviest.",
                    low=number(low),
                ),
                mend=tr("Swap the two."),
            )
        steps = Increments(
            bar_kg=self.bar.value() or 0.0,
            plates_kg=self._plates(client.increments.plates_kg),
            dumbbells_kg=(low, step, top),
            machine_step_kg=self.machine.value() or 0.0,
            cable_step_kg=self.cable.value() or 0.0,
            bands=client.increments.bands,
        )
        things = {thing for thing, box in self.boxes.items() if box.isChecked()}
        changed = replace(client, equipment=frozenset({Equipment.BODY, *things}), increments=steps)
        keep_client(self.bench, tr("Change the equipment"), changed)


def plates_from(text: str) -> tuple[float, ...]:
    """Plate sizes from '25, 20, 1.25'; heaviest first. Raises CoachError naming the word."""
    sizes = []
    for word in text.replace(";", " ").replace(", ", " ").split():
        try:
            size = float(word.strip(",").replace(",", "."))
        except ValueError:
            raise CoachError(
                tr("'{word}' is not a plate.", word=word),
                mend=tr("Write sizes in kg, like 20, 10, 5, 2.5, 1.25."),
            ) from None
        if not 0 < size <= 50:
            raise CoachError(
                tr("A plate of {size} kg.", size=number(size)),
                mend=tr("Sizes lie from 0.1 to 50 kg."),
            )
        sizes.append(size)
    return tuple(sorted(set(sizes), reverse=True))
