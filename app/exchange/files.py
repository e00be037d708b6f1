"""Whole files in and out: read up to a limit, written beside and then renamed.

Half a file never stands under the name that was asked for.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from app.domain.errors import CoachError
from app.domain.wording import mark, tr

_MENDS = (
    (PermissionError, mark("You may not {verb} there."), mark("Choose a folder of your own.")),
    (FileNotFoundError, mark("There is no such file or folder."), mark("Check the name.")),
    (IsADirectoryError, mark("That is a folder."), mark("Name a file in it.")),
    (
        NotADirectoryError,
        mark("A part of the path is a file, not a folder."),
        mark("Check the name."),
    ),
    (
        FileExistsError,
        mark("A file stands where the folder should be."),
        mark("Choose another name."),
    ),
)


_TAKEN = frozenset({"con", "prn", "aux", "nul"}) | {
    f"{port}{number}" for port in ("com", "lpt") for number in range(1, 10)
}
"""Names that some systems keep for devices, whatever ending they have."""


class FileTrouble(CoachError):
    """A file that cannot be read or written, and why."""


@contextmanager
def told(path: Path, verb: str) -> Iterator[None]:
    """Turns what the system says about `path` into a sentence; verb: 'read' or 'write'."""
    try:
        yield
    except OSError as error:
        for kind, what, mend in _MENDS:
            if isinstance(error, kind):
                raise FileTrouble(
                    tr(what, verb=tr(verb)), where=str(path), mend=tr(mend)
                ) from error
        raise FileTrouble(
            tr(
                "The system could not {verb} it ({strerror}).",
                verb=tr(verb),
                strerror=error.strerror,
            ),
            where=str(path),
            mend=tr("Check the disk and its free space, then try again."),
        ) from error


def read_file(path: Path, *, most: int) -> bytes:
    """The bytes of a file, but at most one more than `most`, so that nobody reads for ever."""
    with told(path, "read"), path.open("rb") as file:
        return file.read(most + 1)


def read_whole(path: Path, *, most: int) -> bytes:
    """The bytes of a file of at most `most`. Raises FileTrouble with the size of a larger one."""
    data = read_file(path, most=most)
    if len(data) <= most:
        return data
    with told(path, "read"):
        size = path.stat().st_size
    # what is no file on a disk has no size to tell
    has = f"{size:,}" if size > most else tr("more than {most:,}", most=most)
    raise FileTrouble(
        tr("The file has {has} bytes; at most {most:,} are read.", has=has, most=most),
        where=str(path),
        mend=tr("Choose a file that Weekloom wrote."),
    )


def write_file(path: Path, data: bytes) -> None:
    """Writes the file whole: beside it first, then in its place. Raises FileTrouble."""
    with told(path, "write"):
        handle, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
        beside = Path(name)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
            beside.chmod(_mode(path))
            beside.replace(path)
        finally:
            with suppress(OSError):
                beside.unlink(missing_ok=True)


def _mode(path: Path) -> int:
    """The rights of the file that is replaced; a new one is its owner's alone."""
    with suppress(OSError):
        return path.stat().st_mode & 0o777
    return 0o600


def make_folder(path: Path) -> None:
    """Makes the folder and those above it, if they are not there yet, each the owner's alone.

    Raises FileTrouble.
    """
    wanted, missing = path, []
    while not path.exists() and path not in missing:
        missing.append(path)
        path = path.parent
    with told(wanted, "write"):
        for folder in reversed(missing):
            folder.mkdir(mode=0o700, exist_ok=True)
        path.mkdir(exist_ok=True)  # says what stands there instead


def safe_name(*words: str) -> str:
    """A file name without spaces or signs that any system takes: 'runa-estvik-ridge-season'."""
    kept = "".join(letter if letter.isalnum() else "-" for letter in " ".join(words).lower())
    name = "-".join(part for part in kept.split("-") if part)[:80].strip("-") or "plan"
    return f"{name}-plan" if name in _TAKEN else name
