"""Changing the split: two sessions into one, or one into two, with now and after side by side."""

from __future__ import annotations

from dataclasses import dataclass, replace

from PySide6.QtCore import QSize
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QHBoxLayout,
    QLayout,
    QRadioButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from app.domain.edits import split
from app.domain.effort import Effort, Rir
from app.domain.errors import CoachError, EditError
from app.domain.exercise import Catalogue
from app.domain.findings import Edit, edit
from app.domain.program import Field, Program, Session, Slot, StrandId, Week, day_name
from app.domain.session_time import session_minutes, whole_minutes
from app.domain.wording import mark, tr, trn
from app.ui.bench import Bench
from app.ui.card_column import CardColumn, cards, foot_text, sets_text
from app.ui.change_list import ChangeList
from app.ui.forms import Sheet, Wrapped, plain
from app.ui.tally import TallyBars
from app.ui.words import DASH, list_of

EFFORTS: tuple[tuple[str, Effort | None], ...] = (
    (mark("keep as it is"), None),
    ("RIR 3", Rir(3)),
    ("RIR 2", Rir(2)),
    ("RIR 1", Rir(1)),
    (mark("RIR 0, to failure"), Rir(0)),
)


@dataclass(frozen=True, slots=True)
class Choice:
    """A session of the open week with its day."""

    day: int
    session: Session

    @property
    def name(self) -> str:
        """'Monday, Lower body'."""
        title = self.session.title
        return f"{day_name(self.day)}, {title}" if title else day_name(self.day)


MOST = QSize(1240, 760)
"""The dialog where the screen has room, px: nothing in it is scrolled to."""

TWO_COLUMNS = 392
"""What the tally needs to show two columns of muscles with their names whole, px."""

MOST_OPTIONS = 420
"""How wide the choices may get, px; what is longer is scrolled to."""


