"""The data that Weekloom ships with, as domain values.

`resources/` holds text that a coach could read. This package finds that folder, reads it once and
hands out values; it never writes. What breaks a rule is refused with a `ResourceError` that names
the file, the entry, the field, the value found and the values allowed.
"""

from __future__ import annotations

from app.resources.entry import Entry
from app.resources.exercise_entries import (
    exercise_from_values,
    exercises_from_toml,
    refuse_loose_relatives,
)
from app.resources.files import data, font_path, path_of, read_toml, text
from app.resources.shipped import (
    MuscleName,
    Reference,
    catalogue,
    muscle_names,
    poses,
    range_book,
    references,
)

__all__ = [
    "Entry",
    "MuscleName",
    "Reference",
    "catalogue",
    "data",
    "exercise_from_values",
    "exercises_from_toml",
    "font_path",
    "muscle_names",
    "path_of",
    "poses",
    "range_book",
    "read_toml",
    "references",
    "refuse_loose_relatives",
    "text",
]
