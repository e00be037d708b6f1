"""The progression dialog: the whole table before anything changes, then one step."""

from __future__ import annotations

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.domain.edits.fields import set_field
from app.domain.edits.weeks import make_ordinary
from app.domain.findings import edit
from app.domain.program import Field, Program, Reps, Role, Span
from app.ui.bench import Bench
from app.ui.progression_dialog import COLUMNS, PATHS, ProgressionDialog, light_turn
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import slot
from tests.ui.steps import choose, kept, nothing_kept, one_step, refused_with, retype

WAIT_MS = 5_000
STEPWISE, UNDULATING, WAVES, DOUBLE = (name for name, _ in PATHS)


@pytest.fixture
def dialog(qtbot: QtBot, bench: Bench) -> ProgressionDialog:
    made = ProgressionDialog(bench, None)
    qtbot.addWidget(made)
    return made


def core_reps(program: Program) -> list[list[int]]:
    """Repetitions of the core work, week by week, session by session."""
    return [
        [
            next(s.reps.high for s in session.slots if s.role is Role.CORE)
            for _, session in week.sessions()
        ]
        for week in program.weeks
    ]


def column(dialog: ProgressionDialog, name: str) -> list[str]:
    at = COLUMNS.index(name)
    return [dialog.table.item(row, at).text() for row in range(dialog.table.rowCount())]


def test_looking_changes_nothing(dialog: ProgressionDialog, bench: Bench) -> None:
    with nothing_kept(bench):
        choose(dialog.path, UNDULATING)
        dialog.refresh()
        dialog.reject()


def test_the_table_shows_every_week_as_it_would_be(dialog: ProgressionDialog, bench: Bench) -> None:
    weeks = len(bench.desk.program.weeks)
    assert column(dialog, "Week") == [str(number + 1) for number in range(weeks)]
    assert column(dialog, "Block")[0] == bench.desk.program.blocks[0].name
    assert column(dialog, "Block")[-1] == "Build"
    core = column(dialog, "Core work")
    assert core[0] == "15 reps"
    assert core[-1] == "3 reps"


def test_applying_does_what_the_table_said_in_one_step(
    dialog: ProgressionDialog, bench: Bench
) -> None:
    shown = column(dialog, "Core work")
    with one_step(bench, "Apply a progression, stepwise"):
        kept(dialog)
    after = core_reps(bench.desk.program)
    assert [f"{max(week)} reps" for week in after] == shown
    assert after[0] == [15, 15]
    assert after == sorted(after, reverse=True)


def test_typed_numbers_are_applied_even_before_the_table_caught_up(
    dialog: ProgressionDialog, bench: Bench
) -> None:
    retype(dialog.reps[0], "10")
    retype(dialog.reps[1], "5")
    retype(dialog.first, "2")
    retype(dialog.last, "3")
    before = core_reps(bench.desk.program)
    kept(dialog)
    after = core_reps(bench.desk.program)
    assert (after[1], after[2]) == ([10, 10], [5, 5])
    assert (after[0], after[3:]) == (before[0], before[3:])


def test_the_table_follows_the_typing(qtbot: QtBot, dialog: ProgressionDialog) -> None:
    retype(dialog.reps[0], "9")
    qtbot.waitUntil(lambda: column(dialog, "Core work")[0] == "9 reps", timeout=WAIT_MS)


def test_undulating_gives_each_session_its_own_target(
    dialog: ProgressionDialog, bench: Bench
) -> None:
    choose(dialog.path, UNDULATING)
    retype(dialog.undulating, "10; 6")
    dialog.with_light.setChecked(False)
    with one_step(bench, "Apply a progression, undulating in the week"):
        kept(dialog)
    assert core_reps(bench.desk.program)[0] == [10, 6]
    assert core_reps(bench.desk.program)[5] == [10, 6]


def test_waves_fall_and_begin_again_a_little_lower(dialog: ProgressionDialog, bench: Bench) -> None:
    choose(dialog.path, WAVES)
    retype(dialog.wave, "12, 9")
    retype(dialog.lower_by, "3")
    dialog.with_light.setChecked(True)
    kept(dialog)
    first = [week[0] for week in core_reps(bench.desk.program)]
    assert (first[0], first[1], first[3], first[4]) == (12, 9, 9, 6)
    assert [week.light for week in bench.desk.program.weeks] == [False, False, True] * 2


