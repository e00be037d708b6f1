from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.client import Client, ClientId, FreeTime, Goal, Sex
from app.domain.errors import CoachError
from app.domain.exercise import Equipment, Muscle
from app.domain.intake import require_form, take
from app.domain.intake_questions import FORM, HEALTH, QUESTIONS

TODAY = date(2026, 11, 25)
NEW = Client(ClientId("new"), "New client")
FIELDS = [field for question in QUESTIONS for field in question.fields]

HEALTHY = {"active.yes": "x", "known_disease.no": "x", "symptoms.no": "x", "pregnant.no": "x"}
WHOLE = {
    "name": "Ilse Brandal",
    "contact": "radio 4",
    "born.day": "3",
    "born.month": "4",
    "born.year": "1971",
    "sex.f": "x",
    "height.value": "168,5",
    "height.cm": "x",
    "mass.value": "154",
    "mass.lb": "x",
    "years.value": "2",
    "goal.strength": "x",
    "muscles.gluteals": "1",
    "muscles.back": "2",
    "minutes.mon": "45",
    "minutes.thu": "60",
    "equipment.dumbbells": "x",
    "equipment.band": "x",
    **HEALTHY,
}


def told(answers: dict[str, str], client: Client = NEW) -> str:
    return " ".join(take(answers, client, today=TODAY).open)


def test_a_whole_form_makes_a_client() -> None:
    taken = take(WHOLE, NEW, today=TODAY)
    made = taken.client
    assert (made.name, made.contact, made.born) == ("Ilse Brandal", "radio 4", date(1971, 4, 3))
    assert made.sex is Sex.FEMALE
    assert made.height_cm == 168.5
    # 154 lb are 69.85 kg (1 lb = 0.45359237 kg exactly)
    assert made.mass_kg == pytest.approx(69.85, abs=0.005)
    assert made.units == "lb"
    assert made.goal is Goal.STRENGTH
    assert made.emphasis == (Muscle.GLUTEALS, Muscle.LATISSIMUS, Muscle.UPPER_BACK)
    assert [free.minutes for free in made.free] == [45, 0, 0, 60, 0, 0, 0]
    assert made.equipment == {Equipment.BODY, Equipment.DUMBBELLS, Equipment.BAND}
    (screening,) = made.screenings
    assert (screening.active, screening.symptoms, screening.on) == (True, False, TODAY)
    assert taken.open == ()


def test_the_same_form_read_twice_changes_nothing_more() -> None:
    once = take({**WHOLE, "pains": "left knee"}, NEW, today=TODAY).client
    again = take({**WHOLE, "pains": "left knee"}, once, today=TODAY)
    assert again.client == once
    assert again.lines == ()


def test_what_was_left_empty_stays() -> None:
    known = take(WHOLE, NEW, today=TODAY).client
    taken = take({"mass.value": "70", "mass.kg": "x"}, known, today=TODAY)
    assert taken.client.name == known.name
    assert taken.client.free == known.free
    assert [line.what for line in taken.lines] == ["Body mass"]


@pytest.mark.parametrize(
    ("answers", "why"),
    [
        ({"mass.value": "abc"}, "Body mass: “abc” was left out. It is not a number."),
        ({"mass.value": "700", "mass.kg": "x"}, "not from 25 to 350"),
        ({"born.day": "31", "born.month": "2", "born.year": "1990"}, "There is no such day."),
        ({"born.day": "1", "born.month": "1", "born.year": "2090"}, "in the future"),
        ({"born.day": "1", "born.month": "1", "born.year": "1890"}, "110 years"),
        ({"sex.f": "x", "sex.m": "x"}, "More than one is ticked."),
        ({"muscles.back": "first"}, "Write 1, 2 or 3."),
        ({"minutes.mon": "5000"}, "not from 0 to 600"),
    ],
)
def test_what_cannot_be_read_is_named_and_left_out(answers: dict[str, str], why: str) -> None:
    taken = take(answers, NEW, today=TODAY)
    assert taken.client == NEW
    assert why in " ".join(taken.open)


def test_a_half_answered_screening_is_no_screening() -> None:
    taken = take({"active.yes": "x"}, NEW, today=TODAY)
    assert taken.client.screenings == ()
    assert "not all answered" in " ".join(taken.open)


@pytest.mark.parametrize("alarm", ["known_disease", "symptoms", "pregnant"])
def test_an_alarm_in_a_half_answered_screening_comes_first_and_is_not_lost(alarm: str) -> None:
    answers = {f"{alarm}.yes": "x", "minutes.mon": "ninety"}
    taken = take(answers, NEW, today=TODAY)
    assert taken.client.screenings == ()
    asked = next(question.text for question in HEALTH if question.key == alarm)
    assert taken.open[0].startswith(f"Answered with yes: {asked}")
    assert asked in taken.client.note
    assert "note" in {line.field for line in taken.lines}


def test_days_are_told_by_their_names() -> None:
    (line,) = take({"minutes.mon": "60", "minutes.thu": "45"}, NEW, today=TODAY).lines
    assert (line.before, line.after) == ("", "Mon 60, Thu 45")


def test_pains_are_for_the_coach_to_talk_over_and_never_a_limitation() -> None:
    taken = take({"pains": "left knee since spring"}, NEW, today=TODAY)
    assert taken.client.limitations == ()
    assert "left knee since spring" in taken.client.note
    assert "Talk it over" in " ".join(taken.open)


def test_days_that_are_not_named_keep_what_they_had() -> None:
    known = Client(ClientId("c"), "C", free=(FreeTime(30, "club"),) * 7)
    free = take({"minutes.tue": "75"}, known, today=TODAY).client.free
    assert free[1] == FreeTime(75, "club")
    assert free[0] == FreeTime(30, "club")


@given(st.dictionaries(st.sampled_from(FIELDS), st.text(max_size=12), max_size=30))
def test_any_answers_give_a_client_and_a_second_reading_nothing_more(
    answers: dict[str, str],
) -> None:
    taken = take(answers, NEW, today=TODAY)
    assert taken.client.id == NEW.id
    again = take(answers, taken.client, today=TODAY)
    assert again.client == taken.client


def test_another_pdf_is_no_intake_form() -> None:
    assert require_form({"form": FORM}) == {"form": FORM}
    with pytest.raises(CoachError, match="no intake form"):
        require_form({"name": "x"})
    with pytest.raises(CoachError, match="another edition"):
        require_form({"form": "weekloom intake 99"})


def test_what_was_agreed_is_kept_with_its_day() -> None:
    day = {"agreed_on.day": "2", "agreed_on.month": "11", "agreed_on.year": "2026"}
    made = take({"agreed.yes": "x", **day}, NEW, today=TODAY).client
    assert made.consent is not None
    assert made.consent.on == date(2026, 11, 2)
    assert take(day, NEW, today=TODAY).client.consent is None


def test_only_what_the_coach_chose_is_taken() -> None:
    taken = take(WHOLE, NEW, today=TODAY)
    made = taken.only({"name", "mass_kg"}, NEW)
    assert made.name == "Ilse Brandal"
    assert made.mass_kg == taken.client.mass_kg
    assert made.born is None
    assert made.screenings == ()
    assert taken.only({line.field for line in taken.lines}, NEW) == taken.client
