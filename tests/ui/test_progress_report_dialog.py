from __future__ import annotations

from datetime import date, timedelta

import pytest
from PySide6.QtWidgets import QFileDialog
from scipy.stats import theilslopes

from app.booklet.progress_report import MOST_NEXT
from app.domain.errors import CoachError
from app.domain.results import Diary
from app.ui import paper_sheet
from app.ui.charts.kinds import Asked
from app.ui.progress_report_dialog import ProgressReportDialog, report_of
from tests.booklet.reading_pdf import Printed
from tests.ui.charts.sample import ASKED, NOTHING, SQUAT
from tests.ui.charts.test_window import diary
from tests.ui.desks import PROGRAM

TODAY = date(2027, 1, 20)


@pytest.fixture
def dialog(qtbot, dressed, bench):
    bench.desk.keep_diary("Fill", diary())
    made = ProgressReportDialog(bench, None, today=TODAY)
    qtbot.addWidget(made)
    made.show()
    qtbot.waitUntil(made.keep_button.isEnabled)
    return made


def whole(dialog):
    return Printed(dialog.view.content).whole


def again(qtbot, dialog, change):
    before = dialog.view.content
    change()
    qtbot.waitUntil(lambda: dialog._job is None and dialog.view.content != before)


def test_the_report_of_the_open_client_is_shown(dialog):
    text = whole(dialog)
    assert "Progress of Runa Estvik" in text
    assert PROGRAM.name in text
    assert "6 weighings" in text


def test_the_coachs_words_stand_in_it(qtbot, dialog):
    again(qtbot, dialog, lambda: dialog.words.setPlainText("From Monday twice a week."))
    assert "From Monday twice a week." in whole(dialog)
    assert dialog.count.text() == f"{MOST_NEXT - 25} letters left"


def test_it_tells_the_tonnage_with_the_loads_that_were_handed_out(qtbot, dialog, bench):
    assert "counted with today's loads" in " ".join(whole(dialog).split())
    desk = bench.desk
    desk.hand_out(desk.draft_issue(PROGRAM.start - timedelta(days=3)))
    again(qtbot, dialog, dialog.make)
    assert "printed in the booklets that were handed out" in " ".join(whole(dialog).split())


def test_an_issue_that_cannot_be_read_is_said(dialog, bench, monkeypatch):
    desk = bench.desk
    desk.hand_out(desk.draft_issue(PROGRAM.start - timedelta(days=3)))

    def refuse(_issue):
        raise CoachError("The file is locked", where="coach", mend="Close the other window.")

    monkeypatch.setattr(desk.store, "printed_weeks", refuse)
    dialog.make()
    assert "locked" in dialog.wrong.text()
    assert not dialog.keep_button.isEnabled()


def test_words_that_are_too_many_are_said_to_be(qtbot, dialog):
    dialog.words.setPlainText("a " * 460)
    assert dialog.count.text() == "20 letters too many: they are not printed"


def test_paper_and_name_can_be_chosen(qtbot, dialog):
    again(qtbot, dialog, lambda: dialog.paper.setCurrentIndex(1))
    assert Printed(dialog.view.content).size_mm(1)[0] == pytest.approx(215.9, abs=0.1)
    again(qtbot, dialog, lambda: dialog.named.setChecked(False))
    assert "Runa" not in whole(dialog)
    again(qtbot, dialog, lambda: dialog.grey.setChecked(True))


def test_it_is_saved_whole_under_a_name_that_can_be_kept_back(
    qtbot, dialog, bench, tmp_path, monkeypatch
):
    names = []

    def ask(_parent, _title, name, _filters):
        names.append(name)
        return str(tmp_path / "report.pdf"), ""

    monkeypatch.setattr(QFileDialog, "getSaveFileName", ask)
    with qtbot.waitSignal(bench.said):
        dialog.keep_button.click()
    assert (tmp_path / "report.pdf").read_bytes() == dialog.view.content
    again(qtbot, dialog, lambda: dialog.named.setChecked(False))
    dialog.keep_button.click()
    assert names[0] == "progress-runa-estvik.pdf"
    assert "runa" not in names[1]


def test_what_cannot_be_printed_or_written_is_said(qtbot, dialog, tmp_path, monkeypatch):
    monkeypatch.setattr(
        QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "gone" / "r.pdf"), "")
    )
    dialog.keep_button.click()
    assert "no such file or folder" in dialog.wrong.text()
    dialog.words.setPlainText("漢")
    qtbot.waitUntil(lambda: "漢" in dialog.wrong.text())
    assert not dialog.keep_button.isEnabled()


def test_printing_asks_the_system_and_can_be_cancelled(dialog, monkeypatch):
    asked = []
    monkeypatch.setattr(paper_sheet, "ask_printer", lambda *_, name, **_more: asked.append(name))
    dialog.print_button.click()
    assert asked == ["Weekloom progress report"]


def test_the_report_ends_with_the_day_and_leads_with_most_estimates():
    made = report_of(ASKED, theilslopes, on=TODAY, words="", coach="", named=True)
    assert made.strength[0].exercise.key == SQUAT
    assert all(week.start <= TODAY for week in made.weeks)
    assert len(made.weeks) == 9
    assert all(point.on <= TODAY for point in made.mass.points)


def test_a_client_without_anything_has_a_report_too():
    asked = Asked(NOTHING.client, None, Diary(), NOTHING.catalogue)
    made = report_of(asked, theilslopes, on=TODAY, words="", coach="", named=True)
    assert (made.weeks, made.strength, made.mass.points) == ((), (), ())
