"""The roster read in pieces between events: a list of thousands never holds the window."""

from __future__ import annotations

from datetime import date

from PySide6.QtCore import QObject, QTimer, Signal

from app.domain.client import ClientId
from app.domain.errors import CoachError
from app.ui.roster.finder import Entry, entries
from db.roster import PIECE
from db.store import Store


class RosterReading(QObject):
    """Reads all clients with what they need; a short list at once, a long one piece by piece.

    begun(entries, int): the first piece, and how many clients there are, where more follow.
    told(int, int): so many of so many are read. done(entries): all of them. failed(CoachError).
    """

    begun = Signal(object, int)
    told = Signal(int, int)
    done = Signal(object)
    failed = Signal(object)

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._store: Store | None = None
        self._ids: tuple[ClientId, ...] = ()
        self._at = 0
        self._found: list[Entry] = []
        self._today = date.min
        self._next = QTimer(self)
        self._next.setInterval(0)
        self._next.timeout.connect(self._read_on)

    def begin(self, store: Store, today: date) -> None:
        """Read anew, what needs something `today`. Raises CoachError if it cannot be begun."""
        self._next.stop()
        self._store = store
        self._ids = tuple(line.id for line in store.clients())
        self._at, self._found, self._today = 0, [], today
        self._read_piece()
        if self._at >= len(self._ids):
            self.done.emit(tuple(self._found))
            return
        self.begun.emit(tuple(self._found), len(self._ids))
        self._next.start()

    def _read_piece(self) -> None:
        assert self._store is not None
        piece = self._ids[self._at : self._at + PIECE]
        self._found += entries(self._store.roster(piece), self._today)
        self._at += PIECE

    def _read_on(self) -> None:
        try:
            self._read_piece()
        except CoachError as error:
            self._next.stop()
            self.failed.emit(error)
            return
        if self._at < len(self._ids):
            self.told.emit(self._at, len(self._ids))
            return
        self._next.stop()
        self.done.emit(tuple(self._found))
