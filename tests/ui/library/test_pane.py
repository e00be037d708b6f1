"""The library pane: searching, narrowing, ordering, keys, and what an empty list says."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app import own_exercises
from app.domain.client import Place
from app.domain.exercise import Equipment, ExerciseKey, Muscle
from app.domain.fit import fits
from app.ui.library.order import Order
from app.ui.library.pane import NARROW, WIDE
from tests import builders
from tests.ui.library import scene
from tests.ui.library.scene import listed, type_in

STEP_UP = ExerciseKey("step_up")


def choose_order(pane, order: Order) -> None:
    pane.choices.order.setCurrentIndex(tuple(Order).index(order))


def test_it_opens_on_what_fits_the_client_closest_to_the_emphasis(qtbot):
    pane = scene.pane(qtbot)
    desk = pane.bench.desk
    assert pane.choices.fits.isChecked()
    assert pane.choices.fits.text().startswith("Fits Runa")
    assert all(fits(one, desk.client, pane.day) for one in pane.model.exercises)
    assert pane.model.exercises[0].fraction(Muscle.GLUTEALS) == 1.0
    assert pane.count.text() == f"{len(listed(pane))} of {len(desk.catalogue)}"
    assert pane.order_text.text() == Order.EMPHASIS.value


def test_with_several_places_the_day_in_focus_says_which_one_counts(qtbot):
    pane = scene.pane(qtbot)
    desk = pane.bench.desk
    hut = Place("hut", frozenset({Equipment.BODY}))
    free = (replace(desk.client.free[0], place="hut"), *desk.client.free[1:])
    desk.keep_client("Places", replace(desk.client, places=(hut,), free=free))
    everywhere = len(listed(pane))
    assert pane.choices.fits.text().startswith("Fits Runa  ")
    pane.show_day(0)
    assert pane.choices.fits.text().startswith("Fits Runa, Mon")
    assert 0 < len(listed(pane)) < everywhere
    assert all(fits(one, desk.client, pane.day, day=0) for one in pane.model.exercises)
    pane.show_day(1)
    assert len(listed(pane)) == everywhere


def test_with_one_place_every_day_lists_the_same(qtbot):
    pane = scene.pane(qtbot)
    before = listed(pane)
    pane.show_day(0)
    assert listed(pane) == before
    assert pane.choices.fits.text().startswith("Fits Runa  ")


def test_without_a_client_everything_is_listed_by_name(qtbot):
    pane = scene.pane(qtbot, scene.nobody())
    assert len(listed(pane)) == len(pane.bench.desk.catalogue)
    assert not pane.choices.fits.isEnabled()
    assert pane.order_text.text() == Order.NAME.value


def test_typing_lists_names_that_hold_the_words(qtbot):
    pane = scene.pane(qtbot)
    qtbot.keyClicks(pane.search, "step-up")
    qtbot.waitUntil(lambda: pane.order_text.text() == "Closest name first")
    assert listed(pane)[0] == "step_up"
    assert all("step" in one.name.casefold() for one in pane.model.exercises)


def test_a_slip_is_forgiven_and_said(qtbot):
    pane = scene.pane(qtbot)
    type_in(pane, "hip thurst")
    assert "dumbbell_hip_thrust" in listed(pane)[:3]
    assert pane.order_text.text() == "Names like what you typed"


def test_choices_narrow_together(qtbot):
    pane = scene.pane(qtbot)
    pane.choices.fits.setChecked(False)
    pane.choices.muscle.setCurrentIndex(pane.choices.muscle.findData(Muscle.CALVES))
    pane.choices.equipment.setCurrentIndex(pane.choices.equipment.findData(Equipment.BAND))
    assert pane.model.exercises
    for one in pane.model.exercises:
        assert one.fraction(Muscle.CALVES)
        assert Equipment.BAND in one.equipment


def test_by_activation_rows_name_the_study_and_the_caution_shows(qtbot):
    pane = scene.pane(qtbot)
    pane.choices.fits.setChecked(False)
    choose_order(pane, Order.ACTIVATION)
    assert pane.order_text.text() == "By activation of the gluteals"
    assert not pane.caution.isHidden()
    first = pane.model.exercises[0]
    assert any(row.muscle is Muscle.GLUTEALS for row in first.activation)
    choose_order(pane, Order.NAME)
    assert pane.caution.isHidden()
    assert listed(pane)[0] == "abductor_machine"


def test_what_does_not_fit_is_not_found_but_can_be_had(qtbot):
    pane = scene.pane(qtbot)
    type_in(pane, "sled")
    assert listed(pane) == []
    assert pane.pages.currentWidget() is pane.nothing
    assert "Fits Runa leaves out" in pane.empty.text()
    pane.way_out.click()
    assert "sled_push" in listed(pane)
    assert pane.pages.currentWidget() is pane.list


def test_a_word_that_is_nowhere_can_be_cleared(qtbot):
    pane = scene.pane(qtbot)
    type_in(pane, "qzxqzx")
    assert "Nothing is called 'qzxqzx'" in pane.empty.text()
    pane.way_out.click()
    pane.refresh()
    assert listed(pane)


def test_everything_goes_by_keys(qtbot):
    pane = scene.pane(qtbot)
    qtbot.keyClicks(pane.search, "step up")
    qtbot.keyClick(pane.search, Qt.Key.Key_Down)
    assert pane.list.currentIndex().row() == 0
    with qtbot.waitSignal(pane.place_wanted) as placed:
        qtbot.keyClick(pane.list, Qt.Key.Key_Return)
    assert placed.args == ["step_up"]
    with qtbot.waitSignal(pane.pick_wanted) as picked:
        qtbot.keyClick(pane.list, Qt.Key.Key_Space)
    assert picked.args == ["step_up"]
    qtbot.keyClick(pane.search, Qt.Key.Key_Escape)
    assert pane.search.text() == ""


def test_return_goes_to_what_was_typed_however_fast(qtbot):
    pane = scene.pane(qtbot)
    pane.search.setText("wall sit")
    qtbot.keyClick(pane.search, Qt.Key.Key_Return)
    assert pane.list.exercise() is not None
    assert pane.list.exercise().key == "wall_sit"


def test_a_star_is_remembered_in_the_file_and_narrows(qtbot):
    pane = scene.pane(qtbot)
    pane.acts.turn_star(STEP_UP)
    pane.show_at_hand()
    assert listed(pane) == ["step_up"]
    assert scene.pane(qtbot, pane.bench).acts.at_hand == {"step_up"}
    pane.acts.turn_star(STEP_UP)
    assert listed(pane) == []
    assert "Ctrl+K" in pane.empty.text()


def test_folded_choices_that_leave_something_out_are_counted(qtbot):
    pane = scene.pane(qtbot)
    assert pane.choices.folded.isHidden()
    pane.choices.equipment.setCurrentIndex(3)
    pane.refresh()
    assert pane.choices.more.text() == "More choices (1)"
    pane.choices.more.click()
    assert not pane.choices.folded.isHidden()


def test_an_own_exercise_appears_and_a_retired_one_goes(qtbot):
    pane = scene.pane(qtbot)
    own_exercises.keep(pane.bench.desk, scene.own())
    type_in(pane, "ledge")
    assert listed(pane) == ["ledge_step_up"]
    pane.acts.retire_own(scene.own())
    type_in(pane, "ledge")
    assert "ledge_step_up" not in listed(pane)


def test_another_client_is_asked_what_fits(qtbot):
    bench = scene.bench()
    pane = scene.pane(qtbot, bench)
    before = len(listed(pane))
    client = replace(bench.desk.client, equipment=frozenset(Equipment), limitations=())
    bench.keep_client("Change equipment", client)
    assert len(listed(pane)) == len(bench.desk.catalogue)
    assert before < len(listed(pane))


def test_a_limitation_that_ends_is_forgotten_in_later_weeks(qtbot):
    ending = replace(scene.KNEE, until=builders.START)
    pane = scene.pane(qtbot, scene.bench(limitations=(ending,)))
    assert "wall_sit" in listed(pane) or "goblet_squat" not in listed(pane)
    before = len(listed(pane))
    pane.bench.show_week(1)
    assert len(listed(pane)) > before


def test_rows_say_where_an_exercise_stands_in_the_open_week(qtbot):
    pane = scene.pane(qtbot)
    assert pane.model.used[STEP_UP] == "in Mon, Thu"
    pane.bench.show_week(1)
    assert pane.model.used[STEP_UP] == "in Mon"


@pytest.mark.parametrize(("compact", "width"), [(False, WIDE), (True, NARROW)])
def test_it_keeps_its_width(qtbot, compact: bool, width: int):
    pane = scene.pane(qtbot)
    pane.choices.unfold(True)
    pane.set_compact(compact)
    assert pane.width() == width


def test_nothing_in_it_is_without_a_name_for_assistive_technology(qtbot):
    pane = scene.pane(qtbot)
    for box in (*pane.choices.boxes, pane.choices.order, pane.search, pane.list):
        assert box.accessibleName()


def test_a_picture_of_the_window_has_its_figures(qtbot):
    pane = scene.pane(qtbot)
    pane.finish_figures()
    first = pane.model.exercises[0].figure
    assert pane.delegate.figures.picture(first, pane.devicePixelRatioF()) is not None


def test_tab_goes_from_the_search_over_the_choices_to_the_list(qtbot):
    pane = scene.pane(qtbot)
    pane.choices.unfold(True)
    chain: list[QWidget] = [pane.search]
    while chain[-1] is not pane.list and len(chain) < 60:
        chain.append(chain[-1].nextInFocusChain())
    ours: list[QWidget] = [pane.search, *pane.choices.stops, pane.list]
    assert [widget for widget in chain if widget in ours] == ours
