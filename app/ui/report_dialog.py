"""The findings report before it leaves the window: look at it, then keep it or print it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from pathlib import Path

from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFileDialog,
    QHBoxLayout,
    QVBoxLayout,
    QWidget,
)

from app.booklet import Paper
from app.booklet.report import Report
from app.booklet.report_entries import client_text
from app.domain.errors import CoachError
from app.domain.mends import Mender
from app.domain.wording import mark, tr
from app.exchange.files import safe_name, write_file
from app.exchange.report import Checked, report_text
from app.ui import worker
from app.ui.bench import Bench
from app.ui.forms import Sheet, button, plain
from app.ui.paper_view import PaperView
from app.ui.printing import ask_printer, print_on

FILES = ("PDF (*.pdf)", mark("Text (*.txt)"))


class ReportDialog(Sheet):
    """Options left, the pages right, acts at the foot."""

    def __init__(self, bench: Bench, parent: QWidget | None, *, today: date | None = None) -> None:
        super().__init__(parent, tr("Findings report"), verb=tr("Save as PDF…"))
        self.bench = bench
        self.today = today or datetime.now().astimezone().date()
        self.view = PaperView()
        self._job: worker.Job[bytes] | None = None
        self.paper = QComboBox()
        self.paper.addItems(["A4", tr("US Letter")])
        self.paper.setMinimumHeight(32)
        self.named = QCheckBox(tr("With the client's name"))
        self.named.setToolTip(
            tr("Otherwise the initials alone stand in the report and its file name")
        )
        self.named.setChecked(True)
        self.grey = QCheckBox(tr("Tones for a grey printer"))
        self.place = plain("", role="small")
        self.text_button = button(tr("Save as text…"), self.save_text)
        self.print_button = button(tr("Print…"), self.print_pages)
        self._lay_out()
        self.paper.currentIndexChanged.connect(lambda _k: self.make())
        for box in (self.named, self.grey):
            box.toggled.connect(lambda _on: self.make())
        self.finished.connect(lambda _result: self._let_go())
        self.resize(980, 780)
        self.make()

    def _lay_out(self) -> None:
        self.row(tr("Paper"), self.paper)
        options = QVBoxLayout()
        self.column.removeItem(self.form)
        options.addLayout(self.form)
        options.addWidget(self.named)
        options.addWidget(self.grey)
        note = plain(
            tr(
                "For a colleague's review: every finding and every acceptance with "
                "its reason. Ask the client before you hand on what is theirs."
            ),
            role="small",
        )
        note.setWordWrap(True)
        options.addWidget(note)
        options.addStretch(1)
        holder = QWidget()
        holder.setLayout(options)
        holder.setFixedWidth(230)
        row = QHBoxLayout()
        row.setSpacing(12)
        row.addWidget(holder)
        row.addWidget(self.view, 1)
        self.body.addLayout(row, 1)
        self.foot.insertWidget(0, self.place)
        self.foot.insertWidget(2, self.text_button)
        self.foot.insertWidget(3, self.print_button)
        self.cancel_button.setText(tr("Close"))

    # -- making ----------------------------------------------------------------------------

    def report(self) -> Report:
        """The report as chosen."""
        desk = self.bench.desk
        return Report(
            desk.client,
            desk.program,
            desk.findings,
            self.today,
            coach=desk.store.coach().name,
            named=self.named.isChecked(),
        )

    def make(self) -> None:
        """Make the pages anew, off this thread."""
        from app import press

        self.show_error("")
        self._enable(False)
        if self._job is not None:
            self._job.cancel()
        report = self.report()
        paper = Paper.A4 if self.paper.currentIndex() == 0 else Paper.LETTER
        grey = self.grey.isChecked()
        mender = Mender(report.program, self.bench.desk.context)

        def printed() -> bytes:
            mended = tuple(map(mender.mended, report.findings))
            return press.print_report(replace(report, findings=mended), paper=paper, grey=grey)

        self._job = worker.start(printed, self._made, self._failed)

    def _made(self, content: bytes) -> None:
        self.view.show_paper(content)
        self.place.setText("")
        self._enable(True)

    def _failed(self, error: CoachError) -> None:
        self.show_error(error.sentence)

    def _enable(self, on: bool) -> None:
        for each in (self.keep_button, self.print_button):
            each.setEnabled(on)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if not self.view.turn_by(event):
            super().keyPressEvent(event)

    # -- handing on ------------------------------------------------------------------------

    def _who(self) -> str:
        return client_text(self.bench.desk.client, named=self.named.isChecked())

    def _save(self, content: bytes, kind: str, suffix: str) -> None:
        name = safe_name("findings", self._who(), self.bench.desk.program.name) + suffix
        path, _ = QFileDialog.getSaveFileName(self, tr("Save the findings report"), name, kind)
        if not path:
            return
        try:
            write_file(Path(path), content)
        except CoachError as error:
            self.show_error(error.sentence)
            return
        self.bench.said.emit(tr("Findings report saved: {path}", path=Path(path).name))
        self.place.setText(tr("Saved: {path}", path=Path(path).name))

    def try_keep(self) -> None:
        """Ask where to and write the PDF file; stay open."""
        self._save(self.view.content, tr(FILES[0]), ".pdf")

    def save_text(self) -> None:
        """Ask where to and write the report as plain text; stay open."""
        self._save(self.text().encode(), tr(FILES[1]), ".txt")

    def text(self) -> str:
        """The report as plain text."""
        from app import press

        desk = self.bench.desk
        shorts = {key: cited.short for key, cited in press.citations().items()}
        client = replace(desk.client, name=self._who())
        return report_text(Checked(client, desk.program, desk.findings, shorts))

    def print_pages(self) -> None:
        """Show the system's print dialog and print the pages at their exact size."""
        pages = self.view.pages
        if pages is None:
            return
        printer = ask_printer(self, pages, name=tr("Weekloom findings report"))
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
