"""Equipment and the steps there are to load with."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pytestqt.qtbot import QtBot

from app.domain.client import FreeTime, Increments, Place
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


def test_steps_are_typed_in_the_clients_unit(qtbot: QtBot, bench: Bench) -> None:
    with_client(bench, units="lb")
    before = bench.desk.client
    sheet = EquipmentSheet(bench, None)
    qtbot.addWidget(sheet)
    assert (sheet.bar.edit.text(), sheet.plates.text()[:6]) == ("45", "45, 35")
    kept(sheet)
    assert bench.desk.client == before, "what nobody types over stays to the last place"
    sheet = EquipmentSheet(bench, None)
    qtbot.addWidget(sheet)
    retype(sheet.bar, "35")
    sheet.plates.setText("25, 10")
    kept(sheet)
    steps = bench.desk.client.increments
    assert steps.bar_kg == pytest.approx(15.876, abs=0.001)
    assert steps.plates_kg == pytest.approx((11.34, 4.536), abs=0.001)
    with pytest.raises(CoachError, match="A plate of 150 lb"):
        plates_from("150", "lb")


@pytest.mark.parametrize("text", ["nan", "inf", "20kg"])
def test_what_is_no_number_is_no_plate(text: str) -> None:
    with pytest.raises(CoachError):
        plates_from(text)


@given(st.lists(st.sampled_from([25, 20, 15, 10, 5, 2.5, 1.25, 0.5, 0.25]), unique=True))
def test_plates_are_read_as_they_are_written(plates: list[float]) -> None:
    written = ", ".join(f"{plate:g}" for plate in plates)
    assert plates_from(written) == tuple(sorted(plates, reverse=True))


# ---------------------------------------------------------------------------- places


@pytest.fixture
def named(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Names that the coach will enter, the first one first."""
    names: list[str] = []
    monkeypatch.setattr("app.ui.client.equipment.ask_text", lambda *_a, **_k: names.pop(0))
    return names


def test_a_place_is_made_with_its_own_things_and_steps(
    sheet: EquipmentSheet, bench: Bench, named: list[str]
) -> None:
    named.append("  home ")
    sheet.add_place()
    assert sheet.place.currentText() == "home"
    for box in sheet.boxes.values():
        box.setChecked(False)
    sheet.boxes[Equipment.BAND].setChecked(True)
    retype(sheet.plates, "5")
    sheet._go_to(0)
    assert sheet.boxes[Equipment.BARBELL].isChecked(), "the usual place stays as it was"
    with one_step(bench, "Change the equipment"):
        kept(sheet)
    client = bench.desk.client
    (home,) = client.places
    assert home.equipment == {Equipment.BODY, Equipment.BAND}
    assert home.increments.plates_kg == (5.0,)
    assert client.equipment == frozenset(Equipment)


HOME = Place("home", frozenset({Equipment.BODY}))


@pytest.fixture
def with_home(qtbot: QtBot, bench: Bench) -> EquipmentSheet:
    free = (FreeTime(60, place="home"), *bench.desk.client.free[1:])
    with_client(bench, places=(HOME,), free=free)
    made = EquipmentSheet(bench, None)
    qtbot.addWidget(made)
    return made


def test_a_renamed_place_takes_its_days_along(
    with_home: EquipmentSheet, bench: Bench, named: list[str]
) -> None:
    named.append("cellar")
    with_home._go_to(1)
    with_home.rename_place()
    kept(with_home)
    assert [place.name for place in bench.desk.client.places] == ["cellar"]
    assert bench.desk.client.free[0].place == "cellar"


def test_days_of_a_removed_place_are_at_the_usual_one_and_undo_brings_it_back(
    with_home: EquipmentSheet, bench: Bench
) -> None:
    before = bench.desk.client
    with_home._go_to(1)
    with_home.remove_place()
    kept(with_home)
    assert bench.desk.client.places == ()
    assert bench.desk.client.free[0] == FreeTime(60)
    bench.undo()
    assert bench.desk.client == before


def test_two_places_of_one_name_are_refused(with_home: EquipmentSheet, named: list[str]) -> None:
    named.append("Home")
    with_home.add_place()
    assert "already" in with_home.wrong.text()
    assert with_home.place.count() == 2


def test_a_wrong_entry_holds_the_place(with_home: EquipmentSheet, bench: Bench) -> None:
    retype(with_home.bar, "heavy")
    with_home._go_to(1)
    assert with_home.at == 0
    assert with_home.place.currentIndex() == 0
    assert "'heavy' is not a number" in with_home.wrong.text()
    assert with_home.bar.edit.text() == "heavy"


def test_an_untouched_sheet_with_places_makes_no_step(
    with_home: EquipmentSheet, bench: Bench
) -> None:
    with_home._go_to(1)
    with nothing_kept(bench):
        kept(with_home)
