"""Calendars, read back by the library and held to the rules of RFC 5545."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime, time, timedelta
from typing import Any

import icalendar
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from app.domain.edits.weeks import remove_weeks
from app.domain.errors import CoachError
from app.exchange.calendar_file import Made, Sent, Wish, make_calendar, zone_of
from tests.builders import CATALOGUE, program
from tests.strategies import programs

NOW = datetime(2026, 11, 20, 9, 30, tzinfo=UTC)
PLAN = program(
    "Mon: back_squat 3x5 RIR 2, leg_extension 3x12-15 | Thu: back_squat 5x3",
    "Mon: back_squat 3x5 | Mon: leg_extension 3x12",
    name="Ridge season",
)
VIENNA = Wish("Europe/Vienna", (time(18, 0), *(time(7, 15),) * 6))


def made(plan=PLAN, wish: Wish = VIENNA, *, earlier=None, now: datetime = NOW) -> Made:
    return make_calendar(plan, CATALOGUE, wish, now=now, earlier=earlier or {})


def events(calendar: Made) -> list[Any]:
    return icalendar.Calendar.from_ical(calendar.data).walk("VEVENT")


def titled(plan, title: str):
    week = plan.weeks[0]
    monday = week.days[0]
    session = replace(monday.sessions[0], title=title)
    days = (replace(monday, sessions=(session,)), *week.days[1:])
    return replace(plan, weeks=(replace(week, days=days), *plan.weeks[1:]))


def test_each_session_is_one_event_at_its_time_in_its_zone() -> None:
    found = events(made())
    assert len(found) == made().sessions == 4
    assert [e.start.replace(tzinfo=None) for e in found[:2]] == [
        datetime(2026, 11, 23, 18, 0),  # noqa: DTZ001
        datetime(2026, 11, 26, 7, 15),  # noqa: DTZ001
    ]
    assert found[0].start.utcoffset() == timedelta(hours=1)
    assert str(found[0].start.tzinfo) == "Europe/Vienna"


def test_the_zone_s_rules_are_in_the_file() -> None:
    calendar = icalendar.Calendar.from_ical(made().data)
    (zone,) = calendar.walk("VTIMEZONE")
    assert zone["TZID"] == "Europe/Vienna"
    assert calendar.get_missing_tzids() == set()


def test_summer_and_winter_keep_the_hour() -> None:
    plan = program("Mon: back_squat 3x5", times=40)
    found = events(made(plan))
    assert {e.start.strftime("%H:%M") for e in found} == {"18:00"}
    assert {e.start.utcoffset() for e in found} == {timedelta(hours=1), timedelta(hours=2)}


def test_a_second_session_of_a_day_follows_the_first() -> None:
    first, second = events(made())[2:]
    assert second.start == first.end
    assert (first.end - first.start).total_seconds() % 300 == 0


def test_the_description_says_what_is_done_and_nothing_of_health() -> None:
    note = "Bad knee, see the physiotherapist"
    session = replace(PLAN.weeks[0].days[0].sessions[0], note=note)
    slots = tuple(replace(slot, note=note) for slot in session.slots)
    monday = replace(PLAN.weeks[0].days[0], sessions=(replace(session, slots=slots),), note=note)
    week = replace(PLAN.weeks[0], days=(monday, *PLAN.weeks[0].days[1:]), note=note)
    plan = replace(PLAN, weeks=(week, PLAN.weeks[1]))
    data = made(plan)
    about = str(events(data)[0]["DESCRIPTION"])
    assert about.splitlines() == [
        "Ridge season, week 1",
        "",
        "Back squat: 3 x 5, RIR 2",
        "Leg extension: 3 x 12-15, RIR 2",
    ]
    assert b"knee" not in data.data


def test_loads_and_a_title_are_written_where_they_are_wished() -> None:
    slot = next(PLAN.weeks[0].slots())
    wish = replace(VIENNA, loads={slot.id: "62.5 kg"}, title="Runa")
    first = events(made(wish=wish))[0]
    assert "Back squat: 3 x 5, RIR 2, 62.5 kg" in str(first["DESCRIPTION"])
    assert str(first["SUMMARY"]).startswith("Runa ")


def test_the_place_of_the_day_is_told_where_there_is_one() -> None:
    places = ("Ridge hut, cellar", *("",) * 6)
    found = events(made(wish=replace(VIENNA, places=places)))
    assert {str(e.get("LOCATION", "")) for e in found if e.start.weekday() == 0} == {places[0]}
    assert {str(e.get("LOCATION", "")) for e in found if e.start.weekday() == 3} == {""}


def test_lines_are_folded_and_end_as_the_rules_say() -> None:
    plan = titled(PLAN, "Ünterkörper; schwer, lang \\ und noch länger " * 6)
    data = made(plan).data
    assert data.endswith(b"END:VCALENDAR\r\n")
    assert b"\n" not in data.replace(b"\r\n", b"")
    assert max(map(len, data.split(b"\r\n"))) <= 75
    data.decode("utf-8")
    assert str(events(made(plan))[0]["SUMMARY"]) == plan.weeks[0].days[0].sessions[0].title


def test_an_unchanged_program_gives_the_same_file_again() -> None:
    first = made()
    later = made(earlier=first.sent, now=NOW + timedelta(days=3))
    assert later.data == first.data
    assert later.sent == first.sent


def test_what_changed_keeps_its_identity_and_counts_up() -> None:
    first = made()
    later = made(titled(PLAN, "Heavy"), earlier=first.sent, now=NOW + timedelta(days=3))
    before, after = events(first)[0], events(later)[0]
    assert before["UID"] == after["UID"]
    assert (before["SEQUENCE"], after["SEQUENCE"]) == (0, 1)
    assert after["DTSTAMP"].dt == NOW + timedelta(days=3)
    assert [e["SEQUENCE"] for e in events(later)[1:]] == [0, 0, 0]


def test_what_is_gone_is_cancelled_and_comes_back() -> None:
    first = made()
    shorter = remove_weeks(PLAN, indices=(1,))
    second = made(shorter, earlier=first.sent, now=NOW + timedelta(days=1))
    assert (second.sessions, second.cancelled) == (2, 2)
    gone = [e for e in events(second) if e["STATUS"] == "CANCELLED"]
    assert {e["UID"] for e in gone} == {e["UID"] for e in events(first)[2:]}
    assert {e["SEQUENCE"] for e in gone} == {1}
    assert gone[0].start == events(first)[2].start
    back = made(earlier=second.sent, now=NOW + timedelta(days=2))
    assert [e["SEQUENCE"] for e in events(back)] == [0, 0, 2, 2]
    assert back.cancelled == 0


def test_weeks_that_are_not_written_are_not_cancelled() -> None:
    first = made(wish=replace(VIENNA, weeks=range(1)))
    assert first.sessions == 2
    second = made(wish=replace(VIENNA, weeks=range(1, 2)), earlier=first.sent)
    assert (second.sessions, second.cancelled) == (2, 0)
    assert len(second.sent) == 4


def test_another_zone_or_hour_is_a_change() -> None:
    first = made()
    for wish in (replace(VIENNA, zone="America/Bogota"), Wish("Europe/Vienna")):
        assert 1 in {e["SEQUENCE"] for e in events(made(wish=wish, earlier=first.sent))}


@pytest.mark.parametrize("name", ["", "Nowhere/Town", "../../etc/passwd", "/etc/passwd", "a\0b"])
def test_a_zone_that_is_none_is_refused(name: str) -> None:
    with pytest.raises(CoachError, match="no time zone"):
        zone_of(name)


def test_utc_needs_no_rules() -> None:
    assert b"VTIMEZONE" not in made(wish=Wish("UTC")).data


def test_what_is_remembered_wrong_stops_nothing() -> None:
    broken = {"x@weekloom": Sent(3, "", "never", "soon")}
    calendar = made(earlier=broken)
    assert calendar.cancelled == 1
    assert len(events(calendar)) == 5


def test_a_name_of_several_lines_stays_on_one() -> None:
    found = made(replace(PLAN, name="Ridge\nseason"))
    assert b"X-WR-CALNAME:Ridge season\r\n" in found.data
    assert len(events(found)) == len(events(made()))


@settings(max_examples=25)
@given(programs(), st.text(max_size=30))
def test_every_program_comes_back_through_the_library(plan, title: str) -> None:
    wish = replace(VIENNA, title=title)
    calendar = make_calendar(plan, CATALOGUE, wish, now=NOW, earlier={})
    found = events(calendar)
    assert len(found) == sum(len(list(week.sessions())) for week in plan.weeks)
    assert len({e["UID"] for e in found}) == len(found)
    assert all(e.end > e.start for e in found)
    assert max(map(len, calendar.data.split(b"\r\n"))) <= 75
