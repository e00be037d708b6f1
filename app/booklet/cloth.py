"""The cloth on the cover: threads down are weeks, threads across are muscles, thickness is sets."""

from __future__ import annotations

from dataclasses import dataclass

from app.booklet.book import Book, Sheet
from app.booklet.fonts import CELL, CELL_BOLD
from app.booklet.palette import Palette
from app.booklet.pen import PT, Box
from app.domain.exercise import Muscle
from app.domain.wording import mark, tr

_GROUPS: tuple[tuple[str, str, tuple[Muscle, ...]], ...] = (
    (mark("Glutes"), "hip", (Muscle.GLUTEALS,)),
    (mark("Side hip"), "hip", (Muscle.HIP_ABDUCTORS,)),
    (mark("Hamstrings"), "hip", (Muscle.HAMSTRINGS,)),
    (mark("Thighs"), "leg", (Muscle.QUADRICEPS, Muscle.ADDUCTORS, Muscle.HIP_FLEXORS)),
    (mark("Calves"), "leg", (Muscle.CALVES, Muscle.SHIN)),
    (mark("Trunk"), "trunk", (Muscle.ABDOMINALS, Muscle.OBLIQUES, Muscle.SPINAL_ERECTORS)),
    (mark("Back"), "trunk", (Muscle.LATISSIMUS, Muscle.UPPER_BACK)),
    (mark("Chest"), "arm", (Muscle.CHEST,)),
    (mark("Shoulders"), "arm", (Muscle.FRONT_DELTOID, Muscle.SIDE_DELTOID, Muscle.REAR_DELTOID)),
    (mark("Arms"), "arm", (Muscle.BICEPS, Muscle.TRICEPS, Muscle.FOREARMS)),
)
_GAP_MM = 1.1 / PT  # white beside a thread that lies on top
_BETWEEN_MM = 4.6  # least room between two threads across
_LEAST_MM = 6.6  # least room of a thread across, so that its name fits
_BETWEEN_CLOSE_MM, _LEAST_CLOSE_MM = 1.8, 5.0  # the same on small paper
_THICKEST_MM_PER_SET = 1.6
_MOST_SPARE_MM = 3.0  # what a short cloth is let out by between two threads
_WARP_SHARE = 0.44  # of the distance between two weeks


@dataclass(frozen=True, slots=True)
class Thread:
    """One thread across: its name, tone and the sets of each week.

    The sets of a row are those of its busiest muscle, so that nothing is counted twice.
    """

    name: str
    tone: str
    emphasised: bool
    sets: tuple[float, ...]

    @property
    def most(self) -> float:
        """The sets of its fullest week."""
        return max(self.sets, default=0.0)


def threads(book: Book) -> tuple[Thread, ...]:
    """The threads across of a program, emphasised ones on top; muscles without sets left out."""
    emphasis = set(book.issue.program.emphasis)
    region = {where for _, where, muscles in _GROUPS if emphasis.intersection(muscles)}
    rows = []
    for name, where, muscles in _GROUPS:
        sets = tuple(
            max(week.muscles.get(muscle, 0.0) for muscle in muscles) for week in book.season.weeks
        )
        if not any(sets):
            continue
        chosen = bool(emphasis.intersection(muscles))
        rows.append(Thread(tr(name), _tone(where, region, chosen, p=book.palette), chosen, sets))
    return tuple(sorted(rows, key=lambda thread: not thread.emphasised))


def _tone(where: str, emphasised_in: set[str], chosen: bool, *, p: Palette) -> str:
    if chosen:
        return p.accent
    if where in emphasised_in:
        return p.helper
    return p.sage if where in ("hip", "leg") else p.slate


def scale_mm(rows: tuple[Thread, ...], room_mm: float) -> float:
    """How thick one set may be so that all threads fit the room."""
    low, high = 0.02, _THICKEST_MM_PER_SET
    close = _is_close(rows, room_mm)
    if sum(_height(row, high, close=close) for row in rows) <= room_mm:
        return high
    for _ in range(24):
        middle = (low + high) / 2
        fits = sum(_height(row, middle, close=close) for row in rows) <= room_mm
        low, high = (middle, high) if fits else (low, middle)
    return low


def _is_close(rows: tuple[Thread, ...], room_mm: float) -> bool:
    """True where threads have to lie close together, as on small paper."""
    return room_mm < len(rows) * (_LEAST_MM + 2.0)


def _height(row: Thread, scale: float, *, close: bool) -> float:
    between, least = (_BETWEEN_CLOSE_MM, _LEAST_CLOSE_MM) if close else (_BETWEEN_MM, _LEAST_MM)
    return max(row.most * scale + between, least)


