"""What the panes of one window share: the desk, the open week, the span, the selection.

Panes paint what the bench shows and send it intents; they never talk to each other.
"""

from __future__ import annotations

import os
from collections.abc import Hashable, Mapping
from datetime import datetime
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from app import resources
from app.desk import Desk, Keeper, Preview
from app.domain.client import Client
from app.domain.errors import CoachError
from app.domain.exercise import Muscle
from app.domain.findings import Edit
from app.domain.program import SlotId, Span, Week
from app.domain.wording import mark, tr
from app.domain.work import Work

if TYPE_CHECKING:
    from app.domain.figure import PosePair
    from app.resources import MuscleName, Reference


class Shelf:
    """Data that panes show beside plans, each read when it is first asked for."""

    def __init__(self, memory: Keeper) -> None:
        self._memory = memory
        self._references: Mapping[str, Reference] | None = None

    @property
    def muscles(self) -> Mapping[Muscle, MuscleName]:
        """Names of muscles."""
        return resources.muscle_names()

    @property
    def references(self) -> Mapping[str, Reference]:
        """References by key, shipped ones and the coach's own."""
        if self._references is None:
            from app import own_references  # nobody needs it before references are shown

            self._references = own_references.every(self._memory)
        return self._references

    def read_references(self) -> None:
        """Take up that the coach's own references changed."""
        self._references = None

    @property
    def poses(self) -> Mapping[str, PosePair]:
        """Poses by the key of the figure."""
        return resources.poses()


class Bench(QObject):
    """The state of one window.

    source: an id of this window, by which what is dragged or pasted is known as its own.
    changed(before, after): what is open changed, as Work values or None; refresh by identity.
    replanned(before, after): the same, but not where the diary alone changed; for what shows the
    plan.
    week_shown(int): another week of the program is shown. span_chosen(Span).
    selected(tuple): the selected slots. previewed(Preview | None): an edit is being tried.
    said(str): a sentence for the status line. refused(str): a sentence on what was not done.
    """

    changed = Signal(object, object)
    replanned = Signal(object, object)
    week_shown = Signal(int)
    span_chosen = Signal(object)
    selected = Signal(object)
    previewed = Signal(object)
    said = Signal(str)
    refused = Signal(str)

    def __init__(self, desk: Desk, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.desk = desk
        self.shelf = Shelf(desk.store)
        self.source = os.urandom(16).hex()
        self.week = 0
        self.span = Span.FROM_HERE
        self.selection: tuple[SlotId, ...] = ()
        self.chosen = range(0)  # a run of weeks, chosen in the season
        self.preview: Preview | None = None
        desk.listen(self._work_changed)

    @property
    def open_week(self) -> Week | None:
        """The week that is shown, if a program is open."""
        if not self.desk.has_program:
            return None
        return self.desk.program.weeks[self.week]

    def _work_changed(self, before: Work | None, after: Work | None) -> None:
        if _diary_alone(before, after):
            self.clear_preview()
            self.changed.emit(before, after)
            return
        self.preview = None
        if self.desk.has_program:
            self.week = min(self.week, len(self.desk.program.weeks) - 1)
            here = {slot.id for week in self.desk.program.weeks for slot in week.slots()}
            self.selection = tuple(i for i in self.selection if i in here)
            if self.chosen.stop > len(self.desk.program.weeks):
                self.chosen = range(0)
        else:
            self.week, self.selection, self.chosen = 0, (), range(0)
        self.replanned.emit(before, after)
        self.changed.emit(before, after)

    # -- intents ---------------------------------------------------------------------------

    def keep(self, edit: Edit, *, key: Hashable = None) -> bool:
        """Keep an edit of the program; False, with a sentence in `refused`, if it cannot be."""
        error = self.try_keep(edit, key=key)
        if error is not None:
            self.refused.emit(error.sentence)
        return error is None

    def try_keep(self, edit: Edit, *, key: Hashable = None) -> CoachError | None:
        """Keep an edit of the program; why not, for whoever shows it in a place of its own."""
        self.clear_preview()
        try:
            self.desk.keep(edit, key=key)
        except CoachError as error:
            return error
        return None

    def keep_client(self, label: str, client: Client, *, key: Hashable = None) -> bool:
        """Keep the client as changed; False, with a sentence in `refused`, if it cannot be."""
        try:
            self.desk.keep_client(label, client, key=key)
        except CoachError as error:
            self.refused.emit(error.sentence)
            return False
        return True

    def undo(self) -> None:
        """Take the last step back."""
        self._step(back=True)

    def redo(self) -> None:
        """Do again what was taken back last."""
        self._step(back=False)

    def _step(self, *, back: bool) -> None:
        try:
            step = self.desk.undo() if back else self.desk.redo()
        except CoachError as error:
            self.refused.emit(error.sentence)
            return
        if step is not None:
            template = mark("Undone: {label}") if back else mark("Done again: {label}")
            self.said.emit(tr(template, label=step.label))

    def show_week(self, index: int) -> None:
        """Show week `index` (counted from 0) of the open program."""
        if not self.desk.has_program:
            return
        index = max(0, min(index, len(self.desk.program.weeks) - 1))
        if index != self.week:
            self.week = index
            self.select(())
            self.week_shown.emit(index)

    def show_present_week(self) -> None:
        """Show the week that today lies in, or the end that is nearer to it."""
        if self.desk.has_program:
            today = datetime.now().astimezone().date()
            self.show_week((today - self.desk.program.start).days // 7)

    def choose_span(self, span: Span) -> None:
        """Let edits reach as far as `span` from now on."""
        if span is not self.span:
            self.span = span
            self.span_chosen.emit(span)

    def select(self, slots: tuple[SlotId, ...]) -> None:
        """Select these slots."""
        if slots != self.selection:
            self.selection = slots
            self.selected.emit(slots)

    def try_edit(self, edit: Edit) -> Preview | CoachError:
        """Show what `edit` would do in every pane; the error if it cannot be applied."""
        try:
            preview = self.desk.preview(edit)
        except CoachError as error:
            self.clear_preview()
            return error
        self.show_preview(preview)
        return preview

    def show_preview(self, preview: Preview) -> None:
        """Show in every pane what an edit that was tried before would do."""
        self.preview = preview
        self.previewed.emit(preview)

    def clear_preview(self) -> None:
        """Show again what is kept."""
        if self.preview is not None:
            self.preview = None
            self.previewed.emit(None)


def _diary_alone(before: Work | None, after: Work | None) -> bool:
    """True if client and program are the same values, and the diary another."""
    if before is None or after is None or before.diary is after.diary:
        return False
    return before.client is after.client and before.program is after.program
