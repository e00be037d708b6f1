"""Entering a strength test: load, repetitions, reserve; the estimate is shown as it is typed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QCompleter, QDateEdit, QWidget

from app.domain.client import Client, StrengthTest
from app.domain.doubt import doubt_load, require_day
from app.domain.errors import CoachError
from app.domain.exercise import Exercise, ExerciseKey, LoadKind, Pattern
from app.domain.loads import LIGHTEST_TEST_KG, body_kg, one_rep_max_of, require_load_of_test
from app.domain.strength import MAX_REPS, estimate_one_rep_max, set_text
from app.domain.units import in_units
from app.domain.wording import mark, tr
from app.ui.bench import Bench
from app.ui.client.doubt_line import DoubtLine
from app.ui.client.profile import keep_client
from app.ui.forms import NumberField, Sheet, Wrapped
from app.ui.mass_field import MassField
from app.ui.words import DASH, full_date, number, pydate, qdate

TERMS = {
    LoadKind.DUMBBELL_EACH: mark("{unit} in each hand"),
    LoadKind.DUMBBELL_ONE: mark("{unit}, the one dumbbell"),
    LoadKind.BODY: mark("{unit} added to the body, 0 for none, below 0 for help"),
    LoadKind.BARBELL: mark("{unit}, bar and plates together"),
    LoadKind.MACHINE: mark("{unit} on the machine"),
    LoadKind.CABLE: mark("{unit} on the stack"),
}

MOST_HELP_KG = -100.0


class TestSheet(Sheet):
    """Adds a test, or changes one. Of two of one exercise and day the coach says which counts.

    exercise: the one that is named at the start; changing: the test that is corrected.
    """

    __test__ = False  # not a test of ours, whatever its name says

    def __init__(
        self,
        bench: Bench,
        parent: QWidget | None,
        *,
        today: date,
        exercise: ExerciseKey | None = None,
        changing: StrengthTest | None = None,
    ) -> None:
        super().__init__(
            parent,
            tr("Strength test of {client}", client=bench.desk.client.name),
            verb=tr("Keep the test"),
            about=tr(
                "A set of 3 to 10 repetitions with clean form, stopped at "
                "failure or just before it, after ramp sets and with someone "
                "beside the bar."
            ),
        )
        self.bench, self.today, self.changing = bench, today, changing
        self.exercise = self._exercise_box()
        self.day = QDateEdit(qdate(today))
        self.day.setDisplayFormat("d MMM yyyy")
        self.day.setCalendarPopup(True)
        self.day.setMaximumDate(qdate(today))
        self.day.setMinimumHeight(32)
        self.units = bench.desk.client.units
        self.load = MassField(tr("Load lifted"), low=LIGHTEST_TEST_KG, high=600, units=self.units)
        self.reps = NumberField(tr("Repetitions"), low=1, high=30, unit="reps", whole=True)
        self.rir = NumberField(tr("Left in reserve"), low=0, high=10, unit="reps")
        self.rir.set_value(0)
        self.doubt = DoubtLine(self.load.set_value)
        self.counts = _counts_box()
        self.term = Wrapped(role="small")
        self.term.setMinimumWidth(320)
        self.estimate = Wrapped(step="head")
        self._lay_out()
        wanted = changing.exercise if changing else exercise
        if wanted is not None:
            self.exercise.setCurrentIndex(self.exercise.findData(wanted))
        if changing is not None:
            self._show_test(changing)
        self._connect()
        self.setMinimumWidth(480)
        self.refresh()

    def _exercise_box(self) -> QComboBox:
        """Exercises that can be tested, found by any part of their name."""
        box = QComboBox()
        box.setEditable(True)
        box.setMinimumHeight(32)
        box.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        for one in self._exercises():
            box.addItem(one.name, one.key)
        completer = QCompleter(box.model(), box)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        completer.setCompletionMode(QCompleter.CompletionMode.PopupCompletion)
        box.setCompleter(completer)
        return box

    def _lay_out(self) -> None:
        self.row(tr("Exercise"), self.exercise)
        self.row(tr("Day"), self.day)
        self.row(tr("Load lifted"), self.load)
        self.form.addRow("", self.term)
        self.row(tr("Repetitions"), self.reps)
        self.row(tr("Left in reserve"), self.rir)
        self.form.addRow(self.doubt)
        self.row(tr("Two tests that day"), self.counts)
        self.body.addWidget(self.estimate)

    def _connect(self) -> None:
        self.exercise.currentTextChanged.connect(lambda _text: self.refresh())
        self.day.dateChanged.connect(lambda _day: self.refresh())
        for field in (self.load, self.reps, self.rir):
            field.edit.editingFinished.connect(self._doubt_load)
            field.edit.textChanged.connect(lambda _text: self.refresh())

    def _exercises(self) -> list[Exercise]:
        """Exercises that can be tested, those of the program first."""
        desk = self.bench.desk
        can = [
            e
            for e in desk.catalogue
            if e.load_kind in TERMS and not e.timed and e.pattern is not Pattern.DRILL
        ]
        used = set()
        if desk.has_program:
            used = {slot.exercise for week in desk.program.weeks for slot in week.slots()}
        return sorted(can, key=lambda e: (e.key not in used, e.name))

    def _chosen(self) -> ExerciseKey | None:
        """The exercise that is named; the box itself follows only once the field is left."""
        text = self.exercise.currentText().strip()
        at = self.exercise.currentIndex()
        if self.exercise.itemText(at) != text:
            at = self.exercise.findText(text, Qt.MatchFlag.MatchFixedString)
        return None if at < 0 else ExerciseKey(self.exercise.itemData(at))

    def _test(self) -> StrengthTest:
        key = self._chosen()
        if key is None:
            raise CoachError(
                tr(
                    "There is no exercise '{currenttext}'.", currenttext=self.exercise.currentText()
                ),
                mend=tr("Choose one from the list."),
            )
        test = StrengthTest(
            exercise=key,
            on=pydate(self.day.date()),
            load_kg=self.load.value() or 0.0,
            reps=self.reps.whole_value(),
            rir=self.rir.value() or 0.0,
            note="" if self.changing is None else self.changing.note,
        )
        desk = self.bench.desk
        return require_load_of_test(test, desk.catalogue[key], desk.client)

    def refresh(self) -> None:
        """Show what the load means and what the test comes to."""
        catalogue = self.bench.desk.catalogue
        key = self._chosen()
        self.form.setRowVisible(self.counts, bool(self._same_day()))
        if key is None:
            self.term.setText("")
            self.estimate.setText("")
            return
        exercise = catalogue[key]
        self.term.setText(tr(TERMS[exercise.load_kind], unit=self.units))
        helped = exercise.load_kind is LoadKind.BODY
        self.load.set_low_kg(MOST_HELP_KG if helped else LIGHTEST_TEST_KG)
        self.estimate.setText("")
        if not (self.load.edit.text() and self.reps.edit.text()):
            return
        try:
            client = replace(self.bench.desk.client, tests=(self._test(),))
            estimate = one_rep_max_of(exercise, client)
        except CoachError:
            for field in (self.load, self.reps, self.rir):
                field.show_error("")  # half a number is not wrong yet
            return
        if estimate is None:
            self.estimate.setText(_why_none(exercise, client))
        else:
            low, median, high = (
                number(in_units(kg, self.units), places=0)
                for kg in (estimate.low, estimate.median, estimate.high)
            )
            own = tr(", own weight included") if body_kg(exercise, client) else ""
            remark = f" {estimate.remarks[0]}" if estimate.remarks else ""
            self.estimate.setText(
                tr(
                    "About {median} {unit} for one repetition{own} ({low}{dash}{high}).{remark}",
                    median=median,
                    unit=self.units,
                    own=own,
                    low=low,
                    dash=DASH,
                    high=high,
                    remark=remark,
                )
            )

    def _show_test(self, test: StrengthTest) -> None:
        self.exercise.setEnabled(False)  # another exercise would be another test
        self.day.setDate(qdate(test.on))
        self.load.set_value(test.load_kg)
        self.reps.set_value(test.reps)
        self.rir.set_value(test.rir)

    def _same_day(self) -> tuple[StrengthTest, ...]:
        """Other tests of the exercise on that day, guesses left out."""
        key, day = self._chosen(), pydate(self.day.date())
        return tuple(
            test
            for test in self.bench.desk.client.tests
            if test.exercise == key
            and test.on == day
            and test.guessed_from is None
            and test is not self.changing
        )

    def _doubt_load(self) -> None:
        """Question a load that another unit would explain."""
        key, client = self._chosen(), self.bench.desk.client
        try:
            load = self.load.value() if self.load.edit.text() else None
            reps = self.reps.whole_value() if self.reps.edit.text() else None
        except CoachError:
            load = reps = None
        if key is None or load is None or reps is None:
            self.doubt.put(None)
            return
        exercise = self.bench.desk.catalogue[key]
        others = tuple(t for t in client.tests if t is not self.changing)
        known = one_rep_max_of(exercise, replace(client, tests=others))
        rir = self.rir.value() or 0.0
        if known is None or load <= 0 or body_kg(exercise, client) or reps + rir > MAX_REPS:
            self.doubt.put(None)
            return
        # both as loads for one repetition, so that a set of ten is not taken for a slip
        per_kg = estimate_one_rep_max(100.0, reps, rir).median / 100.0
        self.doubt.put(doubt_load(load, known.median / per_kg))

    def keep(self) -> None:
        """Keep the test; both of one day are kept, the one that counts first."""
        test = self._test()
        client = self.bench.desk.client
        require_day(tr("Test"), test.on, today=self.today, born=client.born)
        self._doubt_load()
        self.doubt.require_answer()
        same = self._same_day()
        counts = self.counts.currentData()
        if same and not counts:
            done = set_text(same[0].load_kg, same[0].reps, same[0].rir, client.units)
            raise CoachError(
                tr(
                    "There is a test of {day} already: {done}.",
                    day=full_date(test.on),
                    done=done,
                ),
                mend=tr("Choose which of the two counts; both are kept."),
            )
        kept = [t for t in client.tests if t is not self.changing]
        at = kept.index(same[0]) if same and counts == "new" else len(kept)
        kept.insert(at, test)
        name = self.bench.desk.catalogue[test.exercise].name
        verb = tr("Test {name}, {on}") if self.changing is None else tr("Change test {name}, {on}")
        label = verb.format(name=name, on=full_date(test.on))
        keep_client(self.bench, label, replace(client, tests=tuple(kept)))


def _counts_box() -> QComboBox:
    """Which of two tests of one exercise and day counts; nothing is chosen at first."""
    box = QComboBox()
    box.setMinimumHeight(32)
    for text, data in (
        (tr("choose which counts"), ""),
        (tr("the one entered here counts"), "new"),
        (tr("the one of before counts"), "old"),
    ):
        box.addItem(text, data)
    return box


def _why_none(exercise: Exercise, client: Client) -> str:
    """Why a test of own weight has no estimate; nothing for other exercises."""
    if exercise.load_kind is not LoadKind.BODY:
        return ""
    if not exercise.body_share:
        return tr("No estimate: no source says how much of the body is lifted here.")
    if client.mass_kg is None:
        return tr("No estimate yet: the client's body mass is missing.")
    return ""
