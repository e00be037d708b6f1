"""Values stored whole come back equal, and equal values give equal text."""

from __future__ import annotations

import json

import pytest
from hypothesis import given

from app.domain.client import Client
from app.domain.effort import PercentOneRm, PercentRepMax, Rir
from app.domain.exercise import Exercise
from app.domain.program import Program, Session, Slot
from app.domain.ranges import Override
from app.domain.work import Issue
from db.canonical import decode, encode
from tests.builders import drills_of
from tests.db.samples import OVERRIDE, PLAN, RUNA
from tests.strategies import clients, exercises, issues, programs


@given(issues)
def test_an_issue_comes_back_equal(issue):
    assert decode(Issue, encode(issue)) == issue


@given(exercises)
def test_an_exercise_comes_back_equal(exercise):
    assert decode(Exercise, encode(exercise)) == exercise


@given(clients)
def test_equal_clients_give_equal_text(client):
    again = decode(Client, encode(client))
    assert encode(again) == encode(client)


@given(programs())
def test_the_text_is_plain_json(program):
    assert decode(Program, json.dumps(json.loads(encode(program)), indent=2)) == program


def test_an_override_comes_back_equal():
    assert decode(Override, encode(OVERRIDE)) == OVERRIDE


@pytest.mark.parametrize("effort", [Rir(1.5), PercentOneRm(80), PercentRepMax(95)])
def test_an_effort_says_of_which_kind_it_is(effort):
    plain = json.loads(encode(PLAN))
    slot = plain["weeks"][0]["days"][0]["sessions"][0]["slots"][0]
    slot["effort"] = json.loads(encode(effort))
    assert decode(Slot, json.dumps(slot)).effort == effort
    del slot["effort"]["is"]
    with pytest.raises(ValueError, match="does not say which"):
        decode(Slot, json.dumps(slot))


def test_a_field_that_the_text_lacks_takes_its_default():
    plain = json.loads(encode(RUNA))
    del plain["refer"]
    assert decode(Client, json.dumps(plain)).refer == ()


def test_a_drill_without_a_dose_is_its_key_as_it_was_before_there_were_doses():
    plain = json.loads(encode(PLAN))
    session = plain["weeks"][0]["days"][0]["sessions"][0]
    assert session["warmup"][0] == "band_walk"
    assert session["warmup"][1]["dose"] == {"rounds": 2, "reps": {"low": 12, "high": 15}}
    session["warmup"] = ["bridge", {"exercise": "bridge"}]
    assert decode(Session, json.dumps(session)).warmup == drills_of("bridge bridge")


@pytest.mark.parametrize(
    ("change", "said"),
    [
        ({"shoe_size": 42}, "Client has no 'shoe_size'"),
        ({"name": 5}, "5 is not of str"),
        ({"archived": 1}, "1 is not of bool"),
        ({"mass_kg": True}, "True is not of float"),
        ({"sex": "x"}, "not a valid Sex"),
        ({"limitations": [3]}, "3 is not a Limitation"),
    ],
)
def test_text_that_does_not_fit_the_value_is_refused(change, said):
    plain = json.loads(encode(RUNA)) | change
    with pytest.raises(ValueError, match=said):
        decode(Client, json.dumps(plain))
