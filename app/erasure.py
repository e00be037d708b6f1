"""Erasing a client: what goes, which copies still hold the person, and what stays out of reach.

The file is written anew without the client, pictures are removed, and copies beside the file are
rewritten, deleted or left as the coach says. Printed booklets, files that were saved elsewhere and
copies on other disks are beyond us, and that is said.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum
from pathlib import Path

from app.desk import Desk
from app.domain.client import ClientId
from app.domain.errors import CoachError
from app.picture_folder import PictureFolder
from db.backup import all_copies
from db.erasing import Footprint, holds, rewrite
from db.store import Store


class Wish(StrEnum):
    """What is to become of copies that hold the client."""

    REWRITE = "rewrite"
    DELETE = "delete"
    LEAVE = "leave"


@dataclass(frozen=True, slots=True)
class Copy:
    """A copy beside the file. at: when it was made; readable: False if nobody knows what it holds,
    because it is damaged or locked with another passphrase.
    """

    path: Path
    at: datetime
    readable: bool = True


@dataclass(frozen=True, slots=True)
class Erased:
    """What was done: copies rewritten, deleted, and those that still hold the client or may.

    pictures_left: pictures that could not be removed; mentions: rows of others that name the
    client in their own texts.
    """

    rewritten: tuple[Path, ...] = ()
    deleted: tuple[Path, ...] = ()
    left: tuple[Path, ...] = ()
    pictures_left: int = 0
    mentions: int = 0


def held_on(store: Store, client_id: ClientId) -> Footprint:
    """How much the file holds on the client. Raises StoreFailure if there is none of that id."""
    return store.footprint(client_id)


def pictures_of(store: Store, client_id: ClientId) -> frozenset[str]:
    """The pictures of the client's check-ins."""
    diary = store.load_diary(client_id)
    return frozenset(name for check_in in diary.check_ins for name in check_in.pictures)


def copies_with(store: Store, client_id: ClientId) -> tuple[Copy, ...]:
    """The copies beside the file that hold the client, or that cannot be looked into.

    Pictures under a passphrase that the file no longer has are among these.
    """
    if store.path is None:
        return ()
    found = [
        Copy(path, datetime.fromtimestamp(path.stat().st_mtime).astimezone(), readable=False)
        for path in PictureFolder(store.path, store.key).sealed()
    ]
    for path in all_copies(store.path):
        at = datetime.fromtimestamp(path.stat().st_mtime).astimezone()
        try:
            if holds(path, client_id, key=store.key):
                found.append(Copy(path, at))
        except CoachError:
            found.append(Copy(path, at, readable=False))
    return tuple(found)


def spared_pictures(desk: Desk, client_id: ClientId) -> frozenset[str]:
    """Pictures that steps of other clients can still bring back."""
    return frozenset(
        name
        for work in desk.seen()
        if work.client.id != client_id and work.diary is not None
        for check_in in work.diary.check_ins
        for name in check_in.pictures
    )


def erase(
    store: Store,
    client_id: ClientId,
    *,
    copies: tuple[Copy, ...] = (),
    wish: Wish = Wish.LEAVE,
    spare: frozenset[str] = frozenset(),
    step: Callable[[int], object] = lambda _done: None,
) -> Erased:
    """Removes the client from the file for good, and from its copies as wished.

    spare: pictures that stay although no check-in names them; step: told how many files are done.
    Raises StoreFailure, with the file as it was.
    """
    name = store.footprint(client_id).name
    store.erase_client(client_id)
    step(1)
    pictures_left = _remove_pictures(store, spare)
    rewritten, deleted, left = [], [], []
    for done, copy in enumerate(copies, 2):
        try:
            if wish is Wish.DELETE:
                copy.path.unlink(missing_ok=True)
                deleted.append(copy.path)
            elif wish is Wish.REWRITE and copy.readable:
                rewrite(copy.path, client_id, key=store.key)
                rewritten.append(copy.path)
            else:
                left.append(copy.path)
        except (CoachError, OSError):
            left.append(copy.path)
        step(done)
    return Erased(
        tuple(rewritten), tuple(deleted), tuple(left), pictures_left, store.mentions(name)
    )


def _remove_pictures(store: Store, spare: frozenset[str]) -> int:
    """Removes the pictures that nobody names any more; how many could not be."""
    if store.path is None:
        return 0
    folder = PictureFolder(store.path, store.key)
    left = 0
    try:
        gone = folder.names() - store.picture_names() - spare
    except CoachError:
        return 0
    for name in gone:
        try:
            folder.remove([name])
        except CoachError:
            left += 1
    return left


def put_away(desk: Desk, client_id: ClientId) -> None:
    """Drops what the desk has of the client: what is open, and every step that can be undone."""
    desk.forget_steps(client_id)
    if desk.work is not None and desk.client.id == client_id:
        desk.close()
