"""What the client was last tested at: an estimate with its interval for each exercise."""

from __future__ import annotations

from PySide6.QtWidgets import QGridLayout, QPushButton

from app.domain.client import Client, StrengthTest
from app.domain.loads import day_text, one_rep_max_of
from app.domain.one_rm import OneRepMax
from app.domain.wording import mark, tr
from app.ui import accounts, words
from app.ui.client import open_form
from app.ui.client.pictures import Interval
from app.ui.client.section import Section
from app.ui.forms import Elided, plain
from app.ui.working_popup import show_working


class StrengthSection(Section):
    """One line an exercise: name, interval, estimate; the estimate opens its working."""

    word = mark("Strength")

    def fill(self, client: Client) -> None:
        """Show the newest test of every exercise."""
        self.head(tr("Strength"), tr("one-repetition maximum, kg"))
        newest = _newest(client)
        if not newest:
            self.line(
                tr(
                    "No strength test yet. Without one, loads stay blank and the "
                    "plan shows effort only. Five honest reps are enough."
                )
            )
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setColumnStretch(0, 1)
        catalogue = self.bench.desk.catalogue
        for row, test in enumerate(t for t in newest if t.exercise in catalogue):
            exercise = catalogue[test.exercise]
            estimate = one_rep_max_of(exercise, client)
            if estimate is not None:
                self._estimate(grid, row, name=exercise.name, estimate=estimate, test=test)
        self.column.addLayout(grid)
        self.links(
            (tr("Enter a test…"), lambda: open_form.strength_test(self.bench, self.window()))
        )

    def _estimate(
        self, grid: QGridLayout, row: int, *, name: str, estimate: OneRepMax, test: StrengthTest
    ) -> None:
        low, median, high = (
            words.number(kg, places=0) for kg in (estimate.low, estimate.median, estimate.high)
        )
        value = QPushButton(median)
        value.setProperty("flat", True)
        value.setFont(plain("", step="number").font())
        value.setMinimumHeight(24)
        value.setAccessibleName(
            tr("{name}, {median} kg, show the working", name=name, median=median)
        )
        value.setProperty("account", True)
        value.clicked.connect(
            lambda _c=False, e=estimate, b=value: show_working(
                self.bench, e.working(), b.mapToGlobal(b.rect().bottomLeft()), self
            )
        )
        parts = (
            Elided(name),
            Interval(estimate.low, estimate.median, estimate.high),
            value,
            plain(f"{low}{words.DASH}{high}", role="small"),
        )
        for column, widget in enumerate(parts):
            tested = tr("Test of {on}", on=day_text(test.on))
            widget.setToolTip(f"{tested}. {tr(accounts.CLICK)}")
            grid.addWidget(widget, row, column)


def _newest(client: Client) -> tuple[StrengthTest, ...]:
    by_exercise: dict[str, StrengthTest] = {}
    for test in sorted(client.tests, key=lambda t: t.on):
        by_exercise[test.exercise] = test
    return tuple(by_exercise.values())
