"""The dialog of ranges: shipped beside own, set with who and why, and taken back."""

from __future__ import annotations

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.domain.work import Coach
from app.ui.bench import Bench
from app.ui.finding_rows import source_text
from app.ui.lines_table import choose, chosen
from app.ui.own_ranges import OwnRangesDialog
from app.ui.start import desk_on
from db.store import Store
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.steps import retype


@pytest.fixture
def dialog(qtbot: QtBot, bench: Bench, store: Store) -> OwnRangesDialog:
    store.set_coach(Coach("Mette Aas"))
    made = OwnRangesDialog(bench, store, None, "weekly_sets")
    qtbot.addWidget(made)
    made.show()
    return made


def choose_trained(dialog: OwnRangesDialog) -> None:
    """Choose the range of weekly sets that holds for trained people in every week."""
    number = next(
        k
        for k, line in enumerate(dialog.lines)
        if line.shipped.rule == "weekly_sets" and line.shipped.source == "bazvalle2022"
    )
    choose(dialog.table, number)


def test_a_line_says_rule_people_range_and_source(dialog: OwnRangesDialog) -> None:
    choose_trained(dialog)
    rule, who, shipped, own, source = dialog.cells(dialog.line)
    assert rule == "Sets of a muscle a week"
    assert who == "intermediate, advanced, emphasised muscles"
    assert shipped == "12–20 sets"
    assert own == ""
    assert source.startswith("Baz-Valle")
    assert "12 to 20 weekly sets" in dialog.about_line.text()
    assert (dialog.low.value(), dialog.high.value()) == (12, 20)
    assert dialog.by.text() == "Mette Aas"
    assert not dialog.take_back_button.isEnabled()


def test_an_own_range_holds_at_once_and_in_the_next_session(
    dialog: OwnRangesDialog, bench: Bench, store: Store
) -> None:
    before = {f.id for f in bench.desk.findings if f.rule == "weekly_sets"}
    choose_trained(dialog)
    retype(dialog.low, "2")
    retype(dialog.high, "30")
    retype(dialog.why, "two years of records")
    dialog.try_keep()
    assert dialog.wrong.text() == ""
    assert dialog.cells(dialog.line)[3] == "2–30 sets"
    assert dialog.cells(dialog.line)[2] == "12–20 sets", "shipped stays beside it"
    assert "set by Mette Aas: two years of records" in dialog.about_line.text()
    after = [f for f in bench.desk.findings if f.rule == "weekly_sets"]
    assert {f.id for f in after} != before
    assert all(f.source == "own range of Mette Aas" for f in after if f.range.own)
    (own,) = desk_on(store).ranges.overrides
    assert (own.range.low, own.range.high, own.by) == (2, 30, "Mette Aas")


def test_it_can_rest_on_a_publication_that_is_then_cited(
    dialog: OwnRangesDialog, bench: Bench
) -> None:
    choose_trained(dialog)
    retype(dialog.low, "25")
    retype(dialog.high, "30")
    retype(dialog.why, "read it again")
    dialog.rests_on.setCurrentIndex(dialog.rests_on.findData("schoenfeld2017-volume"))
    dialog.try_keep()
    assert dialog.wrong.text() == ""
    (own,) = bench.desk.ranges.overrides
    assert (own.range.source, own.range.note) == ("schoenfeld2017-volume", "own range of Mette Aas")
    found = [f for f in bench.desk.findings if f.range is not None and f.range.own]
    assert found
    assert all(source_text(bench, f).endswith(", own range of Mette Aas") for f in found)
    choose(dialog.table, 0)
    assert dialog.rests_on.currentData() == ""
    choose_trained(dialog)
    assert dialog.rests_on.currentData() == "schoenfeld2017-volume"


def test_taking_it_back_lets_the_shipped_range_hold_again(
    dialog: OwnRangesDialog, bench: Bench, store: Store
) -> None:
    before = [f.id for f in bench.desk.findings]
    choose_trained(dialog)
    retype(dialog.low, "2")
    retype(dialog.why, "records")
    dialog.try_keep()
    retype(dialog.low, "3")
    dialog.try_keep()
    assert len(store.range_overrides()) == 1, "an own range takes the place of the earlier one"
    dialog.take_back()
    assert store.range_overrides() == ()
    assert [f.id for f in bench.desk.findings] == before
    assert dialog.cells(dialog.line)[3] == ""
    assert dialog.low.value() == 3
    assert dialog.why.text() == "records"
    dialog.try_keep()
    assert dialog.cells(dialog.line)[3] == "3–20 sets", "and it can be set again"


@pytest.mark.parametrize(
    ("low", "high", "why", "told"),
    [
        ("21", "20", "seen", "low 21 lies above high 20"),
        ("", "", "seen", "Both ends are open"),
        ("10", "20", "", "The reason is missing"),
        ("ten", "20", "seen", "'ten' is not a number"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_kept(
    dialog: OwnRangesDialog, store: Store, low: str, high: str, why: str, told: str
) -> None:
    choose_trained(dialog)
    retype(dialog.low, low)
    retype(dialog.high, high)
    retype(dialog.why, why)
    dialog.try_keep()
    assert told in dialog.wrong.text()
    assert store.range_overrides() == ()
    assert dialog.low.edit.text() == low


def test_without_a_name_it_is_not_set(dialog: OwnRangesDialog, store: Store) -> None:
    choose_trained(dialog)
    retype(dialog.by, "")
    retype(dialog.why, "seen")
    dialog.try_keep()
    assert "The name of who sets it is missing" in dialog.wrong.text()
    assert store.range_overrides() == ()


def test_the_search_narrows_and_an_empty_result_can_do_no_harm(dialog: OwnRangesDialog) -> None:
    retype(dialog.search, "novice sets")
    assert 0 < dialog.table.topLevelItemCount() < len(dialog.lines)
    retype(dialog.search, "zzz")
    assert dialog.table.topLevelItemCount() == 0
    assert chosen(dialog.table) is None
    assert not dialog.keep_button.isEnabled()


def test_everybody_can_use_it(qtbot: QtBot, dressed: QApplication, dialog: OwnRangesDialog) -> None:
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
