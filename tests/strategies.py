"""Random clients, programs and exercises, as edits and the library can bring them about."""

from __future__ import annotations

import random
from dataclasses import replace
from datetime import date, timedelta

from hypothesis import strategies as st

from app.domain.client import (
    PAPERS,
    Client,
    ClientId,
    Consent,
    EnergyGoal,
    FreeTime,
    Goal,
    Increments,
    Limitation,
    Place,
    Screening,
    Sex,
    Side,
    Stage,
    Status,
    StrengthTest,
)
from app.domain.effort import Effort, PercentOneRm, PercentRepMax, Rir
from app.domain.exercise import (
    Activation,
    Equipment,
    Exercise,
    ExerciseKey,
    ExerciseText,
    Fault,
    Joint,
    LoadKind,
    Motion,
    Muscle,
    Pattern,
    Plane,
    Reach,
)
from app.domain.exercise import Work as MuscleWork
from app.domain.program import (
    MAX_PREPARED,
    MAX_ROUNDS,
    MAX_SECONDS,
    MAX_SETS,
    Acceptance,
    Block,
    Day,
    Drill,
    DrillDose,
    Field,
    Program,
    ProgramId,
    Reps,
    Role,
    Session,
    SessionId,
    Slot,
    SlotId,
    StrandId,
    Week,
    WeekId,
)
from app.domain.ramp import (
    LIGHTEST_STEP_KG,
    MAX_RAMP_PERCENT,
    MAX_RAMP_REPS,
    MAX_RAMP_SETS,
    Ramp,
    RampStep,
)
from app.domain.results import CheckIn, Diary, Girth, SetDone, Site, SlotResult
from app.domain.work import Coach, Issue, IssueId, PrintedLoad

EXERCISE_KEYS = tuple(
    map(
        ExerciseKey,
        ("back_squat", "front_squat", "split_squat", "hip_thrust", "leg_curl", "bench_press"),
    )
)

texts = st.text(st.characters(exclude_categories=["Cs"]), max_size=12)
"""Any text a coach can paste: no half characters, everything else."""

names = texts.filter(lambda text: text.strip() != "").map(lambda text: text.strip())
days = st.dates(date(1900, 1, 1), date(2100, 12, 31))
exercise_keys = st.sampled_from(EXERCISE_KEYS)
counts = st.integers(0, 3)


def amounts(low: float, high: float) -> st.SearchStrategy[float]:
    """Numbers as they are typed: to two decimals."""
    return st.integers(round(low * 100), round(high * 100)).map(lambda number: number / 100)


def few(values: st.SearchStrategy, most: int = 3) -> st.SearchStrategy[tuple]:
    """Short tuples of `values`."""
    return st.lists(values, max_size=most).map(tuple)


# ---------------------------------------------------------------------------- clients

limitations = st.builds(
    Limitation,
    joint=st.sampled_from(Joint),
    motion=st.sampled_from(Motion),
    side=st.sampled_from(Side),
    past_degrees=st.none() | st.integers(0, 180),
    since=st.none() | days,
    until=st.none() | days,
    note=texts,
)

screenings = st.builds(
    Screening,
    on=days,
    active=st.booleans(),
    known_disease=st.booleans(),
    symptoms=st.booleans(),
    pregnant=st.booleans(),
    cleared_on=st.none() | days,
    note=texts,
)

strength_tests = st.builds(
    StrengthTest,
    exercise=exercise_keys,
    on=days,
    load_kg=amounts(-100, 600),
    reps=st.integers(1, 30),
    rir=amounts(0, 10),
    note=texts,
    guessed_from=st.none() | exercise_keys,
)

increments = st.builds(
    Increments,
    bar_kg=amounts(0, 30),
    plates_kg=few(amounts(0.25, 25)),
    dumbbells_kg=st.tuples(amounts(1, 5), amounts(0.5, 5), amounts(10, 60)),
    machine_step_kg=amounts(0.5, 20),
    cable_step_kg=amounts(0.5, 20),
    bands=few(names),
)

places = st.builds(
    Place,
    name=names,
    equipment=st.frozensets(st.sampled_from(Equipment), max_size=4),
    increments=increments,
)


