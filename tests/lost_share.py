"""A file whose place went away while it is open: every read fails, as on a share that is gone.

The open file is swapped for a folder beneath SQLite's feet, which the system refuses to read.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

on_linux = pytest.mark.skipif(
    not sys.platform.startswith("linux"), reason="open files are found through /proc"
)


def _open_files(path: Path) -> list[int]:
    return [int(link.name) for link in Path("/proc/self/fd").iterdir() if _leads_to(link, path)]


def _leads_to(link: Path, path: Path) -> bool:
    try:
        return link.readlink() == path.resolve()
    except OSError:  # closed meanwhile
        return False


@contextmanager
def out_of_reach(path: Path) -> Iterator[None]:
    """While it lasts, nothing of the file at `path` can be read or found; then it is back."""
    away = path.with_name(f"{path.name}.away")
    opened = _open_files(path)
    assert opened, "the file is not open"
    kept = [(number, os.dup(number)) for number in opened]
    folder = os.open(path.parent, os.O_RDONLY)
    for number in opened:
        os.dup2(folder, number)
    os.close(folder)
    path.rename(away)
    try:
        yield
    finally:
        if not path.exists():
            away.rename(path)
        for number, spare in kept:
            if _leads_to(Path(f"/proc/self/fd/{number}"), path.parent):
                os.dup2(spare, number)
            os.close(spare)
