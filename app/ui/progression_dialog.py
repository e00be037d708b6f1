"""The progression dialog: choose a scheme, see its whole table and what the checks say, apply.

Nothing is changed before *Apply*; what was set by hand stays.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from statistics import median_low

from PySide6.QtCore import Qt, QTimer
from PySide6.QtWidgets import (
    QAbstractItemView,
    QCheckBox,
    QComboBox,
    QFormLayout,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QScrollArea,
    QStackedWidget,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.domain import effort, progression
from app.domain.effort import Rir
from app.domain.errors import CoachError
from app.domain.findings import Edit, edit
from app.domain.program import Program, Role
from app.domain.progression import (
    DoubleProgression,
    EffortPath,
    Light,
    RepPath,
    Scheme,
    SetsPath,
    Stepwise,
    Undulating,
    Wave,
    WeekRow,
)
from app.domain.wording import mark, tr
from app.ui.bench import Bench
from app.ui.change_list import ChangeList
from app.ui.forms import ROW, NumberField, Sheet, Wrapped, plain, text_field
from app.ui.pieces import Pieces
from app.ui.progression_chart import ProgressionChart
from app.ui.progression_weeks import chart_weeks
from app.ui.words import ARROW, DASH

PATHS = (
    (mark("Stepwise"), mark("Repetitions step down evenly from the first week to the last.")),
    (mark("Undulating in the week"), mark("Another target for each session of the week, in turn.")),
    (mark("Waves"), mark("A few falling weeks and a light one, then again a little lower.")),
    (
        mark("Double progression"),
        mark("One range; the load rises once the upper end is done in every set."),
    ),
)
EVERY = 5
"""Weeks from one light week to the next where the plan has none yet. Source: see `Light`."""
MOST_HIGH = 860
"""The dialog's height where the screen has room, px: every week of a long program in sight."""
WAVES = 2
"""The place of waves among the paths."""
STAY = mark("Light weeks stay as they are.")
REPLACED = mark("Earlier light weeks in its reach become ordinary first.")
COLUMNS = (
    mark("Week"),
    mark("Block"),
    mark("Core work"),
    mark("Effort"),
    mark("Assistance"),
    mark("Its effort"),
    mark("Sets"),
    "",
)


