"""The week as it lies: columns, heads, rail, cards and feet. What moves is painted elsewhere."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF
from PySide6.QtGui import QPainter, QPen

from app.domain.program import SlotId
from app.domain.session_time import whole_minutes
from app.domain.wording import tr, trn
from app.ui import signs
from app.ui.grid.card import Form, paint_card
from app.ui.grid.face import CardFace, DayFace, SessionFace, WeekFace
from app.ui.grid.geometry import DayBox, Layout, SessionBox, on_screen
from app.ui.grid.pens import Pens
from app.ui.theme import Step


@dataclass(frozen=True, slots=True)
class Scene:
    """All that the picture of a week depends on. scroll: by day, px."""

    face: WeekFace
    layout: Layout
    scroll: Mapping[int, float]
    selection: Collection[SlotId] = ()
    carried: Collection[SlotId] = ()


STRIP = 64
"""A head narrower than this, px, is that of a day folded to a strip."""


def paint_week(painter: QPainter, scene: Scene, pens: Pens) -> None:
    """The whole week at rest."""
    for day, box in zip(scene.face.days, scene.layout.days, strict=True):
        _paint_ground(painter, day, box, pens)
        _paint_content(painter, scene, day, box, pens=pens)
        _paint_head(painter, day, box, pens)
        paint_foot(painter, day, box, pens)
    _paint_edges(painter, scene.layout, pens)


def _paint_ground(painter: QPainter, day: DayFace, box: DayBox, pens: Pens) -> None:
    painter.fillRect(box.column, pens.theme.rest if box.is_rest else pens.theme.sheet)


def _paint_edges(painter: QPainter, layout: Layout, pens: Pens) -> None:
    """A hairline between days, and the rule the whole week hangs from."""
    painter.setPen(QPen(pens.theme.hair, 1))
    for box in layout.days[1:]:
        x = round(box.column.left()) + 0.5
        painter.drawLine(QLineF(x, 0, x, box.column.bottom()))


# -- heads -------------------------------------------------------------------------------------


def second_line(day: DayFace) -> str:
    """What stands under the day's name: the session's title, or the client's time."""
    if len(day.sessions) == 1 and day.sessions[0].title:
        return day.sessions[0].title
    if len(day.sessions) > 1:
        return tr("{sessions} sessions", sessions=len(day.sessions))
    return day.free


def _paint_head(painter: QPainter, day: DayFace, box: DayBox, pens: Pens) -> None:
    theme = pens.theme
    head = box.head
    painter.fillRect(head, theme.rest if box.is_rest else theme.sheet)
    painter.fillRect(QRectF(head.left(), 0, head.width(), 1), theme.rule)
    if day.today:
        painter.fillRect(QRectF(head.left(), 0, head.width(), 3), theme.accent)
    left, room = head.left() + 9, head.width() - 14
    y = pens.baseline(7, "head")
    if head.width() < STRIP:
        _strip_words(painter, day, (head.left() + 5, y), head.width() - 6, pens=pens)
        return
    name = pens.cut(day.name[:3], "head", room)
    ink = theme.accent if day.today else theme.ink
    x = pens.write(painter, QPointF(left, y), name, step="head", colour=ink)
    number_ink = theme.accent if day.today else theme.ink2
    x = pens.write(painter, QPointF(x + 6, y), str(day.on.day), step="body", colour=number_ink)
    x = _head_signs(painter, day, box, (x, y), pens=pens)
    y = pens.baseline(7 + pens.height("head"), "body")
    if box.is_rest:
        _rest_words(painter, day, (left, y), room, pens=pens)
        return
    text = pens.cut(second_line(day), "body", room)
    pens.write(painter, QPointF(left, y), text, step="body", colour=theme.ink2)


def _strip_words(
    painter: QPainter, day: DayFace, at: tuple[float, float], room: float, *, pens: Pens
) -> None:
    """A day folded to a strip: its name over its date; what else there is stands in its tip."""
    ink = pens.theme.accent if day.today else pens.theme.ink
    lines: tuple[tuple[Step, str], ...] = (("head", day.name[:3]), ("body", str(day.on.day)))
    (x, y) = at
    for step, text in lines:
        pens.write(painter, QPointF(x, y), pens.cut(text, step, room), step=step, colour=ink)
        y += pens.height("head")


