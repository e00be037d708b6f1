"""Entering a strength test: load, repetitions, reserve; the estimate is shown as it is typed."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QCompleter, QDateEdit, QWidget

from app.domain.client import Client, StrengthTest
from app.domain.errors import CoachError
from app.domain.exercise import Exercise, ExerciseKey, LoadKind, Pattern
from app.domain.loads import LIGHTEST_TEST_KG, body_kg, one_rep_max_of, require_load_of_test
from app.domain.wording import mark, tr
from app.ui.bench import Bench
from app.ui.client.profile import keep_client
from app.ui.forms import NumberField, Sheet, Wrapped, plain
from app.ui.words import DASH, full_date, number, pydate, qdate

TERMS = {
    LoadKind.DUMBBELL_EACH: mark("kg in each hand"),
    LoadKind.DUMBBELL_ONE: mark("kg, the one dumbbell"),
    LoadKind.BODY: mark("kg added to the body, 0 for none, below 0 for help"),
    LoadKind.BARBELL: mark("kg, bar and plates together"),
    LoadKind.MACHINE: mark("kg on the machine"),
    LoadKind.CABLE: mark("kg on the stack"),
}

MOST_HELP_KG = -100.0


class TestSheet(Sheet):
    """Adds a test; one of the same exercise and day is replaced."""

    __test__ = False  # not a test of ours, whatever its name says

    def __init__(self, bench: Bench, parent: QWidget | None, *, today: date) -> None:
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
        self.bench, self.today = bench, today
        self.exercise = QComboBox()
        self.exercise.setEditable(True)
        self.exercise.setMinimumHeight(32)
        self.exercise.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        for one in self._exercises():
            self.exercise.addItem(one.name, one.key)
        completer = QCompleter(self.exercise.model(), self.exercise)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        completer.setCompletionMode(QCompleter.CompletionMode.PopupCompletion)
        self.exercise.setCompleter(completer)
        self.day = QDateEdit(qdate(today))
        self.day.setDisplayFormat(tr("d MMM yyyy"))
        self.day.setCalendarPopup(True)
        self.day.setMaximumDate(qdate(today))
        self.day.setMinimumHeight(32)
        self.load = NumberField(tr("Load lifted"), low=LIGHTEST_TEST_KG, high=600, unit="kg")
        self.reps = NumberField(tr("Repetitions"), low=1, high=30, unit="reps", whole=True)
        self.rir = NumberField(tr("Left in reserve"), low=0, high=10, unit="reps")
        self.rir.set_value(0)
        self.term = plain("", role="small")
        self.estimate = Wrapped(step="head")
        self.row(tr("Exercise"), self.exercise)
        self.row(tr("Day"), self.day)
        self.row(tr("Load lifted"), self.load)
        self.form.addRow("", self.term)
        self.row(tr("Repetitions"), self.reps)
        self.row(tr("Left in reserve"), self.rir)
        self.body.addWidget(self.estimate)
        self.exercise.currentTextChanged.connect(lambda _text: self.refresh())
        for field in (self.load, self.reps, self.rir):
            field.edit.textChanged.connect(lambda _text: self.refresh())
        self.setMinimumWidth(480)
        self.refresh()

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
        )
        desk = self.bench.desk
        return require_load_of_test(test, desk.catalogue[key], desk.client)

    def refresh(self) -> None:
        """Show what the load means and what the test comes to."""
        catalogue = self.bench.desk.catalogue
        key = self._chosen()
        if key is None:
            self.term.setText("")
            self.estimate.setText("")
            return
        exercise = catalogue[key]
        self.term.setText(tr(TERMS[exercise.load_kind]))
        self.load.low = MOST_HELP_KG if exercise.load_kind is LoadKind.BODY else LIGHTEST_TEST_KG
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
            low, high = number(estimate.low, places=0), number(estimate.high, places=0)
            own = tr(", own weight included") if body_kg(exercise, client) else ""
            remark = f" {estimate.remarks[0]}" if estimate.remarks else ""
            self.estimate.setText(
                tr(
                    "About {median} kg for one repetition{own} ({low}{dash}{high}).{remark}",
                    median=number(estimate.median, places=0),
                    own=own,
                    low=low,
                    dash=DASH,
                    high=high,
                    remark=remark,
                )
            )

    def keep(self) -> None:
        """Keep the test."""
        test = self._test()
        client = self.bench.desk.client
        others = tuple(t for t in client.tests if (t.exercise, t.on) != (test.exercise, test.on))
        name = self.bench.desk.catalogue[test.exercise].name
        label = tr("Test {name}, {on}", name=name, on=full_date(test.on))
        keep_client(self.bench, label, replace(client, tests=(*others, test)))


def _why_none(exercise: Exercise, client: Client) -> str:
    """Why a test of own weight has no estimate; nothing for other exercises."""
    if exercise.load_kind is not LoadKind.BODY:
        return ""
    if not exercise.body_share:
        return tr("No estimate: no source says how much of the body is lifted here.")
    if client.mass_kg is None:
        return tr("No estimate yet: the client's body mass is missing.")
    return ""
