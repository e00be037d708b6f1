from __future__ import annotations

from datetime import timedelta

from PySide6.QtCore import Qt

from app.domain.exercise import ExerciseKey, Muscle
from app.domain.progress import Days
from app.ui.charts.choices import BETWEEN, Choices
from app.ui.charts.kinds import Kind
from app.ui.words import qdate
from tests.builders import START
from tests.ui.charts.sample import ASKED, NOTHING, PLAN, SQUAT

TODAY = START + timedelta(weeks=9)


def made(qtbot, asked=ASKED):
    choices = Choices(TODAY)
    qtbot.addWidget(choices)
    choices.fill(asked)
    choices.show()
    return choices


def test_the_first_chart_is_strength_of_the_exercise_with_most_days(qtbot, dressed):
    choice = made(qtbot).choice()
    assert (choice.kind, choice.exercise, choice.days) == (Kind.STRENGTH, SQUAT, Days())


def test_only_what_the_chart_can_be_asked_is_shown(qtbot, dressed):
    choices = made(qtbot)
    assert choices.exercise.isVisible()
    assert not choices.muscles.isVisible()
    choices.choose(Kind.MUSCLES)
    assert not choices.exercise.isVisible()
    assert choices.muscles.isVisible()
    assert not choices.between.isVisible()
    choices.span.setCurrentIndex(BETWEEN)
    assert choices.between.isVisible()


def test_the_spans_are_counted_from_today_or_the_program(qtbot, dressed):
    choices = made(qtbot)
    choices.span.setCurrentIndex(1)
    last = START + timedelta(weeks=len(PLAN.weeks), days=-1)
    assert choices.days() == Days(START, last)
    choices.span.setCurrentIndex(2)
    assert choices.days() == Days(TODAY - timedelta(days=27), TODAY)
    choices.span.setCurrentIndex(BETWEEN)
    choices.first.setDate(qdate(TODAY))
    choices.last.setDate(qdate(START))  # the wrong way round
    assert choices.days() == Days(START, TODAY)


def test_no_program_means_all_days(qtbot, dressed):
    choices = made(qtbot, NOTHING)
    choices.span.setCurrentIndex(1)
    assert choices.days() == Days()
    assert not choices.exercise.isEnabled()
    assert choices.choice().exercise is None


def test_every_change_asks_for_another_chart(qtbot, dressed):
    choices = made(qtbot)
    for change in (
        lambda: choices.choose(Kind.MASS),
        lambda: choices.span.setCurrentIndex(3),
        lambda: choices.exercise.setCurrentIndex(1),
    ):
        with qtbot.waitSignal(choices.changed):
            change()
    assert choices.choice().exercise == ExerciseKey("goblet_squat")


def test_muscles_begin_with_the_emphasis_and_stop_at_six(qtbot, dressed):
    choices = made(qtbot)
    assert choices.choice().muscles == (Muscle.QUADRICEPS, Muscle.GLUTEALS)
    for row in range(choices.muscles.count()):
        choices.muscles.item(row).setCheckState(Qt.CheckState.Checked)
    assert len(choices.choice().muscles) == 6
    choices.forget()
    assert choices.choice().muscles == ()
    assert choices.choice().exercise is None


def test_what_was_chosen_stays_when_the_diary_changes(qtbot, dressed):
    choices = made(qtbot)
    choices.exercise.setCurrentIndex(1)
    choices.fill(ASKED)
    assert choices.choice().exercise == ExerciseKey("goblet_squat")
