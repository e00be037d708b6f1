"""Two pages on a sheet, in the order in which the sheets fold into a booklet.

A fold is a gathering of sheets that lie in each other; a thick booklet is better sewn from several
than folded from one. Sheets are printed on both sides and turned over their short edge.
"""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO

from app.booklet.content import Paper
from app.booklet.pen import PT
from app.domain.errors import CoachError
from app.domain.wording import tr

THICKEST = 10
"""More sheets than this do not fold flat: 80 g/m² paper. Common practice."""

Side = tuple[int | None, int | None]
"""The pages of one side of a sheet, left and right, counted from 1; None is left blank."""


@dataclass(frozen=True, slots=True)
class Folding:
    """How pages lie on sheets.

    sides: front and back of each sheet in turn; gatherings: how many sheets lie in each other.
    """

    sides: tuple[Side, ...]
    gatherings: tuple[int, ...]

    @property
    def sheets(self) -> int:
        """How many sheets of paper it takes."""
        return len(self.sides) // 2


def fold(pages: int, *, thickest: int = THICKEST) -> Folding:
    """The order of `pages` pages for folding, in gatherings of at most `thickest` sheets.

    Gatherings are as equal as they can be. Raises CoachError for no pages or no sheets.

    >>> fold(4).sides
    ((4, 1), (2, 3))
    """
    if pages < 1 or thickest < 1:
        raise CoachError(
            tr("There are no pages to fold."), mend=tr("Choose at least one page and one sheet.")
        )
    sheets = -(-pages // 4)
    count = -(-sheets // thickest)
    least, more = divmod(sheets, count)
    gatherings = tuple(least + (number < more) for number in range(count))
    sides: list[Side] = []
    first = 1
    for size in gatherings:
        last = first + 4 * size - 1
        for sheet in range(size):
            low, high = first + 2 * sheet, last - 2 * sheet
            sides += [(high, low), (low + 1, high - 1)]
        first = last + 1

    def there(number: int | None) -> int | None:
        return number if number is not None and number <= pages else None

    return Folding(tuple((there(a), there(b)) for a, b in sides), gatherings)


def sheet_size(paper: Paper) -> tuple[float, float, float]:
    """Long and short edge of the sheet that two pages share, mm, and the scale of a page on it.

    A5 pages lie on A4 at their own size; larger ones lie on a sheet of their own size, on its
    long edge, and shrink.
    """
    sheet = Paper.A4 if paper.name == "A5" else paper
    wide, tall = sheet.height_mm, sheet.width_mm
    return wide, tall, min(1.0, wide / 2 / paper.width_mm, tall / paper.height_mm)


def impose(pdf: bytes, paper: Paper, *, thickest: int = THICKEST) -> bytes:
    """The pages of a PDF on sheets to be folded, two on each side, as a PDF.

    Letters stay letters. Raises CoachError for a PDF without pages.
    """
    from pypdf import PageObject, PdfReader, PdfWriter, Transformation

    source = PdfReader(BytesIO(pdf))
    folding = fold(len(source.pages), thickest=thickest)
    wide, tall, scale = sheet_size(paper)
    wide, tall = wide * PT, tall * PT
    writer = PdfWriter()
    if source.metadata is not None:
        writer.add_metadata({k: str(v) for k, v in source.metadata.items() if v is not None})
    page_wide, page_tall = paper.width_mm * PT * scale, paper.height_mm * PT * scale
    for side in folding.sides:
        sheet = PageObject.create_blank_page(width=wide, height=tall)
        for half, number in enumerate(side):
            if number is None:
                continue
            # pages lie against the fold, so that both margins of a spread are alike
            x = wide / 2 - page_wide if half == 0 else wide / 2
            y = (tall - page_tall) / 2
            move = Transformation().scale(scale).translate(x, y)
            sheet.merge_transformed_page(source.pages[number - 1], move)
        writer.add_page(sheet)
    writer.compress_identical_objects()
    out = BytesIO()
    writer.write(out)
    return out.getvalue()
