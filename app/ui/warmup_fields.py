"""Fields of the warm-up dialog: how much of one drill, and the ramp sets of one lift.

Both begin with what is worked out, and go back to it; what is typed is taken while it is right.
"""

from __future__ import annotations

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import QComboBox, QFormLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from app.domain.errors import CoachError
from app.domain.exercise import Exercise
from app.domain.lead_up import dose_of, zone_dose
from app.domain.program import MAX_REPS, MAX_ROUNDS, MAX_SECONDS, Drill, DrillDose, Reps
from app.domain.ramp import EXAMPLE, NO_RAMP, Ramp, ramp_text, read_ramp
from app.domain.warmup import seconds_text
from app.domain.wording import mark, tr
from app.ui.forms import ROW, Elided, NumberField, Wrapped, button, plain, text_field
from app.ui.words import DASH, TIMES


def dose_text(dose: DrillDose, *, timed: bool) -> str:
    """'3 minutes', '20 s', '8\N{EN DASH}10 reps' or '2 \N{MULTIPLICATION SIGN} 10 reps'."""
    rounds, reps = f"{dose.rounds} {TIMES} " if dose.rounds > 1 else "", dose.reps
    if timed:
        return rounds + seconds_text(reps)
    low = reps.low if reps.low == reps.high else f"{reps.low}{DASH}{reps.high}"
    return tr("{low} reps", low=f"{rounds}{low}")


class DoseFields(QWidget):
    """Rounds and repetitions, or seconds, of one drill; `changed` with every right figure."""

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.exercise: Exercise | None = None
        self.dose: DrillDose | None = None
        self.head = Elided(step="head")
        self.source = Wrapped(role="small")
        self.rounds = NumberField(tr("Rounds"), low=1, high=MAX_ROUNDS, whole=True)
        self.low = NumberField(tr("From"), low=1, high=MAX_REPS, whole=True)
        self.high = NumberField(tr("To"), low=1, high=MAX_REPS, whole=True)
        self.back = button(tr("As the drill says"), self.go_back)
        self.rows = _rows(
            (tr("Rounds"), self.rounds), (tr("From"), self.low), (tr("To"), self.high)
        )
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.head)
        column.addLayout(self.rows)
        column.addWidget(self.source)
        column.addWidget(self.back, 0, Qt.AlignmentFlag.AlignLeft)
        column.addStretch(1)
        for field in (self.rounds, self.low, self.high):
            field.edit.textEdited.connect(lambda _text: self.take())

    def show_drill(self, drill: Drill | None, exercise: Exercise | None) -> None:
        """Show a drill's dose; with None, that no drill is marked."""
        self.exercise = exercise
        self.dose = None if drill is None else drill.dose
        there = drill is not None and exercise is not None
        for field in (self.rounds, self.low, self.high):
            field.setEnabled(there)
            field.set_value(None)
        if drill is None or exercise is None:
            self.head.setText(tr("How much of a drill"))
            self.source.setText(tr("Mark a drill of this warm-up to set its dose."))
            self.back.setEnabled(False)
            return
        self.head.setText(exercise.name)
        most = MAX_SECONDS if exercise.timed else MAX_REPS
        for field in (self.low, self.high):
            field.high = most
        self._fill(dose_of(drill, exercise))
        self._say()

    def _fill(self, dose: DrillDose) -> None:
        self.rounds.set_value(dose.rounds)
        self.low.set_value(dose.reps.low)
        self.high.set_value(dose.reps.high)

    def _say(self) -> None:
        exercise = self.exercise
        if exercise is None:
            return
        usual = dose_text(zone_dose(exercise), timed=exercise.timed)
        if self.dose is None:
            self.source.setText(tr("{dose}, as the zone of the drill says.", dose=usual))
        else:
            mine = dose_text(self.dose, timed=exercise.timed)
            told = tr("{dose}, set by the coach; its zone says {usual}.", dose=mine, usual=usual)
            self.source.setText(told)
        self.back.setEnabled(self.dose is not None or self.is_wrong)

    @property
    def is_wrong(self) -> bool:
        """True while a figure stands in a field that cannot be taken."""
        return any(field.is_wrong for field in (self.rounds, self.low, self.high))

    def take(self) -> None:
        """Take what is typed, if all of it is right; else the field at fault says why."""
        for field in (self.rounds, self.low, self.high):
            field.show_error("")
        try:
            self.read()
        except CoachError:
            self.back.setEnabled(True)
            return
        self._say()
        self.changed.emit()

    def read(self) -> None:
        """Take what is typed. Raises CoachError, shown under its field."""
        exercise = self.exercise
        if exercise is None:
            return
        rounds = self.rounds.whole_value()
        low, high = self.low.whole_value(), self.high.whole_value()
        if high < low:
            error = CoachError(
                tr("The dose runs from {low} down to {high}.", low=low, high=high),
                mend=tr("Enter the smaller figure first, or the same one twice."),
            )
            self.high.show_error(error.sentence)
            raise error
        dose = DrillDose(rounds, Reps(low, high))
        self.dose = None if dose == zone_dose(exercise) else dose

    def go_back(self) -> None:
        """Back to what the zone of the drill says."""
        if self.exercise is not None:
            self.dose = None
            self._fill(zone_dose(self.exercise))
            self._say()
            self.changed.emit()


