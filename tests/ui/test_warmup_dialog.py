"""The warm-up of a session, put together and kept as one step."""

from __future__ import annotations

import pytest
from pytestqt.qtbot import QtBot

from app.booklet.warmup_text import drill_text
from app.domain.exercise import Pattern
from app.domain.program import Drill
from app.ui.bench import Bench
from app.ui.warmup_dialog import WarmupDialog


@pytest.fixture
def dialog(qtbot: QtBot, bench: Bench) -> WarmupDialog:
    made = WarmupDialog(bench, None)
    qtbot.addWidget(made)
    return made


def test_suggesting_and_keeping_writes_the_drills_before_the_session(
    dialog: WarmupDialog, bench: Bench
) -> None:
    dialog.suggest()
    keys = dialog.keys()
    session = dialog.session
    assert keys
    dialog.try_keep()
    strand = session.strand
    after = [
        s.warmup for _, s in bench.desk.program.weeks[bench.week].sessions() if s.strand == strand
    ]
    assert after == [tuple(map(Drill, keys))]
    assert bench.desk.history.undoable.label.startswith("Change the warm-up on")


def test_a_drill_goes_in_moves_up_and_comes_out(dialog: WarmupDialog) -> None:
    dialog.suggest()
    before = dialog.keys()
    dialog.others.setCurrentRow(0)
    dialog.add()
    added = dialog.keys()[-1]
    assert dialog.keys() == (*before, added)
    dialog.shift(-1)
    assert dialog.keys()[-2] == added
    dialog.remove()
    assert dialog.keys() == before


def test_only_what_suits_a_warm_up_is_offered(dialog: WarmupDialog, bench: Bench) -> None:
    catalogue = bench.desk.catalogue
    rows = range(dialog.others.count())
    offered = [catalogue[dialog.others.item(row).data(0x0100)] for row in rows]
    assert offered
    assert all(exercise.warmup_for for exercise in offered)
    assert any(exercise.pattern is Pattern.DRILL for exercise in offered)


def test_keeping_what_was_there_makes_no_step(dialog: WarmupDialog, bench: Bench) -> None:
    steps = bench.desk.history.done
    dialog.try_keep()
    assert bench.desk.history.done == steps


def test_every_drill_has_the_dose_that_the_booklet_prints(
    dialog: WarmupDialog, bench: Bench
) -> None:
    catalogue = bench.desk.catalogue
    items = [dialog.others.item(row) for row in range(dialog.others.count())]
    assert items
    for item in items:
        exercise = catalogue[item.data(0x0100)]
        printed = drill_text(Drill(exercise.key), exercise).replace("\N{NO-BREAK SPACE}", " ")
        if not exercise.timed:
            printed = printed.replace(" \N{MULTIPLICATION SIGN} ", ", ") + " reps"
        assert item.text() == printed
