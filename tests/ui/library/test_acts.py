"""What is done with exercises of the library."""

from __future__ import annotations

from typing import TypeVar

import pytest
from PySide6.QtWidgets import QDialog, QWidget

from app import own_exercises
from app.domain.errors import StoreError
from app.ui.library.acts import LibraryActs
from app.ui.library.compare import CompareDialog
from app.ui.library.detail import DetailDialog
from app.ui.library.own_sheet import OwnSheet
from tests.ui.library import scene


@pytest.fixture
def acts(qtbot) -> LibraryActs:
    pane = QWidget()
    qtbot.addWidget(pane)
    return LibraryActs(scene.bench(), pane)


Dialog = TypeVar("Dialog", bound=QDialog)


def shown(acts: LibraryActs, kind: type[Dialog]) -> Dialog:
    """The dialog of that kind that is open."""
    every: list[Dialog] = acts.pane.findChildren(kind)
    (found,) = (one for one in every if one.isVisible())
    return found


def test_a_star_is_said_and_remembered(qtbot, acts):
    with qtbot.waitSignals([acts.at_hand_changed, acts.bench.said]):
        acts.turn_star("step_up")
    assert acts.at_hand == {"step_up"}
    acts.turn_star("step_up")
    assert acts.at_hand == frozenset()


def test_a_star_that_cannot_be_kept_is_refused_with_a_sentence(qtbot, acts, monkeypatch):
    def fail(key: str, value: str) -> None:
        raise StoreError("The disk is full.")

    monkeypatch.setattr(acts.bench.desk.store, "set_setting", fail)
    with qtbot.waitSignal(acts.bench.refused) as refused:
        acts.turn_star("step_up")
    assert refused.args == ["The disk is full."]
    assert acts.at_hand == frozenset()


def test_the_sheet_hands_on_what_it_is_asked_for(qtbot, acts):
    acts.show_detail(scene.shipped("step_up"))
    detail = shown(acts, DetailDialog)
    with qtbot.waitSignal(acts.place_wanted) as placed:
        detail.keep_button.click()
    assert placed.args == ["step_up"]


def test_a_comparison_begins_with_the_exercise_that_is_named(qtbot, acts):
    acts.compare(scene.shipped("step_up"))
    assert shown(acts, CompareDialog).left.exercise().key == "step_up"


def test_a_copy_begins_with_everything_but_the_name(qtbot, acts):
    acts.make_own(scene.shipped("step_up"))
    made = shown(acts, OwnSheet).exercise()
    assert made.name == "Step-up, changed"
    assert made.cues == scene.shipped("step_up").cues


def test_retiring_says_that_plans_keep_it(qtbot, acts):
    own_exercises.keep(acts.bench.desk, scene.own())
    with qtbot.waitSignal(acts.bench.said) as said:
        acts.retire_own(scene.own())
    assert "Plans that hold it keep it" in said.args[0]


def test_retiring_what_is_not_there_is_refused(qtbot, acts):
    with qtbot.waitSignal(acts.bench.refused):
        acts.retire_own(scene.own())
