"""The list of kept values: what undo goes back to and redo goes on to. Pure."""

from __future__ import annotations

from collections.abc import Hashable
from dataclasses import dataclass, replace

from app.domain.work import Work

DEPTH = 500
"""Steps kept; each costs about a kilobyte, since unchanged parts are shared."""


@dataclass(frozen=True, slots=True)
class Step:
    """One kept edit.

    label: as the undo menu says it; key: equal keys in a row merge into one step.
    """

    label: str
    before: Work
    after: Work
    key: Hashable = None


@dataclass(frozen=True, slots=True)
class History:
    """Steps in order and how many of them are done; those past `done` can be redone."""

    steps: tuple[Step, ...] = ()
    done: int = 0

    def pushed(self, step: Step) -> History:
        """The history with `step` done last; what could be redone is gone.

        A step with the key of the one before it is merged into that one.
        """
        steps = self.steps[: self.done]
        last = steps[-1] if steps else None
        if last is not None and step.key is not None and last.key == step.key:
            before = last.before
            if before.diary is None:  # not read by then, and so not changed by that step
                before = replace(before, diary=step.before.diary)
            steps = (*steps[:-1], replace(step, before=before))
        else:
            steps = (*steps, step)[-DEPTH:]
        return History(steps, len(steps))

    @property
    def undoable(self) -> Step | None:
        """The step that undo would take back."""
        return self.steps[self.done - 1] if self.done else None

    @property
    def redoable(self) -> Step | None:
        """The step that redo would do again."""
        return self.steps[self.done] if self.done < len(self.steps) else None

    def undone(self) -> History:
        """The history with one step less done."""
        return replace(self, done=max(0, self.done - 1))

    def redone(self) -> History:
        """The history with one step more done."""
        return replace(self, done=min(len(self.steps), self.done + 1))

    def way(self, done: int) -> tuple[Leg, ...]:
        """The legs that lead to the state in which `done` steps are done, in order.

        Steps in a row on one program are one leg. Raises IndexError past either end.
        """
        if not 0 <= done <= len(self.steps):
            raise IndexError(done)
        back = done < self.done
        passed = self.steps[done : self.done][::-1] if back else self.steps[self.done : done]
        legs: list[Leg] = []
        here = self.done
        for step in passed:
            frm, to = (step.after, step.before) if back else (step.before, step.after)
            here += -1 if back else 1
            last = legs[-1] if legs else None
            if last is not None and last.to == frm:
                legs[-1] = Leg(last.frm, to, here, last.steps + 1)
            else:
                legs.append(Leg(frm, to, here, 1))
        return tuple(legs)


@dataclass(frozen=True, slots=True)
class Leg:
    """Steps that are taken at once: from one work to another, and how many are done then."""

    frm: Work
    to: Work
    done: int
    steps: int
