"""Exercises in a file become exercises, or are refused with the line and the reason."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.domain.errors import CoachError, ResourceError
from app.domain.exercise import (
    Activation,
    Equipment,
    Exercise,
    Fault,
    Joint,
    LoadKind,
    Motion,
    Muscle,
    Pattern,
    Plane,
    Reach,
    Work,
)
from app.resources import exercises_from_toml, refuse_loose_relatives
from app.resources.exercise_entries import LONGEST_FILE

WHOLE = """\
[rope_climb]
name = "Rope climb"
aliases = ["climbing rope"]
pattern = "vertical_pull"
plane = "frontal"
work = { latissimus = 1.0, biceps = 0.5 }
equipment = ["pull_up_bar"]
load_kind = "body"
multi_joint = true
unilateral = true
timed = true
body_share = 1.0
skill = 3
spinal_load = 1
setup_s = 20
rest_s = 180
tempo = ""
rep_low = 10
rep_high = 30
reaches = ["elbow flexion 130", "shoulder overhead"]
stress = { elbow = 2, shoulder = 3 }
set_up = ["Stand below the rope."]
cues = ["Pull."]
faults = [["The feet slip", "Clamp the rope between them."]]
easier = ["easy_hang"]
harder = ["pull_up"]
activation = [{ muscle = "biceps", low = 78, high = 96, study = "youdas2010", detail = "-" }]
figure = "pull_up"
warmup_for = ["vertical_pull"]
version = 2
"""

LEAST = """\
[rope_climb]
name = "Rope climb"
pattern = "vertical_pull"
work = { latissimus = 1.0 }
equipment = ["pull_up_bar"]
load_kind = "body"
multi_joint = true
"""


def read(content: str) -> tuple[Exercise, ...]:
    return exercises_from_toml(content, source="mine.toml")


def test_every_field_is_read() -> None:
    (climb,) = read(WHOLE)
    assert climb == Exercise(
        key=climb.key,
        name="Rope climb",
        aliases=("climbing rope",),
        pattern=Pattern.VERTICAL_PULL,
        plane=Plane.FRONTAL,
        work=(Work(Muscle.LATISSIMUS, 1.0), Work(Muscle.BICEPS, 0.5)),
        equipment=(Equipment.PULL_UP_BAR,),
        load_kind=LoadKind.BODY,
        multi_joint=True,
        unilateral=True,
        timed=True,
        body_share=1.0,
        skill=3,
        spinal_load=1,
        setup_s=20,
        rest_s=180,
        tempo="",
        rep_low=10,
        rep_high=30,
        reaches=(
            Reach(Joint.ELBOW, Motion.FLEXION, 130),
            Reach(Joint.SHOULDER, Motion.OVERHEAD),
        ),
        stress=((Joint.ELBOW, 2), (Joint.SHOULDER, 3)),
        set_up=("Stand below the rope.",),
        cues=("Pull.",),
        faults=(Fault("The feet slip", "Clamp the rope between them."),),
        easier=climb.easier,
        harder=climb.harder,
        activation=(Activation(Muscle.BICEPS, 78, 96, "youdas2010", "-"),),
        figure="pull_up",
        warmup_for=(Pattern.VERTICAL_PULL,),
        version=2,
    )
    assert (climb.key, climb.easier, climb.harder) == ("rope_climb", ("easy_hang",), ("pull_up",))


def test_what_a_file_leaves_out_takes_the_defaults_of_an_exercise() -> None:
    (climb,) = read(LEAST)
    assert climb == Exercise(
        climb.key,
        "Rope climb",
        Pattern.VERTICAL_PULL,
        (Work(Muscle.LATISSIMUS, 1.0),),
        (Equipment.PULL_UP_BAR,),
        LoadKind.BODY,
        True,
    )


def test_own_exercises_are_marked() -> None:
    (climb,) = exercises_from_toml(LEAST, source="mine.toml", own=True)
    assert climb.own


def test_an_empty_file_holds_no_exercises() -> None:
    assert read("# nothing yet\n") == ()


def test_the_order_of_the_file_is_kept() -> None:
    both = LEAST + LEAST.replace("rope_climb", "a_climb").replace("Rope", "Another")
    assert [e.key for e in read(both)] == ["rope_climb", "a_climb"]


BROKEN = [
    ("key", "[rope_climb]", "[Rope-Climb]", r"'Rope-Climb' is no key"),
    ("field", 'name = "Rope climb"', 'nmae = "x"', r"line 2.*no field 'nmae'.*mean 'name'"),
    ("name", 'name = "Rope climb"', "", r"rope_climb, name: This field is missing"),
    ("empty name", "Rope climb", "  ", r"line 2, rope_climb, name: The name has 0 characters"),
    ("long name", "Rope climb", "x" * 81, r"The name has 81 characters"),
    ("html", "Rope climb", "<b>Rope</b>", r"name: The character '<' is not allowed"),
    ("note", '"Pull."', '"' + "x" * 400 + '"', r"cues: A text of 400 characters is too long"),
    ("pattern", '"vertical_pull"\np', '"vertical_pul"\np', r"line 4.*mean 'vertical_pull'"),
    ("plane", '"frontal"', '"fronta"', r"line 5.*not a plane.*sagittal, frontal, transverse"),
    ("muscle", "latissimus =", "latisimus =", r"line 6.*not a muscle.*mean 'latissimus'"),
    ("fraction", "latissimus = 1.0", "latissimus = 1.5", r"work: 1.5 is outside 0 to 1"),
    ("negative", "biceps = 0.5", "biceps = -0.5", r"work: -0.5 is outside 0 to 1"),
    ("zero", "biceps = 0.5", "biceps = 0", r"biceps works 0 of a set"),
    ("no prime", "latissimus = 1.0", "latissimus = 0.5", r"No muscle counts a whole set"),
    ("equipment", "pull_up_bar", "pullup_bar", r"not an equipment.*mean 'pull_up_bar'"),
    ("no equipment", '["pull_up_bar"]', "[]", r"No equipment is named"),
    ("load", '"body"', '"bodies"', r"line 8.*not a load kind.*mean 'body'"),
    ("flag", "multi_joint = true", 'multi_joint = "yes"', r"line 9.*neither true nor false"),
    ("share", "body_share = 1.0", "body_share = 1.1", r"line 12.*1.1 is outside 0 to 1"),
    ("skill", "skill = 3", "skill = 4", r"line 13.*4 is outside 1 to 3"),
    ("spine", "spinal_load = 1", "spinal_load = -1", r"line 14.*-1 is outside 0 to 3"),
    ("rest", "rest_s = 180", "rest_s = 1.5", r"line 16.*1.5 is not a whole number"),
    ("tempo", 'tempo = ""', 'tempo = "slow"', r"line 17.*'slow' is no tempo"),
    ("zone", "rep_low = 10", "rep_low = 31", r"line 18.*31 is above rep_high, 30"),
    ("joint", "elbow flexion", "elbo flexion", r"line 20.*not a joint.*mean 'elbow'"),
    ("motion", "elbow flexion", "elbow flexing", r"line 20.*not a motion.*mean 'flexion'"),
    ("degrees", "flexion 130", "flexion 130.5", r"'elbow flexion 130.5' is no reach"),
    ("wide", "flexion 130", "flexion 200", r"200 is outside 0 to 180"),
    ("words", "flexion 130", "flexion 130 or so", r"is no reach"),
    ("stress", "elbow = 2", "elbow = 4", r"line 21.*4 is outside 1 to 3"),
    ("fault", '["The feet slip", "Clamp', '["Clamp', r"line 24.*is no pair"),
    ("row", "{ muscle", '"muscle", { muscle', r"'muscle' is no row"),
    ("row field", "study =", "stud =", r"no field 'stud'.*mean 'study'"),
    ("amplitude", "low = 78", "low = 97", r"low 97 is above high 96"),
    ("no amplitude", "low = 78, ", "", r"-1 is outside 0 to 500"),
    ("pattern list", '["vertical_pull"]', '["pull"]', r"line 29.*'pull' is not a pattern"),
    ("version", "version = 2", "version = 0", r"line 30.*0 is outside 1 to 10000"),
    ("list", 'cues = ["Pull."]', 'cues = "Pull."', r"cues: 'Pull.' is not a list"),
    ("table", "work = {", "work = 3 #", r"line 6.*3 is not a table"),
]


@pytest.mark.parametrize(
    ("find", "put", "says"), [row[1:] for row in BROKEN], ids=[row[0] for row in BROKEN]
)
def test_a_broken_field_is_refused_with_its_place_and_reason(
    find: str, put: str, says: str
) -> None:
    assert find in WHOLE
    with pytest.raises(ResourceError, match=r"^mine\.toml") as caught:
        read(WHOLE.replace(find, put, 1))
    assert caught.match(says)
    assert caught.value.mend


def test_a_value_outside_a_table_is_refused() -> None:
    with pytest.raises(ResourceError, match="'name' stands outside a table"):
        read('name = "Rope climb"\n')


def test_the_same_key_twice_is_refused_with_its_line() -> None:
    with pytest.raises(ResourceError, match=r"not TOML.*line 8"):
        read(LEAST + LEAST)


def test_the_same_name_twice_is_refused_by_both_keys() -> None:
    other = LEAST.replace("[rope_climb]", "[other]").replace("Rope climb", "rope CLIMB")
    with pytest.raises(ResourceError, match="other and rope_climb share the name"):
        read(LEAST + other)


@pytest.mark.parametrize(
    "twin", ["rope CLIMB", "Rope\u00a0climb", "Rope-climb", "Rope cl\u200bimb"]
)
def test_a_name_that_reads_the_same_is_refused_with_its_line(twin: str) -> None:
    other = LEAST.replace("[rope_climb]", "[other]").replace("Rope climb", twin)
    with pytest.raises(ResourceError) as refused:
        read(LEAST + other)
    assert refused.value.where == "mine.toml, line 9, other, name"


def test_a_file_that_is_far_too_long_is_refused_before_it_is_read() -> None:
    with pytest.raises(ResourceError, match="5,000,000 characters"):
        read("#" * 5_000_000)
    assert LONGEST_FILE < 5_000_000


@pytest.mark.parametrize("tempo", ["", "2-0-1-0", "10-0-X-2"])
def test_a_tempo_has_four_figures_or_none(tempo: str) -> None:
    (climb,) = read(LEAST + f'tempo = "{tempo}"\n')
    assert climb.tempo == tempo


def test_a_drill_needs_no_prime_mover() -> None:
    (drill,) = read(LEAST.replace('"vertical_pull"', '"drill"').replace("1.0", "0.25"))
    assert drill.primes == ()


def test_a_relative_that_does_not_exist_is_refused_with_a_near_one() -> None:
    (climb,) = read(WHOLE)
    with pytest.raises(ResourceError, match=r"'pull_up' is no other.*Did you mean 'pullup'"):
        refuse_loose_relatives([climb], {"rope_climb", "easy_hang", "pullup"})
    refuse_loose_relatives([climb], {"rope_climb", "easy_hang", "pull_up"})


def test_an_exercise_is_not_its_own_relative() -> None:
    (climb,) = read(LEAST + 'harder = ["rope_climb"]\n')
    with pytest.raises(ResourceError, match="'rope_climb' is no other exercise"):
        refuse_loose_relatives([climb], {"rope_climb"})


def refusal_of(content: str) -> CoachError | None:
    """What the coach is told of the text; None if it was read."""
    try:
        exercises_from_toml(content, source="mine.toml")
    except CoachError as error:
        return error
    return None


@given(st.text(max_size=200))
def test_any_text_is_read_or_refused_in_words_for_the_coach(content: str) -> None:
    refusal = refusal_of(content)
    if refusal:
        assert refusal.where.startswith("mine.toml")
        assert refusal.mend


SCALARS = st.one_of(st.booleans(), st.integers(), st.floats(), st.text(max_size=8))


def written(value: bool | int | float | str) -> str:
    """The value as TOML."""
    match value:
        case bool():
            return str(value).lower()
        case str():
            return "'" + "".join(c for c in value if c.isprintable() and c != "'") + "'"
        case _:
            return repr(value)


@given(st.sampled_from(WHOLE.splitlines()[1:]), SCALARS, st.booleans())
def test_any_field_with_any_value_is_read_or_refused(
    line: str, value: bool | int | float | str, in_list: bool
) -> None:
    field = line.partition(" = ")[0]
    put = f"[{written(value)}]" if in_list else written(value)
    refusal = refusal_of(WHOLE.replace(line, f"{field} = {put}", 1))
    assert refusal is None or refusal.where.startswith("mine.toml")
