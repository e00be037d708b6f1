"""Results of a program, session by session: what was meant beside what was done.

What is typed is kept by itself a moment later, each session as one step of the history; nothing
waits for a button, and nothing that cannot be read is dropped without a word.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date

from PySide6.QtCore import QTimer
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QDateEdit, QHBoxLayout, QSplitter, QVBoxLayout, QWidget

from app.domain.errors import CoachError
from app.domain.log_sheet import refuse_future
from app.domain.program import Slot
from app.domain.wording import date_text, tr
from app.ui.bench import Bench
from app.ui.forms import Sheet, Wrapped, button, plain
from app.ui.results.asking import Asking
from app.ui.results.doubts import Doubts
from app.ui.results.draft import Known, SessionDraft, SlotDraft
from app.ui.results.meant import MeantSession, MeantWeek, meant_weeks
from app.ui.results.other_exercise import ask_exercise
from app.ui.results.session_list import SessionList
from app.ui.results.table import ResultsTable
from app.ui.results.table_model import ResultsModel
from app.ui.words import pydate, qdate, tip

SOON_MS = 400
"""How long after the last key what was typed is kept."""

KEYS = "results"


class ResultsDialog(Sheet):
    """The sessions at the left, the sheet of the one that is open at the right."""

    def __init__(self, bench: Bench, parent: QWidget | None, *, today: date) -> None:
        desk = bench.desk
        super().__init__(
            parent,
            tr(
                "Results of {client}, {program}", client=desk.client.name, program=desk.program.name
            ),
            verb=tr("Close"),
        )
        self.bench, self.today = bench, today
        self.weeks: tuple[MeantWeek, ...] = meant_weeks(desk)
        self.sessions = tuple(s for week in self.weeks for s in week.sessions())
        self.known = Known(desk.diary, desk.program.id)
        self.draft: SessionDraft | None = None
        self.open_at = -1
        self._warned: tuple[tuple[int, int], ...] = ()
        self.asking = Asking(
            self.sessions, desk.program.start, answered=self._ask, multiply=self._multiply
        )
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(SOON_MS)
        self._timer.timeout.connect(self.flush)
        self.list = SessionList(self.sessions)
        self.model = ResultsModel()
        self.table = ResultsTable(self.model)
        self._lay_out()
        self._connect()
        self.list.show_known(self.known)
        self.cancel_button.hide()
        self.resize(1180, 720)
        if self.sessions:
            self.open_session(self._first())
        self.table.setFocus()

    # -- how it looks ----------------------------------------------------------------------

    def _lay_out(self) -> None:
        self.title = plain("", step="head")
        self.printed = Wrapped(role="small")
        self.day = QDateEdit(qdate(self.today))
        self.day.setDisplayFormat("ddd d MMM yyyy")
        self.day.setCalendarPopup(True)
        self.day.setMinimumHeight(32)
        self.day.setAccessibleName(tr("Day of the session"))
        self.day.setKeyboardTracking(False)
        label = plain(tr("Done on"))
        label.setBuddy(self.day)
        head = QHBoxLayout()
        head.addWidget(self.title, 1)
        head.addWidget(label)
        head.addWidget(self.day)
        self.doubts = Doubts()
        self.fault = self._hidden()
        self.keys = Wrapped(
            tr(
                "Enter goes down, Tab goes on, F2 edits, Ctrl+V pastes, Ctrl+D fills down; a dash "
                "says left out. A whole set at once: 62.5 x 10 / 2. Ctrl+Enter: this one as "
                "planned, with Shift the whole session. Ctrl+PgDown: the next session, with Shift "
                "the next week. F6: day, list, table."
            ),
            role="small",
        )
        acts = QHBoxLayout()
        for text, keys, run in (
            (tr("All as planned"), "Ctrl+Shift+Enter", lambda: self.plan(whole=True)),
            (tr("This one as planned"), "Ctrl+Enter", lambda: self.plan(whole=False)),
            (tr("Left out"), "Ctrl+Delete", self.leave_out),
            (tr("Another exercise…"), "F4", self.swap),
            (tr("One more set"), "Ctrl++", self.add_line),
        ):
            made = button(text, run)
            made.setToolTip(tip(keys))
            acts.addWidget(made)
        acts.addStretch(1)
        right = QWidget()
        column = QVBoxLayout(right)
        column.setContentsMargins(8, 0, 0, 0)
        column.setSpacing(8)
        column.addLayout(head)
        column.addWidget(self.printed)
        column.addWidget(self.table, 1)
        for said in (self.fault, self.doubts):
            column.addWidget(said)
        column.addLayout(acts)
        column.addWidget(self.keys)
        split = QSplitter()
        split.addWidget(self.list)
        split.addWidget(right)
        split.setStretchFactor(1, 1)
        split.setSizes([330, 850])
        self.list.setMinimumWidth(320)
        split.setChildrenCollapsible(False)
        self.body.addWidget(split, 1)

    def _hidden(self) -> Wrapped:
        made = Wrapped(role="wrong", step="small")
        made.hide()
        return made

    def _connect(self) -> None:
        self.list.chosen.connect(self.open_session)
        self.model.edited.connect(self._edited)
        self.model.modelReset.connect(self._tell_fault)
        self.table.selectionModel().currentChanged.connect(lambda *_: self._tell_fault())
        self.table.planned.connect(lambda whole: self.plan(whole=whole))
        self.day.dateChanged.connect(lambda day: self.move_to(pydate(day)))
        for keys, run in (
            ("Ctrl+PgDown", lambda: self.go(1)),
            ("Ctrl+PgUp", lambda: self.go(-1)),
            ("Ctrl+Shift+PgDown", lambda: self.go_week(1)),
            ("Ctrl+Shift+PgUp", lambda: self.go_week(-1)),
            ("Ctrl+Delete", self.leave_out),
            ("F4", self.swap),
            ("Ctrl++", self.add_line),
            ("F6", self._next_part),
            ("Ctrl+Z", self.undo),
        ):
            QShortcut(QKeySequence(keys), self).activated.connect(run)

    def _next_part(self) -> None:
        """From the table to the day, on to the list, and back to the table."""
        parts = (self.table, self.day, self.list.tree)
        at = next((n for n, part in enumerate(parts) if part.hasFocus()), -1)
        parts[(at + 1) % len(parts)].setFocus()

    # -- which session ---------------------------------------------------------------------

    def _first(self) -> int:
        """The first session of the open week or later that has no results yet."""
        at_week = [n for n, one in enumerate(self.sessions) if one.week.index >= self.bench.week]
        empty = [n for n in at_week if not self.known.count(s.id for s in self._slots(n))]
        return (empty or at_week or [len(self.sessions) - 1])[0]

    def _slots(self, number: int) -> tuple[Slot, ...]:
        return self.sessions[number].session.slots

    @property
    def meant(self) -> MeantSession:
        """The session that is open."""
        return self.sessions[self.open_at]

    def open_session(self, number: int, on: date | None = None) -> None:
        """Open another session; what was typed in the one before is kept first."""
        if not 0 <= number < len(self.sessions) or not self._leave():
            return
        self.open_at = number
        self._warned = ()
        desk = self.bench.desk
        self.draft = SessionDraft(
            self.meant,
            self.known,
            program=desk.program.id,
            catalogue=desk.catalogue,
            unit=desk.client.units,
            today=self.today,
            on=on,
        )
        self._show()
        self.list.choose(number)
        self.table.go_to(0)

    def _leave(self) -> bool:
        """Keep what was typed; False, with a sentence, while a line cannot be read or kept."""
        try:
            self.keep()
        except CoachError as error:
            self._ask()
            self.show_error(error.sentence)
            self.list.choose(self.open_at)
            return False
        self.show_error("")
        return True

    def _show(self) -> None:
        assert self.draft is not None
        week = self.meant.week
        self.title.setText(
            tr("Week {week}: {title}", week=week.index + 1, title=self.meant.session.title)
        )
        against = (
            tr("Against the plan; it was not handed out for this week.")
            if week.issued is None
            else tr("Against the booklet of {day}.", day=date_text(week.issued))
        )
        others = [date_text(day) for day in self.draft.days if day != self.draft.on]
        also = tr("It has results on {days} too.", days=", ".join(others)) if others else ""
        self.printed.setText(f"{against} {also}".strip())
        self.model.show(self.draft)
        self._show_day()
        self._ask()

    def _show_day(self) -> None:
        assert self.draft is not None
        self.day.blockSignals(True)
        self.day.setDate(qdate(self.draft.on))
        self.day.blockSignals(False)

    def go(self, by: int) -> None:
        """On to the next session, or back."""
        self.open_session(self.open_at + by)

    def go_week(self, by: int) -> None:
        """To the first session of another week that has one."""
        if not self.sessions:
            return
        week = self.meant.week.index
        weeks = sorted({one.week.index for one in self.sessions})
        later = [w for w in weeks if (w > week if by > 0 else w < week)]
        if later:
            wanted = later[0] if by > 0 else later[-1]
            self.open_session(
                next(n for n, s in enumerate(self.sessions) if s.week.index == wanted)
            )

    # -- what is done to it ----------------------------------------------------------------

    def _tell_fault(self) -> None:
        """Say in words what is marked at the cursor, or the first that is marked."""
        told = self.model.told_fault(self.table.currentIndex().row())
        self.fault.setText(told)
        self.fault.setVisible(bool(told))

    def _edited(self) -> None:
        self.show_error("")
        self._tell_fault()
        self._timer.start()

    def plan(self, *, whole: bool) -> None:
        """Say that the whole session, or the slot at the cursor, was done as planned."""
        self._each(whole=whole, run=lambda slot: slot.plan(self.bench.desk.program.curve))

    def leave_out(self) -> None:
        """Say that the slot at the cursor was left out."""
        self._each(whole=False, run=lambda slot: slot.leave_out())

    def _each(self, *, whole: bool, run: Callable[[SlotDraft], object]) -> None:
        self.table.commit()
        at = self.table.slot
        if self.draft is None or (at is None and not whole):
            return
        for slot in self.draft.slots if whole or at is None else [self.draft.slots[at]]:
            run(slot)
        self._again()

    def _again(self) -> None:
        """Show the lines again, the cursor where it was, and keep them soon."""
        here = self.table.currentIndex()
        row, column = here.row(), here.column()
        self.model.show(self.draft)
        self.table.go_to(max(0, min(row, self.model.rowCount() - 1)), max(0, column))
        self._edited()

    def add_line(self) -> None:
        """One more set for the slot at the cursor."""
        self.table.commit()
        at = self.table.slot
        if at is not None:
            self.model.add_line(at)
            self.table.go_to(self.model.rows_of(at)[-1])

    def swap(self) -> None:
        """Ask which exercise was done instead."""
        self.table.commit()
        at = self.table.slot
        if self.draft is None or at is None:
            return
        slot = self.draft.slots[at]
        found = ask_exercise(
            self,
            slot.meant.exercise,
            catalogue=self.bench.desk.catalogue,
            first=slot.meant.slot.prepared,
        )
        if found is not None:
            slot.done = found
            slot.last_kg = self.known.last_kg(found, self.draft.on)
            self._again()

    def move_to(self, day: date) -> None:
        """The session was done on another day; results that stand there already are shown."""
        draft = self.draft
        if draft is None or day == draft.on:
            return
        self.show_error("")
        try:
            refuse_future(day, self.today)
        except CoachError as error:
            self.show_error(error.sentence)
            self._show_day()
            return
        if day in draft.days and draft.kept_on != day:
            was = draft.on
            self.open_session(self.open_at, on=day)
            self.show_error(
                tr(
                    "This session has results on {day} already; they are shown now. Those of "
                    "{was} are kept.",
                    day=date_text(day),
                    was=date_text(was),
                )
            )
            return
        draft.on = day
        self.flush()
        self._ask()

    # -- keeping ---------------------------------------------------------------------------

    def flush(self, *, leaving: bool = False) -> bool:
        """Keep what was typed; False, with a sentence, if it cannot be kept.

        leaving: nobody will look at the questions on it any more.
        """
        self._timer.stop()
        draft = self.draft
        if draft is None:
            return True
        desk = self.bench.desk
        diary = draft.applied(desk.diary)
        if diary is not desk.diary:
            week = draft.meant.week.index + 1
            title = draft.meant.session.title
            label = tr("Results of week {week}: {title}", week=week, title=title)
            key = (KEYS, desk.program.id, draft.meant.session.id)
            try:
                desk.keep_diary(label, diary, key=key)
            except CoachError as error:
                self.show_error(error.sentence)
                return False
            self.known = Known(desk.diary, desk.program.id)
            self.list.show_one(self.open_at, self.known)
            draft.kept_on = draft.on
            draft.days = self.known.days(s.id for s in draft.meant.session.slots)
        if not leaving:
            self._ask()
        return True

    def undo(self) -> None:
        """Take the last session's results back, if results were kept last."""
        self.table.commit()
        if not self.flush():
            return
        last = self.bench.desk.history.undoable
        if last is None or not isinstance(last.key, tuple) or last.key[0] != KEYS:
            return
        self.bench.undo()
        self.known = Known(self.bench.desk.diary, self.bench.desk.program.id)
        self.list.show_known(self.known)
        self.draft = None  # what it shows is no longer so
        number = next(
            (n for n, one in enumerate(self.sessions) if one.session.id == last.key[2]),
            self.open_at,
        )
        self.open_session(number)
        self.show_error(tr("Undone: {label}", label=last.label))

    def _ask(self) -> None:
        """Put the questions on what is typed so far."""
        if self.draft is not None:
            self.doubts.put(self.asking.about(self.draft, self.known))

    def _multiply(self, slot: SlotDraft, factor: float) -> None:
        slot.multiply(factor)
        self._again()
        self.flush()

    # -- closing ---------------------------------------------------------------------------

    def keep(self) -> None:
        """Keep what was typed. Raises CoachError once for lines that cannot be read."""
        self.table.commit()
        if not self.flush(leaving=True):
            raise CoachError(self.wrong.text())
        found = self.model.first_fault()
        if found is None or self.draft is None:
            return
        lines = tuple((slot, line) for slot, line, _ in self.draft.faults())
        if lines == self._warned:
            return  # said once; the coach closes all the same
        self._warned = lines
        row, error = found
        slot, line = self.model.at(row)
        self.table.go_to(row)
        self.table.setFocus()
        raise CoachError(
            error.what,
            where=tr("{exercise}, set {set}", exercise=slot.done.name, set=line + 1),
            mend=tr("{mend} Go on once more to leave that line out.", mend=error.mend),
        )

    def reject(self) -> None:
        """Escape and the window's own cross close as the button does."""
        self.try_keep()
