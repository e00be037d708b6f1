"""Where everything of a week stands: days, heads, cards, rail, feet, and what a point means.

Pure: faces and measured widths go in, rectangles come out. Cards are laid out in the content of
their day, which scrolls under a head and above a foot that stay.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from enum import Enum

from PySide6.QtCore import QPointF, QRectF

from app.domain.program import SessionId, SlotId
from app.ui.grid.face import CardFace, DayFace, WeekFace

LOW_WINDOW = 440
"""Below this height, px, the grid takes its compact measures."""

NARROW_CARD = 158
"""Below this width, px, a card always has three lines."""

EDGE = 28
"""Within this distance of the top or bottom of a long day, px, a drag scrolls it."""


@dataclass(frozen=True, slots=True)
class Heights:
    """Heights of a line of text at each step, px, from the fonts in use."""

    small: float
    body: float
    medium: float
    number: float
    head: float


@dataclass(frozen=True, slots=True)
class Sizes:
    """Measures of one layout, px. full_part: how many times as wide a day with a session is."""

    compact: bool
    card: float
    narrow_card: float
    head: float
    foot: float
    foot_open: float
    rail: float
    caption: float
    end: float
    full_part: float
    gap: float = 4
    margin: float = 8
    inset: float = 12

    @property
    def rest_part(self) -> float:
        """The width of a day without a session, in parts."""
        return 1.0


def sizes(heights: Heights, *, compact: bool) -> Sizes:
    """The measures that these fonts ask for; never less than the design's own."""
    two, three = heights.medium + heights.number, heights.medium + heights.number + heights.small
    return Sizes(
        compact=compact,
        card=max(40, round(two + 6)) if compact else max(54, round(three + 6)),
        narrow_card=max(54, round(three + 6)),
        head=max(44 if compact else 50, round(heights.head + heights.body + 12)),
        foot=max(38 if compact else 42, round(heights.number + 22)),
        foot_open=max(104, round(heights.head + 2 * heights.body + 2 * heights.small + 24)),
        rail=23 if compact else 25,
        caption=round(heights.small + 8),
        end=round(heights.small + 6),
        full_part=2.25 if compact else 2.0,
    )


@dataclass(frozen=True, slots=True)
class CardBox:
    """A card's rectangle in the content of its day; position: its number in the session."""

    slot_id: SlotId
    session: int
    position: int
    rect: QRectF


@dataclass(frozen=True, slots=True)
class SessionBox:
    """A session in the content of its day, with a caption where the day has several."""

    id: SessionId
    number: int
    top: float
    bottom: float
    caption: QRectF | None
    cards: tuple[CardBox, ...]
    end: QRectF


@dataclass(frozen=True, slots=True)
class DayBox:
    """One day. body: where its content shows; content_height: how tall that is."""

    number: int
    column: QRectF
    head: QRectF
    body: QRectF
    foot: QRectF
    narrow: bool
    sessions: tuple[SessionBox, ...]
    content_height: float

    @property
    def is_rest(self) -> bool:
        """True for a day without a session."""
        return not self.sessions

    @property
    def cards(self) -> tuple[CardBox, ...]:
        """All cards of the day, in order."""
        return tuple(card for session in self.sessions for card in session.cards)

    @property
    def longest_scroll(self) -> float:
        """How far the content can scroll, px."""
        return max(0.0, self.content_height - self.body.height())


@dataclass(frozen=True, slots=True)
class Layout:
    """A week laid out."""

    sizes: Sizes
    days: tuple[DayBox, ...]

    def day_at(self, x: float) -> DayBox | None:
        """The day whose column holds `x`."""
        return next((d for d in self.days if d.column.left() <= x < d.column.right()), None)

    def card(self, slot_id: SlotId) -> tuple[DayBox, CardBox] | None:
        """The box of that slot's card, with its day."""
        for day in self.days:
            for card in day.cards:
                if card.slot_id == slot_id:
                    return day, card
        return None