class ProgressionDialog(Sheet):
    """Chooses a scheme and applies it as one undo step."""

    def __init__(self, bench: Bench, parent: QWidget | None) -> None:
        super().__init__(parent, tr("Progression"), verb=tr("Apply"), about=tr(PATHS[0][1]))
        self.bench = bench
        self.setMinimumSize(980, 640)
        weeks = len(bench.desk.program.weeks)
        self.path = QComboBox()
        self.path.addItems([tr(name) for name, _ in PATHS])
        self.path.setMinimumHeight(32)
        self.path.setAccessibleName(tr("Scheme"))
        self.first = self._number(tr("First week"), 1, weeks, 1)
        self.last = self._number(tr("Last week"), 1, weeks, weeks)
        self.fields = QStackedWidget()
        self._labels: list[QLabel] = []
        self._build_fields()
        self.with_effort = QCheckBox(tr("Set the effort too"))
        self.core_rir = (
            self._number(tr("Core, first"), 0, 6, 3),
            self._number(tr("Core, last"), 0, 6, 1),
        )
        self.rest_rir = (
            self._number(tr("Assistance, first"), 0, 6, 2),
            self._number(tr("Assistance, last"), 0, 6, 1),
        )
        self.with_light = QCheckBox(tr("Light weeks"))
        own = light_turn(bench.desk.program)
        self.with_light.setChecked(own is None)
        self.light_every = self._number(tr("Every so many weeks"), 2, 52, own or EVERY)
        self.light_note = Wrapped(step="small")
        self.with_sets = QCheckBox(tr("Sets rise too"))
        self.more_sets = self._number(tr("More sets by the end"), -4, 6, 1)
        self.chart = ProgressionChart()
        self.table = _table()
        self.changes = ChangeList(bench)
        self._lay_out()
        self.weighing = Pieces(self)
        self.finished.connect(lambda _result: self.weighing.stop())
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.setInterval(60)
        self._later.timeout.connect(self.refresh)
        self._connect()
        self.refresh()

    def _number(self, name: str, low: int, high: int, value: int) -> NumberField:
        field = NumberField(name, low=low, high=high, whole=True)
        field.edit.setMaximumWidth(64)
        field.set_value(value)
        return field

    def _build_fields(self) -> None:
        self.reps = (
            self._number(tr("First reps"), 1, 30, 15),
            self._number(tr("Last reps"), 1, 30, 3),
        )
        self.undulating = text_field("12, 6, 9")
        self.wave = text_field("12, 10, 8")
        self.lower_by = self._number(tr("Each wave lower by"), 0, 10, 2)
        self.range = (self._number(tr("From"), 1, 30, 8), self._number(tr("To"), 1, 30, 12))
        pages: tuple[tuple[tuple[str, QWidget], ...], ...] = (
            ((tr("First reps"), self.reps[0]), (tr("Last reps"), self.reps[1])),
            ((tr("Reps by session"), self.undulating),),
            ((tr("Reps of a wave"), self.wave), (tr("Each wave lower by"), self.lower_by)),
            ((tr("From"), self.range[0]), (tr("To"), self.range[1])),
        )
        for page in pages:
            widget = QWidget()
            form = QFormLayout(widget)
            form.setContentsMargins(0, 0, 0, 0)
            for name, field in page:
                form.addRow(self._label(name, field), field)
            self.fields.addWidget(widget)

    def _label(self, name: str, field: QWidget) -> QLabel:
        """The name before a field, in the middle of its line."""
        label = plain(name)
        label.setBuddy(field)
        label.setMinimumHeight(ROW)
        self._labels.append(label)
        if not field.accessibleName():
            field.setAccessibleName(name)
        return label

    def _line_up(self) -> None:
        """Let the fields of all parts begin at one line, as those of one form do."""
        wide = max(label.sizeHint().width() for label in self._labels)
        for label in self._labels:
            label.setMinimumWidth(wide)

    def _lay_out(self) -> None:
        self.row(tr("Scheme"), self.path)
        left = QVBoxLayout()
        left.setContentsMargins(0, 0, 8, 0)
        left.setSpacing(8)
        form = QFormLayout()
        form.addRow(self._label(tr("First week"), self.first), self.first)
        form.addRow(self._label(tr("Last week"), self.last), self.last)
        left.addLayout(form)
        left.addWidget(self.fields)
        for tick, fields in (
            (self.with_light, ((tr("Every so many weeks"), self.light_every),)),
            (
                self.with_effort,
                (
                    (tr("Core RIR, first"), self.core_rir[0]),
                    (tr("Core RIR, last"), self.core_rir[1]),
                    (tr("Assistance, first"), self.rest_rir[0]),
                    (tr("Assistance, last"), self.rest_rir[1]),
                ),
            ),
            (self.with_sets, ((tr("More sets by the end"), self.more_sets),)),
        ):
            left.addWidget(tick)
            part = QWidget()
            part.setLayout(_pairs(*fields))
            part.setVisible(tick.isChecked())
            tick.toggled.connect(part.setVisible)
            left.addWidget(part)
            if tick is self.with_light:
                left.addWidget(self.light_note)
        left.addStretch(1)
        holder = QWidget()
        holder.setLayout(left)
        scroll = QScrollArea()
        scroll.setAccessibleName(tr("Scheme and its numbers"))
        scroll.setWidget(holder)
        scroll.setWidgetResizable(True)
        scroll.setFixedWidth(290)
        right = QVBoxLayout()
        hint = tr("Hollow bars and dashed lines: now. Filled: after. Hatched: light weeks.")
        right.addWidget(plain(hint, role="small"))
        right.addWidget(self.chart)
        right.addWidget(self.table, 3)
        right.addWidget(self.changes, 1)
        row = QHBoxLayout()
        row.addWidget(scroll)
        row.addLayout(right, 1)
        self.body.addLayout(row)
        self._line_up()
        high = min(MOST_HIGH, self.screen().availableSize().height() - 80)
        self.resize(self.minimumWidth(), max(self.minimumHeight(), high))

    def _connect(self) -> None:
        self.path.currentIndexChanged.connect(self._path_chosen)
        for box in (self.with_effort, self.with_light, self.with_sets):
            box.toggled.connect(lambda _on: self._later.start())
        for field in self.findChildren(NumberField):
            field.edit.textEdited.connect(lambda _text: self._later.start())
        for text in (self.undulating, self.wave):
            text.textEdited.connect(lambda _text: self._later.start())

    def _path_chosen(self, index: int) -> None:
        self.fields.setCurrentIndex(index)
        self._later.start()

    # -- the scheme ------------------------------------------------------------------------

    def scheme(self) -> Scheme:
        """The scheme as chosen. Raises CoachError for what cannot be."""
        core = assistance = None
        if self.with_effort.isChecked():
            core = _effort(self.core_rir)
            assistance = _effort(self.rest_rir)
        return Scheme(
            path=self._path(),
            first=self.first.whole_value() - 1,
            last=self.last.whole_value() - 1,
            effort=core,
            assistance_effort=assistance,
            sets=SetsPath(self.more_sets.whole_value()) if self.with_sets.isChecked() else None,
            light=self._light(),
        )

    def _light(self) -> Light | None:
        """Light weeks in their turn; a wave has its own at its end."""
        if not self.with_light.isChecked() or self.path.currentIndex() == WAVES:
            return None
        return Light(self.light_every.whole_value())

    def _path(self) -> RepPath:
        match self.path.currentIndex():
            case 0:
                return Stepwise(self.reps[0].whole_value(), self.reps[1].whole_value())
            case 1:
                return Undulating(_whole_numbers(self.undulating.text()))
            case 2:
                return Wave(
                    _whole_numbers(self.wave.text()),
                    self.lower_by.whole_value(),
                    light_end=self.with_light.isChecked(),
                )
            case _:
                return DoubleProgression(self.range[0].whole_value(), self.range[1].whole_value())

    def refresh(self) -> None:
        """Show the whole table, and what the checks would say once every week is looked at."""
        self.show_error("")
        desk = self.bench.desk
        self._tell_light_weeks()
        try:
            scheme = self.scheme()
            change = self._edit(scheme)
            after = change(desk.program)
            rows = progression.table(desk.program, scheme, desk.catalogue, after=after)
        except CoachError as error:
            self.weighing.stop()
            self.show_error(error.sentence)
            self.keep_button.setEnabled(False)
            return
        self.keep_button.setEnabled(any(row.changed for row in rows))
        _fill(self.table, desk.program, rows)
        self.weighing.begin(self._weigh(change, after))

    def _weigh(self, change: Edit, after: Program) -> Iterator[None]:
        """Draw the chart, check one week after the other, then list what would change."""
        desk = self.bench.desk
        yield
        self.chart.show_weeks(chart_weeks(desk.program, after))
        for index in range(len(after.weeks)):
            yield
            desk.check_week(after, index)
        yield
        preview = desk.preview_of(change, after)
        self.changes.show_change(preview.gained, preview.lost)

    def _tell_light_weeks(self) -> None:
        """Say what becomes of the plan's own light weeks, where it has some."""
        has_some = any(week.light for week in self.bench.desk.program.weeks)
        ticked = self.with_light.isChecked()
        self.light_every.setEnabled(self.path.currentIndex() != WAVES)
        self.light_note.setText(tr(REPLACED) if ticked and has_some else "" if ticked else tr(STAY))
        self.light_note.setVisible(bool(self.light_note.text()))

    def _edit(self, scheme: Scheme) -> Edit:
        name = PATHS[self.path.currentIndex()][0].lower()
        return edit(
            tr("Apply a progression, {name}", name=name),
            progression.apply,
            scheme=scheme,
            catalogue=self.bench.desk.catalogue,
        )

    def keep(self) -> None:
        """Apply the scheme as one edit."""
        self.bench.desk.keep(self._edit(self.scheme()))


