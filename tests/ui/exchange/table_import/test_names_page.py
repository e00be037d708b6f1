"""The page of names."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from app.domain.exercise import ExerciseKey
from app.exchange.coach_plan.lines import Reading
from app.exchange.coach_plan.names import Named
from app.table_plans import Matched
from app.ui.bench import Bench
from app.ui.exchange.table_import.names_page import ExerciseBox, NamesPage
from app.ui.library.own_sheet import OwnSheet

SQUAT, FRONT = ExerciseKey("back_squat"), ExerciseKey("front_squat")
MATCHED = Matched(
    Reading((), ()),
    {
        "Squat": (3, Named("Squat", SQUAT, (SQUAT,))),
        "Sqxt": (1, Named("Sqxt", None, (SQUAT, FRONT))),
    },
)


@pytest.fixture
def page(qtbot: QtBot, dressed, bench: Bench) -> NamesPage:
    made = NamesPage(bench)
    qtbot.addWidget(made)
    made.show_names(MATCHED, bench.desk.catalogue, left_out=frozenset())
    return made


def test_names_to_ask_about_stand_first(page: NamesPage) -> None:
    assert [page.tree.topLevelItem(n).text(0) for n in range(2)] == ["Sqxt", "Squat"]
    assert page.open_names() == ("Sqxt",)
    assert page.meant() == {"Squat": SQUAT}


def test_the_likeliest_are_offered_first_and_others_behind(page: NamesPage, bench: Bench) -> None:
    box = page.boxes["Sqxt"]
    assert [box.itemData(n) for n in range(box.count())] == ["?", SQUAT, FRONT, ""]
    box.showPopup()
    box.hidePopup()
    assert box.count() > len(list(bench.desk.catalogue))
    offered = [box.itemData(n) for n in range(box.count())]
    assert offered.count(SQUAT) == 1


def test_a_name_can_be_left_out(page: NamesPage, qtbot: QtBot) -> None:
    with qtbot.waitSignal(page.changed):
        page.boxes["Sqxt"].choose("")
        page.boxes["Sqxt"].activated.emit(0)
    assert page.open_names() == ()
    assert page.answers() == {"Sqxt": None, "Squat": SQUAT}


def test_what_was_left_out_before_is_left_out_again(page: NamesPage, bench: Bench) -> None:
    fresh = NamesPage(bench)
    fresh.show_names(MATCHED, bench.desk.catalogue, left_out=frozenset({"Sqxt"}))
    assert fresh.answers()["Sqxt"] is None
    fresh.deleteLater()


def test_a_name_can_become_an_own_exercise(
    page: NamesPage, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    from app import own_exercises

    page.tree.setCurrentItem(page.tree.topLevelItem(0))

    def fill(sheet: OwnSheet) -> int:
        assert sheet.name.text() == "Sqxt"
        pattern = bench.desk.catalogue[SQUAT]
        sheet.fill(pattern)
        sheet.name.setText("Sqxt")
        sheet.aliases.setText("")
        sheet.activation.show_values(())
        sheet.easier.show_values(())
        sheet.harder.show_values(())
        own_exercises.keep(bench.desk, sheet.exercise())
        return OwnSheet.DialogCode.Accepted

    monkeypatch.setattr(OwnSheet, "exec", fill)
    page.own_button.click()
    key = page.meant()["Sqxt"]
    assert bench.desk.catalogue[key].own
    assert bench.desk.catalogue[key].name == "Sqxt"


def test_a_choice_not_made_is_no_answer(bench: Bench, qtbot: QtBot, dressed) -> None:
    box = ExerciseBox(Named("x", None, ()), bench.desk.catalogue)
    qtbot.addWidget(box)
    assert box.answer() == "?"
    box.take(FRONT, "Front squat")
    assert box.answer() == FRONT