NO_LAYOUT = Layout(sizes(Heights(15, 16, 16, 17, 18), compact=False), ())

Need = Callable[[CardFace], float]


# -- laying out --------------------------------------------------------------------------------


def lay_out(
    face: WeekFace, *, width: float, height: float, measures: Sizes, need: Need, fold: bool = False
) -> Layout:
    """The week in `width` x `height` px.

    need: the width that a card's second line asks for; fold: days without a session shrink to a
    strip that only takes drops.
    """
    rest = 0.35 if fold and any(day.sessions for day in face.days) else measures.rest_part
    parts = [measures.full_part if day.sessions else rest for day in face.days]
    days, left, total = [], 0.0, sum(parts)
    done = 0.0
    for day, part in zip(face.days, parts, strict=True):
        done += part
        right = round(width * done / total)
        column = QRectF(left, 0, right - left, height)
        days.append(_day(day, column, measures, need=need))
        left = right
    return Layout(measures, tuple(days))


def _day(day: DayFace, column: QRectF, measures: Sizes, *, need: Need) -> DayBox:
    head = QRectF(column.left(), column.top(), column.width(), measures.head)
    foot = QRectF(column.left(), column.bottom() - measures.foot, column.width(), measures.foot)
    body = QRectF(column.left(), head.bottom(), column.width(), foot.top() - head.bottom())
    left, right = _card_edges(column, measures)
    if day.minutes >= 100:  # a third figure on the rail
        left += 7
    narrow = right - left < NARROW_CARD or any(need(card) > right - left for card in day.cards)
    if narrow:
        left, right = left - 5, column.right() - 5
    tall = measures.narrow_card if narrow else measures.card
    sessions, y = [], 4.0
    for number, session in enumerate(day.sessions):
        caption = None
        top = y
        if len(day.sessions) > 1:
            caption = QRectF(column.left() + 8, y, column.width() - 16, measures.caption)
            y += measures.caption
        cards = []
        for position, card in enumerate(session.cards):
            rect = QRectF(left, y, right - left, tall)
            cards.append(CardBox(card.slot.id, number, position, rect))
            y += tall + measures.gap
        if not cards:
            y += tall + measures.gap
        end = QRectF(column.left(), y, column.width(), measures.end)
        last = session is day.sessions[-1]
        # in a low window the end may be cut off rather than make the day scroll
        y += 0 if last and measures.compact else measures.end + measures.gap
        sessions.append(
            SessionBox(session.id, number, top, y, caption=caption, cards=tuple(cards), end=end)
        )
    return DayBox(day.number, column, head, body, foot, narrow, tuple(sessions), y)


def _card_edges(column: QRectF, measures: Sizes) -> tuple[float, float]:
    return column.left() + measures.margin + measures.rail, column.right() - measures.margin


def on_screen(day: DayBox, rect: QRectF, scroll: float) -> QRectF:
    """A rectangle of the day's content, where it shows in the widget."""
    return rect.translated(0, day.body.top() - scroll)


# -- what a point means ------------------------------------------------------------------------


class Zone(Enum):
    """The part of a day that a point lies in."""

    HEAD = "head"
    CAPTION = "caption"
    CARD = "card"
    GROUND = "ground"
    FOOT = "foot"


@dataclass(frozen=True, slots=True)
class Hit:
    """What lies under a point."""

    day: int
    zone: Zone
    slot_id: SlotId | None = None
    session_id: SessionId | None = None


def hit(layout: Layout, point: QPointF, scroll: Mapping[int, float]) -> Hit | None:
    """What lies under the point; scroll: by day, px. None off the week."""
    day = layout.day_at(point.x())
    if day is None or not day.column.top() <= point.y() < day.column.bottom():
        return None
    if point.y() < day.head.bottom():
        first = day.sessions[0].id if day.sessions else None
        return Hit(day.number, Zone.HEAD, session_id=first)
    if point.y() >= day.foot.top():
        return Hit(day.number, Zone.FOOT)
    inside = QPointF(point.x(), point.y() - day.body.top() + scroll.get(day.number, 0.0))
    for session in day.sessions:
        if session.caption is not None and session.caption.contains(inside):
            return Hit(day.number, Zone.CAPTION, session_id=session.id)
        for card in session.cards:
            if card.rect.contains(inside):
                return Hit(day.number, Zone.CARD, card.slot_id, session.id)
    return Hit(day.number, Zone.GROUND)


