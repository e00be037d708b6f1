"""What a table of results comes to for the open program: what is new, there already, or homeless.

No widgets here: the dialog asks this for its preview, and for the diary it would make.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date

from app import resources
from app.desk import Desk
from app.domain.doubt import unit_slip
from app.domain.errors import CoachError
from app.domain.exercise import ExerciseKey, LoadKind
from app.domain.folding import fold
from app.domain.log_sheet import refuse_future
from app.domain.program import Slot, SlotId
from app.domain.results import Diary, ResultKey, SlotResult
from app.exchange.coach_plan.columns import Part
from app.exchange.coach_plan.names import Named, Names
from app.exchange.coach_plan.words import Words, words_from_table
from app.exchange.result_table import (
    DayOrder,
    Entry,
    Placed,
    Reading,
    RowFault,
    guess_reading,
    header_mark,
    place,
    read_rows,
)
from app.exchange.sheets.sheet import Sheet

SETTING = "result_table."
"""What readings are remembered under, with the mark of the headings behind it."""


_LIGHT_AT_NOTHING = (LoadKind.BODY, LoadKind.BAND, LoadKind.NONE)
"""What can be done without a kilogram."""


def words() -> Words:
    """The words that tables are headed by."""
    return words_from_table(resources.read_toml("table_words.toml"))


@dataclass(slots=True)
class Incoming:
    """A table on its way into the diary; `read` works everything out anew.

    chosen: what the coach says a name stands for, None to leave it out; replace: results that are
    there already are replaced.
    """

    desk: Desk
    sheet: Sheet
    today: date
    reading: Reading = field(default_factory=lambda: Reading(-1, {}))
    chosen: dict[str, ExerciseKey | None] = field(default_factory=dict)
    replace: bool = False
    named: dict[str, Named] = field(default_factory=dict)
    counts: dict[str, int] = field(default_factory=dict)
    faults: tuple[RowFault, ...] = ()
    placed: Placed = field(default_factory=lambda: Placed((), ()))
    _names: Names | None = None
    _by_id: Mapping[SlotId, Slot] | None = None

    def begin(self) -> None:
        """Prepare, and read."""
        self.prepare()
        self.read()

    def prepare(self) -> None:
        """Guess how the table is read, or take what was chosen for such a table before."""
        found = words()
        self.reading = guess_reading(self.sheet, found, unit=self.desk.client.units)
        known: dict[str, ExerciseKey] = {}
        kept = self.desk.store.setting(SETTING + header_mark(self.sheet, self.reading.head))
        if kept:
            self.reading, known = _remembered(kept, self.reading, self.sheet.width)
        self._names = Names(self.desk.catalogue, found.short, known)

    def read(self) -> None:
        """Read the table as it is now said to be read."""
        assert self._names is not None
        self.faults, self.placed, self.counts = (), Placed((), ()), {}
        try:
            entries, faults = read_rows(self.sheet, self.reading)
        except CoachError:
            return
        past, future = self._not_future(entries)
        self.faults = tuple(sorted((*faults, *future), key=lambda one: one.line))
        for entry in past:
            self.counts[entry.name] = self.counts.get(entry.name, 0) + 1
        self.named = {name: self._names.find(name) for name in self.counts}
        self.placed = place(past, self.meant(), self.desk.program)

    def read_apart(self) -> Incoming:
        """The same table as it is now said to be read, for a worker: this one stays as it is."""
        apart = replace(self, chosen=dict(self.chosen))
        apart.read()
        return apart

    def _not_future(self, entries: tuple[Entry, ...]) -> tuple[list[Entry], list[RowFault]]:
        past, future = [], []
        for entry in entries:
            try:
                refuse_future(entry.day, self.today)
            except CoachError as error:
                future.append(RowFault(entry.line, error))
            else:
                past.append(entry)
        return past, future

    # -- names -----------------------------------------------------------------------------

    def meant(self) -> dict[str, ExerciseKey]:
        """What each name stands for, where that is known."""
        found = {}
        for name, named in self.named.items():
            key = self.chosen.get(name, named.meant)
            if key is not None:
                found[name] = key
        return found

    @property
    def left_out(self) -> int:
        """Rows whose name stands for nothing so far."""
        meant = self.meant()
        return sum(count for name, count in self.counts.items() if name not in meant)

    @property
    def doubtful(self) -> tuple[Named, ...]:
        """The names that the coach has to be asked about, in the order of the table."""
        return tuple(one for one in self.named.values() if one.meant is None)

    # -- what it would do ------------------------------------------------------------------

    @property
    def there(self) -> tuple[SlotResult, ...]:
        """Results that would take the place of others that differ."""
        known = {one.key: one for one in self.desk.diary.results}
        return tuple(r for r in self.placed.results if known.get(r.key, r) != r)

    @property
    def new(self) -> tuple[SlotResult, ...]:
        """Results that would be kept."""
        known = {one.key: one for one in self.desk.diary.results}
        return tuple(
            result
            for result in self.placed.results
            if known.get(result.key) != result and (self.replace or result.key not in known)
        )

    def applied(self) -> Diary:
        """The diary with what would be kept."""
        return self.desk.diary.with_results(self.new)

    @property
    def slips(self) -> Mapping[ResultKey, float]:
        """Results whose heaviest load lies a factor of about 2.2 from the one known, kg.

        Known is what was last done of the exercise, else what the plan has for the slot.
        """
        last: dict[str, float] = {}
        for result in self.desk.diary.results:
            if result.sets:
                last[result.exercise] = max(done.load_kg for done in result.sets)
        found = {}
        for result in self.new:
            known = last.get(result.exercise) or self._planned_kg(result)
            heaviest = max((done.load_kg for done in result.sets), default=0.0)
            if known and unit_slip(heaviest, known) is not None:
                found[result.key] = known
        return found

    def _planned_kg(self, result: SlotResult) -> float | None:
        slot = self._slots.get(result.slot)
        if slot is None or slot.exercise != result.exercise:
            return None
        load = self.desk.load(slot)
        return None if load is None else load.load_kg

    @property
    def _slots(self) -> Mapping[SlotId, Slot]:
        if self._by_id is None:
            weeks = self.desk.program.weeks
            self._by_id = {slot.id: slot for week in weeks for slot in week.slots()}
        return self._by_id

    def lacks_load(self, result: SlotResult) -> bool:
        """Whether sets of an exercise that is loaded by weight come without any."""
        kind = self.desk.catalogue[result.exercise].load_kind
        return kind not in _LIGHT_AT_NOTHING and any(not done.load_kg for done in result.sets)

    def remember(self) -> None:
        """Keep how this table was read, for the next one with the same headings."""
        names: dict[str, str] = {fold(name): str(key) for name, key in self.meant().items()}
        record = {
            "columns": {part.value: at for part, at in self.reading.columns.items()},
            "order": self.reading.order.value,
            "unit": self.reading.unit,
            "names": names,
        }
        key = SETTING + header_mark(self.sheet, self.reading.head)
        self.desk.store.set_setting(key, json.dumps(record, sort_keys=True))


def _remembered(kept: str, guessed: Reading, width: int) -> tuple[Reading, dict[str, ExerciseKey]]:
    """The reading and names that were kept; the guess where they no longer make sense."""
    try:
        record: Mapping[str, Mapping[str, int]] = json.loads(kept)
        columns = {Part(part): int(at) for part, at in record["columns"].items()}
        if any(not 0 <= at < width for at in columns.values()):
            return guessed, {}
        reading = Reading(
            guessed.head, columns, DayOrder(str(record["order"])), str(record["unit"])
        )
        names = {str(name): ExerciseKey(str(key)) for name, key in record["names"].items()}
    except (ValueError, KeyError, TypeError, AttributeError):
        return guessed, {}
    return reading, names
