"""The last check-in, where the mass is heading, and which weeks said nothing."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QTimer
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QPushButton

from app.domain.client import Client
from app.domain.loads import day_text
from app.domain.wording import mark, tr, trn
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.client import open_form
from app.ui.client.section import Section

if TYPE_CHECKING:
    from app.domain.results import CheckIn


class CheckInSection(Section):
    """Two or three lines and the ways in."""

    word = mark("Check-ins")

    def __init__(self, bench: Bench) -> None:
        super().__init__(bench)
        self.buttons: tuple[QPushButton, ...] = ()
        self._later = QTimer(self)
        self._later.setSingleShot(True)
        self._later.timeout.connect(self._read)

    def depends_on(self, work: Work) -> tuple[object, ...]:
        """The client, and the diary once it has been read."""
        return (id(work.client), None if work.diary is None else id(work.diary.check_ins))

    def _read(self) -> None:
        """Read the diary, once there is a picture to look at."""
        work = self.bench.desk.work
        if self.isVisible() and work is not None and work.diary is None:
            self.bench.desk.diary  # noqa: B018 - asking reads it
            self.refresh()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._later.start(0)

    def fill(self, client: Client) -> None:
        """Say what was reported last; before the diary is read, only where to look."""
        work = self.bench.desk.work
        if work is not None and work.diary is None:
            self.head(tr("Check-ins"))
            self._ways()
            self._later.start(0)
            return
        checks = self.bench.desk.diary.check_ins
        self.head(tr("Check-ins"), day_text(checks[-1].on) if checks else "")
        if checks:
            self.line(last_text(checks[-1], client.units), quiet=False)
            from app.domain.progress.series import monday

            weeks = (monday(self.today) - monday(checks[-1].on)).days // 7
            if weeks > 1:
                self.line(trn("No check-in for {n} week.", "No check-in for {n} weeks.", weeks))
        else:
            self.line(tr("No check-in yet. Body mass once a week is enough for a trend."))
        self._ways()

    def _ways(self) -> None:
        self.links(
            (tr("Check-in…"), lambda: open_form.check_in(self.bench, self.window())),
            (tr("All…"), lambda: open_form.check_ins(self.bench, self.window())),
            (tr("Charts…"), lambda: open_form.charts(self.bench, self.window())),
        )


def last_text(check_in: CheckIn, units: str) -> str:
    """'66.4 kg · Sleep 4 · Mood 5': what was said, in one line."""
    from app.ui.client.check_in_cells import NAMES, Column, cells

    texts = cells(check_in, units)
    parts = []
    for column, text in texts.items():
        if not text or column in (Column.DAY, Column.NOTE):
            continue
        match column:
            case Column.MASS:
                parts.append(f"{text} {units}")
            case Column.KCAL:
                parts.append(f"{text} kcal")
            case Column.ADHERENCE:
                parts.append(tr("{share} % done", share=text))
            case _:
                parts.append(f"{tr(NAMES[column])} {text}")
    return " · ".join(parts) or check_in.note
