"""Exercises as the trade describes them, and the catalogue that holds them.

A catalogue is a value like everything else: it is built once from the shipped data and the
coach's own exercises and is then only read.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from enum import StrEnum
from types import MappingProxyType
from typing import NewType

from app.domain.errors import CoachError
from app.domain.wording import mark, tr

ExerciseKey = NewType("ExerciseKey", str)


class Muscle(StrEnum):
    """Muscle groups that sets are counted for."""

    QUADRICEPS = "quadriceps"
    GLUTEALS = "gluteals"  # gluteus maximus
    HIP_ABDUCTORS = "hip_abductors"  # gluteus medius and minimus
    HAMSTRINGS = "hamstrings"
    ADDUCTORS = "adductors"
    HIP_FLEXORS = "hip_flexors"
    CALVES = "calves"
    SHIN = "shin"
    SPINAL_ERECTORS = "spinal_erectors"
    ABDOMINALS = "abdominals"
    OBLIQUES = "obliques"
    LATISSIMUS = "latissimus"
    UPPER_BACK = "upper_back"  # trapezius and rhomboids
    CHEST = "chest"
    FRONT_DELTOID = "front_deltoid"
    SIDE_DELTOID = "side_deltoid"
    REAR_DELTOID = "rear_deltoid"
    BICEPS = "biceps"
    TRICEPS = "triceps"
    FOREARMS = "forearms"


class Pattern(StrEnum):
    """Movement classes, as strength textbooks group exercises."""

    SQUAT = "squat"
    HINGE = "hinge"
    THRUST = "thrust"  # hip extension with bent knees: bridges and thrusts
    SPLIT_STANCE = "split_stance"  # lunges, split squats, step-ups
    KNEE_EXTENSION = "knee_extension"
    KNEE_FLEXION = "knee_flexion"
    HIP_EXTENSION = "hip_extension"  # kickbacks, back extensions
    HIP_ABDUCTION = "hip_abduction"
    HIP_ADDUCTION = "hip_adduction"
    HIP_FLEXION = "hip_flexion"
    CALF_RAISE = "calf_raise"
    HORIZONTAL_PUSH = "horizontal_push"
    VERTICAL_PUSH = "vertical_push"
    HORIZONTAL_PULL = "horizontal_pull"
    VERTICAL_PULL = "vertical_pull"
    SHOULDER_RAISE = "shoulder_raise"
    ELBOW_FLEXION = "elbow_flexion"
    ELBOW_EXTENSION = "elbow_extension"
    TRUNK_FLEXION = "trunk_flexion"
    TRUNK_BRACE = "trunk_brace"  # planks and presses against rotation
    TRUNK_ROTATION = "trunk_rotation"
    CARRY = "carry"
    DRILL = "drill"  # warm-up drills and mobility


class Plane(StrEnum):
    """The anatomical plane a movement mostly lies in."""

    SAGITTAL = "sagittal"
    FRONTAL = "frontal"
    TRANSVERSE = "transverse"


class Equipment(StrEnum):
    """Things an exercise needs. `BODY` is always in reach."""

    BODY = "body"
    BARBELL = "barbell"
    RACK = "rack"
    BENCH = "bench"
    DUMBBELLS = "dumbbells"
    KETTLEBELL = "kettlebell"
    BAND = "band"
    CABLE = "cable"
    HEX_BAR = "hex_bar"
    BOX = "box"
    PULL_UP_BAR = "pull_up_bar"
    DIP_BARS = "dip_bars"
    LEG_PRESS = "leg_press"
    LEG_EXTENSION = "leg_extension"
    LEG_CURL = "leg_curl"
    CALF_MACHINE = "calf_machine"
    HIP_MACHINE = "hip_machine"
    BACK_EXTENSION_BENCH = "back_extension_bench"
    CHEST_MACHINE = "chest_machine"
    ROW_MACHINE = "row_machine"
    SLED = "sled"
    SUSPENSION = "suspension"
    ANKLE_WEIGHTS = "ankle_weights"


_THINGS = {
    Equipment.BODY: mark("body"),
    Equipment.BARBELL: mark("barbell"),
    Equipment.RACK: mark("rack"),
    Equipment.BENCH: mark("bench"),
    Equipment.DUMBBELLS: mark("dumbbells"),
    Equipment.KETTLEBELL: mark("kettlebell"),
    Equipment.BAND: mark("band"),
    Equipment.CABLE: mark("cable"),
    Equipment.HEX_BAR: mark("hex bar"),
    Equipment.BOX: mark("box"),
    Equipment.PULL_UP_BAR: mark("pull up bar"),
    Equipment.DIP_BARS: mark("dip bars"),
    Equipment.LEG_PRESS: mark("leg press"),
    Equipment.LEG_EXTENSION: mark("leg extension"),
    Equipment.LEG_CURL: mark("leg curl"),
    Equipment.CALF_MACHINE: mark("calf machine"),
    Equipment.HIP_MACHINE: mark("hip machine"),
    Equipment.BACK_EXTENSION_BENCH: mark("back extension bench"),
    Equipment.CHEST_MACHINE: mark("chest machine"),
    Equipment.ROW_MACHINE: mark("row machine"),
    Equipment.SLED: mark("sled"),
    Equipment.SUSPENSION: mark("suspension"),
    Equipment.ANKLE_WEIGHTS: mark("ankle weights"),
}


def equipment_name(thing: Equipment) -> str:
    """The thing in plain words, 'pull up bar'."""
    return tr(_THINGS[thing])


_MOVEMENTS = {
    Pattern.SQUAT: mark("squat"),
    Pattern.HINGE: mark("hinge"),
    Pattern.THRUST: mark("thrust"),
    Pattern.SPLIT_STANCE: mark("split stance"),
    Pattern.KNEE_EXTENSION: mark("knee extension"),
    Pattern.KNEE_FLEXION: mark("knee flexion"),
    Pattern.HIP_EXTENSION: mark("hip extension"),
    Pattern.HIP_ABDUCTION: mark("hip abduction"),
    Pattern.HIP_ADDUCTION: mark("hip adduction"),
    Pattern.HIP_FLEXION: mark("hip flexion"),
    Pattern.CALF_RAISE: mark("calf raise"),
    Pattern.HORIZONTAL_PUSH: mark("horizontal push"),
    Pattern.VERTICAL_PUSH: mark("vertical push"),
    Pattern.HORIZONTAL_PULL: mark("horizontal pull"),
    Pattern.VERTICAL_PULL: mark("vertical pull"),
    Pattern.SHOULDER_RAISE: mark("shoulder raise"),
    Pattern.ELBOW_FLEXION: mark("elbow flexion"),
    Pattern.ELBOW_EXTENSION: mark("elbow extension"),
    Pattern.TRUNK_FLEXION: mark("trunk flexion"),
    Pattern.TRUNK_BRACE: mark("trunk brace"),
    Pattern.TRUNK_ROTATION: mark("trunk rotation"),
    Pattern.CARRY: mark("carry"),
    Pattern.DRILL: mark("drill"),
}


def pattern_name(pattern: Pattern) -> str:
    """The movement in plain words, 'knee extension'."""
    return tr(_MOVEMENTS[pattern])


class LoadKind(StrEnum):
    """What the printed load means, and so which increments it is rounded to."""

    BARBELL = "barbell"  # bar and plates together
    DUMBBELL_EACH = "dumbbell_each"  # kg in each hand
    DUMBBELL_ONE = "dumbbell_one"  # one dumbbell or kettlebell
    MACHINE = "machine"  # kg on the stack or sledge
    CABLE = "cable"
    BODY = "body"  # own weight, load added if any
    BAND = "band"  # ordered grades, no kg
    NONE = "none"  # nothing to load


class Joint(StrEnum):
    """Joints that limitations and stress are told by."""

    NECK = "neck"
    SHOULDER = "shoulder"
    ELBOW = "elbow"
    WRIST = "wrist"
    SPINE = "spine"
    HIP = "hip"
    KNEE = "knee"
    ANKLE = "ankle"


_JOINTS = {
    Joint.NECK: mark("Neck"),
    Joint.SHOULDER: mark("Shoulder"),
    Joint.ELBOW: mark("Elbow"),
    Joint.WRIST: mark("Wrist"),
    Joint.SPINE: mark("Spine"),
    Joint.HIP: mark("Hip"),
    Joint.KNEE: mark("Knee"),
    Joint.ANKLE: mark("Ankle"),
}


def joint_name(joint: Joint) -> str:
    """The joint, capital first: 'Knee'."""
    return tr(_JOINTS[joint])


class Motion(StrEnum):
    """What a joint does when a limitation forbids it past some angle or altogether."""

    FLEXION = "flexion"
    EXTENSION = "extension"
    ABDUCTION = "abduction"
    ADDUCTION = "adduction"
    ROTATION = "rotation"
    OVERHEAD = "overhead"
    COMPRESSION = "compression"  # heavy axial load
    IMPACT = "impact"


@dataclass(frozen=True, slots=True)
class Work:
    """How much of a set counts for a muscle: 1 for a prime mover, a part for a helper."""

    muscle: Muscle
    fraction: float

    @property
    def is_prime(self) -> bool:
        """True for a prime mover."""
        return self.fraction >= 1.0


@dataclass(frozen=True, slots=True)
class Reach:
    """The largest angle, degrees, that an exercise asks of a joint (0 where angles do not apply).

    Angles are of the usual technique, value from memory unless the exercise names a source.
    """

    joint: Joint
    motion: Motion
    degrees: int = 0


@dataclass(frozen=True, slots=True)
class Fault:
    """A common fault and what to try against it, in words for the client."""

    notice: str
    remedy: str


@dataclass(frozen=True, slots=True)
class ExerciseText:
    """An exercise's words in a further language: its name, and what the client is told.

    language: the code of the language without a region, 'de'.
    """

    language: str
    name: str
    set_up: tuple[str, ...] = ()
    cues: tuple[str, ...] = ()
    faults: tuple[Fault, ...] = ()


@dataclass(frozen=True, slots=True)
class Activation:
    """One reported amplitude, % of maximal voluntary contraction, from one study.

    low and high are equal where the study gives one value. Never merged between studies.
    """

    muscle: Muscle
    low: float
    high: float
    study: str
    detail: str = ""


@dataclass(frozen=True, slots=True)
class Exercise:
    """One exercise with everything a plan, a check and a booklet need to know of it.

    body_share: part of body mass that is lifted with the load (0 where it does not count);
    skill 1 (learned in a set) to 3 (needs coaching); spinal_load 0 (none) to 3 (heavy axial or
    bent-over); rep_low and rep_high: the usable zone; timed sets count seconds as repetitions;
    texts: its words in further languages, one for each.
    """

    key: ExerciseKey
    name: str
    pattern: Pattern
    work: tuple[Work, ...]
    equipment: tuple[Equipment, ...]
    load_kind: LoadKind
    multi_joint: bool
    unilateral: bool = False
    timed: bool = False
    aliases: tuple[str, ...] = ()
    plane: Plane = Plane.SAGITTAL
    body_share: float = 0.0
    skill: int = 1
    spinal_load: int = 0
    setup_s: int = 60
    rest_s: int = 120
    tempo: str = "2-0-2-0"
    rep_low: int = 5
    rep_high: int = 20
    reaches: tuple[Reach, ...] = ()
    stress: tuple[tuple[Joint, int], ...] = ()
    set_up: tuple[str, ...] = ()
    cues: tuple[str, ...] = ()
    faults: tuple[Fault, ...] = ()
    easier: tuple[ExerciseKey, ...] = ()
    harder: tuple[ExerciseKey, ...] = ()
    activation: tuple[Activation, ...] = ()
    figure: str = ""
    warmup_for: tuple[Pattern, ...] = ()
    own: bool = False
    version: int = 1
    texts: tuple[ExerciseText, ...] = ()

    def spoken(self, language: str) -> Exercise:
        """The exercise with its words in a language, as it is where it has none in it."""
        for text in self.texts:
            if text.language == language:
                return replace(
                    self,
                    name=text.name,
                    set_up=text.set_up or self.set_up,
                    cues=text.cues or self.cues,
                    faults=text.faults or self.faults,
                )
        return self

    def speaks(self, language: str) -> bool:
        """Whether its words can be read in a language; a coach's own are as the coach has them."""
        return self.own or language == "en" or any(t.language == language for t in self.texts)

    @property
    def primes(self) -> tuple[Muscle, ...]:
        """Prime movers, in the order of the data."""
        return tuple(w.muscle for w in self.work if w.is_prime)

    @property
    def helpers(self) -> tuple[Muscle, ...]:
        """Muscles that help, in the order of the data."""
        return tuple(w.muscle for w in self.work if not w.is_prime)

    def fraction(self, muscle: Muscle) -> float:
        """The part of one set that counts for `muscle`; 0 where it does no work."""
        return next((w.fraction for w in self.work if w.muscle is muscle), 0.0)


