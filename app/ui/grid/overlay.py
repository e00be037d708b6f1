"""What moves over the week at rest: focus, the frame, the mark and the feet of what is carried."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from app.domain.program import SlotId
from app.domain.wording import tr
from app.ui import signs
from app.ui.grid.face import WeekFace
from app.ui.grid.geometry import DayBox, Layout, Target, mark_of, on_screen
from app.ui.grid.pens import Pens

if TYPE_CHECKING:
    from app.ui.grid.hand import Hand


def paint_hand(
    painter: QPainter, hand: Hand, layout: Layout, *, scroll: Mapping[int, float], pens: Pens
) -> None:
    """All that a carried thing shows over the week."""
    from app.ui.grid.feet import paint_open_foot, paint_verdict

    aimed = None if hand.aim is None else hand.aim.target.day
    for verdict in hand.verdicts:
        if verdict.day != aimed and verdict.day < len(layout.days):
            paint_verdict(painter, layout.days[verdict.day], verdict, pens)
    if hand.aim is None or aimed is None or aimed >= len(layout.days):
        return
    box = layout.days[aimed]
    if hand.aim.refusal is None:
        _paint_mark(painter, box, hand.aim.target, scroll.get(aimed, 0.0), pens=pens)
    paint_open_foot(painter, box, hand, measures=layout.sizes, pens=pens)
    painter.setPen(QPen(pens.theme.accent, 2))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(box.column.adjusted(1, 1, -1, -1))


def _paint_mark(
    painter: QPainter, box: DayBox, target: Target, scroll: float, *, pens: Pens
) -> None:
    painter.save()
    painter.setClipRect(box.body.adjusted(0, -3, 0, 0))
    if target.onto is not None:
        card = next((c for c in box.cards if c.slot_id == target.onto), None)
        if card is not None:
            rect = on_screen(box, card.rect, scroll)
            signs.paint_ring(painter, rect, colour=pens.theme.accent)
    else:
        left, right, y = mark_of(box, target)
        shown = y + box.body.top() - scroll
        signs.paint_insertion(painter, left=left, right=right, y=shown, colour=pens.theme.accent)
    painter.restore()


def paint_focus(
    painter: QPainter,
    layout: Layout,
    *,
    day: int,
    slot_id: SlotId | None,
    scroll: Mapping[int, float],
    pens: Pens,
) -> None:
    """The focus ring: round a card, or inside the head of a day without one."""
    if day >= len(layout.days):
        return
    box = layout.days[day]
    card = next((c for c in box.cards if c.slot_id == slot_id), None)
    if card is None:
        rect = box.head.adjusted(5, 5, -5, -4)
        signs.paint_ring(painter, rect, colour=pens.theme.accent)
        return
    painter.save()
    painter.setClipRect(box.body.adjusted(0, -2, 0, 2))
    rect = on_screen(box, card.rect, scroll.get(day, 0.0))
    signs.paint_ring(painter, rect, colour=pens.theme.accent)
    painter.restore()


def paint_empty_day(
    painter: QPainter, box: DayBox, sentence: str, pens: Pens, *, top: float
) -> None:
    """What a day without a card says when the keyboard stands on it."""
    width = box.column.width() - 18
    for line in pens.wrapped(sentence, "small", width):
        at = QPointF(box.column.left() + 9, pens.baseline(top, "small"))
        pens.write(painter, at, line, step="small", colour=pens.theme.ink2)
        top += pens.height("small")


def paint_empty_week(
    painter: QPainter, rect: QRectF, sentences: tuple[str, str], pens: Pens
) -> None:
    """What a week without a card says, in the middle: what is missing, then what to do."""
    theme = pens.theme
    inner = QRectF(0, 0, min(420.0, rect.width() - 40), 0)
    lines = pens.wrapped(sentences[1], "body", inner.width() - 32)
    height = pens.height("head") + len(lines) * pens.height("body") + 36
    inner.setHeight(height)
    inner.moveCenter(rect.center())
    painter.save()
    pen = QPen(theme.rule, 1, Qt.PenStyle.CustomDashLine)
    pen.setDashPattern([4, 3])
    painter.setPen(pen)
    painter.setBrush(theme.sheet)
    painter.drawRect(inner)
    painter.restore()
    y = inner.top() + 14
    at = QPointF(inner.left() + 16, pens.baseline(y, "head"))
    pens.write(painter, at, sentences[0], step="head", colour=theme.ink)
    y += pens.height("head") + 6
    for line in lines:
        at = QPointF(inner.left() + 16, pens.baseline(y, "body"))
        pens.write(painter, at, line, step="body", colour=theme.ink2)
        y += pens.height("body")


def empty_day_sentence(face: WeekFace, day: int) -> str:
    """What the empty day says: what is missing, what to do, what time there is."""
    shown = face.days[day]
    time = tr(" There are {cap_min} minutes.", cap_min=shown.cap_min) if shown.cap_min else ""
    return tr(
        "Nothing on {shown} yet. Drag an exercise here, or press Insert and choose one.{time}",
        shown=shown.name,
        time=time,
    )
