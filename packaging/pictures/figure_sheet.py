"""Contact sheets of exercise figures: start and end of each pose, then the list sizes.

python packaging/pictures/figure_sheet.py OUT.png [KEY ...]

More than a sheet holds go on to OUT-2.png, OUT-3.png and so on. ZOOM=0.8 makes them smaller.
"""

import os
import sys
import tomllib
from pathlib import Path

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from PySide6.QtCore import QRectF  # noqa: E402
from PySide6.QtGui import QColor, QFont, QGuiApplication, QImage, QPainter  # noqa: E402

from app.domain.errors import CoachError  # noqa: E402
from app.domain.figure import Detail, Phase, PosePair, Poses, draw, poses_from_mapping  # noqa: E402
from app.ui.figure_paint import DARK, LIGHT, paint_in  # noqa: E402

CELL_W, CELL_H, CAPTION = 250, 270, 22
STATURE_PX = 190
COLUMNS = 6
PER_SHEET = 24


def load() -> Poses:
    """Every pose in resources/poses, by key."""
    found: dict[str, object] = {}
    for path in sorted((ROOT / "resources" / "poses").glob("*.toml")):
        found.update(tomllib.loads(path.read_text("utf-8")))
    return poses_from_mapping(found)


def _cell(painter: QPainter, pair: PosePair, phase: Phase, x: float, y: float, zoom: float) -> None:
    target = QRectF(x, y + 4, CELL_W * zoom, CELL_H * zoom - 8)
    drawing = draw(pair, phase, detail=Detail.FULL)
    paint_in(
        painter, drawing, target, tones=LIGHT, contour_px=1.45 * zoom, scale_px=STATURE_PX * zoom
    )


def sheet(pairs: list[PosePair], zoom: float = 1.0) -> QImage:
    """The picture of all pairs, three a row."""
    rows = -(-len(pairs) // (COLUMNS // 2))
    height = int(rows * (CELL_H * zoom + CAPTION))
    image = QImage(int(COLUMNS * CELL_W * zoom), height, QImage.Format.Format_RGB32)
    image.fill(QColor("white"))
    painter = QPainter(image)
    painter.setFont(QFont("Noto Sans", 10))
    for index, pair in enumerate(pairs):
        row, column = divmod(index, COLUMNS // 2)
        x = column * 2 * CELL_W * zoom
        y = row * (CELL_H * zoom + CAPTION)
        for offset, phase in enumerate(Phase):
            try:
                _cell(painter, pair, phase, x + offset * CELL_W * zoom, y, zoom)
            except CoachError as error:
                print(pair.key, phase.value, error)
        painter.setPen(QColor("black"))
        painter.drawText(QRectF(x + 8, y + CELL_H * zoom, 400, CAPTION), pair.key)
    painter.end()
    return image


def icons(pairs: list[PosePair], *, dark: bool = False) -> QImage:
    """All end positions at 48 pixels."""
    columns = 16
    rows = -(-len(pairs) // columns)
    image = QImage(columns * 80, rows * 60, QImage.Format.Format_RGB32)
    image.fill(QColor("#31332F" if dark else "#FFFEFA"))
    painter = QPainter(image)
    for index, pair in enumerate(pairs):
        row, column = divmod(index, columns)
        try:
            drawing = draw(pair, Phase.END, detail=Detail.ICON48)
        except CoachError:
            continue
        target = QRectF(column * 80 + 4, row * 60 + 6, 72, 48)
        paint_in(painter, drawing, target, tones=DARK if dark else LIGHT, contour_px=0.9)
    painter.end()
    return image


def main() -> None:
    """Write the sheet, and beside it the icons."""
    app = QGuiApplication(sys.argv[:1])
    out, keys = sys.argv[1], sys.argv[2:]
    poses = load()
    chosen = [poses[key] for key in keys] if keys else list(poses.values())
    zoom = float(os.environ.get("ZOOM", "1"))
    for page, first in enumerate(range(0, len(chosen), PER_SHEET), start=1):
        name = out if page == 1 else out.replace(".png", f"-{page}.png")
        sheet(chosen[first : first + PER_SHEET], zoom).save(name)
    icons(chosen).save(out.replace(".png", "-icons.png"))
    icons(chosen, dark=True).save(out.replace(".png", "-dark.png"))
    icons(chosen).convertToFormat(QImage.Format.Format_Grayscale8).save(
        out.replace(".png", "-grey.png")
    )
    del app


if __name__ == "__main__":
    main()
