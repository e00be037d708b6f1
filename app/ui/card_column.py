"""A column of compact cards for dialogs: what a session is, or would become."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QRectF, QSize, Qt
from PySide6.QtGui import QFont, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.domain import effort as efforts
from app.domain.exercise import Catalogue
from app.domain.program import Role, Session, Slot, StrandId
from app.domain.session_time import whole_minutes
from app.domain.wording import tr
from app.ui.theme import current, font
from app.ui.words import DASH, DOT, TIMES, number


@dataclass(frozen=True, slots=True)
class SmallCard:
    """One card: name, sets × reps, effort; new: it was not there; changed parts are marked."""

    name: str
    sets: str
    effort: str
    core: bool
    new: bool = False
    sets_changed: bool = False
    effort_changed: bool = False


def sets_text(slot: Slot, *, timed: bool = False) -> str:
    """'4 × 10', '3 × 8–10' or '2 × 30 s'."""
    low, high = slot.reps.low, slot.reps.high
    reps = str(low) if low == high else f"{low}{DASH}{high}"
    return f"{slot.sets} {TIMES} {reps}{' s' if timed else ''}"


def cards(
    session: Session | None, catalogue: Catalogue, before: Session | None = None
) -> tuple[SmallCard, ...]:
    """The cards of a session; against `before`, what is new or changed is marked."""
    if session is None:
        return ()
    old = {s.strand: s for s in before.slots} if before is not None else None
    return tuple(_card(slot, catalogue, old) for slot in session.slots)


def _card(slot: Slot, catalogue: Catalogue, old: dict[StrandId, Slot] | None) -> SmallCard:
    exercise = catalogue[slot.exercise]
    was = None if old is None else old.get(slot.strand)
    return SmallCard(
        name=exercise.name,
        sets=sets_text(slot, timed=exercise.timed),
        effort=efforts.text(slot.effort, slot.reps.high),
        core=slot.role is Role.CORE,
        new=old is not None and was is None,
        sets_changed=was is not None and was.sets != slot.sets,
        effort_changed=was is not None and was.effort != slot.effort,
    )


class CardColumn(QWidget):
    """Title, cards, and a foot with sets and minutes."""

    def __init__(self, title: str = "") -> None:
        super().__init__()
        self.title = title
        self.cards: tuple[SmallCard, ...] = ()
        self.foot = ""
        self.setMinimumWidth(190)
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.MinimumExpanding)

    def show_cards(self, title: str, cards: tuple[SmallCard, ...], foot: str) -> None:
        """Show these cards."""
        self.title, self.cards, self.foot = title, cards, foot
        words = "; ".join(f"{c.name}, {c.sets}, {c.effort}" for c in cards)
        self.setAccessibleName(title)
        self.setAccessibleDescription(f"{words}. {foot}")
        self.setMinimumHeight(self.sizeHint().height())
        self.updateGeometry()
        self.update()

    def _line(self) -> float:
        return QFontMetricsF(font("body")).height()

    def sizeHint(self) -> QSize:
        tall = self._line() + 10 + len(self.cards) * (2 * self._line() + 12) + self._line() + 10
        return QSize(200, round(tall))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        colours, line = current(), self._line()
        painter.setFont(font("head"))
        painter.setPen(colours.ink)
        left = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        painter.drawText(QRectF(0, 0, self.width(), line + 4), left, self.title)
        y = line + 10
        for card in self.cards:
            self._paint_card(painter, QRectF(1, y, self.width() - 2, 2 * line + 8), card)
            y += 2 * line + 12
        painter.setFont(font("body"))
        painter.setPen(colours.ink2)
        painter.drawText(QRectF(0, y + 2, self.width(), line + 4), left, self.foot)

    def _paint_card(self, painter: QPainter, rect: QRectF, card: SmallCard) -> None:
        colours, line = current(), self._line()
        painter.setPen(QPen(colours.accent if card.new else colours.hair, 1))
        painter.setBrush(colours.wash if card.new else colours.card)
        painter.drawRoundedRect(rect, 3, 3)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        stem = QRectF(rect.left(), rect.top(), 4 if card.core else 1.5, rect.height())
        painter.fillRect(stem, colours.accent if card.new else colours.bar)
        left = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter)
        inner = rect.adjusted(12, 3, -6, -3)
        painter.setFont(font("medium"))
        painter.setPen(colours.ink)
        name = painter.fontMetrics().elidedText(
            card.name, Qt.TextElideMode.ElideRight, int(inner.width())
        )
        painter.drawText(QRectF(inner.left(), inner.top(), inner.width(), line), left, name)
        bold = font("body")
        bold.setWeight(QFont.Weight.DemiBold)
        painter.setFont(bold)
        painter.setPen(colours.accent if card.sets_changed else colours.ink)
        second = QRectF(inner.left(), inner.top() + line, inner.width(), line)
        painter.drawText(second, left, card.sets)
        painter.setFont(bold if card.effort_changed else font("body"))
        painter.setPen(colours.accent if card.effort_changed else colours.ink2)
        painter.drawText(second.adjusted(74, 0, 0, 0), left, card.effort)


def foot_text(sets: int, minutes: float, cap: float | None) -> str:
    """'16 sets · 52 of 60 min'."""
    room = tr(" of {cap}", cap=number(cap, places=0)) if cap else ""
    return tr(
        "{sets} sets {dot} {whole_minutes}{room} min",
        sets=sets,
        dot=DOT,
        whole_minutes=whole_minutes(minutes),
        room=room,
    )
