"""A pen on a page: text, rules, boxes and hatches in millimetres from the upper left corner.

Draws straight on the canvas. Text is only ever drawn as text, never read as markup.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import lru_cache

from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.textobject import PDFTextObject

from app.booklet.fonts import (
    MM_PER_PT,
    SECTION,
    TITLE,
    TITLE_18,
    Face,
    Faces,
    Style,
    one_line,
)
from app.booklet.palette import Palette

PT = 1 / MM_PER_PT


_STAMP_PT = (-100, -900, 700, 100)
"""Left, bottom, right and top of a stamp: nothing outside is shown."""


@lru_cache(maxsize=256)
def _rgb(tone: str) -> str:
    """'#rrggbb' as three parts of one, in the file's own words."""
    return " ".join(f"{int(tone[at : at + 2], 16) / 255:.4f}" for at in (1, 3, 5))


class _Lines(PDFTextObject):
    """Lines of text at places; writes numbers itself, at a tenth of the library's cost."""

    _code: list[str]
    _formatText: Callable[[str], str]  # noqa: N815  # the library's name

    def put(self, x_pt: float, y_pt: float) -> None:
        """Go on at a place."""
        self._code.append(f"1 0 0 1 {x_pt:.2f} {y_pt:.2f} Tm")

    def tone(self, tone: str) -> None:
        """Go on in a tone."""
        self._code.append(f"{_rgb(tone)} rg")

    def write(self, text: str) -> None:
        """Letters in the font that was set."""
        self._code.append(self._formatText(text))