class SplitDialog(Sheet):
    """Chooses what folds in, or what moves out, and shows the week before and after."""

    def __init__(self, bench: Bench, parent: QWidget | None) -> None:
        week = bench.desk.program.weeks[bench.week]
        self.choices = tuple(Choice(d, s) for d, s in week.sessions() if s.slots)
        reach = tr(bench.span.value)
        super().__init__(
            parent,
            tr("Change the split"),
            verb=tr("Change to one day"),
            about=tr(
                "Made in week {week}; reaches {reach}. Undo takes all of it back.",
                week=bench.week + 1,
                reach=reach,
            ),
        )
        self.bench = bench
        self.setMinimumSize(1040, 620)
        room = self.screen().availableSize()
        self.resize(min(MOST.width(), room.width() - 40), min(MOST.height(), room.height() - 80))
        self.fold_mode = QRadioButton(tr("Two days into one"))
        self.open_mode = QRadioButton(tr("One day into two"))
        self.first = _combo([c.name for c in self.choices], tr("Session that goes"))
        self.second = _combo([c.name for c in self.choices], tr("Session it folds into"))
        self.day = _combo([day_name(day) for day in range(7)], tr("Day of the second session"))
        self.effort = _combo([tr(name) for name, _ in EFFORTS], tr("Effort of core work"))
        self.trim = QCheckBox(tr("Take sets off until it fits the day's minutes"))
        self.trim.setChecked(True)
        self.trim_note = Wrapped(step="small")
        self.boxes: list[tuple[StrandId, QCheckBox]] = []
        self.now, self.after = CardColumn(), CardColumn()
        self.bars = TallyBars(bench)
        self.bars.setMinimumWidth(TWO_COLUMNS)
        self.changes = ChangeList(bench)
        self.slots_title = plain("", step="head")
        self.slots_column = QVBoxLayout()
        self.first_label = plain("")
        self.second_label = plain("")
        self._lay_out()
        self._start_values()
        for box in (self.first, self.second, self.day, self.effort):
            box.currentIndexChanged.connect(lambda _k: self.refresh())
        self.first.currentIndexChanged.connect(lambda _k: self._rebuild())
        self.fold_mode.toggled.connect(lambda _on: self._rebuild())
        self.trim.toggled.connect(lambda _on: self.refresh())
        self.finished.connect(lambda _result: self.bench.clear_preview())
        self._rebuild()

    def _lay_out(self) -> None:
        modes = QHBoxLayout()
        modes.addWidget(self.fold_mode)
        modes.addWidget(self.open_mode)
        modes.addStretch(1)
        self.body.addLayout(modes)
        self.options = _scrolled(self._options(), tr("What changes"))
        middle = QHBoxLayout()
        middle.setSpacing(16)
        middle.addWidget(self.now, 1)
        middle.addWidget(self.after, 1)
        right = QVBoxLayout()
        right.addWidget(self.bars, 3)
        right.addWidget(self.changes, 2)
        row = QHBoxLayout()
        row.setSpacing(16)
        row.addWidget(self.options, 2)
        row.addWidget(_scrolled(middle, tr("Now and after")), 3)
        row.addLayout(right, 2)
        self.body.addLayout(row, 1)

    def _options(self) -> QVBoxLayout:
        left = QVBoxLayout()
        left.setSpacing(6)
        for widget in (
            self.first_label,
            self.first,
            self.second_label,
            self.second,
            self.day,
            self.slots_title,
        ):
            left.addWidget(widget)
        left.addLayout(self.slots_column)
        left.addSpacing(6)
        left.addWidget(plain(tr("Effort of core work"), step="head"))
        left.addWidget(self.effort)
        left.addWidget(self.trim)
        left.addWidget(self.trim_note)
        left.addStretch(1)
        return left

    def _start_values(self) -> None:
        many = len(self.choices) > 1
        self.fold_mode.setEnabled(many)
        (self.fold_mode if many else self.open_mode).setChecked(True)
        if many:
            self.first.setCurrentIndex(1)
            self.second.setCurrentIndex(0)
        if self.choices:
            self.day.setCurrentIndex((self.choices[0].day + 3) % 7)

    # -- values ----------------------------------------------------------------------------

    @property
    def folding(self) -> bool:
        """True for two into one."""
        return self.fold_mode.isChecked()

    def _chosen(self) -> Choice:
        if not self.choices:
            raise EditError(
                tr("This week has no session with exercises."), mend=tr("Open another week first.")
            )
        return self.choices[max(0, self.first.currentIndex())]

    def _rebuild(self) -> None:
        """List the exercises of the chosen session anew."""
        while self.slots_column.count():
            item = self.slots_column.takeAt(0)
            widget = None if item is None else item.widget()
            if widget is not None:
                widget.deleteLater()
        self.boxes = []
        self.second.setVisible(self.folding)
        self.second_label.setVisible(True)
        self.day.setVisible(not self.folding)
        self.trim.setVisible(self.folding)
        self.first_label.setText(tr("Session that goes") if self.folding else tr("Session to open"))
        self.second_label.setText(tr("folds into") if self.folding else tr("second session on"))
        self.keep_button.setText(
            tr("Change to one day") if self.folding else tr("Change to two days")
        )
        self.cancel_button.setText(tr("Keep two days") if self.folding else tr("Keep one day"))
        if not self.choices:
            self.refresh()
            return
        chosen = self._chosen()
        verb = tr("Folds in") if self.folding else tr("Moves out")
        self.slots_title.setText(
            tr("{verb}, of {slots} exercises", verb=verb, slots=len(chosen.session.slots))
        )
        catalogue = self.bench.desk.catalogue
        for number, slot in enumerate(chosen.session.slots):
            exercise = catalogue[slot.exercise]
            box = QCheckBox(f"{exercise.name}  {sets_text(slot, timed=exercise.timed)}")
            box.setMinimumHeight(24)
            half = len(chosen.session.slots) // 2
            box.setChecked(number == 0 if self.folding else number >= half)
            box.toggled.connect(lambda _on: self.refresh())
            self.boxes.append((slot.strand, box))
            self.slots_column.addWidget(box)
        self._fit_options()
        self.refresh()

    def _fit_options(self) -> None:
        """Give the choices the width that the longest of them needs, beside their scroll bar."""
        holder = self.options.widget()
        assert holder is not None
        wide = holder.sizeHint().width() + self.options.verticalScrollBar().sizeHint().width()
        self.options.setMinimumWidth(min(wide, MOST_OPTIONS))

    def edit(self) -> Edit:
        """The edit as chosen. Raises CoachError for what cannot be."""
        strands = tuple(strand for strand, box in self.boxes if box.isChecked())
        effort = EFFORTS[max(0, self.effort.currentIndex())][1]
        chosen = self._chosen()
        span = self.bench.span
        if self.folding:
            into = self.choices[max(0, self.second.currentIndex())]
            plan = split.Fold(chosen.session.id, into.session.id, strands, effort)
            trimmed = self._trimmed(split.fold(self.bench.desk.program, plan), into)
            plan = split.Fold(chosen.session.id, into.session.id, strands, effort, trimmed)
            label = tr(
                "Fold {day_name} into {day_name_2}",
                day_name=day_name(chosen.day),
                day_name_2=day_name(into.day),
            )
            return edit(label, split.fold, plan=plan, span=span)
        day = max(0, self.day.currentIndex())
        opened = split.Unfold(chosen.session.id, day, strands, effort)
        label = tr("Open {day_name} into two days", day_name=day_name(chosen.day))
        return edit(label, split.unfold, plan=opened, span=span)

    def _trimmed(self, after: Program, into: Choice) -> tuple[tuple[StrandId, int], ...]:
        cap = self._cap(into.day)
        session = _same_session(after.weeks[self.bench.week], into.session)
        if not self.trim.isChecked() or cap is None or session is None:
            return ()
        catalogue = self.bench.desk.catalogue

        def minutes(slots: tuple[Slot, ...]) -> float:
            return whole_minutes(session_minutes(replace(session, slots=slots), catalogue).expected)

        return split.trimmed_sets(session.slots, minutes, cap)

    def _cap(self, day: int) -> float | None:
        minutes = self.bench.desk.client.free[day].minutes
        return float(minutes) if minutes else None

    # -- what is shown ---------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the week before and after, and what the checks would say."""
        self.show_error("")
        self.trim_note.hide()
        try:
            preview = self.bench.try_edit(self.edit())
            if isinstance(preview, CoachError):
                raise preview
        except CoachError as error:
            self.bench.clear_preview()
            self.show_error(error.sentence)
            self.keep_button.setEnabled(False)
            return
        self.keep_button.setEnabled(True)
        week = self.bench.week
        shown = self.choices[max(0, self.second.currentIndex())] if self.folding else self._chosen()
        after = _same_session(preview.after.weeks[week], shown.session)
        day = day_name(shown.day)
        catalogue = self.bench.desk.catalogue
        self.now.show_cards(
            tr("{day} now", day=day),
            cards(shown.session, catalogue),
            self._foot(shown.session, shown.day),
        )
        self.after.show_cards(
            tr("{day} after", day=day),
            cards(after, catalogue, shown.session),
            self._foot(after, shown.day),
        )
        self.changes.show_change(preview.gained, preview.lost)
        self.trim_note.setText(self._why_too_long(preview.after.weeks[week], after, shown.day))
        self.trim_note.setVisible(bool(self.trim_note.text()))

    def _why_too_long(self, week: Week, session: Session | None, day: int) -> str:
        """Why taking sets off does not reach the day's minutes; nothing where it does."""
        cap = self._cap(day)
        if not self.folding or not self.trim.isChecked() or cap is None or session is None:
            return ""
        catalogue = self.bench.desk.catalogue
        minutes = whole_minutes(session_minutes(session, catalogue).expected)
        return "" if minutes <= cap else stuck_text(week, session, catalogue, over=minutes - cap)

    def _foot(self, session: Session | None, day: int) -> str:
        if session is None:
            return DASH
        minutes = session_minutes(session, self.bench.desk.catalogue).expected
        return foot_text(sum(s.sets for s in session.slots), minutes, self._cap(day))

    def keep(self) -> None:
        """Make the change as one edit."""
        self.bench.desk.keep(self.edit())


