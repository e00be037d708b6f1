"""Rules of thumb, each with its source, and the coach's own in their place: who, when and why."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from PySide6.QtWidgets import QHBoxLayout, QWidget

from app import own_references
from app.domain.checks.say import lead
from app.domain.errors import CoachError
from app.domain.own_ranges import RangeLine, lines, rule_name, who_text
from app.domain.ranges import Override, Range, Who
from app.domain.wording import tr
from app.domain.working import UNSOURCED
from app.resources import Reference
from app.ui.bench import Bench
from app.ui.client.section import this_day
from app.ui.forms import NumberField, Sheet, Wrapped, button, text_field
from app.ui.library.own_parts import DeafBox
from app.ui.lines_table import add_line, choose, chosen, lines_table
from app.ui.words import full_date
from db.store import Store

FAR = 100_000.0
"""Ends lie within plus and minus this, whatever their unit."""


class OwnRangesDialog(Sheet):
    """Every rule of thumb beside the coach's own; the chosen one can be set or taken back.

    rule: the rule whose first line is chosen at the start.
    """

    def __init__(self, bench: Bench, store: Store, parent: QWidget | None, rule: str = "") -> None:
        super().__init__(
            parent,
            tr("Ranges and your own"),
            verb=tr("Set your own range"),
            about=tr(
                "Rules of thumb from the literature. Your own range of a rule holds before every "
                "shipped one of it that covers the same client, and is shown as yours wherever it "
                "is used."
            ),
        )
        self.bench, self.store = bench, store
        self.lines: list[RangeLine] = []
        self.search = text_field(hint=tr("Rule, people or source"))
        self.search.setAccessibleName(tr("Search the ranges"))
        self.table = lines_table(
            tr("Ranges"),
            (tr("Rule"), tr("For whom"), tr("Shipped"), tr("Your own"), tr("Source")),
            wide=1,
        )
        self.about_line = Wrapped(role="small")
        self.low = NumberField(tr("From"), low=-FAR, high=FAR, optional=True)
        self.high = NumberField(tr("To"), low=-FAR, high=FAR, optional=True)
        self.by = text_field(store.coach().name)
        self.why = text_field(hint=tr("What you saw, or what you go by"))
        self.rests_on = self._sources()
        self.take_back_button = button(tr("Take your own back"), self.take_back)
        self._lay_out()
        self.search.textChanged.connect(lambda _text: self._fill_table())
        self.table.currentItemChanged.connect(lambda *_: self._show_chosen())
        self.setMinimumSize(720, 520)
        self.resize(1060, 680)
        self.refresh(next((x.shipped for x in self.lines_now() if x.shipped.rule == rule), None))

    def _lay_out(self) -> None:
        self.column.insertWidget(2, self.search)
        self.column.insertWidget(3, self.table, 1)
        self.column.insertWidget(4, self.about_line)
        ends = QHBoxLayout()
        ends.setSpacing(16)
        ends.addWidget(self.low)
        ends.addWidget(self.high)
        ends.addStretch(1)
        holder = QWidget()
        holder.setLayout(ends)
        ends.setContentsMargins(0, 0, 0, 0)
        holder.setAccessibleName(tr("From and to; an empty end is open"))
        self.row(tr("From, to"), holder)
        self.row(tr("Who sets it"), self.by)
        self.row(tr("Why"), self.why)
        self.row(tr("Rests on"), self.rests_on)
        self.foot.insertWidget(self.foot.indexOf(self.help_button) + 1, self.take_back_button)
        self.cancel_button.setText(tr("Close"))

    def _sources(self) -> DeafBox:
        """Nothing published, then the coach's own references, then the shipped ones."""
        known = self.bench.shelf.references
        mine = [str(record["id"]) for record in own_references.own(self.store)]
        first = [known[key] for key in mine if key in known]
        rest = sorted((one for key, one in known.items() if key not in mine), key=_by_short)
        named = [(f"{one.short}: {one.csl.get('title', '')}", one.id) for one in (*first, *rest)]
        box = DeafBox(tr("Rests on"), [(tr("nothing published: your own practice"), ""), *named])
        box.setMinimumContentsLength(30)
        box.setSizeAdjustPolicy(box.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        return box

    def lines_now(self) -> list[RangeLine]:
        """The lines that can be changed, by the name of their rule."""
        return [line for line in lines(self.bench.desk.ranges) if line.changeable]

    def refresh(self, keep: Range | None = None) -> None:
        """Show the book as it is now, with the line of `keep` chosen."""
        self.lines = self.lines_now()
        self._fill_table()
        choose(self.table, next((k for k, x in enumerate(self.lines) if x.shipped == keep), 0))
        self._show_chosen()

    def _fill_table(self) -> None:
        words = self.search.text().casefold().split()
        self.table.clear()
        for number, line in enumerate(self.lines):
            cells = self.cells(line)
            if all(word in " ".join(cells).casefold() for word in words):
                add_line(self.table, cells, number)
        self._show_chosen()

    def cells(self, line: RangeLine) -> tuple[str, ...]:
        """What the line's columns say."""
        shipped, own = line.shipped, line.own
        mine = "" if own is None else range_text(own.range)
        return (
            rule_name(shipped.rule),
            who_text(shipped.who),
            range_text(shipped),
            mine,
            source_of(self.bench, shipped),
        )

    @property
    def line(self) -> RangeLine | None:
        """The line that is chosen."""
        key = chosen(self.table)
        return self.lines[key] if isinstance(key, int) else None

    def _show_chosen(self) -> None:
        line = self.line
        self.show_error("")
        fields = (self.low, self.high, self.by, self.why, self.rests_on)
        for part in (*fields, self.keep_button):
            part.setEnabled(line is not None)
        self.take_back_button.setEnabled(line is not None and line.own is not None)
        if line is None:
            self.about_line.setText("")
            return
        now = line.shipped if line.own is None else line.own.range
        self.low.set_value(now.low)
        self.high.set_value(now.high)
        self.why.setText("" if line.own is None else line.own.why)
        self.rests_on.choose("" if line.own is None else line.own.range.source)
        if line.own is not None:
            self.by.setText(line.own.by)
        self.about_line.setText(" ".join(self._told(line)))

    def _told(self, line: RangeLine) -> Iterable[str]:
        shipped = line.shipped
        yield tr(shipped.reason)
        if shipped.note:
            yield tr("{note}.", note=lead(tr(shipped.note.rstrip("."))))
        if line.own is not None:
            yield tr(
                "Your own since {day}, set by {who}: {why}",
                day=full_date(line.own.on),
                who=line.own.by,
                why=line.own.why,
            )

    # -- acts ------------------------------------------------------------------------------

    def try_keep(self) -> None:
        """Keep the own range and stay, so that the next one can be set."""
        self.show_error("")
        try:
            self.keep()
        except CoachError as error:
            self.show_error(error.sentence)

    def keep(self) -> None:
        """Keep the range as entered. Raises CoachError for one that cannot be."""
        line = self.line
        if line is None:
            return
        low, high = self.low.value(), self.high.value()
        by = self.by.text().strip()
        mine = tr("own range of {who}", who=by) if by else ""
        published = str(self.rests_on.currentData())
        made = Override(
            replace(
                line.shipped,
                low=low,
                high=high,
                own=True,
                source=published or mine or line.shipped.source,
                note=mine if published else "",
            ),
            by=by,
            on=this_day(),
            why=self.why.text().strip(),
        )
        book = self.bench.desk.ranges
        before = book.without_own(line.shipped.rule, line.shipped.who)
        after = before.with_own(made)  # refuses what cannot be, before anything is written
        with self.store.together():
            self.store.remove_range_overrides(line.shipped.rule, line.shipped.who)
            self.store.add_range_override(made)
        self.bench.desk.use_ranges(after)
        self.refresh(line.shipped)
        self.bench.said.emit(tr("Your own range holds: {rule}", rule=rule_name(made.range.rule)))

    def take_back(self) -> None:
        """Let the shipped range hold again; the fields keep what was entered, to set it again."""
        line = self.line
        if line is None or line.own is None:
            return
        self.show_error("")
        rule, who = line.shipped.rule, line.shipped.who
        try:
            self._take_back(rule, who)
        except CoachError as error:
            self.show_error(error.sentence)
            return
        own = line.own
        self.refresh(line.shipped)
        self.low.set_value(own.range.low)
        self.high.set_value(own.range.high)
        self.why.setText(own.why)
        self.bench.said.emit(tr("The shipped range holds again: {rule}", rule=rule_name(rule)))

    def _take_back(self, rule: str, who: Who) -> None:
        self.store.remove_range_overrides(rule, who)
        self.bench.desk.use_ranges(self.bench.desk.ranges.without_own(rule, who))


def _by_short(one: Reference) -> str:
    return one.short.casefold()


def range_text(band: Range) -> str:
    """'12–20 sets'."""
    return tr("{range} {unit}", range=band.text, unit=tr(band.unit))


def source_of(bench: Bench, band: Range) -> str:
    """The source as a coach reads it."""
    if band.source in UNSOURCED or band.source not in bench.shelf.references:
        return tr(band.source)
    return bench.shelf.references[band.source].short
