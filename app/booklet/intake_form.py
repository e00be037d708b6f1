"""The intake form: one page to be filled in by hand, or on a screen and sent back.

Every question of `app.domain.intake` stands on it once, its fields named as there. On a screen
the boxes are fields; on paper they are boxes.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from app.booklet.content import Paper
from app.booklet.fields import Fields
from app.booklet.flow import FOOT_MM, MARGIN_MM, Ground, Heading, open_canvas
from app.booklet.fonts import (
    CELL,
    LABEL,
    SMALL_HEAD,
    TITLE,
    open_faces,
    refuse_missing,
)
from app.booklet.pen import Box, Pen
from app.domain.intake_questions import (
    AGREED,
    CONSENT,
    DAYS,
    FORM,
    HEALTH,
    PERSON,
    TRAINING,
    Question,
)
from app.domain.wording import mark, tr
from app.domain.work import Coach

_BOX_MM, _TICK_MM, _ROW_MM = 7.0, 4.2, 8.6
_HEAD_MM = 14.0
_COLUMNS = 4
"""Of choices side by side."""
_PLACE_MM = 8.6
"""The box for a place in an order, with the gap behind it."""
_PAINS_MM = (9.0, 20.0)
"""The least and the most room for pains and injuries."""
SOURCE = mark(
    "Questions on health: our words, after Riebe 2015 (from memory). Local rules go first."
)
_DAY_WORDS = (
    mark("Mon"),
    mark("Tue"),
    mark("Wed"),
    mark("Thu"),
    mark("Fri"),
    mark("Sat"),
    mark("Sun"),
)


@dataclass(frozen=True, slots=True)
class IntakeForm:
    """Whose form it is and how it is printed. filled: with fields for a screen."""

    coach: Coach
    paper: Paper = Paper.A4
    grey: bool = False
    filled: bool = True


def make_intake_form(form: IntakeForm, fonts: Path) -> bytes:
    """The form as a PDF of one page; the same form gives the same bytes.

    Raises BookletError for letters that the fonts do not have.
    """
    ground = Ground(open_faces(fonts), form.paper, form.grey)
    end, _ = _printed(form, ground, fonts, pains_mm=_PAINS_MM[0])
    # what the page has left goes to the answer that needs most room
    room = ground.height_mm - FOOT_MM + 2.0 - end
    least, most = _PAINS_MM
    return _printed(form, ground, fonts, pains_mm=min(most, max(least, least + room)))[1]


def _printed(
    form: IntakeForm, ground: Ground, fonts: Path, *, pains_mm: float
) -> tuple[float, bytes]:
    """Where the page ends, mm from its upper edge, and the page as a PDF."""
    heading = Heading(tr("Before we start"), author=form.coach.name)
    canvas, out = open_canvas(ground, heading)
    fields = Fields(canvas, ground.faces, fonts) if form.filled else None
    pen = Pen(canvas, ground.faces, ground.palette, ground.height_mm)
    pen.begin(MARGIN_MM)
    page = _Page(ground, pen, fields)
    page.head(form.coach)
    page.person()
    page.health(pains_mm)
    page.training()
    page.agreed()
    page.foot()
    pen.end()
    if fields is not None:
        fields.hidden("form", FORM)
        fields.finish()
    canvas.showPage()
    refuse_missing(pen.missing)
    canvas.save()
    return page.y, out.getvalue()


class _Page:
    """Draws the page from the top down; `y` is where the next part begins, mm."""

    def __init__(self, ground: Ground, pen: Pen, fields: Fields | None) -> None:
        self.ground, self.pen, self.fields = ground, pen, fields
        self.p, self.width = ground.palette, ground.width
        self.y = 0.0

    # -- small parts ---------------------------------------------------------------------------

    def _box(self, x: float, y: float, wide: float, name: str, tip: str, *, most: int = 0) -> None:
        """A box for text with its upper left corner at a place."""
        box = Box(x, y, wide, _BOX_MM)
        self.pen.box(box, stroke=self.p.cell, weight=0.5)
        if self.fields is not None:
            self.fields.text(self.pen, box, name, tip=tip, most=most or 80)

    def _tick(self, x: float, y: float, name: str, tip: str) -> None:
        """A box to tick."""
        box = Box(x, y, _TICK_MM, _TICK_MM)
        self.pen.box(box, stroke=self.p.cell, weight=0.6)
        if self.fields is not None:
            self.fields.tick(self.pen, box, name, tip=tip)

    def _ticks(self, question: Question, x: float, y: float, *, each_mm: float) -> None:
        """The choices of a question side by side; `y` is the baseline of their words."""
        for key, words in question.choices:
            self._tick(x, y - 3.4, f"{question.key}.{key}", f"{tr(question.text)}: {tr(words)}")
            self.pen.text(x + _TICK_MM + 1.4, y, tr(words), style=CELL)
            x += each_mm

    def _label(self, x: float, y: float, text: str, *, small: bool = False) -> None:
        self.pen.text(x, y, text, style=LABEL if small else CELL, tone=self.p.mid)

    def _part(self, text: str) -> None:
        self.pen.text(0, self.y + 4.6, text, style=SMALL_HEAD)
        self.pen.rule(0, self.y + 6.4, self.width, weight=0.7)
        self.y += 8.6

    def _date(self, question: Question, x: float, y: float) -> float:
        """Three boxes with what belongs in them written below; gives back the right edge."""
        for field, words, wide, most in zip(
            question.fields,
            (tr("day"), tr("month"), tr("year")),
            (10.0, 10.0, 16.0),
            (2, 2, 4),
            strict=True,
        ):
            self._box(x, y, wide, field, f"{tr(question.text)}, {words}", most=most)
            self.pen.text(
                x + wide / 2, y + _BOX_MM + 3.2, words, style=LABEL, tone=self.p.mid, align=0.5
            )
            x += wide + 1.6
        return x - 1.6

    def _number(self, question: Question, x: float, y: float, *, wide: float = 18.0) -> float:
        """A box for a number and its units to tick; gives back the right edge."""
        self._box(x, y, wide, f"{question.key}.value", tr(question.text), most=6)
        x += wide + 2.4
        for unit, words in question.choices:
            self._tick(x, y + 1.4, f"{question.key}.{unit}", f"{tr(question.text)}, {words}")
            self.pen.text(x + _TICK_MM + 1.2, y + 4.8, words, style=CELL)
            x += self._unit_mm(words)
        return x

    def _unit_mm(self, words: str) -> float:
        """What a unit to tick takes, with the gap behind it."""
        return _TICK_MM + 1.2 + self.pen.width(words, CELL) + 2.4

    # -- parts of the form ---------------------------------------------------------------------

    def head(self, coach: Coach) -> None:
        """Title, whom it goes to, and what it is for."""
        pen = self.pen
        pen.text(0, _HEAD_MM, tr("Before we start"), style=TITLE)
        who = coach.name if not coach.contact else f"{coach.name}, {coach.contact}"
        who = pen.fitting(who, CELL, self.width / 2)
        pen.text(self.width, _HEAD_MM, who, style=CELL, tone=self.p.mid, align=1)
        pen.rule(0, _HEAD_MM + 3.2, self.width, weight=1.4)
        text = tr(
            "Leave out what you do not want to say. Your answers help to plan your training; they "
            "are no medical examination. With symptoms or a known illness, see a doctor first."
        )
        self.y = pen.paragraph(0, _HEAD_MM + 7.6, text, width=self.width, style=LABEL) - 1.6

    def person(self) -> None:
        """Name, contact, birth date, sex, height and mass."""
        name, contact, born, sex, height, mass = PERSON
        half = self.width / 2
        self._part(tr("You"))
        y = self.y
        for question, x in ((name, 0.0), (contact, half + 2.0)):
            text = tr(question.text)
            wide = self.pen.width(text, CELL) + 2.4
            self._label(x, y + 4.8, text)
            self._box(x + wide, y, half - 2.0 - wide, question.key, text)
        y += _ROW_MM + 1.0
        self._label(0, y + 4.8, tr(born.text))
        x = self._date(born, self.pen.width(tr(born.text), CELL) + 2.4, y)
        # the boxes share what dates, words and units leave
        taken = sum(
            2.0
            + self.pen.width(tr(question.text), CELL)
            + 2.4
            + sum(self._unit_mm(words) for _, words in question.choices)
            for question in (height, mass)
        )
        gap = 4.0
        wide = min(18.0, (self.width - x - taken - 2 * gap + 2.4) / 2)
        for question in (height, mass):
            text = tr(question.text)
            x += gap
            self._label(x, y + 4.8, text)
            x = self._number(question, x + self.pen.width(text, CELL) + 2.0, y, wide=wide)
        y += _ROW_MM + 4.2
        self._label(0, y + 3.4, tr(sex.text))
        x = self.pen.width(tr(sex.text), CELL) + 5.0
        self._ticks(sex, x, y + 3.4, each_mm=min(36.0, (self.width - x) / len(sex.choices)))
        self.y = y + 6.0

    def health(self, pains_mm: float) -> None:
        """The questions on health with yes and no, and room for pains."""
        *asked, pains = HEALTH
        self._part(tr("Your health"))
        room = self.width - 30.0
        for question in asked:
            lines = self.pen.faces.wrap(tr(question.text), CELL, room)
            self.pen.lines(0, self.y + 3.4, lines, style=CELL)
            self._ticks(question, room + 3.0, self.y + 3.4, each_mm=13.5)
            self.y += max(1, len(lines)) * CELL.lead_mm + 1.6
        self._label(0, self.y + 3.6, tr(pains.text))
        box = Box(0, self.y + 5.2, self.width, pains_mm)
        self.pen.box(box, stroke=self.p.cell, weight=0.5)
        if self.fields is not None:
            self.fields.text(self.pen, box, pains.key, tip=tr(pains.text))
        self.y += pains_mm + 6.6

    def training(self) -> None:
        """What for, what matters, when and with what."""
        years, goal, muscles, minutes, equipment, likes, dislikes = TRAINING
        self._part(tr("Your training"))
        y = self.y
        text = tr(years.text)
        self._label(0, y + 4.8, text)
        right = self._number(years, self.pen.width(text, CELL) + 2.4, y, wide=12.0) + 6.0
        self._label(right, y + 4.8, tr(goal.text))
        right += self.pen.width(tr(goal.text), CELL) + 3.0
        self._ticks(goal, right, y + 4.8, each_mm=(self.width - right) / len(goal.choices))
        y += _ROW_MM + 1.4
        self._label(0, y + 3.0, tr(muscles.text))
        y = self._grid(muscles, y + 4.6, indent=_PLACE_MM, cell=self._place_cell, row_mm=6.4)
        self._label(0, y + 4.0, tr(minutes.text))
        y = self._week(minutes, y + 5.6)
        self._label(0, y + 4.0, tr(equipment.text))
        indent = _TICK_MM + 1.4
        y = self._grid(equipment, y + 5.6, indent=indent, cell=self._tick_cell, row_mm=5.2)
        half = self.width / 2 - 2.0
        for question, x in ((likes, 0.0), (dislikes, half + 4.0)):
            self._label(x, y + 4.0, tr(question.text))
            self._box(x, y + 5.4, half, question.key, tr(question.text))
        self.y = y + 5.4 + _BOX_MM + 1.6

    def _grid(
        self,
        question: Question,
        y: float,
        *,
        indent: float,
        cell: Callable[[Question, str, str, float, float], None],
        row_mm: float,
    ) -> float:
        """The choices in columns, read downward; gives back the lower edge.

        indent: what stands before the words of each. Columns are alike where all words fit, else
        as wide as their words.
        """
        rows = -(-len(question.choices) // _COLUMNS)
        needed = [0.0] * _COLUMNS
        for number, (_, words) in enumerate(question.choices):
            wide = indent + self.pen.width(tr(words), CELL) + 2.0
            needed[number // rows] = max(needed[number // rows], wide)
        if max(needed) <= self.width / _COLUMNS:
            needed = [0.0] * _COLUMNS
        spare = (self.width - sum(needed)) / _COLUMNS
        for number, (key, words) in enumerate(question.choices):
            column, row = divmod(number, rows)
            cell(question, key, words, sum(needed[:column]) + column * spare, y + row * row_mm)
        return y + rows * row_mm

    def _tick_cell(self, question: Question, key: str, words: str, x: float, y: float) -> None:
        self._tick(x, y, f"{question.key}.{key}", f"{tr(question.text)}: {tr(words)}")
        self.pen.text(x + _TICK_MM + 1.4, y + 3.4, tr(words), style=CELL)

    def _place_cell(self, question: Question, key: str, words: str, x: float, y: float) -> None:
        box = Box(x, y, 7.0, 5.4)
        self.pen.box(box, stroke=self.p.cell, weight=0.5)
        name, tip = f"{question.key}.{key}", f"{tr(question.text)}: {tr(words)}"
        if self.fields is not None:
            self.fields.text(self.pen, box, name, tip=tip, most=2)
        self.pen.text(x + _PLACE_MM, y + 4.0, tr(words), style=CELL)

    def _week(self, question: Question, y: float) -> float:
        """A box for each weekday."""
        pitch = self.width / 7
        for number, (day, words) in enumerate(zip(DAYS, _DAY_WORDS, strict=True)):
            x = number * pitch
            self.pen.text(x, y + 4.8, tr(words), style=CELL)
            self._box(x + 9.6, y, pitch - 12.0, f"{question.key}.{day}", tr(words), most=4)
        return y + _ROW_MM

    def agreed(self) -> None:
        """What is kept, with a tick, a date and a place to sign."""
        tick, on = AGREED
        self._part(tr("Agreed"))
        lines = self.pen.faces.wrap(tr(CONSENT), CELL, self.width - 8.0)
        self._tick(0, self.y, f"{tick.key}.{tick.choices[0][0]}", tr(CONSENT))
        self.pen.lines(7.0, self.y + 3.4, lines, style=CELL)
        y = self.y + len(lines) * CELL.lead_mm + 2.0
        self._label(0, y + 4.8, tr(on.text))
        self._date(on, max(12.0, self.pen.width(tr(on.text), CELL) + 2.0), y)
        self._label(62.0, y + 4.8, tr("Signature"))
        x = max(80.0, 62.0 + self.pen.width(tr("Signature"), CELL) + 2.0)
        self.pen.rule(x, y + 6.6, self.width, weight=0.5, tone=self.p.cell)
        self.y = y + _BOX_MM + 3.6

    def foot(self) -> None:
        """What the questions on health follow."""
        y = self.ground.height_mm - FOOT_MM
        lines = self.pen.faces.wrap(tr(SOURCE), LABEL, self.width)
        above = (len(lines) - 1) * LABEL.lead_mm
        self.pen.lines(0, y + 6.0 - above, lines, style=LABEL, tone=self.p.mid)
