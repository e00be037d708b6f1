"""Fields to fill in on a screen: text fields in a tree, with a font of their own embedded.

The library's own forms know only fonts that are not embedded; these are written in the file's own
words. Nothing in them runs: no script checks what is typed, the reader of the form does.
"""

from __future__ import annotations

import logging
from collections.abc import Callable
from functools import lru_cache
from io import BytesIO
from pathlib import Path
from typing import Any

from reportlab.pdfbase.pdfdoc import (
    PDFArray,
    PDFDictionary,
    PDFName,
    PDFStream,
    PDFStreamFilterZCompress,
    PDFString,
)
from reportlab.pdfgen.canvas import Canvas

from app.booklet.fonts import Face, Faces
from app.booklet.pen import Box, Pen

_HIDDEN, _PRINT = 2, 4  # annotation flags, ISO 32000-1 table 165
_READ_ONLY, _MULTILINE = 1, 1 << 12  # field flags, tables 221 and 228
_FONT = "WLF"
ON = "yes"
"""The value of a box that is ticked."""

_FIRST, _LAST = 32, 255
_LETTERS = tuple(
    bytes([code]).decode("cp1252", errors="replace") for code in range(_FIRST, _LAST + 1)
)
"""What the fields' font shows, in the order of the Windows Latin encoding."""


class FormCanvas(Canvas):
    """A canvas that also places annotations of one's own."""

    _doc: Any
    _annotationrefs: list[object]
    _addAnnotation: Callable[[PDFDictionary], None]  # noqa: N815  # the library's name

    def ref(self, thing: object) -> object:
        """A place in the file for `thing`, by which other things name it."""
        return self._doc.Reference(thing)

    def annotate(self, annotation: PDFDictionary) -> object:
        """Put an annotation on the page; gives back its place in the file."""
        self._addAnnotation(annotation)
        return self._annotationrefs[-1]

    def hang_in(self, form: PDFDictionary) -> None:
        """Make `form` the document's form."""
        self._doc.Catalog.AcroForm = self._doc.Reference(form)


