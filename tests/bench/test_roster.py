"""10,000 clients: the roster in one query, a keystroke in its search, and booklets for many."""

from __future__ import annotations

import time
from collections.abc import Iterator
from dataclasses import replace
from datetime import date, timedelta
from itertools import product
from statistics import median

import pytest
from pytestqt.qtbot import QtBot

from app import resources
from app.desk import Desk
from app.domain.client import ClientId, Screening, StrengthTest
from app.domain.exercise import ExerciseKey
from app.domain.program import ProgramId
from app.domain.results import CheckIn, Diary
from app.domain.work import Work
from app.ui.batch_dialog import BatchDialog
from app.ui.bench import Bench
from app.ui.roster.finder import Wanted, entries
from app.ui.roster.model import RosterModel
from db.store import Store
from tests import builders
from tests.bench.budgets import hold

pytestmark = pytest.mark.bench

MANY = 10_000
TODAY = date(2026, 11, 25)
FIRST = ("Runa", "Jorunn", "Tavi", "Mette", "Sigrid", "Ottar", "Ivo", "Lena", "Kari", "Nils")
LAST = ("Estvik", "Aske", "Hellmark", "Lied", "Berg", "Solli", "Dahl", "Moe", "Vik", "Strand")
PLAN = builders.program("Mon: back_squat 3x8")
KEYSTROKE_MS = 8.0
HELD_MS = 100.0
READ_MS = 500.0
TYPED = ("r", "ru", "run", "runa", "runa e", "runa est", "hellmark 99", "rnua estivk", "zzqq")


@pytest.fixture(scope="module")
def store() -> Iterator[Store]:
    made = Store.in_memory()
    names = (f"{a} {b} {n}" for n, a, b in product(range(MANY // 100), FIRST, LAST))
    with made.together():
        for number, name in enumerate(names):
            day = TODAY - timedelta(days=number % 400)
            who = replace(
                builders.client(),
                id=ClientId(f"c{number}"),
                name=name,
                tags=("north", "rope") if number % 3 else (),
                screenings=(Screening(day, active=True, known_disease=False, symptoms=False),),
                tests=(StrengthTest(ExerciseKey("back_squat"), day, 60, 5),),
            )
            plan = replace(PLAN, id=ProgramId(f"p{number}"))
            made.save(None, Work(who, plan, Diary((CheckIn(day, mass_kg=70),))), label="Add")
    yield made
    made.close()


def test_the_roster_is_read_in_one_query(store: Store) -> None:
    taken = []
    for _ in range(3):
        start = time.perf_counter()
        found = entries(store.roster(), TODAY)
        taken.append(1000 * (time.perf_counter() - start))
    assert len(found) == MANY
    hold("roster of 10,000 clients, read and worked out", min(taken), READ_MS, unit="ms")


def test_a_keystroke_in_the_search(store: Store, qapp: object) -> None:
    model = RosterModel(TODAY)
    model.show_entries(entries(store.roster(), TODAY))
    plain: list[float] = []
    alike: list[float] = []
    for text in TYPED:
        start = time.perf_counter()
        model.look_for(Wanted(text))
        (alike if model.alike else plain).append(1000 * (time.perf_counter() - start))
    hold("search in 10,000 clients, a keystroke", median(plain), KEYSTROKE_MS, unit="ms")
    hold("search in 10,000 clients, names alike", median(alike), 5 * KEYSTROKE_MS, unit="ms")


def test_booklets_for_many_open_and_are_looked_through(store: Store, qtbot: QtBot) -> None:
    bench = Bench(Desk(store, resources.catalogue(), resources.range_book()))
    opened: list[float] = []
    ticked: list[float] = []
    typed: list[float] = []
    for _ in range(3):
        start = time.perf_counter()
        dialog = BatchDialog(bench, store, None, today=TODAY)
        opened.append(1000 * (time.perf_counter() - start))
        qtbot.addWidget(dialog)
        assert dialog.model.rowCount() == MANY
        dialog.show()
        start = time.perf_counter()
        dialog.ticks.tick_all()
        ticked.append(1000 * (time.perf_counter() - start))
        for text in ("r", "ru", "runa 12"):
            start = time.perf_counter()
            dialog.ticks.search.setText(text)
            typed.append(1000 * (time.perf_counter() - start))
        assert len(dialog.model.ticked) == MANY
        dialog.close()
    hold("booklets for 10,000 clients, opened", min(opened), HELD_MS, unit="ms")
    hold("booklets for 10,000 clients, all ticked", min(ticked), HELD_MS, unit="ms")
    hold("booklets for 10,000 clients, a keystroke", max(typed), HELD_MS, unit="ms")
