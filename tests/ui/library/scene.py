"""A library for tests: the shipped exercises, a client with a knee, and a program of two weeks."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

from app import own_exercises, resources
from app.desk import Desk
from app.domain.client import Limitation, Side
from app.domain.exercise import Equipment, Exercise, ExerciseKey, Joint, Motion, Muscle
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.library.pane import LibraryPane
from db.store import Store
from tests import builders

KNEE = Limitation(
    Joint.KNEE,
    Motion.FLEXION,
    Side.LEFT,
    past_degrees=90,
    since=date(2026, 10, 2),
    until=date(2027, 2, 28),
)
HOME = frozenset({Equipment.BODY, Equipment.DUMBBELLS, Equipment.BENCH, Equipment.BOX})
WEEKS = ("Mon: step_up 3x10, dumbbell_hip_thrust 3x10 | Thu: step_up 3x10", "Mon: step_up 2x10")


def desk(*, program: bool = True, **client_fields: Any) -> Desk:
    """A desk on a store in memory, with Runa and her program open."""
    store = Store.in_memory()
    made = Desk(store, own_exercises.catalogue_of(store), resources.range_book())
    fields = {"name": "Runa Estvik", "equipment": HOME, "limitations": (KNEE,)} | client_fields
    client = builders.client(**fields)
    plan = replace(builders.program(*WEEKS), emphasis=(Muscle.GLUTEALS, Muscle.QUADRICEPS))
    store.save(None, Work(client, plan), label="Add client")
    made.open(client.id, plan.id if program else None)
    return made


def bench(**fields: Any) -> Bench:
    """A window's state on that desk."""
    return Bench(desk(**fields))


def nobody() -> Bench:
    """A window's state with nobody open."""
    store = Store.in_memory()
    return Bench(Desk(store, own_exercises.catalogue_of(store), resources.range_book()))


def pane(qtbot: Any, on: Bench | None = None) -> LibraryPane:
    """A library on screen."""
    made = LibraryPane(on or bench())
    qtbot.addWidget(made)
    made.resize(256, 800)
    made.show()
    return made


def shipped(key: str) -> Exercise:
    """An exercise as it is shipped."""
    return resources.catalogue()[ExerciseKey(key)]


def own(**changes: Any) -> Exercise:
    """An exercise of the coach's own."""
    fields: dict[str, Any] = {
        "key": ExerciseKey("ledge_step_up"),
        "name": "Ledge step-up",
        "own": True,
    }
    return replace(shipped("step_up"), aliases=(), **(fields | changes))


def listed(pane: LibraryPane) -> list[str]:
    """Keys of what the pane lists, in order."""
    return [str(one.key) for one in pane.model.exercises]


def type_in(pane: LibraryPane, text: str) -> None:
    """Type a search and let the pane answer."""
    pane.search.setText(text)
    pane.refresh()
