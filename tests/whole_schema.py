"""Writes the published schema of the whole-file export: `python -m tests.whole_schema`.

Run it after a new migration; an export of an older schema is read by the tables of that schema.
"""

from __future__ import annotations

import json
from pathlib import Path

from app.whole import SCHEMA, schema_of_tables
from db.schema import HEAD

PLACE = Path(__file__).resolve().parents[1] / "resources" / SCHEMA


def text() -> str:
    """The schema as it is published."""
    return json.dumps(schema_of_tables(HEAD), indent=2) + "\n"


if __name__ == "__main__":
    PLACE.write_text(text(), encoding="utf-8")