def test_double_progression_keeps_one_range(dialog: ProgressionDialog, bench: Bench) -> None:
    choose(dialog.path, DOUBLE)
    retype(dialog.range[0], "6")
    retype(dialog.range[1], "10")
    kept(dialog)
    assert slot(bench, 0, week=5).reps == Reps(6, 10)


def test_effort_and_sets_are_left_alone_unless_asked_for(
    dialog: ProgressionDialog, bench: Bench
) -> None:
    def others() -> list[tuple[object, int]]:
        week = bench.desk.program.weeks[0]
        return [(one.effort, one.sets) for one in week.slots()]

    before = others()
    kept(dialog)
    assert others() == before


def test_effort_and_sets_move_when_asked_for(dialog: ProgressionDialog, bench: Bench) -> None:
    dialog.with_light.setChecked(False)
    dialog.with_effort.setChecked(True)
    dialog.with_sets.setChecked(True)
    retype(dialog.core_rir[0], "4")
    retype(dialog.core_rir[1], "1")
    retype(dialog.more_sets, "1")
    first, last = slot(bench, 0, week=0).sets, slot(bench, 0, week=5).sets
    kept(dialog)
    assert slot(bench, 0, week=0).effort.reps == 4
    assert slot(bench, 0, week=5).effort.reps == 1
    assert slot(bench, 0, week=0).sets == first
    assert slot(bench, 0, week=5).sets == last + 1


def test_the_chart_shows_what_the_table_says(dialog: ProgressionDialog, bench: Bench) -> None:
    dialog.with_effort.setChecked(True)
    retype(dialog.rest_rir[0], "4")
    dialog.refresh()
    dialog.weighing.finish()
    weeks = dialog.chart.weeks
    assert [f"{week.after.reps} reps" for week in weeks] == column(dialog, "Core work")
    for week, sets in zip(weeks, column(dialog, "Sets"), strict=True):
        assert sets.split()[-1] == str(week.after.sets)
    for name, efforts in (
        ("Effort", [week.after.core for week in weeks]),
        ("Its effort", [week.after.assistance for week in weeks]),
    ):
        for told, effort in zip(column(dialog, name), efforts, strict=True):
            assert effort in told
    assert weeks[0].after.assistance == "RIR 4"


def test_the_chart_follows_the_typing(qtbot: QtBot, dialog: ProgressionDialog) -> None:
    retype(dialog.reps[0], "9")
    qtbot.waitUntil(lambda: dialog.chart.weeks[0].after.reps == "9", timeout=WAIT_MS)


def test_light_weeks_come_in_their_turn(dialog: ProgressionDialog, bench: Bench) -> None:
    dialog.with_light.setChecked(True)
    retype(dialog.light_every, "2")
    dialog.refresh()
    told = column(dialog, "")
    assert [text.startswith("light week") for text in told] == [False, True] * 3
    kept(dialog)
    assert [week.light for week in bench.desk.program.weeks] == [False, True] * 3


def test_light_weeks_of_the_plan_stay_unless_asked_for(
    dialog: ProgressionDialog, bench: Bench
) -> None:
    assert [week.light for week in bench.desk.program.weeks] == [False] * 3 + [True] + [False] * 2
    assert not dialog.with_light.isChecked()
    assert dialog.light_every.whole_value() == 4
    assert dialog.light_note.text() == "Light weeks stay as they are."
    kept(dialog)
    assert [week.light for week in bench.desk.program.weeks] == [False] * 3 + [True] + [False] * 2


def test_light_weeks_asked_for_take_the_place_of_earlier_ones(
    dialog: ProgressionDialog, bench: Bench
) -> None:
    dialog.with_light.setChecked(True)
    retype(dialog.light_every, "5")
    dialog.refresh()
    assert "become ordinary first" in dialog.light_note.text()
    assert column(dialog, "")[3:] == ["no longer light", "light week", ""]
    kept(dialog)
    assert [week.light for week in bench.desk.program.weeks] == [False] * 4 + [True, False]


def test_a_plan_without_light_weeks_is_offered_some(qtbot: QtBot, bench: Bench) -> None:
    bench.keep(edit("Ordinary", make_ordinary, index=3))
    dialog = ProgressionDialog(bench, None)
    qtbot.addWidget(dialog)
    assert dialog.with_light.isChecked()
    assert not dialog.light_note.isVisibleTo(dialog)
    assert light_turn(bench.desk.program) is None


