"""Carrying over the grid, whichever way: pick up, aim by point or by step, put down, put back.

Holds the one thing in hand, judges the other days a moment after it was picked up, and scrolls a
long day while the pointer rests near its edge.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from time import monotonic
from typing import TYPE_CHECKING, Protocol

from PySide6.QtCore import QObject, QPointF, QTimer, Signal

from app.domain.program import SlotId
from app.domain.wording import tr
from app.ui.bench import Bench
from app.ui.carry import Carried, Via
from app.ui.grid import geometry
from app.ui.grid.geometry import DayBox, Layout, Target

if TYPE_CHECKING:
    from app.ui.grid.hand import Aim, Hand

JUDGE_AFTER_MS = 150
WIDEN_AFTER_MS = 40
PIECE_S = 0.002
"""How long one piece of work may keep the window busy."""

SCROLL_EVERY_MS = 30
FASTEST_PX = 14.0


class Ground(Protocol):
    """What a carrier asks of the grid: its layout, its scrolls, and to scroll a day."""

    @property
    def layout_now(self) -> Layout:
        """The layout on screen."""

    @property
    def scrolls(self) -> Mapping[int, float]:
        """How far each day is scrolled, px."""

    def scroll_day(self, day: int, to: float) -> None:
        """Scroll a day's content."""

    def show_in_day(self, box: DayBox, target: Target) -> None:
        """Scroll so that the target's place shows."""