@dataclass(frozen=True, slots=True)
class Box:
    """An upright box on the page, mm from the upper left corner."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """The right edge."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """The lower edge."""
        return self.y + self.height


@dataclass(slots=True, eq=False)
class Pen:
    """Draws on the current page of a canvas.

    height_mm: of the page as it is laid out; left_mm: where x is 0, from the left edge of the page;
    zoom: how much larger the page is drawn;
    missing: letters that no font has, each with a text it stands in.

    All text of a page is gathered in one text object and put over the shapes when the page ends:
    that halves the cost of a line.
    """

    canvas: Canvas
    faces: Faces
    palette: Palette
    height_mm: float
    left_mm: float = 0.0
    zoom: float = 1.0
    missing: dict[str, str] = field(default_factory=dict)
    _text: _Lines | None = None
    _text_tone: str = ""
    _font: tuple[str, float] = ("", 0.0)
    _fill: str = ""
    _stroke: str = ""
    _weight: float = -1.0

    def begin(self, left_mm: float) -> None:
        """Begin a page whose frame stands `left_mm` from its left edge."""
        self.left_mm = left_mm
        if self.zoom != 1.0:
            self.canvas.saveState()
            self.canvas.scale(self.zoom, self.zoom)
        self.forget()

    def finish(self) -> None:
        """End the page: its text is put on it, and what follows is drawn at its own size."""
        self.end()
        if self.zoom != 1.0:
            self.canvas.restoreState()

    def end(self) -> None:
        """Put the gathered text on the page or form that ends here."""
        if self._text is not None:
            self.canvas.drawText(self._text)
        self._text, self._text_tone, self._font = None, "", ("", 0.0)

    def forget(self) -> None:
        """Take no tone or weight for set: after a page, a saved state or a form has ended."""
        self._fill = self._stroke = ""
        self._weight = -1.0

    def fill(self, tone: str) -> None:
        """Fill in this tone from now on."""
        if tone != self._fill:
            self._fill = tone
            self.canvas.addLiteral(f"{_rgb(tone)} rg")

    def stroke(self, tone: str, weight: float) -> None:
        """Draw lines in this tone and weight (points) from now on."""
        if tone != self._stroke:
            self._stroke = tone
            self.canvas.addLiteral(f"{_rgb(tone)} RG")
        if weight != self._weight:
            self._weight = weight
            self.canvas.addLiteral(f"{weight:g} w")

    @contextmanager
    def apart(self) -> Iterator[Canvas]:
        """The canvas with a state of its own, as it was before when the block ends.

        Text written inside goes on the page as any other: the state is for shapes.
        """
        self.canvas.saveState()
        yield self.canvas
        self.canvas.restoreState()
        self.forget()

    def stamp(
        self, name: str, x: float, y: float, draw: Callable[[Pen], None], *, text: bool = False
    ) -> None:
        """Put a drawing that recurs with its upper left corner at a place.

        draw is called once for each name: it gets a pen that counts from that corner. text: it
        holds text, which is then read after what was written before.
        """
        if text:
            self.end()
        canvas = self.canvas
        if not canvas.hasForm(name):
            canvas.beginForm(name, *_STAMP_PT)
            inner = Pen(canvas, self.faces, self.palette, 0.0, missing=self.missing)
            draw(inner)
            inner.end()
            canvas.endForm()
        canvas.addLiteral(f"q 1 0 0 1 {self._x(x):.2f} {self._y(y):.2f} cm")
        canvas.doForm(name)
        canvas.addLiteral("Q")

    def _x(self, x: float) -> float:
        return (self.left_mm + x) * PT

    def _y(self, y: float) -> float:
        return (self.height_mm - y) * PT

    def at(self, x: float, y: float) -> tuple[float, float]:
        """A place in the canvas's own points."""
        return self._x(x), self._y(y)

    # -- text ------------------------------------------------------------------------------

    def text(
        self,
        x: float,
        y: float,
        text: str,
        *,
        style: Style,
        tone: str = "",
        align: float = 0.0,
    ) -> float:
        """Print one line with its baseline at `y`; gives back its width, mm.

        align: the part of the width that lies left of `x`: 0 left, 0.5 centred, 1 right.
        """
        text = one_line(text)
        if not text:
            return 0.0
        for letter in self.faces.missing(text, style.face):
            self.missing.setdefault(letter, text)
        width = self.faces.width_mm(text, style)
        left = x - align * width
        self._write(self._x(left), self._y(y), text, style=style, tone=tone or self.palette.ink)
        return width

    def _write(self, x_pt: float, y_pt: float, text: str, *, style: Style, tone: str) -> None:
        """Add one line to the text of the page."""
        line = self._text
        if line is None:
            line = self._text = _Lines(self.canvas)
        if tone != self._text_tone:
            self._text_tone = tone
            line.tone(tone)
        line.put(x_pt, y_pt)
        for name, piece in self.faces.runs(text, style.face):
            if self._font != (name, style.size):
                self._font = (name, style.size)
                line.setFont(name, style.size)
            line.write(piece)

    def lines(
        self, x: float, y: float, lines: tuple[str, ...], *, style: Style, tone: str = ""
    ) -> float:
        """Print lines below each other, the first with its baseline at `y`.

        Gives back the baseline of the line that would follow.
        """
        for line in lines:
            self.text(x, y, line, style=style, tone=tone)
            y += style.lead_mm
        return y

    def paragraph(
        self, x: float, y: float, text: str, *, width: float, style: Style, tone: str = ""
    ) -> float:
        """Print `text` in lines no wider than `width`; see `lines`."""
        return self.lines(x, y, self.faces.wrap(text, style, width), style=style, tone=tone)

    def title(self, y: float, text: str, *, width: float) -> None:
        """Print the name of a paper, as large as it fits; cut where even 14 pt is too large."""
        sizes = (TITLE, TITLE_18, SECTION)
        style = next((one for one in sizes if self.width(text, one) <= width), SECTION)
        self.text(0, y, self.fitting(text, style, width), style=style)

    def fitting(self, text: str, style: Style, width: float) -> str:
        """The text, cut with an ellipsis where it is wider than `width` mm."""
        return self.faces.shortened(one_line(text), style, width)

    def width(self, text: str, style: Style) -> float:
        """How wide a line would be, mm."""
        return self.faces.width_mm(one_line(text), style)

    # -- shapes ----------------------------------------------------------------------------

    def rule(
        self,
        x: float,
        y: float,
        to_x: float,
        *,
        weight: float = 0.4,
        tone: str = "",
        to_y: float | None = None,
        dash: tuple[float, ...] = (),
    ) -> None:
        """Draw a line, level unless `to_y` says otherwise; weight in points, dash in mm."""
        self.stroke(tone or self.palette.ink, weight)
        to_y = y if to_y is None else to_y
        code = f"{self._x(x):.2f} {self._y(y):.2f} m {self._x(to_x):.2f} {self._y(to_y):.2f} l S"
        if dash:
            code = f"[{' '.join(f'{d * PT:.2f}' for d in dash)}] 0 d {code} [] 0 d"
        self.canvas.addLiteral(code)

    def _path(self, code: str, *, fill: bool = False, stroke: bool = False) -> None:
        """Draw a path given in the file's own words; the library would format each number anew."""
        end = "B" if fill and stroke else "f" if fill else "S" if stroke else "n"
        self.canvas.addLiteral(f"{code} {end}")

    def box(self, box: Box, *, fill: str = "", stroke: str = "", weight: float = 0.5) -> None:
        """Draw a box, filled, framed or both."""
        if fill:
            self.fill(fill)
        if stroke:
            self.stroke(stroke, weight)
        size = f"{box.width * PT:.2f} {box.height * PT:.2f}"
        code = f"{self._x(box.x):.2f} {self._y(box.bottom):.2f} {size} re"
        self._path(code, fill=bool(fill), stroke=bool(stroke))

    def hatch(self, box: Box, *, gap: float = 0.9, weight: float = 0.4, tone: str = "") -> None:
        """Fill a box with slanting lines that rise to the right, `gap` mm apart along its edge."""
        code = []
        # lines start on a grid of the page, so that neighbouring boxes join
        x = (box.x - box.height) // gap * gap
        bottom, top = self._y(box.bottom), self._y(box.y)
        while x < box.right:
            code.append(f"{self._x(x):.2f} {bottom:.2f} m")
            code.append(f"{self._x(x + box.height):.2f} {top:.2f} l")
            x += gap
        with self.clipped(box):
            self.stroke(tone or self.palette.ink, weight)
            self._path(" ".join(code), stroke=True)

    @contextmanager
    def clipped(self, box: Box) -> Iterator[Canvas]:
        """Draw inside a box only."""
        with self.apart() as canvas:
            path = canvas.beginPath()
            path.rect(self._x(box.x), self._y(box.bottom), box.width * PT, box.height * PT)
            canvas.clipPath(path, stroke=0, fill=0)
            yield canvas

    def polygon(
        self,
        points: tuple[tuple[float, float], ...],
        *,
        fill: str = "",
        stroke: str = "",
        weight: float = 0.5,
        closed: bool = True,
    ) -> None:
        """Draw straight lines from point to point, filled, stroked or both."""
        if fill:
            self.fill(fill)
        if stroke:
            self.stroke(stroke, weight)
        spots = [f"{self._x(x):.2f} {self._y(y):.2f}" for x, y in points]
        code = [f"{spots[0]} m", *(f"{spot} l" for spot in spots[1:])]
        if closed:
            code.append("h")
        self._path(" ".join(code), fill=bool(fill), stroke=bool(stroke))

    def disc(self, x: float, y: float, radius: float, *, fill: str = "", stroke: str = "") -> None:
        """Draw a disc or a ring around a point."""
        if fill:
            self.fill(fill)
        if stroke:
            self.stroke(stroke, 0.6)
        self.canvas.circle(
            self._x(x), self._y(y), radius * PT, stroke=int(bool(stroke)), fill=int(bool(fill))
        )

    # -- places ----------------------------------------------------------------------------

    def on_paper(self, box: Box) -> tuple[float, float, float, float]:
        """A box as left, bottom, right and top on the paper itself, points."""
        edges = (self._x(box.x), self._y(box.bottom), self._x(box.right), self._y(box.y))
        return tuple(edge * self.zoom for edge in edges)  # type: ignore[return-value]

    def link(self, box: Box, to: str) -> None:
        """Make a box lead to the page with the bookmark `to`."""
        self.canvas.linkRect("", to, self.on_paper(box), Border="[0 0 0]")


def bold(style: Style) -> Style:
    """The bold companion of a style."""
    face = {Face.SANS: Face.BOLD, Face.SERIF: Face.SERIF_BOLD}.get(style.face, style.face)
    return Style(face, style.size, style.lead)