def test_what_was_set_by_hand_stays_and_is_said(qtbot: QtBot, bench: Bench) -> None:
    chosen = slot(bench)
    bench.keep(
        edit(
            "By hand",
            set_field,
            slot_id=chosen.id,
            field=Field.REPS,
            value=Reps(7, 7),
            span=Span.WHOLE_PROGRAM,
        )
    )
    dialog = ProgressionDialog(bench, None)
    qtbot.addWidget(dialog)
    assert "some set by hand" in column(dialog, "")[0]
    kept(dialog)
    assert slot(bench).reps == Reps(7, 7)


@pytest.mark.parametrize(
    ("path", "field", "typed", "parts"),
    [
        (STEPWISE, "first", "7", ("First week", "7 is out of range", "Enter 1 to 6.")),
        (STEPWISE, "light_every", "1", ("Every so many weeks", "Enter 2 to 52.")),
        (UNDULATING, "undulating", "12, six", ("'12, six' is not a list", "12, 10, 8")),
        (UNDULATING, "undulating", "", ("is not a list of repetitions",)),
        (UNDULATING, "undulating", "40", ("repetitions 40", "1 to 30")),
        (WAVES, "wave", "12,,8", ("'12,,8' is not a list",)),
        (WAVES, "lower_by", "-1", ("Each wave lower by", "Enter 0 to 10.")),
    ],
)
def test_what_cannot_be_is_said_and_nothing_changes(
    dialog: ProgressionDialog,
    bench: Bench,
    path: str,
    field: str,
    typed: str,
    parts: tuple[str, ...],
) -> None:
    choose(dialog.path, path)
    dialog.with_light.setChecked(True)
    retype(getattr(dialog, field), typed)
    refused_with(dialog, bench, *parts)
    dialog.refresh()
    assert not dialog.keep_button.isEnabled()
    assert parts[0] in dialog.wrong.text()


def test_the_first_week_comes_before_the_last(dialog: ProgressionDialog, bench: Bench) -> None:
    retype(dialog.first, "5")
    retype(dialog.last, "2")
    refused_with(dialog, bench, "Weeks 5 to 2", "the first before the last")


def test_a_range_has_its_lower_end_first(dialog: ProgressionDialog, bench: Bench) -> None:
    choose(dialog.path, DOUBLE)
    retype(dialog.range[0], "12")
    retype(dialog.range[1], "8")
    refused_with(dialog, bench, "upper end of the range 8")


def test_a_scheme_that_changes_nothing_cannot_be_applied(qtbot: QtBot, bench: Bench) -> None:
    first = ProgressionDialog(bench, None)
    qtbot.addWidget(first)
    kept(first)
    again = ProgressionDialog(bench, None)
    qtbot.addWidget(again)
    assert not again.keep_button.isEnabled()
    with nothing_kept(bench):
        kept(again)


def test_the_findings_that_would_change_are_listed(
    qtbot: QtBot, dialog: ProgressionDialog, bench: Bench
) -> None:
    before = {finding.id for finding in bench.desk.findings}
    qtbot.waitUntil(lambda: not dialog.weighing.is_busy, timeout=WAIT_MS)
    told = dialog.changes.list.count()
    kept(dialog)
    after = {finding.id for finding in bench.desk.findings}
    assert bool(told) == (before != after)


def test_enter_in_a_field_applies(qtbot: QtBot, dialog: ProgressionDialog, bench: Bench) -> None:
    dialog.show()
    qtbot.waitExposed(dialog)
    with one_step(bench, "Apply a progression, stepwise"):
        QTest.keyClick(dialog.reps[1].edit, Qt.Key.Key_Return)
    assert dialog.result() == ProgressionDialog.DialogCode.Accepted


def test_every_field_has_a_name_for_assistive_technology(dialog: ProgressionDialog) -> None:
    for edit_field in (*dialog.reps, dialog.first, dialog.light_every, *dialog.core_rir):
        assert edit_field.edit.accessibleName()
    for text in (dialog.undulating, dialog.wave, dialog.path, dialog.table):
        assert text.accessibleName()


def test_everybody_can_use_it(
    qtbot: QtBot, dressed: QApplication, dialog: ProgressionDialog
) -> None:
    dialog.show()
    qtbot.waitExposed(dialog)
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
