"""Energy and protein week by week, with how the numbers came about; or who gives them instead."""

from __future__ import annotations

from collections.abc import Iterator

from app.booklet.book import NOTE_LINE_MM, Book, Cite, Draw, Page, Sheet, Topic
from app.booklet.chart import Axis, light_columns
from app.booklet.cloth import labelled
from app.booklet.fonts import BODY, BODY_BOLD, CELL, CELL_BOLD, LABEL, SMALL_HEAD
from app.booklet.pen import Box
from app.booklet.signs import caution_box, caution_height
from app.booklet.words import day_text, thousands
from app.domain.energy import EnergyPlan, EnergyWeek, Referral
from app.domain.units import number_text
from app.domain.wording import mark, tr
from app.domain.working import UNSOURCED

TITLE = mark("Energy and protein, week by week")
CAUTION = mark("A starting point, not a measurement")
CAUTIONS = (
    mark(
        "An equation can miss one person by 10 % or more. Judge by the trend of "
        "your body mass over two or three weeks, not by one morning."
    ),
    mark(
        "Talk to your doctor or a dietitian first if you are pregnant, have "
        "diabetes, kidney or heart disease, take regular medicine, or have had "
        "trouble with eating."
    ),
)
CHART_MM = 37.0
_LEFT = 24.0
_ROW_MM = 9.2
MASS_CELL_MM = (20.0, 8.7)
"""Width and height of a box for body mass."""


def pages(book: Book) -> Iterator[Page]:
    """One page, or more where the weeks need them; none without targets."""
    energy = book.energy
    if energy is None:
        return
    if isinstance(energy, Referral):
        yield Page("energy", _referral_drawing(energy), title=tr("Energy and protein"))
        return
    parts = _split(book, energy)
    for number, part in enumerate(parts):
        yield Page(
            f"energy-{number}" if number else "energy",
            _drawing(energy, part, first=not number, last=number == len(parts) - 1),
            title="" if number else tr("Energy and protein"),
            cites=() if number else cites_of(energy),
        )