def light_turn(program: Program) -> int | None:
    """Every how many weeks the plan has a light one, as a rule; None if it has none."""
    light = [number for number, week in enumerate(program.weeks, start=1) if week.light]
    if not light:
        return None
    gaps = [later - sooner for sooner, later in pairwise((0, *light))]
    return max(2, median_low(gaps))


def _pairs(*rows: tuple[str, QWidget]) -> QFormLayout:
    form = QFormLayout()
    form.setContentsMargins(24, 0, 0, 0)
    for name, field in rows:
        label = plain(name, role="small")
        label.setMinimumHeight(ROW)
        label.setBuddy(field)
        form.addRow(label, field)
    return form


def _effort(fields: tuple[NumberField, NumberField]) -> EffortPath:
    return EffortPath(Rir(fields[0].whole_value()), Rir(fields[1].whole_value()))


def _whole_numbers(text: str) -> tuple[int, ...]:
    parts = text.replace(";", ",").split(",")
    try:
        return tuple(int(part) for part in parts)
    except ValueError:
        raise CoachError(
            tr("'{text}' is not a list of repetitions.", text=text),
            mend=tr("Write them like 12, 10, 8."),
        ) from None


def _table() -> QTableWidget:
    table = QTableWidget(0, len(COLUMNS))
    table.setTabKeyNavigation(False)  # Tab goes on to the next field; arrows walk over the table
    table.setHorizontalHeaderLabels(tuple(map(tr, COLUMNS)))
    table.verticalHeader().hide()
    table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
    table.setSelectionMode(QAbstractItemView.SelectionMode.NoSelection)
    table.setShowGrid(False)
    table.setAlternatingRowColors(True)
    table.setAccessibleName(tr("The scheme, week by week"))
    table.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
    table.horizontalHeader().setStretchLastSection(True)
    table.horizontalHeader().setDefaultAlignment(Qt.AlignmentFlag.AlignLeft)
    return table