class Fields:
    """The form of one document."""

    def __init__(self, canvas: FormCanvas, faces: Faces, folder: Path) -> None:
        self._canvas = canvas
        self._faces = faces
        self._folder = folder
        self._nodes: dict[str, PDFDictionary] = {}
        self._kids: dict[str, list[object]] = {"": []}

    @property
    def any(self) -> bool:
        """Whether a field has been placed."""
        return bool(self._kids[""])

    def text(self, pen: Pen, box: Box, name: str, *, tip: str, most: int = 0) -> None:
        """Place a field for text; most: so many letters at most, 0 for any number.

        name: parts joined by points, which become a tree; tip: what a screen reader says.
        """
        field = self._placed(name, pen.on_paper(box), flags=_PRINT)
        field["TU"] = PDFString(tip)
        if most:
            field["MaxLen"] = most
        else:
            field["Ff"] = _MULTILINE
        size = 11 * pen.zoom
        if size != 11:
            field["DA"] = PDFString(f"/{_FONT} {size:g} Tf 0 g")

    def tick(self, pen: Pen, box: Box, name: str, *, tip: str) -> None:
        """Place a box to tick; its value is `ON` once it is."""
        left, bottom, right, top = pen.on_paper(box)
        field = self._placed(name, (left, bottom, right, top), flags=_PRINT, kind="Btn")
        field["TU"] = PDFString(tip)
        field["V"] = field["AS"] = PDFName("Off")
        states = PDFDictionary(
            {
                ON: self._canvas.ref(_cross(right - left, top - bottom)),
                "Off": self._canvas.ref(_picture("", right - left, top - bottom)),
            }
        )
        field["AP"] = PDFDictionary({"N": states})

    def hidden(self, name: str, value: str) -> None:
        """Place a field that nobody sees and nobody changes."""
        field = self._placed(name, (0.0, 0.0, 0.0, 0.0), flags=_HIDDEN)
        field["V"] = PDFString(value)
        field["Ff"] = _READ_ONLY

    def _placed(
        self,
        name: str,
        rect: tuple[float, float, float, float],
        *,
        flags: int,
        kind: str = "Tx",
    ) -> PDFDictionary:
        path, _, own = name.rpartition(".")
        field = PDFDictionary(
            {
                "Type": PDFName("Annot"),
                "Subtype": PDFName("Widget"),
                "FT": PDFName(kind),
                "T": PDFString(own),
                "F": flags,
                "Rect": PDFArray([round(edge, 1) for edge in rect]),
            }
        )
        if path:
            field["Parent"] = self._canvas.ref(self._node(path))
        self._kids[path].append(self._canvas.annotate(field))
        return field

    def _node(self, path: str) -> PDFDictionary:
        """The branch of the tree with that name, grown if need be."""
        if path not in self._nodes:
            above, _, own = path.rpartition(".")
            node = PDFDictionary({"T": PDFString(own)})
            if above:
                node["Parent"] = self._canvas.ref(self._node(above))
            self._nodes[path] = node
            self._kids[path] = []
            self._kids[above].append(self._canvas.ref(node))
        return self._nodes[path]

    def finish(self) -> None:
        """Hang the form into the document; call once, before it is saved."""
        if not self.any:
            return
        for path, node in self._nodes.items():
            node["Kids"] = PDFArray(self._kids[path])
        font = self._canvas.ref(self._font())
        form = PDFDictionary(
            {
                "Fields": PDFArray(self._kids[""]),
                "DA": PDFString(f"/{_FONT} 11 Tf 0 g"),
                "DR": PDFDictionary({"Font": PDFDictionary({_FONT: font})}),
                "NeedAppearances": "true",
            }
        )
        self._canvas.hang_in(form)

    def _font(self) -> PDFDictionary:
        """A simple font with the Windows Latin encoding, its letters embedded."""
        name = PDFName("WLFORM+NotoSans-Regular")
        data = latin_font(self._folder)
        file = PDFStream(content=data, filters=[PDFStreamFilterZCompress()])
        file.dictionary["Length1"] = len(data)
        widths = self._faces.widths[Face.SANS]
        descriptor = PDFDictionary(
            {
                "Type": PDFName("FontDescriptor"),
                "FontName": name,
                "Flags": 32,
                # of the font file, in thousandths of its size
                "FontBBox": PDFArray([-621, -389, 2800, 1067]),
                "ItalicAngle": 0,
                "Ascent": 1069,
                "Descent": -293,
                "CapHeight": 714,
                "StemV": 80,
                "FontFile2": self._canvas.ref(file),
            }
        )
        return PDFDictionary(
            {
                "Type": PDFName("Font"),
                "Subtype": PDFName("TrueType"),
                "BaseFont": name,
                "Encoding": PDFName("WinAnsiEncoding"),
                "FirstChar": _FIRST,
                "LastChar": _LAST,
                "Widths": PDFArray([round(widths.get(one, 0.0) * 1000) for one in _LETTERS]),
                "FontDescriptor": self._canvas.ref(descriptor),
            }
        )


def _picture(code: str, wide: float, tall: float) -> PDFStream:
    """A small drawing of its own, points."""
    stream = PDFStream(content=code)
    stream.dictionary["Type"] = PDFName("XObject")
    stream.dictionary["Subtype"] = PDFName("Form")
    stream.dictionary["BBox"] = PDFArray([0, 0, round(wide, 2), round(tall, 2)])
    return stream


def _cross(wide: float, tall: float) -> PDFStream:
    """Two strokes from corner to corner: a tick that a grey printer and a fax keep."""
    low, right, top = 2.0, wide - 2.0, tall - 2.0
    code = (
        f"1.4 w 1 J {low} {low} m {right:.2f} {top:.2f} l S {low} {top:.2f} m {right:.2f} {low} l S"
    )
    return _picture(code, wide, tall)


@lru_cache(maxsize=2)
def latin_font(folder: Path) -> bytes:
    """The part of the text font that shows Western European letters and figures."""
    from fontTools import subset

    # it would tell every glyph to the log
    logging.getLogger("fontTools.subset").setLevel(logging.WARNING)
    options = subset.Options(
        layout_features=[], hinting=False, glyph_names=False, notdef_outline=True
    )
    options.drop_tables += ["GSUB", "GPOS", "GDEF", "STAT", "meta"]
    font = subset.load_font(str(folder / f"{Face.SANS.value}.ttf"), options)
    cutter = subset.Subsetter(options)
    cutter.populate(text="".join(_LETTERS).replace("\ufffd", ""))
    cutter.subset(font)
    out = BytesIO()
    font.save(out)
    font.close()
    return out.getvalue()
