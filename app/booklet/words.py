"""The booklet's words: plain names, dates, prescriptions as a client reads them."""

from __future__ import annotations

from datetime import date, timedelta

from app.booklet.fonts import NBSP
from app.domain.effort import Effort, PercentOneRm, PercentRepMax, Rir
from app.domain.exercise import Equipment, Exercise, LoadKind, Muscle, Pattern
from app.domain.program import Reps, Slot
from app.domain.session_time import whole_minutes
from app.domain.units import lb_from_kg, number_text

_MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)

DOT = f"{NBSP}{NBSP}·{NBSP} "
"""What stands between two facts on one line."""

MUSCLES = {
    Muscle.QUADRICEPS: "front thigh",
    Muscle.GLUTEALS: "glutes",
    Muscle.HIP_ABDUCTORS: "side hip",
    Muscle.HAMSTRINGS: "back thigh",
    Muscle.ADDUCTORS: "inner thigh",
    Muscle.HIP_FLEXORS: "front hip",
    Muscle.CALVES: "calves",
    Muscle.SHIN: "shins",
    Muscle.SPINAL_ERECTORS: "lower back",
    Muscle.ABDOMINALS: "belly",
    Muscle.OBLIQUES: "side of the trunk",
    Muscle.LATISSIMUS: "broad back",
    Muscle.UPPER_BACK: "upper back",
    Muscle.CHEST: "chest",
    Muscle.FRONT_DELTOID: "front shoulder",
    Muscle.SIDE_DELTOID: "side shoulder",
    Muscle.REAR_DELTOID: "rear shoulder",
    Muscle.BICEPS: "front of the upper arm",
    Muscle.TRICEPS: "back of the upper arm",
    Muscle.FOREARMS: "forearms",
}
"""Plain names where the caller brings none."""

EQUIPMENT = {
    Equipment.BODY: "your own weight",
    Equipment.PULL_UP_BAR: "bar to hang from",
    Equipment.HEX_BAR: "hexagonal bar",
    Equipment.CALF_MACHINE: "calf raise machine",
    Equipment.HIP_MACHINE: "hip machine",
    Equipment.SUSPENSION: "hanging straps",
}
"""Names that differ from the key's own words."""

_ARM = frozenset(
    {
        Pattern.HORIZONTAL_PUSH,
        Pattern.VERTICAL_PUSH,
        Pattern.HORIZONTAL_PULL,
        Pattern.VERTICAL_PULL,
        Pattern.SHOULDER_RAISE,
        Pattern.ELBOW_FLEXION,
        Pattern.ELBOW_EXTENSION,
    }
)
_LEG = frozenset(
    {
        Pattern.SQUAT,
        Pattern.HINGE,
        Pattern.THRUST,
        Pattern.SPLIT_STANCE,
        Pattern.KNEE_EXTENSION,
        Pattern.KNEE_FLEXION,
        Pattern.HIP_EXTENSION,
        Pattern.HIP_ADDUCTION,
        Pattern.HIP_FLEXION,
        Pattern.CALF_RAISE,
    }
)


def equipment_text(exercise: Exercise) -> str:
    """What the exercise needs, 'box, two dumbbells'."""
    things = []
    for thing in exercise.equipment:
        name = EQUIPMENT.get(thing, thing.value.replace("_", " "))
        if thing is Equipment.DUMBBELLS:
            name = "two dumbbells" if exercise.load_kind is LoadKind.DUMBBELL_EACH else "dumbbell"
        things.append(name)
    return ", ".join(things)


def side_text(exercise: Exercise) -> str:
    """'each leg', 'each arm' or 'each side' for a unilateral exercise, else nothing."""
    if not exercise.unilateral:
        return ""
    if exercise.pattern in _ARM:
        return f"each{NBSP}arm"
    return f"each{NBSP}leg" if exercise.pattern in _LEG else f"each{NBSP}side"


def number_of_reps(reps: Reps) -> str:
    """'11', or '8–10' for a range."""
    return f"{reps.low}" if reps.low == reps.high else f"{reps.low}–{reps.high}"


def dose_text(slot: Slot, exercise: Exercise) -> str:
    """'4 × 11', or '2 × 30 s' for a timed exercise."""
    unit = f"{NBSP}s" if exercise.timed else ""
    return f"{slot.sets}{NBSP}×{NBSP}{number_of_reps(slot.reps)}{unit}"


