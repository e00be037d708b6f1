"""The lock of the coach's file and of the copies beside it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from app.domain.errors import CoachError
from app.domain.wording import tr
from app.picture_folder import relocked
from db.backup import all_copies
from db.errors import Cause, StoreFailure
from db.passphrase import Passphrase, looks_locked, new_passphrase
from db.relock import relock
from db.store import Store


@dataclass(frozen=True, slots=True)
class Changed:
    """What became of the copies: how many were changed as well, and which stayed as they were.

    pictures_left: where pictures still lie as they were before, since they could not be removed.
    """

    copies: int = 0
    left: tuple[Path, ...] = ()
    pictures_left: int = 0


def copies_of(store: Store) -> tuple[Path, ...]:
    """All copies in the folder beside the file, those put aside too."""
    return () if store.path is None else all_copies(store.path)


def require_new(first: str, second: str) -> Passphrase:
    """The new passphrase. Raises CoachError for a weak one, or two that differ."""
    made = new_passphrase(first)
    if Passphrase(second) != made:
        raise CoachError(
            tr("The two passphrases differ."), mend=tr("Type the same passphrase in both fields.")
        )
    return made


def require_present(store: Store, typed: Passphrase) -> None:
    """Raises CoachError unless that is the passphrase of the open file."""
    if store.key != typed:
        raise CoachError(
            tr("That is not the passphrase of the file."),
            mend=tr("Type the passphrase the file was opened with."),
        )


def change_lock(
    store: Store,
    new: Passphrase | None,
    *,
    copies: bool,
    step: Callable[[int], object] = lambda _done: None,
) -> Changed:
    """Locks the file and its pictures with another passphrase, or with None takes the lock away.

    copies: do the same with the copies beside it; one that opens with neither passphrase stays as
    it is. step: told after the file and after each copy how many are done. Raises CoachError,
    with the file as it was.
    """
    old = store.key
    if store.path is None:
        raise StoreFailure(Cause.READ_ONLY, where=store.where)
    with relocked(store.path, old=old, new=new) as pictures_left:
        store.change_passphrase(new)
    step(1)
    left = []
    changed = 0
    for done, copy in enumerate(copies_of(store) if copies else (), 2):
        try:
            if not _is_so(copy, new):
                relock(copy, old=old, new=new)
                changed += 1
        except CoachError:
            left.append(copy)
        step(done)
    return Changed(changed, tuple(left), len(pictures_left))


def _is_so(copy: Path, new: Passphrase | None) -> bool:
    """True for a copy without a lock where none is wanted."""
    return new is None and not looks_locked(copy)