class Carrier(QObject):
    """What is in hand over one grid. changed: repaint what moves. ended(slots): put down there."""

    changed = Signal()
    picked_up = Signal()
    ended = Signal(object)

    def __init__(self, bench: Bench, ground: Ground, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bench = bench
        self._ground = ground
        self.hand: Hand | None = None
        self._point: QPointF | None = None
        self._copy = False
        self._height: float | None = None  # kept while keys go from day to day
        self._judge = QTimer(self, singleShot=True, interval=JUDGE_AFTER_MS)
        self._judge.timeout.connect(self.judge)
        self._widen = QTimer(self, singleShot=True, interval=WIDEN_AFTER_MS)
        self._widen.timeout.connect(self._begin_widening)
        self._piece = QTimer(self, interval=0)
        self._piece.timeout.connect(self._work_on)
        self._work: Iterator[None] | None = None
        self._scroll = QTimer(self, interval=SCROLL_EVERY_MS)
        self._scroll.timeout.connect(self._scroll_on)

    # -- beginning and end -----------------------------------------------------------------

    @property
    def is_carrying(self) -> bool:
        """True while something is in hand."""
        return self.hand is not None

    @property
    def carried_slots(self) -> tuple[SlotId, ...]:
        """The slots in hand by keys or clicks, whose places show as left."""
        if self.hand is None or self.hand.via is Via.MOUSE:
            return ()
        return self.hand.carried.slots

    def pick_up(self, carried: Carried, via: Via) -> Hand:
        """Take it in hand; what was in hand before is put back."""
        from app.ui.grid.hand import Hand

        self.put_back()
        self.hand = Hand(self._bench, carried, via=via)
        self._judge.start()
        self._begin(self._weigh_days(self.hand))
        self.picked_up.emit()
        self.changed.emit()
        return self.hand

    def put_down(self) -> bool:
        """Do what the aim showed; False if that was refused."""
        hand = self.hand
        if hand is None:
            return False
        self._let_go()  # first, so that the edit finds an empty hand
        landed = hand.put_down()
        if landed is not None:
            self.ended.emit(landed)
        return landed is not None

    def put_back(self) -> None:
        """Leave everything as it was."""
        if self.hand is not None:
            hand = self.hand
            self._let_go()
            hand.put_back()
            self._bench.said.emit(tr("{what} put back.", what=hand.name))

    def _let_go(self) -> None:
        for timer in (self._judge, self._widen, self._piece, self._scroll):
            timer.stop()
        self._work = None
        self.hand, self._point, self._height = None, None, None
        self.changed.emit()

    # -- aiming ----------------------------------------------------------------------------

    def point_at(self, point: QPointF, *, copy: bool = False) -> Aim | None:
        """Aim at what lies under the point of the grid; None off the week."""
        if self.hand is None:
            return None
        self._point, self._copy = point, copy
        target = geometry.target_at(
            self._ground.layout_now,
            point,
            self._ground.scrolls,
            onto_allowed=self.hand.may_go_onto,
        )
        if target is None:
            self.look_away()
            return None
        day = self._ground.layout_now.days[target.day]
        if geometry.edge_scroll(day, point.y()):
            self._scroll.start()
        else:
            self._scroll.stop()
        return self.aim_at(target, copy=copy)

    def aim_at(self, target: Target, *, copy: bool = False) -> Aim | None:
        """Aim at a target."""
        if self.hand is None:
            return None
        before = self.hand.aim
        self._copy = copy
        aim = self.hand.point(target, copy=copy)
        if aim is not before:
            self._widen.start()
            self.changed.emit()
        return aim

    def look_away(self) -> None:
        """Aim at nothing, as when the pointer leaves the window."""
        self._scroll.stop()
        if self.hand is not None and self.hand.aim is not None:
            self.hand.look_away()
            self.changed.emit()

    def again(self) -> None:
        """Aim afresh after the week or the span changed under the hand."""
        if self.hand is None:
            return
        from app.ui.grid.hand import Hand

        aim, via = self.hand.aim, self.hand.via
        self.hand.look_away()
        self.hand = Hand(self._bench, self.hand.carried, via=via)
        self._judge.start()
        if self._point is not None:
            self.point_at(self._point, copy=self._copy)
        elif aim is not None:
            day = self._ground.layout_now.days[aim.target.day]
            self.aim_at(geometry.stops(day)[-1], copy=self._copy)

    def judge(self) -> None:
        """Say of every day whether it would fit; they do not follow the pointer."""
        if self.hand is None or not self.hand.is_ours:
            return
        self.hand.judge(tuple(_last_stop(day) for day in self._ground.layout_now.days))
        self.changed.emit()

    # -- work in small pieces --------------------------------------------------------------

    def finish_work(self) -> None:
        """Do at once what is left: the weeks that the aim reaches, as a resting pointer would."""
        self._widen.stop()
        self._begin_widening()
        while self._work is not None:
            self._work_on()

    def _begin(self, work: Iterator[None]) -> None:
        self._work = work
        self._piece.start()

    def _begin_widening(self) -> None:
        if self.hand is not None:
            self._begin(self.hand.widen())

    def _weigh_days(self, hand: Hand) -> Iterator[None]:
        """Try every day, one a step, so that the verdicts are ready when they are due."""
        for day in self._ground.layout_now.days:
            yield
            if hand.is_ours:
                hand.weigh(_last_stop(day))

    def _work_on(self) -> None:
        until = monotonic() + PIECE_S
        aim = None if self.hand is None else self.hand.aim
        while self._work is not None and monotonic() < until:
            try:
                next(self._work)
            except StopIteration:
                self._work = None
        if self._work is None:
            self._piece.stop()
            if self.hand is not None and self.hand.aim is not aim:
                self.changed.emit()

    def _scroll_on(self) -> None:
        layout, point = self._ground.layout_now, self._point
        day = None if point is None else layout.day_at(point.x())
        if day is None or point is None or self.hand is None:
            self._scroll.stop()
            return
        speed = geometry.edge_scroll(day, point.y())
        scroll = self._ground.scrolls.get(day.number, 0.0)
        self._ground.scroll_day(day.number, scroll + speed * FASTEST_PX)
        self.point_at(point, copy=self._copy)

    # -- by keys ---------------------------------------------------------------------------

    def step(self, days: int, places: int) -> None:
        """Move the aim by so many days, or by so many places within the day."""
        hand, layout = self.hand, self._ground.layout_now
        if hand is None or hand.aim is None or not layout.days:
            return
        target = hand.aim.target
        if places:
            self._height = None
        if days:
            number = min(max(target.day + days, 0), len(layout.days) - 1)
            self._aim_and_show(layout.days[number], self._nearest(layout.days[number], target))
            return
        day = layout.days[target.day]
        stops = self._stops(day)
        at = stops.index(target) if target in stops else len(stops) - 1
        self._aim_and_show(day, stops[min(max(at + places, 0), len(stops) - 1)])

    def _nearest(self, day: DayBox, target: Target) -> Target:
        """The stop of another day at the height where the way began."""
        if self._height is None:
            old = self._ground.layout_now.days[target.day]
            self._height = geometry.mark_of(old, target)[2]
        height = self._height
        gaps = [stop for stop in self._stops(day) if stop.onto is None]
        return min(gaps, key=lambda stop: abs(geometry.mark_of(day, stop)[2] - height))

    def _stops(self, day: DayBox) -> tuple[Target, ...]:
        """The places of a day in order; cards stand among them where they may be replaced."""
        assert self.hand is not None
        return stops_with_cards(day, self.hand.may_go_onto)

    def _aim_and_show(self, day: DayBox, target: Target) -> None:
        self._ground.show_in_day(day, target)
        self.aim_at(target, copy=self._copy)

    def set_copy(self, copy: bool) -> None:
        """Copy instead of moving, or no longer."""
        if self.hand is not None and self.hand.aim is not None and copy != self._copy:
            self.aim_at(self.hand.aim.target, copy=copy)


def _last_stop(day: DayBox) -> Target:
    return geometry.stops(day)[-1]


def stops_with_cards(day: DayBox, allowed: Callable[[SlotId], bool]) -> tuple[Target, ...]:
    """Gaps of the day from top to bottom, with every card that `allowed` lets be replaced."""
    result: list[Target] = []
    for stop in geometry.stops(day):
        result.append(stop)
        session = next((s for s in day.sessions if s.id == stop.session), None)
        if session is None or stop.position is None:
            continue
        card = session.cards[stop.position]
        if allowed(card.slot_id):
            result.append(Target(day.number, session.id, onto=card.slot_id))
    return tuple(result)