def _at_places(client: Client, taken: list[int]) -> Client:
    """The client with weekdays at places that there are; 0 for the usual one."""
    known = ("", *(place.name for place in client.places))
    free = tuple(
        replace(time, place=known[number % len(known)])
        for time, number in zip(client.free, taken, strict=True)
    )
    return replace(client, free=free)


clients_at_home = st.builds(
    Client,
    id=st.uuids().map(str).map(ClientId),
    name=names,
    born=st.none() | st.dates(date(1930, 1, 1), date(2015, 12, 31)),
    sex=st.none() | st.sampled_from(Sex),
    height_cm=st.none() | amounts(100, 250),
    mass_kg=st.none() | amounts(30, 250),
    status=st.sampled_from(Status),
    goal=st.sampled_from(Goal),
    trained_years=amounts(0, 60),
    team=texts,
    contact=texts,
    note=texts,
    emphasis=st.lists(st.sampled_from(Muscle), unique=True, max_size=4).map(tuple),
    free=st.tuples(*[st.builds(FreeTime, minutes=st.integers(0, 600), note=texts)] * 7),
    equipment=st.frozensets(st.sampled_from(Equipment), max_size=6),
    increments=increments,
    limitations=few(limitations),
    screenings=few(screenings),
    tests=few(strength_tests),
    dislikes=st.frozensets(exercise_keys, max_size=3),
    kcal_now=st.none() | amounts(800, 6000),
    energy_goal=st.none() | st.sampled_from(EnergyGoal),
    activity_level=amounts(1.4, 2.4),
    refer=few(names),
    units=st.sampled_from(("kg", "lb")),
    archived=st.booleans(),
    stage=st.sampled_from(Stage),
    tags=few(texts),
    consent=st.none() | st.builds(Consent, on=days, note=texts),
    keep_until=st.none() | days,
    places=st.lists(places, max_size=2, unique_by=lambda place: place.name).map(tuple),
    likes=st.frozensets(exercise_keys, max_size=3),
    language=st.sampled_from(("", "de", "pt-BR")),
    paper=st.sampled_from(PAPERS),
    energy_equation=st.sampled_from(("", "mifflin")),
    fat_free_kg=st.none() | amounts(1, 250),
)
clients = st.builds(
    _at_places, clients_at_home, st.lists(st.integers(0, 2), min_size=7, max_size=7)
)

# ---------------------------------------------------------------------------- diaries

marks = st.none() | st.integers(1, 5)
girths = st.lists(
    st.builds(Girth, site=st.sampled_from(Site), cm=amounts(10, 300)),
    max_size=3,
    unique_by=lambda girth: girth.site,
).map(tuple)

check_ins = st.builds(
    CheckIn,
    on=days,
    mass_kg=st.none() | amounts(25, 400),
    kcal=st.none() | amounts(0, 15_000),
    sleep=marks,
    soreness=marks,
    mood=marks,
    note=texts,
    stress=marks,
    adherence=st.none() | amounts(0, 1),
    girths=girths,
    pictures=few(st.from_regex(r"[a-z0-9]{1,8}\.(jpg|png)", fullmatch=True)),
)

sets_done = st.builds(
    SetDone,
    load_kg=amounts(-300, 1000),
    reps=st.integers(0, MAX_SECONDS),
    rir=st.none() | amounts(0, 10),
)

slot_results = st.builds(
    SlotResult,
    program=st.sampled_from(("base", "peak")).map(ProgramId),
    slot=st.integers(1, 5).map(SlotId),
    exercise=exercise_keys,
    on=st.dates(date(2026, 1, 1), date(2026, 1, 9)),
    sets=few(sets_done, 4),
    note=texts,
)

diaries = st.builds(
    Diary,
    check_ins=st.lists(check_ins, max_size=3, unique_by=lambda one: one.on).map(tuple),
    results=st.lists(slot_results, max_size=5, unique_by=lambda one: one.key).map(tuple),
)

# ---------------------------------------------------------------------------- programs

efforts: st.SearchStrategy[Effort] = st.one_of(
    st.integers(0, 20).map(lambda halves: Rir(halves / 2)),
    amounts(1, 110).map(PercentOneRm),
    amounts(1, 100).map(PercentRepMax),
)

