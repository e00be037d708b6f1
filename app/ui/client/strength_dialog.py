"""All strength tests of a client: estimates, trend, age, what rests on them, what is next."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from PySide6.QtWidgets import QHBoxLayout, QWidget

from app.domain.client import StrengthTest
from app.domain.errors import CoachError
from app.domain.exercise import ExerciseKey
from app.domain.loads import newest_test, one_rep_max_of
from app.domain.strength import set_text
from app.domain.strength_tests import OLD_DAYS, Proposal, is_old, proposals, why_no_tests
from app.domain.trend import Trend
from app.domain.units import in_units
from app.domain.wording import tr
from app.ui import worker
from app.ui.bench import Bench
from app.ui.client.profile import keep_client
from app.ui.client.strength_test import TestSheet
from app.ui.client.strength_trends import trend_text, trends
from app.ui.forms import Sheet, Wrapped, button, plain
from app.ui.lines_table import add_line, choose, chosen, lines_table
from app.ui.words import DASH, full_date, number


class StrengthDialog(Sheet):
    """Exercises above, the tests of the chosen one below, proposals beside; each act is one step.

    trends: the robust trend of each exercise, once it has been worked out.
    """

    def __init__(
        self,
        bench: Bench,
        parent: QWidget | None,
        *,
        today: date,
        exercise: ExerciseKey | None = None,
    ) -> None:
        client = bench.desk.client
        super().__init__(
            parent,
            tr("Strength tests of {client}", client=client.name),
            verb=tr("Enter a test…"),
            about=tr(
                "A test older than {weeks} weeks is marked as old (common practice). Loads rest on "
                "the newest test of their exercise.",
                weeks=OLD_DAYS // 7,
            ),
        )
        self.bench, self.today = bench, today
        self.trends: Mapping[ExerciseKey, Trend] = {}
        self._job: worker.Job[Mapping[ExerciseKey, Trend]] | None = None
        self._earlier: list[object] = []  # a job must live until it has run, cancelled or not
        self.exercises = lines_table(
            tr("Exercises that were tested"),
            (
                tr("Exercise"),
                tr("1RM, {unit}", unit=client.units),
                tr("Last test"),
                tr("Trend a week"),
                tr("Cards"),
            ),
        )
        self.tests = lines_table(
            tr("Tests of the chosen exercise"), (tr("Day"), tr("Done"), tr("Of it")), wide=2
        )
        self.next = lines_table(
            tr("Tests to do next"), (tr("Exercise"), tr("Why"), tr("How"), tr("Last")), wide=1
        )
        self.no_tests = Wrapped()
        self.untested = Wrapped(
            tr(
                "No strength test yet. Without one, loads stay blank and the plan shows effort "
                "only. Five honest reps are enough."
            )
        )
        self.change_button = button(tr("Change…"), self.change)
        self.remove_button = button(tr("Remove"), self.remove)
        self.enter_next = button(tr("Enter this test…"), self.enter_proposed)
        self.guess_button = button(tr("Guess from a related exercise…"), self.guess)
        self._lay_out()
        self._connect()
        self.setMinimumSize(720, 620)
        self.resize(860, 700)
        self.refresh()
        if exercise is not None:
            choose(self.exercises, exercise)
        self.exercises.setFocus()

    def _lay_out(self) -> None:
        for table in (self.exercises, self.tests, self.next):
            table.setMinimumHeight(96)
        self.body.addWidget(self.untested)
        self.body.addWidget(self.exercises, 3)
        self.body.addWidget(self.tests, 2)
        acts = QHBoxLayout()
        acts.addWidget(self.change_button)
        acts.addWidget(self.remove_button)
        acts.addStretch(1)
        self.body.addLayout(acts)
        self.body.addWidget(plain(tr("To do next for this plan"), step="head"))
        self.body.addWidget(self.no_tests)
        self.body.addWidget(self.next, 2)
        more = QHBoxLayout()
        more.addWidget(self.enter_next)
        more.addWidget(self.guess_button)
        more.addStretch(1)
        self.body.addLayout(more)
        self.cancel_button.setText(tr("Close"))

    def _connect(self) -> None:
        self.exercises.currentItemChanged.connect(lambda *_: self._show_tests())
        self.tests.currentItemChanged.connect(lambda *_: self._enable())
        self.tests.itemDoubleClicked.connect(lambda *_: self.change())
        self.next.currentItemChanged.connect(lambda *_: self._enable())
        self.next.itemDoubleClicked.connect(lambda *_: self.enter_proposed())
        self.bench.changed.connect(self._changed)
        self.finished.connect(lambda _result: self._let_go())

    def _let_go(self) -> None:
        self.bench.changed.disconnect(self._changed)
        if self._job is not None:
            self._job.cancel()

    def _changed(self, _before: object, after: object) -> None:
        if after is not None:
            self.refresh()

    # -- what is shown ---------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the tests as they are now; the trends follow when they are worked out."""
        kept, kept_next = chosen(self.exercises), chosen(self.next)
        self._show_exercises()
        self.untested.setVisible(not self.bench.desk.client.tests)
        choose(self.exercises, kept)
        self._show_tests()
        self._show_next()
        choose(self.next, kept_next)
        self._enable()
        self._work_out()

    def _show_exercises(self) -> None:
        desk = self.bench.desk
        self.exercises.clear()
        cards = self._cards()
        keys = dict.fromkeys(t.exercise for t in desk.client.tests if t.exercise in desk.catalogue)
        for key in sorted(keys, key=lambda k: desk.catalogue[k].name):
            exercise = desk.catalogue[key]
            test, estimate = (
                newest_test(exercise, desk.client),
                one_rep_max_of(exercise, desk.client),
            )
            one_rm = ""
            if estimate is not None:
                low, median, high = (
                    number(in_units(kg, desk.client.units), places=0)
                    for kg in (estimate.low, estimate.median, estimate.high)
                )
                one_rm = f"{median} ({low}{DASH}{high})"
            last = "" if test is None else self._age(test)
            trend = self.trends.get(key)
            cells = (
                exercise.name,
                one_rm,
                last,
                "" if trend is None else trend_text(trend, desk.client.units),
                str(cards.get(key, "")),
            )
            add_line(self.exercises, cells, key)

    def _cards(self) -> dict[ExerciseKey, int]:
        """How many cards of the open program there are of each exercise."""
        found: dict[ExerciseKey, int] = {}
        if self.bench.desk.has_program:
            for week in self.bench.desk.program.weeks:
                for slot in week.slots():
                    found[slot.exercise] = found.get(slot.exercise, 0) + 1
        return found

    def _age(self, test: StrengthTest) -> str:
        day = full_date(test.on)
        if test.guessed_from is not None:
            return tr("guess of {day}", day=day)
        return tr("{day}, old", day=day) if is_old(test, self.today) else day

    @property
    def key(self) -> ExerciseKey | None:
        """The exercise that is chosen."""
        found = chosen(self.exercises)
        return ExerciseKey(found) if isinstance(found, str) else None

    def _listed(self) -> list[StrengthTest]:
        """The tests of the chosen exercise, newest first, of one day in the order that counts."""
        tests = [t for t in self.bench.desk.client.tests if t.exercise == self.key]
        return sorted(tests, key=lambda test: -test.on.toordinal())

    def _show_tests(self) -> None:
        self.tests.clear()
        desk = self.bench.desk
        key = self.key
        if key is None:
            return
        exercise, client = desk.catalogue[key], desk.client
        counting = newest_test(exercise, client)
        for place, test in enumerate(self._listed()):
            alone = one_rep_max_of(exercise, replace(client, tests=(test,)))
            parts = []
            if alone is not None:
                about = number(in_units(alone.median, client.units), places=0)
                parts.append(tr("1RM about {load} {unit}", load=about, unit=client.units))
            if test is counting:
                parts.append(tr("loads rest on it"))
            if test.guessed_from is not None:
                source = desk.catalogue[test.guessed_from].name
                parts.append(tr("a guess from {exercise}, no test", exercise=source))
            elif is_old(test, self.today):
                parts.append(tr("old"))
            done = set_text(test.load_kg, test.reps, test.rir, client.units)
            add_line(self.tests, (full_date(test.on), done, ", ".join(parts)), place)
        choose(self.tests, 0)
        self._enable()

    def _show_next(self) -> None:
        desk = self.bench.desk
        self.next.clear()
        why_not = why_no_tests(desk.client, self.today)
        found = self.proposals()
        self.no_tests.setVisible(bool(why_not) or not found)
        self.next.setVisible(bool(found))
        if why_not:
            self.no_tests.setText(why_not)
        elif not desk.has_program:
            self.no_tests.setText(tr("Tests are proposed once there is a program."))
        else:
            self.no_tests.setText(tr("Every load of this plan rests on a recent test."))
        for proposal in found:
            last = "" if proposal.last is None else self._age(proposal.last)
            cells = (proposal.name, proposal.text, proposal.how.text, last)
            add_line(self.next, cells, proposal.exercise)

    def proposals(self) -> tuple[Proposal, ...]:
        """Tests that the open program asks for."""
        desk = self.bench.desk
        if not desk.has_program:
            return ()
        return proposals(desk.program, desk.client, catalogue=desk.catalogue, on=self.today)

    def _enable(self) -> None:
        at = chosen(self.tests)
        test = self._listed()[at] if isinstance(at, int) and at < len(self._listed()) else None
        self.change_button.setEnabled(test is not None and test.guessed_from is None)
        self.remove_button.setEnabled(test is not None)
        proposed = isinstance(chosen(self.next), str) and not self.next.isHidden()
        self.enter_next.setEnabled(proposed)
        self.guess_button.setEnabled(proposed)

    # -- trends ----------------------------------------------------------------------------

    def _work_out(self) -> None:
        """Work the trends out in a quiet thread; only then are they shown."""
        if self._job is not None:
            self._job.cancel()
            self._earlier.append(self._job)
        desk = self.bench.desk
        client, results, catalogue = desk.client, desk.diary.results, desk.catalogue

        def work() -> Mapping[ExerciseKey, Trend]:
            from scipy.stats import theilslopes

            return trends(client, results, catalogue, theilslopes)

        self._job = worker.start(work, self._show_trends, lambda error: None)
        self.destroyed.connect(self._job.cancel)  # closed by its parent, it is never `finished`

    def _show_trends(self, found: Mapping[ExerciseKey, Trend]) -> None:
        self._job = None
        if dict(found) == dict(self.trends):
            return
        self.trends = found
        kept = chosen(self.exercises)
        self._show_exercises()
        choose(self.exercises, kept)

    # -- acts ------------------------------------------------------------------------------

    def try_keep(self) -> None:
        """Enter a test and stay."""
        self._enter(self.key)

    def _enter(self, key: ExerciseKey | None) -> None:
        TestSheet(self.bench, self, today=self.today, exercise=key).exec()

    def change(self) -> None:
        """Correct the chosen test."""
        at = chosen(self.tests)
        if isinstance(at, int) and self.change_button.isEnabled():
            test = self._listed()[at]
            TestSheet(self.bench, self, today=self.today, changing=test).exec()

    def remove(self) -> None:
        """Remove the chosen test; one undo brings it back."""
        at = chosen(self.tests)
        if not isinstance(at, int):
            return
        test, client = self._listed()[at], self.bench.desk.client
        left = tuple(t for t in client.tests if t is not test)
        name = self.bench.desk.catalogue[test.exercise].name
        label = tr("Remove test {name}, {on}", name=name, on=full_date(test.on))
        self.show_error("")
        try:
            keep_client(self.bench, label, replace(client, tests=left))
        except CoachError as error:
            self.show_error(error.sentence)

    def enter_proposed(self) -> None:
        """Enter the test that is proposed."""
        key = chosen(self.next)
        if isinstance(key, str):
            self._enter(ExerciseKey(key))

    def guess(self) -> None:
        """Show what tests of related exercises suggest, for the coach to confirm."""
        from app.ui.client.guess_sheet import GuessSheet

        key = chosen(self.next)
        if not isinstance(key, str):
            return
        sheet = GuessSheet(self.bench, self, exercise=ExerciseKey(key), today=self.today)
        if sheet.guesses:
            sheet.exec()
        else:
            sheet.deleteLater()
            self.show_error(
                tr("No related exercise was tested from which anything could be guessed.")
            )
