"""Calendars from the coach's file and what it remembers of them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, time
from pathlib import Path

import icalendar
import pytest

from app import resources
from app.calendars import (
    SENT_KEY,
    Choice,
    calendar_of,
    own_zone,
    sent_before,
    starting,
    usual_choice,
    write_calendar,
    zones,
)
from app.domain.errors import CoachError
from app.exchange.files import FileTrouble
from db.store import Store
from tests.ui.desks import PROGRAM, RUNA

NOW = datetime(2026, 11, 20, 9, 30, tzinfo=UTC)
CHOICE = Choice("Europe/Vienna", (time(17, 30),) * 7)


@pytest.fixture
def store() -> Iterator[Store]:
    made = Store.in_memory()
    yield made
    made.close()


def test_what_was_sent_is_remembered_once_the_file_stands(store: Store, tmp_path: Path) -> None:
    made = calendar_of(PROGRAM, RUNA, resources.catalogue(), CHOICE, memory=store, now=NOW)
    assert sent_before(store, PROGRAM) == {}
    with pytest.raises(FileTrouble):
        write_calendar(tmp_path / "no" / "a.ics", made, PROGRAM, CHOICE, memory=store)
    assert sent_before(store, PROGRAM) == {}
    write_calendar(tmp_path / "a.ics", made, PROGRAM, CHOICE, memory=store)
    assert sent_before(store, PROGRAM) == made.sent
    again = calendar_of(PROGRAM, RUNA, resources.catalogue(), CHOICE, memory=store, now=NOW)
    assert again.data == made.data


def test_nothing_of_the_client_is_remembered(store: Store, tmp_path: Path) -> None:
    choice = Choice("UTC", named=True, loads=True)
    made = calendar_of(PROGRAM, RUNA, resources.catalogue(), choice, memory=store, now=NOW)
    write_calendar(tmp_path / "a.ics", made, PROGRAM, choice, memory=store)
    assert RUNA.name.split()[0] not in store.setting(SENT_KEY + PROGRAM.id)
    assert RUNA.name.encode() in made.data


def test_the_client_s_name_is_written_only_where_it_is_chosen(store: Store) -> None:
    made = calendar_of(PROGRAM, RUNA, resources.catalogue(), CHOICE, memory=store, now=NOW)
    assert RUNA.name.encode() not in made.data


def test_loads_are_written_where_they_are_chosen(store: Store) -> None:
    def about(loads: bool) -> str:
        choice = Choice("UTC", loads=loads)
        made = calendar_of(PROGRAM, RUNA, resources.catalogue(), choice, memory=store, now=NOW)
        events = icalendar.Calendar.from_ical(made.data).walk("VEVENT")
        return "\n".join(str(event["DESCRIPTION"]) for event in events)

    assert " kg" in about(True)
    assert " kg" not in about(False)


def test_the_last_choice_is_the_next_one_s_beginning(store: Store, tmp_path: Path) -> None:
    made = calendar_of(PROGRAM, RUNA, resources.catalogue(), CHOICE, memory=store, now=NOW)
    write_calendar(tmp_path / "a.ics", made, PROGRAM, CHOICE, memory=store)
    assert usual_choice(store) == CHOICE


def test_a_memory_that_is_damaged_is_no_hindrance(store: Store) -> None:
    for text in ("nonsense", "[1]", '{"a": 1}', '{"a": {"changes": "x"}}'):
        store.set_setting(SENT_KEY + PROGRAM.id, text)
        assert sent_before(store, PROGRAM) == {}
    store.set_setting("calendar zone", "Nowhere/Town")
    store.set_setting("calendar starts", "18:00 later")
    assert usual_choice(store).zone in zones()


def test_this_machine_has_a_zone(monkeypatch: pytest.MonkeyPatch) -> None:
    assert own_zone() in zones()
    monkeypatch.setenv("TZ", "Europe/Oslo")
    assert own_zone() == "Europe/Oslo"


@pytest.mark.parametrize(
    ("text", "at"),
    [("18:00", time(18)), ("6.30", time(6, 30)), ("7", time(7)), (" 7h15 ", time(7, 15))],
)
def test_a_time_of_day_is_read(text: str, at: time) -> None:
    assert starting(text) == at


@pytest.mark.parametrize("text", ["", "25:00", "noon", "18:75"])
def test_what_is_no_time_of_day_is_refused(text: str) -> None:
    with pytest.raises(CoachError, match="no time of day"):
        starting(text)
