"""The widget of the week grid: it joins Qt's events to the picture, the acts and the carrier.

Every gesture has a twin: what a drag does, keys and single clicks do through the same carrier.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from html import escape

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QDragEnterEvent,
    QDragLeaveEvent,
    QDragMoveEvent,
    QDropEvent,
    QFocusEvent,
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QToolTip, QWidget

from app.domain.errors import CoachError
from app.domain.exercise import ExerciseKey
from app.domain.prescription_text import format_slot
from app.domain.program import ProgramId, SessionId, SlotId
from app.domain.wording import tr
from app.domain.work import Work
from app.ui import accounts
from app.ui.bench import Bench
from app.ui.carry import Carried, from_mime
from app.ui.grid import access, geometry, keys
from app.ui.grid.acts import Acts, SessionActs
from app.ui.grid.face import day_tooltip, tooltip
from app.ui.grid.geometry import Hit, Target, Zone
from app.ui.grid.hand import Via
from app.ui.grid.inline import InlineEditor
from app.ui.grid.mouse import CTRL, Mouse
from app.ui.grid.surface import WeekSurface
from app.ui.working_popup import show_account


class WeekGrid(WeekSurface):
    """Seven days of the open week.

    context_wanted(slot_ids, global_pos): a menu is asked for; empty ids for a day.
    insert_wanted(day): an exercise is to be chosen for that day.
    """

    context_wanted = Signal(object, QPoint)
    insert_wanted = Signal(int)

    def __init__(
        self,
        bench: Bench,
        parent: QWidget | None = None,
        *,
        today: Callable[[], date] = date.today,
    ) -> None:
        super().__init__(bench, today, parent)
        self.acts = Acts(bench, self)
        self.session_acts = SessionActs(bench)
        self.mouse = Mouse(self, self.acts)
        self._editor: InlineEditor | None = None
        self.setObjectName("week_grid")
        self.setAccessibleName(tr("Week"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAcceptDrops(True)
        self.setMouseTracking(True)
        access.install()
        self._join()
        self.refresh()

    def _join(self) -> None:
        bench = self.bench
        bench.replanned.connect(self._changed)
        bench.week_shown.connect(self._week_shown)
        bench.selected.connect(self._selected)
        bench.span_chosen.connect(self._span_chosen)
        self.carrier.changed.connect(self._carry_changed)
        self.carrier.picked_up.connect(self.carried_changed)
        self.carrier.ended.connect(self._landed)
        self.cursor_moved.connect(self._tell_focus)

    # -- what the bench says ---------------------------------------------------------------

    def _changed(self, before: object, after: object) -> None:
        self._close_editor()
        self.refresh()
        if _program_id(before) == _program_id(after) and self.face.days:
            self.carrier.again()
        else:
            self.carrier.put_back()  # it was in hand over another program

    def _week_shown(self, index: int) -> None:
        self._close_editor()
        self.scroll_back()
        self.refresh()
        self.carrier.again()

    def _selected(self, slots: object) -> None:
        self.forget_picture()

    def _carry_changed(self) -> None:
        hand = self.carrier.hand
        if hand is None:
            self.carried_changed()
            return
        self.update()

    def _landed(self, slots: tuple[SlotId, ...]) -> None:
        here = [slot for slot in slots if self.face.card(slot) is not None]
        self.bench.select(tuple(here))
        if here:
            self.go_to(here[0])

    def focusInEvent(self, event: QFocusEvent) -> None:
        first = next((c for day in self.layout_now.days for c in day.cards), None)
        tabbed = event.reason() == Qt.FocusReason.TabFocusReason
        if tabbed and self.cursor_slot is None and first is not None:
            self.go_to(first.slot_id)
        access.focus_moved(self)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        self.update()

    def _span_chosen(self, span: object) -> None:
        self.carrier.again()

    def _tell_focus(self) -> None:
        if self.hasFocus():
            access.focus_moved(self)

    def resizeEvent(self, event: QResizeEvent) -> None:
        self._close_editor()
        super().resizeEvent(event)

    # -- keys ------------------------------------------------------------------------------

    def event(self, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.ShortcutOverride:
            ours = keys.act_for(event, carrying=self.carrier.is_carrying) is not None
            if ours:
                event.accept()
                return True
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            self._show_tooltip(event)
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self.face.days or not keys.press(self, event):
            super().keyPressEvent(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        if not keys.release(self, event):
            super().keyReleaseEvent(event)

    def toggle_gathering(self) -> None:
        """Choose several cards by clicks alone, or one at a time again."""
        self.mouse.gather(not self.mouse.gathers)

    def carry(self, carried: Carried, via: Via) -> None:
        """Take something in hand, from the library too; arrows or the pointer choose its place."""
        if not self.face.days:
            return
        self.setFocus()
        self.carrier.pick_up(carried, via)
        self.carrier.aim_at(self._first_aim(carried))

    def _first_aim(self, carried: Carried) -> Target:
        """Where the hand begins: the carried card's own place, or the end of the day in focus."""
        slot = carried.slots[0] if carried.slots else None
        found = None if slot is None else self.layout_now.card(slot)
        if found is None:
            return geometry.stops(self.layout_now.days[self._day])[-1]
        day, card = found
        return geometry.at_position(day.sessions[card.session], day.number, card.position)

    def pick_up_by_keys(self) -> None:
        """Pick the selection up; arrows choose its place, Enter puts it down, Esc puts it back."""
        self._pick_up(Via.KEYS)

    def pick_up_by_click(self) -> None:
        """Pick the selection up; the next click puts it down, Esc puts it back."""
        self._pick_up(Via.CLICKS)

    def _pick_up(self, via: Via) -> None:
        slots = self.acts.slots
        if slots:
            self.carry(Carried(slots=slots, source=self.bench.source), via)

    def place_exercise(self, key: ExerciseKey) -> None:
        """Put an exercise of the library on the day in focus, after the card in focus if any."""
        if self.acts.place(key) and self.bench.selection:
            self.go_to(self.bench.selection[0])

    def pick_up_exercise(self, key: ExerciseKey) -> None:
        """Take an exercise of the library in hand, aimed at the day in focus."""
        self.carry(Carried(exercise=key, source=self.bench.source), Via.KEYS)

    def show_account(self) -> None:
        """Show how the load of the card in focus came about, or the minutes of the day."""
        if not self.face.days:
            return
        slot = self.cursor_slot or next(iter(self.acts.slots), None)
        found = None if slot is None else self.layout_now.card(slot)
        if slot is None or found is None:
            self.show_day_account(self.cursor_day)
            return
        near = self.card_rect(*found).toRect()
        show_account(self.bench, accounts.of_card(self.bench, slot), near, self)

    def show_day_account(self, day: int) -> None:
        """Show how the sets and minutes at the foot of a day came about."""
        near = self.layout_now.days[day].foot.toRect()
        show_account(self.bench, accounts.of_day(self.bench, day), near, self)

    # -- editing in place ------------------------------------------------------------------

    def edit_card(self, slot_id: SlotId | None = None) -> None:
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
        desk = self.bench.desk
        timed = desk.catalogue[shown[1].slot.exercise].timed
        editor = InlineEditor(
            self,
            text=format_slot(shown[1].slot, timed=timed, unit=desk.client.units),
            name=tr("Prescription of {shown}", shown=shown[1].name),
            commit=self._line_writer(slot_id),
        )
        rect = self.card_rect(*found)
        self._open_editor(editor, rect.adjusted(0, self.pens.height("medium"), 0, 0))

    def _line_writer(self, slot_id: SlotId) -> Callable[[str], CoachError | None]:
        return lambda line: self.acts.write_line(slot_id, line)

    def edit_title(self, session_id: SessionId) -> None:
        """Open the title of a session."""
        for day, box in zip(self.face.days, self.layout_now.days, strict=True):
            for session, placed in zip(day.sessions, box.sessions, strict=True):
                if session.id == session_id:
                    rect = box.head.adjusted(4, self.pens.height("head") + 2, -4, 0)
                    if placed.caption is not None:
                        scroll = self._scrolls.get(box.number, 0.0)
                        rect = geometry.on_screen(box, placed.caption, scroll)
                    self._open_editor(self._title_editor(session_id, session.title), rect)

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
        found = None if self.cursor_slot is None else self.layout_now.card(self.cursor_slot)
        shown = None if self.cursor_slot is None else self.face.card(self.cursor_slot)
        if found is not None and shown is not None:
            note, rect = shown[1].note, self.card_rect(*found)
        else:
            note = self.face.days[self.cursor_day].note
            rect = self.layout_now.days[self.cursor_day].head
        editor = InlineEditor(
            self, text=note, name=tr("Note"), commit=self._keep_note, complete=False
        )
        self._open_editor(editor, rect)

    def _keep_note(self, text: str) -> None:
        if self.cursor_slot is not None:
            self.acts.write_note(self.cursor_slot, text)
        else:
            self.session_acts.write_day_note(self.cursor_day, text)

    def _title_editor(self, session_id: SessionId, title: str) -> InlineEditor:
        def commit(text: str) -> None:
            if text.strip() and text.strip() != title:
                self.session_acts.rename(session_id, text)

        return InlineEditor(self, text=title, name=tr("Title"), commit=commit, complete=False)

    def _open_editor(self, editor: InlineEditor, rect: QRectF) -> None:
        self._close_editor()
        self._editor = editor
        editor.closed.connect(self._editor_closed)
        editor.open_over(rect)

    def _close_editor(self) -> None:
        if self._editor is not None:
            self._editor.close_now()

    def _editor_closed(self) -> None:
        self._editor = None
        self.setFocus()

    # -- mouse -----------------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.mouse.press(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self.mouse.move(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self.mouse.release(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        self.mouse.cancel()
        found = self.hit(event.position())
        if found is None or event.button() != Qt.MouseButton.LeftButton:
            return
        if found.slot_id is not None:
            self.edit_card(found.slot_id)
        elif found.session_id is not None:
            self.edit_title(found.session_id)
        else:
            self.insert_wanted.emit(found.day)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        if self.carrier.is_carrying:
            return
        where = event.globalPos()
        if event.reason() == QContextMenuEvent.Reason.Keyboard and self._slot is not None:
            found = self.layout_now.card(self._slot)
            if found is not None:
                where = self.mapToGlobal(self.card_rect(*found).center().toPoint())
        self.context_wanted.emit(self.acts.slots if self._slot is not None else (), where)

    def _show_tooltip(self, event: QHelpEvent) -> None:
        found = self.hit(QPointF(event.pos()))
        text = self._tip(found) if found is not None else ""
        if not text:
            QToolTip.hideText()
            event.ignore()
            return
        # escaped and wrapped as markup of ours, so that a name is never taken for markup
        first, *rest = (escape(line) for line in text.split("\n"))
        html = "<br>".join((f"<b>{first}</b>", *rest))
        QToolTip.showText(event.globalPos(), f"<p style='white-space:pre-wrap'>{html}</p>", self)

    def _tip(self, found: Hit) -> str:
        if found.slot_id is not None:
            shown = self.face.card(found.slot_id)
            return "" if shown is None else f"{tooltip(shown[1])}\n{tr(accounts.HINT)}"
        if found.zone is Zone.FOOT and self.face.days[found.day].cards:
            return f"{self.face.days[found.day].name}\n{tr(accounts.CLICK)}"
        return day_tooltip(self.face.days[found.day]) if found.zone is Zone.HEAD else ""

    # -- drags -----------------------------------------------------------------------------

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        carried = from_mime(event.mimeData())
        if carried is None or not self.face.days:
            event.ignore()
            return
        self.carrier.pick_up(carried, Via.MOUSE)
        event.acceptProposedAction()

    def dragMoveEvent(self, event: QDragMoveEvent) -> None:
        if not self.carrier.is_carrying:
            event.ignore()
            return
        copy = bool(event.modifiers() & CTRL)
        aim = self.carrier.point_at(event.position(), copy=copy)
        if aim is None or aim.refusal is not None:
            event.ignore()
            return
        event.setDropAction(Qt.DropAction.CopyAction if copy else Qt.DropAction.MoveAction)
        event.accept()

    def dragLeaveEvent(self, event: QDragLeaveEvent) -> None:
        self.carrier.put_back()

    def dropEvent(self, event: QDropEvent) -> None:
        copy = bool(event.modifiers() & CTRL)
        aim = self.carrier.point_at(event.position(), copy=copy)
        if aim is None or aim.refusal is not None:
            self.carrier.put_back()
            event.ignore()
            return
        event.setDropAction(Qt.DropAction.CopyAction if copy else Qt.DropAction.MoveAction)
        event.accept()
        self.carrier.put_down()
        self.setFocus()


def _program_id(work: object) -> ProgramId | None:
    return work.program.id if isinstance(work, Work) and work.program is not None else None
