"""Asking for a new program: name, first day, weeks, emphasis, and what to begin with.

That is a shipped layout, empty weeks, or another client's program made to fit.
"""

from __future__ import annotations

from datetime import date, datetime, timedelta

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QButtonGroup,
    QDateEdit,
    QRadioButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from app.domain.client import Client
from app.domain.edits.whole import rename, set_emphasis
from app.domain.exercise import Exercise, Muscle
from app.domain.findings import edit
from app.domain.fit import fits
from app.domain.layout import Fits, Layout, lay_out, swaps
from app.domain.program import MAX_WEEKS, Program, empty_program
from app.domain.wording import tr
from app.folder import new_program_id
from app.resources.layouts import layouts
from app.ui.bench import Bench
from app.ui.emphasis_sheet import EmphasisChoice
from app.ui.forms import NumberField, Sheet, Wrapped, plain, text_field
from app.ui.other_program import OtherProgram
from app.ui.words import list_of, pydate, qdate
from db.store import Store

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
            choice = QRadioButton(layout.name if layout else tr("Empty weeks"))
            choice.setMinimumHeight(24)
            self.group.addButton(choice, number)
            column.addWidget(choice)
            about = Wrapped(_about(bench, layout, client, on=on), role="small")
            about.setContentsMargins(24, 0, 0, 6)
            column.addWidget(about)
        self.group.button(0).setChecked(True)
        self.other: OtherProgram | None = None

    def offer_other(self, other: OtherProgram) -> None:
        """Add the choice of a program that somebody has already, with `other` under it."""
        self.other = other
        choice = QRadioButton(tr("From another program…"))
        choice.setMinimumHeight(24)
        self.group.addButton(choice, len(self.layouts))
        column = self.layout()
        assert isinstance(column, QVBoxLayout)
        column.insertWidget(0, choice)
        column.insertWidget(1, other)
        other.offer(False)

    @property
    def wants_other(self) -> bool:
        """True if another program is to be taken over."""
        return self.group.checkedId() == len(self.layouts)

    def chosen(self) -> Layout | None:
        """The layout that is ticked; None for empty weeks and another program."""
        return None if self.wants_other else self.layouts[self.group.checkedId()]


def _about(bench: Bench, layout: Layout | None, client: Client, *, on: date) -> str:
    if layout is None:
        return tr("Drag every exercise yourself.")
    catalogue = bench.desk.catalogue
    changed = swaps(layout, catalogue, client=client, fits=fitting(client, on))
    names = [
        tr(
            "{taken} in place of {wanted}",
            taken=catalogue[s.taken].name,
            wanted=catalogue[s.wanted].name,
        )
        for s in changed
        if s.taken
    ]
    gone = [catalogue[s.wanted].name for s in changed if s.taken is None]
    parts = [layout.about]
    if names:
        shown = names if len(names) < 4 else [*names[:3], tr("{names} more", names=len(names) - 3)]
        parts.append(tr("For {client}: {shown}.", client=client.name, shown=list_of(shown)))
    if gone:
        parts.append(tr("Nothing that fits in the place of {gone}.", gone=list_of(gone[:3])))
    return " ".join(parts)


def fitting(client: Client, on: date) -> Fits:
    """The question whether an exercise fits that client at that time, where a weekday is spent."""

    def fit(exercise: Exercise, day: int) -> bool:
        return fits(exercise, client, on, day=day)

    return fit