reps = st.tuples(st.integers(1, 30), st.integers(0, 30)).map(lambda r: Reps(r[0], r[0] + r[1]))

drills = st.builds(
    Drill,
    exercise=exercise_keys,
    dose=st.sampled_from((None, DrillDose(1, Reps(20, 30)), DrillDose(MAX_ROUNDS, Reps(8, 8)))),
)

ramp_reps = st.integers(1, MAX_RAMP_REPS)


def _steps(field: str, low: float, high: float) -> st.SearchStrategy[tuple[RampStep, ...]]:
    """Up to four steps of one kind, from light to heavy."""
    kinds = st.tuples(amounts(low, high), ramp_reps)
    return st.lists(kinds, max_size=MAX_RAMP_SETS // 2).map(
        lambda found: tuple(RampStep(r, **{field: amount}) for amount, r in sorted(found))
    )


ramps = st.builds(
    lambda parts, loads: Ramp((*parts, *loads)),
    _steps("percent", 0, MAX_RAMP_PERCENT),
    _steps("load_kg", LIGHTEST_STEP_KG, 400),
)

SOME_RAMP = Ramp((RampStep(8, percent=0.0), RampStep(5, percent=47.5), RampStep(2, load_kg=61.25)))
"""In random programs a few ramps do: drawing each step anew makes them slow."""

unprepared_slots = st.builds(
    Slot,
    id=st.just(SlotId(0)),
    strand=st.just(StrandId(0)),
    exercise=exercise_keys,
    sets=st.integers(1, MAX_SETS),
    reps=reps,
    effort=efforts,
    rest_s=st.integers(0, 1200),
    tempo=st.sampled_from(("", "3-0-1-0")),
    pair=st.sampled_from(("", "A", "B")),
    note=texts,
    role=st.sampled_from(Role),
    load_kg=st.none() | amounts(0, 400),
    pinned=st.frozensets(st.sampled_from(Field)),
    ramp=st.sampled_from((None, None, Ramp(()), SOME_RAMP)),
)


def _with_prepared(slot: Slot, keys: tuple[ExerciseKey, ...]) -> Slot:
    return replace(slot, prepared=tuple(key for key in keys if key != slot.exercise))


slots = st.builds(
    _with_prepared,
    unprepared_slots,
    st.just(()) | st.lists(exercise_keys, unique=True, max_size=MAX_PREPARED).map(tuple),
)
"""Slots without id and strand of their own yet; `numbered` gives them."""

sessions = st.builds(
    Session,
    id=st.just(SessionId(0)),
    strand=st.just(StrandId(0)),
    title=texts,
    slots=few(slots, 4),
    note=texts,
    warmup=few(drills),
)

week_days = st.builds(Day, sessions=few(sessions, 2), note=st.just("") | texts)
EMPTY_DAY = Day()

weeks = st.builds(
    Week,
    id=st.just(WeekId(0)),
    days=st.lists(st.just(EMPTY_DAY) | week_days, min_size=7, max_size=7).map(tuple),
    light=st.booleans(),
    note=texts,
)

acceptances = st.builds(Acceptance, finding=names, reason=texts)


