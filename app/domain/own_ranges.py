"""Rules of thumb as a coach reads them: name, for whom, shipped range, the own one on top."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from app.domain.client import Goal, Status
from app.domain.ranges import Override, Range, RangeBook, Who
from app.domain.wording import mark, tr

RULE_NAMES: Mapping[str, str] = {
    "activation_share": mark("Share of sets with high reported activation"),
    "age": mark("Age"),
    "availability": mark("Days that are free"),
    "dislikes": mark("Exercises the client does not want"),
    "effort": mark("Effort, repetitions in reserve"),
    "energy_advice": mark("Who gets numbers on energy"),
    "energy_change": mark("Energy above or below the need"),
    "energy_intake": mark("Energy against the resting need"),
    "energy_ramp": mark("Weeks until the full change of energy"),
    "energy_steps": mark("Step of energy from week to week"),
    "equipment": mark("Equipment in reach"),
    "exercise_order": mark("Order of exercises"),
    "exercise_reps": mark("Repetitions the exercise suits"),
    "exercise_sets": mark("Sets of one exercise in a session"),
    "fat": mark("Fat"),
    "heavy_work": mark("Heavy sets a week"),
    "left_out": mark("Muscle groups left out"),
    "light_week_dose": mark("Sets of a light week"),
    "light_weeks": mark("Weeks between light weeks"),
    "limitation": mark("Limitations"),
    "limitation_ended": mark("Limitations to look at again"),
    "load_rise": mark("Rise of a load from week to week"),
    "load_zone": mark("Load, % of the one-repetition maximum"),
    "moderate_only": mark("Effort until a practitioner has agreed"),
    "pattern_balance": mark("Balance of opposing patterns"),
    "pregnancy": mark("Pregnancy"),
    "protein": mark("Protein"),
    "rep_spread": mark("Spread of repetitions"),
    "rep_zone": mark("Repetitions"),
    "reserve": mark("Largest reserve that still trains"),
    "rest": mark("Rest between sets"),
    "screening": mark("Screening"),
    "session_minutes": mark("Minutes of a session"),
    "session_sets": mark("Sets of a muscle in one session"),
    "set_rise": mark("Rise of sets from week to week"),
    "skill": mark("Skill an exercise asks for"),
    "spacing": mark("Hours between hard sessions of a muscle"),
    "spinal_load": mark("Heavy load on the spine on following days"),
    "tempo": mark("Duration of a repetition"),
    "time_since_change": mark("Weeks since an exercise was changed"),
    "training_days": mark("Training days a week"),
    "warm_up": mark("Warm-up drills"),
    "weekly_frequency": mark("Sessions of a muscle a week"),
    "weekly_sets": mark("Sets of a muscle a week"),
}
"""What each rule is called where a coach reads it."""

KIND_WORDS: Mapping[str, str] = {
    "emphasised": mark("emphasised muscles"),
    "other": mark("other muscles"),
    "multi_joint": mark("multi-joint exercises"),
    "single_joint": mark("single-joint exercises"),
    "multi_joint_once": mark("a multi-joint exercise done once a week"),
    "single_joint_once": mark("a single-joint exercise done once a week"),
    "core": mark("core exercises"),
    "heavy_core": mark("heavy core exercises"),
    "assistance": mark("assistance exercises"),
    "light_load": mark("light loads"),
    "ordinary": mark("ordinary repetitions"),
    "slow": mark("slow repetitions"),
    "very_slow": mark("very slow repetitions"),
    "gain": mark("clients who gain"),
    "hold": mark("clients who hold"),
    "lose": mark("clients who lose"),
}

STATUS_WORDS: Mapping[Status, str] = {
    Status.NOVICE: mark("novice"),
    Status.INTERMEDIATE: mark("intermediate"),
    Status.ADVANCED: mark("advanced"),
}
GOAL_WORDS: Mapping[Goal, str] = {
    Goal.HYPERTROPHY: mark("for muscle"),
    Goal.STRENGTH: mark("for strength"),
    Goal.HEALTH: mark("for health"),
}


@dataclass(frozen=True, slots=True)
class RangeLine:
    """One rule of thumb: as shipped, and the coach's own for the same people where there is one."""

    shipped: Range
    own: Override | None = None

    @property
    def changeable(self) -> bool:
        """False for yes or no, which has no ends to move, and for conflicts: those are cleared."""
        ends = self.shipped.low is not None or self.shipped.high is not None
        return ends and self.shipped.weight != "conflict"


def rule_name(rule: str) -> str:
    """The rule's name in the language that is spoken; its key with spaces for an unknown one."""
    return tr(RULE_NAMES[rule]) if rule in RULE_NAMES else rule.replace("_", " ")


def lines(book: RangeBook) -> tuple[RangeLine, ...]:
    """Every shipped range by the name of its rule, in the order shipped within a rule."""
    newest = {(o.range.rule, o.range.who): o for o in book.overrides}
    found = [
        RangeLine(one, newest.get((rule, one.who)))
        for rule, several in book.ranges.items()
        for one in several
    ]
    return tuple(sorted(found, key=lambda line: rule_name(line.shipped.rule).casefold()))


def who_text(who: Who) -> str:
    """'novice, emphasised muscles, weeks 1 to 6'; 'everybody' where nothing is asked for."""
    parts = [
        *(tr(STATUS_WORDS[status]) for status in who.status),
        *(tr(GOAL_WORDS[goal]) for goal in who.goal),
        *(tr(KIND_WORDS[kind]) if kind in KIND_WORDS else _plain(kind) for kind in who.kind),
        _edges(
            who.age_low,
            who.age_high,
            both=mark("{low} to {high} years old"),
            from_=mark("from {low} years old"),
            to=mark("up to {high} years old"),
        ),
        _edges(
            who.week_low,
            who.week_high,
            both=mark("weeks {low} to {high} of the plan"),
            from_=mark("from week {low} of the plan"),
            to=mark("up to week {high} of the plan"),
        ),
    ]
    return ", ".join(part for part in parts if part) or tr("everybody")


def _plain(kind: str) -> str:
    return kind.replace("_", " ")


def _edges(low: int | None, high: int | None, *, both: str, from_: str, to: str) -> str:
    if low is None and high is None:
        return ""
    template = to if low is None else from_ if high is None else both
    return tr(template, low=low, high=high)
