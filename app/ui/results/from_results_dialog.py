"""What comes next starts from the results: hard sets that the coach confirms count as tests."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QTreeWidgetItem, QWidget

from app.domain.from_results import Candidate, candidates, with_tests
from app.domain.one_rm import set_text
from app.domain.units import mass_text
from app.domain.wording import date_text, tr, trn
from app.ui.bench import Bench
from app.ui.forms import Sheet, Wrapped
from app.ui.lines_table import add_line, lines_table
from app.ui.words import DASH


class FromResultsDialog(Sheet):
    """The best hard set of each exercise since its last test; ticked ones become tests."""

    def __init__(self, bench: Bench, parent: QWidget | None) -> None:
        super().__init__(
            parent,
            tr("Begin from the results of {client}", client=bench.desk.client.name),
            verb=tr("Count as tests"),
            about=tr(
                "Loads follow from tests. Confirm the sets that should count as one from now on: "
                "every load that is not set by hand, in this program's weeks to come and in the "
                "next, then starts from them."
            ),
        )
        self.bench = bench
        desk = bench.desk
        self.found = candidates(desk.diary, desk.client, desk.catalogue)
        names = (tr("Exercise"), tr("Set"), tr("Day"), tr("1RM, about"), tr("Until now"))
        self.tree = lines_table(tr("Sets that could count as tests"), names)
        self.items: list[QTreeWidgetItem] = []
        for one in self.found:
            item = add_line(self.tree, self._cells(one), one)
            item.setCheckState(0, Qt.CheckState.Checked)
            self.items.append(item)
        self.body.addWidget(self.tree, 1)
        self.nothing = Wrapped(
            tr(
                "No set since the last tests ended within ten repetitions of failure with its "
                "reserve noted, so none says enough. Enter a strength test instead."
            )
        )
        self.nothing.setVisible(not self.found)
        self.tree.setVisible(bool(self.found))
        self.body.addWidget(self.nothing)
        self.tree.itemChanged.connect(lambda *_: self._enable())
        self.resize(820, 440)
        self._enable()

    def _cells(self, one: Candidate) -> tuple[str, ...]:
        unit = self.bench.desk.client.units
        test, estimate = one.test, one.estimate
        low, high = (mass_text(kg, unit, digits=0) for kg in (estimate.low, estimate.high))
        about = tr(
            "{median} ({low}{dash}{high})",
            median=mass_text(estimate.median, unit, digits=0),
            low=low,
            dash=DASH,
            high=high,
        )
        before = tr("not tested")
        if one.before is not None and one.change is not None:
            before = tr(
                "{median}, {change:+.0%}",
                median=mass_text(one.before.median, unit, digits=0),
                change=one.change,
            )
        done = set_text(test.load_kg, test.reps, test.rir, unit)
        return one.exercise.name, done, date_text(test.on), about, before

    @property
    def ticked(self) -> tuple[Candidate, ...]:
        """The sets that are to count."""
        return tuple(
            one
            for one, item in zip(self.found, self.items, strict=True)
            if item.checkState(0) == Qt.CheckState.Checked
        )

    def _enable(self) -> None:
        self.keep_button.setEnabled(bool(self.ticked))

    def keep(self) -> None:
        """Keep them as tests in one step. Raises CoachError if it cannot be kept."""
        ticked = self.ticked
        label = trn("Count {n} set as a test", "Count {n} sets as tests", len(ticked))
        client = with_tests(self.bench.desk.client, (one.test for one in ticked))
        self.bench.desk.keep_client(label, client)
