"""Substitutes for a card: ranked, each with its reasons and what the swap does to the week.

A coach takes one, or ticks up to five that the client's booklet prints beside the exercise.
"""

from __future__ import annotations

from dataclasses import replace

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QComboBox, QWidget

from app.domain import substitute
from app.domain.edits.fields import set_prepared
from app.domain.edits.parts import find_slot, locate
from app.domain.edits.place import replace_exercise
from app.domain.errors import CoachError
from app.domain.exercise import ExerciseKey
from app.domain.findings import Edit, edit
from app.domain.program import MAX_PREPARED, SlotId, Span, day_name
from app.domain.substitute import Substitute, demand_of
from app.domain.wording import tr
from app.ui.bench import Bench
from app.ui.change_list import ChangeList
from app.ui.forms import Sheet, Wrapped, button, plain
from app.ui.substitute_rows import SubstituteList
from app.ui.swap_effect import effect_text, effect_words

SHOWN = 40
WEIGHED = 8
"""So many of the best are ranked with what they do to the findings; it takes about 10 ms."""


class SubstituteDialog(Sheet):
    """Choose one; what it does to the week is shown before it is taken."""

    def __init__(self, bench: Bench, slot_id: SlotId, parent: QWidget | None) -> None:
        desk = bench.desk
        self.slot = find_slot(desk.program, slot_id)
        self.old = desk.catalogue[self.slot.exercise]
        at = locate(desk.program, slot_id)
        super().__init__(
            parent,
            tr("In place of {old}", old=self.old.name),
            verb=tr("Substitute"),
            about=tr(
                "{day_name}, week {week}. Best first; what does not fit comes "
                "last and says why. What you tick, up to {max_prepared}, is "
                "printed for the client.",
                day_name=day_name(at.day),
                week=at.week + 1,
                max_prepared=MAX_PREPARED,
            ),
        )
        self.bench = bench
        self.ticked = list(self.slot.prepared)
        self.reach = _reach_box(bench.span)
        self.row(tr("Reaches"), self.reach)
        self.list = SubstituteList(bench, self.place_of)
        self.list.fill(self._offered())
        if not self.list.count():
            self.body.addWidget(plain(tr("Nothing in the library trains the same muscles.")))
        self.effect = Wrapped(step="head")
        self.changes = ChangeList(bench)
        self.changes.setMaximumHeight(150)
        self.body.addWidget(self.list, 1)
        self.body.addWidget(self.effect)
        self.body.addWidget(self.changes)
        self.prepare_button = button(tr("Prepare the ticked"), self.try_prepare)
        self.foot.insertWidget(self.foot.indexOf(self.keep_button), self.prepare_button)
        # the first what-if over a long program waits until the list is there to be read
        self._soon = QTimer(self)
        self._soon.setSingleShot(True)
        self._soon.setInterval(0)
        self._soon.timeout.connect(self.refresh)
        self.list.itemDoubleClicked.connect(lambda _item: self.try_keep())
        self.list.tick_asked.connect(self.tick)
        self.reach.currentIndexChanged.connect(lambda _k: self.refresh())
        self.finished.connect(lambda _result: self.bench.clear_preview())
        self.resize(720, 720)
        self.list.setCurrentRow(0)
        self.list.currentRowChanged.connect(lambda _row: self.refresh())
        self.list.setFocus()
        self._soon.start()

    def _offered(self) -> tuple[Substitute, ...]:
        """The best, and whatever is prepared already, so that it can be taken off again."""
        desk = self.bench.desk
        asked = (self.slot, desk.program, desk.client, desk.catalogue)
        weighed = substitute.ranked_with_effect(*asked, desk.ranges, first=WEIGHED)
        with_words = tuple(
            replace(
                one,
                reasons=(
                    *one.reasons,
                    tr("this week: {effect_words}", effect_words=effect_words(change)),
                ),
            )
            for one, change in weighed
        )
        ranked = (*with_words, *substitute.rank(*asked)[len(with_words) :])
        later = tuple(one for one in ranked[SHOWN:] if one.exercise.key in self.ticked)
        known = {one.exercise.key for one in ranked}
        others = tuple(self._unranked(key) for key in self.ticked if key not in known)
        return (*ranked[:SHOWN], *later, *others)

    def _unranked(self, key: ExerciseKey) -> Substitute:
        """A prepared one that trains something else."""
        exercise = self.bench.desk.catalogue[key]
        return Substitute(
            exercise, 0.0, demand_of(self.old, exercise), (tr("trains other muscles"),)
        )

    @property
    def span(self) -> Span:
        """How far the swap, or the preparing, is to reach."""
        span: Span = self.reach.currentData()
        return span

    def chosen(self) -> Substitute | None:
        """The substitute that is marked."""
        row = self.list.currentRow()
        return None if row < 0 else self.list.substitute(row)

    def edit(self, one: Substitute) -> Edit:
        """The swap as an edit."""
        return edit(
            tr("Substitute {exercise} for {old}", exercise=one.exercise.name, old=self.old.name),
            replace_exercise,
            slot_id=self.slot.id,
            exercise=one.exercise,
            old=self.old,
            span=self.span,
        )

    def refresh(self) -> None:
        """Show what the marked substitute would do."""
        one = self.chosen()
        self._soon.stop()
        self.keep_button.setEnabled(one is not None)
        self.prepare_button.setEnabled(self._would_prepare())
        if one is None:
            return
        self.show_error("")
        preview = self.bench.try_edit(self.edit(one))
        if isinstance(preview, CoachError):
            self.effect.setText("")
            self.show_error(preview.sentence)
            return
        before, after = preview.before, preview.after
        self.effect.setText(effect_text(self.bench, before, after, slot_id=self.slot.id))
        self.changes.show_change(preview.gained, preview.lost)

    def keep(self) -> None:
        """Swap; what was ticked meanwhile is kept first, as a step of its own."""
        one = self.chosen()
        if one is None:
            return
        if tuple(self.ticked) != self.slot.prepared:
            self.bench.desk.keep(self.preparing())
        self.bench.desk.keep(self.edit(one))

    # -- what is printed for the client ----------------------------------------------------

    def place_of(self, key: ExerciseKey) -> int:
        """The number of an exercise among the ticked ones, from 1; 0 if it is not ticked."""
        return self.ticked.index(key) + 1 if key in self.ticked else 0

    def tick(self, row: int) -> None:
        """Tick the row, or take its tick away; say why where it cannot be ticked."""
        one = self.list.substitute(row)
        key = one.exercise.key
        refusal = ""
        if key in self.ticked:
            self.ticked.remove(key)
        elif one.blocked:
            refusal = tr(
                "{exercise} is held back: {blocked}. Tick another.",
                exercise=one.exercise.name,
                blocked=one.blocked,
            )
        elif len(self.ticked) >= MAX_PREPARED:
            refusal = tr(
                "{max_prepared} are ticked already. Take one off first.", max_prepared=MAX_PREPARED
            )
        else:
            self.ticked.append(key)
        self.list.show_ticks()
        self.prepare_button.setEnabled(self._would_prepare())
        self.show_error(refusal)

    def preparing(self) -> Edit:
        """What is ticked, as an edit."""
        return edit(
            tr("Prepare substitutes for {old}", old=self.old.name),
            set_prepared,
            slot_id=self.slot.id,
            prepared=tuple(self.ticked),
            span=self.span,
        )

    def _would_prepare(self) -> bool:
        """True if keeping what is ticked would change anything as far as the reach."""
        program = self.bench.desk.program
        return self.preparing()(program) is not program

    def try_prepare(self) -> None:
        """Keep what is ticked, and close; on a CoachError show it and stay."""
        self.show_error("")
        try:
            self.bench.desk.keep(self.preparing())
        except CoachError as error:
            self.show_error(error.sentence)
            return
        self.accept()


def _reach_box(span: Span) -> QComboBox:
    """The four reaches, with `span` chosen."""
    box = QComboBox()
    box.setMinimumHeight(32)
    for one in Span:
        box.addItem(tr(one.value.capitalize()), one)
    box.setCurrentIndex(list(Span).index(span))
    return box