def draw(sheet: Sheet, box: Box, *, names_mm: float) -> float:
    """Draw the cloth with its names and week numbers; gives back its lower edge.

    names_mm: the least room left of the threads for the names.
    """
    rows = threads(sheet.book)
    weeks = sheet.book.season.weeks
    widest = max((sheet.pen.width(row.name, CELL_BOLD) for row in rows), default=0.0)
    names_mm = max(names_mm, widest + 2.5)
    pitch = (box.width - names_mm) / len(weeks)
    left = box.x + names_mm
    scale = scale_mm(rows, box.height - 12)
    close = _is_close(rows, box.height - 12)
    used = sum(_height(row, scale, close=close) for row in rows)
    spare = min((box.height - 12 - used) / len(rows), _MOST_SPARE_MM) if rows else 0.0
    tall = used + spare * len(rows) + 6 if rows else 40.0
    warp = min(pitch * _WARP_SHARE, 4.5)
    for number in range(len(weeks)):
        x = left + (number + 0.5) * pitch - warp / 2
        sheet.pen.box(Box(x, box.y, warp, tall), fill=sheet.palette.tint2)
    y = box.y + 3.0
    for at, row in enumerate(rows):
        room = _height(row, scale, close=close) + spare
        _weave(sheet, row, Box(left, y, box.width - names_mm, room), scale=scale, at=at, warp=warp)
        bold = row.emphasised
        sheet.pen.text(
            box.x,
            y + room / 2 + 1.2,
            row.name,
            style=CELL_BOLD if bold else CELL,
            tone=sheet.palette.accent if bold else "",
        )
        y += room
    bottom = box.y + tall + 5.2
    sheet.pen.text(box.x, bottom, tr("Week"), style=CELL, tone=sheet.palette.mid)
    for number in labelled(len(weeks)):
        x = left + (number - 0.5) * pitch
        sheet.pen.text(x, bottom, str(number), style=CELL, align=0.5)
    return bottom


def labelled(weeks: int) -> tuple[int, ...]:
    """The week numbers that are written under a chart: 1 and every fifth, every tenth past 30."""
    step = 5 if weeks <= 30 else 10
    if weeks <= 8:
        return tuple(range(1, weeks + 1))
    return (1, *range(step, weeks + 1, step))


def _weave(sheet: Sheet, row: Thread, box: Box, *, scale: float, at: int, warp: float) -> None:
    """Draw one thread across, then lay every second thread down over it."""
    pen, p = sheet.pen, sheet.palette
    pitch = box.width / len(row.sets)
    middle = box.y + box.height / 2
    _weft(sheet, row, box, scale=scale)
    for number, sets in enumerate(row.sets):
        if (number + at) % 2 == 0 or not sets:
            continue
        x = box.x + (number + 0.5) * pitch - warp / 2
        near = row.sets[max(number - 1, 0) : number + 2]
        half = max(near) * scale / 2 + 0.3
        pen.box(Box(x - _GAP_MM, middle - half, warp + 2 * _GAP_MM, 2 * half), fill=p.paper)
        pen.box(Box(x, middle - half - 0.1, warp, 2 * half + 0.2), fill=p.tint2)


def _weft(sheet: Sheet, row: Thread, box: Box, *, scale: float) -> None:
    """The outline of one thread across: level over each week, easing from week to week."""
    canvas = sheet.pen.canvas
    pitch = box.width / len(row.sets)
    middle = box.y + box.height / 2
    halves = [sets * scale / 2 for sets in row.sets]
    upper = _edge(halves, box.x, pitch)
    path = canvas.beginPath()
    for sign, points in ((-1, upper), (1, [*reversed(upper)])):
        for number, (x, half) in enumerate(points):
            px, py = sheet.pen.at(x, middle + sign * half)
            if number == 0:
                if sign < 0:
                    path.moveTo(px, py)
                else:
                    path.lineTo(px, py)
                continue
            before, half_before = points[number - 1]
            if half_before == half:
                path.lineTo(px, py)
                continue
            bend = (before + x) / 2
            bx, by = sheet.pen.at(bend, middle + sign * half_before)
            path.curveTo(bx, by, sheet.pen.at(bend, 0)[0], py, px, py)
    path.close()
    sheet.pen.fill(row.tone)
    sheet.pen.stroke(sheet.palette.paper, 1.1)
    canvas.drawPath(path, stroke=1, fill=1)


def _edge(halves: list[float], left: float, pitch: float) -> list[tuple[float, float]]:
    """The corners of a thread's upper edge: half its thickness at the ends of each level part."""
    corners = [(left, halves[0])]
    for number, half in enumerate(halves):
        centre = left + (number + 0.5) * pitch
        corners += [(centre - 0.2 * pitch, half), (centre + 0.2 * pitch, half)]
    return [*corners, (left + len(halves) * pitch, halves[-1])]
