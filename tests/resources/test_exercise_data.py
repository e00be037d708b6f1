"""The shipped exercises keep the rules that every other part of Weekloom relies on."""

from __future__ import annotations

import re
from collections import Counter

import pytest

from app.domain.exercise import (
    Equipment,
    Exercise,
    ExerciseKey,
    Joint,
    LoadKind,
    Motion,
    Muscle,
    Pattern,
    Reach,
)
from app.resources import (
    catalogue,
    exercises_from_toml,
    poses,
    references,
    refuse_loose_relatives,
)
from app.resources.exercise_entries import FIELDS
from app.resources.files import names_in, text

EXERCISES = tuple(catalogue())
each = pytest.mark.parametrize("exercise", EXERCISES, ids=[e.key for e in EXERCISES])
each_muscle = pytest.mark.parametrize("muscle", tuple(Muscle))

MACHINES = {
    Equipment.LEG_PRESS,
    Equipment.LEG_EXTENSION,
    Equipment.LEG_CURL,
    Equipment.CALF_MACHINE,
    Equipment.HIP_MACHINE,
    Equipment.CHEST_MACHINE,
    Equipment.ROW_MACHINE,
    Equipment.SLED,
}
NEEDED = {
    LoadKind.BARBELL: {Equipment.BARBELL, Equipment.HEX_BAR},
    LoadKind.DUMBBELL_EACH: {Equipment.DUMBBELLS},
    LoadKind.DUMBBELL_ONE: {Equipment.DUMBBELLS, Equipment.KETTLEBELL},
    LoadKind.MACHINE: MACHINES,
    LoadKind.CABLE: {Equipment.CABLE},
    LoadKind.BAND: {Equipment.BAND},
}
AMERICAN = re.compile(
    r"\b(center|color|fiber|gray|stabiliz\w*|meter|program\w*ed)\b", re.IGNORECASE
)
JARGON = re.compile(r"\b(RIR|RPE|1RM|EMG|MVIC|ROM|eccentric|concentric|dorsiflex\w*)\b")


def sentences(exercise: Exercise) -> tuple[str, ...]:
    """Every line of the exercise that is a sentence for the client."""
    remedies = tuple(fault.remedy for fault in exercise.faults)
    return exercise.set_up + exercise.cues + remedies


def phrases(exercise: Exercise) -> tuple[str, ...]:
    """Every line of the exercise that is a name or a phrase."""
    return (exercise.name, *(fault.notice for fault in exercise.faults))


def test_the_library_is_deep_enough() -> None:
    drills = [e for e in EXERCISES if e.pattern is Pattern.DRILL]
    gluteal = [e for e in EXERCISES if {Muscle.GLUTEALS, Muscle.HIP_ABDUCTORS} & set(e.primes)]
    assert len(EXERCISES) >= 220
    assert len(drills) >= 25
    assert len(gluteal) >= 45


def test_names_and_aliases_lead_to_one_exercise() -> None:
    called = Counter(
        word.casefold() for e in EXERCISES for word in {e.name, *e.aliases} if word != e.key
    )
    assert [word for word, times in called.items() if times > 1] == []


@each
def test_fractions_are_whole_half_or_a_quarter(exercise: Exercise) -> None:
    allowed = {0.25} if exercise.pattern is Pattern.DRILL else {1.0, 0.5}
    assert {part.fraction for part in exercise.work} <= allowed
    assert len({part.muscle for part in exercise.work}) == len(exercise.work)


@each
def test_prime_movers_come_first_and_are_few(exercise: Exercise) -> None:
    if exercise.pattern is not Pattern.DRILL:
        assert 1 <= len(exercise.primes) <= 3
    fractions = [part.fraction for part in exercise.work]
    assert fractions == sorted(fractions, reverse=True)


@each
def test_a_single_joint_exercise_has_at_most_two_prime_movers(exercise: Exercise) -> None:
    if not exercise.multi_joint:
        assert len(exercise.primes) <= 2


