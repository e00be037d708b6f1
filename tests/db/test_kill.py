"""A process that is killed in mid-edit loses no edit it was told was kept, and halves none."""

from __future__ import annotations

import random
import signal
import subprocess
import sys
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

import pytest

from app.domain.program import Program
from app.domain.work import Work
from db.store import Store
from tests.builders import program
from tests.db.samples import DIARY, PLAN, RUNA

ROOT = Path(__file__).resolve().parents[2]
KILLS = 30

pytestmark = [
    pytest.mark.kill,
    pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="needs SIGKILL"),
]


def season() -> Program:
    """A program large enough that an edit of all of it takes a while to write."""
    day = "back_squat 3x5, leg_curl 3x8, hip_thrust 3x10, split_squat 3x8"
    made = program(f"Mon: {day} | Wed: {day} | Fri: {day}", times=21)
    return replace(made, id=PLAN.id, accepted=())


def kill_one(path: Path, dice: random.Random, *, aimed: bool) -> int:
    """Starts the coach, waits for an edit, kills it in some later one; the last edit told.

    aimed: at a moment in which SQLite is writing pages into the file; otherwise at any moment.
    """
    with subprocess.Popen(
        [sys.executable, "-m", "tests.db.keep_edits", str(path)],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        text=True,
    ) as coach:
        assert coach.stdout is not None
        told = [coach.stdout.readline()]
        if aimed:
            while not in_mid_transaction(path) and coach.poll() is None:
                pass
        else:
            with suppress(subprocess.TimeoutExpired):
                coach.wait(timeout=dice.uniform(0.0, 0.12))
        coach.kill()
        told += coach.stdout.read().splitlines()
        assert coach.wait() == -signal.SIGKILL
    return max(int(line) for line in told if line.strip())


def test_no_kept_edit_is_lost_and_none_is_halved(tmp_path: Path) -> None:
    path = tmp_path / "coach.weekloom"
    store = Store.open(path)
    store.save(None, Work(RUNA, season(), DIARY), label="Add the program")
    store.close()
    dice = random.Random(20261125)
    hot = 0
    for kill in range(KILLS):
        last_told = kill_one(path, dice, aimed=kill % 2 == 0)
        hot += in_mid_transaction(path)
        store = Store.open(path)
        assert store.check_integrity() == ()
        found = store.load_program(PLAN.id)
        number = int(found.name.removeprefix("edit "))
        # the edit under way when it was killed may have been kept, but not yet told
        assert number in (last_told, last_told + 1)
        assert whole(found) == {str(number)}
        diary = store.load_diary(RUNA.id)
        assert {result.note for result in diary.results} == {str(number)}
        assert len(diary.results) == len(DIARY.results) + number % 2
        assert sum(len(one.sets) for one in diary.results) == 6 + 2 * (number % 2)
        assert len(store.log(PLAN.id, limit=100_000)) == number + 1
        store.set_setting("open", str(last_told))
        store.close()
        assert [p.name for p in tmp_path.iterdir()] == [path.name]
    assert hot > 0, "no kill came in the middle of a transaction"


def in_mid_transaction(path: Path) -> bool:
    """True if the file has a journal that SQLite has to play back."""
    journal = path.with_name(f"{path.name}-journal")
    try:
        with journal.open("rb") as file:
            return file.read(4) == b"\xd9\xd5\x05\xf9"
    except FileNotFoundError:
        return False


def whole(found: Program) -> set[str]:
    """The numbers of edits that the parts of the program tell; one if no edit is halved."""
    weeks = {week.note for week in found.weeks}
    sessions = {session.title for week in found.weeks for _, session in week.sessions()}
    slots = {slot.note for week in found.weeks for slot in week.slots()}
    return weeks | sessions | slots
