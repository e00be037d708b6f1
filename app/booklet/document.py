"""A document before its first page: how its file is written, and what it says of itself."""

from __future__ import annotations

from io import BytesIO

from reportlab import rl_config

from app.booklet.fields import FormCanvas
from app.booklet.fonts import Face
from app.booklet.pen import PT
from app.domain.wording import language


def open_document(
    width_mm: float, height_mm: float, *, title: str, author: str, subject: str = ""
) -> tuple[FormCanvas, BytesIO]:
    """A canvas of that size in the language of the papers, and what it is saved into.

    The same drawing gives the same bytes.
    """
    out = BytesIO()
    # binary streams: the usual text form costs time and a quarter more bytes
    rl_config.useA85 = 0
    canvas = FormCanvas(
        out,
        pagesize=(width_mm * PT, height_mm * PT),
        pageCompression=1,
        invariant=1,
        initialFontName=Face.SANS.value,  # type: ignore[arg-type]  # the stubs are wrong here
        initialFontSize=11,
        lang=language().code,
    )
    canvas.setTitle(title)
    canvas.setAuthor(author)
    if subject:
        canvas.setSubject(subject)
    canvas.setCreator("Weekloom")
    canvas.setViewerPreference("DisplayDocTitle", "true")
    return canvas, out
