"""The findings: listed, gone to, mended, accepted and taken back."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication, QMenu, QStyleOptionViewItem
from pytestqt.qtbot import QtBot

from app.domain.client import Screening
from app.domain.edits import fields, weeks
from app.domain.exercise import Equipment
from app.domain.findings import Weight, edit
from app.domain.program import Span
from app.ui import findings_pane
from app.ui.bench import Bench
from app.ui.client.screening import ScreeningSheet
from app.ui.finding_delegate import FIRST_OF_GROUP, ROW, FindingDelegate
from app.ui.finding_rows import Row, source_text, spoken
from app.ui.findings_pane import FindingsPane
from app.ui.mend_trial import full_label
from tests.ui.desks import PROGRAM, with_client, without_program

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def pane(qtbot: QtBot, bench: Bench) -> FindingsPane:
    made = FindingsPane(bench)
    qtbot.addWidget(made)
    made.resize(620, 400)
    made.show()
    qtbot.waitExposed(made)
    return made


@pytest.fixture
def answer(monkeypatch: pytest.MonkeyPatch) -> Callable[[str | None], None]:
    """What the coach types when asked for a reason."""

    def say(text: str | None) -> None:
        monkeypatch.setattr(findings_pane, "ask_text", lambda *_, **__: text)

    return say


def rows(pane: FindingsPane) -> list[Row]:
    return [pane.list.item(k).data(ROW) for k in range(pane.list.count())]


def button(pane: FindingsPane, at: int) -> QPoint:
    """A point on the n-th row's button."""
    delegate = pane.list.itemDelegate()
    assert isinstance(delegate, FindingDelegate)
    option = QStyleOptionViewItem()
    rect = pane.list.visualItemRect(pane.list.item(at))
    option.rect = rect
    return delegate.button_of(rect.toRectF(), rows(pane)[at]).center().toPoint()


def with_mend(pane: FindingsPane) -> int:
    """The row of the first finding that has a mend."""
    return next(k for k, row in enumerate(rows(pane)) if pane.mend_of(row.finding) is not None)


def test_the_open_weeks_findings_are_listed_heaviest_first(pane: FindingsPane, bench) -> None:
    week = bench.open_week.id
    shown = [row.finding.id for row in rows(pane)]
    assert shown == [f.id for f in bench.desk.findings if f.place.week in (week, None)]
    weights = [row.finding.weight for row in rows(pane)]
    assert weights == sorted(weights)


def test_all_weeks_can_be_shown(qtbot: QtBot, pane: FindingsPane, bench: Bench) -> None:
    few = pane.list.count()
    qtbot.keyClick(pane.whole, Qt.Key.Key_Space)
    assert pane.list.count() == len(bench.desk.findings) > few


def test_counts_say_how_many_of_each_weight(pane: FindingsPane) -> None:
    for label in pane.counts:
        count = sum(row.finding.weight is label.weight for row in rows(pane))
        assert label.isVisible() is (count > 0)
        if count:
            assert label.text().startswith(str(count))


def test_each_row_is_told_with_weight_sentence_place_and_source(pane: FindingsPane, bench) -> None:
    for k, row in enumerate(rows(pane)):
        told = pane.list.item(k).text()
        assert told == spoken(bench, row)
        assert told.startswith(f"{row.finding.weight.word}. {row.finding.text}")
        assert row.finding.place_text in told
        assert source_text(bench, row.finding) in told


def test_another_week_lists_its_own(pane: FindingsPane, bench: Bench) -> None:
    before = [row.finding.id for row in rows(pane)]
    bench.show_week(3)
    assert [row.finding.id for row in rows(pane)] != before


def test_a_week_without_findings_says_that_a_plan_is_only_a_plan(pane, bench: Bench) -> None:
    for finding in bench.desk.findings:
        bench.desk.keep(edit("Accept", fields.accept, finding=finding.id, reason="so"))
    assert "accepted" in pane.accepted.text()
    bench.keep(edit("Clear", weeks.clear_weeks, indices=range(6)))
    for finding in bench.desk.findings:
        bench.desk.keep(edit("Accept", fields.accept, finding=finding.id, reason="so"))
    without_program(bench)
    assert pane.empty.isVisible()
    assert pane.empty.text() == "Findings appear here while you plan."
    assert not pane.list.isVisible()


# ---------------------------------------------------------------------------- one weight alone