def _head_signs(
    painter: QPainter, day: DayFace, box: DayBox, end: tuple[float, float], *, pens: Pens
) -> float:
    """Right of the date: 'today', the sign of the day's heaviest finding, the sign of a note."""
    (x, y), right = end, box.head.right() - 8
    if day.mark is not None:
        side = signs.CARD_SIGN
        rect = QRectF(right - side, y - side + 2, side, side)
        signs.paint_weight(
            painter,
            rect,
            weight=day.mark.weight,
            below=day.mark.below,
            accepted=day.mark.accepted,
            theme=pens.theme,
        )
        right -= side + 6
    if day.note or any(session.note for session in day.sessions):
        signs.paint_note(painter, QRectF(right - 11, y - 9, 11, 11), colour=pens.theme.ink2)
        right -= 17
    if day.today and not box.is_rest and right - x > pens.width("today", "small") + 10:
        at = QPointF(x + 8, y)
        x = pens.write(painter, at, tr("today"), step="small", colour=pens.theme.accent)
    return x


def _rest_words(
    painter: QPainter, day: DayFace, at: tuple[float, float], room: float, *, pens: Pens
) -> None:
    """The availability of a day without a session, wrapped, and 'today' below it."""
    x, y = at
    for line in pens.wrapped(day.free, "body", room)[:3]:
        pens.write(painter, QPointF(x, y), line, step="body", colour=pens.theme.ink2)
        y += pens.height("body")
    if day.today:
        pens.write(painter, QPointF(x, y), tr("today"), step="body", colour=pens.theme.accent)


# -- content -----------------------------------------------------------------------------------


def _paint_content(
    painter: QPainter, scene: Scene, day: DayFace, box: DayBox, *, pens: Pens
) -> None:
    scroll = scene.scroll.get(box.number, 0.0)
    painter.save()
    painter.setClipRect(box.body)
    for session, placed in zip(day.sessions, box.sessions, strict=True):
        _paint_rail(painter, session, placed, box, scroll=scroll, pens=pens)
        if placed.caption is not None:
            _paint_caption(painter, session, on_screen(box, placed.caption, scroll), pens=pens)
        for card, where in zip(session.cards, placed.cards, strict=True):
            rect = on_screen(box, where.rect, scroll)
            if rect.bottom() < box.body.top() or rect.top() > box.body.bottom():
                continue
            form = Form(
                compact=scene.layout.sizes.compact,
                narrow=box.narrow,
                selected=card.slot.id in scene.selection,
                carried=card.slot.id in scene.carried,
            )
            paint_card(painter, rect, card, pens=pens, form=form)
    _paint_scroll(painter, box, scroll, pens)
    painter.restore()


def _paint_caption(painter: QPainter, session: SessionFace, rect: QRectF, *, pens: Pens) -> None:
    text = pens.cut(session.title or tr("Session"), "small", rect.width())
    at = QPointF(rect.left(), pens.baseline(rect.top() + 2, "small"))
    pens.write(painter, at, text, step="small", colour=pens.theme.ink2)


def _paint_scroll(painter: QPainter, box: DayBox, scroll: float, pens: Pens) -> None:
    """A thin bar at the right edge: how much of a long day shows."""
    if not box.longest_scroll:
        return
    height = box.body.height()
    share = height / box.content_height
    top = box.body.top() + scroll / box.content_height * height
    bar = QRectF(box.body.right() - 4, top, 3, max(24.0, share * height))
    painter.fillRect(bar, pens.theme.rule)


def _paint_rail(
    painter: QPainter,
    session: SessionFace,
    placed: SessionBox,
    box: DayBox,
    *,
    scroll: float,
    pens: Pens,
) -> None:
    """Left of the cards: the minute at which each begins and at which the session ends."""
    if not placed.cards:
        return
    theme = pens.theme
    shift = box.body.top() - scroll
    x = round(placed.cards[0].rect.left() - 6) + 0.5
    top, end = placed.cards[0].rect.top() - 2, placed.end.top() + placed.end.height() / 2
    painter.setPen(QPen(theme.hair, 1))
    painter.drawLine(QLineF(x, top + shift, x, end + shift + 12))
    half = pens.metrics["small"].capHeight() / 2
    last_pair = ""
    for card, where in zip(session.cards, placed.cards, strict=True):
        y = where.rect.top() + shift + 9
        if not card.slot.pair or card.slot.pair != last_pair:
            _minute(painter, card.start_min, (x, y + half), pens=pens)
        last_pair = card.slot.pair
    _paint_pairs(painter, session, placed, x=x, shift=shift, pens=pens)
    y = end + shift
    _minute(painter, session.ends_min, (x, y + half), pens=pens, strong=True)
    ends = QPointF(x + 8, y + half)
    pens.write(painter, ends, tr("ends"), step="small", colour=theme.ink2)


