"""What the energy form shows beside its fields: targets, weeks, and every equation's value."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QGridLayout,
    QScrollArea,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from app.domain.client import Client
from app.domain.energy import (
    ACTIVITIES,
    EnergyPlan,
    corridor_working,
    macro_rows,
    need_working,
    week_working,
)
from app.domain.energy.table import (
    EnergyTable,
    choice_text,
    requirement_working,
)
from app.domain.units import in_units
from app.domain.wording import mark, tr
from app.domain.working import Working
from app.ui.bench import Bench
from app.ui.client.number_button import NumberButton
from app.ui.client.ramp_chart import RampChart, ramp_text
from app.ui.forms import Wrapped, plain
from app.ui.words import DASH, number

CLASS_WORDS = {
    "sedentary/light": mark("Sedentary or light"),
    "active/moderate": mark("Active or moderate"),
    "vigorous": mark("Vigorous"),
}
ACTIVITY_WORDS = (
    mark("inactive"),
    mark("low active"),
    mark("active"),
    mark("very active"),
)
CHOSEN = "\N{BLACK RIGHT-POINTING POINTER} "
"""Stands before what the targets rest on."""


class EnergyTables(QTabWidget):
    """Three tabs; each says why where there are no numbers to show."""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self.bench = bench
        self.chart = RampChart()
        self.pages = tuple(QScrollArea() for _ in range(3))
        words = (tr("Targets"), tr("Week by week"), tr("Equations"))
        for page, word in zip(self.pages, words, strict=True):
            page.setWidgetResizable(True)
            page.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
            page.setAccessibleName(word)
            self.addTab(page, word)
        self._pending: dict[int, Callable[[], QWidget]] = {}
        self.currentChanged.connect(self._build)
        self.setMinimumSize(430, 420)

    def show_numbers(
        self, client: Client, energy: EnergyPlan, table: EnergyTable, *, on: date
    ) -> None:
        """Show what the plan and the equations say."""
        self.tabBar().setEnabled(True)
        self.chart = RampChart()
        self._pending = {
            0: lambda: self._targets(client, energy, on=on),
            1: lambda: self._weeks(client, energy, on=on),
            2: lambda: self._equations(client, table),
        }
        self._build(self.currentIndex())

    def _build(self, at: int) -> None:
        """Fill a tab when it is first looked at: a year of weeks has hundreds of numbers."""
        page = self._pending.pop(at, None)
        if page is not None:
            self.pages[at].setWidget(page())

    def show_nothing(self, why: str) -> None:
        """Show no number and say why: there is a referral, no goal, or a figure is missing."""
        self.chart = RampChart()
        self._pending = {}
        self.tabBar().setEnabled(False)
        for scrolled in self.pages:
            page, column = _page()
            column.addWidget(Wrapped(why))
            column.addStretch(1)
            scrolled.setWidget(page)

    def _number(self, text: str, working: Working, about: str) -> NumberButton:
        return NumberButton(self.bench, text, working, about=about)

    # -- targets -------------------------------------------------------------------------------

    def _targets(self, client: Client, energy: EnergyPlan, *, on: date) -> QWidget:
        page, column = _page()
        grid = _grid(column)
        low, high = energy.need_range
        rows = [
            (
                tr("Needs, to hold"),
                kcal_text(energy.need_kcal),
                f"{low:,.0f}{DASH}{high:,.0f} kcal",
                need_working(energy),
            ),
            (tr("Target"), kcal_text(energy.target_kcal), "kcal", energy.working()),
        ]
        for row in macro_rows(energy, client, on):
            advised = tr("g; advised {low}–{high}", low=f"{row.low:.0f}", high=f"{row.high:.0f}")
            rows.append((row.name, number(row.grams, places=0), advised, row.working))
        for at, (name, value, beside, working) in enumerate(rows):
            grid.addWidget(plain(name), at, 0)
            grid.addWidget(self._number(value, working, name), at, 1)
            grid.addWidget(plain(beside, role="small"), at, 2)
        open_week = min(self.bench.week + 1, len(energy.weeks))
        self.chart.show_plan(energy, open_week=open_week)
        column.addWidget(self.chart)
        column.addWidget(Wrapped(ramp_text(energy), role="small"))
        for remark in energy.remarks:
            column.addWidget(Wrapped(remark, role="small"))
        column.addWidget(
            Wrapped(
                tr(
                    "How many meals, when and of what stays the client's own matter. An equation "
                    "can miss one person by 10 % and more: the trend of mass decides."
                ),
                role="small",
            )
        )
        column.addStretch(1)
        return page

    # -- weeks ---------------------------------------------------------------------------------

    def _weeks(self, client: Client, energy: EnergyPlan, *, on: date) -> QWidget:
        page, column = _page()
        grid = _grid(column)
        heads = (
            tr("Week"),
            "kcal",
            tr("Protein, g"),
            tr("Fat, g"),
            tr("Carbohydrate, g"),
            tr("Mass, {units}", units=client.units),
        )
        for at, text in enumerate(heads):
            grid.addWidget(plain(text, role="small"), 0, at)
        for week in energy.weeks:
            name = tr("Week {number}", number=week.number)
            grid.addWidget(plain(str(week.number)), week.number, 0)
            numbers = [(name, kcal_text(week.kcal), week_working(energy, week.number))]
            numbers += [
                (f"{name}, {row.name}", number(row.grams, places=0), row.working)
                for row in macro_rows(energy, client, on, week=week)
            ]
            low, high = (in_units(kg, client.units) for kg in week.mass_kg)
            mass = corridor_working(energy, week, client.mass_kg or 0.0)
            span = f"{number(low)}{DASH}{number(high)}"
            numbers.append((tr("{week}, mass", week=name), span, mass))
            for at, (about, text, working) in enumerate(numbers, start=1):
                grid.addWidget(self._number(text, working, about), week.number, at)
        column.addStretch(1)
        return page

    # -- equations -----------------------------------------------------------------------------

    def _equations(self, client: Client, table: EnergyTable) -> QWidget:
        page, column = _page()
        column.addWidget(plain(tr("Energy at rest, kcal a day"), step="medium"))
        self._resting(_grid(column), table)
        spread = tr(
            "The equations part by {share} of the chosen value ({low}–{high}).",
            share=f"{table.spread:.0%}",
            low=f"{table.resting.low:,.0f}",
            high=f"{table.resting.high:,.0f}",
        )
        column.addWidget(Wrapped(spread, role="small"))
        column.addWidget(Wrapped(choice_text(client.energy_equation), role="small"))
        column.addWidget(plain(tr("In all, by activity class, kcal a day"), step="medium"))
        self._totals(_grid(column), table)
        if table.requirements:
            column.addWidget(
                plain(tr("Requirement equations, kcal a day, beside it"), step="medium")
            )
            self._requirements(_grid(column), table)
        column.addStretch(1)
        return page

    def _source(self, key: str) -> str:
        found = self.bench.shelf.references.get(key)
        return key if found is None else found.short

    def _resting(self, grid: QGridLayout, table: EnergyTable) -> None:
        for at, row in enumerate(table.equations):
            grid.addWidget(plain(CHOSEN + row.name if row.chosen else row.name), at, 0)
            if row.kcal is None or row.working is None:
                grid.addWidget(plain(DASH), at, 1)
                grid.addWidget(plain(row.why_not, role="small"), at, 2)
            else:
                text = kcal_text(row.kcal)
                grid.addWidget(self._number(text, row.working, row.name), at, 1)
                grid.addWidget(plain(self._source(row.source), role="small"), at, 2)

    def _totals(self, grid: QGridLayout, table: EnergyTable) -> None:
        for at, row in enumerate(table.totals):
            name = tr(CLASS_WORDS[row.key])
            grid.addWidget(plain(CHOSEN + name if row.chosen else name), at, 0)
            text = kcal_text(row.kcal)
            grid.addWidget(self._number(text, row.working, name), at, 1)
            span = tr(
                "at {pal}; {low}–{high}; {source}",
                pal=f"{row.pal:.2f}",
                low=f"{row.low:,.0f}",
                high=f"{row.high:,.0f}",
                source=self._source(row.source),
            )
            grid.addWidget(plain(span, role="small"), at, 2)

    def _requirements(self, grid: QGridLayout, table: EnergyTable) -> None:
        for column, row in enumerate(table.requirements, start=1):
            grid.addWidget(plain(self._source(row.source), role="small"), 0, column)
        for at, word in enumerate(ACTIVITY_WORDS):
            grid.addWidget(plain(tr(word)), at + 1, 0)
            for column, row in enumerate(table.requirements, start=1):
                text = kcal_text(row.by_activity[at])
                shown = CHOSEN + text if row.chosen == at else text
                working = requirement_working(row, table.who, at)
                grid.addWidget(
                    self._number(shown, working, f"{row.name}, {tr(word)}"), at + 1, column
                )
        assert len(ACTIVITY_WORDS) == len(ACTIVITIES)


def kcal_text(kcal: float) -> str:
    """A whole number of kcal with its thousands parted."""
    return f"{kcal:,.0f}"


def _page() -> tuple[QWidget, QVBoxLayout]:
    page = QWidget()
    column = QVBoxLayout(page)
    column.setContentsMargins(10, 10, 10, 10)
    column.setSpacing(6)
    return page, column


def _grid(column: QVBoxLayout) -> QGridLayout:
    grid = QGridLayout()
    grid.setHorizontalSpacing(14)
    grid.setVerticalSpacing(2)
    grid.setColumnStretch(6, 1)
    column.addLayout(grid)
    return grid
