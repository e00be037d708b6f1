"""A mark is read with care: kinds, sizes and damage are told apart; only pixels stay."""

from __future__ import annotations

import struct
import zlib
from dataclasses import replace
from io import BytesIO

import pikepdf
import pytest
from PIL import Image, PngImagePlugin

from app.booklet import BookletError, Options, Paper, make
from app.booklet.mark import KEPT_PIXELS, MOST_BYTES, read_mark
from tests.booklet.sample import content, issue, season


def picture(size=(300, 120), mode="RGB", kind="PNG", **how) -> bytes:
    out = BytesIO()
    Image.new(mode, size, "#7A2558" if mode != "L" else 90).save(out, kind, **how)
    return out.getvalue()


def bomb(width: int, height: int) -> bytes:
    """A PNG that claims a size and holds nothing."""
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)

    def chunk(kind: bytes, data: bytes) -> bytes:
        return (
            struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))
        )

    data = chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"")) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + data


@pytest.mark.parametrize(
    "data",
    [
        picture(),
        picture(kind="JPEG"),
        picture(mode="RGBA"),
        picture(mode="L"),
        picture((2000, 800)),
    ],
    ids=["png", "jpeg", "clear", "grey", "large"],
)
def test_a_picture_becomes_a_small_png(data: bytes):
    kept = Image.open(BytesIO(read_mark(data)))
    before = Image.open(BytesIO(data)).size
    assert kept.format == "PNG"
    assert max(kept.size) <= KEPT_PIXELS
    assert kept.size[0] / kept.size[1] == pytest.approx(before[0] / before[1], rel=0.02)


def test_nothing_but_pixels_stays():
    words = PngImagePlugin.PngInfo()
    words.add_text("Comment", "taken at home")
    assert b"taken at home" not in read_mark(picture(pnginfo=words))


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"", "neither a PNG nor a JPEG"),
        (b"<svg/>", "neither a PNG nor a JPEG"),
        (picture(kind="GIF"), "neither a PNG nor a JPEG"),
        (picture()[:-30], "damaged"),
        (bomb(20_000, 20_000), "20000 by 20000|neither"),
        (bomb(300_000, 300_000), "300000 by 300000|neither"),
        (b"x" * (MOST_BYTES + 1), "more than 4 MB"),
    ],
    ids=["empty", "drawing", "gif", "half", "bomb", "great bomb", "heavy"],
)
def test_what_is_no_small_picture_is_refused_with_a_mend(data: bytes, words: str):
    with pytest.raises(BookletError, match=words) as told:
        read_mark(data)
    assert "Choose a PNG or JPEG" in told.value.mend


@pytest.mark.parametrize("paper", Paper)
@pytest.mark.parametrize("grey", [False, True])
def test_it_stands_on_the_cover_once_and_is_the_same_each_time(paper: Paper, grey: bool):
    what = replace(content(), mark=read_mark(picture(mode="RGBA")))
    options = Options(paper=paper, grey=grey, weeks=(1, 1))
    data = make(issue(season(1)), what, options)
    assert make(issue(season(1)), what, options) == data
    pdf = pikepdf.open(BytesIO(data))
    assert len(pdf.pages[0].get_images()) == 1
    assert not any(page.get_images() for page in pdf.pages[1:])
