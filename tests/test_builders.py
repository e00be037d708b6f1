from app.domain.effort import PercentOneRm, PercentRepMax, Rir
from app.domain.program import Field, Reps, Role, broken_laws
from tests.builders import CATALOGUE, drills_of, program, slot, week


def test_a_week_is_read_from_one_line() -> None:
    built = week("Mon: back_squat 3x5 RIR 1.5, curl 2x8-12 rest 60 | Thu: back_squat 5x3 85% core")
    assert [number for number, _ in built.sessions()] == [0, 3]
    first, second, third = built.slots()
    assert (first.sets, first.reps, first.effort) == (3, Reps(5, 5), Rir(1.5))
    assert (second.reps, second.rest_s) == (Reps(8, 12), 60)
    assert (third.effort, third.role) == (PercentOneRm(85), Role.CORE)


def test_everything_can_be_said_of_a_slot() -> None:
    built = slot("curl 4x10 95%RM tempo 3-0-1-0 pair A 12.5kg pin sets pin load")
    assert built.effort == PercentRepMax(95)
    assert (built.tempo, built.pair, built.load_kg) == ("3-0-1-0", "A", 12.5)
    assert built.pinned == {Field.SETS, Field.LOAD}


def test_a_day_named_twice_has_two_sessions() -> None:
    built = week("Mon: curl 3x8 | Mon (band_walk): crunch 3x10")
    assert [len(day.sessions) for day in built.days] == [2, 0, 0, 0, 0, 0, 0]
    assert built.days[0].sessions[1].warmup == drills_of("band_walk")


def test_a_program_is_sound_and_keeps_its_strands() -> None:
    built = program("Mon: back_squat 3x5", "light | Mon: back_squat 2x5", times=3)
    assert broken_laws(built) == ()
    assert len({s.strand for w in built.weeks for s in w.slots()}) == 1
    assert [w.light for w in built.weeks] == [False, True] * 3


def test_the_exercises_point_at_each_other() -> None:
    for exercise in CATALOGUE:
        for key in (*exercise.easier, *exercise.harder):
            assert key in CATALOGUE
