"""What the strength in one exercise says of that in a related one, as shipped."""

from __future__ import annotations

from functools import cache

from app.domain.transfer import Related, related_from_mappings
from app.resources.files import read_toml
from app.resources.shipped import catalogue

FILE = "related_strength.toml"


@cache
def related_strength() -> tuple[Related, ...]:
    """All shipped relations, in the order of the file. Raises ResourceError on a broken one."""
    entries = read_toml(FILE).get("related", ())
    return related_from_mappings(entries, known=catalogue(), source=FILE)
