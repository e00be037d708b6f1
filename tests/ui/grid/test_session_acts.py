"""Edits of sessions, days and the week without a drag."""

from __future__ import annotations

from app.domain.program import Span
from app.ui.grid.session_acts import SessionActs
from tests.ui.grid import scene


def test_sessions_are_added_moved_renamed_noted_and_removed(qapp):
    on = scene.bench()
    on.choose_span(Span.THIS_WEEK)
    acts = SessionActs(on)
    monday = on.desk.program.weeks[0].days[0].sessions[0].id
    assert acts.rename(monday, "Lower body")
    assert acts.move(monday, 1)
    assert scene.names(on, 1)[0] == "back_squat"
    assert acts.write_note(monday, "slow")
    assert acts.write_day_note(1, "hall closes at 20:00")
    assert acts.add(4, "Extra")
    assert acts.clear_day(4)
    assert acts.remove(monday)
    assert [step.label for step in on.desk.history.steps] == [
        "Rename Mon 1",
        "Move Lower body to Tuesday",
        "Note on Lower body",
        "Note on Tuesday",
        "Add a session on Friday",
        "Clear Friday",
        "Remove Lower body",
    ]


def test_a_note_on_the_week_is_that_weeks_alone(qapp):
    on = scene.bench()
    on.choose_span(Span.WHOLE_PROGRAM)
    on.show_week(1)
    assert SessionActs(on).write_week_note(" rope exam on Friday ")
    assert [week.note for week in on.desk.program.weeks] == ["", "rope exam on Friday", ""]
    assert on.desk.history.steps[-1].label == "Note on week 2"
