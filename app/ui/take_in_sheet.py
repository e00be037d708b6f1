"""Taking in a whole export in the place of the open file."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtWidgets import QWidget

from app.desk import Desk
from app.domain.wording import tr, trn
from app.ui.busy_sheet import BusySheet
from app.ui.forms import Wrapped
from app.whole import TakenIn, import_whole
from db.store import Store


class TakeInSheet(BusySheet):
    """Says what it would do, and does it."""

    def __init__(self, desk: Desk, store: Store, source: Path, parent: QWidget | None) -> None:
        super().__init__(
            parent,
            tr("Take in a whole export"),
            verb=tr("Take it in"),
            progress=tr("Taking in"),
            about=str(source),
        )
        self.desk, self.store, self.source = desk, store, source
        self.body.addWidget(
            Wrapped(
                tr(
                    "What the export holds takes the place of everything in your file. Your file "
                    "as it is now is put aside as a copy first. Undo does not reach across it."
                )
            )
        )
        self.setMinimumWidth(520)
        self.cancel_button.setFocus()

    def try_keep(self) -> None:
        """Start; the sheet closes when it is done."""
        self.work(self._take_in, self._taken_in)

    def _take_in(self) -> TakenIn:
        assert self.store.path is not None
        done = import_whole(self.source, self.store.path, key=self.store.key, replacing=True)
        self.store.open_again()
        return done

    def _taken_in(self, done: TakenIn) -> str:
        self.desk.close()
        self.desk.forget_all_steps()
        return _summary(done)


def _summary(done: TakenIn) -> str:
    parts = [trn("The file now holds {n} client.", "The file now holds {n} clients.", done.clients)]
    if done.aside is not None:
        parts.append(tr("The file as it was: {place}.", place=done.aside))
    if done.pictures_left:
        parts.append(
            trn(
                "{n} picture could not be written.",
                "{n} pictures could not be written.",
                done.pictures_left,
            )
        )
    parts.append(tr("Own exercises and ranges show after the next start."))
    return " ".join(parts)
