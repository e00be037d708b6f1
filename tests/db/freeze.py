"""Freezes the newest revision for good: `python -m tests.db.freeze` after a new migration.

Writes a dump of a filled file, and the values it holds, into `schemas`. A frozen revision is
never written again: it stands for the files that coaches have.
"""

from __future__ import annotations

import sqlite3
import sys
import tempfile
from contextlib import closing
from pathlib import Path

from db.canonical import encode
from db.engine import APPLICATION_ID
from db.schema import HEAD, SCHEMA
from tests.db.samples import DIARY, PLAN, RUNA, filled_file

SCHEMAS = Path(__file__).parent / "schemas"


def dump(path: Path) -> str:
    """The SQL that makes the file anew, with the marks in its header."""
    with closing(sqlite3.connect(path)) as connection:
        lines = list(connection.iterdump())
    marks = [f"PRAGMA application_id = {APPLICATION_ID};", f"PRAGMA user_version = {SCHEMA};"]
    return "\n".join([*marks, *lines, ""])


def main() -> int:
    """Writes the files of the newest revision; refuses to write over them."""
    target = SCHEMAS / f"{HEAD}.sql"
    if target.exists():
        sys.stderr.write(f"{target.name} is frozen already.\n")
        return 1
    with tempfile.TemporaryDirectory() as folder:
        target.write_text(dump(filled_file(Path(folder, "coach.weekloom"))), encoding="utf-8")
    for name, value in (("client", RUNA), ("program", PLAN), ("diary", DIARY)):
        text = encode(value) + "\n"
        (SCHEMAS / f"{HEAD}.{name}.json").write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
