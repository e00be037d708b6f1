"""Editing in place on the week: prescriptions on their cards, titles and notes where they stand.

Each opens one field over the grid, and only one at a time.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from datetime import date
from functools import cached_property
from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF, Signal
from PySide6.QtWidgets import QWidget

from app.domain.errors import CoachError
from app.domain.program import SessionId, SlotId
from app.domain.wording import tr
from app.ui.bench import Bench
from app.ui.grid import geometry
from app.ui.grid.face import SessionFace
from app.ui.grid.surface import WeekSurface

if TYPE_CHECKING:
    from app.ui.grid.acts import Acts
    from app.ui.grid.inline import InlineEditor
    from app.ui.grid.session_acts import SessionActs

NOTE_WIDTH = 420.0


class EditedWeek(WeekSurface):
    """The picture of the week with a field over it.

    insert_wanted(day): an exercise is to be chosen for that day.
    """

    insert_wanted = Signal(int)

    def __init__(self, bench: Bench, today: Callable[[], date], parent: QWidget | None) -> None:
        super().__init__(bench, today, parent)
        self._editor: InlineEditor | None = None

    @cached_property
    def acts(self) -> Acts:
        """What can be done to the selection; made for the first act, so that a start need not."""
        from app.ui.grid.acts import Acts

        return Acts(self.bench, self)

    @cached_property
    def session_acts(self) -> SessionActs:
        """What can be done to sessions, days and the week, in the same way."""
        from app.ui.grid.session_acts import SessionActs

        return SessionActs(self.bench)

    # -- cards -----------------------------------------------------------------------------

    def edit_card(self, slot_id: SlotId | None = None, *, typed: str = "") -> None:
        """Open the prescription line of a card, of the one in focus by default."""
        slot_id = slot_id if slot_id is not None else self._slot
        slots = self.acts.slots
        if slot_id is None and slots:
            slot_id = slots[0]
        found = None if slot_id is None else self.layout_now.card(slot_id)
        shown = None if slot_id is None else self.face.card(slot_id)
        if slot_id is None or found is None or shown is None:
            self.insert_wanted.emit(self._day)
            return
        self.go_to(slot_id)
        if slot_id not in self.bench.selection:
            self.bench.select((slot_id,))
        from app.domain.prescription_text import format_slot
        from app.ui.grid.inline import InlineEditor

        desk = self.bench.desk
        timed = desk.catalogue[shown[1].slot.exercise].timed
        editor = InlineEditor(
            self,
            text=format_slot(shown[1].slot, timed=timed, unit=desk.client.units),
            name=tr("Prescription of {shown}", shown=shown[1].name),
            commit=self._line_writer(slot_id),
        )
        editor.went_on.connect(lambda step: self._edit_beside(slot_id, step))
        below_name = self.pens.height("medium") + 5
        rect = self.card_rect(*found).adjusted(0, below_name, 0, 0)
        self._open_editor(editor, rect, typed=typed)

    def _edit_beside(self, slot_id: SlotId, step: int) -> None:
        """Open the line of the card after this one in the week, or of the one before."""
        ids = [card.slot.id for day in self.face.days for card in day.cards]
        at = ids.index(slot_id) + step if slot_id in ids else -1
        if 0 <= at < len(ids):
            self.bench.select((ids[at],))
            self.edit_card(ids[at])

    def _line_writer(self, slot_id: SlotId) -> Callable[[str], CoachError | None]:
        return lambda line: self.acts.write_line(slot_id, line)

    def edit_fields(self, slot_id: SlotId | None = None) -> None:
        """Open all fields of a card, of the one in focus by default, as a sheet."""
        from app.ui.grid.card_sheet import CardSheet

        slots = (slot_id,) if slot_id is not None else self.acts.slots
        shown = self.face.card(slots[0]) if slots else None
        if shown is None:
            return
        exercise = self.bench.desk.catalogue[shown[1].slot.exercise]
        sheet = CardSheet(
            self,
            self.acts,
            shown[1].slot,
            name=exercise.name,
            timed=exercise.timed,
            unit=self.bench.desk.client.units,
        )
        sheet.exec()

    def edit_note(self) -> None:
        """Open the note of the card in focus, or of the day where none is."""
        slot_id = self.cursor_slot
        found = None if slot_id is None else self.layout_now.card(slot_id)
        shown = None if slot_id is None else self.face.card(slot_id)
        if slot_id is None or found is None or shown is None:
            self.edit_day_note()
            return
        self._open_note(
            shown[1].note,
            self.card_rect(*found),
            name=tr("Note on {name}", name=shown[1].name),
            keep=lambda note: self.acts.write_note(slot_id, note),
        )

    # -- sessions, days and the week -------------------------------------------------------

    def edit_title(self, session_id: SessionId | None = None) -> None:
        """Open the title of a session, of the one in focus by default."""
        session_id = self.session_or_refusal() if session_id is None else session_id
        for face, rect in self._sessions():
            if session_id is not None and face.id == session_id:
                self._open_editor(self._title_editor(face.id, face.title), rect)

    def edit_session_note(self) -> None:
        """Open the note on the session in focus."""
        session_id = self.session_or_refusal()
        for face, rect in self._sessions():
            if session_id is not None and face.id == session_id:
                self._open_note(
                    face.note,
                    rect,
                    name=tr("Note on the session"),
                    keep=lambda note: self.session_acts.write_note(session_id, note),
                )

    def edit_day_note(self) -> None:
        """Open the note on the day in focus."""
        if not self.face.days:
            return
        day = self.cursor_day
        self._open_note(
            self.face.days[day].note,
            self.layout_now.days[day].head,
            name=tr("Note on {day_name}", day_name=self.face.days[day].name),
            keep=lambda note: self.session_acts.write_day_note(day, note),
        )

    def edit_week_note(self) -> None:
        """Open the note on the open week."""
        week = self.bench.open_week
        if week is None:
            return
        self._open_note(
            week.note,
            QRectF(6, 4, 0, 0),
            name=tr("Note on week {number}", number=self.bench.week + 1),
            keep=self.session_acts.write_week_note,
        )

    def remove_session(self) -> None:
        """Take the session in focus out."""
        session_id = self.session_or_refusal()
        if session_id is not None:
            self.session_acts.remove(session_id)

    def session_in_focus(self) -> SessionFace | None:
        """The session that commands on a session mean; None on a day without any."""
        if not self.face.days:
            return None
        wanted = self.cursor_session
        sessions = self.face.days[self.cursor_day].sessions
        return next((face for face in sessions if face.id == wanted), None)

    def session_or_refusal(self) -> SessionId | None:
        """The session in focus; None, after saying so, on a day without any."""
        face = self.session_in_focus()
        if face is None and self.face.days:
            self.bench.refused.emit(
                tr(
                    "There is no session on {day_name}. Add one, or place an exercise there.",
                    day_name=self.face.days[self.cursor_day].name,
                )
            )
        return None if face is None else face.id

    def _sessions(self) -> Iterator[tuple[SessionFace, QRectF]]:
        """Each session with the place of its title."""
        for day, box in zip(self.face.days, self.layout_now.days, strict=True):
            for session, placed in zip(day.sessions, box.sessions, strict=True):
                rect = box.head.adjusted(4, self.pens.height("head") + 2, -4, 0)
                if placed.caption is not None:
                    scroll = self._scrolls.get(box.number, 0.0)
                    rect = geometry.on_screen(box, placed.caption, scroll)
                yield session, rect

    def _title_editor(self, session_id: SessionId, title: str) -> InlineEditor:
        def commit(text: str) -> None:
            if text.strip() and text.strip() != title:
                self.session_acts.rename(session_id, text)

        from app.ui.grid.inline import InlineEditor

        return InlineEditor(
            self, text=title, name=tr("Title of the session"), commit=commit, complete=False
        )

    # -- the field over the grid -----------------------------------------------------------

    def _open_note(
        self, note: str, rect: QRectF, *, name: str, keep: Callable[[str], object]
    ) -> None:
        def commit(text: str) -> None:
            if text.strip() != note:
                keep(text)

        from app.ui.grid.inline import InlineEditor

        hint = tr("{name}, for the client", name=name)
        editor = InlineEditor(self, text=note, name=name, commit=commit, complete=False, hint=hint)
        rect.setWidth(max(rect.width(), NOTE_WIDTH))
        self._open_editor(editor, rect)

    def _open_editor(self, editor: InlineEditor, rect: QRectF, *, typed: str = "") -> None:
        self._close_editor()
        self._editor = editor
        editor.closed.connect(self._editor_closed)
        editor.given_up.connect(self.bench.refused)
        editor.open_over(rect, typed=typed)

    def _close_editor(self) -> None:
        if self._editor is not None:
            self._editor.close_now()

    def _editor_closed(self) -> None:
        self._editor = None
        self.setFocus()
