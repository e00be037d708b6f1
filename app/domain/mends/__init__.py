"""What would settle a finding: an edit as a value, where there is an obvious one.

Worked out only for findings that somebody looks at, never during a drag. A mend is an offer: it
takes the smallest step that brings the measure to the near end of its range, and leaves the rest
to the coach.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from app.domain.checks.context import Context
from app.domain.exercise import Exercise
from app.domain.findings import Edit, Finding
from app.domain.mends import fields, places, sets
from app.domain.mends.ask import Ask
from app.domain.program import Program


class Mender:
    """The mends of one program, each worked out when it is first asked for and then kept.

    earlier: the mender of the program before an edit; what it chose is not ranked again.
    """

    def __init__(
        self, program: Program, context: Context, *, earlier: Mender | None = None
    ) -> None:
        self.program = program
        self.context = context
        self._mended: dict[str, Finding] = {}
        self.choices: dict[object, Exercise | None] = {}
        if earlier is not None and earlier.context is context:
            self.choices = earlier.choices

    def mended(self, finding: Finding) -> Finding:
        """The finding with its mend, or as it is where none is obvious.

        It must be of this program: a slot that is gone raises EditError.
        """
        found = self._mended.get(finding.id)
        if found is None:
            mend = self.mend(finding)
            found = finding if mend is None else replace(finding, mend=mend)
            self._mended[finding.id] = found
        return found

    def mend(self, finding: Finding) -> Edit | None:
        """The edit that would settle the finding; None where none is obvious."""
        make = _MAKERS.get(finding.rule)
        return make(Ask(finding, self.program, self.context, self.choices)) if make else None


_MAKERS: dict[str, Callable[[Ask], Edit | None]] = {
    "weekly_sets": sets.more_or_fewer_sets,
    "session_sets": sets.more_or_fewer_sets,
    "set_rise": sets.more_or_fewer_sets,
    "exercise_sets": sets.exercise_sets,
    "session_minutes": sets.fewer_minutes,
    "rep_zone": fields.reps,
    "exercise_reps": fields.reps,
    "load_zone": fields.load,
    "effort": fields.reserve,
    "reserve": fields.reserve,
    "moderate_only": fields.reserve,
    "rest": fields.rest,
    "tempo": fields.tempo,
    "limitation": places.swap,
    "equipment": places.swap,
    "dislikes": places.swap,
    "time_since_change": places.swap,
    "skill": places.swap_for_less_skill,
    "exercise_order": places.earlier,
    "warm_up": places.warm_up,
    "spacing": places.other_day,
    "spinal_load": places.other_day,
    "light_weeks": places.lighten,
}
"""What makes the mend of a rule; rules that are not here have no obvious one."""