def effort_text(effort: Effort, reps: Reps) -> tuple[str, str]:
    """The effort in two lines: 'RIR 2' and nothing, or '75 %' and 'of 1RM'."""
    match effort:
        case Rir(in_reserve):
            return f"RIR{NBSP}{in_reserve:.3g}", ""
        case PercentOneRm(percent):
            return f"{percent:.3g}{NBSP}%", f"of{NBSP}1RM"
        case PercentRepMax(percent):
            return f"{percent:.3g}{NBSP}%", f"of{NBSP}{reps.high}RM"


def rest_text(rest_s: int) -> str:
    """Rest as minutes and seconds, '2:30'; a dash for none."""
    return f"{rest_s // 60}:{rest_s % 60:02d}" if rest_s else "–"


def mass_number(mass_kg: float, units: str) -> str:
    """A mass without its unit, in kg or lb."""
    return number_text(lb_from_kg(mass_kg), 1) if units == "lb" else number_text(mass_kg, 2)


def load_words(exercise: Exercise, units: str) -> str:
    """What the number of a load means: 'kg each hand', 'kg at the ankle'."""
    match exercise.load_kind:
        case LoadKind.DUMBBELL_EACH:
            return f"{units}{NBSP}each{NBSP}hand"
        case LoadKind.BODY:
            return f"{units}{NBSP}added"
        case LoadKind.MACHINE | LoadKind.CABLE:
            stack = Equipment.SLED not in exercise.equipment
            stack = stack and Equipment.LEG_PRESS not in exercise.equipment
            return (
                f"{units}{NBSP}on{NBSP}the{NBSP}stack"
                if stack
                else f"{units}{NBSP}on{NBSP}the{NBSP}sledge"
            )
        case _:
            if Equipment.ANKLE_WEIGHTS in exercise.equipment:
                return f"{units}{NBSP}at{NBSP}the{NBSP}ankle"
            return units


def day_text(day: date) -> str:
    """'14 Oct'."""
    return f"{day.day}{NBSP}{_MONTHS[day.month - 1][:3]}"


def full_day_text(day: date) -> str:
    """'26 August 2030'."""
    return f"{day.day}{NBSP}{_MONTHS[day.month - 1]}{NBSP}{day.year}"


def week_text(start: date, weeks: int = 1) -> str:
    """The days from a Monday on, '14 Oct to 20 Oct 2030'."""
    end = start + timedelta(weeks=weeks, days=-1)
    first = day_text(start) if start.year == end.year else f"{day_text(start)} {start.year}"
    return f"{first} to {day_text(end)} {end.year}"


def span_text(start: date, weeks: int) -> str:
    """'2 September 2030 to 26 January 2031'."""
    return f"{full_day_text(start)} to {full_day_text(start + timedelta(weeks=weeks, days=-1))}"


def minutes_text(low: float, high: float) -> str:
    """'42 to 54 minutes'."""
    first, last = whole_minutes(low), whole_minutes(high)
    return f"{first} minutes" if first == last else f"{first} to {last} minutes"


def sets_text(sets: float) -> str:
    """Fractional sets, '16.5'."""
    return number_text(sets, 1)


def thousands(number: float) -> str:
    """A whole number with its thousands parted: '2,660'."""
    return f"{number:,.0f}"


def and_text(parts: tuple[str, ...]) -> str:
    """'5, 10, 15 and 20'."""
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} and {parts[-1]}"


def pages_text(pages: tuple[int, ...]) -> str:
    """'page 5', 'pages 8 to 49', 'pages 2, 5 and 8 to 10'."""
    runs: list[list[int]] = []
    for page in sorted(set(pages)):
        if runs and page == runs[-1][-1] + 1:
            runs[-1].append(page)
        else:
            runs.append([page])
    if len(runs) > 3:
        runs = [[runs[0][0], runs[-1][-1]]]
    named = tuple(
        f"{run[0]}" if len(run) == 1 else f"{run[0]}{NBSP}to{NBSP}{run[-1]}" for run in runs
    )
    word = "page" if len(runs) == 1 and len(runs[0]) == 1 else "pages"
    return f"{word}{NBSP}{and_text(named)}"
