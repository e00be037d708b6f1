"""What must not stand in the sources: a machine's own paths, marks of unfinished work."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
TEXT = {".py", ".toml", ".json", ".md", ".txt", ".xml", ".desktop", ".sql", ".csv", ".svg", ".ini"}
FOLDERS = ("app", "db", "packaging", "resources", "tests", ".ci")
FILES = sorted(
    path.relative_to(ROOT)
    for folder in FOLDERS
    for path in (ROOT / folder).rglob("*")
    if path.is_file() and (path.suffix in TEXT or path.name == "run")
) + [path.relative_to(ROOT) for path in sorted(ROOT.glob("*.*")) if path.suffix in TEXT]

# Written so that this file does not find itself.
MACHINE_PATHS = re.compile(r"(?<![\w.~])/(?:work|root|home/\w+|Users/\w+|tmp)/\w")
UNFINISHED = re.compile(r"\b(?:[T]ODO|[F]IXME|[X]XX|[H]ACK)\b")
FILLER = re.compile(r"\blorem\s+ipsum\b", re.IGNORECASE)


def lines_with(pattern: re.Pattern[str], file: Path) -> list[str]:
    """The file's lines that hold the pattern, with their numbers."""
    lines = (ROOT / file).read_text(encoding="utf-8").splitlines()
    return [f"{file}:{n}: {line}" for n, line in enumerate(lines, 1) if pattern.search(line)]


@pytest.mark.parametrize("file", FILES, ids=[path.as_posix() for path in FILES])
def test_a_file_speaks_of_no_machine_and_hides_no_unfinished_work(file: Path) -> None:
    for pattern in (MACHINE_PATHS, UNFINISHED, FILLER):
        assert lines_with(pattern, file) == []
