"""What a section of the client pane is made of: a head, lines, link buttons, its own redraw.

A section is one module with one class: it says `word` (for the folded rail) and fills itself in
`fill`. It is filled again when what it shows has changed, by `depends_on`; the others stay.
"""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.domain.client import Client
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.forms import Elided, Wrapped, plain


def this_day() -> date:
    """The present day where the coach is."""
    return datetime.now().astimezone().date()


LINKS_PX = 236
"""How wide a row of links may be, px: the pane without its margins and its bar."""


class Section(QWidget):
    """One part of the client pane.

    word: what the folded rail says of it, in the language of the code; empty says nothing.
    column: where `fill` puts its widgets. refilled(): it was filled again.
    """

    refilled = Signal()

    word = ""

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self.bench = bench
        self._outer = QVBoxLayout(self)
        self._outer.setContentsMargins(0, 0, 0, 0)
        self._inner = QWidget()
        self.column = QVBoxLayout(self._inner)
        self._outer.addWidget(self._inner)

    @property
    def today(self) -> date:
        """The present day."""
        return this_day()

    def refresh(self) -> None:
        """Show the open client; nothing while none is open."""
        old, at = self._inner, next((n for n, w in enumerate(self.stops()) if w.hasFocus()), None)
        self._outer.removeWidget(old)
        # a child from the start: what is filled first and put in afterwards leaves the round of Tab
        self._inner = QWidget(self)
        self.column = QVBoxLayout(self._inner)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.setSpacing(4)
        work = self.bench.desk.work
        if work is not None:
            self.fill(work.client)
        self._outer.addWidget(self._inner)
        self._inner.show()  # a layout alone would show it only once the loop runs again
        self.refilled.emit()
        stops = self.stops()
        if at is not None and stops:
            stops[min(at, len(stops) - 1)].setFocus()
        old.hide()
        # a button of the old part may be what called us: it goes once the loop runs again; made
        # parentless until then, it would tear the round of Tab apart
        old.deleteLater()

    def stops(self) -> list[QWidget]:
        """What Tab comes to, from the top down."""
        return [
            widget
            for widget in self._inner.findChildren(QWidget)
            if widget.focusPolicy() & Qt.FocusPolicy.TabFocus
        ]

    def work_changed(self, before: Work | None, after: Work | None) -> None:
        """Fill again if what is shown has changed; else follow the plan."""
        if before is None or after is None or self.depends_on(before) != self.depends_on(after):
            self.refresh()
        else:
            self.show_week()

    # -- for the sections themselves -------------------------------------------------------

    def depends_on(self, work: Work) -> tuple[object, ...]:
        """The values whose change fills the section again, compared by identity or worth."""
        return (id(work.client),)

    def fill(self, client: Client) -> None:
        """Put the section's widgets into `column`; overridden."""

    def show_week(self) -> None:
        """Follow the open week, or the plan as it now is; nothing for most sections."""

    def head(self, title: str, tail: str = "") -> None:
        """A rule, the section's name, and in small what it is counted in."""
        rule = QFrame()
        rule.setProperty("role", "rule")
        rule.setFixedHeight(1)
        self.column.addSpacing(4)
        self.column.addWidget(rule)
        self.column.addSpacing(2)
        row = QHBoxLayout()
        row.addWidget(plain(title, step="head"))
        told = Elided(tail, step="small", role="small")
        told.setAlignment(Qt.AlignmentFlag.AlignRight)
        row.addWidget(told, 1)
        self.column.addLayout(row)

    def line(self, text: str, *, quiet: bool = True) -> QLabel:
        """One wrapped sentence; quiet ones are small."""
        label = Wrapped(text, role="small" if quiet else "")
        label.setMinimumWidth(40)
        self.column.addWidget(label)
        return label

    def links(self, *entries: tuple[str, Callable[[], object]]) -> None:
        """Buttons that look like links, in as many rows as they need; each runs its function."""
        row, left = self._row_of_links(), LINKS_PX
        for text, run in entries:
            made = QPushButton(text)
            made.setProperty("link", True)
            made.setMinimumHeight(24)
            made.clicked.connect(lambda _checked=False, run=run: run())
            made.ensurePolished()
            wide = made.sizeHint().width() + row.spacing()
            if wide > left and row.count() > 1:
                row, left = self._row_of_links(), LINKS_PX
            row.insertWidget(row.count() - 1, made)
            left -= wide

    def _row_of_links(self) -> QHBoxLayout:
        """One more row, empty but for what pushes its buttons to the left."""
        row = QHBoxLayout()
        row.setSpacing(6)
        row.addStretch(1)
        self.column.addLayout(row)
        return row
