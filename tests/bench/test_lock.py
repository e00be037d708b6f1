"""A locked file beside the same file without a lock: keeping an edit, and opening a client."""

from __future__ import annotations

from contextlib import ExitStack, closing
from functools import partial
from pathlib import Path
from statistics import median

import pytest

from app.domain.client import Client, ClientId
from app.domain.work import Work
from db.passphrase import Passphrase
from db.relock import relock
from db.store import Store
from tests.bench.budgets import hold
from tests.bench.test_keep_edit import season, seconds, with_sets

pytestmark = pytest.mark.bench

BUDGET = 1.25
ROUNDS = 40
KEY = Passphrase("four quiet unrelated words")
CLIENT = Client(ClientId("runa"), "Runa Estvik")


def test_a_locked_file_costs_at_most_a_quarter_more(tmp_path: Path) -> None:
    program = season(52)
    for name, key in (("plain", None), ("locked", KEY)):
        path = tmp_path / f"{name}.weekloom"
        with closing(Store.open(path)) as store:
            store.save(None, Work(CLIENT, program), label="Add the program")
        if key is not None:
            relock(path, old=None, new=key)
    keep: dict[str, list[float]] = {"plain": [], "locked": []}
    load: dict[str, list[float]] = {"plain": [], "locked": []}
    with ExitStack() as stack:
        stores = {
            name: stack.enter_context(closing(Store.open(tmp_path / f"{name}.weekloom", key=key)))
            for name, key in (("plain", None), ("locked", KEY))
        }
        work = Work(CLIENT, program)
        for number in range(ROUNDS):
            after = Work(CLIENT, with_sets(program, 10, 4 + number % 2))
            for name, store in stores.items():
                save = partial(store.save, work, after, label="Set sets")
                keep[name].append(seconds(save))
                load[name].append(seconds(partial(_load, store)))
            work = after
    for what, found in (("keep one edit", keep), ("open a program", load)):
        plain, locked = median(found["plain"]), median(found["locked"])
        print(f"{what}: locked {locked * 1000:.2f} ms, plain {plain * 1000:.2f} ms")
        hold(f"{what}, locked beside plain, 52 weeks", locked / plain, BUDGET)


def _load(store: Store) -> None:
    store.load_client(CLIENT.id)
    store.load_program(season_id(store))


def season_id(store: Store):
    return store.programs(CLIENT.id)[0].id
