"""What the client was last tested at: an estimate with its interval for each exercise."""

from __future__ import annotations

from PySide6.QtWidgets import QGridLayout, QPushButton

from app.domain.client import Client, StrengthTest
from app.domain.loads import day_text, newest_test, one_rep_max_of
from app.domain.one_rm import OneRepMax
from app.domain.strength_tests import is_old
from app.domain.units import in_units
from app.domain.wording import mark, tr
from app.ui import words
from app.ui.client import open_form
from app.ui.client.pictures import Interval
from app.ui.client.section import Section
from app.ui.forms import Elided, plain


class StrengthSection(Section):
    """One line an exercise: name, interval, estimate; the estimate opens its working."""

    word = mark("Strength")

    def fill(self, client: Client) -> None:
        """Show the newest test of every exercise."""
        self.head(tr("Strength"), tr("one-repetition maximum, {unit}", unit=client.units))
        catalogue = self.bench.desk.catalogue
        keys = dict.fromkeys(t.exercise for t in client.tests if t.exercise in catalogue)
        if not keys:
            self.line(
                tr(
                    "No strength test yet. Without one, loads stay blank and the "
                    "plan shows effort only. Five honest reps are enough."
                )
            )
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setColumnStretch(0, 1)
        for row, key in enumerate(keys):
            exercise = catalogue[key]
            test, estimate = newest_test(exercise, client), one_rep_max_of(exercise, client)
            if estimate is not None and test is not None:
                self._estimate(grid, row, name=exercise.name, estimate=estimate, test=test)
        self.column.addLayout(grid)
        self.links(
            (tr("Enter a test…"), lambda: open_form.strength_test(self.bench, self.window())),
            (tr("All tests…"), lambda: open_form.strength_tests(self.bench, self.window())),
        )

    def _estimate(
        self, grid: QGridLayout, row: int, *, name: str, estimate: OneRepMax, test: StrengthTest
    ) -> None:
        units = self.bench.desk.client.units
        low, median, high = (
            words.number(in_units(kg, units), places=0)
            for kg in (estimate.low, estimate.median, estimate.high)
        )
        value = QPushButton(median)
        value.setProperty("flat", True)
        value.setFont(plain("", step="number").font())
        value.setMinimumHeight(24)
        value.setAccessibleName(
            tr("{name}, {median} {unit}, show the working", name=name, median=median, unit=units)
        )
        value.setProperty("account", True)
        value.clicked.connect(lambda _c=False, e=estimate, b=value: self._show(e, b))
        span = f"{low}{words.DASH}{high}"
        parts = (
            Elided(name),
            Interval(estimate.low, estimate.median, estimate.high),
            value,
            plain(self._age(test) or span, role="small"),
        )
        for column, widget in enumerate(parts):
            template = tr("Test of {on}") if test.guessed_from is None else tr("Guess of {on}")
            tested = f"{template.format(on=day_text(test.on))}, {span} {units}"
            widget.setToolTip(f"{tested}. {tr(words.HOW_BY_CLICK)}")
            grid.addWidget(widget, row, column)

    def _show(self, estimate: OneRepMax, below: QPushButton) -> None:
        """Show how the estimate came about."""
        from app.ui.working_popup import show_working

        where = below.mapToGlobal(below.rect().bottomLeft())
        show_working(self.bench, estimate.working(), where, self)

    def _age(self, test: StrengthTest) -> str:
        """'old' or 'guess' where that is to be seen before the interval, or nothing."""
        if test.guessed_from is not None:
            return tr("guess")
        return tr("old") if is_old(test, self.today) else ""
