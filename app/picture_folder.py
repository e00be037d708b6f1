"""The folder beside the coach's file that keeps the pictures of check-ins.

The file itself holds their names alone. Folder and pictures are for their owner only. Where the
file is locked with a passphrase, so are its pictures: they lie together in one locked file in the
folder (`db.locked_pictures`). Where it has no lock, each lies there as it is.
"""

from __future__ import annotations

import os
from collections.abc import Iterable, Iterator
from contextlib import contextmanager, suppress
from math import inf
from pathlib import Path
from typing import Protocol

from app.domain.errors import CoachError
from app.domain.wording import tr
from app.exchange.files import FileTrouble, read_whole, told
from db import locked_pictures as locked
from db.passphrase import Passphrase

MOST_BYTES = 8_000_000
"""No picture kept here is larger: they are made smaller before they come."""

SPARED_S = 3600.0
"""A picture added so recently is never swept away, seconds."""

KIND = ".jpg"


class Kept(Protocol):
    """An open file. path: where it is, None in memory; key: its passphrase, None for no lock."""

    path: Path | None
    key: Passphrase | None


class PictureFolder:
    """The pictures of one coach's file, by name. The folder is made with the first picture.

    key: what the file is locked with, None for no lock.
    """

    def __init__(self, file: Path, key: Passphrase | None = None) -> None:
        self.path = file.with_name(f"{file.name}-pictures")
        self.key = key

    @classmethod
    def of(cls, store: Kept) -> PictureFolder:
        """The folder of an open file. Raises CoachError where there is no file on disk."""
        if store.path is None or not store.path.is_file():
            raise CoachError(
                tr("Pictures are kept beside the coach's file, and there is none on disk."),
                mend=tr("Keep the file somewhere first."),
            )
        return cls(store.path, store.key)

    def add(self, picture: bytes) -> str:
        """Keep a picture; its new name. Raises CoachError where it cannot be written."""
        from secrets import token_hex

        name = f"{token_hex(12)}{KIND}"
        self.take_in(name, picture)
        return name

    def take_in(self, name: str, picture: bytes) -> None:
        """Keep a picture that has its name already. Raises CoachError if it cannot be written."""
        target = self._place(name)
        if self.key is None:
            self._write(target, picture)
            return
        with told(self.path, "write"):
            self.path.mkdir(mode=0o700, exist_ok=True)
            there = locked.find(self.path, self.key)
        if there is None:
            locked.make(self.path, self.key, [(name, picture)])
        else:
            locked.add(there, self.key, name, picture)

    def _write(self, target: Path, picture: bytes) -> None:
        with told(target, "write"):
            self.path.mkdir(mode=0o700, exist_ok=True)
            part = self.path / f".{target.name}"
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
        """The picture of that name. Raises CoachError where it is gone or too large."""
        place = self._place(name)
        there = self._locked()
        if there is not None and self.key is not None:
            found = locked.read(there, self.key, name)
            if found is not None:
                return found
        return read_whole(place, most=MOST_BYTES)

    def has(self, name: str) -> bool:
        """True if the picture is there."""
        self._place(name)
        return name in self.names()

    def remove(self, names: Iterable[str]) -> None:
        """Remove pictures for good; what is gone already is no trouble. Raises CoachError."""
        wanted = tuple(names)
        if not wanted:
            return
        places = [self._place(name) for name in wanted]
        there = self._locked()
        if there is not None and self.key is not None:
            locked.remove(there, self.key, wanted)
        for place in places:
            with told(place, "write"):
                place.unlink(missing_ok=True)

    def names(self) -> frozenset[str]:
        """The pictures that are there."""
        return frozenset(self._added())

    def sweep(self, named: frozenset[str], *, now: float) -> int:
        """Remove pictures that nobody names any more; how many. now: seconds since 1970.

        Those added within the last hour stay: another window may be about to name them. Raises
        CoachError.
        """
        gone = [
            name for name, at in self._added().items() if name not in named and at < now - SPARED_S
        ]
        self.remove(gone)
        self.drop_parts(before=now - SPARED_S)
        return len(gone)

    def lock_in(self) -> int:
        """Locks what lies readable beside a locked file; how many pictures that were.

        An earlier Weekloom left them so, or one that ended before it had removed them. Raises
        CoachError, with every picture still there.
        """
        plain = self.plain()
        if self.key is None:
            return 0
        there = self._locked()
        known = frozenset() if there is None else frozenset(locked.added(there, self.key))
        for name in plain:
            if name not in known:
                self.take_in(name, read_whole(self._place(name), most=MOST_BYTES))
        for name in plain:
            with told(self._place(name), "write"):
                self._place(name).unlink(missing_ok=True)
        self.drop_parts()
        return len(plain)

    def plain(self) -> tuple[str, ...]:
        """The names of pictures that lie there as they are. Raises FileTrouble."""
        if not self.path.is_dir():
            return ()
        with told(self.path, "read"):
            found = (p.name for p in self.path.iterdir() if p.suffix == KIND)
            return tuple(sorted(name for name in found if not name.startswith(".")))

    def sealed(self) -> tuple[Path, ...]:
        """Files of pictures that are locked with another passphrase than the file has."""
        if not self.path.is_dir():
            return ()
        with told(self.path, "read"):
            fitting = set() if self.key is None else set(locked.all_for(self.path, self.key))
            return tuple(path for path in locked.all_in(self.path) if path not in fitting)

    def drop_parts(self, *, before: float = inf) -> None:
        """Removes what writers left that were ended in the middle, before that time."""
        with suppress(OSError):
            for part in self.path.glob(f".*{KIND}"):
                if part.stat().st_mtime < before:
                    part.unlink(missing_ok=True)

    def _added(self) -> dict[str, float]:
        """The names of all pictures, with when each came, seconds since 1970."""
        there = self._locked()
        found = {}
        for name in self.plain():
            with suppress(FileNotFoundError):
                found[name] = self._place(name).stat().st_mtime
        if there is not None and self.key is not None:
            found |= locked.added(there, self.key)
        return found

    def _locked(self) -> Path | None:
        if self.key is None or not self.path.is_dir():
            return None
        with told(self.path, "read"):
            return locked.find(self.path, self.key)

    def _place(self, name: str) -> Path:
        """Where a picture lies; a name never leads out of the folder."""
        if not name or Path(name).name != name or name.startswith(".") or "\\" in name:
            raise CoachError(tr("{name!r} is no name of a picture.", name=name))
        return self.path / name


