"""The client pane: who the plan is for, what limits it, and what its numbers rest on.

It only stacks its sections; each is a module of its own, named in SECTIONS in the order shown.
"""

from __future__ import annotations

from itertools import pairwise
from typing import TypeVar

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QPaintEvent
from PySide6.QtWidgets import QFrame, QScrollArea, QStackedLayout, QVBoxLayout, QWidget

from app.domain.wording import tr
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.client.availability_section import AvailabilitySection
from app.ui.client.check_in_section import CheckInSection
from app.ui.client.energy_section import EnergySection
from app.ui.client.person_section import PersonSection
from app.ui.client.pictures import Rail
from app.ui.client.results_section import ResultsSection
from app.ui.client.screening_section import ScreeningSection
from app.ui.client.section import Section
from app.ui.client.strength_section import StrengthSection
from app.ui.forms import plain

Kind = TypeVar("Kind", bound=Section)

WIDE = 278
RAIL = 34

SECTIONS: tuple[type[Section], ...] = (
    PersonSection,
    ScreeningSection,
    AvailabilitySection,
    StrengthSection,
    ResultsSection,
    EnergySection,
    CheckInSection,
)
"""What the pane is made of, from the top down."""

BELOW = (EnergySection, CheckInSection)
"""Sections at its foot, out of sight in a window of the usual height."""


class ClientPane(QFrame):
    """The sections one below the other; each opens its forms. Folds to a rail.

    opened(): a click on the rail opened the pane. foot_later: leave the sections at the foot until
    the pane has been painted, so that the first picture of a window need not wait for them.
    """

    opened = Signal()

    def __init__(
        self, bench: Bench, parent: QWidget | None = None, *, foot_later: bool = False
    ) -> None:
        super().__init__(parent)
        self.bench = bench
        self.folded = False
        self.rail = Rail()
        self.rail.clicked.connect(self._unfold)
        self.nobody = plain(tr("No client is open"), step="head")
        self.sections = tuple(kind(bench) for kind in SECTIONS)
        self._waiting = [one for one in self.sections if foot_later and isinstance(one, BELOW)]
        self._painted = QTimer(self, singleShot=True, interval=0)
        self._painted.timeout.connect(self.finish)
        self.scroll_area = QScrollArea()
        self.scroll_area.setWidgetResizable(True)
        self.scroll_area.setAccessibleName(tr("Client"))
        self.scroll_area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        holder = QWidget()
        column = QVBoxLayout(holder)
        column.setContentsMargins(14, 10, 12, 12)
        column.setSpacing(4)
        column.addWidget(self.nobody)
        for section in self.sections:
            column.addWidget(section)
            section.refilled.connect(self._order)
        column.addStretch(1)
        self.scroll_area.setWidget(holder)
        self.stack = QStackedLayout(self)
        self.stack.addWidget(self.scroll_area)
        self.stack.addWidget(self.rail)
        self.fold(False)
        bench.changed.connect(self._changed)
        bench.week_shown.connect(lambda _week: self._show_week())
        self.refresh()

    def section(self, kind: type[Kind]) -> Kind:
        """The section of that kind."""
        return next(section for section in self.sections if isinstance(section, kind))

    def fold(self, folded: bool) -> None:
        """Fold to a rail, or open."""
        self.folded = folded
        self.stack.setCurrentWidget(self.rail if folded else self.scroll_area)
        self.setFixedWidth(RAIL if folded else WIDE)

    def _unfold(self) -> None:
        self.fold(False)
        self.opened.emit()

    def _changed(self, before: Work | None, after: Work | None) -> None:
        self._name()
        self.finish()
        for section in self.sections:
            section.work_changed(before, after)
        if before is None or after is None or before.client.id != after.client.id:
            self.scroll_area.verticalScrollBar().setValue(0)

    def _show_week(self) -> None:
        for section in self.sections:
            if section not in self._waiting:
                section.show_week()

    def refresh(self) -> None:
        """Show the open client."""
        self._name()
        for section in self.sections:
            if section not in self._waiting:
                section.refresh()

    def finish(self) -> None:
        """Show what was left for later."""
        waiting = tuple(self._waiting)
        self._waiting.clear()
        for section in waiting:
            section.refresh()
        if waiting:
            self._name()

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self._waiting:
            self._painted.start()

    def follow(self, before: QWidget) -> None:
        """Let Tab come to the pane from that widget."""
        QWidget.setTabOrder(before, self.rail)
        QWidget.setTabOrder(self.rail, self.scroll_area)
        self._order()

    def _order(self) -> None:
        """Tab goes down the sections, whichever was filled last."""
        stops = [stop for section in self.sections for stop in section.stops()]
        for before, after in pairwise((self.scroll_area, *stops)):
            QWidget.setTabOrder(before, after)

    def _name(self) -> None:
        """Say who is open, or that nobody is."""
        work = self.bench.desk.work
        self.nobody.setVisible(work is None)
        for section in self.sections:
            section.setVisible(work is not None and section not in self._waiting)
        if work is None:
            self.rail.show_words((tr("Client"),))
        else:
            told = tuple(tr(section.word) for section in self.sections if section.word)
            self.rail.show_words((work.client.name, *told))
