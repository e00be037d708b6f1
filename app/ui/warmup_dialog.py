"""The warm-up of a session: drills that suit it, how much of each, and ramp sets."""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QWidget,
)

from app.domain import warmup
from app.domain.edits.place import set_warmup
from app.domain.errors import CoachError
from app.domain.exercise import Exercise, ExerciseKey, Pattern, pattern_name
from app.domain.findings import Edit, edit
from app.domain.fit import fits
from app.domain.lead_up import FULL_RAMP, dose_of
from app.domain.program import Drill, DrillDose, Reps, Role, Session, Slot, SlotId, day_name
from app.domain.ramp import Ramp
from app.domain.ramp_account import ramp_line
from app.domain.strength import full_ramp_text
from app.domain.wording import tr
from app.ui.bench import Bench
from app.ui.forms import Sheet, button, plain
from app.ui.warmup_fields import DoseFields, RampFields, dose_text

KEY = Qt.ItemDataRole.UserRole
DOSE = KEY + 1


class WarmupDialog(Sheet):
    """Chosen drills left in order, fitting drills right; below, a drill's dose and ramp sets."""

    def __init__(self, bench: Bench, parent: QWidget | None) -> None:
        super().__init__(
            parent,
            tr("Warm-up"),
            verb=tr("Keep"),
            about=tr(
                "Before a session of week {week}; reaches {span}. A specific "
                "warm-up is enough for strength and size (Iversen 2021); the "
                "rest is common practice.",
                week=bench.week + 1,
                span=tr(bench.span.value),
            ),
        )
        self.bench = bench
        week = bench.desk.program.weeks[bench.week]
        self.sessions = tuple((day, s) for day, s in week.sessions() if s.slots)
        self.own: dict[SlotId, Ramp | None] = {}
        self.dosed = self.lifted = -1
        self.session_box = QComboBox()
        self.session_box.setMinimumHeight(32)
        for day, session in self.sessions:
            title = f", {session.title}" if session.title else ""
            self.session_box.addItem(f"{day_name(day)}{title}")
        self.row(tr("Session"), self.session_box)
        self.chosen = QListWidget()
        self.chosen.setAccessibleName(tr("Drills of this warm-up, in order"))
        self.chosen.setDragDropMode(QListWidget.DragDropMode.InternalMove)
        self.others = QListWidget()
        self.others.setAccessibleName(tr("Drills that suit"))
        for box in (self.chosen, self.others):
            box.setMinimumHeight(120)
            box.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.dose, self.ramp = DoseFields(), RampFields(bench.desk.client.units)
        self.ramps = self.ramp.told
        self._lay_out()
        self.session_box.currentIndexChanged.connect(lambda _k: self.load())
        self.others.itemActivated.connect(lambda _item: self.add())
        self.chosen.itemActivated.connect(lambda _item: self.remove())
        self.chosen.currentRowChanged.connect(self._mark)
        self.chosen.model().rowsMoved.connect(self._follow)
        self.dose.changed.connect(self._take_dose)
        self.ramp.lift.currentIndexChanged.connect(self._choose_lift)
        self.ramp.changed.connect(self._take_ramp)
        self.resize(760, 720)
        self._choose_session()
        self.load()

    def _lay_out(self) -> None:
        left, right = QHBoxLayout(), QHBoxLayout()
        for acts in (left, right):
            acts.setSpacing(8)
        for acts, text, run in (
            (left, tr("Up"), lambda: self.shift(-1)),
            (left, tr("Down"), lambda: self.shift(1)),
            (left, tr("Take out"), self.remove),
            (right, tr("Put in"), self.add),
            (right, tr("Suggest"), self.suggest),
        ):
            acts.addWidget(button(text, run))
        left.addStretch(1)
        right.addStretch(1)
        grid = QGridLayout()
        grid.setHorizontalSpacing(20)
        grid.setVerticalSpacing(8)
        grid.addWidget(plain(tr("This warm-up"), step="head"), 0, 0)
        grid.addWidget(plain(tr("Drills that suit it"), step="head"), 0, 1)
        grid.addWidget(self.chosen, 1, 0)
        grid.addWidget(self.others, 1, 1)
        grid.addLayout(left, 2, 0)
        grid.addLayout(right, 2, 1)
        grid.setRowMinimumHeight(3, 8)
        grid.addWidget(self.dose, 4, 0)
        grid.addWidget(self.ramp, 4, 1)
        grid.setRowStretch(1, 1)
        for column in (0, 1):
            grid.setColumnStretch(column, 1)
        self.body.addLayout(grid)

    def _choose_session(self) -> None:
        """The session of the selected card, if there is one."""
        selected = set(self.bench.selection)
        for number_, (_, session) in enumerate(self.sessions):
            if selected & {slot.id for slot in session.slots}:
                self.session_box.setCurrentIndex(number_)

    @property
    def session(self) -> Session | None:
        """The session whose warm-up is shown."""
        at = self.session_box.currentIndex()
        return self.sessions[at][1] if 0 <= at < len(self.sessions) else None

    # -- what is shown ---------------------------------------------------------------------

    def load(self) -> None:
        """Show the session's drills, those that suit it, and its ramp sets."""
        session = self.session
        self.keep_button.setEnabled(session is not None)
        self.ramp.setEnabled(session is not None)
        self.own = {} if session is None else {slot.id: slot.ramp for slot in session.slots}
        self._show(() if session is None else session.warmup)
        self._show_lifts()

    @property
    def day(self) -> int:
        """The day of the session, 0 for Monday."""
        return self.sessions[self.session_box.currentIndex()][0]

    def _composed(self, session: Session) -> warmup.WarmUp:
        desk = self.bench.desk
        on = desk.context.day_date(self.bench.week, self.day)
        return warmup.compose(
            session,
            desk.catalogue,
            desk.client,
            desk.context.emphasis,
            on=on,
            curve=desk.program.curve,
        )

    def _show(self, drills: tuple[Drill, ...], row: int = 0) -> None:
        catalogue = self.bench.desk.catalogue
        with QSignalBlocker(self.chosen):
            self.chosen.clear()
            for drill in drills:
                self.chosen.addItem(_item(drill, catalogue[drill.exercise]))
            self.chosen.setCurrentRow(min(row, len(drills) - 1))
        self._show_dose()
        self._show_others({drill.exercise for drill in drills})

    def _show_others(self, taken: set[ExerciseKey]) -> None:
        session, desk = self.session, self.bench.desk
        self.others.clear()
        if session is None:
            return
        patterns = {desk.catalogue[slot.exercise].pattern for slot in session.slots}
        on = desk.context.day_date(self.bench.week, self.day)
        suiting = [
            e
            for e in desk.catalogue
            if e.warmup_for and e.key not in taken and fits(e, desk.client, on, day=self.day)
        ]
        suiting.sort(key=lambda e: (-len(patterns & set(e.warmup_for)), _late(e), e.name))
        for exercise in suiting:
            item = _item(Drill(exercise.key), exercise)
            served = [pattern_name(p) for p in exercise.warmup_for if p in patterns]
            item.setToolTip(
                tr("For {served}", served=", ".join(served))
                if served
                else tr("Not for this session")
            )
            self.others.addItem(item)

    def drills(self) -> tuple[Drill, ...]:
        """The chosen drills with their doses, in order."""
        return tuple(_drill(self.chosen.item(row)) for row in range(self.chosen.count()))

    # -- the dose of a drill ---------------------------------------------------------------

    def _mark(self, row: int) -> None:
        """Show the marked drill's dose; a wrong figure is mended first."""
        if self.dose.is_wrong and 0 <= self.dosed < self.chosen.count() and row != self.dosed:
            with QSignalBlocker(self.chosen):
                self.chosen.setCurrentRow(self.dosed)
            return
        self._show_dose()

    def _follow(self) -> None:
        """The marked drill was dragged to another place: its dose goes along."""
        self.dosed = self.chosen.currentRow()

    def _show_dose(self) -> None:
        row = self.dosed = self.chosen.currentRow()
        drill = _drill(self.chosen.item(row)) if row >= 0 else None
        exercise = None if drill is None else self.bench.desk.catalogue[drill.exercise]
        self.dose.show_drill(drill, exercise)

    def _take_dose(self) -> None:
        item, exercise = self.chosen.item(self.dosed), self.dose.exercise
        if self.dosed >= 0 and exercise is not None:
            _write(item, Drill(exercise.key, self.dose.dose), exercise)

    # -- ramp sets -------------------------------------------------------------------------

    def lifts(self) -> tuple[Slot, ...]:
        """The session's lifts that can have ramp sets: core work in kilograms, and set ones."""
        session, catalogue = self.session, self.bench.desk.catalogue
        return tuple(
            slot
            for slot in (session.slots if session else ())
            if slot.ramp is not None
            or (slot.role is Role.CORE and catalogue[slot.exercise].load_kind in FULL_RAMP)
        )

    def _show_lifts(self) -> None:
        catalogue, lift = self.bench.desk.catalogue, self.ramp.lift
        with QSignalBlocker(lift):
            lift.clear()
            lift.addItems([catalogue[slot.exercise].name for slot in self.lifts()])
        self.lifted = -1
        self._choose_lift(lift.currentIndex())

    def _choose_lift(self, at: int) -> None:
        """Show a lift's ramp sets; a line that cannot be read is mended first."""
        lifts = self.lifts()
        if self.lifted >= 0 and at != self.lifted:
            try:
                self.ramp.read()
            except CoachError:
                with QSignalBlocker(self.ramp.lift):
                    self.ramp.lift.setCurrentIndex(self.lifted)
                self.ramp.take()
                return
            self.own[lifts[self.lifted].id] = self.ramp.ramp
        self.lifted = at
        for field in (self.ramp.lift, self.ramp.way):
            field.setEnabled(at >= 0)
        if at < 0:
            self.ramp.show_ramp(None, begin_with="")
            self.ramp.steps.setEnabled(False)
        else:
            kind = self.bench.desk.catalogue[lifts[at].exercise].load_kind
            self.ramp.show_ramp(self.own[lifts[at].id], begin_with=full_ramp_text(kind))
        self._say_ramps()

    def _take_ramp(self) -> None:
        if self.lifted >= 0:
            self.own[self.lifts()[self.lifted].id] = self.ramp.ramp
        self._say_ramps()

    def _say_ramps(self) -> None:
        """Every lift's ramp sets as they will be printed, and where they come from."""
        session = self.session
        if session is None:
            self.ramps.setText(tr("This week has no session with exercises. Lay one out first."))
            return
        desk = self.bench.desk
        slots = tuple(replace(slot, ramp=self.own[slot.id]) for slot in session.slots)
        sets = {
            ramp.slot: ramp.sets for ramp in self._composed(replace(session, slots=slots)).ramps
        }
        lines = []
        for slot in slots:
            line = ramp_line(slot, sets.get(slot.id, ()), desk.client.units)
            if line is not None:
                name = desk.catalogue[slot.exercise].name
                lines.append(_kept_together(f"{name}: {line.value} ({line.remark})"))
        self.ramps.setText("\n".join(lines) or self._why_no_ramp())

    def _why_no_ramp(self) -> str:
        if not self.lifts():
            return tr("No core lift of this session is loaded in kilograms.")
        return tr("None: no load is known, or it leaves no room for any.")

    # -- acts ------------------------------------------------------------------------------

    def add(self) -> None:
        """Put the marked drill into the warm-up."""
        item = self.others.currentItem()
        if self.others.currentRow() >= 0 and not self._stopped():
            self._show((*self.drills(), _drill(item)), self.chosen.count())

    def remove(self) -> None:
        """Take the marked drill out."""
        row = self.chosen.currentRow()
        if row >= 0:
            self._show(tuple(d for at, d in enumerate(self.drills()) if at != row), row)

    def shift(self, by: int) -> None:
        """Move the marked drill up or down."""
        row, drills = self.chosen.currentRow(), list(self.drills())
        if 0 <= row < len(drills) and 0 <= row + by < len(drills) and not self._stopped():
            drills.insert(row + by, drills.pop(row))
            self._show(tuple(drills), row + by)

    def suggest(self) -> None:
        """Compose a warm-up that suits the session's patterns and the emphasis."""
        if self.session is not None and not self._stopped():
            self._show(self._composed(self.session).proposed(self.drills()))

    def _stopped(self) -> bool:
        """True while a figure of the dose is wrong: it says so, and is mended first."""
        if self.dose.is_wrong:
            self.dose.take()
        return self.dose.is_wrong

    def edit(self, session: Session) -> Edit:
        """The warm-up as an edit; drills that did not change stay as each week has them.

        Where nothing changed at all, the drills are kept in every week that the span reaches.
        """
        now = {slot.id: slot.ramp for slot in session.slots}
        ramps = tuple((key, ramp) for key, ramp in self.own.items() if ramp != now[key])
        drills = self.drills()
        return edit(
            tr("Change the warm-up on {day_name}", day_name=day_name(self.day)),
            set_warmup,
            session_id=session.id,
            warmup=None if ramps and drills == session.warmup else drills,
            ramps=ramps,
            span=self.bench.span,
        )

    def keep(self) -> None:
        """Keep the warm-up as one edit. Raises CoachError for a figure that cannot be taken."""
        if self.session is None:
            return
        self.dose.read()
        try:
            self.ramp.read()
        except CoachError:
            self.ramp.take()
            self.ramp.steps.setFocus()
            raise
        self._take_ramp()
        self.bench.keep(self.edit(self.session))


def _item(drill: Drill, exercise: Exercise) -> QListWidgetItem:
    item = QListWidgetItem()
    _write(item, drill, exercise)
    return item


def _write(item: QListWidgetItem, drill: Drill, exercise: Exercise) -> None:
    """The drill with its dose; the data are plain, since a drag writes them down."""
    dose = drill.dose
    text = dose_text(dose_of(drill, exercise), timed=exercise.timed)
    item.setText(f"{exercise.name}, {text}")
    item.setData(KEY, exercise.key)
    figures = None if dose is None else [dose.rounds, dose.reps.low, dose.reps.high]
    item.setData(DOSE, figures)


def _drill(item: QListWidgetItem) -> Drill:
    dose: list[int] | None = item.data(DOSE)
    key = ExerciseKey(item.data(KEY))
    return Drill(key, None if dose is None else DrillDose(dose[0], Reps(dose[1], dose[2])))


def _kept_together(text: str) -> str:
    """The text with no line break inside a step."""
    for apart, together in ((" × ", "\u00a0×\u00a0"), (" %", "\u00a0%"), (" kg", "\u00a0kg")):
        text = text.replace(apart, together)
    return text


def _late(exercise: Exercise) -> bool:
    return exercise.pattern is not Pattern.DRILL