@dataclass(frozen=True, slots=True)
class Target:
    """Where something would be put: into a session at a position, or onto a card.

    session None: the day has none, or its only one; position None: at the end.
    """

    day: int
    session: SessionId | None = None
    position: int | None = None
    onto: SlotId | None = None


def target_at(
    layout: Layout,
    point: QPointF,
    scroll: Mapping[int, float],
    *,
    onto_allowed: Callable[[SlotId], bool],
) -> Target | None:
    """Where something let go at the point would be put; None off the week.

    The middle of a card stands for the card itself where `onto_allowed` says so; its outer parts
    and the gaps stand for the place between two cards, ground and foot for the end.
    """
    found = hit(layout, point, scroll)
    if found is None:
        return None
    day = layout.days[found.day]
    if not day.sessions:
        return Target(found.day)
    if found.zone is Zone.HEAD:
        return at_position(day.sessions[0], found.day, 0)
    if found.zone is Zone.FOOT:
        return Target(found.day, day.sessions[-1].id)
    y = point.y() - day.body.top() + scroll.get(day.number, 0.0)
    session = next((s for s in day.sessions if y < s.bottom), day.sessions[-1])
    for card in session.cards:
        depth = (y - card.rect.top()) / card.rect.height()
        if depth < 0.5 or (depth < 0.7 and onto_allowed(card.slot_id)):
            if depth >= 0.3 and onto_allowed(card.slot_id):
                return Target(found.day, session.id, onto=card.slot_id)
            return at_position(session, found.day, card.position)
    return at_position(session, found.day, len(session.cards))


def at_position(session: SessionBox, day: int, position: int) -> Target:
    """The target at that position of the session; the end is always said the same way."""
    return Target(day, session.id, position if position < len(session.cards) else None)


def mark_of(day: DayBox, target: Target) -> tuple[float, float, float]:
    """The insertion mark in the day's content: left and right end, and its y."""
    session = next((s for s in day.sessions if s.id == target.session), None)
    if session is None:
        return day.column.left() + 12, day.column.right() - 8, 40.0
    if not session.cards:
        y = session.end.top() - 4
        return day.column.left() + 12, day.column.right() - 8, y
    last = session.cards[-1]
    left, right = last.rect.left() - 12, last.rect.right() + 2
    if target.position is None or target.position >= len(session.cards):
        return left, right, last.rect.bottom() + 2
    return left, right, session.cards[target.position].rect.top() - 2


def stops(day: DayBox) -> tuple[Target, ...]:
    """Every place of a day that keys can choose, from top to bottom."""
    if not day.sessions:
        return (Target(day.number),)
    return tuple(
        at_position(session, day.number, position)
        for session in day.sessions
        for position in range(len(session.cards) + 1)
    )


def scroll_to(day: DayBox, rect: QRectF, scroll: float) -> float:
    """The scroll nearest to `scroll` that shows the content's `rect`."""
    highest = rect.bottom() + 4 - day.body.height()
    wanted = max(min(scroll, rect.top() - 4), highest)
    return min(max(0.0, wanted), day.longest_scroll)


def edge_scroll(day: DayBox, y: float) -> float:
    """How fast a drag at height `y` scrolls the day: -1 (up) to 1 (down), 0 away from the edges."""
    if not day.longest_scroll:
        return 0.0
    from_top, from_bottom = y - day.body.top(), day.body.bottom() - y
    if 0 <= from_top < EDGE:
        return -(1 - from_top / EDGE)
    if 0 <= from_bottom < EDGE:
        return 1 - from_bottom / EDGE
    return 0.0
