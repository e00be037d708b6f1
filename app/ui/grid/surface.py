"""The picture of the open week: read from the bench, laid out, painted, scrolled, walked over.

One cached picture of the week at rest, and over it what moves. It takes no input itself.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from datetime import date

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPaintEvent, QPixmap, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.domain.program import SessionId, SlotId
from app.domain.wording import tr
from app.ui import theme
from app.ui.bench import Bench
from app.ui.carry import Via
from app.ui.grid import geometry, overlay
from app.ui.grid.card import need
from app.ui.grid.carrier import Carrier
from app.ui.grid.face import NO_WEEK, Source, WeekFace, week_face
from app.ui.grid.geometry import CardBox, DayBox, Hit, Layout, Target
from app.ui.grid.paint import Scene, paint_week
from app.ui.grid.pens import Pens, make_pens


class WeekSurface(QWidget):
    """Seven days as a picture with a keyboard cursor. cursor_moved(): it stands elsewhere."""

    cursor_moved = Signal()

    def __init__(self, bench: Bench, today: Callable[[], date], parent: QWidget | None) -> None:
        super().__init__(parent)
        self.bench = bench
        self._today = today
        self.face: WeekFace = NO_WEEK
        self.layout_now: Layout = geometry.NO_LAYOUT
        self.carrier = Carrier(bench, self, self)
        self._pens: Pens | None = None
        self._picture: QPixmap | None = None
        self._carried: frozenset[SlotId] = frozenset()
        self._scrolls: dict[int, float] = {}
        self._day = 0
        self._slot: SlotId | None = None
        self._session: SessionId | None = None
        self._fold = False
        self._pointed_out = False
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(560, 240)

    # -- what is shown ---------------------------------------------------------------------

    @property
    def pens(self) -> Pens:
        """Fonts and colours as they are now."""
        if self._pens is None:
            self._pens = make_pens()
        return self._pens

    @property
    def scrolls(self) -> Mapping[int, float]:
        """How far each day is scrolled, px."""
        return self._scrolls

    @property
    def cursor_day(self) -> int:
        """The day that the keyboard stands on, 0 for Monday."""
        return self._day

    @property
    def cursor_slot(self) -> SlotId | None:
        """The card that the keyboard stands on, if any."""
        return self._slot

    @property
    def cursor_session(self) -> SessionId | None:
        """The session of that card; without one the session clicked on, else the day's first."""
        sessions = self.face.days[self._day].sessions if self.face.days else ()
        for session in sessions:
            if any(card.slot.id == self._slot for card in session.cards):
                return session.id
        ids = [session.id for session in sessions]
        return self._session if self._session in ids else next(iter(ids), None)

    def refresh(self) -> None:
        """Read the open week again and lay it out."""
        desk = self.bench.desk
        if desk.has_program:
            source = Source(desk.catalogue, desk.client, desk.load, self._today())
            self.face = week_face(desk.program, self.bench.week, source, desk.findings)
        else:
            self.face = NO_WEEK
        if self._slot is not None and self.face.card(self._slot) is None:
            self._slot = None
        self._lay_out()

    def _lay_out(self) -> None:
        pens = self.pens
        measures = geometry.sizes(pens.heights(), compact=self.height() < geometry.LOW_WINDOW)
        self.layout_now = geometry.lay_out(
            self.face,
            width=self.width(),
            height=self.height(),
            measures=measures,
            need=lambda card: need(card, pens),
            fold=self._fold,
        )
        self._scrolls = {
            day.number: min(self._scrolls.get(day.number, 0.0), day.longest_scroll)
            for day in self.layout_now.days
        }
        self.forget_picture()

    def hide_rest_days(self, hide: bool) -> None:
        """Shrink days without a session to strips, or show them again."""
        if hide != self._fold:
            self._fold = hide
            self._lay_out()

    def card_rect(self, day: DayBox, card: CardBox) -> QRectF:
        """Where a card shows in the grid, px; may lie under a head or foot."""
        return geometry.on_screen(day, card.rect, self._scrolls.get(day.number, 0.0))

    def forget_picture(self) -> None:
        """Paint the week afresh next time."""
        self._picture = None
        self.update()

    def carried_changed(self) -> None:
        """Paint the week afresh only if other cards show as carried than in the picture."""
        if frozenset(self.carrier.carried_slots) != self._carried:
            self._picture = None
        self.update()

    # -- painting --------------------------------------------------------------------------

    def sizeHint(self) -> QSize:
        return QSize(1066, 500)

    def paintEvent(self, event: QPaintEvent) -> None:
        if self.pens.theme is not theme.current():
            self._pens, self._picture = None, None
        painter = QPainter(self)
        painter.drawPixmap(0, 0, self._picture_now())
        if not self.face.days:
            return
        self._paint_empty(painter)
        hand = self.carrier.hand
        if hand is not None:
            overlay.paint_hand(painter, hand, self.layout_now, scroll=self._scrolls, pens=self.pens)
        shown = self.hasFocus() or self._pointed_out
        if shown and (hand is None or hand.via is not Via.MOUSE):
            overlay.paint_focus(
                painter,
                self.layout_now,
                day=self._day,
                slot_id=self._slot,
                scroll=self._scrolls,
                pens=self.pens,
            )

    def _picture_now(self) -> QPixmap:
        ratio = self.devicePixelRatioF()
        size = (self.size().toSizeF() * ratio).toSize()
        if self._picture is None or self._picture.size() != size:
            picture = QPixmap(size)
            picture.setDevicePixelRatio(ratio)
            picture.fill(self.pens.theme.sheet)
            painter = QPainter(picture)
            self._carried = frozenset(self.carrier.carried_slots)
            scene = Scene(
                self.face,
                self.layout_now,
                self._scrolls,
                selection=frozenset(self.bench.selection),
                carried=self._carried,
            )
            paint_week(painter, scene, self.pens)
            painter.end()
            self._picture = picture
        return self._picture

    def _paint_empty(self, painter: QPainter) -> None:
        if self.carrier.is_carrying:
            return
        if not any(day.cards for day in self.face.days):
            words = (
                tr("Nothing in week {index} yet", index=self.face.index + 1),
                tr(
                    "Drag an exercise onto a day, or press Insert and choose "
                    "one. Each day's head says how much time there is."
                ),
            )
            overlay.paint_empty_week(painter, QRectF(self.rect()), words, self.pens)
        elif self.hasFocus() and not self.face.days[self._day].cards:
            box = self.layout_now.days[self._day]
            sentence = overlay.empty_day_sentence(self.face, self._day)
            top = box.head.bottom() + 24
            overlay.paint_empty_day(painter, box, sentence, self.pens, top=top)

    def resizeEvent(self, event: QResizeEvent) -> None:
        self._lay_out()

    def changeEvent(self, event: QEvent) -> None:
        if event.type() in (
            QEvent.Type.PaletteChange,
            QEvent.Type.FontChange,
            QEvent.Type.ApplicationFontChange,
            QEvent.Type.StyleChange,
        ):
            self._pens = None
            self._lay_out()
        super().changeEvent(event)

    # -- scrolling -------------------------------------------------------------------------

    def scroll_back(self) -> None:
        """Show every day from its top."""
        self._scrolls = {}

    def scroll_day(self, day: int, to: float) -> None:
        """Scroll a day's content, within what there is."""
        if day >= len(self.layout_now.days):
            return
        to = min(max(0.0, to), self.layout_now.days[day].longest_scroll)
        if to != self._scrolls.get(day, 0.0):
            self._scrolls[day] = to
            self.forget_picture()

    def show_in_day(self, box: DayBox, target: Target) -> None:
        """Scroll a day so that the target's place shows."""
        y = geometry.mark_of(box, target)[2]
        rect = QRectF(box.column.left(), y - 20, 10, 40)
        now = self._scrolls.get(box.number, 0.0)
        self.scroll_day(box.number, geometry.scroll_to(box, rect, now))

    def wheelEvent(self, event: QWheelEvent) -> None:
        day = self.layout_now.day_at(event.position().x())
        if day is None or not day.longest_scroll:
            event.ignore()
            return
        step = event.pixelDelta().y() or event.angleDelta().y() / 2
        self.scroll_day(day.number, self._scrolls.get(day.number, 0.0) - step)
        event.accept()

    # -- the cursor ------------------------------------------------------------------------

    def go_to(self, slot_id: SlotId) -> None:
        """Put the keyboard on that card and scroll to it."""
        found = self.layout_now.card(slot_id)
        if found is None:
            return
        day, card = found
        self._day, self._slot = day.number, slot_id
        now = self._scrolls.get(day.number, 0.0)
        self.scroll_day(day.number, geometry.scroll_to(day, card.rect, now))
        self._cursor_changed()

    def go_to_day(self, day: int, session: SessionId | None = None) -> None:
        """Put the keyboard on a day, on no card; session: which of the day's is meant."""
        self._day, self._slot, self._session = min(max(day, 0), 6), None, session
        self._cursor_changed()

    def point_out(self, day: int) -> None:
        """Put the keyboard on a day, and show it there though another pane has the focus."""
        self.go_to_day(day)
        self._pointed_out = True

    def _cursor_changed(self) -> None:
        self._pointed_out = False
        self.update()
        self.cursor_moved.emit()

    def walk(self, days: int, cards: int, *, extend: bool = False) -> None:
        """Move the keyboard to a neighbouring day or card."""
        if not self.layout_now.days:
            return
        if days:
            self._walk_days(days)
        else:
            self._walk_cards(cards)
        if self._slot is not None:
            before = self.bench.selection if extend else ()
            self.bench.select(tuple(dict.fromkeys((*before, self._slot))))
        elif not extend:
            self.bench.select(())

    def _walk_days(self, days: int) -> None:
        old = self.layout_now.card(self._slot) if self._slot is not None else None
        box = self.layout_now.days[min(max(self._day + days, 0), 6)]
        if not box.cards:
            self.go_to_day(box.number)
            return
        height = old[1].rect.center().y() if old else 0.0
        nearest = min(box.cards, key=lambda card: abs(card.rect.center().y() - height))
        self.go_to(nearest.slot_id)

    def _walk_cards(self, cards: int) -> None:
        ids = [card.slot_id for card in self.layout_now.days[self._day].cards]
        if not ids:
            return
        if self._slot not in ids:
            self.go_to(ids[0] if cards > 0 else ids[-1])
            return
        at = ids.index(self._slot) + cards
        self.go_to(ids[min(max(at, 0), len(ids) - 1)])

    def select_day(self) -> None:
        """Select every card of the day that the keyboard stands on."""
        if self.layout_now.days:
            self.bench.select(tuple(c.slot_id for c in self.layout_now.days[self._day].cards))

    def show_day_account(self, day: int) -> None:
        """Tell how a day's sets and minutes came about; told by the widget over this picture."""

    def hit(self, point: QPointF) -> Hit | None:
        """What lies under a point of the grid."""
        return geometry.hit(self.layout_now, point, self._scrolls)
