"""What is in hand while something is carried, whichever way: aim, try, put down or put back.

One object for drags, keys and single clicks. It tries each place once and remembers the answer,
so a pointer that wanders costs nothing. The open week is tried at once; the other weeks that the
edit reaches follow in small pieces, while the pointer rests.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from app.desk import Preview
from app.domain.edits.parts import find_slot, locate
from app.domain.errors import CoachError
from app.domain.exercise import Exercise
from app.domain.findings import Edit
from app.domain.program import SlotId, Span
from app.domain.wording import mark, tr
from app.ui.bench import Bench
from app.ui.carry import Carried, Via
from app.ui.grid import drop, verdict
from app.ui.grid.face import scheme_text
from app.ui.grid.geometry import Target

Key = tuple[int, Target, bool]
"""What an answer depends on while the program and the span stay: week, target, copy."""


@dataclass(frozen=True, slots=True)
class Aim:
    """What letting go at a target would do: a preview, or the sentence that says why not.

    edit: with its whole span, which is what letting go keeps; preview: of the open week alone.
    """

    target: Target
    copy: bool
    edit: Edit | None = None
    preview: Preview | None = None
    refusal: CoachError | None = None


class Hand:
    """Something carried over the open week of a bench."""

    def __init__(self, bench: Bench, carried: Carried, *, via: Via) -> None:
        self.bench = bench
        self.carried = carried
        self.via = via
        self.aim: Aim | None = None
        self.verdicts: tuple[verdict.Verdict, ...] = ()
        self._tried: dict[Key, Aim] = {}
        self._wholes: dict[Key, Preview] = {}

    # -- what it is ------------------------------------------------------------------------

    @property
    def is_ours(self) -> bool:
        """False for slots of another window."""
        return self.carried.exercise is not None or self.carried.source == self.bench.source

    @property
    def exercises(self) -> tuple[Exercise, ...]:
        """The exercises carried, as far as this window knows them."""
        desk = self.bench.desk
        try:
            if self.carried.exercise is not None:
                return (desk.catalogue[self.carried.exercise],)
            if not self.is_ours or not desk.has_program:
                return ()
            return tuple(
                desk.catalogue[find_slot(desk.program, slot).exercise]
                for slot in self.carried.slots
            )
        except CoachError:
            return ()

    @property
    def name(self) -> str:
        """What is carried, in words."""
        names = [exercise.name for exercise in self.exercises]
        if not names:
            return tr("These exercises")
        return names[0] if len(names) == 1 else tr("{names} exercises", names=len(names))

    @property
    def home(self) -> frozenset[int]:
        """Days of the open week that the carried slots stand on."""
        if not self.is_ours or self.carried.exercise is not None:
            return frozenset()
        try:
            places = [locate(self.bench.desk.program, slot) for slot in self.carried.slots]
        except CoachError:
            return frozenset()
        return frozenset(at.day for at in places if at.week == self.bench.week)

    def may_go_onto(self, slot_id: SlotId) -> bool:
        """True if letting go on that card would put something in its place.

        An exercise from the library may; of slots only a single one from another session, since
        within a session a drag is for the order.
        """
        if self.carried.exercise is not None:
            return True
        if not self.is_ours or len(self.carried.slots) != 1 or self.carried.whole:
            return False
        program = self.bench.desk.program
        try:
            ours, other = locate(program, self.carried.slots[0]), locate(program, slot_id)
        except CoachError:
            return False
        return (ours.week, ours.day, ours.session) != (other.week, other.day, other.session)

    # -- aiming ----------------------------------------------------------------------------

    def point(self, target: Target, *, copy: bool = False) -> Aim:
        """Aim at the target: every pane shows what letting go would do."""
        if self.aim is not None and (self.aim.target, self.aim.copy) == (target, copy):
            return self.aim
        key = (self.bench.week, target, copy)
        known = self._known(key)
        self.aim = known
        shown = self._wholes.get(key, known.preview)
        if shown is not None:
            self.bench.show_preview(shown)
        else:
            self.bench.clear_preview()
        self.bench.said.emit(self.sentence())
        return known

    def _known(self, key: Key) -> Aim:
        """The aim, tried if it was not before."""
        known = self._tried.get(key)
        if known is None:
            _, target, copy = key
            known = self._tried[key] = self._try(target, copy=copy)
        return known

    def look_away(self) -> None:
        """Aim at nothing."""
        self.aim = None
        self.bench.clear_preview()

    def _try(self, target: Target, *, copy: bool) -> Aim:
        span = self.bench.span
        try:
            whole = drop.edit_for(self.carried, target, self._ground(span), copy=copy)
            near = whole
            if span is not Span.THIS_WEEK:
                ground = self._ground(Span.THIS_WEEK)
                near = drop.edit_for(self.carried, target, ground, copy=copy)
            preview = self.bench.desk.preview(near)
        except CoachError as error:
            return Aim(target, copy, refusal=error)
        return Aim(target, copy, edit=whole, preview=preview)

    def _ground(self, span: Span) -> drop.Ground:
        bench = self.bench
        return drop.Ground(bench.desk.program, bench.desk.catalogue, bench.week, span, bench.source)

    def widen(self) -> Iterator[None]:
        """Try the aim in every week it reaches, one week a step, then show that.

        An aim that a later week refuses becomes a refusal.
        """
        aim, bench = self.aim, self.bench
        if aim is None or aim.edit is None or bench.span is Span.THIS_WEEK:
            return
        key = (bench.week, aim.target, aim.copy)
        if key in self._wholes:
            return
        program = bench.desk.program
        try:
            after = aim.edit(program)
        except CoachError as error:
            self.aim = self._tried[key] = Aim(aim.target, aim.copy, refusal=error)
            bench.clear_preview()
            return
        for index, week in enumerate(after.weeks):
            if index >= len(program.weeks) or week is not program.weeks[index]:
                yield
                bench.desk.check_week(after, index)
        yield
        whole = self._wholes[key] = bench.desk.preview_of(aim.edit, after)
        bench.show_preview(whole)

    def weigh(self, target: Target) -> Aim:
        """Try a target without aiming at it."""
        return self._known((self.bench.week, target, False))

    def judge(self, targets: tuple[Target, ...]) -> tuple[verdict.Verdict, ...]:
        """The verdict of each target's day; what was tried is remembered."""
        outcomes: dict[int, Preview | CoachError] = {}
        for target in targets:
            aim = self.weigh(target)
            if aim.preview is not None:
                outcomes[target.day] = aim.preview
            elif aim.refusal is not None:
                outcomes[target.day] = aim.refusal
        question = verdict.Question(
            self.bench.desk.context, self.bench.week, verdict.muscles_of(self.exercises), self.home
        )
        self.verdicts = verdict.verdicts(outcomes, question)
        return self.verdicts

    def rows(self) -> tuple[verdict.Row, ...]:
        """Muscles and minutes before and after for the aim; empty without one."""
        aim = self.aim
        if aim is None or aim.preview is None:
            return ()
        index = self.bench.week
        context = self.bench.desk.context
        facts = context.facts
        before, after = (
            facts.week(p.weeks[index]) for p in (aim.preview.before, aim.preview.after)
        )
        exercises = self.exercises
        if aim.target.onto is not None:
            old = find_slot(aim.preview.before, aim.target.onto).exercise
            exercises += (self.bench.desk.catalogue[old],)
        muscles = verdict.muscles_of(exercises)
        cap_min = context.client.free[aim.target.day].minutes
        return (
            *verdict.muscle_rows(before, after, context, muscles=muscles, index=index),
            verdict.minutes_row(before, after, day=aim.target.day, cap_min=cap_min),
        )

    # -- the end ---------------------------------------------------------------------------

    def put_down(self) -> tuple[SlotId, ...] | None:
        """Keep what the aim showed; the slots that now stand there, or None if it was refused."""
        aim = self.aim
        bench = self.bench
        if aim is None or aim.edit is None:
            self.put_back()
            if aim is not None and aim.refusal is not None:
                bench.refused.emit(aim.refusal.sentence)
            return None
        before = {slot.id for slot in bench.desk.program.weeks[bench.week].slots()}
        if not bench.keep(aim.edit):
            return None
        self.aim = None
        after = bench.desk.program.weeks[bench.week]
        fresh = tuple(slot.id for slot in after.slots() if slot.id not in before)
        bench.said.emit(f"{aim.edit.label}.")
        if aim.target.onto is not None and not fresh:
            fresh = (aim.target.onto,) if self.carried.exercise else self.carried.slots
        return fresh or self.carried.slots

    def put_back(self) -> None:
        """Leave everything as it was."""
        self.look_away()

    # -- words -----------------------------------------------------------------------------

    def sentence(self) -> str:
        """What letting go would do, for the status line and for speech."""
        aim = self.aim
        if aim is None:
            return tr("{name}: carried. Esc puts it back.", name=self.name)
        if aim.refusal is not None:
            return aim.refusal.sentence
        if aim.edit is None or aim.preview is None:
            return ""
        if aim.preview.after is aim.preview.before or aim.preview.after == aim.preview.before:
            return tr("{name} stays where it is.", name=self.name)
        reach = self._reach(copy=aim.copy)
        how = (
            tr("let go")
            if self.via is Via.MOUSE
            else tr("Enter")
            if self.via is Via.KEYS
            else "click"
        )
        keys = (
            tr("Esc puts it back") if self.carried.exercise else tr("Ctrl copies, Esc puts it back")
        )
        return tr(
            "{edit}, {reach}: {how} to do so. {keys}.",
            edit=aim.edit.label,
            reach=reach,
            how=how,
            keys=keys,
        )

    def _reach(self, *, copy: bool) -> str:
        """'from week 7 on'; a move out of another week is repeated in no other."""
        slots = () if copy or not self.is_ours else self.carried.slots
        if drop.crosses_weeks(slots, self._ground(self.bench.span)):
            return tr("in these weeks only")
        return tr(_REACH[self.bench.span]).format(week=self.bench.week + 1)

    def title(self) -> str:
        """The first line of the open foot: 'Put here, third of seven'."""
        aim = self.aim
        if aim is None:
            return ""
        if aim.target.onto is not None:
            return self._swap_text(aim, aim.target.onto)
        place = self._place_text(aim)
        if not place:
            return tr("Copy here") if aim.copy else tr("Put here")
        whole = mark("Copy here, {place}") if aim.copy else mark("Put here, {place}")
        return tr(whole, place=place)

    def _swap_text(self, aim: Aim, onto: SlotId) -> str:
        """'4 × 10 in place of Back squat': from the library, what stands there prescribes."""
        catalogue = self.bench.desk.catalogue
        name = catalogue[find_slot(self.bench.desk.program, onto).exercise].name
        if self.carried.exercise is None or aim.preview is None:
            return tr("In place of {name}", name=name)
        made = find_slot(aim.preview.after, onto)
        scheme = scheme_text(made, catalogue[made.exercise])
        return tr("{scheme} in place of {name}", scheme=scheme, name=name)

    def _place_text(self, aim: Aim) -> str:
        """'third of seven', as the session would be."""
        if aim.preview is None:
            return ""
        mine = self._landed(aim.preview)
        for session in aim.preview.after.weeks[self.bench.week].days[aim.target.day].sessions:
            ids = [slot.id for slot in session.slots]
            at = next((number for number, i in enumerate(ids) if i in mine), None)
            if at is not None:
                return place_words(at, len(ids))
        return ""

    def _landed(self, preview: Preview) -> set[SlotId]:
        week = self.bench.week
        before = {slot.id for slot in preview.before.weeks[week].slots()}
        fresh = {slot.id for slot in preview.after.weeks[week].slots()} - before
        return fresh or set(self.carried.slots)


