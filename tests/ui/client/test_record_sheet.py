"""The record: stage, tags, consent, how long it is kept, and the unit of loads."""

from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from pytestqt.qtbot import QtBot

from app.domain.client import Client, Consent, Stage
from app.ui.bench import Bench
from app.ui.client.record_sheet import RecordSheet
from app.ui.words import qdate
from tests import strategies
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import TODAY
from tests.ui.steps import choose, kept, nothing_kept, one_step, refused_with, retype


@pytest.fixture
def sheet(qtbot: QtBot, dressed, bench: Bench) -> RecordSheet:
    made = RecordSheet(bench, None, today=TODAY)
    qtbot.addWidget(made)
    made.show()
    return made


def test_what_is_entered_is_one_step(sheet: RecordSheet, bench: Bench) -> None:
    choose(sheet.stage, "paused")
    retype(sheet.tags, "south,  rope, south")
    sheet.consent.known.setChecked(True)
    retype(sheet.consent_note, "signed")
    sheet.keep_until.known.setChecked(True)
    choose(sheet.units, "pounds")
    with one_step(bench, "Change the record"):
        kept(sheet)
    client = bench.desk.client
    assert (client.stage, client.tags) == (Stage.PAUSED, ("rope", "south"))
    assert client.consent == Consent(TODAY, "signed")
    assert client.keep_until == TODAY + timedelta(days=3 * 365)
    assert client.units == "lb"


def test_untouched_it_makes_no_step(sheet: RecordSheet, bench: Bench) -> None:
    with nothing_kept(bench):
        kept(sheet)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=20)
@given(client=strategies.clients)
def test_an_untouched_record_is_the_same_client(bench: Bench, client: Client) -> None:
    if client.consent is not None and client.consent.on > TODAY:
        return
    if client.consent is not None and client.born is not None and client.consent.on < client.born:
        return
    if None not in (client.consent, client.keep_until) and client.keep_until < client.consent.on:
        return
    if client.consent is not None and (TODAY - client.consent.on).days > 40_000:
        return
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(type(bench.desk), "client", property(lambda _desk: client))
        sheet = RecordSheet(bench, None, today=TODAY)
        assert sheet.changed_client() == client
        sheet.deleteLater()


def test_days_that_cannot_be_are_refused(sheet: RecordSheet, bench: Bench) -> None:
    sheet.consent.known.setChecked(True)
    sheet.consent.edit.setDate(qdate(date(2030, 1, 1)))
    refused_with(sheet, bench, "Consent on 2030-01-01, which is in the future")
    sheet.consent.edit.setDate(qdate(date(1980, 1, 1)))
    refused_with(sheet, bench, "before the birth date")
    sheet.consent.edit.setDate(qdate(TODAY))
    sheet.keep_until.known.setChecked(True)
    sheet.keep_until.edit.setDate(qdate(date(2026, 1, 1)))
    refused_with(sheet, bench, "before the consent")


def test_a_note_needs_its_day(sheet: RecordSheet, bench: Bench) -> None:
    retype(sheet.consent_note, "signed")
    refused_with(sheet, bench, "A note on consent without its day")


def test_everybody_can_use_it(sheet: RecordSheet) -> None:
    assert unnamed(sheet) == []
    assert too_small(sheet) == []
    assert marked_up(sheet) == []
