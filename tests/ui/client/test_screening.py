"""The screening: the answers are kept with their day, and what they say is read at once."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.booklet import Options
from app.booklet.bind import open_book
from app.booklet.caution_page import screening_words
from app.domain import screening as screenings
from app.domain.client import Outcome, Screening
from app.domain.findings import Weight
from app.press import content_for
from app.ui.bench import Bench
from app.ui.client.screening import CAUTION, QUESTIONS, Question, ScreeningSheet
from app.ui.words import qdate
from tests.ui.desks import TODAY, with_client
from tests.ui.steps import kept, one_step, refused_with, retype


@pytest.fixture
def sheet(qtbot: QtBot, bench: Bench) -> ScreeningSheet:
    made = ScreeningSheet(bench, None, today=TODAY)
    qtbot.addWidget(made)
    return made


def test_the_answers_are_kept_with_todays_date(sheet: ScreeningSheet, bench: Bench) -> None:
    earlier = bench.desk.client.screenings
    sheet.boxes["known_disease"].click()
    sheet.cleared.known.setChecked(True)
    sheet.cleared.edit.setDate(qdate(TODAY - timedelta(days=30)))
    retype(sheet.note, " heart, stable ")
    with one_step(bench, "Keep the screening"):
        kept(sheet)
    made = Screening(
        TODAY,
        active=True,
        known_disease=True,
        symptoms=False,
        cleared_on=TODAY - timedelta(days=30),
        note="heart, stable",
    )
    assert bench.desk.client.screenings == (*earlier, made)
    assert bench.desk.client.latest_screening == made


def test_a_second_screening_of_a_day_takes_the_place_of_the_first(
    sheet: ScreeningSheet, bench: Bench, qtbot: QtBot
) -> None:
    kept(sheet)
    count = len(bench.desk.client.screenings)
    again = ScreeningSheet(bench, None, today=TODAY)
    qtbot.addWidget(again)
    again.boxes["pregnant"].click()
    with one_step(bench, "Keep the screening"):
        kept(again)
    assert len(bench.desk.client.screenings) == count
    assert bench.desk.client.latest_screening.pregnant


def test_the_sheet_opens_with_the_last_answers(sheet: ScreeningSheet) -> None:
    assert {key: box.isChecked() for key, box in sheet.boxes.items()} == {
        "active": True,
        "known_disease": False,
        "symptoms": False,
        "pregnant": False,
    }


def test_somebody_never_screened_has_nothing_ticked(qtbot: QtBot, bench: Bench) -> None:
    with_client(bench, screenings=())
    sheet = ScreeningSheet(bench, None, today=TODAY)
    qtbot.addWidget(sheet)
    assert not any(box.isChecked() for box in sheet.boxes.values())
    assert sheet.answer.text()


@pytest.mark.parametrize("key", [key for key, _ in QUESTIONS])
def test_every_answer_is_weighed_at_once(sheet: ScreeningSheet, key: str) -> None:
    sheet.boxes[key].click()
    said = screenings.outcome(sheet.screening(), screenings.Wish.VIGOROUS, on=TODAY)
    assert sheet.answer.text() == said.text


def test_symptoms_ask_for_a_practitioner(sheet: ScreeningSheet) -> None:
    sheet.boxes["symptoms"].click()
    assert "practitioner" in sheet.answer.text()
    assert "stop training" in sheet.answer.text()


def test_a_clearance_given_after_symptoms_answers_them(sheet: ScreeningSheet) -> None:
    sheet.boxes["symptoms"].click()
    before = sheet.answer.text()
    sheet.cleared.edit.setDate(qdate(TODAY))
    sheet.cleared.known.setChecked(True)
    assert sheet.answer.text() != before


def test_a_clearance_in_the_future_is_refused(sheet: ScreeningSheet, bench: Bench) -> None:
    sheet.cleared.known.setChecked(True)
    sheet.cleared.edit.setDate(qdate(date(2027, 1, 1)))
    assert "in the future" in sheet.wrong.text()
    refused_with(sheet, bench, "Cleared on 2027-01-01", "Enter the day it took place.")


def test_the_sheet_defers_to_practitioners_and_local_rules(sheet: ScreeningSheet) -> None:
    for words in ("practitioner", "local rules", "Riebe 2015", "from memory", "refer"):
        assert words in CAUTION


def test_every_question_is_told_to_assistive_technology(sheet: ScreeningSheet) -> None:
    for key, question in QUESTIONS:
        assert sheet.boxes[key].accessibleName() == question


# ---------------------------------------------------------------------------- history, clearance

ILL = Screening(date(2026, 11, 2), active=True, known_disease=False, symptoms=True)


@pytest.fixture
def with_symptoms(qtbot: QtBot, bench: Bench) -> ScreeningSheet:
    with_client(bench, screenings=(*bench.desk.client.screenings, ILL))
    made = ScreeningSheet(bench, None, today=TODAY)
    qtbot.addWidget(made)
    return made


def test_a_clearance_belongs_to_the_screening_that_asked_for_it(
    with_symptoms: ScreeningSheet, bench: Bench
) -> None:
    sheet = with_symptoms
    sheet.cleared.known.setChecked(True)
    sheet.cleared.edit.setDate(qdate(TODAY - timedelta(days=1)))
    assert sheet.kept_as.text() == "Kept as the clearance of the screening of 2 Nov 2026."
    with one_step(bench, "Keep the screening"):
        kept(sheet)
    latest = bench.desk.client.latest_screening
    assert latest == replace(ILL, cleared_on=TODAY - timedelta(days=1))
    said = screenings.outcome(latest, screenings.Wish.VIGOROUS, on=TODAY)
    assert said.outcome is not Outcome.SEE_PRACTITIONER


def test_a_clearance_from_before_the_symptoms_lifts_nothing(
    with_symptoms: ScreeningSheet,
) -> None:
    with_symptoms.cleared.known.setChecked(True)
    with_symptoms.cleared.edit.setDate(qdate(ILL.on - timedelta(days=1)))
    assert "stop training" in with_symptoms.answer.text()


def test_the_same_answers_again_are_a_new_screening(
    with_symptoms: ScreeningSheet, bench: Bench
) -> None:
    assert with_symptoms.kept_as.text() == "Kept as a new screening of today."
    kept(with_symptoms)
    assert bench.desk.client.latest_screening == replace(ILL, on=TODAY)


def test_earlier_screenings_stand_below_with_what_they_said(
    with_symptoms: ScreeningSheet, bench: Bench
) -> None:
    rows = with_symptoms.history
    assert rows.topLevelItemCount() == len(bench.desk.client.screenings)
    assert rows.topLevelItem(0).text(0) == "2 Nov 2026"
    assert "stop training" in rows.topLevelItem(0).text(1)
    assert "may carry on" in rows.topLevelItem(1).text(1)


def screening_words_of(bench: Bench) -> str:
    """What the booklet handed out today would say of the screening."""
    issue = bench.desk.draft_issue(TODAY)
    content = content_for(issue, bench.desk.catalogue, bench.desk.ranges)
    title, sentences = screening_words(open_book(issue, content, Options()))
    return " ".join((title, *sentences)).replace("\u00a0", " ")


def test_what_the_outcome_forbids_is_a_conflict_and_a_caution_until_it_is_cleared(
    with_symptoms: ScreeningSheet, bench: Bench
) -> None:
    def conflicts() -> list[str]:
        return [
            f.text
            for f in bench.desk.findings
            if f.rule == "screening" and f.weight is Weight.CONFLICT
        ]

    assert conflicts()
    assert "See a doctor before the first session" in screening_words_of(bench)
    with_symptoms.cleared.known.setChecked(True)
    with_symptoms.cleared.edit.setDate(qdate(TODAY - timedelta(days=1)))
    kept(with_symptoms)
    assert conflicts() == []
    assert "See a doctor before" not in screening_words_of(bench)
    assert "stop at pain" in screening_words_of(bench)
    bench.undo()
    assert conflicts()


def test_a_click_on_the_words_ticks_their_box(qtbot: QtBot, sheet: ScreeningSheet) -> None:
    sheet.show()
    before = {key: box.isChecked() for key, box in sheet.boxes.items()}
    for label in sheet.findChildren(Question):
        qtbot.mouseClick(label, Qt.MouseButton.LeftButton)
    assert {key: box.isChecked() for key, box in sheet.boxes.items()} == {
        key: not ticked for key, ticked in before.items()
    }
    qtbot.mouseClick(sheet.findChildren(Question)[0], Qt.MouseButton.RightButton)
    assert next(iter(sheet.boxes.values())).isChecked() is not next(iter(before.values()))
