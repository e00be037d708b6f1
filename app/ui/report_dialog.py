"""The findings report before it leaves the window: look at it, then keep it or print it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime

from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QVBoxLayout,
    QWidget,
)

from app.booklet import Paper
from app.booklet.report import Report
from app.booklet.report_entries import client_text
from app.domain.mends import Mender
from app.domain.wording import mark, tr
from app.exchange.files import safe_name
from app.exchange.report import Checked, report_text
from app.ui.bench import Bench
from app.ui.forms import button, plain
from app.ui.paper_sheet import PaperSheet

TEXT = mark("Text (*.txt)")


class ReportDialog(PaperSheet):
    """Options left, the pages right, acts at the foot."""

    def __init__(self, bench: Bench, parent: QWidget | None, *, today: date | None = None) -> None:
        super().__init__(
            bench, parent, tr("Findings report"), job_name=tr("Weekloom findings report")
        )
        self.today = today or datetime.now().astimezone().date()
        self.paper = QComboBox()
        self.paper.addItems(["A4", tr("US Letter")])
        self.paper.setMinimumHeight(32)
        self.named = QCheckBox(tr("With the client's name"))
        self.named.setToolTip(
            tr("Otherwise the initials alone stand in the report and its file name")
        )
        self.named.setChecked(True)
        self.text_button = button(tr("Save as text…"), self.save_text)
        self._lay_out()
        self.paper.currentIndexChanged.connect(lambda _k: self.make())
        for box in (self.named, self.grey):
            box.toggled.connect(lambda _on: self.make())
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
        self.put_beside(options, width=230)
        self.foot.insertWidget(2, self.text_button)

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

        report = self.report()
        paper = Paper.A4 if self.paper.currentIndex() == 0 else Paper.LETTER
        grey = self.grey.isChecked()
        mender = Mender(report.program, self.bench.desk.context)
        references = self.bench.shelf.references

        def printed() -> bytes:
            mended = tuple(map(mender.mended, report.findings))
            whole = replace(report, findings=mended)
            return press.print_report(whole, paper=paper, grey=grey, references=references)

        self.start(printed)

    # -- handing on ------------------------------------------------------------------------

    def _who(self) -> str:
        return client_text(self.bench.desk.client, named=self.named.isChecked())

    def _stem(self) -> str:
        return safe_name("findings", self._who(), self.bench.desk.program.name)

    def file_name(self) -> str:
        """'findings-runa-estvik-ridge-season.pdf'."""
        return f"{self._stem()}.pdf"

    def save_text(self) -> None:
        """Ask where to and write the report as plain text; stay open."""
        self.save(self.text().encode(), f"{self._stem()}.txt", tr(TEXT))

    def text(self) -> str:
        """The report as plain text."""
        desk = self.bench.desk
        shorts = {key: one.short for key, one in self.bench.shelf.references.items()}
        client = replace(desk.client, name=self._who())
        return report_text(Checked(client, desk.program, desk.findings, shorts))
