"""The client's booklet: an issue in, PDF bytes out."""

from app.booklet.bind import make
from app.booklet.content import ALL_PARTS, Content, Kind, Options, Paper, Part, Reference
from app.booklet.fonts import BookletError

__all__ = [
    "ALL_PARTS",
    "BookletError",
    "Content",
    "Kind",
    "Options",
    "Paper",
    "Part",
    "Reference",
    "make",
]