def weight_with_most(pane: FindingsPane) -> Weight:
    return max(Weight, key=lambda weight: pane.counts[weight].count)


def test_a_pressed_count_shows_its_weight_alone(qtbot: QtBot, pane: FindingsPane) -> None:
    pane.whole.setChecked(True)
    everything = rows(pane)
    weight = weight_with_most(pane)
    qtbot.mouseClick(pane.counts[weight], LEFT)
    assert rows(pane) == [row for row in everything if row.finding.weight is weight]
    assert 0 < len(rows(pane)) < len(everything)
    assert sum(label.count for label in pane.counts) == len(everything), "counts stay"
    qtbot.mouseClick(pane.counts[weight], LEFT)
    assert rows(pane) == everything


def test_two_pressed_counts_show_both_weights(qtbot: QtBot, pane: FindingsPane) -> None:
    pane.whole.setChecked(True)
    for weight in (Weight.OUTSIDE, Weight.REMARK):
        qtbot.mouseClick(pane.counts[weight], LEFT)
    assert {row.finding.weight for row in rows(pane)} == {Weight.OUTSIDE, Weight.REMARK}


def test_a_week_with_none_of_the_weight_says_how_to_see_the_rest(pane, bench: Bench) -> None:
    pane.whole.setChecked(True)
    pane.counts[Weight.REMARK].setChecked(True)
    for finding in bench.desk.findings:
        if finding.weight is Weight.REMARK:
            bench.desk.keep(edit("Accept", fields.accept, finding=finding.id, reason="so"))
    assert pane.counts[Weight.REMARK].isVisible(), "so that it can be let go again"
    pane.whole.setChecked(False)
    pane.counts[Weight.REMARK].setChecked(False)
    pane.counts[Weight.CONFLICT].setChecked(True)
    assert rows(pane) == []
    assert pane.empty.text() == (
        "No conflicts in week 1. Press the sign above again to see the other findings."
    )


# ---------------------------------------------------------------------------- items that stay


def test_a_tried_edit_keeps_the_items_of_findings_that_stay(pane, bench: Bench) -> None:
    pane.whole.setChecked(True)
    items = [pane.list.item(k) for k in range(pane.list.count())]
    before = {pane.list.item(k).data(ROW).finding.id: k for k in range(pane.list.count())}
    bench.try_edit(edit("Ordinary", weeks.make_ordinary, index=3))
    assert rows(pane)[0].state == "would appear"
    now = [pane.list.item(k) for k in range(pane.list.count())]
    assert all(any(item is other for other in now) for item in items)
    for k in range(pane.list.count()):
        key = rows(pane)[k].finding.id
        if key in before and rows(pane)[k].state != "would appear":
            assert pane.list.item(k) is items[before[key]]
    bench.clear_preview()
    assert [pane.list.item(k) for k in range(pane.list.count())] == items


@given(
    states=st.lists(
        st.sampled_from(["clear", "light", "none", "empty", "all", "week", "sign"]), max_size=8
    )
)
@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
def test_after_any_run_of_views_the_list_is_as_if_made_anew(pane, bench: Bench, states) -> None:
    for state in states:
        match state:
            case "clear":
                bench.try_edit(edit("Clear", weeks.clear_weeks, indices=(0, 2)))
            case "ordinary":
                bench.try_edit(edit("Ordinary", weeks.make_ordinary, index=3))
            case "all":
                pane.whole.setChecked(not pane.whole.isChecked())
            case "week":
                bench.show_week((bench.week + 1) % 6)
            case "sign":
                pane.counts[Weight.REMARK].setChecked(not pane.counts[Weight.REMARK].isChecked())
            case _:
                bench.clear_preview()
        fresh = FindingsPane(bench)
        fresh.whole.setChecked(pane.whole.isChecked())
        for mine, other in zip(pane.counts, fresh.counts, strict=True):
            other.setChecked(mine.isChecked())
        assert rows(pane) == rows(fresh)
        for k in range(pane.list.count()):
            for part in (Qt.ItemDataRole.DisplayRole, FIRST_OF_GROUP):
                assert pane.list.item(k).data(part) == fresh.list.item(k).data(part)
        fresh.deleteLater()


# ---------------------------------------------------------------------------- going there


