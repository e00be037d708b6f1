"""What there is to say on an exercise."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from app import resources
from app.domain.exercise import Equipment, ExerciseKey, Joint, Motion, Pattern, Reach
from app.ui.library import facts
from tests import builders
from tests.ui.library import scene

NAMES = {muscle: name.trade for muscle, name in resources.muscle_names().items()}
DAY = date(2026, 11, 25)
SQUAT = scene.shipped("back_squat")


def told(exercise) -> dict[str, str]:
    return dict(facts.facts(exercise, NAMES))


def test_facts_are_in_words_with_units():
    one = replace(
        SQUAT,
        body_share=0.85,
        rest_s=150,
        setup_s=45,
        rep_low=3,
        rep_high=12,
        skill=3,
        spinal_load=2,
        stress=((Joint.SPINE, 1), (Joint.KNEE, 3)),
    )
    says = told(one)
    assert says["Own mass"] == "85 % of body mass"
    assert says["Usual rest"] == "2:30"
    assert says["Set-up time"] == "0:45"
    assert says["Zone"] == "3\N{EN DASH}12 repetitions"
    assert says["Demand"] == "needs coaching"
    assert says["Spine"] == "moderate"
    assert says["Stress"] == "knee a lot, spine a little"
    assert says["Movement"] == "squat, sagittal plane"


def test_what_does_not_apply_is_left_out():
    says = told(replace(SQUAT, body_share=0, stress=(), tempo="", warmup_for=()))
    assert not {"Own mass", "Stress", "Usual tempo", "Prepares"} & set(says)


def test_a_timed_exercise_counts_seconds():
    one = replace(SQUAT, timed=True, rep_low=20, rep_high=60, warmup_for=(Pattern.SQUAT,))
    assert told(one)["Zone"] == "20\N{EN DASH}60 s"
    assert told(one)["Prepares"] == "squat"


def test_a_limitation_and_lacking_equipment_are_told_with_the_name():
    client = builders.client(
        name="Runa Estvik", equipment=frozenset({Equipment.RACK}), limitations=(scene.KNEE,)
    )
    assert facts.ruled_out(SQUAT, client, DAY) == (
        "Bends the left knee past 90°. Runa's limitation of 2 Oct 2026 lasts until 28 Feb 2027.",
        "Needs barbell, which Runa does not have.",
    )


def test_a_limitation_that_is_over_rules_nothing_out():
    client = builders.client(equipment=frozenset(Equipment), limitations=(scene.KNEE,))
    assert facts.ruled_out(SQUAT, client, date(2027, 3, 1)) == ()


def test_what_could_stand_in_is_ranked_without_anybody():
    some = facts.stand_ins(SQUAT, resources.catalogue(), client=None, program=None)
    assert some
    assert not any(one.blocked for one in some)
    assert [one.score for one in some] == sorted((one.score for one in some), reverse=True)
    assert SQUAT.key not in [one.exercise.key for one in some]


def test_what_the_client_cannot_do_comes_last_and_says_why():
    client = builders.client(equipment=frozenset({Equipment.BODY}), limitations=(scene.KNEE,))
    some = facts.stand_ins(SQUAT, resources.catalogue(), client=client, program=None)
    blocked = [bool(one.blocked) for one in some]
    assert blocked == sorted(blocked)
    assert any(blocked)


def test_the_open_program_is_asked_but_not_changed():
    desk = scene.desk()
    before = desk.program
    for key in ("step_up", "back_squat"):
        exercise = scene.shipped(key)
        assert facts.stand_ins(exercise, desk.catalogue, client=desk.client, program=desk.program)
    assert desk.program is before


def test_where_it_is_used_is_told_in_runs_of_weeks():
    desk = scene.desk()
    name = desk.program.name
    assert (
        facts.used_text(scene.shipped("step_up"), desk.program)
        == f"In {name}: Mon, Thu in week 1 and Mon in week 2."
    )
    assert facts.used_text(SQUAT, desk.program) == f"Not in {name}."
    assert facts.used_text(SQUAT, None) == ""


def test_relatives_that_are_gone_are_left_out():
    one = replace(SQUAT, easier=(ExerciseKey("goblet_squat"), ExerciseKey("gone")), harder=())
    kin = facts.relatives(one, resources.catalogue())
    assert [(word, other.key) for word, other in kin] == [("easier", "goblet_squat")]


def test_the_gluteal_index_is_told_with_its_source_where_it_was_measured():
    references = resources.references()
    told_of = facts.tfl_text(scene.shipped("clam"), references)
    assert "index 115" in told_of
    assert "Selkowitz 2013" in told_of
    assert "memory" not in told_of
    assert facts.tfl_text(SQUAT, references) == ""


def test_an_index_that_was_not_read_in_the_paper_says_so():
    told_of = facts.tfl_text(scene.shipped("side_lying_abduction"), resources.references())
    assert "index 38, value from memory" in told_of


def test_reaches_are_told_with_degrees_where_they_have_some():
    reaches = (Reach(Joint.KNEE, Motion.FLEXION, 110), Reach(Joint.SPINE, Motion.COMPRESSION))
    assert told(replace(SQUAT, reaches=reaches))["Reaches"] == (
        "knee flexion 110°, spine compression"
    )
