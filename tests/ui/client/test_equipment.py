"""Equipment and the steps there are to load with."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytestqt.qtbot import QtBot

from app.domain.client import Increments
from app.domain.errors import CoachError
from app.domain.exercise import Equipment
from app.ui.bench import Bench
from app.ui.client.equipment import EquipmentSheet, plates_from
from tests.ui.desks import with_client
from tests.ui.steps import kept, nothing_kept, one_step, refused_with, retype


@pytest.fixture
def sheet(qtbot: QtBot, bench: Bench) -> EquipmentSheet:
    made = EquipmentSheet(bench, None)
    qtbot.addWidget(made)
    return made


def test_what_is_unticked_is_out_of_reach_in_one_step(sheet: EquipmentSheet, bench: Bench) -> None:
    sheet.boxes[Equipment.BARBELL].click()
    with one_step(bench, "Change the equipment"):
        kept(sheet)
    assert bench.desk.client.equipment == frozenset(Equipment) - {Equipment.BARBELL}
    assert any(finding.rule == "equipment" for finding in bench.desk.findings)


def test_the_own_body_is_always_in_reach(sheet: EquipmentSheet, bench: Bench) -> None:
    assert Equipment.BODY not in sheet.boxes
    for box in sheet.boxes.values():
        box.setChecked(False)
    kept(sheet)
    assert bench.desk.client.equipment == {Equipment.BODY}


def test_steps_are_kept(sheet: EquipmentSheet, bench: Bench) -> None:
    retype(sheet.bar, "15")
    retype(sheet.plates, "20, 5, 1.25, 5")
    retype(sheet.lightest, "1")
    retype(sheet.step, "1")
    retype(sheet.heaviest, "30")
    retype(sheet.machine, "7,5")
    retype(sheet.cable, "1.25")
    with one_step(bench, "Change the equipment"):
        kept(sheet)
    assert bench.desk.client.increments == Increments(
        15, (20.0, 5.0, 1.25), (1, 1, 30), 7.5, 1.25, Increments().bands
    )


def test_an_untouched_sheet_keeps_steps_to_every_place(qtbot: QtBot, bench: Bench) -> None:
    pounds = 0.45359237
    with_client(
        bench,
        increments=Increments(
            45 * pounds, (45 * pounds, 2.5 * pounds), (5 * pounds, 5 * pounds, 100 * pounds)
        ),
    )
    sheet = EquipmentSheet(bench, None)
    qtbot.addWidget(sheet)
    with nothing_kept(bench):
        kept(sheet)


def test_the_lightest_dumbbell_is_no_heavier_than_the_heaviest(
    sheet: EquipmentSheet, bench: Bench
) -> None:
    retype(sheet.lightest, "50")
    refused_with(sheet, bench, "lightest dumbbell (50 kg)", "Swap the two.")


@pytest.mark.parametrize("name", ["bar", "lightest", "step", "heaviest", "machine", "cable"])
def test_no_step_is_nought(sheet: EquipmentSheet, bench: Bench, name: str) -> None:
    retype(getattr(sheet, name), "0")
    refused_with(sheet, bench, "0 is out of range", "Enter 0.25 to")


def test_a_word_among_the_plates_is_named(sheet: EquipmentSheet, bench: Bench) -> None:
    retype(sheet.plates, "20, ten, 5")
    refused_with(sheet, bench, "'ten' is not a plate.", "like 20, 10, 5")


@pytest.mark.parametrize(
    ("text", "plates"),
    [
        ("25, 20, 1.25", (25, 20, 1.25)),
        ("1,25; 20; 2,5", (20, 2.5, 1.25)),
        ("5 10  5", (10, 5)),
        ("", ()),
    ],
)
def test_plates_are_read_heaviest_first(text: str, plates: tuple[float, ...]) -> None:
    assert plates_from(text) == plates


@pytest.mark.parametrize("text", ["0", "-5", "51", "20, 500"])
def test_a_plate_nobody_has_is_refused(text: str) -> None:
    with pytest.raises(CoachError, match=r"A plate of .* kg"):
        plates_from(text)


@pytest.mark.parametrize("text", ["nan", "inf", "20kg"])
def test_what_is_no_number_is_no_plate(text: str) -> None:
    with pytest.raises(CoachError):
        plates_from(text)


@given(st.lists(st.sampled_from([25, 20, 15, 10, 5, 2.5, 1.25, 0.5, 0.25]), unique=True))
def test_plates_are_read_as_they_are_written(plates: list[float]) -> None:
    written = ", ".join(f"{plate:g}" for plate in plates)
    assert plates_from(written) == tuple(sorted(plates, reverse=True))
