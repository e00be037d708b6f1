"""Erasing a client in two steps: what goes and what stays, then once more with the name."""

from __future__ import annotations

from PySide6.QtCore import QDateTime, QLocale
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QRadioButton,
    QStackedWidget,
    QVBoxLayout,
    QWidget,
)

from app.desk import Desk
from app.domain.client import ClientId
from app.domain.wording import tr, trn
from app.erasure import (
    Copy,
    Erased,
    Wish,
    copies_with,
    erase,
    held_on,
    pictures_of,
    put_away,
    spared_pictures,
)
from app.ui.busy_sheet import BusySheet
from app.ui.forms import Wrapped, button, plain
from db.store import Store

MOST_LISTED = 8


class EraseDialog(BusySheet):
    """The two steps, one after the other in the same place; the client is gone after the second."""

    def __init__(
        self, desk: Desk, store: Store, client_id: ClientId, parent: QWidget | None
    ) -> None:
        self.held = held_on(store, client_id)
        super().__init__(
            parent,
            tr("Erase {name}", name=self.held.name),
            verb=tr("Go on to the last step…"),
            progress=tr("Files done"),
        )
        self.desk, self.store, self.client_id = desk, store, client_id
        self.copies = copies_with(store, client_id)
        self.pictures = len(pictures_of(store, client_id))
        self.steps = QStackedWidget()
        self.wishes: dict[Wish, QRadioButton] = {}
        self.steps.addWidget(self._first_step())
        self.steps.addWidget(self._last_step())
        self.body.addWidget(self.steps, 1)
        self.back_button = button(tr("Back"), self.back)
        self.back_button.hide()
        self.foot.insertWidget(1, self.back_button)
        self.cancel_button.setText(tr("Keep the client"))
        self.setMinimumWidth(600)
        self.cancel_button.setFocus()

    # -- the two steps ---------------------------------------------------------------------

    def _first_step(self) -> QWidget:
        page, column = _page()
        column.addWidget(plain(tr("This goes, and cannot be brought back"), step="head"))
        column.addWidget(Wrapped(self._what_goes()))
        column.addWidget(plain(tr("Copies beside the file"), step="head"))
        if self.copies:
            self._list_copies(column)
        else:
            column.addWidget(Wrapped(tr("No copy beside the file holds this client.")))
        column.addWidget(plain(tr("This stays, and is out of reach"), step="head"))
        column.addWidget(
            Wrapped(
                tr(
                    "Printed booklets; booklets, plans and tables that you saved as files; copies "
                    "of the file on other disks; and what other clients' notes say of the person. "
                    "Look for those yourself."
                )
            )
        )
        column.addStretch(1)
        return page

    def _what_goes(self) -> str:
        held = self.held
        parts = [
            tr("The profile with its notes, limitations, screenings and consent"),
            trn("{n} strength test", "{n} strength tests", held.tests),
            trn("{n} program", "{n} programs", held.programs),
            trn("{n} booklet as handed out", "{n} booklets as handed out", held.issues),
            trn("{n} check-in", "{n} check-ins", held.check_ins),
            trn("{n} result", "{n} results", held.results),
            trn("{n} picture", "{n} pictures", self.pictures),
            trn("{n} line of the list of edits", "{n} lines of the list of edits", held.edits),
        ]
        return tr("{things}, and everything that undo could bring back.", things=", ".join(parts))

    def _list_copies(self, column: QVBoxLayout) -> None:
        column.addWidget(Wrapped(self._copies_text()))
        group = QButtonGroup(self)
        for wish, text in (
            (Wish.REWRITE, tr("Rewrite them without the client")),
            (Wish.DELETE, tr("Delete these copies, with all other clients in them")),
            (Wish.LEAVE, tr("Leave them: they can still bring the client back")),
        ):
            choice = QRadioButton(text)
            choice.setMinimumHeight(24)
            group.addButton(choice)
            column.addWidget(choice)
            self.wishes[wish] = choice
        self.wishes[Wish.REWRITE].setChecked(True)

    def _copies_text(self) -> str:
        holding = [copy for copy in self.copies if copy.readable]
        parts = []
        if holding:
            parts.append(
                trn(
                    "{n} copy still holds the client: {days}.",
                    "{n} copies still hold the client: {days}.",
                    len(holding),
                    days=_days(holding),
                )
            )
        if closed := [copy for copy in self.copies if not copy.readable]:
            parts.append(
                trn(
                    "{n} copy cannot be looked into (damaged, or another passphrase): {days}.",
                    "{n} copies cannot be looked into (damaged, or another passphrase): {days}.",
                    len(closed),
                    days=_days(closed),
                )
            )
        return " ".join(parts)

    def _last_step(self) -> QWidget:
        page, column = _page()
        column.addWidget(
            Wrapped(
                tr(
                    "The next press erases {name} for good. No undo and no command brings the "
                    "client back.",
                    name=self.held.name,
                ),
                step="head",
            )
        )
        column.addWidget(Wrapped(self._what_goes()))
        self.last_words = Wrapped()
        column.addWidget(self.last_words)
        column.addStretch(1)
        return page

    def _wish_text(self) -> str:
        if not self.copies:
            return ""
        match self.wish:
            case Wish.REWRITE:
                return tr("The copies beside the file are rewritten without the client.")
            case Wish.DELETE:
                return tr("The copies that hold the client are deleted, with all others in them.")
            case _:
                return tr("The copies beside the file stay and still hold the client.")

    def back(self) -> None:
        """Show the first step again."""
        self._show_step(0)

    def _show_step(self, number: int) -> None:
        self.steps.setCurrentIndex(number)
        self.back_button.setVisible(number == 1)
        self.last_words.setText(self._wish_text())
        self.keep_button.setText(
            tr("Erase {name}", name=self.held.name) if number else tr("Go on to the last step…")
        )
        # a second Enter must not do it
        (self.back_button if number else self.cancel_button).setFocus()
        self.keep_button.setAutoDefault(number == 0)
        self.keep_button.setDefault(number == 0)

    # -- doing it --------------------------------------------------------------------------

    @property
    def wish(self) -> Wish:
        """What is to become of the copies."""
        return next((w for w, choice in self.wishes.items() if choice.isChecked()), Wish.LEAVE)

    def try_keep(self) -> None:
        """Go on to the last step, or from there erase, off this thread."""
        if self.steps.currentIndex() == 0:
            self.show_error("")
            self._show_step(1)
            return
        # read here: the erasing is done in another thread
        wish, spare = self.wish, spared_pictures(self.desk, self.client_id)
        self.work(
            lambda: erase(self.store, self.client_id, copies=self.copies, wish=wish, spare=spare),
            self._erased,
        )

    def verbs(self) -> tuple[QWidget, ...]:
        """What cannot be pressed while the client is erased."""
        return *super().verbs(), self.back_button

    def _erased(self, erased: Erased) -> str:
        put_away(self.desk, self.client_id)
        return summary(erased)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.cancel_button.setFocus()  # the pages take the focus when they are shown


