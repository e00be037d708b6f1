"""Pictures of a check-in: made small and plain before they are kept, and small ones to look at.

The number of pixels is read from the file's head before anything is decoded. What is kept holds
no camera data, so neither place nor time of the picture.
"""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QSize, Qt
from PySide6.QtGui import QImage, QImageReader, QPainter

from app.domain.errors import CoachError
from app.domain.wording import tr
from app.exchange.files import read_whole
from app.picture_folder import PictureFolder

MOST_FILE_BYTES = 40_000_000
MOST_PIXELS = 60_000_000
"""About 9,000 by 6,700: more than any camera at hand; decoded it would be 240 MB."""

LONGEST_PX = 1600
THUMB_PX = 72
KINDS = ("jpeg", "png", "webp")


def prepared(path: Path) -> bytes:
    """The picture at `path` as a plain JPEG of at most LONGEST_PX a side.

    Raises FileTrouble where it cannot be read, and CoachError for what is no picture or too large.
    """
    data = read_whole(path, most=MOST_FILE_BYTES)
    image = _decoded(data, LONGEST_PX, where=path.name)
    flat = QImage(image.size(), QImage.Format.Format_RGB32)  # a new one: texts stay behind
    flat.fill(Qt.GlobalColor.white)
    painter = QPainter(flat)
    painter.drawImage(0, 0, image)
    painter.end()
    kept = QByteArray()
    buffer = QBuffer(kept)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    flat.save(buffer, "JPEG", 85)  # type: ignore[call-overload]
    return bytes(kept.data())


def opened(folder: PictureFolder, name: str, longest_px: int) -> QImage:
    """A kept picture, no side longer than so many pixels. Raises CoachError where it is gone."""
    return _decoded(folder.read(name), longest_px, where=name)


def thumbnail(folder: PictureFolder, name: str, ratio: float = 1.0) -> QImage:
    """A small form of a kept picture. Raises CoachError where it is gone or damaged."""
    image = opened(folder, name, round(THUMB_PX * ratio))
    image.setDevicePixelRatio(ratio)
    return image


def _decoded(data: bytes, longest_px: int, *, where: str) -> QImage:
    """The picture in `data`, no side longer than so many pixels."""
    kept = QByteArray(data)
    buffer = QBuffer(kept)
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    reader = QImageReader(buffer)
    reader.setDecideFormatFromContent(True)
    reader.setAutoTransform(True)
    kind, size = bytes(reader.format().data()).decode(), reader.size()
    if kind not in KINDS or not size.isValid() or size.isEmpty():
        raise CoachError(
            tr("That is no picture that can be read."),
            where=where,
            mend=tr("Choose a JPEG, PNG or WebP picture."),
        )
    if size.width() * size.height() > MOST_PIXELS:
        raise CoachError(
            tr(
                "The picture has {wide} × {high} pixels; at most {most} million are read.",
                wide=size.width(),
                high=size.height(),
                most=MOST_PIXELS // 1_000_000,
            ),
            where=where,
            mend=tr("Save it smaller, then add it again."),
        )
    if max(size.width(), size.height()) > longest_px:
        target = QSize(longest_px, longest_px)
        reader.setScaledSize(size.scaled(target, Qt.AspectRatioMode.KeepAspectRatio))
    image = reader.read()
    if image.isNull():
        raise CoachError(tr("The picture is damaged."), where=where, mend=tr("Choose another one."))
    return image