def _split(book: Book, energy: EnergyPlan) -> list[tuple[EnergyWeek, ...]]:
    """The weeks of each page; the account and the cautions stand on the last one."""
    account = _account_mm(book, energy)
    parts: list[tuple[EnergyWeek, ...]] = []
    rest = energy.weeks
    room = book.frame.last - 34.0 - 14.0 - CHART_MM - 16.0 - 12.0
    while True:
        if (len(rest) + 1) // 2 * _ROW_MM + account <= room:
            return [*parts, rest]
        fits = 2 * max(int(room // _ROW_MM), 1)
        parts.append(rest[:fits])
        rest = rest[fits:]
        room = book.frame.last - 34.0 - 12.0


def cites_of(energy: EnergyPlan) -> tuple[Cite, ...]:
    """What the targets lean on."""
    keys = dict.fromkeys(key for key in energy.sources if key not in UNSOURCED)
    return tuple(Cite(key, Topic.ENERGY, tr("energy and protein")) for key in keys)


def working_text(energy: EnergyPlan) -> str:
    """How the numbers came about, in one paragraph."""
    steps = [
        f"{line.label}: {line.value}" + (f" ({line.remark})" if line.remark else "")
        for line in energy.lines
    ]
    text = ". ".join((*steps, *(remark.rstrip(".") for remark in energy.remarks)))
    return f"{text}."


def _working_lines(book: Book, energy: EnergyPlan) -> tuple[str, ...]:
    return book.wrap(working_text(energy), CELL, book.frame.width)


def _account_mm(book: Book, energy: EnergyPlan) -> float:
    """The room of the account with the cautions below it, mm."""
    working = 12.0 + len(_working_lines(book, energy)) * CELL.lead_mm
    return working + caution_height(book, tuple(map(tr, CAUTIONS))) + 4.0


def _drawing(energy: EnergyPlan, weeks: tuple[EnergyWeek, ...], *, first: bool, last: bool) -> Draw:
    def draw(sheet: Sheet) -> None:
        book = sheet.book
        sheet.title(tr(TITLE), tr("for each day"))
        y = 32.0
        if first:
            y = sheet.pen.paragraph(0, y, intro(energy), width=sheet.width, style=BODY) + 3.0
            y = draw_chart(sheet, energy, y)
        if weeks:
            y = _table(sheet, energy, weeks, y + 7.0)
        if last:
            y = _account(sheet, energy, y) + 12.0
            if not first and y + 30.0 < book.frame.last:
                y = sheet.section(y, tr("What you notice"), tr("hunger, strength, sleep"))
                sheet.note_lines(y + NOTE_LINE_MM, book.frame.last)
        sheet.foot()

    return draw


def _account(sheet: Sheet, energy: EnergyPlan, y: float) -> float:
    """How the numbers came about, and the cautions; gives back the lower edge."""
    pen, p = sheet.pen, sheet.palette
    pen.text(0, y + 7.0, tr("How the numbers came about"), style=SMALL_HEAD)
    cite = sheet.cite(*energy.sources)
    pen.text(sheet.width, y + 7.0, cite, style=CELL, tone=p.mid, align=1)
    y = pen.lines(0, y + 12.0, _working_lines(sheet.book, energy), style=CELL, tone=p.mid)
    return caution_box(sheet, y, tr(CAUTION), tuple(map(tr, CAUTIONS)))


def intro(energy: EnergyPlan) -> str:
    """What happens to the targets, in two or three sentences read off the plan."""
    start, end = energy.weeks[0], energy.weeks[-1]
    if start.kcal == end.kcal:
        text = tr("The target is {kcal} kcal a day in every week.", kcal=thousands(end.kcal))
    else:
        text = _ramp_text(energy, thousands(start.kcal), thousands(end.kcal))
    first_g, last_g = start.macros.protein_g, end.macros.protein_g
    if round(first_g) == round(last_g):
        protein = tr("Protein: {last_g:.0f} g a day.", last_g=last_g)
    else:
        protein = tr(
            "Protein goes from {first_g:.0f} to {last_g:.0f} g a day.",
            first_g=first_g,
            last_g=last_g,
        )
    light = tr("Light weeks keep the same targets: that is when you recover.")
    return f"{text} {protein} {light}"


def _ramp_text(energy: EnergyPlan, start: str, end: str) -> str:
    """How the energy goes from the first week's to the last's."""
    at = energy.reached_in
    up = energy.weeks[-1].kcal > energy.weeks[0].kcal
    if at and up:
        return tr(
            "From {start} kcal a day the target goes up step by step to {end}, reached in week "
            "{week}.",
            start=start,
            end=end,
            week=at,
        )
    if at:
        return tr(
            "From {start} kcal a day the target goes down step by step to {end}, reached in week "
            "{week}.",
            start=start,
            end=end,
            week=at,
        )
    if up:
        return tr(
            "From {start} kcal a day the target goes up step by step to {end}.",
            start=start,
            end=end,
        )
    return tr(
        "From {start} kcal a day the target goes down step by step to {end}.", start=start, end=end
    )


def scale_of(energy: EnergyPlan) -> tuple[int, int, int]:
    """Lowest mark, highest mark and step of the energy axis, kcal."""
    values = [week.kcal for week in energy.weeks] + [energy.need_kcal]
    low, high = min(values), max(values)
    step = next((s for s in (50, 100, 200, 500) if (high - low) / s <= 4), 1000)
    return int(low // step) * step, -int(-high // step) * step or step, step


def draw_chart(sheet: Sheet, energy: EnergyPlan, y: float) -> float:
    """The targets as a staircase, with the need as a dashed line; gives back the lower edge."""
    pen, p = sheet.pen, sheet.palette
    low, high, step = scale_of(energy)
    high = high if high > low else low + step
    box = Box(_LEFT, y + 2.0, sheet.width - _LEFT - 15.0, CHART_MM - 6.0)
    axis = Axis(box.x, box.width, len(energy.weeks))
    scale = box.height / (high - low)
    if len(energy.weeks) == len(sheet.book.season.weeks):
        light_columns(sheet, axis, box)
    head = tr("Energy")
    pen.text(
        0, y + 3.6, head, style=SMALL_HEAD if pen.width(head, SMALL_HEAD) < 12.5 else CELL_BOLD
    )
    unit = sheet.book.wrap(tr("kcal a day"), LABEL, 13.0)
    pen.lines(0, y + 8.2, unit, style=LABEL, tone=p.mid)
    for at_kcal in range(low, high + 1, step):
        at = box.bottom - (at_kcal - low) * scale
        pen.rule(box.x, at, box.right, weight=0.35 if at_kcal > low else 0.8, tone=p.hair)
        pen.text(box.x - 1.6, at + 1.2, thousands(at_kcal), style=LABEL, tone=p.mid, align=1)
    need = box.bottom - (energy.need_kcal - low) * scale
    pen.rule(box.x, need, box.right, weight=0.8, dash=(1.2, 0.8))
    said = tr("need without a surplus, {need_kcal}", need_kcal=thousands(energy.need_kcal))
    wide = pen.width(said, LABEL)
    pen.box(Box(box.right - wide - 0.6, need + 1.0, wide + 0.6, 4.0), fill=p.paper)
    pen.text(box.right, need + 4.0, said, style=LABEL, align=1)
    before = None
    for number, week in enumerate(energy.weeks):
        at = box.bottom - (week.kcal - low) * scale
        if before is not None and before != at:
            x = axis.start(number)
            pen.rule(x, before, x, to_y=at, weight=2.0, tone=p.accent)
        pen.rule(axis.start(number), at, axis.start(number + 1), weight=2.0, tone=p.accent)
        before = at
    end = box.bottom - (energy.weeks[-1].kcal - low) * scale
    last = thousands(energy.weeks[-1].kcal)
    pen.text(box.right + 1.6, end + 1.3, last, style=CELL_BOLD, tone=p.accent)
    pen.text(0, box.bottom + 4.4, tr("Week"), style=CELL, tone=p.mid)
    for number in labelled(len(energy.weeks)):
        x = axis.middle(number - 1)
        pen.text(x, box.bottom + 4.4, str(number), style=CELL, align=0.5)
    text = tr("The scale starts at {low}, so that small steps can be seen.", low=thousands(low))
    if sheet.book.season.light and len(energy.weeks) == len(sheet.book.season.weeks):
        text = f"{text} {tr('Hatched: light weeks.')}"
    end = pen.paragraph(0, box.bottom + 9.2, text, width=sheet.width, style=LABEL, tone=p.mid)
    return end - LABEL.lead_mm + 0.8


def _table(sheet: Sheet, energy: EnergyPlan, weeks: tuple[EnergyWeek, ...], y: float) -> float:
    """The weeks in two columns with a box each for body mass; gives back the lower edge."""
    pen, p = sheet.pen, sheet.palette
    half = (len(weeks) + 1) // 2
    pitch = sheet.width / 2 + 4.5
    wide = sheet.width / 2 - 4.5
    units = sheet.book.issue.client.units
    for column, part in enumerate((weeks[:half], weeks[half:])):
        x = column * pitch
        if not part:
            continue
        heads = (
            (8.8, tr("week"), 1.0),
            (max(12.4, pen.width(tr("week"), LABEL) + 1.6), tr("from"), 0.0),
            (42.0, "kcal", 1.0),
            (60.0, tr("protein g"), 1.0),
        )
        for at, text, align in heads:
            # a long word begins at the left edge rather than before it
            left = x + max(at, pen.width(text, LABEL) if align else 0.0)
            pen.text(left, y, text, style=LABEL, tone=p.mid, align=align)
        pen.text(
            x + wide, y, tr("body mass, {units}", units=units), style=LABEL, tone=p.mid, align=1
        )
        pen.rule(x, y + 1.8, x + wide, weight=0.9)
        for number, week in enumerate(part):
            _row(sheet, energy, week, Box(x, y + 1.8 + number * _ROW_MM, wide, _ROW_MM))
    bottom = y + 1.8 + half * _ROW_MM
    pen.text(
        0, bottom + 4.4, tr("In bold: a change from the week before."), style=LABEL, tone=p.mid
    )
    return bottom + 4.4


def _row(sheet: Sheet, energy: EnergyPlan, week: EnergyWeek, box: Box) -> None:
    pen, p, program = sheet.pen, sheet.palette, sheet.book.issue.program
    base = box.y + 5.9
    number = week.number - 1
    before = energy.weeks[number - 1] if number else None
    if number < len(program.weeks) and program.weeks[number].light:
        pen.hatch(Box(box.x, box.y + 0.4, 2.3, box.height - 0.8), gap=0.75, weight=0.5)
    pen.text(box.x + 8.8, base, str(week.number), style=BODY_BOLD, align=1)
    start = day_text(program.week_start(number))
    pen.text(box.x + 12.4, base, start, style=CELL, tone=p.mid)
    new = before is None or before.kcal != week.kcal
    pen.text(box.x + 42.0, base, thousands(week.kcal), style=BODY_BOLD if new else BODY, align=1)
    protein = number_text(week.macros.protein_g, 0)
    new = before is None or number_text(before.macros.protein_g, 0) != protein
    pen.text(box.x + 60.0, base, protein, style=BODY_BOLD if new else BODY, align=1)
    wide, tall = MASS_CELL_MM
    pen.box(Box(box.right - wide, box.y + 0.2, wide, tall), stroke=p.cell)
    pen.rule(box.x, box.bottom, box.right - wide - 1, tone=p.hair)


def _referral_drawing(energy: Referral) -> Draw:
    def draw(sheet: Sheet) -> None:
        sheet.title(tr("Energy and protein"))
        text = (energy.text,)
        y = caution_box(sheet, 30.0, tr("Ask your doctor or a dietitian"), text)
        y = sheet.section(y + 12.0, tr("What they advise"))
        sheet.note_lines(y + 9.0, sheet.book.frame.last)
        sheet.foot()

    return draw
