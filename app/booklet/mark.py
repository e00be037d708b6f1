"""The coach's mark: a small picture on the cover, read with care and kept as a small PNG."""

from __future__ import annotations

from io import BytesIO

from reportlab.lib.utils import ImageReader

from app.booklet.fonts import BookletError
from app.booklet.pen import Box, Pen
from app.domain.wording import tr

MOST_BYTES = 4_000_000
MOST_PIXELS = 16_000_000
KEPT_PIXELS = 600
"""The longer side of what is kept: 300 dots an inch on the cover's 50 mm."""

MOST_MM = (40.0, 15.0)
"""Width and height that a mark is fitted into."""

SMALL_MM = (26.0, 11.0)
"""The same on small paper."""


def read_mark(data: bytes) -> bytes:
    """The picture as a small PNG without anything but its pixels.

    Raises BookletError for what is neither PNG nor JPEG, damaged, or larger than MOST_BYTES or
    MOST_PIXELS; the size is looked at before a pixel is read.
    """
    from PIL import Image, UnidentifiedImageError

    if len(data) > MOST_BYTES:
        raise _error(tr("The picture has more than {mb} MB.", mb=MOST_BYTES // 1_000_000))
    try:
        with Image.open(BytesIO(data), formats=("PNG", "JPEG")) as picture:
            width, height = picture.size
            if width * height > MOST_PIXELS:
                raise _error(
                    tr("The picture has {width} by {height} dots.", width=width, height=height)
                )
            small = picture.convert("RGBA" if picture.mode in ("RGBA", "LA", "P") else "RGB")
    except (UnidentifiedImageError, Image.DecompressionBombError):
        raise _error(tr("The file is neither a PNG nor a JPEG picture.")) from None
    except (OSError, ValueError, SyntaxError) as problem:  # the library's words for damage
        raise _error(tr("The picture is damaged or half written.")) from problem
    small.thumbnail((KEPT_PIXELS, KEPT_PIXELS))
    bare = Image.frombytes(small.mode, small.size, small.tobytes())  # no metadata comes along
    out = BytesIO()
    bare.save(out, "PNG", optimize=True)
    return out.getvalue()


def _error(what: str) -> BookletError:
    return BookletError(
        what,
        where=tr("Mark"),
        mend=tr("Choose a PNG or JPEG picture of at most {n} million dots.", n=16),
    )


def draw_mark(
    pen: Pen,
    mark: bytes,
    *,
    right: float,
    top: float,
    grey: bool,
    most: tuple[float, float] = MOST_MM,
) -> Box:
    """Draw a mark with its upper right corner at a place; gives back where it stands."""
    from PIL import Image

    with Image.open(BytesIO(mark), formats=("PNG",)) as picture:
        width, height = picture.size
        drawn = picture.convert("LA").convert("RGBA") if grey else picture.convert("RGBA")
    wide, tall = most
    scale = min(wide / width, tall / height)
    box = Box(right - width * scale, top, width * scale, height * scale)
    left_pt, bottom_pt = pen.at(box.x, box.bottom)
    right_pt, top_pt = pen.at(box.right, box.y)
    size = (right_pt - left_pt, top_pt - bottom_pt)
    pen.canvas.drawImage(ImageReader(drawn), left_pt, bottom_pt, *size, mask="auto")
    pen.forget()
    return box