def numbered(program: Program) -> Program:
    """The program with an id for every part that has none (0), and strands that keep the law.

    The n-th part of a week that has no strand gets the n-th strand; a strand that its week holds
    already is exchanged for a new one.
    """
    next_id = program.next_id
    strands: list[int] = []

    def new() -> int:
        nonlocal next_id
        next_id += 1
        return next_id - 1

    def free_strand(given: int, taken: set[int]) -> StrandId:
        while not given or given in taken:
            known = next((s for s in strands if s not in taken), 0) if not given else 0
            given = known or new()
            if not known:
                strands.append(given)
        taken.add(given)
        return StrandId(given)

    def sound_slot(slot: Slot, taken: set[int]) -> Slot:
        strand = free_strand(slot.strand, taken)
        if slot.id and strand == slot.strand:
            return slot
        return replace(slot, id=SlotId(slot.id or new()), strand=strand)

    def sound_session(session: Session, taken: set[int]) -> Session:
        slots = tuple(sound_slot(slot, taken) for slot in session.slots)
        strand = free_strand(session.strand, taken)
        same = all(a is b for a, b in zip(slots, session.slots, strict=True))
        if session.id and same and strand == session.strand:
            return session
        return replace(session, id=SessionId(session.id or new()), strand=strand, slots=slots)

    def sound_week(week: Week) -> Week:
        taken: set[int] = set()
        days = tuple(
            replace(day, sessions=tuple(sound_session(s, taken) for s in day.sessions))
            for day in week.days
        )
        same = week.id and all(
            a is b
            for new_day, day in zip(days, week.days, strict=True)
            for a, b in zip(new_day.sessions, day.sessions, strict=True)
        )
        return week if same else replace(week, id=WeekId(week.id or new()), days=days)

    weeks_now = tuple(map(sound_week, program.weeks))
    return replace(program, weeks=weeks_now, next_id=next_id)


def in_blocks(count: int, names_of_blocks: tuple[str, ...]) -> tuple[Block, ...]:
    """`count` weeks shared out among as many of the names as there are weeks for."""
    names_used = names_of_blocks[:count]
    share, rest = divmod(count, len(names_used))
    return tuple(Block(name, share + (number < rest)) for number, name in enumerate(names_used))


@st.composite
def programs(draw: st.DrawFn, most_weeks: int = 4) -> Program:
    """A program of 1 to `most_weeks` weeks that keeps every law of shape."""
    drawn = draw(st.lists(weeks, min_size=1, max_size=most_weeks))
    monday = date(2026, 1, 5) + timedelta(weeks=draw(st.integers(-500, 500)))
    block_names = draw(st.lists(texts, min_size=1, max_size=3).map(tuple))
    return numbered(
        Program(
            id=ProgramId(str(draw(st.uuids()))),
            name=draw(names),
            start=monday,
            weeks=tuple(drawn),
            blocks=in_blocks(len(drawn), block_names),
            emphasis=draw(st.lists(st.sampled_from(Muscle), unique=True, max_size=4).map(tuple)),
            curve=draw(st.sampled_from(("textbook", "epley_inverse"))),
            accepted=draw(few(acceptances)),
            next_id=draw(st.integers(1, 10**9)),
            archived=draw(st.booleans()),
        )
    )


def rearranged(program: Program, dice: random.Random) -> Program:
    """Another program of the same id that shares parts of this one, as a few edits would make it.

    Weeks change places, come and go; sessions and slots move, change, come and go; ids stay with
    what they belong to, and parts that are left alone stay the same objects.
    """
    weeks = [[list(day.sessions) for day in week.days] for week in program.weeks]
    every_session = [s for week in program.weeks for _, s in week.sessions()]
    touched = {id(s): list(s.slots) for s in every_session if dice.random() < 0.5}
    loose = [slots.pop(dice.randrange(len(slots))) for slots in touched.values() if slots]
    for slot in loose:
        fate = dice.randrange(4)
        if fate == 0 or not touched:
            continue  # removed
        moved = replace(slot, sets=1 + slot.sets % MAX_SETS) if fate == 1 else slot
        target = dice.choice(list(touched.values()))
        target.insert(dice.randint(0, len(target)), moved)
    by_identity = {
        key: replace(session, slots=tuple(touched[key]))
        for session in every_session
        if (key := id(session)) in touched
    }
    new_weeks = []
    for week, days_of_week in zip(program.weeks, weeks, strict=True):
        if dice.random() < 0.4:
            new_days = tuple(
                replace(day, sessions=tuple(by_identity.get(id(s), s) for s in sessions_of_day))
                for day, sessions_of_day in zip(week.days, days_of_week, strict=True)
            )
            changed = replace(week, days=new_days, light=not week.light)
        elif any(id(s) in by_identity for _, s in week.sessions()):
            changed = replace(
                week,
                days=tuple(
                    replace(day, sessions=tuple(by_identity.get(id(s), s) for s in day.sessions))
                    for day in week.days
                ),
            )
        else:
            changed = week
        new_weeks.append(changed)
    new_weeks = _with_moved_session(new_weeks, dice)
    dice.shuffle(new_weeks)
    if len(new_weeks) > 1 and dice.random() < 0.3:
        new_weeks.pop()
    if dice.random() < 0.3:
        new_weeks.insert(0, Week(WeekId(0), note="new"))
    return numbered(
        replace(program, weeks=tuple(new_weeks), blocks=in_blocks(len(new_weeks), ("One", "Two")))
    )


