"""Exercise figures on a page: drawn once for a booklet, then placed wherever they are needed."""

from __future__ import annotations

from app.booklet.book import Book, Sheet
from app.booklet.pen import PT, Box
from app.domain.exercise import Exercise
from app.domain.figure import Detail, Phase, PosePair


def pose_of(book: Book, exercise: Exercise) -> PosePair | None:
    """The poses of an exercise, or None where nothing can be drawn."""
    return book.content.poses.get(exercise.figure) if exercise.figure else None


def draw_picture(
    sheet: Sheet,
    exercise: Exercise,
    box: Box,
    *,
    phase: Phase = Phase.END,
    detail: Detail = Detail.ROW17,
) -> bool:
    """Put an exercise's figure into a box, standing on its lower edge; False without a pose."""
    pose = pose_of(sheet.book, exercise)
    if pose is None:
        return False
    left, bottom = sheet.pen.at(box.x, box.bottom)
    frame = (left + 2.0, bottom + 2.0, box.width * PT - 4.0, box.height * PT - 4.0)
    stature = None
    if detail is Detail.FULL:
        # start and end share one scale, so that one can be laid over the other
        stature = sheet.figures.shared_stature(pose, frame[2], frame[3], detail=detail)
    sheet.figures.put(pose, phase, frame, detail=detail, stature_pt=stature)
    sheet.pen.forget()
    return True