def stuck_text(week: Week, session: Session, catalogue: Catalogue, *, over: float) -> str:
    """Which exercises give no more sets away: 'Still 5 min too long. Curl is at two sets.'"""

    def names(slots: list[Slot]) -> str:
        found = list_of([catalogue[slot.exercise].name for slot in slots])
        return f"{found} {trn('is', 'are', len(slots))}"

    by_hand = [slot for slot in session.slots if Field.SETS in slot.pinned]
    others = [slot for slot in session.slots if Field.SETS not in slot.pinned]
    parts = [tr("Still {over:g} min too long.", over=over)]
    if week.light:
        parts.append(tr("A light week keeps its sets."))
    elif not by_hand:
        parts.append(tr("Every exercise is at two sets or fewer."))
    elif others:
        parts.append(tr("{names} at two sets or fewer.", names=names(others)))
    if by_hand:
        parts.append(tr("{names} set by hand.", names=names(by_hand)))
    return " ".join((*parts, tr("Fold fewer exercises in, or give the day more time.")))


def _same_session(week: Week, session: Session) -> Session | None:
    return next((s for _, s in week.sessions() if s.strand == session.strand), None)


def _combo(names: list[str], name: str) -> QComboBox:
    box = QComboBox()
    box.addItems(names)
    box.setMinimumHeight(32)
    box.setAccessibleName(name)
    box.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
    return box


def _scrolled(layout: QLayout, name: str) -> QScrollArea:
    holder = QWidget()
    holder.setLayout(layout)
    scroll = QScrollArea()
    scroll.setAccessibleName(name)
    scroll.setWidget(holder)
    scroll.setWidgetResizable(True)
    return scroll
