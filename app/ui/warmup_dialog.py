"""The warm-up of a session: drills that suit it, in an order the coach chooses, and ramp sets."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QListWidget, QListWidgetItem, QWidget

from app.domain import warmup
from app.domain.edits.place import set_warmup
from app.domain.exercise import Exercise, ExerciseKey, Pattern, pattern_name
from app.domain.findings import Edit, edit
from app.domain.fit import fits
from app.domain.lead_up import dose_of
from app.domain.program import Drill, DrillDose, Session, day_name
from app.domain.wording import tr
from app.ui.bench import Bench
from app.ui.forms import Sheet, Wrapped, button, plain
from app.ui.words import DASH, TIMES, number

KEY = Qt.ItemDataRole.UserRole


class WarmupDialog(Sheet):
    """Chosen drills left in order, fitting drills right; the ramp sets follow from the loads."""

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
        self.ramps = Wrapped(role="small")
        self._lay_out()
        self.session_box.currentIndexChanged.connect(lambda _k: self.load())
        self.others.itemActivated.connect(lambda _item: self.add())
        self.chosen.itemActivated.connect(lambda _item: self.remove())
        self.resize(680, 560)
        self._choose_session()
        self.load()

    def _lay_out(self) -> None:
        heads = QHBoxLayout()
        heads.addWidget(plain(tr("This warm-up"), step="head"), 1)
        heads.addWidget(plain(tr("Drills that suit it"), step="head"), 1)
        lists = QHBoxLayout()
        lists.addWidget(self.chosen, 1)
        lists.addWidget(self.others, 1)
        acts = QHBoxLayout()
        for text, run in (
            (tr("Up"), lambda: self.shift(-1)),
            (tr("Down"), lambda: self.shift(1)),
            (tr("Take out"), self.remove),
            (tr("Suggest"), self.suggest),
        ):
            acts.addWidget(button(text, run))
        acts.addStretch(1)
        acts.addWidget(button(tr("Put in"), self.add))
        self.body.addLayout(heads)
        self.body.addLayout(lists, 1)
        self.body.addLayout(acts)
        self.body.addWidget(self.ramps)

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

    # -- lists -----------------------------------------------------------------------------

    def load(self) -> None:
        """Show the session's drills and those that suit it."""
        session = self.session
        self.keep_button.setEnabled(session is not None)
        if session is None:
            self.ramps.setText(tr("This week has no session with exercises. Lay one out first."))
            return
        self.doses = {drill.exercise: drill.dose for drill in session.warmup}
        self._show(tuple(drill.exercise for drill in session.warmup))
        self._say_ramps(session)

    def _composed(self, session: Session) -> warmup.WarmUp:
        desk = self.bench.desk
        day = self.sessions[self.session_box.currentIndex()][0]
        on = desk.context.day_date(self.bench.week, day)
        return warmup.compose(
            session,
            desk.catalogue,
            desk.client,
            desk.context.emphasis,
            on=on,
            curve=desk.program.curve,
        )

    def _show(self, keys: tuple[ExerciseKey, ...]) -> None:
        catalogue = self.bench.desk.catalogue
        self.chosen.clear()
        for key in keys:
            self.chosen.addItem(_item(Drill(key, self.doses.get(key)), catalogue[key]))
        self._show_others(set(keys))

    def _show_others(self, taken: set[ExerciseKey]) -> None:
        session, desk = self.session, self.bench.desk
        if session is None:
            return
        patterns = {desk.catalogue[slot.exercise].pattern for slot in session.slots}
        day = self.sessions[self.session_box.currentIndex()][0]
        on = desk.context.day_date(self.bench.week, day)
        suiting = [
            e
            for e in desk.catalogue
            if e.warmup_for and e.key not in taken and fits(e, desk.client, on, day=day)
        ]
        suiting.sort(key=lambda e: (-len(patterns & set(e.warmup_for)), _late(e), e.name))
        self.others.clear()
        for exercise in suiting:
            item = _item(Drill(exercise.key), exercise)
            served = [pattern_name(p) for p in exercise.warmup_for if p in patterns]
            item.setToolTip(
                tr("For {served}", served=", ".join(served))
                if served
                else tr("Not for this session")
            )
            self.others.addItem(item)

    def _say_ramps(self, session: Session) -> None:
        catalogue = self.bench.desk.catalogue
        lines = []
        for ramp in self._composed(session).ramps:
            sets = ", ".join(
                f"{number(s.load_kg, places=2)} kg {TIMES} {s.reps}" for s in ramp.sets
            )
            lines.append(f"{catalogue[ramp.exercise].name}: {sets}")
        told = tr("Ramp sets follow from the loads. ") + (
            "\n".join(lines) or tr("None: no load is known.")
        )
        self.ramps.setText(told)

    def keys(self) -> tuple[ExerciseKey, ...]:
        """The chosen drills, in order."""
        rows = range(self.chosen.count())
        return tuple(ExerciseKey(self.chosen.item(row).data(KEY)) for row in rows)

    # -- acts ------------------------------------------------------------------------------

    def add(self) -> None:
        """Put the marked drill into the warm-up."""
        item = self.others.currentItem()
        if self.others.currentRow() >= 0:
            self._show((*self.keys(), ExerciseKey(item.data(KEY))))
            self.chosen.setCurrentRow(self.chosen.count() - 1)

    def remove(self) -> None:
        """Take the marked drill out."""
        row = self.chosen.currentRow()
        if row >= 0:
            self._show(tuple(key for at, key in enumerate(self.keys()) if at != row))

    def shift(self, by: int) -> None:
        """Move the marked drill up or down."""
        row, keys = self.chosen.currentRow(), list(self.keys())
        if 0 <= row < len(keys) and 0 <= row + by < len(keys):
            keys.insert(row + by, keys.pop(row))
            self._show(tuple(keys))
            self.chosen.setCurrentRow(row + by)

    def suggest(self) -> None:
        """Compose a warm-up that suits the session's patterns and the emphasis."""
        if self.session is not None:
            self._show(self._composed(self.session).keys)

    def edit(self, session: Session) -> Edit:
        """The warm-up as an edit."""
        day = self.sessions[self.session_box.currentIndex()][0]
        return edit(
            tr("Change the warm-up on {day_name}", day_name=day_name(day)),
            set_warmup,
            session_id=session.id,
            warmup=tuple(Drill(key, self.doses.get(key)) for key in self.keys()),
            span=self.bench.span,
        )

    def keep(self) -> None:
        """Keep the warm-up as one edit."""
        if self.session is not None:
            self.bench.keep(self.edit(self.session))


def _item(drill: Drill, exercise: Exercise) -> QListWidgetItem:
    item = QListWidgetItem(f"{exercise.name}, {_dose_text(dose_of(drill, exercise), exercise)}")
    item.setData(KEY, exercise.key)
    return item


def _dose_text(dose: DrillDose, exercise: Exercise) -> str:
    """'3 minutes', '20 s', '8\N{EN DASH}10 reps' or '2 \N{MULTIPLICATION SIGN} 10 reps'."""
    rounds, reps = f"{dose.rounds} {TIMES} " if dose.rounds > 1 else "", dose.reps
    if exercise.timed:
        return rounds + warmup.seconds_text(reps)
    low = reps.low if reps.low == reps.high else f"{reps.low}{DASH}{reps.high}"
    return tr("{low} reps", low=f"{rounds}{low}")


def _late(exercise: Exercise) -> bool:
    return exercise.pattern is not Pattern.DRILL