@contextmanager
def relocked(
    file: Path, *, old: Passphrase | None, new: Passphrase | None
) -> Iterator[list[FileTrouble]]:
    """Brings the pictures beside `file` under another lock, as the block does with the file.

    Before the block they stand under both locks; after it under the new one alone, and if it
    raises, under the old one alone. The list tells afterwards what could not be removed. Raises
    CoachError, with the pictures as they were.
    """
    before = PictureFolder(file, old)
    plain = before.plain()
    # what fits the new one by chance (a copy was put back, say) would stand in its way
    superseded = [path for key in (old, new) if key for path in locked.all_for(before.path, key)]
    sources = [before, PictureFolder(file, new)] if new is not None else [before]
    held = {name: folder for folder in reversed(sources) for name in folder.names()}
    pictures = ((name, held[name].read(name)) for name in sorted(held))
    made: list[Path] = []
    trouble: list[FileTrouble] = []
    try:
        if new is None:
            unlocked = PictureFolder(file)
            for name, picture in pictures:
                if name not in plain:
                    made.append(unlocked.path / name)
                    unlocked.take_in(name, picture)
        elif held:
            made.append(locked.make(before.path, new, pictures))
        yield trouble
    except BaseException:
        for path in made:
            with suppress(OSError):
                locked.drop(path)
        raise
    leftovers = superseded
    if new is not None:
        leftovers += [before.path / name for name in plain]
        before.drop_parts()
    for path in leftovers:
        try:
            with told(path, "write"):
                locked.drop(path)
        except FileTrouble as error:
            trouble.append(error)
