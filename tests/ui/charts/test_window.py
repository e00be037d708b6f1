from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFileDialog

from app.domain.client import StrengthTest
from app.domain.errors import CoachError
from app.domain.exercise import ExerciseKey
from app.domain.results import CheckIn, Diary, Girth, SetDone, Site, SlotResult
from app.ui.charts import rendering
from app.ui.charts import window as charts
from app.ui.charts.kinds import Kind
from app.ui.charts.window import ChartsWindow
from tests.ui.desks import PROGRAM

TODAY = date(2027, 1, 20)


def diary():
    week = PROGRAM.weeks[0]
    results = tuple(
        SlotResult(
            PROGRAM.id,
            slot.id,
            slot.exercise,
            PROGRAM.start + timedelta(days=day),
            (SetDone(60, 8, 2.0),) * slot.sets,
        )
        for day, session in week.sessions()
        for slot in session.slots[:2]
    )
    checks = tuple(
        CheckIn(
            PROGRAM.start + timedelta(weeks=week),
            mass_kg=66 + week * 0.2,
            sleep=4,
            girths=(Girth(Site.WAIST, 74 - week * 0.1),),
        )
        for week in range(6)
    )
    return Diary(checks, results)


@pytest.fixture
def shown(qtbot, dressed, bench):
    bench.desk.keep_diary("Fill", diary())
    made = ChartsWindow(bench, None, today=TODAY)
    qtbot.addWidget(made)
    made.show()
    qtbot.waitUntil(lambda: made.chart is not None)
    return made


def drawn(qtbot, made, kind):
    made.choose(kind)
    qtbot.waitUntil(lambda: made.chart is not None and made.chart.kind is kind and not made._job)


def test_the_window_paints_before_anything_is_drawn(qtbot, dressed, bench):
    made = ChartsWindow(bench, None, today=TODAY)
    qtbot.addWidget(made)
    made.draw()
    assert made._job is None  # nothing is worked out for a window that nobody sees
    made.show()
    assert made.chart is None
    qtbot.waitUntil(lambda: made.chart is not None)


@pytest.mark.parametrize("kind", Kind)
def test_every_chart_has_its_picture_sentence_and_table(qtbot, shown, kind):
    drawn(qtbot, shown, kind)
    assert shown.canvas.image is not None
    assert shown.canvas.accessibleName() == shown.chart.title == shown.title.text()
    assert shown.canvas.accessibleDescription() == shown.chart.text == shown.text.text()
    assert shown.table.rowCount() == len(shown.chart.rows)
    cells = [shown.table.item(0, c).text() for c in range(shown.table.columnCount())]
    assert tuple(cells) == shown.chart.rows[0]
    assert not shown.busy.isVisible()
    assert not shown.act_button.isVisible()


def test_a_new_test_leaves_the_tonnage_that_was_handed_out(qtbot, shown, bench):
    desk = bench.desk
    desk.hand_out(desk.draft_issue(PROGRAM.start - timedelta(days=3)))
    drawn(qtbot, shown, Kind.TONNAGE)
    before = shown.chart.rows
    assert "printed in the booklets" in shown.text.text()
    stronger = StrengthTest(ExerciseKey("back_squat"), date(2026, 12, 2), 150, 5)
    with qtbot.waitSignal(bench.changed):
        desk.keep_client("Test", replace(desk.client, tests=(*desk.client.tests, stronger)))
    qtbot.waitUntil(lambda: not shown._job and shown.chart is not None)
    drawn(qtbot, shown, Kind.TONNAGE)
    assert shown.chart.rows == before
    drawn(qtbot, shown, Kind.SETS)  # of no loads: says nothing of booklets
    assert "booklet" not in shown.text.text()


def test_an_issue_that_cannot_be_read_is_said_in_the_window(qtbot, shown, bench, monkeypatch):
    desk = bench.desk
    desk.hand_out(desk.draft_issue(PROGRAM.start - timedelta(days=3)))

    def refuse(_issue):
        raise CoachError("The file is locked", where="coach", mend="Close the other window.")

    monkeypatch.setattr(desk.store, "printed_weeks", refuse)
    shown.choose(Kind.TONNAGE)
    qtbot.waitUntil(lambda: "locked" in shown.wrong.text())
    assert not shown.busy.isVisible()


def test_one_key_turns_the_chart_into_a_table(qtbot, shown):
    drawn(qtbot, shown, Kind.MASS)
    qtbot.keyClick(shown, Qt.Key.Key_T, Qt.KeyboardModifier.ControlModifier)
    assert shown.pages.currentWidget() is shown.table
    qtbot.keyClick(shown, Qt.Key.Key_T, Qt.KeyboardModifier.ControlModifier)
    assert shown.pages.currentWidget() is shown.canvas


