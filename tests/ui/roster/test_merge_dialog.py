"""Two records side by side: what differs is chosen, what only one has is offered."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from app.domain.client import NO_TIME, ClientId, Consent, FreeTime, Increments, Sex
from app.domain.exercise import Muscle
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.roster.merge_dialog import MergeDialog, value_text
from db.store import Store
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import RUNA
from tests.ui.steps import kept

TWIN = replace(
    RUNA,
    id=ClientId("twin"),
    name="R. <i>Estvik</i>",
    mass_kg=68.0,
    contact="0470 & more",
    sex=Sex.AVERAGE,
)


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench, store: Store) -> MergeDialog:
    store.save(None, Work(TWIN), label="Add")
    made = MergeDialog(bench, store, None, mine=RUNA.id, other=TWIN.id)
    qtbot.addWidget(made)
    made.show()
    return made


def test_only_what_differs_is_asked_and_what_one_lacks_is_offered(dialog: MergeDialog) -> None:
    assert set(dialog.choices) == {"name", "mass_kg", "contact", "sex"}
    taken = {field for field, choice in dialog.choices.items() if choice.isChecked()}
    assert taken == {"contact"}
    assert dialog.choices["mass_kg"].accessibleName() == "Body mass, kg: 68"
    assert dialog.choices["contact"].text() == "0470 && more"


def test_what_is_chosen_is_kept(dialog: MergeDialog, store: Store, bench: Bench) -> None:
    dialog.choices["mass_kg"].setChecked(True)
    kept(dialog)
    made = store.load_client(RUNA.id)
    assert (made.name, made.mass_kg, made.contact) == (RUNA.name, 68.0, "0470 & more")
    assert [line.id for line in store.clients()] == [RUNA.id]
    assert bench.desk.client == made
    assert dialog.told == "Runa Estvik is one record now."


def test_two_birth_dates_are_pointed_out(qtbot: QtBot, bench: Bench, store: Store) -> None:
    older = replace(RUNA, id=ClientId("older"), born=date(1960, 1, 1))
    store.save(None, Work(older), label="Add")
    made = MergeDialog(bench, store, None, mine=RUNA.id, other=older.id)
    qtbot.addWidget(made)
    assert any("birth dates differ" in label.text() for label in made.findChildren(QLabel))


def test_records_that_agree_need_no_choice(qtbot: QtBot, bench: Bench, store: Store) -> None:
    same = replace(RUNA, id=ClientId("same"))
    store.save(None, Work(same), label="Add")
    made = MergeDialog(bench, store, None, mine=RUNA.id, other=same.id)
    qtbot.addWidget(made)
    assert made.choices == {}
    kept(made)


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (None, "not said"),
        ("", "not said"),
        (66.4, "66.4"),
        (Sex.AVERAGE, "average"),
        (date(2026, 10, 2), "2 Oct 2026"),
        (True, "yes"),
        ((Muscle.GLUTEALS, Muscle.HIP_ABDUCTORS), "gluteals, hip abductors"),
        (Consent(date(2026, 10, 2), "signed"), "2 Oct 2026 signed"),
        (Increments(plates_kg=(20.0, 1.25)), "bar 20 kg, plates 20, 1.25"),
        ((FreeTime(60), *NO_TIME[1:]), "Mon 60"),
        (NO_TIME, "no days"),
    ],
)
def test_values_are_told_in_words(value: object, text: str) -> None:
    assert value_text(value) == text


def test_everybody_can_use_it(dialog: MergeDialog) -> None:
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
