"""One card: three lines, two when compact, its stem, marks and states; and its ghost in a drag."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap

from app.domain.program import Field
from app.domain.wording import tr
from app.ui import signs
from app.ui.grid.face import CardFace, tempo_text
from app.ui.grid.pens import Pens, sharp
from app.ui.theme import Step

INSET = 12.0
NARROW_INSET = 8.0
CORE_STEM, STEM = 4.0, 1.0
HATCH = 7.0
EFFORT_AT = 66.0
GHOST_WIDTH = 176.0


@dataclass(frozen=True, slots=True)
class Form:
    """How much of a card is shown, and in what state."""

    compact: bool = False
    narrow: bool = False
    selected: bool = False
    carried: bool = False


def _inner(rect: QRectF, card: CardFace, *, narrow: bool = False) -> tuple[float, float]:
    """Left and right edge of the text."""
    shift = HATCH if card.light else 0.0
    return rect.left() + (NARROW_INSET if narrow else INSET) + shift, rect.right() - INSET / 2


def effort_at(card: CardFace, pens: Pens) -> float:
    """How far right of the text's edge the effort begins: one column down the day."""
    return max(EFFORT_AT - INSET, pens.width(card.scheme, "number") + 10)


def need(card: CardFace, pens: Pens) -> float:
    """The width of card that the second line asks for, px."""
    load = pens.width(card.load, "number" if card.unit else "small")
    unit = pens.width(card.unit, "small") + 3 if card.unit else 0.0
    pin = 14.0 if Field.LOAD in card.pinned else 0.0
    text = effort_at(card, pens) + pens.width(card.effort, "body")
    gap = 8.0 if card.load else 0.0
    return INSET * 1.5 + (HATCH if card.light else 0.0) + text + gap + pin + load + unit


def paint_card(painter: QPainter, rect: QRectF, card: CardFace, *, pens: Pens, form: Form) -> None:
    """The card in its rectangle, and nothing outside it, however wide the system's font is."""
    painter.save()
    painter.setClipRect(rect, Qt.ClipOperation.IntersectClip)
    if form.carried:
        _paint_gap(painter, rect, card, pens=pens)
    else:
        _paint_text(painter, rect, card, pens=pens, form=form)
    painter.restore()


def _paint_text(painter: QPainter, rect: QRectF, card: CardFace, *, pens: Pens, form: Form) -> None:
    _paint_ground(painter, rect, card, pens=pens, selected=form.selected)
    left, right = _inner(rect, card, narrow=form.narrow)
    small, number = pens.height("small"), pens.height("number")
    lines = [pens.height("medium"), number] + ([] if form.compact and not form.narrow else [small])
    top = rect.top() + (rect.height() - sum(lines)) / 2
    two_lines = form.compact and not form.narrow
    first = pens.baseline(top, "medium")
    _first_line(painter, card, (left, right), first, pens=pens, with_note=two_lines)
    second = pens.baseline(top + lines[0], "number")
    third = pens.baseline(top + lines[0] + number, "small")
    if form.narrow:
        _narrow_lines(painter, card, (left, right), (second, third), pens=pens)
        return
    _second_line(painter, card, (left, right), second, pens=pens)
    if not two_lines:
        _third_line(painter, card, (left, right), third, pens=pens)


def _paint_ground(
    painter: QPainter, rect: QRectF, card: CardFace, *, pens: Pens, selected: bool
) -> None:
    theme = pens.theme
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(theme.accent if selected else theme.hair, 1))
    painter.setBrush(theme.wash if selected else theme.card)
    painter.drawRoundedRect(sharp(rect), 3, 3)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    stem = CORE_STEM if card.core else STEM
    painter.fillRect(
        QRectF(rect.left(), rect.top(), stem, rect.height()),
        theme.accent if selected else theme.bar,
    )
    painter.restore()
    if card.light:
        strip = QRectF(rect.left() + stem, rect.top() + 1, HATCH, rect.height() - 2)
        signs.paint_hatch(painter, strip, colour=theme.rule)


