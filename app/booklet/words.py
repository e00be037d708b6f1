"""The booklet's words: plain names, dates, prescriptions as a client reads them."""

from __future__ import annotations

from datetime import date, timedelta

from app.booklet.fonts import NBSP
from app.domain.effort import Effort, PercentOneRm, PercentRepMax, Rir
from app.domain.exercise import Equipment, Exercise, LoadKind, Muscle, Pattern, equipment_name
from app.domain.program import Reps, Slot
from app.domain.session_time import whole_minutes
from app.domain.units import lb_from_kg, number_text
from app.domain.wording import DateForm, date_text, listing, mark, number_as_spoken, tr, trn

DOT = f"{NBSP}{NBSP}·{NBSP} "
"""What stands between two facts on one line."""

MUSCLES = {
    Muscle.QUADRICEPS: mark("front thigh"),
    Muscle.GLUTEALS: mark("glutes"),
    Muscle.HIP_ABDUCTORS: mark("side hip"),
    Muscle.HAMSTRINGS: mark("back thigh"),
    Muscle.ADDUCTORS: mark("inner thigh"),
    Muscle.HIP_FLEXORS: mark("front hip"),
    Muscle.CALVES: mark("calves"),
    Muscle.SHIN: mark("shins"),
    Muscle.SPINAL_ERECTORS: mark("lower back"),
    Muscle.ABDOMINALS: mark("belly"),
    Muscle.OBLIQUES: mark("side of the trunk"),
    Muscle.LATISSIMUS: mark("broad back"),
    Muscle.UPPER_BACK: mark("upper back"),
    Muscle.CHEST: mark("chest"),
    Muscle.FRONT_DELTOID: mark("front shoulder"),
    Muscle.SIDE_DELTOID: mark("side shoulder"),
    Muscle.REAR_DELTOID: mark("rear shoulder"),
    Muscle.BICEPS: mark("front of the upper arm"),
    Muscle.TRICEPS: mark("back of the upper arm"),
    Muscle.FOREARMS: mark("forearms"),
}
"""Plain names where the caller brings none."""

EQUIPMENT = {
    Equipment.BODY: mark("your own weight"),
    Equipment.PULL_UP_BAR: mark("bar to hang from"),
    Equipment.HEX_BAR: mark("hexagonal bar"),
    Equipment.CALF_MACHINE: mark("calf raise machine"),
    Equipment.HIP_MACHINE: mark("hip machine"),
    Equipment.SUSPENSION: mark("hanging straps"),
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
        name = tr(EQUIPMENT[thing]) if thing in EQUIPMENT else equipment_name(thing)
        if thing is Equipment.DUMBBELLS:
            name = (
                tr("two dumbbells")
                if exercise.load_kind is LoadKind.DUMBBELL_EACH
                else tr("dumbbell")
            )
        things.append(name)
    return ", ".join(things)


def side_text(exercise: Exercise) -> str:
    """'each leg', 'each arm' or 'each side' for a unilateral exercise, else nothing."""
    if not exercise.unilateral:
        return ""
    if exercise.pattern in _ARM:
        return tr("each\N{NO-BREAK SPACE}arm")
    return (
        tr("each\N{NO-BREAK SPACE}leg")
        if exercise.pattern in _LEG
        else tr("each\N{NO-BREAK SPACE}side")
    )


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
            return tr("RIR\N{NO-BREAK SPACE}{in_reserve:.3g}", in_reserve=in_reserve), ""
        case PercentOneRm(percent):
            return number_as_spoken(f"{percent:.3g}{NBSP}%"), tr("of\N{NO-BREAK SPACE}1RM")
        case PercentRepMax(percent):
            return number_as_spoken(f"{percent:.3g}{NBSP}%"), tr(
                "of\N{NO-BREAK SPACE}{high}RM", high=reps.high
            )


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
            return tr("{units}\N{NO-BREAK SPACE}each\N{NO-BREAK SPACE}hand", units=units)
        case LoadKind.BODY:
            return tr("{units}\N{NO-BREAK SPACE}added", units=units)
        case LoadKind.MACHINE | LoadKind.CABLE:
            stack = Equipment.SLED not in exercise.equipment
            stack = stack and Equipment.LEG_PRESS not in exercise.equipment
            return (
                tr(
                    "{units}\N{NO-BREAK SPACE}on\N{NO-BREAK SPACE}the\N{NO-BREAK SPACE}stack",
                    units=units,
                )
                if stack
                else tr(
                    "{units}\N{NO-BREAK SPACE}on\N{NO-BREAK SPACE}the\N{NO-BREAK SPACE}sledge",
                    units=units,
                )
            )
        case _:
            if Equipment.ANKLE_WEIGHTS in exercise.equipment:
                return tr(
                    "{units}\N{NO-BREAK SPACE}at\N{NO-BREAK SPACE}the\N{NO-BREAK SPACE}ankle",
                    units=units,
                )
            return units


def day_text(day: date) -> str:
    """'14 Oct'."""
    return date_text(day, DateForm.DAY).replace(" ", NBSP)


def full_day_text(day: date) -> str:
    """'26 August 2030'."""
    return date_text(day, DateForm.LONG_DATE).replace(" ", NBSP)


def week_text(start: date, weeks: int = 1) -> str:
    """The days from a Monday on, '14 Oct to 20 Oct 2030'."""
    end = start + timedelta(weeks=weeks, days=-1)
    form = DateForm.DAY if start.year == end.year else DateForm.DATE
    return tr("{first} to {last}", first=_bound(start, form), last=_bound(end, DateForm.DATE))


def _bound(day: date, form: DateForm) -> str:
    return date_text(day, form).replace(" ", NBSP)


def span_text(start: date, weeks: int) -> str:
    """'2 September 2030 to 26 January 2031'."""
    return tr(
        "{start} to {start_2}",
        start=full_day_text(start),
        start_2=full_day_text(start + timedelta(weeks=weeks, days=-1)),
    )


def minutes_text(low: float, high: float) -> str:
    """'42 to 54 minutes'."""
    first, last = whole_minutes(low), whole_minutes(high)
    return (
        tr("{first} minutes", first=first)
        if first == last
        else tr("{first} to {last} minutes", first=first, last=last)
    )


def sets_text(sets: float) -> str:
    """Fractional sets, '16.5'."""
    return number_text(sets, 1)


def thousands(number: float) -> str:
    """A whole number with its thousands parted: '2,660'."""
    return number_as_spoken(f"{number:,.0f}")


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
        f"{run[0]}"
        if len(run) == 1
        else tr("{first}\N{NO-BREAK SPACE}to\N{NO-BREAK SPACE}{last}", first=run[0], last=run[-1])
        for run in runs
    )
    several = 2 if len(runs) > 1 else len(runs[0])
    return trn(
        "page\N{NO-BREAK SPACE}{pages}",
        "pages\N{NO-BREAK SPACE}{pages}",
        several,
        pages=listing(named),
    )
