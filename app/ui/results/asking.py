"""What is asked about the results typed so far; what the coach called right is asked once."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Sequence
from datetime import date
from functools import partial

from app.domain.log_sheet import doubt_day
from app.domain.wording import tr
from app.ui.results.doubts import Question
from app.ui.results.draft import Known, SessionDraft, SlotDraft
from app.ui.results.meant import MeantSession


class Asking:
    """The questions on drafts of the sessions of a program.

    start: the program's first day; answered(): something was called right;
    multiply(slot, factor): the loads of a slot are another unit's.
    """

    def __init__(
        self,
        sessions: Sequence[MeantSession],
        start: date,
        *,
        answered: Callable[[], object],
        multiply: Callable[[SlotDraft, float], object],
    ) -> None:
        self._sessions, self._start = sessions, start
        self._answered, self._multiply = answered, multiply
        self._right: set[Hashable] = set()

    def about(self, draft: SessionDraft, known: Known) -> list[Question]:
        """The questions that are open: on the day first, then on each slot."""
        return [*self._on_day(draft, known), *self._on_slots(draft)]

    def _on_day(self, draft: SessionDraft, known: Known) -> Iterator[Question]:
        about_day = doubt_day(draft.on, start=self._start, planned=draft.meant.planned)
        key: Hashable = (draft.on, "day")
        if about_day and key not in self._right:
            yield Question(about_day, partial(self._call_right, key))
        other = self._same_day(draft, known)
        key = (draft.on, other)
        if other and key not in self._right:
            text = tr("{other} has results on this day too. Is the day right?", other=other)
            yield Question(text, partial(self._call_right, key))

    def _on_slots(self, draft: SessionDraft) -> Iterator[Question]:
        for slot in draft.slots:
            doubt = slot.doubt()
            key = (slot.meant.slot.id, slot.heaviest())
            if doubt is not None and key not in self._right:
                yield Question(
                    doubt.question,
                    partial(self._call_right, key),
                    doubt.verb,
                    partial(self._multiply, slot, doubt.factor),
                )

    def _same_day(self, draft: SessionDraft, known: Known) -> str:
        """The title of another session of the program that has results on the same day."""
        if draft.kept_on not in draft.days:
            return ""
        meant = draft.meant
        others = (
            one
            for one in self._sessions
            if one.session.id != meant.session.id and one.planned != meant.planned
        )
        titles = (
            one.session.title
            for one in others
            if draft.on in known.days(slot.id for slot in one.session.slots)
        )
        return next(titles, "")

    def _call_right(self, key: Hashable) -> None:
        self._right.add(key)
        self._answered()
