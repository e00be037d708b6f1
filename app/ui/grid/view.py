"""The widget of the week grid: it joins Qt's events to the picture, the acts and the carrier.

Every gesture has a twin: what a drag does, keys and single clicks do through the same carrier.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from html import escape

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt, Signal
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

from app.domain.exercise import ExerciseKey
from app.domain.program import ProgramId, SlotId
from app.domain.wording import tr
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.carry import Carried, Via, from_mime
from app.ui.grid import access, geometry, keys
from app.ui.grid.editing import EditedWeek
from app.ui.grid.face import day_tooltip, tooltip
from app.ui.grid.geometry import Hit, Target, Zone
from app.ui.grid.mouse import CTRL, Mouse
from app.ui.words import HOW_BY_CLICK, HOW_BY_KEY


class WeekGrid(EditedWeek):
    """Seven days of the open week.

    context_wanted(slot_ids, global_pos): a menu is asked for; empty ids for a day.
    """

    context_wanted = Signal(object, QPoint)

    def __init__(
        self,
        bench: Bench,
        parent: QWidget | None = None,
        *,
        today: Callable[[], date] = date.today,
    ) -> None:
        super().__init__(bench, today, parent)
        self.mouse = Mouse(self, lambda: self.acts.slots)
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
        ours = self.face.days and (keys.press(self, event) or self._type_over(event))
        if not ours:
            super().keyPressEvent(event)

    def _type_over(self, event: QKeyEvent) -> bool:
        """A figure typed on a card begins its line anew; False for anything else."""
        plain = not event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        figure = plain and event.text().isdecimal()
        if not figure or self.cursor_slot is None or self.carrier.is_carrying:
            return False
        self.edit_card(self.cursor_slot, typed=event.text())
        return True

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

    def pick_up_session(self) -> None:
        """Pick the session in focus up, whole; arrows choose its day, Enter puts it down."""
        face = self.session_in_focus()
        if face is None or not face.cards:
            self.session_or_refusal()
            return
        slots = tuple(card.slot.id for card in face.cards)
        self.bench.select(slots)
        self.go_to(slots[0])
        self.carry(Carried(slots=slots, source=self.bench.source, whole=True), Via.KEYS)

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
        from app.ui import accounts
        from app.ui.working_popup import show_account

        near = self.card_rect(*found).toRect()
        show_account(self.bench, accounts.of_card(self.bench, slot), near, self)

    def show_day_account(self, day: int) -> None:
        """Show how the sets and minutes at the foot of a day came about."""
        from app.ui import accounts
        from app.ui.working_popup import show_account

        near = self.layout_now.days[day].foot.toRect()
        show_account(self.bench, accounts.of_day(self.bench, day), near, self)

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
            return "" if shown is None else f"{tooltip(shown[1])}\n{tr(HOW_BY_KEY)}"
        if found.zone is Zone.FOOT and self.face.days[found.day].cards:
            return f"{self.face.days[found.day].name}\n{tr(HOW_BY_CLICK)}"
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
