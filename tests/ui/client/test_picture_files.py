from __future__ import annotations

import struct
import zlib

import pytest
from PySide6.QtCore import QBuffer, QByteArray, QIODevice
from PySide6.QtGui import QColor, QImage, QImageReader

from app.domain.errors import CoachError
from app.picture_folder import PictureFolder
from app.ui.client.picture_files import LONGEST_PX, THUMB_PX, prepared, thumbnail


def saved(path, width=40, height=30, kind="PNG"):
    image = QImage(width, height, QImage.Format.Format_ARGB32)
    image.fill(QColor("#7A2558"))
    image.setText("Description", "Runa at home")
    assert image.save(str(path), kind)
    return path


def opened(data):
    kept = QByteArray(data)
    buffer = QBuffer(kept)
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    reader = QImageReader(buffer)
    kind = bytes(reader.format().data()).decode()
    return reader.read(), kind


def test_what_is_kept_is_a_plain_small_jpeg(qapp, tmp_path):
    data = prepared(saved(tmp_path / "large.png", 3000, 1500))
    image, kind = opened(data)
    assert kind == "jpeg"
    assert (image.width(), image.height()) == (LONGEST_PX, LONGEST_PX // 2)
    assert b"Runa" not in data
    assert b"Exif" not in data


def test_a_small_picture_stays_as_large_as_it_is(qapp, tmp_path):
    image, _ = opened(prepared(saved(tmp_path / "small.png")))
    assert (image.width(), image.height()) == (40, 30)


def head_of_a_huge_png(path, side=30_000):
    """A PNG that says it has 900 million pixels, and holds none."""

    def chunk(kind, data):
        whole = kind + data
        return struct.pack(">I", len(data)) + whole + struct.pack(">I", zlib.crc32(whole))

    head = struct.pack(">IIBBBBB", side, side, 8, 2, 0, 0, 0)
    path.write_bytes(
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", b"") + chunk(b"IEND", b"")
    )
    return path


def test_a_huge_picture_is_refused_before_it_is_decoded(qapp, tmp_path, monkeypatch):
    monkeypatch.setattr(QImageReader, "read", lambda _self: pytest.fail("was decoded"))
    with pytest.raises(CoachError, match=r"30000 × 30000 pixels; at most 60 million"):
        prepared(head_of_a_huge_png(tmp_path / "huge.png"))


@pytest.mark.parametrize("data", [b"", b"no picture", b"<svg xmlns='http://www.w3.org/2000/svg'/>"])
def test_what_is_no_picture_is_refused_whatever_its_name(qapp, tmp_path, data):
    path = tmp_path / "picture.jpg"
    path.write_bytes(data)
    with pytest.raises(CoachError, match="no picture"):
        prepared(path)


def test_a_small_form_of_a_kept_picture(qapp, tmp_path):
    folder = PictureFolder(tmp_path / "coach.weekloom")
    name = folder.add(prepared(saved(tmp_path / "one.png", 400, 200)))
    small = thumbnail(folder, name, 2.0)
    assert (small.width(), small.height()) == (THUMB_PX * 2, THUMB_PX)
    assert small.devicePixelRatio() == 2.0


@pytest.mark.qt_log_ignore("JPEG datastream", extend=True)
def test_a_damaged_picture_is_named(qapp, tmp_path):
    folder = PictureFolder(tmp_path / "coach.weekloom")
    whole = prepared(saved(tmp_path / "one.png", 400, 200))
    name = folder.add(whole[:20])
    with pytest.raises(CoachError):
        thumbnail(folder, name)