class UnknownExercise(CoachError):
    """A plan names an exercise that the catalogue does not hold."""


@dataclass(frozen=True, slots=True, eq=False)
class Catalogue:
    """All exercises in reach of a plan, by key. Compared by identity: it is built once.

    retired: keys that plans may still name but that are no longer offered: looking one up finds
    it, going through the catalogue leaves it out.
    """

    exercises: tuple[Exercise, ...]
    retired: frozenset[ExerciseKey] = frozenset()
    _by_key: Mapping[str, Exercise] = field(init=False, repr=False)

    def __post_init__(self) -> None:
        by_key = {e.key: e for e in self.exercises}
        if len(by_key) != len(self.exercises):
            keys = [e.key for e in self.exercises]
            twice = sorted({k for k in keys if keys.count(k) > 1})
            raise CoachError(
                tr("Two exercises share the key {first!r}.", first=twice[0]), mend=tr("Rename one.")
            )
        object.__setattr__(self, "_by_key", MappingProxyType(by_key))

    def __getitem__(self, key: ExerciseKey) -> Exercise:
        try:
            return self._by_key[key]
        except KeyError:
            raise UnknownExercise(
                tr("There is no exercise {key!r} in the library.", key=key),
                mend=tr("Add it to your own exercises, or choose another."),
            ) from None

    def __contains__(self, key: object) -> bool:
        return key in self._by_key

    def __iter__(self) -> Iterator[Exercise]:
        if not self.retired:
            return iter(self.exercises)
        return (e for e in self.exercises if e.key not in self.retired)

    def __len__(self) -> int:
        return len(self.exercises) - len(self.retired)

    def with_own(
        self, own: tuple[Exercise, ...], retired: frozenset[ExerciseKey] = frozenset()
    ) -> Catalogue:
        """A catalogue in which `own` exercises are added, or replace shipped ones of the key.

        retired: keys among `own` that are no longer offered.
        """
        mine = {e.key for e in own}
        kept = tuple(e for e in self.exercises if e.key not in mine)
        return Catalogue(kept + own, self.retired - mine | retired)
