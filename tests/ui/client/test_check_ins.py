from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest

from app.domain.client import EnergyGoal
from app.domain.results import CheckIn, Diary, Girth, Site
from app.ui.client import check_in, check_in_weeks
from app.ui.client.check_ins import CheckInsDialog
from app.ui.lines_table import choose

TODAY = date(2026, 11, 29)


def logs(kcal=2300.0):
    first = TODAY - timedelta(days=27)
    return tuple(CheckIn(first + timedelta(days=n), mass_kg=66.4, kcal=kcal) for n in range(28))


@pytest.fixture
def dialog(qtbot, dressed, bench):
    def made(*checks, goal=EnergyGoal.HOLD):
        bench.desk.keep_client("Goal", replace(bench.desk.client, energy_goal=goal))
        bench.desk.keep_diary("Fill", Diary(checks))
        shown = CheckInsDialog(bench, None, today=TODAY)
        qtbot.addWidget(shown)
        shown.show()
        qtbot.waitUntil(lambda: shown._job is None)
        return shown

    return made


def lines(shown):
    table = shown.table
    return [
        [table.topLevelItem(row).text(column) for column in range(table.columnCount())]
        for row in range(table.topLevelItemCount())
    ]


def test_the_newest_check_in_comes_first_with_all_that_was_said(dialog):
    shown = dialog(
        CheckIn(date(2026, 11, 15), mass_kg=66.4),
        CheckIn(
            date(2026, 11, 22),
            mass_kg=66.9,
            sleep=4,
            adherence=0.5,
            note="tired",
            girths=(Girth(Site.WAIST, 74),),
            pictures=("a.jpg", "b.jpg"),
        ),
    )
    first, second = lines(shown)
    assert first == ["22 Nov 2026", "66.9", "", "4", "", "", "", "50", "tired; 1 girth; 2 pictures"]
    assert second[:2] == ["15 Nov 2026", "66.4"]
    assert "2 weighings" in shown.trend.text()


def test_an_empty_list_says_what_to_do(dialog):
    shown = dialog()
    assert "No check-in yet" in shown.trend.text()
    assert not shown.change_button.isEnabled()
    assert not shown.take_button.isVisible()


def test_missing_weeks_are_said(dialog):
    shown = dialog(
        *(CheckIn(date(2026, 10, 5) + timedelta(days=d), mass_kg=66) for d in (0, 7, 28))
    )
    assert "No weighing in the weeks of 19 Oct 2026, 26 Oct 2026" in shown.trend.text()


def test_removing_is_a_step_that_can_be_undone(qtbot, dialog, bench):
    shown = dialog(CheckIn(date(2026, 11, 15), mass_kg=66.4))
    shown.remove_button.click()
    assert bench.desk.diary.check_ins == ()
    assert lines(shown) == []
    bench.undo()
    qtbot.waitUntil(lambda: len(lines(shown)) == 1 and shown._job is None)


def test_the_suggestion_is_taken_over_as_one_step(qtbot, dialog, bench):
    shown = dialog(*logs())
    assert "2,300 kcal a day used" in shown.energy.text()
    before = bench.desk.client
    shown.take_button.click()
    after = bench.desk.client
    # 10 x 66.4 + 6.25 x 171 - 5 x 34 - 161 = 1401.75 at rest (mifflin1990)
    assert after.activity_level == round(2300 / 1401.75, 2)
    assert after.kcal_now == 2300
    assert bench.desk.history.undoable.label == "Take over the energy from the check-ins"
    bench.undo()
    assert bench.desk.client == before
    qtbot.waitUntil(lambda: shown._job is None)


def test_the_suggestion_shows_how_it_came_about(qtbot, dialog):
    shown = dialog(*logs())
    shown.why_button.click()
    from app.ui.working_popup import WorkingPopup

    (popup,) = shown.findChildren(WorkingPopup)
    assert "1.64" in popup.accessibleDescription()
    popup.close()


def test_who_is_referred_sees_no_numbers(dialog, bench):
    bench.desk.keep_client("Refer", replace(bench.desk.client, refer=("kidney disease",)))
    shown = dialog(*logs())
    assert "registered dietitian" in shown.energy.text()
    assert "2,300" not in shown.energy.text()
    assert not shown.take_button.isVisible()


def test_too_few_logs_say_what_is_missing(dialog):
    shown = dialog(*logs()[:5])
    assert "too few" in shown.energy.text()


def test_without_an_energy_goal_nothing_is_suggested(dialog):
    shown = dialog(*logs(), goal=None)
    assert not shown.energy.isVisible()


def test_the_buttons_open_the_forms(dialog, monkeypatch):
    opened = []

    class Sheet:
        def __init__(self, _bench, _parent, *, today, day=None):
            opened.append(day or today)

        def exec(self):
            return 0

    monkeypatch.setattr(check_in, "CheckInSheet", Sheet)
    monkeypatch.setattr(check_in_weeks, "WeeksSheet", Sheet)
    shown = dialog(*logs()[:2])
    choose(shown.table, logs()[0].on)
    shown.keep_button.click()
    shown.change_button.click()
    shown.weeks_button.click()
    assert opened == [TODAY, logs()[0].on, TODAY]
