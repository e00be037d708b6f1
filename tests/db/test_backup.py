"""Copies are whole, dated, kept for a while, and can be put back."""

from __future__ import annotations

import os
import random
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from db import backup
from db.backup import (
    TIERS,
    back_up,
    backup_folder,
    copies,
    copy_aside,
    drop_old,
    is_due,
    restore,
    to_drop,
    verify,
)
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.db.samples import PLAN, RUNA, filled_file

NOON = datetime(2026, 11, 25, 12, 0, 0, tzinfo=UTC)


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return filled_file(tmp_path / "coach.weekloom")


def holds_everything(path: Path) -> bool:
    store = Store.open(path)
    try:
        return store.load_program(PLAN.id) == PLAN and store.load_client(RUNA.id) == RUNA
    finally:
        store.close()


def test_a_copy_holds_everything_while_the_file_is_open(file):
    store = Store.open(file)
    copy = back_up(file, at=NOON)
    assert copy == file.parent / "coach-backups" / "coach-20261125-120000.weekloom"
    store.set_setting("open", "still here")
    assert holds_everything(copy)
    store.close()


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps rights elsewhere")
def test_a_copy_is_the_coachs_alone(file):
    copy = back_up(file)
    assert copy.stat().st_mode & 0o777 == 0o600
    assert copy.parent.stat().st_mode & 0o777 == 0o700


def test_two_copies_in_a_second_are_two_files(file):
    first, second = back_up(file, at=NOON), copy_aside(file, reason="before-restore")
    third = back_up(file, at=NOON)
    assert len({first, second, third}) == 3
    assert third.name == "coach-20261125-120000~2.weekloom"


@given(st.lists(st.integers(0, 2 * 365 * 24 * 60), max_size=60))
def test_the_newest_copy_and_one_of_each_kept_span_always_stay(minutes):
    stamps = {NOON - timedelta(minutes=minute) for minute in minutes}
    kept = stamps - to_drop(stamps)
    assert len(kept) <= sum(number for _, number in TIERS)
    if stamps:
        assert max(stamps) in kept
    for form, number in TIERS:
        spans = sorted({stamp.strftime(form) for stamp in stamps}, reverse=True)[:number]
        assert set(spans) <= {stamp.strftime(form) for stamp in kept}


def test_hourly_copies_of_a_year_thin_out():
    year = [NOON - timedelta(hours=hour) for hour in range(24 * 365)]
    kept = sorted(set(year) - to_drop(year), reverse=True)
    assert kept[:24] == year[:24]
    assert len(kept) < 24 + 14 + 8 + 6
    assert kept[-1] < NOON - timedelta(days=140)


def test_a_clock_that_ran_ten_years_ahead_costs_no_copy():
    good = [NOON - timedelta(days=day) for day in range(5)]
    wrong = NOON + timedelta(days=3653)
    assert to_drop([*good, wrong]) == frozenset()


def test_old_copies_go_and_those_put_aside_on_purpose_stay(file):
    aside = copy_aside(file, reason="before-upgrade-from-0001")
    folder = backup_folder(file)
    for minute in range(5):
        back_up(file, at=NOON + timedelta(minutes=minute))
    plain = [copy for _, copy in copies(folder, file)]
    assert [copy.name for copy in plain] == ["coach-20261125-120400.weekloom"]
    assert aside.exists()
    assert drop_old(folder, file) == ()


def test_files_of_others_in_the_folder_are_left_alone(file):
    folder = backup_folder(file)
    folder.mkdir()
    for name in ("coach-notes.weekloom", "coach-20261125-120000.txt", "other.weekloom"):
        (folder / name).write_text("not a copy", encoding="utf-8")
    back_up(file, at=NOON)
    assert len(list(folder.iterdir())) == 4


def test_a_damaged_file_is_not_copied_and_costs_no_older_copy(file):
    good = back_up(file, at=NOON)
    content = bytearray(file.read_bytes())
    dice = random.Random(1)
    for _ in range(2000):
        content[dice.randrange(4096, len(content))] = dice.randrange(256)
    file.write_bytes(content)
    with pytest.raises(StoreFailure) as refused:
        back_up(file, at=NOON + timedelta(minutes=1))
    assert refused.value.cause is Cause.DAMAGED
    assert list(backup_folder(file).iterdir()) == [good]


def test_a_copy_that_lacks_rows_does_not_count(file, monkeypatch):
    monkeypatch.setattr(backup, "_check", lambda _path, _key: {"clients": 0})
    with pytest.raises(StoreFailure):
        back_up(file)
    assert list(backup_folder(file).iterdir()) == []


def test_restoring_keeps_the_file_it_replaces(file):
    copy = back_up(file, at=NOON)
    store = Store.open(file)
    store.remove_client(RUNA.id)
    store.close()
    aside = restore(copy, file)
    assert holds_everything(file)
    assert aside is not None
    assert "before-restore" in aside.name
    emptied = Store.open(aside)
    assert emptied.clients() == ()
    emptied.close()
    assert sorted(p.name for p in file.parent.iterdir()) == ["coach-backups", "coach.weekloom"]


def test_restoring_over_a_damaged_file_moves_it_aside_as_it_is(file):
    copy = back_up(file, at=NOON)
    file.write_bytes(b"SQLite format 3\0 and then nothing of use")
    file.with_name("coach.weekloom-journal").write_bytes(b"left over")
    aside = restore(copy, file)
    assert holds_everything(file)
    assert aside is not None
    assert aside.read_bytes() == b"SQLite format 3\0 and then nothing of use"
    assert aside.with_name(f"{aside.name}-journal").read_bytes() == b"left over"


def test_restoring_where_there_is_no_file_makes_one(file, tmp_path):
    copy = back_up(file, at=NOON)
    target = tmp_path / "elsewhere.weekloom"
    assert restore(copy, target) is None
    assert holds_everything(target)


def test_a_copy_is_due_after_half_an_hour_of_changes_and_not_without(file):
    assert is_due(file, NOON)
    copy = back_up(file, at=NOON)
    earlier = copy.stat().st_mtime - 60
    os.utime(file, (earlier, earlier))
    assert not is_due(file, NOON + timedelta(days=2))
    later = copy.stat().st_mtime + 60
    os.utime(file, (later, later))
    assert not is_due(file, NOON + timedelta(minutes=29))
    assert is_due(file, NOON + timedelta(minutes=30))


def test_a_bad_copy_is_not_restored(file, tmp_path):
    bad = tmp_path / "bad.weekloom"
    bad.write_text("a letter", encoding="utf-8")
    before = file.read_bytes()
    with pytest.raises(StoreFailure) as refused:
        restore(bad, file)
    assert refused.value.cause is Cause.NOT_OURS
    assert file.read_bytes() == before


def test_verifying_says_nothing_of_a_good_file_and_names_a_missing_one(file, tmp_path):
    verify(file)
    with pytest.raises(StoreFailure) as refused:
        verify(tmp_path / "none.weekloom")
    assert refused.value.cause is Cause.MISSING