def _minute(
    painter: QPainter,
    minute: float,
    at: tuple[float, float],
    *,
    pens: Pens,
    strong: bool = False,
) -> None:
    x, y = at
    painter.setPen(QPen(pens.theme.rule, 1))
    middle = round(y - pens.metrics["small"].capHeight() / 2) + 0.5
    painter.drawLine(QLineF(x - 3, middle, x + 3, middle))
    colour = pens.theme.ink if strong else pens.theme.ink2
    text = f"{minute:.0f}"
    pens.write_right(painter, QPointF(x - 6, y), text, step="small", colour=colour)


def _paint_pairs(
    painter: QPainter,
    session: SessionFace,
    placed: SessionBox,
    *,
    x: float,
    shift: float,
    pens: Pens,
) -> None:
    """The brackets that join cards done in turn."""
    for first, last in pair_runs(session.cards):
        top = placed.cards[first].rect.center().y() - 4
        bottom = placed.cards[last].rect.bottom() - 5
        signs.paint_link(
            painter,
            x=x,
            top=top + shift,
            bottom=bottom + shift,
            letter=session.cards[first].slot.pair,
            theme=pens.theme,
            font=pens.fonts["small"],
        )


def pair_runs(cards: tuple[CardFace, ...]) -> tuple[tuple[int, int], ...]:
    """First and last number of every run of neighbours that share a letter."""
    runs, at = [], 0
    while at < len(cards):
        end, letter = at, cards[at].slot.pair
        while letter and end + 1 < len(cards) and cards[end + 1].slot.pair == letter:
            end += 1
        if end > at:
            runs.append((at, end))
        at = end + 1
    return tuple(runs)


# -- feet --------------------------------------------------------------------------------------


def paint_foot(painter: QPainter, day: DayFace, box: DayBox, pens: Pens) -> None:
    """The day's sets and minutes, and below them the minutes as a bar up to the cap's tick."""
    theme, foot = pens.theme, box.foot
    painter.fillRect(foot, theme.rest if box.is_rest else theme.sheet)
    if not day.cards:
        return
    left, right = foot.left() + 9, foot.right() - 9
    painter.fillRect(QRectF(left - 2, foot.top(), right - left + 4, 1), theme.rule)
    y = pens.baseline(foot.top() + 4, "number")
    sets = trn("{n} set", "{n} sets", day.sets)
    cap = tr(" of {cap_min} min", cap_min=day.cap_min) if day.cap_min else tr(" min")
    minutes = whole_minutes(day.minutes)
    over = bool(day.cap_min) and minutes > day.cap_min
    x = pens.write(painter, QPointF(left, y), sets, step="medium", colour=theme.ink)
    if right - x < pens.width(f"{minutes}{cap}", "number") + 6:
        cap = f"/{day.cap_min}" if day.cap_min else ""
    x = pens.write_right(painter, QPointF(right, y), cap, step="body", colour=theme.ink2)
    colour = theme.outside if over else theme.ink
    pens.write_right(painter, QPointF(x, y), str(minutes), step="number", colour=colour)
    _minutes_bar(painter, day, (left, right, foot.bottom() - 12), over=over, pens=pens)


def _minutes_bar(
    painter: QPainter,
    day: DayFace,
    where: tuple[float, float, float],
    *,
    over: bool,
    pens: Pens,
) -> None:
    """Minutes as a bar; a tick at the cap; what lies past it is hollow."""
    left, right, y = where
    theme = pens.theme
    whole = max(day.cap_min, day.minutes, 1) * 1.16
    reach = (right - left) / whole
    end, cap = left + day.minutes * reach, left + day.cap_min * reach
    inside = min(end, cap) if day.cap_min else end
    painter.fillRect(QRectF(left, y - 2, inside - left, 4), theme.bar)
    if not day.cap_min:
        return
    painter.fillRect(QRectF(inside, y - 0.5, max(0.0, cap - inside), 1), theme.rule)
    painter.fillRect(QRectF(cap - 0.75, y - 6, 1.5, 12), theme.ink2)
    if over:
        painter.setPen(QPen(theme.outside, 1.5))
        painter.drawRect(QRectF(cap + 1.5, y - 1.5, max(1.0, end - cap - 2), 3))
