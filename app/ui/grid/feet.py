"""Feet while something is carried: the open one of the day aimed at, verdicts of the others."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter, QPen

from app.domain.checks.say import amount
from app.domain.findings import Finding, Weight
from app.domain.wording import tr
from app.ui import signs
from app.ui.grid.geometry import DayBox, Sizes
from app.ui.grid.hand import Hand
from app.ui.grid.pens import Pens
from app.ui.grid.verdict import Row, Verdict, Word, of_week, short_text

PAD = 9.0
NARROWEST = 110.0
"""Below this room, px, a finding's words stand under its sign and not beside it."""

WIDE_ENOUGH = 190.0
"""From this width on, px, the rows of an open foot stand in columns."""

MOST_TITLES = 2
"""Lines for what would happen."""

MOST_FINDINGS = 2
"""Findings that an open foot shows; the rest are counted."""


# -- the day aimed at --------------------------------------------------------------------------


def paint_open_foot(
    painter: QPainter, box: DayBox, hand: Hand, *, measures: Sizes, pens: Pens
) -> None:
    """The grown foot: place, sets and minutes before and after, findings that come and go."""
    aim = hand.aim
    if aim is None:
        return
    if aim.refusal is not None:
        _paint_refusal(painter, box, aim.refusal.sentence, measures=measures, pens=pens)
        return
    if aim.preview is None:
        return
    index = hand.bench.week
    gained = of_week(aim.preview.gained, aim.preview, index)
    lost = of_week(aim.preview.lost, aim.preview, index)
    rows, room = hand.rows(), box.foot.width() - 2 * PAD
    titles = pens.wrapped(hand.title(), "number", room)
    if len(titles) > MOST_TITLES:
        last = " ".join(titles[MOST_TITLES - 1 :])
        titles = (*titles[: MOST_TITLES - 1], pens.cut(last, "number", room))
    elsewhere = len(aim.preview.gained) - len(gained)
    notes = _notes(gained, lost, elsewhere=elsewhere, room=room, pens=pens)
    plain = [line for row in rows for line in _row_lines(row, room, pens)]
    narrow = room < WIDE_ENOUGH - 2 * PAD
    lines = len(plain) if narrow else len(rows)
    height = (
        len(titles) * pens.height("number")
        + lines * pens.height("body")
        + sum(note.height for note in notes) * pens.height("body")
        + len(notes)
        + 18
    )
    foot = _foot_rect(box, max(measures.foot_open, height))
    _paint_ground(painter, foot, pens)
    y = foot.top() + 6
    for text in titles:
        at = QPointF(foot.left() + PAD, pens.baseline(y, "number"))
        pens.write(painter, at, text, step="number", colour=pens.theme.accent)
        y += pens.height("number")
    y += 2
    if narrow:
        for text in plain:
            at = QPointF(foot.left() + PAD, pens.baseline(y, "body"))
            pens.write(painter, at, text, step="body", colour=pens.theme.ink2)
            y += pens.height("body")
    else:
        y = _paint_rows(painter, foot, rows, y, pens=pens)
    y += 3
    for note in notes:
        y = _paint_note(painter, foot, note, y, pens=pens)


def _foot_rect(box: DayBox, height: float) -> QRectF:
    height = min(height, box.column.height() - box.head.height())
    return QRectF(box.column.left(), box.column.bottom() - height, box.column.width(), height)


def _paint_ground(painter: QPainter, foot: QRectF, pens: Pens) -> None:
    painter.fillRect(foot, pens.theme.wash)
    painter.fillRect(QRectF(foot.left(), foot.top(), foot.width(), 2), pens.theme.accent)


def _row_lines(row: Row, room: float, pens: Pens) -> tuple[str, ...]:
    return pens.wrapped(row.text, "body", room)


def _paint_rows(
    painter: QPainter, foot: QRectF, rows: tuple[Row, ...], y: float, *, pens: Pens
) -> float:
    """Rows in columns: name, before → after, range; returns the y below them."""
    theme = pens.theme
    right = foot.right() - PAD
    ranges = [tr("of {text}", text=row.range_text) if row.cap else row.range_text for row in rows]
    range_width = max((pens.width(text, "small") for text in ranges), default=0.0)
    for row, text in zip(rows, ranges, strict=True):
        baseline = pens.baseline(y, "body")
        pens.write_right(painter, QPointF(right, baseline), text, step="small", colour=theme.ink2)
        at = QPointF(right - range_width - 10, baseline)
        changed = amount(row.before) != amount(row.after)
        x = pens.write_right(
            painter,
            at,
            amount(row.after),
            step="number",
            colour=theme.accent if changed else theme.ink,
        )
        if changed:
            at = QPointF(x, baseline)
            before = f"{amount(row.before)} → "
            x = pens.write_right(painter, at, before, step="body", colour=theme.ink2)
        name = pens.cut(row.name, "body", x - foot.left() - PAD - 6)
        at = QPointF(foot.left() + PAD, baseline)
        pens.write(painter, at, name, step="body", colour=theme.ink2)
        y += pens.height("body")
    return y


