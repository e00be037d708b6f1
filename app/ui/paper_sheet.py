"""What every dialog that ends in a paper shares: pages made apart, looked at, kept and printed.

A dialog adds its options and says what the pages are made from; the rest is here.
"""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QFileDialog,
    QHBoxLayout,
    QLayout,
    QProgressBar,
    QWidget,
)

from app.domain.errors import CoachError
from app.domain.wording import tr
from app.exchange.files import write_file
from app.ui import worker
from app.ui.bench import Bench
from app.ui.forms import Sheet, button, plain
from app.ui.paper_view import PaperView
from app.ui.printing import ask_printer, print_on

PDF = "PDF (*.pdf)"


class PaperSheet(Sheet):
    """Options left, pages right, verbs at the foot; it stays open when the paper is kept.

    job_name: of the print job, which names no client. grey: the box for tones of a grey printer,
    where the options have one already.
    """

    def __init__(
        self,
        bench: Bench,
        parent: QWidget | None,
        title: str,
        *,
        job_name: str,
        grey: QCheckBox | None = None,
    ) -> None:
        super().__init__(parent, title, verb=tr("Save as PDF…"))
        self.bench, self.job_name = bench, job_name
        self._job: worker.Job[bytes] | None = None
        self.grey = grey or QCheckBox(tr("Tones for a grey printer"))
        self.grey.setMinimumHeight(24)
        self.view = PaperView()
        self.busy = QProgressBar()
        self.busy.setRange(0, 0)
        self.busy.setFixedHeight(6)
        self.busy.setTextVisible(False)
        self.busy.hide()
        self.status = plain("", role="small")
        self.status.setWordWrap(True)
        self.print_button = button(tr("Print…"), self.print_pages)
        self.finished.connect(lambda _result: self.let_go())

    def put_beside(self, options: QLayout, *, width: int) -> None:
        """Lay the options left of the pages, `width` px wide."""
        options.setContentsMargins(0, 0, 0, 0)
        holder = QWidget()
        holder.setLayout(options)
        holder.setFixedWidth(width)
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(holder)
        row.addWidget(self.view, 1)
        self.body.addLayout(row, 1)
        self.body.addWidget(self.busy)
        self.foot.insertWidget(0, self.status)
        self.foot.insertWidget(2, self.print_button)
        self.cancel_button.setText(tr("Close"))

    # -- overridden ------------------------------------------------------------------------

    def file_name(self) -> str:
        """The name that a file of the paper is offered under."""
        return "paper.pdf"

    def is_folded(self) -> bool:
        """True if the pages lie on sheets that fold into a booklet."""
        return False

    def handed_on(self) -> None:
        """What follows once the paper is kept or printed. Raises CoachError."""

    # -- making ----------------------------------------------------------------------------

    def start(self, work: Callable[[], bytes]) -> None:
        """Make the pages anew off this thread; what was being made is dropped."""
        self.show_error("")
        self.status.setText("")
        self.enable(False)
        if self._job is not None:
            self._job.cancel()
        self.busy.show()
        self._job = worker.start(work, self.show_made, self._failed)

    def show_made(self, content: bytes) -> None:
        """Show the pages that were made."""
        self._job = None
        self.busy.hide()
        self.view.show_paper(content)
        self.enable(True)

    def _failed(self, error: CoachError) -> None:
        self.view.close_paper()
        self.refuse(error)

    def refuse(self, error: CoachError) -> None:
        """Say why no pages can be made; those that are shown stay, but are not handed on."""
        if self._job is not None:
            self._job.cancel()
        self._job = None
        self.busy.hide()
        self.enable(False)
        self.show_error(error.sentence)

    def enable(self, on: bool) -> None:
        """Let the pages be kept and printed, or not."""
        self.keep_button.setEnabled(on)
        self.print_button.setEnabled(on)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self.view.turn_by(event):
            super().keyPressEvent(event)

    # -- handing on ------------------------------------------------------------------------

    def try_keep(self) -> None:
        """Ask where to and write the PDF file; stay open."""
        if self.save(self.view.content, self.file_name(), PDF):
            self._hand_on()

    def _hand_on(self) -> None:
        try:
            self.handed_on()
        except CoachError as error:
            self.show_error(error.sentence)

    def save(self, content: bytes, name: str, kind: str) -> bool:
        """Ask where to and write a file; an error is shown, and the dialog stays open.

        True once the file is there.
        """
        path, _ = QFileDialog.getSaveFileName(self, self.windowTitle(), name, kind)
        if not path:
            return False
        self.show_error("")
        try:
            write_file(Path(path), content)
        except CoachError as error:
            self.show_error(error.sentence)
            return False
        told = tr("Saved: {name}", name=Path(path).name)
        self.bench.said.emit(told)
        self.status.setText(told)
        return True

    def print_pages(self) -> None:
        """Show the system's print dialog and print the pages at their exact size."""
        pages = self.view.pages
        if pages is None:
            return
        printer = ask_printer(self, pages, name=self.job_name, folded=self.is_folded())
        if printer is None:
            return
        self.show_error("")
        try:
            print_on(printer, pages, grey=self.grey.isChecked())
        except CoachError as error:
            self.show_error(error.sentence)
            return
        self._hand_on()

    def let_go(self) -> None:
        """Drop what is being made, and the pages."""
        if self._job is not None:
            self._job.cancel()
        self.view.close_paper()
