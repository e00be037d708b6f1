"""What was done: the ways to the results. The diary itself is read only once it is asked for."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from PySide6.QtWidgets import QWidget

from app.domain.client import Client
from app.domain.loads import day_text
from app.domain.wording import mark, tr, trn
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.client import open_form
from app.ui.client.section import Section


class ResultsSection(Section):
    """How many days have results, where the diary has been read, and the ways to them."""

    word = mark("Results")

    def depends_on(self, work: Work) -> tuple[object, ...]:
        """The client, the diary, and whether there is a plan to hold results against."""
        return (*super().depends_on(work), id(work.diary), work.program is None)

    def fill(self, client: Client) -> None:
        """Show what is known without reading the diary, and the links."""
        self.head(tr("Results"), tr("what was done"))
        if not self.bench.desk.has_program:
            self.line(tr("Results belong to a program, and none is open."))
            return
        work = self.bench.desk.work
        diary = None if work is None else work.diary
        if diary is not None:
            days = sorted({one.on for one in diary.results_of(self.bench.desk.program.id)})
            if days:
                told = trn(
                    "{n} day with results, the last on {last}.",
                    "{n} days with results, the last on {last}.",
                    len(days),
                    last=day_text(days[-1]),
                )
                self.line(told)
        self.links(
            (tr("Enter results…"), partial(self._open, open_form.results)),
            (tr("From a table…"), partial(self._open, open_form.result_table)),
        )
        self.links(
            (tr("Adjust next week…"), partial(self._open, open_form.adjust)),
            (tr("Count as tests…"), partial(self._open, open_form.from_results)),
        )

    def _open(self, run: Callable[[Bench, QWidget], None]) -> None:
        run(self.bench, self.window())
