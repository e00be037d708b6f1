from __future__ import annotations

from datetime import date, timedelta

from app.domain.results import CheckIn
from app.ui.client import open_form
from app.ui.client.check_in_section import CheckInSection, last_text
from app.ui.client.section import this_day
from tests.ui.client import panes


def made(qtbot, bench):
    assert bench.desk.diary is not None
    section = CheckInSection(bench)
    qtbot.addWidget(section)
    section.refresh()
    bench.changed.connect(section.work_changed)
    return section


def texts(section):
    return panes.texts(section)


def test_it_says_how_to_begin(qtbot, dressed, bench):
    assert any("Body mass once a week" in text for text in texts(made(qtbot, bench)))


def test_it_follows_the_diary_and_counts_silent_weeks(qtbot, dressed, bench):
    section = made(qtbot, bench)
    old = this_day() - timedelta(weeks=5)
    bench.desk.keep_diary("x", bench.desk.diary.with_check_in(CheckIn(old, mass_kg=66.4, mood=5)))
    assert "66.4 kg · Mood 5" in texts(section)
    assert "No check-in for 5 weeks." in texts(section)
    bench.undo()
    assert "66.4 kg · Mood 5" not in texts(section)


def test_a_line_says_all_that_was_reported():
    day = date(2026, 11, 22)
    whole = CheckIn(day, mass_kg=66.4, kcal=2300, sleep=4, adherence=0.5, note="tired")
    assert last_text(whole, "kg") == "66.4 kg · 2300 kcal · Sleep 4 · 50 % done"
    assert last_text(CheckIn(day, note="tired"), "kg") == "tired"


def test_the_links_lead_to_the_forms(qtbot, dressed, bench, monkeypatch):
    opened = []
    for name in ("check_in", "check_ins", "charts"):
        monkeypatch.setattr(open_form, name, lambda *_, name=name: opened.append(name))
    section = made(qtbot, bench)
    for link in panes.buttons(section):
        link.click()
    assert opened == ["check_in", "check_ins", "charts"]


def test_the_diary_is_read_only_after_the_first_picture(qtbot, dressed, bench):
    section = CheckInSection(bench)
    qtbot.addWidget(section)
    section.refresh()
    section.show()
    assert bench.desk.work.diary is None
    assert [link.text() for link in panes.buttons(section)]
    qtbot.waitUntil(lambda: any("Body mass once a week" in text for text in texts(section)))
    assert bench.desk.work.diary is not None