_REACH = {
    Span.THIS_WEEK: mark("in week {week} only"),
    Span.FROM_HERE: mark("from week {week} on"),
    Span.WHOLE_BLOCK: mark("in the whole block"),
    Span.WHOLE_PROGRAM: mark("in the whole program"),
}

_ORDINALS = (
    mark("first"),
    mark("second"),
    mark("third"),
    mark("fourth"),
    mark("fifth"),
    mark("sixth"),
    mark("seventh"),
    mark("eighth"),
    mark("ninth"),
    mark("tenth"),
    mark("eleventh"),
    mark("twelfth"),
)
_NUMBERS = (
    mark("one"),
    mark("two"),
    mark("three"),
    mark("four"),
    mark("five"),
    mark("six"),
    mark("seven"),
    mark("eight"),
    mark("nine"),
    mark("ten"),
    mark("eleven"),
    mark("twelve"),
)


def place_words(at: int, count: int) -> str:
    """'third of seven'; past twelve in figures, 'number 13 of 14'; nothing for the only one."""
    if count == 1:
        return ""
    if count <= len(_NUMBERS):
        return tr("{at} of {count}", at=tr(_ORDINALS[at]), count=tr(_NUMBERS[count - 1]))
    return tr("number {at} of {count}", at=at + 1, count=count)
