"""The list of what a refit changed."""

from __future__ import annotations

from PySide6.QtWidgets import QApplication

from app.domain.refit import Change, ChangeKind
from app.ui.refit_lines import NOTHING, RefitLines

SWAP = Change(ChangeKind.SWAPPED, "Step-up for Split squat", "Monday, week 1", "needs dumbbells")
START = Change(ChangeKind.START, "Begins on 30 Nov 2026", "", "it began on 15 Jun 2026")


def test_every_change_is_one_line_and_none_is_a_sentence_too(qapp: QApplication) -> None:
    lines = RefitLines()
    lines.show_changes((SWAP, START))
    assert lines.lines() == [
        "Step-up for Split squat (Monday, week 1): needs dumbbells.",
        "Begins on 30 Nov 2026: it began on 15 Jun 2026.",
    ]
    lines.show_changes(())
    assert lines.lines() == [NOTHING]


def test_a_sentence_takes_the_place_of_what_was_there(qapp: QApplication) -> None:
    lines = RefitLines()
    lines.show_changes((SWAP,))
    lines.say("No exercise of 'Ridge season' fits Jorunn Aske.")
    assert lines.lines() == ["No exercise of 'Ridge season' fits Jorunn Aske."]
    assert lines.accessibleName()
