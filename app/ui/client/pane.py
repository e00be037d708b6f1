"""The client pane: who the plan is for, what limits it, and what its numbers rest on."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QStackedLayout,
    QVBoxLayout,
    QWidget,
)

from app.domain import screening as screenings
from app.domain.client import Client, StrengthTest
from app.domain.exercise import Equipment
from app.domain.loads import day_text, one_rep_max_of
from app.ui import words
from app.ui.bench import Bench
from app.ui.client import energy_lines, limits
from app.ui.client.pictures import DayBars, Interval, Rail
from app.ui.forms import Elided, Wrapped, plain
from app.ui.working_popup import show_working

WIDE = 278
RAIL = 34


class ClientPane(QFrame):
    """Sections from profile to energy; each opens its form. Folds to a rail.

    opened(): a click on the rail opened the pane.
    """

    opened = Signal()

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self.folded = False
        self.rail = Rail()
        self.rail.mouseReleaseEvent = self._unfold  # type: ignore[method-assign]
        self.scroll_area = QScrollArea()
        self.scroll_area.setWidgetResizable(True)
        self.scroll_area.setAccessibleName("Client")
        self.scroll_area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.stack = QStackedLayout(self)
        self.stack.addWidget(self.scroll_area)
        self.stack.addWidget(self.rail)
        self.fold(False)
        bench.changed.connect(self._changed)
        bench.week_shown.connect(lambda _week: self._show_week())
        self.refresh()

    def fold(self, folded: bool) -> None:
        """Fold to a rail, or open."""
        self.folded = folded
        self.stack.setCurrentWidget(self.rail if folded else self.scroll_area)
        self.setFixedWidth(RAIL if folded else WIDE)

    def _unfold(self, event: QMouseEvent) -> None:
        self.fold(False)
        self.opened.emit()

    def _changed(self, before: object, after: object) -> None:
        if getattr(before, "client", None) is not getattr(after, "client", None):
            self.refresh()
        else:
            self._show_week()

    def _show_week(self) -> None:
        self._show_days()
        work = self.bench.desk.work
        if work is None:
            return
        told = energy_lines.lines(work.client, self.bench, self.today)
        if len(told) != len(self.energy_labels):
            self.refresh()
            return
        for label, (text, _) in zip(self.energy_labels, told, strict=True):
            label.setText(text)

    # -- what is shown ---------------------------------------------------------------------

    @property
    def today(self) -> date:
        """The present day."""
        return datetime.now().astimezone().date()

    def refresh(self) -> None:
        """Show the open client."""
        holder = QWidget()
        self.column = QVBoxLayout(holder)
        self.column.setContentsMargins(14, 10, 12, 12)
        self.column.setSpacing(4)
        work = self.bench.desk.work
        self.days = DayBars()
        self.energy_labels: list[QLabel] = []
        if work is None:
            self.column.addWidget(plain("No client is open", step="head"))
            self.rail.show_words(("Client",))
        else:
            self._show_client(work.client)
            first = work.client.name
            self.rail.show_words((first, "Screening", "Availability", "Strength", "Energy"))
        self.column.addStretch(1)
        self.scroll_area.setWidget(holder)
        self._show_days()

    def _show_client(self, client: Client) -> None:
        name = Wrapped(client.name, step="name")
        self.column.addWidget(name)
        self._line(words.client_line(client, self.today), quiet=False)
        if client.team:
            self._line(client.team, quiet=False)
        if client.emphasis:
            muscles = [self.bench.shelf.muscles[m].trade.lower() for m in client.emphasis]
            self._line(f"Emphasis: {', '.join(muscles)}")
        self._buttons(("Profile…", self.edit_profile))
        self._screening(client)
        self._availability(client)
        self._strength(client)
        self._energy(client)

    def _head(self, title: str, tail: str = "") -> None:
        rule = QFrame()
        rule.setProperty("role", "rule")
        rule.setFixedHeight(1)
        self.column.addSpacing(4)
        self.column.addWidget(rule)
        self.column.addSpacing(2)
        row = QHBoxLayout()
        row.addWidget(plain(title, step="head"))
        told = Elided(tail, step="small", role="small")
        told.setAlignment(Qt.AlignmentFlag.AlignRight)
        row.addWidget(told, 1)
        self.column.addLayout(row)

    def _line(self, text: str, *, quiet: bool = True) -> QLabel:
        label = Wrapped(text, role="small" if quiet else "")
        label.setMinimumWidth(40)
        self.column.addWidget(label)
        return label

    def _buttons(self, *entries: tuple[str, Callable[[], object]]) -> None:
        row = QHBoxLayout()
        row.setSpacing(6)
        for text, run in entries:
            made = QPushButton(text)
            made.setProperty("link", True)
            made.setMinimumHeight(24)
            made.clicked.connect(lambda _checked=False, run=run: run())
            row.addWidget(made)
        row.addStretch(1)
        self.column.addLayout(row)

    def _screening(self, client: Client) -> None:
        latest = client.latest_screening
        self._head("Screening", words.full_date(latest.on) if latest else "")
        if latest is None:
            self._line("Not screened yet. Ask the questions before the first session.")
        else:
            self._line(
                screenings.outcome(latest, screenings.Wish.VIGOROUS, on=self.today).text,
                quiet=False,
            )
        for limitation in client.limitations:
            label = self._line(limits.limitation_text(limitation), quiet=False)
            label.setContentsMargins(8, 0, 0, 0)
            label.setStyleSheet("border-left: 3px solid palette(mid);")
        self._buttons(("Screening…", self.edit_screening), ("Limitation…", self.add_limitation))

    def _availability(self, client: Client) -> None:
        self._head("Availability", "minutes a day")
        if any(time.minutes for time in client.free):
            self.column.addWidget(self.days)
        else:
            self._line("No days entered. Until then no session is too long.")
        self._line(equipment_line(client), quiet=False)
        self._buttons(("Days…", self.edit_days), ("Equipment…", self.edit_equipment))

    def _show_days(self) -> None:
        work, week = self.bench.desk.work, self.bench.open_week
        if work is not None:
            used = frozenset(day for day, s in week.sessions() if s.slots) if week else frozenset()
            self.days.show_days(work.client.free, used)

    def _strength(self, client: Client) -> None:
        self._head("Strength", "one-repetition maximum, kg")
        newest = _newest(client)
        if not newest:
            self._line(
                "No strength test yet. Without one, loads stay blank and the plan shows effort "
                "only. Five honest reps are enough."
            )
        grid = QGridLayout()
        grid.setHorizontalSpacing(8)
        grid.setColumnStretch(0, 1)
        catalogue = self.bench.desk.catalogue
        for row, test in enumerate(t for t in newest if t.exercise in catalogue):
            exercise = catalogue[test.exercise]
            estimate = one_rep_max_of(exercise, client)
            if estimate is None:
                continue
            grid.addWidget(Elided(exercise.name), row, 0)
            grid.addWidget(Interval(estimate.low, estimate.median, estimate.high), row, 1)
            low, median, high = (
                words.number(kg, places=0) for kg in (estimate.low, estimate.median, estimate.high)
            )
            value = QPushButton(median)
            value.setProperty("flat", True)
            value.setFont(plain("", step="number").font())
            value.setMinimumHeight(24)
            value.setAccessibleName(f"{exercise.name}, {median} kg, show the working")
            value.clicked.connect(
                lambda _c=False, e=estimate, b=value: show_working(
                    self.bench, e.working(), b.mapToGlobal(b.rect().bottomLeft()), self
                )
            )
            grid.addWidget(value, row, 2)
            grid.addWidget(plain(f"{low}{words.DASH}{high}", role="small"), row, 3)
            for column in range(4):
                item = grid.itemAtPosition(row, column)
                widget = None if item is None else item.widget()
                if widget is not None:
                    widget.setToolTip(f"Test of {day_text(test.on)}")
        self.column.addLayout(grid)
        self._buttons(("Enter a test…", self.add_test))

    def _energy(self, client: Client) -> None:
        self._head("Energy and protein")
        told = energy_lines.lines(client, self.bench, self.today)
        self.energy_labels = [self._line(text, quiet=quiet) for text, quiet in told]
        self._buttons(("Energy…", self.edit_energy))

    # -- forms -----------------------------------------------------------------------------

    def edit_profile(self) -> None:
        """Open the profile."""
        from app.ui.client.profile import ProfileSheet

        ProfileSheet(self.bench, self.window(), self.bench.desk.client).exec()

    def edit_screening(self) -> None:
        """Ask the screening questions."""
        from app.ui.client.screening import ScreeningSheet

        ScreeningSheet(self.bench, self.window(), today=self.today).exec()

    def add_limitation(self) -> None:
        """Add, change or remove limitations."""
        from app.ui.client.limits import LimitationSheet

        LimitationSheet(self.bench, self.window()).exec()

    def edit_days(self) -> None:
        """Enter the minutes of each weekday."""
        from app.ui.client.days import DaysSheet

        DaysSheet(self.bench, self.window()).exec()

    def edit_equipment(self) -> None:
        """Enter the equipment in reach."""
        from app.ui.client.equipment import EquipmentSheet

        EquipmentSheet(self.bench, self.window()).exec()

    def add_test(self) -> None:
        """Enter a strength test."""
        from app.ui.client.strength_test import TestSheet

        TestSheet(self.bench, self.window(), today=self.today).exec()

    def edit_energy(self) -> None:
        """Enter what the energy targets rest on."""
        from app.ui.client.energy import EnergySheet

        EnergySheet(self.bench, self.window(), today=self.today).exec()


def equipment_line(client: Client) -> str:
    """'Barbell and plates to 1.25 kg, dumbbells to 30 kg, bench, box', or what to do."""
    things = [e for e in Equipment if e in client.equipment and e is not Equipment.BODY]
    if not things:
        return "Own weight only. Enter the equipment in reach."
    names = []
    for thing in things:
        name = thing.value.replace("_", " ")
        if thing is Equipment.BARBELL and client.increments.plates_kg:
            least = words.number(min(client.increments.plates_kg), places=2)
            name = f"barbell, plates from {least} kg"
        elif thing is Equipment.DUMBBELLS:
            name = f"dumbbells to {words.number(client.increments.dumbbells_kg[2])} kg"
        names.append(name)
    text = ", ".join(names)
    return text[:1].upper() + text[1:]


def _newest(client: Client) -> tuple[StrengthTest, ...]:
    by_exercise: dict[str, StrengthTest] = {}
    for test in sorted(client.tests, key=lambda t: t.on):
        by_exercise[test.exercise] = test
    return tuple(by_exercise.values())
