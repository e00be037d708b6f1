"""The lock of the file goes for the copies beside it too, where it is wanted and possible."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest

from app.domain.errors import CoachError
from app.locking import change_lock, copies_of, require_new, require_present
from db.backup import back_up, copy_aside
from db.passphrase import Passphrase, looks_locked
from db.relock import relock
from db.store import Store
from tests.db.samples import PLAN, filled_file
from tests.db.test_passphrase import KEY, OTHER


@pytest.fixture
def store(tmp_path: Path) -> Iterator[Store]:
    path = filled_file(tmp_path / "coach.db")
    back_up(path, at=datetime(2026, 11, 20, 20, tzinfo=UTC))
    copy_aside(path, "before-upgrade-from-0001")
    made = Store.open(path)
    yield made
    made.close()


def test_the_file_and_its_copies_are_locked_changed_and_unlocked(store):
    for new in (KEY, OTHER, None):
        told: list[int] = []
        changed = change_lock(store, new, copies=True, step=told.append)
        assert (changed.copies, changed.left, told) == (2, (), [1, 2, 3])
        assert {looks_locked(copy) for copy in copies_of(store)} == {new is not None}
        assert store.load_program(PLAN.id) == PLAN
        assert store.key == new


def test_copies_stay_as_they_are_where_that_is_wanted(store):
    assert change_lock(store, KEY, copies=False).copies == 0
    assert not any(looks_locked(copy) for copy in copies_of(store))


def test_a_copy_with_another_passphrase_stays_and_is_named(store):
    odd = copies_of(store)[0]
    relock(odd, old=None, new=OTHER)
    changed = change_lock(store, KEY, copies=True)
    assert (changed.copies, changed.left) == (1, (odd,))
    store.close()


def test_two_passphrases_that_differ_and_a_weak_one_are_refused():
    for first, second in (("a long ridge", "a long rigde"), ("short", "short")):
        with pytest.raises(CoachError):
            require_new(first, second)
    assert require_new("a long ridge", "a long ridge") == Passphrase("a long ridge")


def test_only_the_present_passphrase_passes(store):
    store.change_passphrase(KEY)
    require_present(store, KEY)
    with pytest.raises(CoachError):
        require_present(store, OTHER)