class NewProgramSheet(Sheet):
    """The dialog; `program` holds what was asked for once it is accepted."""

    def __init__(
        self,
        bench: Bench,
        parent: QWidget | None,
        *,
        today: date,
        store: Store | None = None,
    ) -> None:
        client = bench.desk.client
        super().__init__(
            parent,
            tr("New program for {client}", client=client.name),
            verb=tr("Begin"),
            about=tr("Everything here can be changed later."),
        )
        self.bench = bench
        self.client = client
        self.program: Program | None = None
        self.name = text_field(tr("Lower-body season"))
        self.start = QDateEdit(qdate(next_monday(today)))
        self.start.setCalendarPopup(True)
        self.start.setDisplayFormat("d MMM yyyy")
        self.start.setMinimumHeight(32)
        self.weeks = NumberField(tr("Weeks"), low=1, high=MAX_WEEKS, whole=True)
        self.weeks.set_value(START_WEEKS)
        self.emphasis = EmphasisChoice(bench, client.emphasis)
        self.row(tr("Name"), self.name)
        self.row(tr("First week of"), self.start)
        self.row(tr("Weeks"), self.weeks)
        self.row(tr("Emphasis"), self.emphasis)
        self.layouts = LayoutChoice(bench, client, on=next_monday(today), with_empty=True)
        self.other: OtherProgram | None = None
        self.body.addWidget(plain(tr("Begin with"), step="head"))
        self.body.addWidget(_scrolled(self.layouts), 1)
        self.setMinimumWidth(620)
        self.resize(660, 680)
        if store is not None:
            other = OtherProgram(bench, store, client, start=next_monday(today))
            if not other.is_empty:
                self._offer(other)
        self.name.selectAll()
        self.name.setFocus()

    def _offer(self, other: OtherProgram) -> None:
        """Offer what others have, and follow what is chosen of it."""
        self.other = other
        self.layouts.offer_other(other)
        self.layouts.group.idToggled.connect(lambda _id, _on: self._show_choice(other))
        self.start.dateChanged.connect(lambda day: other.set_start(pydate(day)))
        other.programs.currentIndexChanged.connect(lambda _k: self._take_name(other))
        self._offered_name = self.name.text()

    def _show_choice(self, other: OtherProgram) -> None:
        """Weeks and emphasis are the other program's own, where one is taken over."""
        wanted = self.layouts.wants_other
        if other.isEnabled() is wanted:
            return
        for field in (self.weeks, self.emphasis):
            self.form.setRowVisible(field, not wanted)
        other.offer(wanted)
        self._take_name(other)

    def _take_name(self, other: OtherProgram) -> None:
        """Offer the name that the other program has, unless one was entered."""
        source = other.source() if self.layouts.wants_other else None
        if source is not None and self.name.text() == self._offered_name:
            self._offered_name = source.name
            self.name.setText(source.name)

    def keep(self) -> None:
        """Make the program. Raises CoachError for what cannot be."""
        if self.other is not None and self.layouts.wants_other:
            self.program = rename(self.other.refit().program, name=self.name.text())
            return
        start = pydate(self.start.date())
        made = empty_program(
            new_program_id(), self.name.text(), start=start, weeks=self.weeks.whole_value()
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


def _scrolled(inner: QWidget) -> QScrollArea:
    """The widget in an area that scrolls up and down, so that the sheet fits a small screen."""
    area = QScrollArea()
    area.setWidget(inner)
    area.setWidgetResizable(True)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setMinimumHeight(200)
    area.setAccessibleName(tr("What to begin with"))
    return area


def ask_new_program(bench: Bench, parent: QWidget, store: Store | None = None) -> Program | None:
    """The program the coach asks for; None if it was cancelled.

    store: where other clients' programs are offered from.
    """
    today = datetime.now().astimezone().date()
    sheet = NewProgramSheet(bench, parent, today=today, store=store)
    return sheet.program if sheet.exec() == Sheet.DialogCode.Accepted else None


class LayoutSheet(Sheet):
    """Lays a layout over the open program: every week, one undo step."""

    def __init__(self, bench: Bench, parent: QWidget | None) -> None:
        program = bench.desk.program
        super().__init__(
            parent,
            tr("Start from a layout"),
            verb=tr("Lay it out"),
            about=tr(
                "It takes the place of what stands in all {weeks} weeks. One "
                "undo brings that back.",
                weeks=len(program.weeks),
            ),
        )
        self.bench = bench
        self.layouts = LayoutChoice(bench, bench.desk.client, on=program.start, with_empty=False)
        self.body.addWidget(_scrolled(self.layouts), 1)
        self.setMinimumWidth(560)
        self.resize(600, 600)
        self.setWindowFlag(Qt.WindowType.WindowContextHelpButtonHint, False)

    def keep(self) -> None:
        """Lay the chosen layout over the program as one edit."""
        layout, desk = self.layouts.chosen(), self.bench.desk
        assert layout is not None
        self.bench.desk.keep(
            edit(
                tr("Lay out {layout}", layout=layout.name.lower()),
                lay_out,
                layout=layout,
                client=desk.client,
                catalogue=desk.catalogue,
                fits=fitting(desk.client, desk.program.start),
            )
        )
