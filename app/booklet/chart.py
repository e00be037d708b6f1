"""What the charts share: one axis of weeks, hatched columns for light weeks, round marks."""

from __future__ import annotations

from dataclasses import dataclass

from app.booklet.book import Sheet
from app.booklet.cloth import labelled
from app.booklet.fonts import CELL, CELL_BOLD, LABEL
from app.booklet.pen import Box
from app.domain.wording import tr


@dataclass(frozen=True, slots=True)
class Axis:
    """Weeks side by side: where the first begins and how wide all are, mm."""

    left: float
    width: float
    weeks: int

    @property
    def pitch(self) -> float:
        """The room of one week."""
        return self.width / self.weeks

    def start(self, number: int) -> float:
        """Where week `number` (from 0) begins."""
        return self.left + number * self.pitch

    def middle(self, number: int) -> float:
        """The middle of week `number` (from 0)."""
        return self.start(number) + self.pitch / 2


def ticks(most: float) -> tuple[int, ...]:
    """Round marks from 0 to about `most`, four to six of them."""
    for step in (1, 2, 5, 10, 20, 25, 50, 100):
        if most / step <= 5:
            return tuple(range(0, int(most) + 1, step))
    return (0, int(most))


def light_columns(sheet: Sheet, axis: Axis, box: Box) -> None:
    """Hatch the columns of the light weeks."""
    for number, week in enumerate(sheet.book.season.weeks):
        if week.light:
            column = Box(axis.start(number), box.y, axis.pitch, box.height)
            sheet.pen.hatch(column, gap=1.15, weight=0.35, tone=sheet.palette.hair)


def week_axis(sheet: Sheet, axis: Axis, y: float) -> float:
    """The numbers of the weeks under a chart, light ones bold; gives back the lower edge."""
    pen, p, weeks = sheet.pen, sheet.palette, sheet.book.season.weeks
    pen.text(0, y + 4.6, tr("Week"), style=CELL, tone=p.mid)
    every = axis.pitch >= 5.4
    shown = set(range(1, axis.weeks + 1)) if every else set(labelled(axis.weeks))
    for number, week in enumerate(weeks):
        if week.number in shown:
            style = CELL_BOLD if week.light else CELL
            pen.text(axis.middle(number), y + 4.6, str(week.number), style=style, align=0.5)
        if week.light and every:
            pen.text(axis.middle(number), y + 9.0, tr("light"), style=LABEL, tone=p.mid, align=0.5)
    return y + (11.6 if every and sheet.book.season.light else 7.4)
