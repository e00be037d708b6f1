"""The papers besides the booklet: choose one, look at it, print it or keep it as a PDF file."""

from __future__ import annotations

from datetime import date, datetime
from pathlib import Path

from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFileDialog,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QProgressBar,
    QVBoxLayout,
    QWidget,
)

from app import papers
from app.booklet import Paper
from app.domain.errors import CoachError
from app.domain.wording import mark, tr
from app.exchange.files import safe_name, write_file
from app.papers import Kind, Look, Order
from app.ui import worker
from app.ui.bench import Bench
from app.ui.forms import NumberField, Sheet, Wrapped, button, plain
from app.ui.paper_habits import LANGUAGE, language_box, language_of, paper_of
from app.ui.paper_view import PaperView
from app.ui.printing import ask_printer, print_on
from app.ui.words import tip

SIZES = ((Paper.A4, "A4"), (Paper.LETTER, mark("US Letter")))


class PapersDialog(Sheet):
    """Papers and their options left, pages right, verbs at the foot."""

    def __init__(
        self,
        bench: Bench,
        parent: QWidget | None,
        *,
        key: str = "",
        today: date | None = None,
    ) -> None:
        super().__init__(parent, tr("Other papers"), verb=tr("Save as PDF…"))
        self.bench = bench
        self.today = today or datetime.now().astimezone().date()
        self.order = self._order()
        self._job: worker.Job[bytes] | None = None
        self.kinds = QListWidget()
        self.kinds.setAccessibleName(tr("Papers"))
        self.kinds.setStyleSheet("QListView::item { min-height: 28px; }")
        for kind in papers.KINDS:
            item = QListWidgetItem(tr(kind.name))
            item.setToolTip(tip(tr(kind.about)))
            self.kinds.addItem(item)
        self.about = Wrapped(role="small")
        self.paper = QComboBox()
        self.paper.setMinimumHeight(32)
        for _, name in SIZES:
            self.paper.addItem(tr(name))
        self._choose_usual()
        self.grey = QCheckBox(tr("Tones for a grey printer"))
        self.grey.setMinimumHeight(24)
        weeks = len(bench.desk.program.weeks) if bench.desk.has_program else 1
        self.week = NumberField(tr("Week"), low=1, high=weeks, whole=True)
        self.week.set_value(bench.week + 1 if bench.desk.has_program else 1)
        self.view = PaperView()
        self.busy = QProgressBar()
        self.busy.setRange(0, 0)
        self.busy.setFixedHeight(6)
        self.busy.setTextVisible(False)
        self.status = plain("", role="small")
        self.print_button = button(tr("Print…"), self.print_pages)
        self._lay_out()
        self.kinds.currentRowChanged.connect(lambda _row: self.make())
        self.paper.currentIndexChanged.connect(lambda _k: self.make())
        self.language.currentIndexChanged.connect(lambda _k: self.make())
        self.grey.toggled.connect(lambda _on: self.make())
        self.week.edit.editingFinished.connect(self.make)
        self.finished.connect(lambda _result: self._let_go())
        self.resize(1060, 780)
        rows = [kind.key for kind in papers.KINDS]
        self.kinds.setCurrentRow(rows.index(key) if key in rows else 0)

    def _choose_usual(self) -> None:
        """The language and size of the client's papers, else the coach's."""
        desk = self.bench.desk
        client = desk.client if desk.work is not None else None
        usual = paper_of(client, desk.store)
        self.paper.setCurrentIndex(next((k for k, (s, _) in enumerate(SIZES) if s is usual), 0))
        spoken = language_of(client, desk.store) if client is not None else ""
        self.language = language_box(spoken or desk.store.setting(LANGUAGE))

    def _order(self) -> Order:
        desk = self.bench.desk
        return Order(
            coach=desk.store.coach(),
            name="" if desk.work is None else desk.client.name,
            issue=desk.draft_issue(self.today) if desk.has_program else None,
            catalogue=desk.catalogue,
            ranges=desk.ranges,
        )

    def _lay_out(self) -> None:
        self.row(tr("Language"), self.language)
        self.row(tr("Paper"), self.paper)
        self.row(tr("Week"), self.week)
        left = QVBoxLayout()
        left.addWidget(self.kinds, 1)
        left.addWidget(self.about)
        self.column.removeItem(self.form)
        left.addLayout(self.form)
        left.addWidget(self.grey)
        holder = QWidget()
        holder.setLayout(left)
        left.setContentsMargins(0, 0, 0, 0)
        holder.setFixedWidth(230)
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(holder)
        row.addWidget(self.view, 1)
        self.body.addLayout(row, 1)
        self.body.addWidget(self.busy)
        self.foot.insertWidget(0, self.status)
        self.foot.insertWidget(2, self.print_button)
        self.cancel_button.setText(tr("Close"))

    @property
    def kind(self) -> Kind:
        """The paper that is chosen."""
        return papers.KINDS[max(0, self.kinds.currentRow())]

    def look(self) -> Look:
        """The look as chosen. Raises CoachError for a week that is not there."""
        week = self.week.whole_value() - 1 if self.kind.weekly else 0
        size = SIZES[self.paper.currentIndex()][0]
        language = str(self.language.currentData())
        return Look(size, self.grey.isChecked(), week, language=language)

    def make(self) -> None:
        """Make the pages anew, off this thread."""
        kind = self.kind
        self.about.setText(tr(kind.about))
        self.form.setRowVisible(self.week, kind.weekly)
        self.show_error("")
        self.status.setText("")
        self._enable(False)
        if self._job is not None:
            self._job.cancel()
        try:
            look = self.look()
        except CoachError as error:
            self._failed(error)
            return
        self.busy.show()
        order = self.order
        self._job = worker.start(lambda: kind.make(order, look), self._made, self._failed)

    def _failed(self, error: CoachError) -> None:
        self.busy.hide()
        self.view.close_paper()
        self.show_error(error.sentence)

    def _made(self, content: bytes) -> None:
        self.busy.hide()
        self.view.show_paper(content)
        self._enable(True)

    def _enable(self, on: bool) -> None:
        self.keep_button.setEnabled(on)
        self.print_button.setEnabled(on)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self.view.turn_by(event):
            super().keyPressEvent(event)

    # -- handing on ------------------------------------------------------------------------

    def try_keep(self) -> None:
        """Ask where to and write the PDF file; stay open."""
        name = safe_name(self.kind.stem, self.order.name) + ".pdf"
        path, _ = QFileDialog.getSaveFileName(self, tr("Save the paper"), name, "PDF (*.pdf)")
        if not path:
            return
        self.show_error("")
        try:
            write_file(Path(path), self.view.content)
        except CoachError as error:
            self.show_error(error.sentence)
            return
        told = tr("Saved: {name}", name=Path(path).name)
        self.bench.said.emit(told)
        self.status.setText(told)

    def print_pages(self) -> None:
        """Show the system's print dialog and print the pages at their exact size."""
        pages = self.view.pages
        if pages is None:
            return
        printer = ask_printer(self, pages, name=tr("Weekloom paper"))
        if printer is None:
            return
        self.show_error("")
        try:
            print_on(printer, pages, grey=self.grey.isChecked())
        except CoachError as error:
            self.show_error(error.sentence)

    def _let_go(self) -> None:
        if self._job is not None:
            self._job.cancel()
        self.view.close_paper()