def test_a_new_check_in_is_drawn_at_once(qtbot, shown, bench):
    drawn(qtbot, shown, Kind.MASS)
    later = CheckIn(date(2027, 1, 15), mass_kg=67.5)
    bench.desk.keep_diary("Check-in", bench.desk.diary.with_check_in(later))
    qtbot.waitUntil(lambda: len(shown.chart.rows) == 7)
    bench.undo()
    qtbot.waitUntil(lambda: len(shown.chart.rows) == 6)


def test_a_new_test_is_drawn_at_once(qtbot, shown, bench):
    before = len(shown.chart.rows)
    client = bench.desk.client
    test = StrengthTest(ExerciseKey("back_squat"), date(2026, 12, 20), 95, 5)
    bench.desk.keep_client("Test", replace(client, tests=(*client.tests, test)))
    qtbot.waitUntil(lambda: len(shown.chart.rows) == before + 1)


def test_an_empty_chart_says_what_to_do_next(qtbot, dressed, bench):
    made = ChartsWindow(bench, None, today=TODAY)
    qtbot.addWidget(made)
    made.show()
    drawn(qtbot, made, Kind.MASS)
    assert "Enter a check-in" in made.canvas.sentence
    assert made.act_button.text() == "Enter a check-in…"
    with qtbot.waitSignal(made.wanted) as wanted:
        made.act_button.click()
    assert wanted.args == ["check_in"]
    assert not made.save_button.isEnabled()
    made.copy()
    made.save()
    assert made._saving is None


def test_the_clipboard_gets_a_picture_without_the_clients_name(qtbot, shown, bench, monkeypatch):
    titles = []
    made = rendering.copy_picture

    def copied(chart, *, title):
        titles.append(title)
        return made(chart, title=title)

    monkeypatch.setattr(rendering, "copy_picture", copied)
    with qtbot.waitSignal(bench.said):
        shown.copy()
    assert not QGuiApplication.clipboard().image().isNull()
    shown.named.setChecked(True)
    with qtbot.waitSignal(bench.said):
        shown.copy()
    assert bench.desk.client.name not in titles[0]
    assert bench.desk.client.name in titles[1]


@pytest.mark.parametrize(
    ("answer", "written", "head"),
    [
        (("chart.png", "PNG (*.png)"), "chart.png", b"\x89PNG"),
        (("chart.svg", "SVG (*.svg)"), "chart.svg", b"<?xml"),
        (("chart", "PDF (*.pdf)"), "chart.pdf", b"%PDF"),
        (("chart.odd", ""), "chart.odd.png", b"\x89PNG"),
    ],
)
def test_a_chart_is_saved_as_what_was_asked(
    qtbot, shown, bench, tmp_path, monkeypatch, answer, written, head
):
    names = []

    def ask(_parent, _title, name, _filters):
        names.append(name)
        return str(tmp_path / answer[0]), answer[1]

    monkeypatch.setattr(QFileDialog, "getSaveFileName", ask)
    with qtbot.waitSignal(bench.said):
        shown.save()
    assert (tmp_path / written).read_bytes().startswith(head)
    assert [path.name for path in tmp_path.iterdir()] == [written]
    assert "runa" not in names[0]


def test_what_cannot_be_written_is_said_and_nothing_is_left(qtbot, shown, tmp_path, monkeypatch):
    monkeypatch.setattr(
        QFileDialog,
        "getSaveFileName",
        lambda *_: (str(tmp_path / "gone" / "chart.png"), "PNG (*.png)"),
    )
    shown.save()
    qtbot.waitUntil(shown.wrong.isVisible)
    assert "no such file or folder" in shown.wrong.text()
    assert list(tmp_path.iterdir()) == []


def test_closing_drops_what_is_still_being_drawn(qtbot, shown):
    shown.draw()
    shown.close()
    assert shown._job is None


def test_closing_the_client_closes_the_charts(qtbot, shown, bench):
    bench.desk.close()
    assert not shown.isVisible()


def test_what_cannot_be_worked_out_is_said(qtbot, shown, monkeypatch):
    def refuse(_asked, _choice):
        raise CoachError("No.", mend="Do this.")

    monkeypatch.setattr(charts, "worked_out", refuse)
    shown.draw()
    qtbot.waitUntil(shown.wrong.isVisible)
    assert shown.wrong.text() == "No. Do this."