def test_a_click_on_a_row_goes_to_its_card(qtbot: QtBot, pane: FindingsPane, bench: Bench) -> None:
    with_client(bench, equipment=frozenset({Equipment.BODY}))
    pane.whole.setChecked(True)
    at = next(
        k
        for k, row in enumerate(rows(pane))
        if row.finding.place.slot is not None and row.finding.place.week == PROGRAM.weeks[2].id
    )
    pane.list.scrollToItem(pane.list.item(at))
    finding = rows(pane)[at].finding
    where = pane.list.visualItemRect(pane.list.item(at)).topLeft() + QPoint(40, 12)
    qtbot.mouseClick(pane.list.viewport(), LEFT, pos=where)
    assert bench.week == 2
    assert bench.selection == (finding.place.slot,)


def test_enter_goes_there_too(qtbot: QtBot, pane: FindingsPane, bench: Bench) -> None:
    with_client(bench, equipment=frozenset({Equipment.BODY}))
    bench.show_week(1)
    at = next(k for k, row in enumerate(rows(pane)) if row.finding.place.slot is not None)
    pane.list.setCurrentRow(at)
    qtbot.keyClick(pane.list, Qt.Key.Key_Return)
    assert bench.selection == (rows(pane)[at].finding.place.slot,)


# ---------------------------------------------------------------------------- mending, accepting


def test_the_button_applies_the_mend_as_one_step(qtbot: QtBot, pane, bench: Bench) -> None:
    at = with_mend(pane)
    pane.list.scrollToItem(pane.list.item(at))
    mend = pane.mend_of(rows(pane)[at].finding)
    with qtbot.waitSignal(bench.said, timeout=500) as told:
        qtbot.mouseClick(pane.list.viewport(), LEFT, pos=button(pane, at))
    label = full_label(mend, PROGRAM, mend(PROGRAM), bench.desk.catalogue)
    assert told.args == [f"{label}. Undo takes it back."]
    assert bench.desk.history.undoable.label == label
    assert bench.desk.program == mend(PROGRAM)
    bench.undo()
    assert bench.desk.program == PROGRAM


def test_the_other_mouse_button_mends_nothing(qtbot: QtBot, pane: FindingsPane, bench) -> None:
    at = with_mend(pane)
    pane.list.scrollToItem(pane.list.item(at))
    qtbot.mouseClick(pane.list.viewport(), Qt.MouseButton.RightButton, pos=button(pane, at))
    assert bench.desk.program == PROGRAM
    assert bench.desk.history.undoable is None


def test_a_finding_is_accepted_with_a_reason_and_taken_back(pane, bench: Bench, answer) -> None:
    finding = rows(pane)[0].finding
    answer("  asked for by the client ")
    pane.accept(finding)
    last = next(row for row in rows(pane) if row.finding.id == finding.id)
    assert last.reason == "asked for by the client"
    assert rows(pane)[-1].finding.id == finding.id, "accepted ones come last"
    assert pane.accepted.text() == "1 accepted"
    assert pane.button_text(last) == "Take back"
    pane.press_button(last)
    assert bench.desk.program == PROGRAM
    assert pane.accepted.text() == ""


def test_without_a_reason_it_is_not_accepted(qtbot: QtBot, pane, bench: Bench, answer) -> None:
    answer(" ")
    with qtbot.waitSignal(bench.refused, timeout=500) as told:
        pane.accept(rows(pane)[0].finding)
    assert told.args == ["A finding is accepted with a reason. Say in a few words why."]
    answer(None)
    with qtbot.assertNotEmitted(bench.refused):
        pane.accept(rows(pane)[0].finding)
    assert bench.desk.program == PROGRAM


def test_without_a_mend_the_button_accepts(pane: FindingsPane, bench: Bench, answer) -> None:
    row = next(r for r in rows(pane) if pane.mend_of(r.finding) is None)
    assert pane.button_text(row) == "Accept…"
    answer("known")
    pane.press_button(row)
    assert bench.desk.program.accepted[0].finding == row.finding.id