@each
def test_the_equipment_holds_what_the_load_is(exercise: Exercise) -> None:
    if needed := NEEDED.get(exercise.load_kind):
        assert needed & set(exercise.equipment)
    assert not (Equipment.BODY in exercise.equipment and len(exercise.equipment) > 1)


@each
def test_only_the_body_as_load_has_a_share_of_it(exercise: Exercise) -> None:
    if exercise.body_share:
        assert exercise.load_kind is LoadKind.BODY
        assert 0.3 <= exercise.body_share <= 1.0


@each
def test_the_rep_zone_fits_the_way_the_set_is_counted(exercise: Exercise) -> None:
    assert exercise.rep_low < exercise.rep_high
    if exercise.timed:
        assert exercise.rep_low >= 10
        assert exercise.tempo == ""
    else:
        assert exercise.rep_high <= 30


@each
def test_rest_and_set_up_fit_a_session(exercise: Exercise) -> None:
    assert exercise.rest_s % 15 == 0 or exercise.pattern is Pattern.DRILL
    assert 5 <= exercise.rest_s <= 300
    assert 0 <= exercise.setup_s <= 240


@each
def test_a_heavy_load_on_the_spine_can_be_ruled_out(exercise: Exercise) -> None:
    if exercise.spinal_load == 3:
        assert Reach(Joint.SPINE, Motion.COMPRESSION) in exercise.reaches


@each
def test_a_motion_of_a_joint_is_told_once(exercise: Exercise) -> None:
    told = [(reach.joint, reach.motion) for reach in exercise.reaches]
    assert len(set(told)) == len(told)


@each
def test_angles_are_given_where_angles_apply(exercise: Exercise) -> None:
    angleless = {Motion.OVERHEAD, Motion.COMPRESSION, Motion.IMPACT}
    for reach in exercise.reaches:
        assert (reach.degrees == 0) == (reach.motion in angleless)


@each
def test_instructions_have_their_length(exercise: Exercise) -> None:
    assert 2 <= len(exercise.set_up) <= 4
    assert 3 <= len(exercise.cues) <= 5
    assert 2 <= len(exercise.faults) <= 4


@each
def test_sentences_are_written_as_sentences(exercise: Exercise) -> None:
    for line in sentences(exercise):
        assert re.fullmatch(r"[A-Z].*[^.]\.", line), line
        assert len(line) <= 110, line


@each
def test_phrases_begin_with_a_capital_and_have_no_stop(exercise: Exercise) -> None:
    for line in phrases(exercise):
        assert re.fullmatch(r"[A-Z].*[^.]", line), line


@each
def test_the_wording_is_calm_plain_and_british(exercise: Exercise) -> None:
    for line in (*sentences(exercise), *phrases(exercise), *exercise.aliases):
        assert "  " not in line
        assert line == line.strip()
        assert not set("!?…’“”") & set(line), line
        assert not AMERICAN.search(line), line
    for line in sentences(exercise):
        assert not JARGON.search(line), line


@each
def test_relatives_are_mutual_and_not_both_ways(exercise: Exercise) -> None:
    for key in exercise.easier:
        assert exercise.key in catalogue()[key].harder
    for key in exercise.harder:
        assert exercise.key in catalogue()[key].easier
    assert not set(exercise.easier) & set(exercise.harder)
    assert len(set(exercise.easier)) == len(exercise.easier)
    assert len(set(exercise.harder)) == len(exercise.harder)


@each
def test_a_drill_is_no_substitute_for_work(exercise: Exercise) -> None:
    is_drill = exercise.pattern is Pattern.DRILL
    for key in exercise.easier + exercise.harder:
        assert (catalogue()[key].pattern is Pattern.DRILL) == is_drill


@each
def test_every_exercise_has_a_relative(exercise: Exercise) -> None:
    if exercise.pattern is not Pattern.DRILL:
        assert exercise.easier or exercise.harder


@each
def test_harder_and_harder_never_comes_back(exercise: Exercise) -> None:
    reached: set[ExerciseKey] = set()
    ahead = list(exercise.harder)
    while ahead:
        key = ahead.pop()
        if key not in reached:
            reached.add(key)
            ahead.extend(catalogue()[key].harder)
    assert exercise.key not in reached