def _first_line(
    painter: QPainter,
    card: CardFace,
    edges: tuple[float, float],
    y: float,
    *,
    pens: Pens,
    with_note: bool,
) -> None:
    left, right = edges
    if card.mark is not None:
        side = signs.CARD_SIGN
        signs.paint_weight(
            painter,
            QRectF(right - side, y - side + 2, side, side),
            weight=card.mark.weight,
            below=card.mark.below,
            accepted=card.mark.accepted,
            theme=pens.theme,
        )
        right -= side + 6
    if with_note and card.note:
        right = _note(painter, right, y, pens=pens)
    name = pens.cut(card.name, "medium", right - left)
    pens.write(painter, QPointF(left, y), name, step="medium", colour=pens.theme.ink)


def _second_line(
    painter: QPainter, card: CardFace, edges: tuple[float, float], y: float, *, pens: Pens
) -> None:
    left, right = edges
    _scheme(painter, card, QPointF(left, y), pens=pens)
    load_left = _load(painter, card, QPointF(right, y), pens=pens)
    start = left + effort_at(card, pens)
    effort = pens.cut(card.effort, "body", load_left - start - 6)
    end = pens.write(painter, QPointF(start, y), effort, step="body", colour=pens.theme.ink2)
    _underline(painter, (start, end), y, Field.EFFORT in card.pinned, pens=pens)


def _narrow_lines(
    painter: QPainter,
    card: CardFace,
    edges: tuple[float, float],
    baselines: tuple[float, float],
    *,
    pens: Pens,
) -> None:
    """Sets × reps and, right, effort; rest without its word and, right, load.

    An effort too long for its place is written short, or takes the place of the rest.
    """
    (left, right), (second, third) = edges, baselines
    end = _scheme(painter, card, QPointF(left, second), pens=pens)
    load_left = _load(painter, card, QPointF(right, third), pens=pens, pin=False)
    beside = _fitting(card.effort, right - end - 6, pens)
    if beside is not None:
        text, step = beside
        at = QPointF(right - pens.width(text, step), second)
        _field(painter, at, text, step=step, pinned=Field.EFFORT in card.pinned, pens=pens)
        at = QPointF(left, third)
        _field(painter, at, card.rest, step="small", pinned=Field.REST in card.pinned, pens=pens)
        return
    room = load_left - left - 4
    text, step = _fitting(card.effort, room, pens) or (
        pens.cut(card.effort, "small", room),
        "small",
    )
    at = QPointF(left, third)
    _field(painter, at, text, step=step, pinned=Field.EFFORT in card.pinned, pens=pens)


def _fitting(effort: str, room: float, pens: Pens) -> tuple[str, Step] | None:
    """The effort in the first form that fits: whole, small, without the repetitions it is of."""
    short = re.sub(r" of \d*RM$", " RM", effort)
    shortest = re.sub(r" % (1?RM)$", r"%\1", short)
    forms: tuple[tuple[str, Step], ...] = (
        (effort, "body"),
        (effort, "small"),
        (short, "small"),
        (shortest, "small"),
    )
    return next((form for form in forms if pens.width(*form) <= room), None)


def _field(
    painter: QPainter, at: QPointF, text: str, *, step: Step, pinned: bool, pens: Pens
) -> None:
    """A lesser field, underlined where it was set by hand."""
    end = pens.write(painter, at, text, step=step, colour=pens.theme.ink2)
    _underline(painter, (at.x(), end), at.y(), pinned, pens=pens)


def _scheme(painter: QPainter, card: CardFace, at: QPointF, *, pens: Pens) -> float:
    end = pens.write(painter, at, card.scheme, step="number", colour=pens.theme.ink)
    pinned = bool(card.pinned & {Field.SETS, Field.REPS})
    _underline(painter, (at.x(), end), at.y(), pinned, pens=pens)
    return end


def _load(painter: QPainter, card: CardFace, at: QPointF, *, pens: Pens, pin: bool = True) -> float:
    """The load, ending at the point; returns where it begins."""
    theme, right = pens.theme, at.x()
    if not card.load:
        return right
    if card.unit:
        right = pens.write_right(painter, at, card.unit, step="small", colour=theme.ink2) - 3
    step: Step = "number" if card.unit else "small"
    colour = theme.ink if card.unit else theme.ink2
    left = pens.write_right(painter, QPointF(right, at.y()), card.load, step=step, colour=colour)
    pinned = Field.LOAD in card.pinned
    _underline(painter, (left, right), at.y(), pinned, pens=pens)
    if pinned and pin:
        signs.paint_pin(painter, QRectF(left - 15, at.y() - 11, 11, 11), colour=theme.accent)
        left -= 15
    return left


