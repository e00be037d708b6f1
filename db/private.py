"""Files and folders that only their owner can read, whatever the mask of the process says."""

from __future__ import annotations

import os
from pathlib import Path

FILE_MODE = 0o600
FOLDER_MODE = 0o700


def make_private(path: Path) -> None:
    """Makes an empty file of the owner's alone, in the place of an earlier one.

    Raises OSError.
    """
    path.unlink(missing_ok=True)
    os.close(os.open(path, os.O_CREAT | os.O_EXCL | os.O_RDWR, FILE_MODE))


def make_private_folder(path: Path) -> None:
    """Makes the folder and those above it that are not there, each the owner's alone.

    A folder that is there keeps its rights. Raises OSError.
    """
    missing = []
    folder = path
    while not folder.exists():
        missing.append(folder)
        folder = folder.parent
    for each in reversed(missing):
        each.mkdir(mode=FOLDER_MODE, exist_ok=True)
    if not path.is_dir():
        path.mkdir(mode=FOLDER_MODE)  # says what stands there instead