@each
def test_every_study_is_a_reference_that_may_be_used(exercise: Exercise) -> None:
    for row in exercise.activation:
        assert row.study in references()
        assert row.study != "barbalho2020", "an audit calls its data improbable"


@each
def test_a_row_of_activation_is_told_apart_by_its_detail(exercise: Exercise) -> None:
    rows = [(row.study, row.muscle, row.detail) for row in exercise.activation]
    assert len(set(rows)) == len(rows)


def test_every_figure_is_a_pose() -> None:
    assert sorted({e.figure for e in EXERCISES} - set(poses())) == []


@each
def test_a_drill_prepares_some_pattern(exercise: Exercise) -> None:
    if exercise.pattern is Pattern.DRILL:
        assert exercise.warmup_for
    assert Pattern.DRILL not in exercise.warmup_for


@pytest.mark.parametrize("pattern", [p for p in Pattern if p is not Pattern.DRILL])
def test_a_pattern_has_choices_and_a_warm_up(pattern: Pattern) -> None:
    of_it = [e for e in EXERCISES if e.pattern is pattern]
    assert len(of_it) >= 2
    assert any(pattern in e.warmup_for for e in EXERCISES)


@pytest.mark.parametrize("pattern", [p for p in Pattern if p is not Pattern.DRILL])
def test_a_pattern_has_an_exercise_between_an_easier_and_a_harder_one(pattern: Pattern) -> None:
    of_it = {e.key: e for e in EXERCISES if e.pattern is pattern}
    assert any(of_it.keys() & e.easier and of_it.keys() & e.harder for e in of_it.values())


@each_muscle
def test_a_muscle_is_the_prime_mover_of_some_exercise(muscle: Muscle) -> None:
    assert any(muscle in e.primes for e in EXERCISES)


# What cannot be trained as a prime mover without the load named, by anatomy: nothing but a weight
# or a band pulls an arm down against its raising, or bends an elbow or a wrist against it.
NOT_BY_BODY = {Muscle.SIDE_DELTOID, Muscle.REAR_DELTOID, Muscle.FOREARMS}


@each_muscle
def test_a_muscle_can_be_trained_with_next_to_nothing(muscle: Muscle) -> None:
    bare = {
        Equipment.BODY,
        Equipment.BOX,
        Equipment.BENCH,
        Equipment.PULL_UP_BAR,
        Equipment.DIP_BARS,
    }
    if muscle not in NOT_BY_BODY:
        assert any(muscle in e.primes and set(e.equipment) <= bare for e in EXERCISES)


@each_muscle
def test_a_muscle_can_be_trained_with_a_band(muscle: Muscle) -> None:
    home = {Equipment.BODY, Equipment.BAND, Equipment.BOX, Equipment.BENCH}
    assert any(muscle in e.primes and set(e.equipment) <= home for e in EXERCISES)


# What each kind of equipment is, and what may stand beside it without being a kind of its own.
FURNITURE = {Equipment.BENCH, Equipment.BOX, Equipment.RACK}
FRAMES = {Equipment.BODY, Equipment.PULL_UP_BAR, Equipment.DIP_BARS, Equipment.SUSPENSION}
KINDS = {
    "body weight": FRAMES | {Equipment.BENCH, Equipment.BOX},
    "dumbbells": {Equipment.DUMBBELLS},
    "bands": {Equipment.BAND},
    "barbell": {Equipment.BARBELL, Equipment.HEX_BAR},
    "machines": MACHINES | {Equipment.CABLE, Equipment.BACK_EXTENSION_BENCH},
}
# What anatomy rules out, with its reason.
RULED_OUT = {
    (Muscle.HIP_FLEXORS, "barbell"): "a bar cannot be held against a rising thigh",
    (Muscle.SHIN, "barbell"): "a bar cannot be held against a rising foot",
}
cells = pytest.mark.parametrize(("muscle", "kind"), [(m, kind) for m in Muscle for kind in KINDS])


