"""Two records of one person side by side; where they differ the coach chooses, field by field."""

from __future__ import annotations

from datetime import date
from enum import Enum
from typing import Any

from PySide6.QtWidgets import (
    QButtonGroup,
    QGridLayout,
    QRadioButton,
    QScrollArea,
    QWidget,
)

from app import people
from app.domain.client import ClientId, Consent, FreeTime, Increments
from app.domain.merge import Difference, differences
from app.domain.program import day_name
from app.domain.wording import tr, trn
from app.ui.bench import Bench
from app.ui.forms import Sheet, Wrapped, plain
from app.ui.words import full_date, label_text, number
from db.store import Store


class MergeDialog(Sheet):
    """Choices for every difference, and what is kept of both; `told` says what was done."""

    def __init__(
        self,
        bench: Bench,
        store: Store,
        parent: QWidget | None,
        *,
        mine: ClientId,
        other: ClientId,
    ) -> None:
        super().__init__(
            parent,
            tr("Merge two records of one person"),
            verb=tr("Make them one"),
            about=tr(
                "Choose where the two differ. Programs, booklets, check-ins, results, tests, "
                "screenings and limitations of both are kept. A copy of the file is put aside "
                "first."
            ),
        )
        self.bench, self.store = bench, store
        self.mine, self.other = store.load_client(mine), store.load_client(other)
        self.told = ""
        self.choices: dict[str, QRadioButton] = {}
        self.differences = differences(self.mine, self.other)
        holder = QWidget()
        grid = QGridLayout(holder)
        grid.setHorizontalSpacing(18)
        grid.setColumnStretch(1, 1)
        grid.setColumnStretch(2, 1)
        grid.addWidget(plain(tr("First record"), step="head"), 0, 1)
        grid.addWidget(plain(tr("Second record"), step="head"), 0, 2)
        self._counts(grid)
        for row, difference in enumerate(self.differences, start=2):
            self._choice(grid, row, difference)
        grid.setRowStretch(len(self.differences) + 2, 1)
        area = QScrollArea()
        area.setWidgetResizable(True)
        area.setWidget(holder)
        area.setAccessibleName(tr("Where the records differ"))
        self.body.addWidget(area, 1)
        if self._born_apart():
            self.body.addWidget(
                Wrapped(tr("The birth dates differ. Are these one person?"), role="wrong")
            )
        if not self.differences:
            self.body.addWidget(Wrapped(tr("The two say the same of the person.")))
        self.setMinimumSize(620, 420)
        self.resize(900, 600)

    def _born_apart(self) -> bool:
        """True if both birth dates are known and differ."""
        return None not in (self.mine.born, self.other.born) and self.mine.born != self.other.born

    def _counts(self, grid: QGridLayout) -> None:
        grid.addWidget(plain(tr("Kept of both"), role="small"), 1, 0)
        for column, client in ((1, self.mine), (2, self.other)):
            programs = len(self.store.programs(client.id))
            diary = self.store.load_diary(client.id)
            parts = (
                trn("{n} program", "{n} programs", programs),
                trn("{n} test", "{n} tests", len(client.tests)),
                trn("{n} check-in", "{n} check-ins", len(diary.check_ins)),
                trn("{n} result", "{n} results", len(diary.results)),
            )
            grid.addWidget(Wrapped(", ".join(parts), role="small"), 1, column)

    def _choice(self, grid: QGridLayout, row: int, difference: Difference) -> None:
        grid.addWidget(plain(difference.label), row, 0)
        group = QButtonGroup(grid.parentWidget())
        texts = (value_text(difference.mine), value_text(difference.other))
        for column, text in enumerate(texts, start=1):
            choice = QRadioButton(label_text(short(text)))
            choice.setMinimumHeight(24)
            choice.setToolTip(text if len(text) > len(short(text)) else "")
            choice.setAccessibleName(f"{difference.label}: {text}")
            choice.setChecked((column == 2) is difference.prefer_other)
            group.addButton(choice)
            grid.addWidget(choice, row, column)
        self.choices[difference.field] = group.buttons()[1]  # type: ignore[assignment]

    def keep(self) -> None:
        """Make them one."""
        taken = [field for field, choice in self.choices.items() if choice.isChecked()]
        done = people.merge_clients(
            self.bench.desk, self.store, self.mine.id, self.other.id, take_other=taken
        )
        where = "" if done.copy is None else tr(" The file as it was: {path}", path=done.copy)
        self.told = tr("{client} is one record now.", client=done.client.name) + where


def short(text: str) -> str:
    """The text cut to what a choice can show."""
    return text if len(text) <= 44 else f"{text[:43]}…"


def value_text(value: Any) -> str:
    """A value of a client in words, for choosing between two."""
    if value is None or value in ("", (), frozenset()):
        return tr("not said")
    if isinstance(value, bool):
        return tr("yes") if value else tr("no")
    if isinstance(value, Enum):
        return tr(str(value.value).replace("_", " "))
    if isinstance(value, date):
        return full_date(value)
    if isinstance(value, int | float):
        return number(value, places=2)
    if isinstance(value, Consent):
        return f"{full_date(value.on)} {value.note}".rstrip()
    if isinstance(value, Increments):
        plates = ", ".join(number(size, places=2) for size in value.plates_kg)
        return tr("bar {bar} kg, plates {plates}", bar=number(value.bar_kg), plates=plates)
    if isinstance(value, frozenset | tuple):
        return _several(value)
    return str(value)


def _several(values: tuple[Any, ...] | frozenset[Any]) -> str:
    if values and all(isinstance(one, FreeTime) for one in values):
        return ", ".join(
            f"{day_name(day)[:3]} {time.minutes}" for day, time in enumerate(values) if time.minutes
        ) or tr("no days")
    listed = values if isinstance(values, tuple) else sorted(values)
    return ", ".join(value_text(one) for one in listed)
