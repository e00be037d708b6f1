"""The first interview, page by page: it can be left at any time, and what was entered is kept.

Its pages are the forms that the client pane opens one by one, so nothing is asked in two ways.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QDateEdit,
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from app.domain.errors import CoachError
from app.domain.wording import mark, tr
from app.ui.bench import Bench
from app.ui.client.days import DaysSheet
from app.ui.client.energy import EnergySheet
from app.ui.client.equipment import EquipmentSheet
from app.ui.client.profile import ProfileSheet
from app.ui.client.screening import ScreeningSheet
from app.ui.client.section import this_day
from app.ui.client.strength_test import TestSheet
from app.ui.client.wishes import WishesSheet
from app.ui.forms import NumberField, Sheet, Wrapped, button, plain

Make = Callable[[Bench, QWidget], Sheet]


@dataclass(frozen=True, slots=True)
class Page:
    """A page: what it is called, how its form is made, and what is said above it.

    asked: where nothing was touched, a tick is needed before the page is kept.
    """

    name: str
    make: Make
    about: str = ""
    asked: bool = False


def _person(bench: Bench, parent: QWidget) -> Sheet:
    new = isinstance(parent, Interview) and parent.new
    return ProfileSheet(bench, parent, None if new else bench.desk.client, part="person")


def _training(bench: Bench, parent: QWidget) -> Sheet:
    return ProfileSheet(bench, parent, bench.desk.client, part="training")


PAGES: tuple[Page, ...] = (
    Page(mark("Person"), _person, mark("A name is enough; everything else can follow later.")),
    Page(
        mark("Screening"),
        lambda bench, parent: ScreeningSheet(bench, parent, today=this_day()),
        asked=True,
    ),
    Page(mark("Training and goals"), _training),
    Page(mark("Places and equipment"), EquipmentSheet),
    Page(mark("Days"), DaysSheet),
    Page(mark("Wishes"), WishesSheet),
    Page(
        mark("Strength test"),
        lambda bench, parent: TestSheet(bench, parent, today=this_day()),
        mark("Leave it empty if nothing was tested yet."),
    ),
    Page(mark("Food"), lambda bench, parent: EnergySheet(bench, parent, today=this_day())),
)


class Interview(Sheet):
    """One page after the other; going on, back or away keeps the page that is left.

    new: the interview began without a client; the first page makes one.
    """

    def __init__(self, bench: Bench, parent: QWidget | None, *, new: bool = False) -> None:
        super().__init__(parent, tr("Interview"), verb=tr("Keep and go on"))
        self.bench, self.new = bench, new
        self.at = 0
        self.page: Sheet | None = None
        self._as_made: tuple[object, ...] = ()
        self._warned = False
        self.steps = QListWidget()
        self.steps.setAccessibleName(tr("Pages of the interview"))
        self.steps.setFixedWidth(190)
        for number, page in enumerate(PAGES, start=1):
            item = QListWidgetItem(f"{number}  {tr(page.name)}")
            item.setSizeHint(QSize(0, 30))
            self.steps.addItem(item)
        self.about = Wrapped(role="small")
        self.about.setContentsMargins(20, 0, 0, 0)
        self.asked = QCheckBox(tr("All of these questions were asked today"))
        self.asked.setMinimumHeight(24)
        self.asked.setStyleSheet("margin-left: 20px;")
        self.holder = QScrollArea()
        self.holder.setWidgetResizable(True)
        self.holder.setAccessibleName(tr("The page"))
        self.back_button = button(tr("Back"), lambda: self.go_to(self.at - 1))
        self.skip_button = button(tr("Leave this page out"), self.skip)
        self._lay_out()
        self.steps.itemClicked.connect(lambda _item: self.go_to(self.steps.currentRow()))
        self.setMinimumSize(900, 560)
        self.resize(1200, 720)
        self._show(0)

    def _lay_out(self) -> None:
        right = QVBoxLayout()
        right.addWidget(self.about)
        right.addWidget(self.asked)
        right.addWidget(self.holder, 1)
        row = QHBoxLayout()
        row.setSpacing(16)
        row.addWidget(self.steps)
        row.addLayout(right, 1)
        self.body.addLayout(row, 1)
        self.cancel_button.setText(tr("Leave"))
        self.cancel_button.setToolTip(tr("What was entered so far is kept"))
        self.foot.insertWidget(self.foot.indexOf(self.help_button) + 1, self.skip_button)
        self.foot.insertWidget(self.foot.indexOf(self.cancel_button), self.back_button)
        self.body.addWidget(
            plain(tr("You can leave at any time: every page is kept as you go."), role="small")
        )

    # -- pages -----------------------------------------------------------------------------

    def _show(self, at: int) -> None:
        """Put the form of a page on show, with what is known by now."""
        self.at = at
        page = PAGES[at]
        made = self._embedded(page.make(self.bench, self))
        self.page = made
        self.holder.setWidget(_with_room(made))  # the page before goes with it
        made.show()
        self._as_made = entries(made)
        self._warned = False
        self.show_error("")
        self.steps.setCurrentRow(at)
        self.about.setText(tr(page.about) if page.about else "")
        self.about.setVisible(bool(page.about))
        self.asked.setChecked(False)
        self.asked.setVisible(page.asked)
        last = at == len(PAGES) - 1
        self.keep_button.setText(tr("Keep and finish") if last else tr("Keep and go on"))
        self.back_button.setEnabled(at > 0)
        self.skip_button.setEnabled(self._has_client)
        first = next((f for f in made.findChildren(QWidget) if _takes_keys(f)), None)
        if first is not None:
            first.setFocus()

    def _embedded(self, sheet: Sheet) -> Sheet:
        """The form as a part of this dialog: its own verbs are out of sight."""
        sheet.setWindowFlags(Qt.WindowType.Widget)
        sheet.setModal(False)
        for verb in (sheet.keep_button, sheet.cancel_button):
            verb.hide()
            verb.setDefault(False)
        sheet.reject = self.reject  # type: ignore[method-assign]  # Esc leaves, as everywhere
        return sheet

    @property
    def _has_client(self) -> bool:
        return self.bench.desk.work is not None and not (self.new and self.at == 0)

    @property
    def touched(self) -> bool:
        """True if something was entered on the page, or it was said to be asked."""
        return self.page is not None and (
            entries(self.page) != self._as_made or self.asked.isChecked()
        )

    # -- going -----------------------------------------------------------------------------

    def try_keep(self) -> None:
        """Keep the page and go on; finish after the last one."""
        if not self._keep_page():
            return
        if self.at + 1 < len(PAGES):
            self._show(self.at + 1)
        else:
            self.accept()

    def skip(self) -> None:
        """Go on without what stands on this page."""
        if self.at + 1 < len(PAGES):
            self._show(self.at + 1)
        else:
            self.accept()

    def go_to(self, at: int) -> None:
        """Show another page, once this one is kept."""
        if at != self.at and 0 <= at < len(PAGES) and self._keep_page():
            self._show(at)
        self.steps.setCurrentRow(self.at)

    def reject(self) -> None:
        """Leave. What stands on the page is kept; where it cannot be, that is said first."""
        if self.touched and not self._warned and not self._keep_page():
            self._warned = True
            self.show_error(
                tr(
                    "{why} Leave once more to go without this page.",
                    why=self.wrong.text(),
                )
            )
            return
        super().reject()

    def _keep_page(self) -> bool:
        """Keep what stands on the page; False, with a sentence, where it cannot be.

        An untouched page is left as it is, but nobody is made without a name.
        """
        page = self.page
        assert page is not None
        self.show_error("")
        first = self.new and self.at == 0
        if not self.touched and not first:
            return True
        try:
            page.keep()
            if first and isinstance(page, ProfileSheet):
                self.bench.desk.add_client(page.client)
                self.new = False
        except CoachError as error:
            self.show_error(error.sentence)
            return False
        self._as_made = entries(page)
        return True


def _with_room(page: Sheet) -> QWidget:
    """The form at the top of its place, and a list as tall as there is room."""
    holder = QWidget()
    column = QVBoxLayout(holder)
    column.setContentsMargins(0, 0, 0, 0)
    tall = isinstance(page, WishesSheet)
    column.addWidget(page, 1 if tall else 0)
    if not tall:
        column.addStretch(1)
    return holder


def entries(page: QWidget) -> tuple[object, ...]:
    """What stands in every field of a form, to see whether something was entered."""
    found: list[object] = []
    for child in page.findChildren(QWidget):
        if isinstance(child, QDateEdit):
            found.append(child.date())
        elif isinstance(child, QLineEdit):
            found.append(child.text())
        elif isinstance(child, QCheckBox):
            found.append(child.isChecked())
        elif isinstance(child, QComboBox):
            found.append(child.currentIndex())
    if isinstance(page, WishesSheet):
        found.append(page.wishes)
    if isinstance(page, EquipmentSheet):
        found.append(tuple(page.reaches))
    return tuple(found)


def _takes_keys(widget: QWidget) -> bool:
    return isinstance(widget, QLineEdit | QCheckBox | NumberField) and widget.isVisible()
