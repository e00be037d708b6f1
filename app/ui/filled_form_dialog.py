"""A booklet that came back filled in: exercise by exercise what is taken and what is doubtful."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFileDialog, QHeaderView, QTreeWidgetItem, QWidget

from app.domain.errors import CoachError
from app.domain.form_results import FilledForm, FormLine, Known, look_over, sets_text, strangers
from app.domain.wording import mark, tr, trn
from app.domain.work import Issue
from app.exchange.files import read_file
from app.exchange.filled_form import read_filled_form
from app.exchange.pdf_fields import MOST_BYTES
from app.ui import worker
from app.ui.bench import Bench
from app.ui.forms import Sheet, Wrapped, button, tell
from app.ui.lines_table import KEY, add_line, lines_table
from app.ui.words import day_and_month
from db.errors import Cause, StoreFailure
from db.store import Store

_WIDTHS = (170, 170, 170, 190)
_KNOWN = {Known.NEW: "", Known.SAME: mark("kept already"), Known.OTHER: ""}


class FilledFormDialog(Sheet):
    """The lines of a form to tick: what is plain is ticked, what is doubtful is not."""

    def __init__(
        self,
        bench: Bench,
        parent: QWidget | None,
        lines: tuple[FormLine, ...],
        *,
        units: str,
        odd: int = 0,
    ) -> None:
        super().__init__(
            parent,
            tr("Filled booklet of {client}", client=bench.desk.client.name),
            verb=tr("Keep"),
            about=tr(
                "Nothing is kept before you say so, and nothing that is kept already is replaced "
                "unless you tick it. What could not be read plainly is named and not ticked."
            ),
        )
        self.bench, self.lines = bench, lines
        columns = (tr("Session"), tr("Exercise"), tr("Written"), tr("Taken as"), tr("Doubt"))
        self.table = lines_table(tr("What was filled in"), columns, wide=len(columns) - 1)
        head = self.table.header()
        for column, width in enumerate(_WIDTHS):
            head.setSectionResizeMode(column, QHeaderView.ResizeMode.Interactive)
            head.resizeSection(column, width)
        for at, line in enumerate(lines):
            self._add(at, line, units)
        self.body.addWidget(self.table, 1)
        self.whole = Wrapped()
        self.whole.setAccessibleName(tr("The line in full"))
        self.body.addWidget(self.whole)
        self.summary = Wrapped(role="small")
        self.body.addWidget(self.summary)
        self.odd = odd
        self.all_button = button(tr("Tick all"), lambda: self._tick(sure_only=False))
        self.sure_button = button(tr("Tick what is plain"), lambda: self._tick(sure_only=True))
        self.foot.insertWidget(0, self.all_button)
        self.foot.insertWidget(1, self.sure_button)
        self.table.currentItemChanged.connect(lambda item, _before: self._show(item))
        self.table.itemChanged.connect(lambda _item, _column: self._say())
        self.setMinimumSize(720, 480)
        self.resize(1040, 660)
        self._say()
        if (first := self.table.topLevelItem(0)) is not None:
            self.table.setCurrentItem(first)

    def _show(self, item: QTreeWidgetItem | None) -> None:
        """The chosen line in full, below the table."""
        if item is None:
            return
        written, taken, doubts = (item.text(column) for column in (2, 3, 4))
        self.whole.setText(
            tr(
                "Written: {written}. Taken as: {taken}. Doubt: {doubts}.",
                written=written,
                taken=taken,
                doubts=doubts or tr("none"),
            )
        )

    def _add(self, at: int, line: FormLine, units: str) -> None:
        day = day_and_month(line.result.on, short=True)
        doubts = list(line.doubts)
        if said := _KNOWN[line.known]:
            doubts.append(tr(said))
        taken = sets_text(line.result, units)
        if line.result.note:
            taken = "; ".join(part for part in (taken, f"“{line.result.note}”") if part)
        cells = (
            tr("Week {week}, {day}", week=line.week, day=day),
            line.exercise.name,
            line.written,
            taken or tr("nothing"),
            "; ".join(doubts),
        )
        item = add_line(self.table, cells, at)
        if line.says:
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            item.setCheckState(0, _check(line.sure))

    def _items(self) -> list[QTreeWidgetItem]:
        rows = range(self.table.topLevelItemCount())
        return [item for row in rows if (item := self.table.topLevelItem(row)) is not None]

    def _tick(self, *, sure_only: bool) -> None:
        for item in self._items():
            line = self.lines[item.data(0, KEY)]
            if line.says:
                item.setCheckState(0, _check(line.sure or not sure_only))

    def chosen(self) -> tuple[FormLine, ...]:
        """The lines that are ticked."""
        ticked = (item for item in self._items() if item.checkState(0) == Qt.CheckState.Checked)
        return tuple(line for item in ticked if (line := self.lines[item.data(0, KEY)]).says)

    def _say(self) -> None:
        chosen = self.chosen()
        self.keep_button.setText(trn("Keep {n} result", "Keep {n} results", len(chosen)))
        self.keep_button.setEnabled(bool(chosen))
        doubtful = sum(bool(line.doubts) for line in self.lines)
        same = sum(line.known is Known.SAME for line in self.lines)
        said = [
            trn("{n} exercise was filled in.", "{n} exercises were filled in.", len(self.lines)),
            trn("{n} has a doubt.", "{n} have a doubt.", doubtful),
        ]
        if same:
            said.append(trn("{n} is kept already.", "{n} are kept already.", same))
        if self.odd:
            said.append(
                trn(
                    "{n} set stands in the form that the booklet does not have.",
                    "{n} sets stand in the form that the booklet does not have.",
                    self.odd,
                )
            )
        self.summary.setText(" ".join(said))

    def keep(self) -> None:
        """Keep the ticked results as one step. Raises CoachError if they cannot be kept."""
        desk = self.bench.desk
        results = (line.result for line in self.chosen())
        desk.keep_diary(tr("Take over a filled booklet"), desk.diary.with_results(results))


def _check(on: bool) -> Qt.CheckState:
    return Qt.CheckState.Checked if on else Qt.CheckState.Unchecked


def issue_of(bench: Bench, store: Store, form: FilledForm) -> Issue:
    """The booklet a form was handed out as. Raises CoachError if it is not the open client's."""
    desk = bench.desk
    try:
        issue = store.load_issue(form.issue)
    except StoreFailure as error:
        if error.cause is not Cause.MISSING:
            raise
        raise CoachError(
            tr("This file knows no such booklet."),
            mend=tr("Open the file that it was handed out from."),
        ) from error
    if issue.client.id != desk.client.id:
        raise CoachError(
            tr("The booklet was handed to {name}.", name=issue.client.name),
            mend=tr("Open that client first."),
        )
    return issue


