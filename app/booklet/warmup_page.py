"""The warm-up: three steps, the drills with their pictures, and the ramp sets of the first week."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.booklet.book import Book, Draw, Page, Sheet, cut_short
from app.booklet.fonts import BODY, BODY_BOLD, CELL, CELL_BOLD, LABEL
from app.booklet.pen import Box
from app.booklet.pictures import draw_picture, pose_of
from app.booklet.warmup_text import drill_dose_text, easy_s, ramp_text, ramps_of
from app.domain.exercise import Exercise, ExerciseKey
from app.domain.program import day_name
from app.domain.wording import listing, mark, tr

STEPS = (
    mark("{easy} of easy movement, until you are warm and breathe a little deeper."),
    mark("The drills of the session, slowly and without load that tires you."),
    mark(
        "Ramp sets: with the exercise itself, from light to near the working "
        "load. None of them is hard. Rest about a minute between them."
    ),
)

_MINUTES = (
    mark("Two minutes"),
    mark("Three minutes"),
    mark("Four minutes"),
    mark("Five minutes"),
    mark("Six minutes"),
    mark("Seven minutes"),
    mark("Eight minutes"),
    mark("Nine minutes"),
    mark("Ten minutes"),
)


@dataclass(frozen=True, slots=True)
class Drill:
    """A drill with the days it is for and its instructions in lines.

    dose: how much of it; empty where the sessions do not agree, since their own lines say it.
    """

    exercise: Exercise
    days: str
    dose: str
    lines: tuple[str, ...]
    drawn: bool
    text: str

    @property
    def height(self) -> float:
        """Its room, mm."""
        text = 10.2 + len(self.lines) * CELL.lead_mm
        return max(text, 21.0 if self.drawn else 0.0)


def pages(book: Book) -> Iterator[Page]:
    """One page, or more where the drills need them."""
    drills = drills_of(book)
    ramps, easy = first_ramps(book), easy_text(book)
    sheets: list[list[Drill]] = [[]]
    room = book.frame.last - 72.0
    for drill in drills:
        if drill.height > room:
            sheets.append([])
            room = book.frame.last - 40.0
        sheets[-1].append(drill)
        room -= drill.height
    needs = 16.0 + 7.2 * len(ramps)
    if ramps and needs > room:
        sheets.append([])
    for number, part in enumerate(sheets):
        last = number == len(sheets) - 1
        yield Page(
            f"warmup-{number}" if number else "warmup",
            _drawing(tuple(part), ramps if last else (), easy="" if number else easy),
            title="" if number else tr("Warm-up"),
        )


def drills_of(book: Book) -> list[Drill]:
    """Every drill of the printed weeks once, with the days it is for."""
    days: dict[ExerciseKey, dict[int, None]] = {}
    doses: dict[ExerciseKey, set[str]] = {}
    for index in book.week_range:
        for number, session in book.issue.program.weeks[index].sessions():
            for drill in session.warmup:
                days.setdefault(drill.exercise, {})[number] = None
                said = drill_dose_text(drill, book.exercise(drill.exercise))
                doses.setdefault(drill.exercise, set()).add(said)
    drills = []
    for key, numbers in days.items():
        exercise = book.exercise(key)
        drawn = pose_of(book, exercise) is not None
        width = book.frame.width - (22.0 if drawn else 0.0)
        text = " ".join((*exercise.set_up, *exercise.cues))
        said = listing(tuple(day_name(number) for number in sorted(numbers)))
        dose = doses[key].pop() if len(doses[key]) == 1 else ""
        drills.append(Drill(exercise, said, dose, book.wrap(text, CELL, width), drawn, text))
    return drills


def easy_text(book: Book) -> str:
    """'Three minutes', if every printed session begins with as much; else 'A few minutes'."""
    weeks = (book.issue.program.weeks[index] for index in book.week_range)
    several = {easy_s(book, session) for week in weeks for _, session in week.sessions()}
    if len(several) == 1:
        minutes, seconds = divmod(several.pop(), 60)
        if not seconds and 2 <= minutes < 2 + len(_MINUTES):
            return tr(_MINUTES[minutes - 2])
    return tr("A few minutes")


def first_ramps(book: Book) -> tuple[tuple[str, str, str], ...]:
    """Day, exercise and ramp sets of the first printed week that has any."""
    for index in book.week_range:
        rows: list[tuple[str, str, str]] = []
        for number, session in book.issue.program.weeks[index].sessions():
            rows += [
                (day_name(number), exercise.name, ramp_text(book, ramp))
                for exercise, ramp in ramps_of(book, session)
            ]
        if rows:
            return tuple(rows[:12])
    return ()


def source_text(book: Book) -> str:
    """Where the ramp sets come from, below them."""
    weeks = (book.issue.program.weeks[index] for index in book.week_range)
    if any(slot.ramp is not None for week in weeks for slot in week.slots()):
        return tr("Load and reps of each; common practice, or as your coach set them.")
    return tr("Load and reps of each; common practice.")


def _drawing(
    drills: tuple[Drill, ...], ramps: tuple[tuple[str, str, str], ...], *, easy: str
) -> Draw:
    """easy: how long the easy movement takes, which the first page says; empty on further ones."""

    def draw(sheet: Sheet) -> None:
        pen = sheet.pen
        sheet.title(tr("Warm-up"), "" if easy else tr("goes on"))
        y = 32.0
        if easy:
            for number, step in enumerate(STEPS, start=1):
                pen.text(0, y, str(number), style=BODY_BOLD)
                y = (
                    pen.paragraph(6.0, y, tr(step, easy=easy), width=sheet.width - 6, style=BODY)
                    + 1.2
                )
            y += 6.0
        if drills:
            y = sheet.section(y, tr("Drills")) + 1.0
            for drill in drills:
                y = _draw_drill(sheet, drill, y)
            y += 10.0
        if ramps:
            y = _draw_ramps(sheet, ramps, y) + 10.0
        if y + 30 < sheet.book.frame.last:
            y = sheet.section(y, tr("Your own"), tr("what you add, what your body asks for"))
            sheet.note_lines(y + 9.0, sheet.book.frame.last)
        sheet.foot()

    return draw


def _draw_drill(sheet: Sheet, drill: Drill, y: float) -> float:
    pen, p = sheet.pen, sheet.palette
    x = 22.0 if drill.drawn else 0.0
    if drill.drawn:
        draw_picture(sheet, drill.exercise, Box(0, y + 1.5, 18.0, 17.5))
    base = y + 6.0
    x_dose = x + pen.text(x, base, drill.exercise.name, style=BODY_BOLD) + 2.0
    x_days = sheet.width - pen.text(sheet.width, base, drill.days, style=CELL, tone=p.mid, align=1)
    if x_dose + sheet.book.faces.width_mm(drill.dose, CELL) + 2.0 <= x_days:
        pen.text(x_dose, base, drill.dose, style=CELL)
    pen.lines(x, base + 5.2, drill.lines, style=CELL)
    pen.rule(0, y + drill.height, sheet.width, tone=p.hair)
    return y + drill.height


def _draw_ramps(sheet: Sheet, ramps: tuple[tuple[str, str, str], ...], y: float) -> float:
    pen, p = sheet.pen, sheet.palette
    y = sheet.section(
        y, tr("Ramp sets"), tr("in your first week; later ones stand on the week's page")
    )
    for day, name, text in ramps:
        y += 5.2
        pen.text(0, y, day, style=CELL_BOLD)
        pen.text(28.0, y, cut_short(sheet.book, name, 68.0, CELL), style=CELL)
        pen.text(98.0, y, text, style=CELL)
        y += 2.0
        pen.rule(0, y, sheet.width, tone=p.hair)
    pen.text(0, y + 4.6, source_text(sheet.book), style=LABEL, tone=p.mid)
    return y + 4.6