def reaching(muscle: Muscle, kind: str) -> list[ExerciseKey]:
    """Exercises that count half a set or more for the muscle and need that kind, no other."""
    beside = set() if kind == "body weight" else FURNITURE
    return [
        e.key
        for e in EXERCISES
        if e.pattern is not Pattern.DRILL
        and e.fraction(muscle) >= 0.5
        and KINDS[kind] & set(e.equipment)
        and set(e.equipment) <= KINDS[kind] | beside
    ]


@cells
def test_a_muscle_is_reached_with_every_kind_unless_anatomy_says_no(
    muscle: Muscle, kind: str
) -> None:
    assert bool(reaching(muscle, kind)) != ((muscle, kind) in RULED_OUT)


# Reported means and ranges, %MVIC, as printed in the studies' abstracts.
PUBLISHED = [
    ("hip_thrust", Muscle.GLUTEALS, "contreras2015-thrust", (69.5, 86.8)),
    ("hip_thrust", Muscle.HAMSTRINGS, "contreras2015-thrust", (40.8,)),
    ("hip_thrust", Muscle.QUADRICEPS, "contreras2015-thrust", (99.5,)),
    ("back_squat", Muscle.GLUTEALS, "contreras2015-thrust", (29.4, 45.4)),
    ("back_squat", Muscle.HAMSTRINGS, "contreras2015-thrust", (14.9,)),
    ("back_squat", Muscle.QUADRICEPS, "contreras2015-thrust", (110.0,)),
    ("side_lying_abduction", Muscle.HIP_ABDUCTORS, "distefano2009", (81.0,)),
    ("clam", Muscle.HIP_ABDUCTORS, "distefano2009", (38.0,)),
    ("lateral_step_up", Muscle.HIP_ABDUCTORS, "macaskill2014", (61.0,)),
    ("lateral_step_up", Muscle.GLUTEALS, "macaskill2014", (31.0,)),
    ("step_up", Muscle.GLUTEALS, "macaskill2014", (28.7,)),
    ("prone_hip_extension", Muscle.GLUTEALS, "macaskill2014", (100.7,)),
    ("single_leg_squat_to_box", Muscle.HIP_ABDUCTORS, "boren2011", (82.0,)),
]


@pytest.mark.parametrize(("key", "muscle", "study", "values"), PUBLISHED)
def test_published_amplitudes_are_carried_as_printed(
    key: str, muscle: Muscle, study: str, values: tuple[float, ...]
) -> None:
    rows = catalogue()[ExerciseKey(key)].activation
    found = tuple(row.low for row in rows if row.study == study and row.muscle is muscle)
    assert found == values


def sets_of(muscle: Muscle, sets: dict[str, int]) -> float:
    """Sets that count for the muscle: direct ones whole, helping ones in part."""
    return sum(n * catalogue()[ExerciseKey(key)].fraction(muscle) for key, n in sets.items())


def test_direct_and_helping_sets_add_up_as_in_the_source() -> None:
    """Pelland 2024: an indirect set counts one half."""
    assert sets_of(Muscle.TRICEPS, {"bench_press": 4, "overhead_triceps_extension": 3}) == 5.0
    day = {"hip_thrust": 4, "back_squat": 3, "romanian_deadlift": 3}
    assert 2 * sets_of(Muscle.GLUTEALS, day) == 17.0


def test_the_example_of_the_guide_to_the_files_is_an_exercise() -> None:
    (block,) = re.findall(r"```toml\n(.*?)```", text("exercises/README.md"), re.DOTALL)
    (example,) = exercises_from_toml(block, source="README.md")
    refuse_loose_relatives([example], {e.key for e in EXERCISES})
    assert example.activation[0].study in references()


@pytest.mark.parametrize("field", FIELDS)
def test_the_guide_to_the_files_tells_every_field(field: str) -> None:
    assert f"`{field}`" in text("exercises/README.md")


@pytest.mark.parametrize("file", names_in("exercises", ".toml"))
def test_a_file_says_where_its_values_come_from(file: str) -> None:
    head = "\n".join(line for line in text(file).splitlines()[:8] if line.startswith("#"))
    assert "value from memory" in head