@dataclass(frozen=True, slots=True)
class Note:
    """A finding that would appear or go, in lines that fit; without one, a plain remark.

    below: the day is too narrow for words beside the sign; the weight's own word stands there.
    """

    lines: tuple[str, ...]
    finding: Finding | None = None
    goes: bool = False
    below: bool = False

    @property
    def height(self) -> int:
        """Lines that it takes."""
        return len(self.lines) + self.below


def _notes(
    gained: tuple[Finding, ...],
    lost: tuple[Finding, ...],
    *,
    elsewhere: int,
    room: float,
    pens: Pens,
) -> list[Note]:
    """What would appear, then what would go, in few lines."""
    indent = pens.width("+", "medium") + signs.CARD_SIGN + 11
    narrow = room < NARROWEST
    most = 3 if room < WIDE_ENOUGH - 2 * PAD else 2

    def note(finding: Finding, *, goes: bool) -> Note:
        lines = pens.wrapped(short_text(finding), "body", room if narrow else room - indent)
        return Note(lines[:most], finding, goes, below=narrow)

    notes = [note(finding, goes=False) for finding in gained[:MOST_FINDINGS]]
    left_out = len(gained) - MOST_FINDINGS
    if left_out > 0:
        notes.append(Note((tr("+ {left_out} more", left_out=left_out),)))
    notes += [note(finding, goes=True) for finding in lost[:MOST_FINDINGS]]
    if elsewhere > 0:
        notes.append(Note((tr("+ {elsewhere} elsewhere", elsewhere=elsewhere),)))
    return notes


def _paint_note(painter: QPainter, foot: QRectF, note: Note, y: float, *, pens: Pens) -> float:
    """'+' or '−', the sign of the weight, the words, struck through where it would go.

    Returns the y below it.
    """
    theme = pens.theme
    x, baseline = foot.left() + PAD, pens.baseline(y, "body")
    colour = theme.ink2 if note.goes or note.finding is None else theme.ink
    if note.finding is not None:
        mark = "−" if note.goes else "+"
        pens.write(painter, QPointF(x, baseline), mark, step="medium", colour=theme.ink)
        x += pens.width("+", "medium") + 6
        side = signs.CARD_SIGN
        signs.paint_weight(
            painter,
            QRectF(x, baseline - side + 2, side, side),
            weight=note.finding.weight,
            below=note.finding.below,
            theme=theme,
        )
        x += side + 5
        if note.below:
            word = note.finding.weight.word
            if pens.width(word, "body") <= foot.right() - PAD - x:
                pens.write(painter, QPointF(x, baseline), word, step="body", colour=theme.ink2)
            x, baseline = foot.left() + PAD, baseline + pens.height("body")
    for line in note.lines:
        end = pens.write(painter, QPointF(x, baseline), line, step="body", colour=colour)
        if note.goes:
            middle = baseline - pens.metrics["body"].xHeight() / 2
            painter.fillRect(QRectF(x, middle, end - x, 1), theme.ink2)
        baseline += pens.height("body")
    return y + note.height * pens.height("body") + 1


def _paint_refusal(
    painter: QPainter, box: DayBox, sentence: str, *, measures: Sizes, pens: Pens
) -> None:
    """Why it cannot be put here, in the place where totals stand."""
    side = signs.CARD_SIGN
    lines = pens.wrapped(sentence, "body", box.foot.width() - 2 * PAD - side - 6)
    height = max(measures.foot_open, len(lines) * pens.height("body") + 16)
    foot = _foot_rect(box, height)
    _paint_ground(painter, foot, pens)
    y = foot.top() + 8
    sign = QRectF(foot.left() + PAD, y + 1, side, side)
    signs.paint_weight(painter, sign, weight=Weight.CONFLICT, theme=pens.theme)
    for line in lines:
        at = QPointF(foot.left() + PAD + side + 6, pens.baseline(y, "body"))
        pens.write(painter, at, line, step="body", colour=pens.theme.ink)
        y += pens.height("body")


# -- the other days ----------------------------------------------------------------------------


def paint_verdict(painter: QPainter, box: DayBox, verdict: Verdict, pens: Pens) -> None:
    """One day's verdict: its word, and the reason in a line or two."""
    theme, room = pens.theme, box.foot.width() - 2 * PAD
    lines = [part for line in verdict.lines for part in pens.wrapped(line, "body", room)][:4]
    height = max(box.foot.height(), pens.height("number") + len(lines) * pens.height("body") + 14)
    foot = _foot_rect(box, height)
    painter.fillRect(foot, theme.rest if box.is_rest else theme.sheet)
    painter.setPen(QPen(theme.rule, 1))
    top = round(foot.top()) + 0.5
    painter.drawLine(QPointF(foot.left(), top), QPointF(foot.right(), top))
    better = verdict.word is Word.FITS_BETTER
    if better:
        painter.fillRect(QRectF(foot.left(), foot.top(), 4, foot.height()), theme.accent)
    y = foot.top() + 6
    at = QPointF(foot.left() + PAD, pens.baseline(y, "number"))
    word = pens.cut(tr(verdict.word.value), "number", room)
    pens.write(painter, at, word, step="number", colour=theme.accent if better else theme.ink)
    y += pens.height("number")
    for line in lines:
        at = QPointF(foot.left() + PAD, pens.baseline(y, "body"))
        pens.write(painter, at, line, step="body", colour=theme.ink2)
        y += pens.height("body")