def lines_of(
    bench: Bench, store: Store, form: FilledForm, *, today: date | None = None
) -> tuple[tuple[FormLine, ...], int]:
    """What a form of the open client says, and how many sets in it are none of the booklet's.

    Raises CoachError if the form is another's or says nothing.
    """
    today = today or datetime.now().astimezone().date()
    issue = issue_of(bench, store, form)
    desk = bench.desk
    lines = look_over(form, issue, desk.catalogue, desk.diary, today=today)
    if not lines:
        raise CoachError(
            tr("Nothing is filled in."), mend=tr("Ask the client to save the form and send it.")
        )
    return lines, strangers(form, issue)


def read_filled_booklet(
    bench: Bench, store: Store, window: QWidget
) -> worker.Job[FilledForm] | None:
    """Ask for a booklet that came back, and show what it says, or why it cannot be read."""
    path, _ = QFileDialog.getOpenFileName(window, tr("Read a filled booklet"), "", "PDF (*.pdf)")
    return read_from(bench, store, window, Path(path)) if path else None


def read_from(bench: Bench, store: Store, window: QWidget, path: Path) -> worker.Job[FilledForm]:
    """Read the form off this thread, then show it."""

    def refuse(error: CoachError) -> None:
        tell(window, tr("The booklet was not read"), error.sentence)

    def show(form: FilledForm) -> None:
        try:
            lines, odd = lines_of(bench, store, form)
        except CoachError as error:
            refuse(error)
            return
        FilledFormDialog(bench, window, lines, units=form.units, odd=odd).exec()

    def read() -> FilledForm:
        return read_filled_form(read_file(path, most=MOST_BYTES), where=path.name)

    return worker.start(read, show, refuse)