WAYS = (mark("worked out from the load"), mark("none"), mark("as written below"))
_WORKED_OUT, _NONE, _WRITTEN = range(len(WAYS))


class RampFields(QWidget):
    """The ramp sets of one lift: worked out, none, or steps of the coach's own.

    `changed` with every right line; `lift` is the combo with the lifts, filled by the dialog.
    """

    changed = Signal()

    def __init__(self, unit: str) -> None:
        super().__init__()
        self.unit = unit
        self.ramp: Ramp | None = None
        self.begin_with = EXAMPLE
        self.lift = _combo()
        self.way = _combo()
        self.way.addItems([tr(way) for way in WAYS])
        self.steps = text_field(hint=EXAMPLE)
        self.wrong = Wrapped(role="wrong", step="small")
        self.wrong.hide()
        self.rows = _rows(
            (tr("Lift"), self.lift), (tr("Ramp sets"), self.way), (tr("Steps"), self.steps)
        )
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(plain(tr("Ramp sets"), step="head"))
        column.addLayout(self.rows)
        column.addWidget(self.wrong)
        self.told = Wrapped(role="small")
        column.addWidget(self.told)
        column.addStretch(1)
        self.way.currentIndexChanged.connect(lambda _at: self.take())
        self.steps.textEdited.connect(lambda _text: self.take(typing=True))
        self.steps.editingFinished.connect(self.take)

    def show_ramp(self, ramp: Ramp | None, *, begin_with: str) -> None:
        """Show a lift's ramp sets. begin_with: the line that steps of one's own start from."""
        self.ramp, self.begin_with = ramp, begin_with
        way = _WORKED_OUT if ramp is None else _WRITTEN if ramp.steps else _NONE
        with QSignalBlocker(self.way):
            self.way.setCurrentIndex(way)
        self.steps.setText(ramp_text(ramp, self.unit) if ramp else "")
        self.steps.setEnabled(way == _WRITTEN)
        self._say_wrong("")

    def take(self, *, typing: bool = False) -> None:
        """Take what is chosen and written; a line that is still being typed is not blamed."""
        way = self.way.currentIndex()
        self.steps.setEnabled(way == _WRITTEN)
        if way == _WRITTEN and self.ramp in (None, NO_RAMP) and not self.steps.text().strip():
            self.steps.setText("" if typing else self.begin_with)
        self._say_wrong("")
        try:
            self.read()
        except CoachError as error:
            if not typing:
                self._say_wrong(error.sentence)
            return
        self.changed.emit()

    def read(self) -> None:
        """Take what is chosen and written. Raises CoachError that says what is accepted."""
        way = self.way.currentIndex()
        if way == _WRITTEN:
            self.ramp = read_ramp(self.steps.text())
        else:
            self.ramp = NO_RAMP if way == _NONE else None

    def _say_wrong(self, sentence: str) -> None:
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))
        self.steps.setProperty("wrong", bool(sentence))
        self.steps.style().unpolish(self.steps)
        self.steps.style().polish(self.steps)


def _combo() -> QComboBox:
    box = QComboBox()
    box.setMinimumHeight(ROW)
    box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    box.setMinimumContentsLength(12)
    box.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
    return box


def _rows(*fields: tuple[str, QWidget]) -> QFormLayout:
    form = QFormLayout()
    form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.ExpandingFieldsGrow)
    form.setHorizontalSpacing(16)
    form.setVerticalSpacing(6)
    for name, field in fields:
        label: QLabel = plain(name)
        label.setBuddy(field)
        label.setMinimumHeight(ROW)
        if not field.accessibleName():
            field.setAccessibleName(name)
        form.addRow(label, field)
    return form