def _underline(
    painter: QPainter, ends: tuple[float, float], y: float, pinned: bool, *, pens: Pens
) -> None:
    """The line under a field that was set by hand."""
    if not pinned:
        return
    painter.fillRect(QRectF(ends[0], y + 2, ends[1] - ends[0], 1.5), pens.theme.accent)


def _third_line(
    painter: QPainter, card: CardFace, edges: tuple[float, float], y: float, *, pens: Pens
) -> None:
    left, right = edges
    if card.note:
        right = _note(painter, right, y, pens=pens)
    rest = tr("rest {rest}", rest=card.rest)
    more = "".join(f" · {detail}" for detail in card.details)
    text = pens.cut(rest + more, "small", right - left)
    end = left + pens.width(rest, "small")
    pens.write(painter, QPointF(left, y), text, step="small", colour=pens.theme.ink2)
    _underline(painter, (left, end), y, Field.REST in card.pinned, pens=pens)
    at = text.find(tempo_text(card.slot))
    if Field.TEMPO in card.pinned and at >= 0:
        start = left + pens.width(text[:at], "small")
        _underline(painter, (start, left + pens.width(text, "small")), y, True, pens=pens)


def _note(painter: QPainter, right: float, y: float, *, pens: Pens) -> float:
    """The sign of a note, ending at `right`; returns where text before it must end."""
    side = 11.0
    signs.paint_note(
        painter, QRectF(right - side, y - side + 2, side, side), colour=pens.theme.ink2
    )
    return right - side - 6


def _paint_gap(painter: QPainter, rect: QRectF, card: CardFace, *, pens: Pens) -> None:
    """The place of a carried card: a dashed outline, 'carried from here'."""
    theme = pens.theme
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    pen = QPen(theme.accent, 1.5, Qt.PenStyle.CustomDashLine)
    pen.setDashPattern([5, 3])
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    painter.setPen(pen)
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRoundedRect(rect.adjusted(0.75, 0.75, -0.75, -0.75), 3, 3)
    painter.restore()
    left, room = rect.left() + INSET, rect.width() - 1.5 * INSET
    y = pens.baseline(rect.top() + 4, "medium")
    pens.write(
        painter,
        QPointF(left, y),
        pens.cut(card.name, "medium", room),
        step="medium",
        colour=theme.ink3,
    )
    words = pens.cut(tr("carried from here"), "body", room)
    at = QPointF(left, y + pens.height("medium"))
    pens.write(painter, at, words, step="body", colour=theme.accent)


# -- the ghost ---------------------------------------------------------------------------------

SHADOW = 4


def ghost(card: CardFace, pens: Pens, *, ratio: float = 1.0, more: int = 0) -> QPixmap:
    """The compact card on an opaque wash, with the one shadow there is.

    ratio: device pixels a px; more: how many other cards are carried along.
    """
    height = max(40.0, round(pens.height("medium") + pens.height("number") + 6))
    width = max(GHOST_WIDTH, round(need(card, pens)))
    pixmap = QPixmap(round((width + SHADOW) * ratio), round((height + SHADOW) * ratio))
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    shade = QColor(0, 0, 0, 60)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(shade)
    painter.drawRoundedRect(QRectF(SHADOW, SHADOW, width, height), 4, 4)
    rect = QRectF(0, 0, width, height)
    if more:
        room = width - 1.5 * INSET - _count_width(more, pens)
        card = replace(card, name=pens.cut(card.name, "medium", room), mark=None)
    paint_card(painter, rect, card, pens=pens, form=Form(compact=True, selected=True))
    if more:
        _paint_count(painter, rect, more, pens=pens)
    painter.end()
    return pixmap


def _count_text(more: int) -> str:
    return tr("and {more} more", more=more)


def _count_width(more: int, pens: Pens) -> float:
    return pens.width(_count_text(more), "small") + 10


def _paint_count(painter: QPainter, rect: QRectF, more: int, *, pens: Pens) -> None:
    """'and 2 more' on the first line, right."""
    text, width = _count_text(more), _count_width(more, pens)
    box = QRectF(rect.right() - width - 1, rect.top() + 2, width, pens.height("small") + 2)
    painter.fillRect(box, pens.theme.wash)
    at = QPointF(box.right() - 5, pens.baseline(box.top() + 1, "small"))
    pens.write_right(painter, at, text, step="small", colour=pens.theme.accent)
