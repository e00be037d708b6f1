"""Another client's program to begin with: what is offered, and what would be different."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest
from pytestqt.qtbot import QtBot

from app.domain.client import Client, ClientId
from app.domain.errors import CoachError
from app.domain.exercise import Equipment
from app.domain.program import ProgramId
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.new_program import NewProgramSheet
from app.ui.other_program import OtherProgram
from app.ui.refit_lines import NOTHING
from db.store import Store
from tests.ui.desks import PROGRAM, RUNA, START, TODAY
from tests.ui.steps import kept, refused_with

JORUNN = replace(
    RUNA,
    id=ClientId("jorunn"),
    name="Jorunn Aske",
    equipment=frozenset(Equipment) - {Equipment.RACK},
    archived=False,
)
OLD = replace(PROGRAM, id=ProgramId("old"), name="Old season", archived=True)


@pytest.fixture
def hers(bench: Bench, store: Store) -> Bench:
    """Jorunn on the desk, without a program; Runa has two."""
    store.save(Work(RUNA), Work(RUNA, OLD), label="Add")
    store.save(None, Work(JORUNN), label="Add")
    bench.desk.open(JORUNN.id)
    return bench


@pytest.fixture
def other(qtbot: QtBot) -> Callable[..., OtherProgram]:
    """Opens the choice as its form would, and closes it after the test."""

    def opened(bench: Bench, client: Client = JORUNN) -> OtherProgram:
        store = bench.desk.store
        assert isinstance(store, Store)
        made = OtherProgram(bench, store, client, start=START)
        qtbot.addWidget(made)
        made.offer(True)
        return made

    return opened


def choices(box) -> list[str]:
    return [box.itemText(k) for k in range(box.count())]


def test_clients_with_programs_are_offered_with_all_of_them(
    hers: Bench, other: Callable[..., OtherProgram]
) -> None:
    made = other(hers)
    assert choices(made.clients) == ["Runa Estvik"]
    assert sorted(choices(made.programs)) == [
        "Old season, 6 weeks, archived",
        "Ridge season, 6 weeks",
    ]


def test_nobody_has_a_program_yet(empty_bench: Bench, other: Callable[..., OtherProgram]) -> None:
    store = empty_bench.desk.store
    assert isinstance(store, Store)
    store.save(None, Work(JORUNN), label="Add")
    made = other(empty_bench)
    assert made.is_empty
    with pytest.raises(CoachError, match="Choose a client and a program"):
        made.refit()


def test_what_would_be_different_is_told_and_follows_program_and_start(
    hers: Bench, other: Callable[..., OtherProgram]
) -> None:
    made = other(hers)
    lines = made.lines.lines()
    assert any("Back squat" in line and "needs rack" in line for line in lines)
    assert made.head.text() == "What would be different for Jorunn Aske"
    made.set_start(date(2027, 1, 6))
    assert any(line.startswith("Begins on 4 Jan 2027") for line in made.lines.lines())
    assert made.refit().program.start == date(2027, 1, 4)


def test_nothing_is_worked_out_until_it_is_wanted(hers: Bench, store: Store) -> None:
    made = OtherProgram(hers, store, JORUNN, start=START)
    assert made.lines.lines() == []
    made.set_start(date(2027, 1, 6))
    assert made.lines.lines() == []


def test_where_nothing_fits_it_says_so_and_what_to_do(
    hers: Bench, other: Callable[..., OtherProgram]
) -> None:
    bare = replace(
        JORUNN,
        equipment=frozenset(),
        dislikes=frozenset(exercise.key for exercise in hers.desk.catalogue),
    )
    made = other(hers, bare)
    assert "fits Jorunn Aske. Enter the equipment" in made.lines.lines()[0]


def test_a_twin_gets_it_unchanged(hers: Bench, other: Callable[..., OtherProgram]) -> None:
    twin = replace(JORUNN, equipment=RUNA.equipment)
    assert other(hers, twin).lines.lines() == [NOTHING]


# ---------------------------------------------------------------------------- in the sheet


def sheet(bench: Bench, store: Store) -> NewProgramSheet:
    return NewProgramSheet(bench, None, today=TODAY, store=store)


def take_other(made: NewProgramSheet, program: str = "Ridge season") -> None:
    made.layouts.group.button(len(made.layouts.layouts)).setChecked(True)
    made.other.programs.setCurrentIndex(made.other.programs.findText(program + ", 6 weeks"))


def test_a_new_program_is_the_others_refitted_under_the_name_and_start(
    hers: Bench, store: Store
) -> None:
    made = sheet(hers, store)
    take_other(made)
    assert made.name.text() == "Ridge season"
    assert not made.form.isRowVisible(made.weeks)
    assert not made.form.isRowVisible(made.emphasis)
    kept(made)
    program = made.program
    assert (program.name, program.start, len(program.weeks)) == (
        "Ridge season",
        date(2026, 11, 30),
        6,
    )
    assert program.emphasis == PROGRAM.emphasis
    assert program.id != PROGRAM.id
    assert "back_squat" not in {slot.exercise for week in program.weeks for slot in week.slots()}


def test_a_name_that_was_entered_stays(hers: Bench, store: Store) -> None:
    made = sheet(hers, store)
    made.name.setText("Spring")
    take_other(made)
    assert made.name.text() == "Spring"
    made.name.setText(" ")
    refused_with(made, hers, "has no name")


def test_a_layout_can_be_chosen_again(hers: Bench, store: Store) -> None:
    made = sheet(hers, store)
    take_other(made)
    made.layouts.group.button(0).setChecked(True)
    assert made.form.isRowVisible(made.weeks)
    assert not made.other.isEnabled()
    kept(made)
    assert len(made.program.weeks) == 12


def test_without_others_programs_nothing_of_it_is_offered(empty_bench: Bench) -> None:
    store = empty_bench.desk.store
    assert isinstance(store, Store)
    store.save(None, Work(JORUNN), label="Add")
    empty_bench.desk.open(JORUNN.id)
    made = sheet(empty_bench, store)
    assert made.other is None
    assert not made.layouts.wants_other