def _with_moved_session(weeks_now: list[Week], dice: random.Random) -> list[Week]:
    sources = [
        (w, d) for w, week in enumerate(weeks_now) for d in range(7) if week.days[d].sessions
    ]
    if not sources:
        return weeks_now
    week_from, day_from = dice.choice(sources)
    session = dice.choice(weeks_now[week_from].days[day_from].sessions)
    taken = _with_day(
        weeks_now,
        week_from,
        day_from,
        tuple(s for s in weeks_now[week_from].days[day_from].sessions if s is not session),
    )
    week_to, day_to = dice.randrange(len(taken)), dice.randrange(7)
    return _with_day(taken, week_to, day_to, (session, *taken[week_to].days[day_to].sessions))


def _with_day(
    weeks_now: list[Week], week: int, day: int, sessions_of_day: tuple[Session, ...]
) -> list[Week]:
    days_now = list(weeks_now[week].days)
    days_now[day] = replace(days_now[day], sessions=sessions_of_day)
    changed = replace(weeks_now[week], days=tuple(days_now))
    return [*weeks_now[:week], changed, *weeks_now[week + 1 :]]


# ---------------------------------------------------------------------------- library, issues

exercises = st.builds(
    Exercise,
    key=st.from_regex(r"[a-z][a-z_]{0,15}", fullmatch=True).map(ExerciseKey),
    name=names,
    pattern=st.sampled_from(Pattern),
    work=few(st.builds(MuscleWork, muscle=st.sampled_from(Muscle), fraction=amounts(0, 1))),
    equipment=few(st.sampled_from(Equipment)),
    load_kind=st.sampled_from(LoadKind),
    multi_joint=st.booleans(),
    unilateral=st.booleans(),
    timed=st.booleans(),
    aliases=few(names),
    plane=st.sampled_from(Plane),
    body_share=amounts(0, 1),
    skill=st.integers(1, 3),
    spinal_load=st.integers(0, 3),
    setup_s=st.integers(0, 600),
    rest_s=st.integers(0, 600),
    tempo=st.sampled_from(("", "2-0-2-0")),
    rep_low=st.integers(1, 10),
    rep_high=st.integers(10, 60),
    reaches=few(
        st.builds(
            Reach,
            joint=st.sampled_from(Joint),
            motion=st.sampled_from(Motion),
            degrees=st.integers(0, 180),
        )
    ),
    stress=few(st.tuples(st.sampled_from(Joint), st.integers(0, 3))),
    set_up=few(texts),
    cues=few(texts),
    faults=few(st.builds(Fault, notice=texts, remedy=texts)),
    easier=few(exercise_keys),
    harder=few(exercise_keys),
    activation=few(
        st.builds(
            Activation,
            muscle=st.sampled_from(Muscle),
            low=amounts(0, 300),
            high=amounts(0, 300),
            study=names,
            detail=texts,
        )
    ),
    figure=texts,
    warmup_for=few(st.sampled_from(Pattern)),
    own=st.booleans(),
    texts=few(
        st.builds(
            ExerciseText,
            language=st.sampled_from(("de", "es")),
            name=names,
            set_up=few(texts),
            cues=few(texts),
            faults=few(st.builds(Fault, notice=texts, remedy=texts)),
        )
    ),
    version=st.integers(1, 99),
)

issues = st.builds(
    Issue,
    id=st.uuids().map(str).map(IssueId),
    on=days,
    coach=st.builds(Coach, name=texts, contact=texts, team=texts),
    client=clients,
    program=programs(2),
    loads=few(
        st.builds(
            PrintedLoad,
            slot=st.integers(1, 10**9).map(SlotId),
            load_kg=st.none() | amounts(0, 400),
        )
    ),
)
