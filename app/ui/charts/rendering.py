"""A chart as a picture for the screen, or as the bytes of a file, drawn in whatever thread."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO

from PySide6.QtCore import QSize
from PySide6.QtGui import QImage

from app.ui.charts.kinds import Chart
from app.ui.charts.look import Look, paper_look

FORMATS = ("png", "svg", "pdf")
FILE_SIZE_IN = (8.0, 4.6)
"""The size of a chart that is saved: it fits the width of a page."""

_PNG_DPI = 220.0
_DPI = 96.0


def picture(chart: Chart, look: Look, size: QSize, ratio: float = 1.0) -> QImage:
    """The chart as an image of `size` (in the window's units) at a device pixel ratio."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg

    from app.ui.charts.drawing import figure_of
    from app.ui.charts.pen import drawing

    wide, high = max(240, size.width()), max(180, size.height())
    with drawing():
        figure = figure_of(chart, look, size_in=(wide / _DPI, high / _DPI), dpi=_DPI * ratio)
        canvas = FigureCanvasAgg(figure)
        canvas.draw()  # type: ignore[no-untyped-call]
        width, height = canvas.get_width_height()
        data = bytes(canvas.buffer_rgba())  # type: ignore[no-untyped-call]
    image = QImage(data, width, height, width * 4, QImage.Format.Format_RGBA8888).copy()
    image.setDevicePixelRatio(ratio)
    return image


def file_bytes(chart: Chart, kind: str, *, title: str = "") -> bytes:
    """The chart as a PNG, SVG or PDF file, light on white, its letters embedded or as outlines.

    kind: one of FORMATS; title: stands above the chart in the place of its own name.
    """
    from app.ui.charts.drawing import figure_of
    from app.ui.charts.pen import drawing

    if kind not in FORMATS:
        raise ValueError(kind)
    named = replace(chart, title=title or chart.title)
    out = BytesIO()
    with drawing():
        figure = figure_of(named, paper_look(), size_in=FILE_SIZE_IN, dpi=_PNG_DPI, title=True)
        said = {"Title": named.title, "Creator": "Weekloom"}
        match kind:
            case "png":
                said = {"Title": named.title, "Software": "Weekloom"}
            case "pdf":
                said |= {"CreationDate": None, "Producer": None}  # type: ignore[dict-item]
            case _:
                said |= {"Date": None}  # type: ignore[dict-item]
        figure.savefig(out, format=kind, metadata=said, facecolor=figure.get_facecolor())
    return out.getvalue()


def copy_picture(chart: Chart, *, title: str = "") -> QImage:
    """The chart as an image for the clipboard."""
    return QImage.fromData(file_bytes(chart, "png", title=title))
