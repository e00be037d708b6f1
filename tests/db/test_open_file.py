"""A write that the file cannot take where it is, is done again where the file is kept instead."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import threading
from collections.abc import Callable
from contextlib import ExitStack
from pathlib import Path

import pytest

from app.domain.client import ClientId
from app.domain.exercise import Exercise
from app.domain.work import Coach, Work
from db.elsewhere import Held
from db.errors import Cause, StoreFailure
from db.open_file import ASKED_AGAIN_S
from db.passphrase import looks_locked
from db.store import Store
from tests.db.samples import PLAN, RUNA, filled_file
from tests.db.test_faults import fill_up, large, renamed, sha256, small_disk  # noqa: F401
from tests.db.test_passphrase import KEY
from tests.lost_share import on_linux, out_of_reach

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture
def file(tmp_path: Path) -> Path:
    folder = tmp_path / "plans"
    return filled_file(folder / "coach.weekloom")


@pytest.fixture
def other(tmp_path: Path) -> Path:
    return tmp_path / "elsewhere" / "kept.weekloom"


def rescued_to(store: Store, target: Path) -> list[Cause]:
    """Moves the store to `target` when it is asked; the causes it was asked for."""
    asked: list[Cause] = []

    def rescue(failure: StoreFailure) -> bool:
        asked.append(failure.cause)
        store.keep_elsewhere(target, Held((Work(RUNA, PLAN),)))
        return True

    store.offer_rescue(rescue)
    return asked


def rename(store: Store, name: str = "Peak") -> None:
    store.save(Work(RUNA, PLAN), renamed(name), label="Rename")


def holds(path: Path, name: str) -> bool:
    store = Store.open(path)
    try:
        issues = store.issues(PLAN.id)
        return store.load_program(PLAN.id).name == name and bool(issues)
    finally:
        store.close()


# ---------------------------------------------------------------------------- how a file is lost


def remove(path: Path) -> None:
    path.unlink()


def remove_the_folder(path: Path) -> None:
    shutil.rmtree(path.parent)


def replace_it(path: Path) -> None:
    path.with_name("new").write_bytes(path.read_bytes())
    path.with_name("new").replace(path)


def move(path: Path) -> None:
    path.rename(path.with_name("moved"))


LOSSES: tuple[Callable[[Path], None], ...] = (remove, remove_the_folder, replace_it, move)


@pytest.mark.skipif(os.name == "nt", reason="an open file cannot be taken away there")
@pytest.mark.parametrize("lose", LOSSES, ids=lambda lose: lose.__name__)
def test_a_file_that_is_taken_away_is_noticed_before_anything_is_lost(file, lose):
    store = Store.open(file)
    lose(file)
    with pytest.raises(StoreFailure) as refused:
        rename(store)
    assert refused.value.cause is Cause.GONE
    assert str(file) in refused.value.sentence
    assert store.load_program(PLAN.id) == PLAN
    store.close()


@pytest.mark.skipif(os.name == "nt", reason="an open file cannot be taken away there")
@pytest.mark.parametrize("lose", LOSSES, ids=lambda lose: lose.__name__)
def test_the_whole_file_and_the_edit_go_to_another_place(file, other, lose):
    store = Store.open(file)
    lose(file)
    asked = rescued_to(store, other)
    rename(store)
    assert asked == [Cause.GONE]
    assert store.path == other
    store.set_coach(Coach("Ada Fell"))  # and it goes on there
    store.close()
    assert holds(other, "Peak")
    assert [path.name for path in other.parent.iterdir()] == [other.name]


@pytest.mark.parametrize("leave", [0, 16384])
def test_a_full_disk_sends_the_edit_to_another_place(small_disk, other, leave):  # noqa: F811
    path = filled_file(small_disk / "coach.weekloom")
    before = sha256(path)
    store = Store.open(path)
    fill_up(small_disk, leave)
    asked = rescued_to(store, other)
    store.save(Work(RUNA, PLAN), Work(RUNA, large()), label="Replace everything")
    assert asked == [Cause.FULL]
    assert store.load_program(PLAN.id) == large()
    store.close()
    assert sha256(path) == before
    assert holds(other, large().name)


def test_another_full_disk_takes_nothing_and_can_be_changed_for_a_third(small_disk, file, other):  # noqa: F811
    store = Store.open(file)
    remove(file)
    fill_up(small_disk, 8192)
    half = small_disk / "kept.weekloom"
    refused = []

    def rescue(_: StoreFailure) -> bool:
        with pytest.raises(StoreFailure) as failure:
            store.keep_elsewhere(half, Held())
        refused.append(failure.value.cause)
        store.keep_elsewhere(other, Held())
        return True

    store.offer_rescue(rescue)
    rename(store)
    store.close()
    assert refused == [Cause.FULL]
    assert [path.name for path in small_disk.iterdir()] == ["filler"]
    assert holds(other, "Peak")


def test_a_disk_that_became_read_only_sends_the_edit_to_another_place(small_disk, other):  # noqa: F811
    path = filled_file(small_disk / "coach.weekloom")
    store = Store.open(path)
    store.close()
    subprocess.run(["mount", "-o", "remount,ro", str(small_disk)], check=True)
    store = Store.open(path)
    assert store.read_only
    asked = rescued_to(store, other)
    rename(store)
    assert asked == [Cause.READ_ONLY]
    assert not store.read_only
    store.close()
    assert holds(other, "Peak")


LIMITED = """
import resource, signal, sys
from pathlib import Path
from app.domain.work import Work
from db.elsewhere import Held
from db.store import Store
from tests.db.samples import PLAN, RUNA
from tests.db.test_faults import large
store = Store.open(Path(sys.argv[1]))
signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
free = (resource.RLIM_INFINITY, resource.RLIM_INFINITY)
def rescue(failure):
    print(failure.cause.value)
    resource.setrlimit(resource.RLIMIT_FSIZE, free)
    return store.keep_elsewhere(Path(sys.argv[2]), Held())
