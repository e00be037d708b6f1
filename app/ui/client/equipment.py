"""Equipment in reach at each place, and the steps there are to load with there."""

from __future__ import annotations

from dataclasses import dataclass, replace

from PySide6.QtWidgets import QCheckBox, QComboBox, QGridLayout, QHBoxLayout, QWidget

from app.domain.client import Client, FreeTime, Increments, Place
from app.domain.errors import CoachError
from app.domain.exercise import Equipment
from app.domain.program import require_name
from app.domain.units import KG_PER_LB, in_units, mass_text
from app.domain.wording import tr
from app.ui.bench import Bench
from app.ui.client.profile import keep_client
from app.ui.forms import Sheet, ask_text, button, plain, text_field
from app.ui.mass_field import MassField
from app.ui.words import number, typed_number

HEAVIEST_PLATE_KG = 50.0


@dataclass(frozen=True, slots=True)
class Reach:
    """What there is at one place. was: the name it had when the sheet was opened, None if new.

    The usual place has no name.
    """

    name: str
    was: str | None
    equipment: frozenset[Equipment]
    increments: Increments


class EquipmentSheet(Sheet):
    """Ticks what there is, place by place; loads are rounded to the steps named there."""

    def __init__(self, bench: Bench, parent: QWidget | None) -> None:
        client = bench.desk.client
        super().__init__(parent, tr("Equipment of {client}", client=client.name), verb=tr("Keep"))
        self.bench = bench
        self.units = bench.desk.client.units
        self.reaches = [
            Reach("", "", client.equipment, client.increments),
            *(Reach(p.name, p.name, p.equipment, p.increments) for p in client.places),
        ]
        self.at = 0
        self.place = QComboBox()
        self.place.setMinimumHeight(32)
        self.place.setAccessibleName(tr("Place"))
        self.new_button = button(tr("New place…"), self.add_place)
        self.rename_button = button(tr("Rename…"), self.rename_place)
        self.remove_button = button(tr("Remove"), self.remove_place)
        self.boxes: dict[Equipment, QCheckBox] = {}
        self._lay_out()
        self.place.activated.connect(self._go_to)
        self.setMinimumWidth(620)
        self._list()
        self._show(self.reaches[0])

    def _lay_out(self) -> None:
        where = QHBoxLayout()
        where.addWidget(plain(tr("Place")))
        where.addWidget(self.place, 1)
        for made in (self.new_button, self.rename_button, self.remove_button):
            where.addWidget(made)
        grid = QGridLayout()
        things = [e for e in Equipment if e is not Equipment.BODY]
        for number_, thing in enumerate(things):
            box = QCheckBox(tr(thing.value.replace("_", " ").capitalize()))
            box.setMinimumHeight(24)
            self.boxes[thing] = box
            grid.addWidget(box, number_ % 6, number_ // 6)
        self.column.insertLayout(1, where)
        self.column.insertLayout(2, grid)
        self.column.insertWidget(3, plain(tr("Steps to load with"), step="head"))
        self.bar = self._step(tr("Bar"), high=40)
        self.plates = text_field()
        self.lightest = self._step(tr("Lightest dumbbell"), high=100)
        self.step = self._step(tr("Dumbbells go up by"), high=20)
        self.heaviest = self._step(tr("Heaviest dumbbell"), high=150)
        self.machine = self._step(tr("Machine step"), high=25)
        self.cable = self._step(tr("Cable step"), high=25)
        for label, field in (
            (tr("Bar"), self.bar),
            (tr("Plates, {unit} (pairs)", unit=self.units), self.plates),
            (tr("Lightest dumbbell"), self.lightest),
            (tr("Dumbbells go up by"), self.step),
            (tr("Heaviest dumbbell"), self.heaviest),
            (tr("Machine step"), self.machine),
            (tr("Cable step"), self.cable),
        ):
            self.row(label, field)

    def _step(self, name: str, *, high: float) -> MassField:
        return MassField(name, low=0.25, high=high, units=self.units)

    # -- one place -------------------------------------------------------------------------

    def _list(self) -> None:
        self.place.clear()
        for reach in self.reaches:
            self.place.addItem(reach.name or tr("the usual place"))
        self.place.setCurrentIndex(self.at)
        for made in (self.rename_button, self.remove_button):
            made.setEnabled(self.at > 0)

    def _show(self, reach: Reach) -> None:
        for thing, box in self.boxes.items():
            box.setChecked(thing in reach.equipment)
        steps = reach.increments
        self.bar.set_value(steps.bar_kg)
        sizes = (in_units(size, self.units) for size in steps.plates_kg)
        self.plates.setText(", ".join(map(typed_number, sizes)))
        self._plates_shown = self.plates.text()
        for field, value in zip(
            (self.lightest, self.step, self.heaviest), steps.dumbbells_kg, strict=True
        ):
            field.set_value(value)
        self.machine.set_value(steps.machine_step_kg)
        self.cable.set_value(steps.cable_step_kg)

    def _entered(self) -> Reach:
        """The place shown, as entered. Raises CoachError for what cannot be."""
        reach = self.reaches[self.at]
        low, step, top = (f.value() or 0.0 for f in (self.lightest, self.step, self.heaviest))
        if low > top:
            raise CoachError(
                tr(
                    "The lightest dumbbell ({low}) is heavier than the heaviest.",
                    low=mass_text(low, self.units),
                ),
                mend=tr("Swap the two."),
            )
        steps = Increments(
            bar_kg=self.bar.value() or 0.0,
            plates_kg=self._plates(reach.increments.plates_kg),
            dumbbells_kg=(low, step, top),
            machine_step_kg=self.machine.value() or 0.0,
            cable_step_kg=self.cable.value() or 0.0,
            bands=reach.increments.bands,
        )
        things = {thing for thing, box in self.boxes.items() if box.isChecked()}
        return replace(reach, equipment=frozenset({Equipment.BODY, *things}), increments=steps)

    def _plates(self, kept: tuple[float, ...]) -> tuple[float, ...]:
        text = self.plates.text()
        return kept if text == self._plates_shown else plates_from(text, self.units)

    def _take(self) -> bool:
        """Keep in mind what is entered of the place shown; False, with a sentence, if wrong."""
        self.show_error("")
        try:
            self.reaches[self.at] = self._entered()
        except CoachError as error:
            self.show_error(error.sentence)
            self.place.setCurrentIndex(self.at)
            return False
        return True

    # -- places ----------------------------------------------------------------------------

    def _go_to(self, at: int) -> None:
        """Show another place, once what was entered of this one can be."""
        if at != self.at and self._take():
            self.at = at
            self._show(self.reaches[at])
            self._list()

    def add_place(self) -> None:
        """Ask for a name; the new place begins with what there is at the one shown."""
        if not self._take():
            return
        name = ask_text(self, tr("A new place"), tr("Name: home, gym, travel …"), verb=tr("Add"))
        if name is None or not self._is_free(name):
            return
        self.reaches.append(replace(self.reaches[self.at], name=_tidy(name), was=None))
        self.at = len(self.reaches) - 1
        self._list()

    def rename_place(self) -> None:
        """Ask for another name of the place shown."""
        old = self.reaches[self.at].name
        name = ask_text(self, tr("Rename the place"), tr("Name"), text=old, verb=tr("Rename"))
        if name is None or (_tidy(name) != old and not self._is_free(name)):
            return
        self.reaches[self.at] = replace(self.reaches[self.at], name=_tidy(name))
        self._list()

    def _is_free(self, name: str) -> bool:
        taken = any(_tidy(name).casefold() == reach.name.casefold() for reach in self.reaches)
        self.show_error(tr("There is a place of that name already.") if taken else "")
        return not taken

    def remove_place(self) -> None:
        """Take the place shown away; its weekdays are at the usual one again."""
        del self.reaches[self.at]
        self.at = 0
        self._show(self.reaches[0])
        self._list()

    # -- keeping ---------------------------------------------------------------------------

    def changed_client(self) -> Client:
        """The client as entered. Raises CoachError for what cannot be."""
        client = self.bench.desk.client
        self.reaches[self.at] = self._entered()
        usual, *others = self.reaches
        now = {reach.was: reach.name for reach in others if reach.was}
        places = tuple(Place(r.name, r.equipment, r.increments) for r in others)
        return replace(
            client,
            equipment=usual.equipment,
            increments=usual.increments,
            places=places,
            free=tuple(_moved(time, now) for time in client.free),
        )

    def keep(self) -> None:
        """Keep equipment and steps of every place."""
        keep_client(self.bench, tr("Change the equipment"), self.changed_client())


def _tidy(name: str) -> str:
    return require_name(name, "place")


def _moved(time: FreeTime, now: dict[str, str]) -> FreeTime:
    """The day with its place under its new name; at the usual one where it is gone."""
    place = now.get(time.place, "")
    return time if place == time.place else replace(time, place=place)


def plates_from(text: str, units: str = "kg") -> tuple[float, ...]:
    """Plate sizes, kg, from '25, 20, 1.25' in the units; heaviest first.

    Raises CoachError naming the word.
    """
    sizes = []
    for word in text.replace(";", " ").replace(", ", " ").split():
        try:
            size = float(word.strip(",").replace(",", "."))
        except ValueError:
            raise CoachError(
                tr("'{word}' is not a plate.", word=word),
                mend=tr("Write sizes in {unit}, like 20, 10, 5, 2.5, 1.25.", unit=units),
            ) from None
        size_kg = size * KG_PER_LB if units == "lb" else size
        if not 0 < size_kg <= HEAVIEST_PLATE_KG:
            raise CoachError(
                tr("A plate of {size} {unit}.", size=number(size), unit=units),
                mend=tr("Sizes lie from 0.1 to {most}.", most=mass_text(HEAVIEST_PLATE_KG, units)),
            )
        sizes.append(size_kg)
    return tuple(sorted(set(sizes), reverse=True))
