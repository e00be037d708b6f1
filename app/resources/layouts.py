"""The layouts that a program can begin with."""

from __future__ import annotations

from functools import cache

from app.domain.layout import Layout, layout_from_mapping
from app.resources.files import read_toml

FILE = "layouts.toml"


@cache
def layouts() -> tuple[Layout, ...]:
    """The shipped layouts, in the order of the file."""
    return tuple(
        layout_from_mapping(key, entry if isinstance(entry, dict) else {}, source=FILE)
        for key, entry in read_toml(FILE).items()
    )
