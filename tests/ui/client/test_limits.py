"""Limitations: told in words, added and removed one step each."""

from __future__ import annotations

from datetime import date, datetime, timedelta

import pytest
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from app.domain.client import Limitation, Side
from app.domain.exercise import Joint, Motion
from app.ui.bench import Bench
from app.ui.client.limits import LimitationSheet
from app.ui.words import limitation_text, qdate
from tests.ui.steps import choose, kept, nothing_kept, one_step, refused_with, retype

TODAY = datetime.now().astimezone().date()
SOON = TODAY + timedelta(days=90)


@pytest.fixture
def sheet(qtbot: QtBot, bench: Bench) -> LimitationSheet:
    made = LimitationSheet(bench, None)
    qtbot.addWidget(made)
    return made


@pytest.mark.parametrize("motion", Motion)
def test_every_motion_has_its_word(sheet: LimitationSheet, motion: Motion) -> None:
    assert sheet.motion.findData(motion) >= 0
    assert limitation_text(Limitation(Joint.HIP, motion)).startswith("Hip: no ")


def test_what_is_entered_is_added_behind_the_others(sheet: LimitationSheet, bench: Bench) -> None:
    before = bench.desk.client.limitations
    choose(sheet.joint, "shoulder")
    choose(sheet.motion, "no overhead work")
    choose(sheet.side, "right")
    retype(sheet.past, "120")
    sheet.until.known.setChecked(True)
    sheet.until.edit.setDate(qdate(SOON))
    retype(sheet.note, " the practitioner said so ")
    with one_step(bench, "Add a limitation"):
        kept(sheet)
    made = Limitation(
        Joint.SHOULDER,
        Motion.OVERHEAD,
        Side.RIGHT,
        120,
        until=SOON,
        note="the practitioner said so",
    )
    assert bench.desk.client.limitations == (*before, made)


def test_an_empty_angle_rules_the_motion_out_altogether(
    sheet: LimitationSheet, bench: Bench
) -> None:
    kept(sheet)
    assert bench.desk.client.limitations[-1].past_degrees is None
    assert bench.desk.client.limitations[-1].until is None


@pytest.mark.parametrize("typed", ["181", "-1", "12.5", "much"])
def test_an_angle_that_cannot_be_is_refused(
    sheet: LimitationSheet, bench: Bench, typed: str
) -> None:
    retype(sheet.past, typed)
    refused_with(sheet, bench, "Past: ", "Enter 0 to 180.")


def test_an_end_that_is_past_is_refused(sheet: LimitationSheet, bench: Bench) -> None:
    sheet.until.known.setChecked(True)
    sheet.until.edit.setDate(qdate(TODAY - timedelta(days=1)))
    refused_with(sheet, bench, "that day is past", "Enter a later day")


def test_a_limitation_can_begin_later_but_not_end_before(
    sheet: LimitationSheet, bench: Bench
) -> None:
    sheet.since.known.setChecked(True)
    sheet.since.edit.setDate(qdate(SOON))
    sheet.until.known.setChecked(True)
    sheet.until.edit.setDate(qdate(SOON - timedelta(days=1)))
    refused_with(sheet, bench, "the end comes before the beginning", "Swap the two days")
    sheet.until.edit.setDate(qdate(SOON + timedelta(days=7)))
    kept(sheet)
    made = bench.desk.client.limitations[-1]
    assert (made.since, made.until) == (SOON, SOON + timedelta(days=7))


def test_the_sheet_says_that_the_end_lifts_nothing(sheet: LimitationSheet) -> None:
    told = " ".join(label.text() for label in sheet.findChildren(QLabel))
    assert "lifts nothing by itself" in told
    assert "asks instead of forbidding" in told


def test_a_beginning_before_birth_is_refused(sheet: LimitationSheet, bench: Bench) -> None:
    sheet.since.known.setChecked(True)
    sheet.since.edit.setDate(qdate(date(1980, 1, 1)))
    refused_with(sheet, bench, "before the birth date")


def test_the_marked_one_is_removed_and_the_sheet_stays(
    sheet: LimitationSheet, bench: Bench
) -> None:
    assert sheet.list.count() == 1
    with one_step(bench, "Remove a limitation"):
        sheet.remove_button.click()
    assert bench.desk.client.limitations == ()
    assert sheet.list.count() == 0
    assert not sheet.remove_button.isEnabled()
    assert sheet.result() == 0


def test_only_the_marked_one_of_several_is_removed(qtbot: QtBot, bench: Bench) -> None:
    first = bench.desk.client.limitations[0]
    for joint in ("hip", "shoulder"):
        adding = LimitationSheet(bench, None)
        qtbot.addWidget(adding)
        choose(adding.joint, joint)
        kept(adding)
    sheet = LimitationSheet(bench, None)
    qtbot.addWidget(sheet)
    sheet.list.setCurrentRow(1)
    sheet.remove()
    assert [one.joint for one in bench.desk.client.limitations] == [first.joint, Joint.SHOULDER]


def test_with_nothing_marked_nothing_is_removed(sheet: LimitationSheet, bench: Bench) -> None:
    sheet.list.setCurrentRow(-1)
    with nothing_kept(bench):
        sheet.remove()


def test_a_limitation_brings_a_conflict_for_what_asks_for_it(
    sheet: LimitationSheet, bench: Bench
) -> None:
    assert not any(finding.rule == "limitation" for finding in bench.desk.findings)
    choose(sheet.joint, "knee")
    choose(sheet.motion, "no bending")
    retype(sheet.past, "60")
    kept(sheet)
    about = {f.about for f in bench.desk.findings if f.rule == "limitation"}
    assert any(one.startswith("back_squat:") for one in about)
