"""All fields of one card, each with a field of its own: the long form of the line in place."""

from __future__ import annotations

from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLineEdit, QWidget

from app.domain.effort import Effort, PercentOneRm, PercentRepMax, Rir
from app.domain.errors import CoachError
from app.domain.prescription_text import Written, read_tempo
from app.domain.program import MAX_SECONDS, MAX_SETS, Reps, Role, Slot
from app.domain.units import kg_from_lb, lb_from_kg
from app.domain.wording import mark, tr
from app.ui.forms import NumberField, Sheet, plain, text_field
from app.ui.grid.acts import Acts

_KINDS: tuple[tuple[str, type[Rir] | type[PercentOneRm] | type[PercentRepMax], float, float], ...]
_KINDS = (
    (mark("RIR, repetitions in reserve"), Rir, 0, 10),
    ("% of 1RM", PercentOneRm, 1, 110),
    ("% of the rep-max load", PercentRepMax, 1, 100),
)
_ROLES = ((Role.CORE, "core"), (Role.ASSISTANCE, "assistance"))


class CardSheet(Sheet):
    """The sheet for one slot; what is kept is one step, and only what differs is set."""

    def __init__(
        self, parent: QWidget, acts: Acts, slot: Slot, *, name: str, timed: bool, unit: str
    ) -> None:
        super().__init__(
            parent,
            name,
            verb=tr("Keep"),
            about=tr("What you set by hand is underlined and stays when a progression is applied."),
        )
        self._acts = acts
        self._slot = slot
        self._unit = unit
        most, what = MAX_SECONDS, tr("Seconds") if timed else tr("Repetitions")
        self.sets = NumberField(tr("Sets"), low=1, high=MAX_SETS, whole=True)
        self.low = NumberField(tr("{what} from", what=what), low=1, high=most, whole=True)
        self.high = NumberField(tr("{what} to", what=what), low=1, high=most, whole=True)
        self.kind = QComboBox()
        self.kind.addItems([kind[0] for kind in _KINDS])
        self.kind.setMinimumHeight(32)
        self.kind.setAccessibleName(tr("Effort as"))
        self.amount = NumberField(tr("Effort"), low=0, high=110)
        self.rest = NumberField(tr("Rest"), low=0, high=1200, unit="s", whole=True)
        self.tempo: QLineEdit = text_field(slot.tempo, hint=tr("3-0-1-0, or empty"))
        self.load = NumberField(tr("Load by hand"), low=0, high=2205, unit=unit, optional=True)
        self.role = QComboBox()
        self.role.addItems([word for _, word in _ROLES])
        self.role.setMinimumHeight(32)
        self.note: QLineEdit = text_field(slot.note, hint=tr("for the client"))
        self._add_rows(what)
        self._fill(slot)
        self.kind.currentIndexChanged.connect(self._kind_chosen)

    def _add_rows(self, what: str) -> None:
        self.row(tr("Sets"), self.sets)
        self.row(what, _beside(self.low, self.high))
        self.row(tr("Effort"), _beside(self.amount, self.kind))
        self.row(tr("Rest"), self.rest)
        self.row(tr("Tempo"), self.tempo)
        self.row(tr("Load"), self.load)
        self.row(tr("Role"), self.role)
        self.row(tr("Note"), self.note)
        self.setMinimumWidth(460)

    def _fill(self, slot: Slot) -> None:
        self.sets.set_value(slot.sets)
        self.low.set_value(slot.reps.low)
        self.high.set_value(slot.reps.high)
        kinds = [kind[1] for kind in _KINDS]
        self.kind.setCurrentIndex(kinds.index(type(slot.effort)))
        self.amount.set_value(_amount(slot.effort))
        self._kind_chosen(self.kind.currentIndex())
        self.rest.set_value(slot.rest_s)
        load = slot.load_kg
        self.load.set_value(lb_from_kg(load) if load is not None and self._unit == "lb" else load)
        self.role.setCurrentIndex([role for role, _ in _ROLES].index(slot.role))

    def _kind_chosen(self, number: int) -> None:
        _, _, self.amount.low, self.amount.high = _KINDS[number]

    def written(self) -> Written:
        """What the fields say. Raises CoachError, shown under its field, for what they cannot."""
        low, high = self.low.whole_value(), self.high.whole_value()
        if high < low:
            error = CoachError(
                tr("The range runs from {low} down to {high}.", low=low, high=high),
                mend=tr("Swap them."),
            )
            self.high.show_error(error.sentence)
            raise error
        amount = self.amount.value()
        load = self.load.value()
        if load is not None and self._unit == "lb":
            load = kg_from_lb(load)
        assert amount is not None
        return Written(
            sets=self.sets.whole_value(),
            reps=Reps(low, high),
            effort=_KINDS[self.kind.currentIndex()][1](amount),
            rest_s=self.rest.whole_value(),
            tempo=read_tempo(self.tempo.text()),
            load_kg=load,
            no_load=load is None and self._slot.load_kg is not None,
        )

    def keep(self) -> None:
        """Keep all fields as one step."""
        role = _ROLES[self.role.currentIndex()][0]
        self._acts.write_all(self._slot.id, self.written(), note=self.note.text(), role=role)


def _amount(effort: Effort) -> float:
    return effort.reps if isinstance(effort, Rir) else effort.percent


def _beside(first: QWidget, second: QWidget) -> QWidget:
    """Two fields in a row."""
    pair = QWidget()
    row = QHBoxLayout(pair)
    row.setContentsMargins(0, 0, 0, 0)
    row.addWidget(first)
    if isinstance(second, NumberField):
        row.addWidget(plain(tr("to"), role="small"))
    row.addWidget(second, 1)
    pair.setFocusProxy(first)
    return pair
