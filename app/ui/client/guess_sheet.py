"""A guess from a related exercise: range, source, and the coach's word that it may count."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from PySide6.QtWidgets import QCheckBox, QWidget

from app.domain.errors import CoachError
from app.domain.exercise import ExerciseKey
from app.domain.transfer import confirmed, guesses
from app.domain.units import mass_text, number_text
from app.domain.wording import tr
from app.domain.working import UNSOURCED
from app.resources.related import related_strength
from app.ui.bench import Bench
from app.ui.client.profile import keep_client
from app.ui.forms import Sheet, Wrapped
from app.ui.lines_table import add_line, choose, chosen, lines_table
from app.ui.words import DASH, full_date


class GuessSheet(Sheet):
    """Guesses to choose from; nothing counts before the coach has ticked and kept one."""

    def __init__(
        self, bench: Bench, parent: QWidget | None, *, exercise: ExerciseKey, today: date
    ) -> None:
        self.exercise = bench.desk.catalogue[exercise]
        super().__init__(
            parent,
            tr("A guess for {exercise}", exercise=self.exercise.name),
            verb=tr("Let it count"),
            about=tr(
                "What a test of a related exercise says of this one differs widely between people. "
                "The low end counts, so that the first sets come out light; every load from it is "
                "marked as a guess until the exercise itself is tested."
            ),
        )
        self.bench, self.today = bench, today
        desk = bench.desk
        self.guesses = guesses(
            self.exercise, desk.client, catalogue=desk.catalogue, related=related_strength()
        )
        self.table = lines_table(
            tr("Guesses"),
            (tr("From"), tr("Test of"), tr("Part of its 1RM"), tr("1RM here"), tr("Source")),
        )
        units = desk.client.units
        for place, guess in enumerate(self.guesses):
            related = guess.related
            part = f"{number_text(100 * related.low)}{DASH}{number_text(100 * related.high)} %"
            here = tr(
                "{low} to {high}",
                low=mass_text(guess.low_kg, units, digits=1),
                high=mass_text(guess.high_kg, units, digits=1),
            )
            source = related.source
            if source not in UNSOURCED and source in bench.shelf.references:
                source = bench.shelf.references[source].short
            cells = (guess.from_name, full_date(guess.on), part, here, tr(source))
            add_line(self.table, cells, place)
        choose(self.table, 0)
        self.result_line = Wrapped(step="head")
        self.unpublished = Wrapped(role="small")
        self.sure = QCheckBox(tr("I take this as a guess to begin with, not as a test"))
        self.sure.setMinimumHeight(24)
        self.body.addWidget(self.table, 1)
        self.body.addWidget(self.result_line)
        self.body.addWidget(self.unpublished)
        self.body.addWidget(self.sure)
        self.table.currentItemChanged.connect(lambda *_: self._tell())
        self.setMinimumSize(640, 360)
        self._tell()

    def _tell(self) -> None:
        at = chosen(self.table)
        if not isinstance(at, int):
            self.result_line.setText("")
            return
        guess = self.guesses[at]
        load = mass_text(guess.load_kg, self.bench.desk.client.units)
        self.result_line.setText(tr("Kept as a guess: {load} for 5 repetitions", load=load))
        published = guess.related.source not in UNSOURCED
        self.unpublished.setText(
            ""
            if published
            else tr("The part of its 1RM is common practice: no study stands behind it.")
        )
        self.unpublished.setVisible(not published)

    def keep(self) -> None:
        """Let the chosen guess count. Raises CoachError until the coach has confirmed it."""
        at = chosen(self.table)
        if not isinstance(at, int):
            return
        if not self.sure.isChecked():
            raise CoachError(
                tr("A guess counts only once you have confirmed it."),
                mend=tr("Tick the line above, or enter a test instead."),
            )
        client = self.bench.desk.client
        tests = confirmed(client, self.guesses[at], self.today)
        label = tr(
            "Guess {exercise} from {source}",
            exercise=self.exercise.name,
            source=self.guesses[at].from_name,
        )
        keep_client(self.bench, label, replace(client, tests=tests))
