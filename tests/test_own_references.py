"""The coach's own references."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from app import own_exercises, resources
from app.desk import Desk
from app.domain.errors import CoachError
from app.domain.exercise import Activation, ExerciseKey, Muscle
from app.domain.ranges import Override
from app.exchange.bibliography.files import Form, read_references, write_references
from app.own_references import KEY, every, keep, own, read_file, remove, rested_on, write_to
from db.store import Store
from tests.exchange.bibliography.samples import SHIPPED, record


@pytest.fixture
def store() -> Iterator[Store]:
    made = Store.in_memory()
    yield made
    made.close()


def file(tmp_path: Path, *records: dict, form: Form = Form.BIBTEX) -> Path:
    path = tmp_path / "mine.bib"
    path.write_bytes(write_references(records, form))
    return path


@pytest.mark.parametrize("form", list(Form))
def test_what_is_new_is_kept_beside_the_shipped_ones(
    store: Store, tmp_path: Path, form: Form
) -> None:
    taken = read_file(file(tmp_path, record(DOI="10.1000/x"), form=form), store)
    assert own(store) == ()
    keep(store, taken.fresh)
    assert every(store)["estvik2020"].short == "Estvik 2020"
    assert set(resources.references()) < set(every(store))


def test_what_is_shipped_or_there_already_is_known(store: Store, tmp_path: Path) -> None:
    path = file(tmp_path, SHIPPED[0], record(), record())
    taken = read_file(path, store)
    assert (len(taken.fresh), taken.known) == (1, 2)
    keep(store, taken.fresh)
    again = read_file(path, store)
    assert (len(again.fresh), again.known) == (0, 3)


def test_one_without_a_year_is_left_out_and_told(store: Store, tmp_path: Path) -> None:
    taken = read_file(file(tmp_path, record(issued=None)), store)
    assert taken.fresh == ()
    assert taken.left_out == ("Strength on a ridge: it has no year.",)


def test_a_shipped_id_is_never_taken(store: Store, tmp_path: Path) -> None:
    clash = record(id=SHIPPED[0]["id"])
    keep(store, read_file(file(tmp_path, clash), store).fresh)
    assert every(store)[SHIPPED[0]["id"]] is resources.references()[SHIPPED[0]["id"]]
    assert own(store)[0]["id"] == f"{SHIPPED[0]['id']}-2"


def test_it_can_stand_as_the_source_of_an_own_exercise(store: Store, tmp_path: Path) -> None:
    desk = Desk(store, resources.catalogue(), resources.range_book())
    pattern = desk.catalogue[ExerciseKey("back_squat")]
    row = Activation(Muscle.GLUTEALS, 40, 50, "estvik2020")
    mine = replace(
        pattern,
        key=ExerciseKey("ridge_squat"),
        name="Ridge squat",
        aliases=(),
        easier=(),
        harder=(),
        activation=(row,),
        own=True,
    )
    with pytest.raises(CoachError, match="no reference"):
        own_exercises.keep(desk, mine)
    keep(store, read_file(file(tmp_path, record()), store).fresh)
    own_exercises.keep(desk, mine)
    with pytest.raises(CoachError, match="Ridge squat rests on it"):
        remove(store, "estvik2020", [desk.catalogue[mine.key]])
    remove(store, "estvik2020", [])
    assert own(store) == ()


def test_it_stays_while_an_own_range_rests_on_it(store: Store, tmp_path: Path) -> None:
    keep(store, read_file(file(tmp_path, record()), store).fresh)
    shipped = resources.range_book().ranges["weekly_sets"][0]
    mine = Override(
        replace(shipped, own=True, source="estvik2020"), "Mette Aas", date(2026, 11, 1), "seen"
    )
    with pytest.raises(CoachError, match="Your own range of 'Sets of a muscle a week' rests on it"):
        remove(store, "estvik2020", [], [mine])
    assert len(own(store)) == 1


@pytest.mark.parametrize("text", ["nonsense", "{}", '[{"id": "x"}]', "[3]"])
def test_a_memory_that_is_damaged_leaves_the_shipped_ones(store: Store, text: str) -> None:
    store.set_setting(KEY, text)
    assert own(store) == ()
    assert every(store) == resources.references()


def test_those_that_a_program_rests_on(store: Store) -> None:
    exercise = next(e for e in resources.catalogue() if e.activation)
    keys = rested_on((), [exercise], every(store))
    assert set(keys) == {row.study for row in exercise.activation}


def test_they_are_written_as_asked(store: Store, tmp_path: Path) -> None:
    count = write_to(tmp_path / "a.ris", every(store).values(), Form.RIS)
    found = read_references((tmp_path / "a.ris").read_bytes(), source="a")
    assert len(found.records) == count == len(resources.references())
