"""The list says how much of each session has results."""

from __future__ import annotations

from pytestqt.qtbot import QtBot

from app.domain.results import Diary, SlotResult
from app.ui.bench import Bench
from app.ui.results.draft import Known
from app.ui.results.meant import meant_weeks
from app.ui.results.session_list import SessionList


def test_every_session_says_how_much_of_it_was_done(qtbot: QtBot, bench: Bench) -> None:
    program = bench.desk.program
    sessions = [s for week in meant_weeks(bench.desk) for s in week.sessions()]
    made = SessionList(sessions)
    qtbot.addWidget(made)
    slots = sessions[1].session.slots
    results = [SlotResult(program.id, s.id, s.exercise, sessions[1].planned, ()) for s in slots]
    made.show_known(Known(Diary(results=tuple(results[:2])), program.id))
    texts = [made.tree.topLevelItem(n).text(3) for n in range(3)]
    assert [text[2:] for text in texts] == ["0/5", "2/6", "0/5"]
    assert len({text[0] for text in texts}) == 2
    made.show_one(1, Known(Diary(results=tuple(results)), program.id))
    assert made.tree.topLevelItem(1).text(3)[2:] == "6/6"


def test_choosing_with_the_keys_is_told_and_choosing_from_outside_is_not(
    qtbot: QtBot, bench: Bench
) -> None:
    made = SessionList([s for week in meant_weeks(bench.desk) for s in week.sessions()])
    qtbot.addWidget(made)
    told: list[int] = []
    made.chosen.connect(told.append)
    made.choose(3)
    assert told == []
    made.tree.setCurrentItem(made.tree.topLevelItem(5))
    assert told == [5]
