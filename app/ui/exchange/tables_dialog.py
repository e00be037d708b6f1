"""Saving weeks, sets per muscle and results of the open program as a workbook or as CSV."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QComboBox, QFileDialog, QMessageBox, QProgressBar, QWidget

from app.domain.errors import CoachError
from app.domain.wording import language, tr, trn
from app.exchange.tables.csv_file import STYLES, Style, usual_style
from app.exchange.tables.csv_file import SUFFIX as CSV
from app.table_files import LABELS, XLSX, Content, Source, file_name, files_for, rendered, written
from app.ui import worker
from app.ui.bench import Bench
from app.ui.forms import Sheet, Wrapped, plain
from app.ui.words import list_of


class TablesDialog(Sheet):
    """Which tables, in which form; then where to."""

    def __init__(self, bench: Bench, parent: QWidget | None) -> None:
        super().__init__(
            parent,
            tr("Save as a table"),
            verb=tr("Save…"),
            about=tr("For a spreadsheet program. No cell of it is a formula."),
        )
        self.bench = bench
        self._job: worker.Job[tuple[tuple[Path, bytes], ...]] | None = None
        desk = bench.desk
        self.source = Source(desk.client, desk.program, desk.diary, desk.catalogue)
        self.form_box = QComboBox()
        self.form_box.setMinimumHeight(32)
        self.form_box.addItem(tr("XLSX workbook, a sheet for each table"), None)
        usual = usual_style(language().decimal)
        for style in sorted(STYLES, key=lambda one: one is not usual):
            self.form_box.addItem(tr("CSV: {style}", style=tr(style.label)), style.key)
        self.row(tr("Form"), self.form_box)
        self.body.addWidget(plain(tr("What goes in"), step="head"))
        self.boxes = {content: self._box(content) for content in Content}
        for box in self.boxes.values():
            self.body.addWidget(box)
        self.boxes[Content.PLAN].setChecked(True)
        self.boxes[Content.TALLY].setChecked(True)
        self.note = Wrapped(
            tr(
                "The table holds the client's loads, notes and results. Send it as you would send "
                "those."
            ),
            role="small",
        )
        self.body.addWidget(self.note)
        self.body.addStretch(1)
        self.busy = QProgressBar()
        self.busy.setRange(0, 0)
        self.busy.setFixedHeight(6)
        self.busy.setTextVisible(False)
        self.busy.hide()
        self.body.addWidget(self.busy)
        self.finished.connect(lambda _result: self._let_go())
        self.setMinimumWidth(460)
        self.form_box.setFocus()

    def _box(self, content: Content) -> QCheckBox:
        box = QCheckBox(tr(LABELS[content]))
        box.setMinimumHeight(28)
        box.toggled.connect(lambda _on: self._allow())
        if content is Content.RESULTS and not self.source.diary.results_of(self.source.program.id):
            box.setText(tr("Results: none yet"))
            box.setEnabled(False)
        return box

    def _allow(self) -> None:
        self.keep_button.setEnabled(any(box.isChecked() for box in self.boxes.values()))

    def wanted(self) -> tuple[Content, ...]:
        """The tables that are ticked."""
        return tuple(content for content, box in self.boxes.items() if box.isChecked())

    def style_chosen(self) -> Style | None:
        """The style of CSV files, None for a workbook."""
        key = self.form_box.currentData()
        return next((style for style in STYLES if style.key == key), None)

    def try_keep(self) -> None:
        """Ask where to, make the tables off this thread, and write them."""
        self.show_error("")
        style, wanted = self.style_chosen(), self.wanted()
        suffix = XLSX if style is None else CSV
        kinds = tr("Workbooks (*.xlsx)") if style is None else tr("CSV files (*.csv)")
        chosen, _ = QFileDialog.getSaveFileName(
            self, tr("Save as a table"), file_name(self.source, suffix), kinds
        )
        if not chosen:
            return
        path = Path(chosen)
        if not path.suffix:
            path = path.with_name(path.name + suffix)
        paths = files_for(path, wanted, style)
        if len(paths) > 1 and not may_replace([one for one in paths if one.exists()], self):
            return
        self._set_busy(True)
        source = self.source
        self._job = worker.start(
            lambda: rendered(path, source, wanted, style), self._made, self._failed
        )

    def _set_busy(self, on: bool) -> None:
        self.busy.setVisible(on)
        self.keep_button.setEnabled(not on)

    def _made(self, files: tuple[tuple[Path, bytes], ...]) -> None:
        self._set_busy(False)
        try:
            paths = written(files)
        except CoachError as error:
            self.show_error(error.sentence)
            return
        names = list_of([path.name for path in paths])
        said = trn("Table saved: {names}", "Tables saved: {names}", len(paths), names=names)
        self.bench.said.emit(said)
        self.accept()

    def _failed(self, error: CoachError) -> None:
        self._set_busy(False)
        self.show_error(error.sentence)

    def _let_go(self) -> None:
        if self._job is not None:
            self._job.cancel()


def may_replace(paths: list[Path], parent: QWidget) -> bool:
    """True if none of the files is there, or the coach lets them be written over."""
    if not paths:
        return True
    box = QMessageBox(parent)
    box.setWindowTitle(tr("Write over files"))
    box.setIcon(QMessageBox.Icon.Question)
    box.setTextFormat(Qt.TextFormat.PlainText)
    shown = [path.name for path in paths[:4]]
    if len(paths) > len(shown):
        shown.append(tr("{n} more", n=len(paths) - len(shown)))
    names = list_of(shown)
    box.setText(
        trn("{names} is there already.", "{names} are there already.", len(paths), names=names)
    )
    replacing = box.addButton(tr("Write over"), QMessageBox.ButtonRole.DestructiveRole)
    leave = box.addButton(tr("Cancel"), QMessageBox.ButtonRole.RejectRole)
    box.setDefaultButton(leave)
    box.setEscapeButton(leave)
    box.exec()
    return box.clickedButton() == replacing