def summary(erased: Erased) -> str:
    """What was done and what is left, in a few sentences without the client's name."""
    parts = [tr("The client is erased from the file.")]
    if erased.rewritten:
        parts.append(
            trn("{n} copy was rewritten.", "{n} copies were rewritten.", len(erased.rewritten))
        )
    if erased.deleted:
        parts.append(trn("{n} copy was deleted.", "{n} copies were deleted.", len(erased.deleted)))
    if erased.left:
        names = ", ".join(path.name for path in erased.left)
        parts.append(tr("These copies hold the client still, or may: {names}.", names=names))
    if erased.pictures_left:
        parts.append(
            trn(
                "{n} picture could not be removed from the folder beside the file.",
                "{n} pictures could not be removed from the folder beside the file.",
                erased.pictures_left,
            )
        )
    if erased.mentions:
        parts.append(
            trn(
                "The name still stands in {n} text of other clients or of yours.",
                "The name still stands in {n} texts of other clients or of yours.",
                erased.mentions,
            )
        )
    return " ".join(parts)


def _page() -> tuple[QWidget, QVBoxLayout]:
    page = QWidget()
    column = QVBoxLayout(page)
    column.setContentsMargins(0, 0, 0, 0)
    column.setSpacing(8)
    return page, column


def _moment(copy: Copy) -> QDateTime:
    return QDateTime.fromSecsSinceEpoch(int(copy.at.timestamp()))


def _days(copies: list[Copy]) -> str:
    """The days and times of the copies, the newest first, cut after a few."""
    locale = QLocale()
    newest = sorted(copies, key=lambda copy: copy.at, reverse=True)
    told = [
        locale.toString(_moment(copy), QLocale.FormatType.ShortFormat)
        for copy in newest[:MOST_LISTED]
    ]
    if len(newest) > MOST_LISTED:
        told.append(trn("{n} more", "{n} more", len(newest) - MOST_LISTED))
    return "; ".join(told)
