"""Asking for a new program: name, first day, weeks, emphasis, and a layout to begin with."""

from __future__ import annotations

from datetime import date, datetime, timedelta
from uuid import uuid4

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QButtonGroup, QDateEdit, QRadioButton, QVBoxLayout, QWidget

from app.domain.client import Client
from app.domain.edits.whole import set_emphasis
from app.domain.exercise import Exercise, Muscle
from app.domain.findings import edit
from app.domain.fit import fits
from app.domain.layout import Fits, Layout, lay_out, swaps
from app.domain.program import MAX_WEEKS, Program, ProgramId, empty_program
from app.resources.layouts import layouts
from app.ui.bench import Bench
from app.ui.emphasis_sheet import EmphasisChoice
from app.ui.forms import NumberField, Sheet, Wrapped, plain, text_field
from app.ui.words import list_of, pydate, qdate

START_WEEKS = 12


def next_monday(today: date) -> date:
    """The next Monday, or today if it is one."""
    return today + timedelta(days=-today.weekday() % 7)


class LayoutChoice(QWidget):
    """Radio buttons for the layouts, with what each is and what would be swapped for the client."""

    def __init__(self, bench: Bench, client: Client, *, on: date, with_empty: bool) -> None:
        super().__init__()
        self.layouts: tuple[Layout | None, ...] = (
            *layouts(),
            *((None,) if with_empty else ()),
        )
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2)
        self.group = QButtonGroup(self)
        for number, layout in enumerate(self.layouts):
            choice = QRadioButton(layout.name if layout else "Empty weeks")
            choice.setMinimumHeight(24)
            self.group.addButton(choice, number)
            column.addWidget(choice)
            about = Wrapped(_about(bench, layout, client, on=on), role="small")
            about.setContentsMargins(24, 0, 0, 6)
            column.addWidget(about)
        self.group.button(0).setChecked(True)

    def chosen(self) -> Layout | None:
        """The layout that is ticked; None for empty weeks."""
        return self.layouts[self.group.checkedId()]


def _about(bench: Bench, layout: Layout | None, client: Client, *, on: date) -> str:
    if layout is None:
        return "Drag every exercise yourself."
    catalogue = bench.desk.catalogue
    changed = swaps(layout, catalogue, fits=fitting(client, on))
    names = [
        f"{catalogue[s.taken].name} for {catalogue[s.wanted].name}" for s in changed if s.taken
    ]
    gone = [catalogue[s.wanted].name for s in changed if s.taken is None]
    parts = [layout.about]
    if names:
        shown = names if len(names) < 4 else [*names[:3], f"{len(names) - 3} more"]
        parts.append(f"For {client.name}: {list_of(shown)}.")
    if gone:
        parts.append(f"Nothing that fits in the place of {list_of(gone[:3])}.")
    return " ".join(parts)


def fitting(client: Client, on: date) -> Fits:
    """The question whether an exercise fits that client on that day."""

    def fit(exercise: Exercise) -> bool:
        return fits(exercise, client, on)

    return fit


class NewProgramSheet(Sheet):
    """The dialog; `program` holds what was asked for once it is accepted."""

    def __init__(self, bench: Bench, parent: QWidget | None, *, today: date) -> None:
        client = bench.desk.client
        super().__init__(
            parent,
            f"New program for {client.name}",
            verb="Begin",
            about="Everything here can be changed later.",
        )
        self.bench = bench
        self.client = client
        self.program: Program | None = None
        self.name = text_field("Lower-body season")
        self.start = QDateEdit(qdate(next_monday(today)))
        self.start.setCalendarPopup(True)
        self.start.setDisplayFormat("d MMM yyyy")
        self.start.setMinimumHeight(32)
        self.weeks = NumberField("Weeks", low=1, high=MAX_WEEKS, whole=True)
        self.weeks.set_value(START_WEEKS)
        self.emphasis = EmphasisChoice(bench, client.emphasis)
        self.row("Name", self.name)
        self.row("First week of", self.start)
        self.row("Weeks", self.weeks)
        self.row("Emphasis", self.emphasis)
        self.layouts = LayoutChoice(bench, client, on=next_monday(today), with_empty=True)
        self.body.addWidget(plain("Begin with", step="head"))
        self.body.addWidget(self.layouts)
        self.setMinimumWidth(560)
        self.name.selectAll()
        self.name.setFocus()

    def keep(self) -> None:
        """Make the program. Raises CoachError for what cannot be."""
        start = pydate(self.start.date())
        made = empty_program(
            ProgramId(uuid4().hex), self.name.text(), start=start, weeks=self.weeks.whole_value()
        )
        emphasis: tuple[Muscle, ...] = self.emphasis.chosen()
        made = set_emphasis(made, emphasis=emphasis)
        layout = self.layouts.chosen()
        if layout is not None:
            made = lay_out(
                made,
                layout,
                client=self.client,
                catalogue=self.bench.desk.catalogue,
                fits=fitting(self.client, made.start),
            )
        self.program = made


def ask_new_program(bench: Bench, parent: QWidget) -> Program | None:
    """The program the coach asks for; None if it was cancelled."""
    sheet = NewProgramSheet(bench, parent, today=datetime.now().astimezone().date())
    return sheet.program if sheet.exec() == Sheet.DialogCode.Accepted else None


class LayoutSheet(Sheet):
    """Lays a layout over the open program: every week, one undo step."""

    def __init__(self, bench: Bench, parent: QWidget | None) -> None:
        program = bench.desk.program
        super().__init__(
            parent,
            "Start from a layout",
            verb="Lay it out",
            about=f"It takes the place of what stands in all {len(program.weeks)} weeks. "
            "One undo brings that back.",
        )
        self.bench = bench
        self.layouts = LayoutChoice(bench, bench.desk.client, on=program.start, with_empty=False)
        self.body.addWidget(self.layouts)
        self.setMinimumWidth(520)
        self.setWindowFlag(Qt.WindowType.WindowContextHelpButtonHint, False)

    def keep(self) -> None:
        """Lay the chosen layout over the program as one edit."""
        layout, desk = self.layouts.chosen(), self.bench.desk
        assert layout is not None
        self.bench.desk.keep(
            edit(
                f"Lay out {layout.name.lower()}",
                lay_out,
                layout=layout,
                client=desk.client,
                catalogue=desk.catalogue,
                fits=fitting(desk.client, desk.program.start),
            )
        )
