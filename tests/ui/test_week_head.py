"""The line above the grid: the open week, and how far an edit reaches."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.domain.edits.weeks import set_week_note
from app.domain.findings import edit
from app.domain.program import Span
from app.ui.bench import Bench
from app.ui.week_head import WeekHead, core_reps
from tests import builders
from tests.ui.desks import without_program


@pytest.fixture
def head(qtbot: QtBot, bench: Bench) -> WeekHead:
    made = WeekHead(bench)
    qtbot.addWidget(made)
    made.resize(1100, 42)
    made.show()
    return made


def test_it_names_week_dates_block_and_core_work(head: WeekHead, bench: Bench) -> None:
    assert head.title.text() == "Week 1"
    assert head.about.text() == "23 to 29 November · Block 1, 1 of 4 · core work 10 reps"
    bench.show_week(4)
    assert head.title.text() == "Week 5"
    assert "Build, 1 of 2" in head.about.text()


def test_a_light_week_says_so(head: WeekHead, bench: Bench) -> None:
    bench.show_week(3)
    assert "light week" in head.about.text()


def test_the_note_on_the_week_stands_behind_it(head: WeekHead, bench: Bench) -> None:
    bench.keep(edit("Note", set_week_note, index=0, note="Rope exam\non Friday"))
    assert head.about.text().endswith(" · Rope exam on Friday")


def test_a_narrow_head_says_less(head: WeekHead) -> None:
    head.resize(700, 42)
    assert head.about.text() == "23 to 29 Nov · core work 10 reps"


@pytest.mark.parametrize("span", tuple(Span))
def test_a_click_chooses_how_far_edits_reach(qtbot: QtBot, head: WeekHead, bench, span) -> None:
    bench.choose_span(Span.THIS_WEEK if span is not Span.THIS_WEEK else Span.FROM_HERE)
    qtbot.mouseClick(head.buttons[span], Qt.MouseButton.LeftButton)
    assert bench.span is span
    assert [s for s, b in head.buttons.items() if b.isChecked()] == [span]


def test_the_span_can_be_chosen_by_keys(qtbot: QtBot, head: WeekHead, bench: Bench) -> None:
    head.buttons[Span.WHOLE_BLOCK].setFocus()
    qtbot.keyClick(head.buttons[Span.WHOLE_BLOCK], Qt.Key.Key_Space)
    assert bench.span is Span.WHOLE_BLOCK


def test_a_span_chosen_elsewhere_is_ticked(head: WeekHead, bench: Bench) -> None:
    bench.choose_span(Span.WHOLE_PROGRAM)
    assert head.buttons[Span.WHOLE_PROGRAM].isChecked()


def test_without_a_program_there_is_nothing_to_choose(head: WeekHead, bench: Bench) -> None:
    without_program(bench)
    assert head.title.text() == head.about.text() == ""
    assert not any(button.isEnabled() for button in head.buttons.values())


@pytest.mark.parametrize(
    ("text", "reps"),
    [
        ("Mon: curl 3x12", ""),
        ("Mon: back_squat 3x10 core", "10"),
        ("Mon: back_squat 3x8 core | Thu: deadlift 3x5-6 core", "5–8"),
    ],
)
def test_core_work_in_figures(text: str, reps: str) -> None:
    assert core_reps(builders.week(text)) == reps
