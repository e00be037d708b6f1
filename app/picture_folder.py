"""The folder beside the coach's file that keeps the pictures of check-ins.

The file itself holds their names alone. Folder and pictures are for their owner only; pictures lie
there as they are, also where the file is locked with a passphrase.
"""

from __future__ import annotations

import os
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path

from app.domain.errors import CoachError
from app.domain.wording import tr
from app.exchange.files import read_whole, told

MOST_BYTES = 8_000_000
"""No picture kept here is larger: they are made smaller before they come."""

SPARED_S = 3600.0
"""A picture added so recently is never swept away, seconds."""


class PictureFolder:
    """The pictures of one coach's file, by name. The folder is made with the first picture."""

    def __init__(self, file: Path) -> None:
        self.path = file.with_name(f"{file.name}-pictures")

    @classmethod
    def beside(cls, where: str) -> PictureFolder:
        """The folder of the file at `where`. Raises CoachError where there is no file on disk."""
        file = Path(where)
        if not file.is_file():
            raise CoachError(
                tr("Pictures are kept beside the coach's file, and there is none on disk."),
                mend=tr("Keep the file somewhere first."),
            )
        return cls(file)

    def add(self, picture: bytes) -> str:
        """Keep a picture; its new name. Raises FileTrouble where it cannot be written."""
        from secrets import token_hex

        name = f"{token_hex(12)}.jpg"
        self.take_in(name, picture)
        return name

    def take_in(self, name: str, picture: bytes) -> None:
        """Keep a picture that has its name already. Raises FileTrouble if it cannot be written."""
        target = self._place(name)
        with told(target, "write"):
            self.path.mkdir(mode=0o700, exist_ok=True)
            part = self.path / f".{name}"
            part.unlink(missing_ok=True)
            handle = os.open(part, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600)
            try:
                with os.fdopen(handle, "wb") as file:
                    file.write(picture)
                    file.flush()
                    os.fsync(file.fileno())
                part.replace(target)
            finally:
                with suppress(OSError):
                    part.unlink(missing_ok=True)

    def read(self, name: str) -> bytes:
        """The picture of that name. Raises FileTrouble where it is gone or too large."""
        return read_whole(self._place(name), most=MOST_BYTES)

    def has(self, name: str) -> bool:
        """True if the picture is there."""
        return self._place(name).is_file()

    def remove(self, names: Iterable[str]) -> None:
        """Remove pictures for good; what is gone already is no trouble. Raises FileTrouble."""
        for name in names:
            place = self._place(name)
            with told(place, "write"):
                place.unlink(missing_ok=True)

    def names(self) -> frozenset[str]:
        """The pictures that are there."""
        if not self.path.is_dir():
            return frozenset()
        with told(self.path, "read"):
            return frozenset(p.name for p in self.path.iterdir() if p.suffix == ".jpg")

    def sweep(self, named: frozenset[str], *, now: float) -> int:
        """Remove pictures that nobody names any more; how many. now: seconds since 1970.

        Those added within the last hour stay: another window may be about to name them. Raises
        FileTrouble.
        """
        gone = [
            name
            for name in self.names() - named
            if self._place(name).stat().st_mtime < now - SPARED_S
        ]
        self.remove(gone)
        return len(gone)

    def _place(self, name: str) -> Path:
        """Where a picture lies; a name never leads out of the folder."""
        if not name or Path(name).name != name or name.startswith(".") or "\\" in name:
            raise CoachError(tr("{name!r} is no name of a picture.", name=name))
        return self.path / name