def test_what_a_screening_forbids_leads_to_the_screening(
    pane: FindingsPane, bench: Bench, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = Screening(date(2026, 11, 1), active=True, known_disease=False, symptoms=True)
    with_client(bench, screenings=(asked,))
    row = next(r for r in rows(pane) if r.finding.rule == "screening")
    assert pane.button_text(row) == "Screening…"
    opened: list[ScreeningSheet] = []

    def show(sheet: ScreeningSheet) -> int:
        opened.append(sheet)
        return 0

    monkeypatch.setattr(ScreeningSheet, "exec", show)
    pane.press_button(row)
    assert len(opened) == 1
    assert bench.desk.program.accepted == ()
    opened[0].deleteLater()


def test_m_mends_the_row_with_the_focus(qtbot: QtBot, pane: FindingsPane, bench: Bench) -> None:
    at = with_mend(pane)
    pane.list.setCurrentRow(at)
    mend = pane.mend_of(rows(pane)[at].finding)
    qtbot.keyClick(pane.list, Qt.Key.Key_M)
    assert bench.desk.program == mend(PROGRAM)


def test_m_says_where_there_is_no_mend(qtbot: QtBot, pane: FindingsPane, bench: Bench) -> None:
    at = next(k for k, row in enumerate(rows(pane)) if pane.mend_of(row.finding) is None)
    pane.list.setCurrentRow(at)
    with qtbot.waitSignal(bench.said, timeout=500) as told:
        qtbot.keyClick(pane.list, Qt.Key.Key_M)
    assert told.args[0].startswith("No single edit would settle this.")
    assert bench.desk.program == PROGRAM


def test_a_accepts_and_takes_back(qtbot: QtBot, pane, bench: Bench, answer) -> None:
    finding = rows(pane)[0].finding
    answer("known")
    pane.list.setCurrentRow(0)
    qtbot.keyClick(pane.list, Qt.Key.Key_A)
    assert [one.finding for one in bench.desk.program.accepted] == [finding.id]
    pane.list.setCurrentRow(pane.list.count() - 1)
    assert rows(pane)[-1].finding.id == finding.id
    qtbot.keyClick(pane.list, Qt.Key.Key_A)
    assert bench.desk.program == PROGRAM


def test_keys_do_nothing_to_what_is_only_tried(qtbot: QtBot, pane, bench: Bench, answer) -> None:
    answer("known")
    pane.whole.setChecked(True)
    bench.try_edit(edit("Ordinary", weeks.make_ordinary, index=3))
    pane.list.setCurrentRow(0)
    assert rows(pane)[0].state
    for key in (Qt.Key.Key_M, Qt.Key.Key_A):
        qtbot.keyClick(pane.list, key)
    assert bench.desk.program == PROGRAM


def test_a_narrow_pane_says_mend(pane: FindingsPane) -> None:
    row = rows(pane)[with_mend(pane)]
    assert pane.button_text(row) == pane.mend_of(row.finding).label
    pane.set_compact(True)
    assert pane.button_text(row) == "Mend"


def test_the_menu_of_a_row_offers_the_same_acts(qtbot: QtBot, pane, bench: Bench) -> None:
    at = with_mend(pane)
    pane.list.scrollToItem(pane.list.item(at))
    pane._menu(pane.list.visualItemRect(pane.list.item(at)).center())
    (menu,) = pane.findChildren(QMenu)
    texts = [action.text().replace("&&", "&") for action in menu.actions()]
    assert texts == [
        "Go there",
        "How this came about\tF3",
        pane.mend_of(rows(pane)[at].finding).label,
        "Accept, with a reason…",
        "Range of this rule…",
    ]
    with qtbot.waitSignal(bench.changed, timeout=500):
        menu.actions()[2].trigger()
    with qtbot.waitSignal(menu.destroyed, timeout=1000):
        menu.close()


# ---------------------------------------------------------------------------- previews


def test_a_tried_edit_tells_what_would_come_and_go(pane: FindingsPane, bench: Bench) -> None:
    preview = bench.try_edit(edit("Clear", weeks.clear_weeks, indices=(0,)))
    week = bench.open_week.id
    states = {row.finding.id: row.state for row in rows(pane)}
    for finding in preview.lost:
        if finding.place.week in (week, None):
            assert states[finding.id] == "would go"
    new = [f for f in preview.gained if f.place.week in (week, None)]
    assert [row.state for row in rows(pane)[: len(new)]] == ["would appear"] * len(new)
    assert all(pane.button_text(row) == "" for row in rows(pane) if row.state)
    pane.grab()
    bench.clear_preview()
    assert {row.state for row in rows(pane)} == {""}


def test_once_kept_nothing_would_appear_or_go_any_more(pane: FindingsPane, bench: Bench) -> None:
    clear = edit("Clear", weeks.clear_weeks, indices=(0,))
    bench.try_edit(clear)
    bench.keep(clear)
    week = bench.open_week.id
    assert {row.state for row in rows(pane)} <= {""}
    stands = [f.id for f in bench.desk.findings if f.place.week in (week, None)]
    assert [row.finding.id for row in rows(pane)] == stands
    shown = sum(label.count for label in pane.counts)
    assert shown == len(stands)


def test_rows_are_painted_in_every_state(pane: FindingsPane, bench: Bench, answer) -> None:
    plain = pane.list.grab().toImage()
    answer("so")
    pane.accept(rows(pane)[0].finding)
    assert pane.list.grab().toImage() != plain


def test_findings_follow_edits_of_a_whole_span(pane: FindingsPane, bench: Bench) -> None:
    assert bench.span is Span.FROM_HERE
    for row in rows(pane):
        mend = pane.mend_of(row.finding)
        if mend is not None and bench.keep(mend):
            break
    assert [row.finding.id for row in rows(pane)] == [
        f.id for f in bench.desk.findings if f.place.week in (bench.open_week.id, None)
    ]


def test_the_range_behind_a_finding_is_one_click_away(qtbot: QtBot, pane, bench: Bench) -> None:
    at = next(k for k, row in enumerate(rows(pane)) if row.finding.rule == "weekly_sets")
    pane.list.scrollToItem(pane.list.item(at))
    pane._menu(pane.list.visualItemRect(pane.list.item(at)).center())
    (menu,) = pane.findChildren(QMenu)
    with qtbot.waitSignal(pane.range_wanted) as wanted:
        menu.actions()[-1].trigger()
    assert wanted.args == ["weekly_sets"]


@pytest.mark.parametrize("width", [340, 420, 460, 520, 700])
def test_the_line_above_the_findings_is_never_cut(pane: FindingsPane, width: int) -> None:
    pane.resize(width, 220)
    pane.refresh()
    QApplication.processEvents()
    for part in (*pane.counts, pane.whole):
        assert part.isHidden() or part.width() >= part.sizeHint().width()


def hover(pane: FindingsPane, qtbot: QtBot, at: int) -> None:
    qtbot.mouseMove(pane.list.viewport(), button(pane, at))


def test_pointing_at_a_button_shows_what_mending_would_do_and_moves_no_row(
    pane: FindingsPane, bench: Bench, qtbot: QtBot
) -> None:
    at, before = with_mend(pane), rows(pane)
    qtbot.mouseMove(pane.list.viewport(), QPoint(3, 3))
    with qtbot.waitSignal(bench.previewed):
        hover(pane, qtbot, at)
    assert bench.preview is not None
    assert before[at].finding.id in {finding.id for finding in bench.preview.lost}
    assert rows(pane) == before, "what one is about to press stays where it is"
    qtbot.mouseMove(pane.list.viewport(), QPoint(3, 3))
    qtbot.waitUntil(lambda: bench.preview is None)
    assert bench.desk.history.steps == ()


def test_space_shows_and_ends_it_and_mending_does_what_was_shown(
    pane: FindingsPane, bench: Bench, qtbot: QtBot
) -> None:
    at = with_mend(pane)
    pane.list.setCurrentRow(at)
    qtbot.keyClick(pane.list, Qt.Key.Key_Space)
    shown = bench.preview
    assert shown is not None
    qtbot.keyClick(pane.list, Qt.Key.Key_Space)
    assert bench.preview is None
    qtbot.keyClick(pane.list, Qt.Key.Key_Space)
    qtbot.keyClick(pane.list, Qt.Key.Key_M)
    assert bench.preview is None
    assert bench.desk.program == shown.after


def test_another_row_ends_what_is_tried(pane: FindingsPane, bench: Bench, qtbot: QtBot) -> None:
    at = with_mend(pane)
    pane.list.setCurrentRow(at)
    qtbot.keyClick(pane.list, Qt.Key.Key_Space)
    pane.list.setCurrentRow(at + 1 if at + 1 < pane.list.count() else at - 1)
    assert bench.preview is None


def test_a_finding_about_a_day_leads_to_the_day(pane: FindingsPane, qtbot: QtBot) -> None:
    row = next(row for row in rows(pane) if row.finding.place.slot is None)
    finding = replace(row.finding, place=replace(row.finding.place, day=3))
    with qtbot.waitSignal(pane.day_wanted) as asked:
        pane.go_to(finding)
    assert asked.args == [3]