def _fill(table: QTableWidget, program: Program, rows: tuple[WeekRow, ...]) -> None:
    table.setRowCount(len(rows))
    for number, row in enumerate(rows):
        before = sum(slot.sets for slot in program.weeks[row.index].slots())
        sets = str(row.sets) if before == row.sets else f"{before} {ARROW} {row.sets}"
        remark = tr("light week") if row.light else tr("no longer light") if row.was_light else ""
        if any(cell.pinned for cell in row.cells):
            remark = tr("{remark}, some set by hand", remark=remark).lstrip(", ")
        block = program.blocks[program.block_of(row.index)].name
        texts = (
            str(row.index + 1),
            block,
            _reps(row, Role.CORE),
            _efforts(row, Role.CORE),
            _reps(row, Role.ASSISTANCE),
            _efforts(row, Role.ASSISTANCE),
            sets,
            remark,
        )
        for column, text in enumerate(texts):
            table.setItem(number, column, QTableWidgetItem(text))


def _reps(row: WeekRow, role: Role) -> str:
    reps = [cell.reps for cell in row.cells if cell.role is role and cell.reps.high <= 30]
    if not reps:
        return DASH
    low, high = min(r.low for r in reps), max(r.high for r in reps)
    return (
        tr("{low} reps", low=low)
        if low == high
        else tr("{low}{dash}{high} reps", low=low, dash=DASH, high=high)
    )


def _efforts(row: WeekRow, role: Role) -> str:
    texts = dict.fromkeys(
        effort.text(cell.effort, cell.reps.high) for cell in row.cells if cell.role is role
    )
    return ", ".join(texts) or DASH
