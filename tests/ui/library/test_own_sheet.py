"""Making and changing exercises of one's own."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtWidgets import QLabel, QWidget

from app import own_exercises, resources
from app.ui.library.own_sheet import OwnSheet
from tests.ui.library import scene

EVERY = resources.catalogue().exercises


def sheet(qtbot, pattern=None, *, change=False, on=None) -> OwnSheet:
    made = OwnSheet(on or scene.bench(), pattern, None, change=change)
    qtbot.addWidget(made)
    made.show()
    return made


def type_name(qtbot, dialog: OwnSheet, name: str) -> None:
    dialog.name.clear()
    qtbot.keyClicks(dialog.name, name)
    dialog.check()


@pytest.mark.parametrize("one", EVERY[::13], ids=lambda one: one.key)
def test_a_copy_is_the_same_in_every_field_but_the_name(qtbot, one):
    made = sheet(qtbot, one).exercise()
    expected = replace(
        one,
        key=made.key,
        name=made.name,
        own=True,
        version=1,
        activation=(),
        work=made.work,
        stress=made.stress,
        equipment=made.equipment,
        warmup_for=made.warmup_for,
    )
    assert made == expected
    for name in ("work", "stress", "equipment", "warmup_for"):
        left, right = getattr(made, name), getattr(one, name)
        assert sorted(map(repr, left)) == sorted(map(repr, right))
    assert made.key not in resources.catalogue()


def test_a_new_exercise_is_made_by_hand_and_found_in_the_library(qtbot):
    bench = scene.bench()
    dialog = sheet(qtbot, on=bench)
    assert not dialog.keep_button.isEnabled()
    assert dialog.wrong.isHidden()
    type_name(qtbot, dialog, "Ledge step-up")
    assert "Muscles: No muscle counts a whole set" in dialog.wrong.text()
    dialog.work.show_values({"quadriceps": 1.0, "gluteals": 0.5})
    dialog.check()
    assert dialog.keep_button.isEnabled()
    assert dialog.wrong.isHidden()
    dialog.keep_button.click()
    (mine,) = bench.desk.store.own_exercises()
    assert (mine.key, mine.name, mine.own) == ("ledge_step_up", "Ledge step-up", True)
    assert mine in tuple(bench.desk.catalogue)


def test_what_is_typed_is_checked_while_it_is_typed(qtbot):
    dialog = sheet(qtbot, scene.shipped("step_up"))
    assert dialog.keep_button.isEnabled()
    dialog.numbers["rep_low"].clear()
    qtbot.keyClicks(dialog.numbers["rep_low"], "abc")
    qtbot.waitUntil(lambda: not dialog.keep_button.isEnabled())
    assert dialog.wrong.text().startswith("Fewest repetitions: 'abc' is not a whole number")
    assert dialog.numbers["rep_low"].text() == "abc"


WRONG = [
    (lambda d: d.name.setText("back squat"), "already an exercise called 'Back squat'"),
    (lambda d: d.name.setText("<b>Row</b>"), "Name: The character '<' is not allowed"),
    (lambda d: d.name.setText("x" * 81), "Name: The name has 81 characters"),
    (lambda d: d.name.setText(" "), "no name yet"),
    (lambda d: d.work.show_values({}), "Muscles: No muscle counts a whole set"),
    (lambda d: d.numbers["body_share"].setText("140"), "Own mass: 1.4 is outside 0 to 1"),
    (lambda d: d.numbers["rest_s"].setText("901"), "Usual rest: 901 is outside 0 to 900"),
    (lambda d: d.numbers["rep_low"].setText("99"), "Fewest repetitions: 99 is above"),
    (lambda d: d.tempo.setText("slow"), "Usual tempo: 'slow' is no tempo"),
    (lambda d: d.texts["reaches"].setPlainText("knee wobble 20"), "Reaches: 'wobble'"),
    (lambda d: d.texts["faults"].setPlainText("no remedy"), "If you notice: 'no remedy'"),
    (lambda d: d.activation.percent.setText("5"), "Activation: 5 % is not added yet"),
    (lambda d: d.activation.percent.setText("a lot"), "Activation: 'a lot' cannot be read"),
    (lambda d: d.aliases.setText("back-squat"), "Other names: 'back-squat' is the name of another"),
    (lambda d: d.harder.show_values(d.easier.values()), "Easier: "),
    (lambda d: d.texts["cues"].setPlainText("x" * 5_000_000), "Do it: A text of 5000000"),
]


@pytest.mark.parametrize(("spoil", "sentence"), WRONG, ids=range(len(WRONG)))
def test_what_is_wrong_is_told_by_its_field_and_cannot_be_kept(qtbot, spoil, sentence):
    bench = scene.bench()
    dialog = sheet(qtbot, scene.shipped("step_up"), on=bench)
    spoil(dialog)
    dialog.touched = True
    dialog.check()
    assert sentence in dialog.wrong.text()
    assert not dialog.keep_button.isEnabled()
    assert bench.desk.store.own_exercises() == ()


def test_a_taken_name_is_told_first(qtbot):
    dialog = sheet(qtbot, scene.shipped("step_up"))
    dialog.texts["faults"].setPlainText("no remedy")
    dialog.work.show_values({})
    type_name(qtbot, dialog, "back-squat")
    assert dialog.wrong.text().startswith("There is already an exercise called 'Back squat'")


def test_a_copy_leaves_the_published_figures_behind_and_says_so(qtbot):
    one = next(e for e in EVERY if len(e.activation) > 1)
    dialog = sheet(qtbot, one)
    assert dialog.activation.values() == []
    told = [label.text() for label in dialog.findChildren(QLabel)]
    assert any(f"published figures of {one.name} are not copied" in text for text in told)


def test_changing_an_own_exercise_keeps_its_figures(qtbot):
    bench = scene.bench()
    one = replace(scene.own(), activation=scene.shipped("hip_thrust").activation)
    assert one.activation
    own_exercises.keep(bench.desk, one)
    dialog = sheet(qtbot, one, change=True, on=bench)
    assert dialog.exercise().activation == one.activation


def test_changing_keeps_the_key_so_that_plans_follow(qtbot):
    bench = scene.bench()
    own_exercises.keep(bench.desk, scene.own())
    dialog = sheet(qtbot, scene.own(), change=True, on=bench)
    type_name(qtbot, dialog, "Ledge step-up, high")
    dialog.keep_button.click()
    (mine,) = bench.desk.store.own_exercises()
    assert (mine.key, mine.name) == ("ledge_step_up", "Ledge step-up, high")


def test_a_page_is_laid_out_when_it_is_chosen_and_the_others_soon_after(qtbot):
    dialog = sheet(qtbot)
    pages = [dialog.tabs.widget(at) for at in range(dialog.tabs.count())]
    assert [page.layout() is not None for page in pages] == [True] + [False] * (len(pages) - 1)
    dialog.tabs.setCurrentIndex(3)
    assert pages[3].isAncestorOf(dialog.tempo)
    assert not dialog.is_whole
    dialog.show()
    qtbot.waitUntil(lambda: dialog.is_whole)
    assert all(page.layout() is not None for page in pages)
    assert dialog.texts["cues"].whatsThis(), "what comes later is explained as well"


def test_every_field_has_a_name(qtbot):
    dialog = sheet(qtbot)
    fields: list[QWidget] = [dialog.name, dialog.aliases, dialog.tempo, *dialog.numbers.values()]
    fields += [*dialog.texts.values(), dialog.pattern, dialog.plane, dialog.load_kind]
    for field in fields:
        assert field.accessibleName()
    dialog.show()
    qtbot.waitUntil(lambda: dialog.is_whole)
    buddies = {label.buddy() for label in dialog.findChildren(QLabel)}
    assert set(fields) <= buddies