store.offer_rescue(rescue)
resource.setrlimit(resource.RLIMIT_FSIZE, (4096, resource.RLIM_INFINITY))
store.save(Work(RUNA, PLAN), Work(RUNA, large()), label="Replace everything")
assert store.load_program(PLAN.id) == large()
assert store.check_integrity() == ()
"""


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="a limit of Linux")
def test_a_file_that_may_not_grow_sends_the_edit_to_another_place(file, other):
    before = sha256(file)
    ran = subprocess.run(
        [sys.executable, "-c", LIMITED, str(file), str(other)],
        cwd=ROOT,
        check=False,
        capture_output=True,
        text=True,
    )
    assert (ran.stderr, ran.stdout) == ("", "full\n")
    assert sha256(file) == before
    assert holds(other, large().name)


# ---------------------------------------------------------------------------- several at once


def test_a_transaction_of_several_goes_over_whole(file, other):
    store = Store.open(file)
    asked = rescued_to(store, other)
    with store.together():
        rename(store)
        store.set_coach(Coach("Ada Fell"))
        remove(file)
    assert asked == [Cause.GONE]
    assert store.coach().name == "Ada Fell"
    store.close()
    assert holds(other, "Peak")


def test_what_was_done_before_the_place_was_lost_is_done_again(small_disk, other):  # noqa: F811
    path = filled_file(small_disk / "coach.weekloom")
    before = sha256(path)
    store = Store.open(path)
    asked = rescued_to(store, other)
    with store.together():
        store.set_coach(Coach("Ada Fell"))
        fill_up(small_disk)
        store.save(Work(RUNA, PLAN), Work(RUNA, large()), label="Replace everything")
        store.set_setting("note", "kept")
    assert asked == [Cause.FULL]
    assert (store.coach().name, store.setting("note")) == ("Ada Fell", "kept")
    assert store.load_program(PLAN.id) == large()
    store.close()
    assert sha256(path) == before
    assert holds(other, large().name)


def test_a_refused_rescue_leaves_everything_as_it_was(file):
    store = Store.open(file)
    remove(file)
    store.offer_rescue(lambda _failure: False)
    with pytest.raises(StoreFailure) as refused, store.together():
        store.set_coach(Coach("Ada Fell"))
    assert refused.value.cause is Cause.GONE
    assert store.coach().name != "Ada Fell"
    assert store.load_program(PLAN.id) == PLAN
    store.close()


# ---------------------------------------------------------------------------- who is asked


def test_trying_again_is_enough_once_there_is_room(small_disk):  # noqa: F811
    path = filled_file(small_disk / "coach.weekloom")
    store = Store.open(path)
    filler = fill_up(small_disk)

    def rescue(_: StoreFailure) -> bool:
        filler.unlink()
        return True

    store.offer_rescue(rescue)
    store.save(Work(RUNA, PLAN), Work(RUNA, large()), label="Replace everything")
    assert store.path == path
    store.close()
    assert holds(path, large().name)


def test_where_one_was_is_no_reason_to_ask(file):
    store = Store.open(file)
    asked = rescued_to(store, file.with_name("other"))
    remove(file)
    with pytest.raises(StoreFailure):
        store.set_setting("open", "runa")
    assert asked == []
    store.close()


def test_a_clash_with_another_window_is_not_mended_by_another_place(file):
    store, second = Store.open(file), Store.open(file)
    asked = rescued_to(store, file.with_name("other"))
    store.load_program(PLAN.id)
    second.load_program(PLAN.id)
    rename(second)
    with pytest.raises(StoreFailure) as refused:
        rename(store, "Base")
    assert (refused.value.cause, asked) == (Cause.CHANGED_OUTSIDE, [])
    store.close()
    second.close()


def test_only_the_thread_of_the_window_is_asked(file):
    store = Store.open(file)
    asked = rescued_to(store, file.with_name("other"))
    remove(file)
    told = []

    def save() -> None:
        try:
            rename(store)
        except StoreFailure as failure:
            told.append(failure.cause)

    worker = threading.Thread(target=save)
    worker.start()
    worker.join()
    assert (told, asked) == ([Cause.GONE], [])
    store.close()


# ---------------------------------------------------------------------------- locks


def test_a_store_goes_on_through_a_change_of_the_passphrase(file):
    store = Store.open(file)
    for new in (KEY, None, KEY):
        store.change_passphrase(new)
        rename(store, "Peak")
        store.save(renamed("Peak"), Work(RUNA, PLAN), label="Rename")
        assert looks_locked(file) == (new is not None)
    store.close()


def test_another_window_notices_that_the_file_was_locked_meanwhile(file):
    store, second = Store.open(file), Store.open(file)
    store.change_passphrase(KEY)
    with pytest.raises(StoreFailure) as refused:
        rename(second)
    assert refused.value.cause is Cause.GONE
    store.close()
    second.close()


def test_a_locked_file_stays_locked_at_another_place(file, other):
    store = Store.open(file)
    store.change_passphrase(KEY)
    remove(file)
    rescued_to(store, other)
    rename(store)
    store.close()
    assert looks_locked(other)
    again = Store.open(other, key=KEY)
    assert again.load_program(PLAN.id).name == "Peak"
    again.close()


def test_own_exercises_stay_the_coachs(file, other):
    store = Store.open(file)
    own: tuple[Exercise, ...] = store.own_exercises(retired=True)
    remove(file)
    rescued_to(store, other)
    rename(store)
    assert store.own_exercises(retired=True) == own
    store.close()


# ---------------------------------------------------------------------------- reading


READS = (
    lambda store: store.clients(),
    lambda store: store.roster(),
    lambda store: store.programs(RUNA.id),
    lambda store: store.load_client(RUNA.id),
    lambda store: store.load_program(PLAN.id),
    lambda store: store.load_diary(RUNA.id),
    lambda store: store.footprint(RUNA.id),
    lambda store: store.picture_names(),
    lambda store: store.log(PLAN.id),
    lambda store: store.issues(PLAN.id),
    lambda store: store.all_issues(),
    lambda store: store.coach(),
    lambda store: store.own_exercises(),
    lambda store: store.range_overrides(),
    lambda store: store.setting("open"),
)


@on_linux
@pytest.mark.parametrize("read", READS)
def test_whatever_is_read_from_a_lost_place_is_read_again_once_it_is_back(file, read):
    store = Store.open(file)
    before = read(store)
    asked = []

    def rescue(failure: StoreFailure) -> bool:
        asked.append((failure.reading, failure.what, failure.where))
        lost.close()
        store.reach_again()
        return True

    store.offer_rescue(rescue)
    with ExitStack() as lost:
        lost.enter_context(out_of_reach(file))
        assert read(store) == before
    assert len(asked) == 1
    assert asked[0][0]
    assert "cannot be read" in asked[0][1]
    assert asked[0][2] == str(file)
    store.close()


@on_linux
def test_what_is_read_is_read_where_the_file_is_kept_instead(file, other):
    store = Store.open(file)
    asked = rescued_to(store, other)
    with out_of_reach(file):
        assert store.load_program(PLAN.id) == PLAN
        assert store.path == other
        store.save(Work(RUNA, PLAN), renamed("Peak"), label="Rename")
    assert asked == [Cause.DEVICE]
    assert store.load_program(PLAN.id).name == "Peak"
    store.close()
    old = Store.open(file)
    assert old.load_program(PLAN.id) == PLAN
    old.close()


@on_linux
def test_declined_once_it_is_not_asked_for_every_read_of_a_window(file, monkeypatch):
    store = Store.open(file)
    asked = []

    def decline(failure: StoreFailure) -> bool:
        asked.append(failure)
        return False

    store.offer_rescue(decline)
    now = [100.0]
    monkeypatch.setattr("db.open_file.monotonic", lambda: now[0])
    with out_of_reach(file):
        for _ in range(3):
            with pytest.raises(StoreFailure, match="cannot be read"):
                store.load_client(RUNA.id)
        assert len(asked) == 1
        now[0] += ASKED_AGAIN_S + 0.1
        with pytest.raises(StoreFailure):
            store.clients()
        assert len(asked) == 2
    assert store.load_client(RUNA.id) == RUNA
    store.close()


def test_what_is_simply_not_in_the_file_is_no_lost_place(file):
    store = Store.open(file)
    asked = rescued_to(store, file.with_name("other"))
    with pytest.raises(StoreFailure, match="There is no"):
        store.load_client(ClientId("nobody"))
    assert asked == []
    store.close()


def test_a_file_that_is_still_away_is_said_to_be(file):
    store = Store.open(file)
    away = file.with_name("away")
    file.rename(away)
    with pytest.raises(StoreFailure) as failure:
        store.reach_again()
    assert failure.value.cause is Cause.GONE
    away.rename(file)
    store.reach_again()
    assert store.load_program(PLAN.id) == PLAN
    store.close()


def test_reaching_a_file_again_overwrites_nothing_newer(file):
    store = Store.open(file)
    store.load_program(PLAN.id)
    second = Store.open(file)
    second.load_program(PLAN.id)
    rename(second)
    second.close()
    store.reach_again()
    with pytest.raises(StoreFailure) as refused:
        rename(store, "Base")
    assert refused.value.cause is Cause.CHANGED_OUTSIDE
    store.close()


# ---------------------------------------------------------------------------- several threads


def in_thread(work: Callable[[], object]) -> tuple[threading.Thread, list[object]]:
    """Begins the work in a thread of its own; what it gives comes into the list."""
    ended: list[object] = []
    thread = threading.Thread(target=lambda: ended.append(work()))
    thread.start()
    return thread, ended


def test_threads_that_read_at_once_take_turns(file):
    store = Store.open(file)
    threads = [
        in_thread(lambda: [store.load_program(PLAN.id) == PLAN for _ in range(50)])
        for _ in range(4)
    ]
    for thread, _ in threads:
        thread.join(60)
    assert [ended for _, ended in threads] == [[[True] * 50]] * 4
    store.close()


def test_another_thread_sees_what_is_kept_together_only_once_it_is_kept(file):
    store = Store.open(file)
    before = store.coach()
    with store.together():
        store.set_coach(Coach("Ada Fell"))
        thread, ended = in_thread(store.coach)
        thread.join(0.2)
        assert ended == []
    thread.join(60)
    assert [before.name, *ended] == [before.name, Coach("Ada Fell")]
    assert before.name != "Ada Fell"
    store.close()


@pytest.mark.parametrize("together", [False, True])
def test_the_rescue_may_write_from_a_thread_of_its_own(file, other, together):
    store = Store.open(file)
    moved: list[object] = []

    def rescue(_failure: StoreFailure) -> bool:
        thread, ended = in_thread(
            lambda: store.keep_elsewhere(other, Held((Work(RUNA, PLAN),))) and store.count_clients()
        )
        thread.join(60)
        moved.extend(ended)
        return True

    store.offer_rescue(rescue)
    with store.together() if together else ExitStack():
        if not together:
            remove(file)
        store.set_coach(Coach("Ada Fell"))
        if together:
            remove(file)
    assert moved == [1]
    assert store.coach().name == "Ada Fell"
    store.close()


def test_a_file_is_read_while_all_of_it_is_taken_out(file):
    store = Store.open(file)
    with store.whole() as (_revision, tables):
        next(iter(tables))
        thread, ended = in_thread(lambda: store.load_program(PLAN.id))
        thread.join(60)
        assert ended == [PLAN]
        assert store.load_program(PLAN.id) == PLAN
    store.close()
