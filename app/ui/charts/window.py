"""The charts of the open client in a window of their own, each with its sentences and its table."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from datetime import date, datetime
from pathlib import Path
from typing import Any, TypeVar

from PySide6.QtCore import Qt, QTimer, Signal
from PySide6.QtGui import QCloseEvent, QGuiApplication, QImage, QKeySequence, QShortcut, QShowEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QDialog,
    QFileDialog,
    QHBoxLayout,
    QProgressBar,
    QPushButton,
    QStackedWidget,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.domain.errors import CoachError
from app.domain.trend import Slopes
from app.domain.wording import tr
from app.domain.work import Work
from app.exchange.files import safe_name, write_file
from app.ui import theme, worker
from app.ui.bench import Bench
from app.ui.charts.canvas import Canvas
from app.ui.charts.choices import Choices
from app.ui.charts.data import chart_of
from app.ui.charts.kinds import ACTS, Asked, Chart, Choice, Kind
from app.ui.charts.look import look_of
from app.ui.forms import Wrapped, button, plain
from app.ui.titles import frame_title

T = TypeVar("T")

SETTLE_MS = 60
"""A window that is being sized is drawn anew once it has rested so long."""

FILTERS = ("PNG (*.png)", "SVG (*.svg)", "PDF (*.pdf)")


class ChartsWindow(QDialog):
    """Choices at the left, the chart at the right, what it says and its acts below.

    wanted(key): the form of ACTS that would fill an empty chart.
    """

    wanted = Signal(str)

    def __init__(self, bench: Bench, parent: QWidget | None, *, today: date | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self.chart: Chart | None = None
        self.choices = Choices(today or datetime.now().astimezone().date())
        self.canvas = Canvas()
        self.table = QTableWidget()
        self.table.setTabKeyNavigation(False)  # Tab goes on; arrows walk over the table
        self.text = Wrapped()
        self.busy = QProgressBar()
        self.wrong = Wrapped(role="wrong")
        self._job: worker.Job[tuple[Chart, QImage | None]] | None = None
        self._saving: worker.Job[Any] | None = None
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(SETTLE_MS)
        self._timer.timeout.connect(self.draw)
        self._dress()
        self._lay_out()
        self.choices.changed.connect(self.draw)
        self.canvas.resized.connect(self._timer.start)
        bench.changed.connect(self._changed)
        self.resize(1040, 680)
        self._fill()

    def _dress(self) -> None:
        self.title = plain("", step="title")
        self.table.setEditTriggers(QTableWidget.EditTrigger.NoEditTriggers)
        self.table.setAccessibleName(tr("The chart as a table"))
        self.table.verticalHeader().hide()
        self.pages = QStackedWidget()
        self.pages.addWidget(self.canvas)
        self.pages.addWidget(self.table)
        self.busy.setRange(0, 0)
        self.busy.setFixedHeight(4)
        self.busy.setTextVisible(False)
        policy = self.busy.sizePolicy()
        policy.setRetainSizeWhenHidden(True)
        self.busy.setSizePolicy(policy)
        self.busy.setAccessibleName(tr("The chart is being drawn"))
        self.wrong.hide()
        self.named = QCheckBox(tr("With the client's name"))
        self.named.setToolTip(tr("In pictures that are copied or saved, and in their file names"))
        self.as_table = QPushButton(tr("As a table"))
        self.as_table.setCheckable(True)
        self.as_table.setMinimumHeight(32)
        self.as_table.setAutoDefault(False)
        self.as_table.toggled.connect(self._show_table)
        self.act_button = button("", self._act)
        self.act_button.hide()
        self.copy_button = button(tr("Copy picture"), self.copy)
        self.save_button = button(tr("Save…"), self.save)
        keys = (("Ctrl+T", self.as_table.toggle), ("Ctrl+C", self.copy), ("Ctrl+S", self.save))
        for sequence, run in keys:
            QShortcut(QKeySequence(sequence), self).activated.connect(run)
        self.as_table.setToolTip(tr("The numbers of this chart (Ctrl+T)"))
        self.copy_button.setToolTip(tr("As a picture on white (Ctrl+C)"))
        self.save_button.setToolTip(tr("As PNG, SVG or PDF (Ctrl+S)"))

    def _lay_out(self) -> None:
        self.choices.setFixedWidth(230)
        said = QWidget()  # room for three lines, so that the chart keeps its size whatever is said
        said.setMinimumHeight(3 * self.text.fontMetrics().lineSpacing())
        lines = QVBoxLayout(said)
        lines.setContentsMargins(0, 0, 0, 0)
        lines.addWidget(self.text)
        lines.addStretch(1)
        right = QVBoxLayout()
        right.setSpacing(6)
        right.addWidget(self.title)
        right.addWidget(self.busy)
        right.addWidget(self.pages, 1)
        right.addWidget(self.act_button, 0, Qt.AlignmentFlag.AlignHCenter)
        right.addWidget(said)
        right.addWidget(self.wrong)
        foot = QHBoxLayout()
        foot.addWidget(self.as_table)
        foot.addWidget(self.named)
        foot.addStretch(1)
        for each in (self.copy_button, self.save_button, button(tr("Close"), self.close)):
            foot.addWidget(each)
        right.addLayout(foot)
        row = QHBoxLayout(self)
        row.setContentsMargins(16, 14, 16, 14)
        row.setSpacing(16)
        row.addWidget(self.choices)
        row.addLayout(right, 1)

    # -- what is open ------------------------------------------------------------------------

    def _asked(self) -> Asked | None:
        desk = self.bench.desk
        if desk.work is None:
            return None
        program = desk.work.program
        return Asked(desk.client, program, desk.diary, desk.catalogue)

    def _with_printed(self, asked: Asked) -> Asked:
        """With what was handed out, for the chart of loads: none else needs a booklet opened.

        Raises StoreError.
        """
        program, tonnage = asked.program, self.choices.choice().kind is Kind.TONNAGE
        if program is None or not tonnage:
            return asked
        printed = self.bench.desk.handed_out().begun(program, self.choices.today)
        return replace(asked, printed=printed)

    def _fill(self) -> None:
        asked = self._asked()
        if asked is not None:
            self.choices.fill(asked)
            self.setWindowTitle(frame_title(self, tr("Charts of {name}", name=asked.client.name)))

    def _changed(self, before: Work | None, after: Work | None) -> None:
        if not self.isVisible():
            return
        if after is None:
            self.close()
            return
        if before is None or before.client.id != after.client.id:
            self.choices.forget()
        self._fill()
        self.draw()

    def choose(self, kind: Kind) -> None:
        """Show that chart."""
        self.choices.choose(kind)

    # -- drawing -----------------------------------------------------------------------------

    def draw(self) -> None:
        """Work the chart out and draw it, both off this thread."""
        asked = self._asked()
        if asked is None or not self.isVisible():
            return
        self._timer.stop()
        if self._job is not None:
            self._job.cancel()
        try:
            asked = self._with_printed(asked)
        except CoachError as error:
            self._failed(error)
            return
        choice, size, ratio = self.choices.choice(), self.canvas.size(), self.devicePixelRatioF()
        points = theme.font("body").pointSizeF()
        look = look_of(theme.current(), type_pt=points * 96 / 72 * 0.75 if points > 0 else 10.0)

        def drawn() -> tuple[Chart, QImage | None]:
            from app.ui.charts.rendering import picture

            chart = worked_out(asked, choice)
            return chart, None if chart.empty else picture(chart, look, size, ratio)

        self._set_busy(True)
        self._job = worker.start(drawn, self._show, self._failed)

    def _set_busy(self, on: bool) -> None:
        self.busy.setVisible(on)
        for each in (self.copy_button, self.save_button, self.as_table):
            each.setEnabled(not on)
        if on and self.canvas.image is None:
            self.canvas.say(tr("Drawing…"), name=tr("Chart"))

    def _show(self, drawn: tuple[Chart, QImage | None]) -> None:
        chart, image = drawn
        self._job = None
        self.chart = chart
        self._set_busy(False)
        self.title.setText(chart.title)
        self.text.setText("" if chart.empty else chart.text)
        if image is None:
            self.canvas.say(chart.empty, name=chart.title)
        else:
            self.canvas.show_image(image, name=chart.title, text=chart.text)
        self.act_button.setVisible(bool(chart.empty and chart.act))
        self.act_button.setText(tr(ACTS.get(chart.act, "")))
        for each in (self.copy_button, self.save_button, self.as_table):
            each.setEnabled(not chart.empty)
        if chart.empty:
            self.as_table.setChecked(False)
        self._fill_table(chart)

    def _act(self) -> None:
        """Ask for the form that fills the empty chart."""
        if self.chart is not None:
            self.wanted.emit(self.chart.act)

    def _failed(self, error: CoachError) -> None:
        self._job = None
        self._set_busy(False)
        self.show_error(error.sentence)

    def show_error(self, sentence: str) -> None:
        """Show a sentence under the chart; an empty one takes it away."""
        self.wrong.setText(sentence)
        self.wrong.setVisible(bool(sentence))

    # -- the table ---------------------------------------------------------------------------

    def _fill_table(self, chart: Chart) -> None:
        self.table.clear()
        self.table.setColumnCount(len(chart.head))
        self.table.setHorizontalHeaderLabels(list(chart.head))
        self.table.setRowCount(len(chart.rows))
        for row, cells in enumerate(chart.rows):
            for column, text in enumerate(cells):
                item = QTableWidgetItem(text)
                if column:
                    side = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
                    item.setTextAlignment(side)
                self.table.setItem(row, column, item)
        self.table.resizeColumnsToContents()

    def _show_table(self, on: bool) -> None:
        self.pages.setCurrentWidget(self.table if on else self.canvas)
        self.as_table.setText(tr("As a chart") if on else tr("As a table"))
        if not on and self.canvas.image is None and self.chart is None:
            self.draw()

    # -- handing on --------------------------------------------------------------------------

    def _handed_title(self, chart: Chart) -> str:
        if not self.named.isChecked():
            return chart.title
        return tr("{name}. {title}", name=self.bench.desk.client.name, title=chart.title)

    def copy(self) -> None:
        """Put the chart on the clipboard as a picture on white."""
        from app.ui.charts.rendering import copy_picture

        chart = self.chart
        if chart is None or chart.empty:
            return
        title = self._handed_title(chart)
        self._hand_on(lambda: copy_picture(chart, title=title), self._copied)

    def _copied(self, image: QImage) -> None:
        QGuiApplication.clipboard().setImage(image)
        self.bench.said.emit(tr("The chart is on the clipboard."))

    def save(self) -> None:
        """Ask where to, and write the chart as PNG, SVG or PDF: beside it first, then renamed."""
        from app.ui.charts.rendering import FORMATS, file_bytes

        chart = self.chart
        if chart is None or chart.empty:
            return
        title = self._handed_title(chart)
        name = safe_name(title) + ".png"
        asked, chosen = QFileDialog.getSaveFileName(
            self, tr("Save the chart"), name, ";;".join(FILTERS)
        )
        if not asked:
            return
        path, kind = Path(asked), Path(asked).suffix.lower().removeprefix(".")
        if kind not in FORMATS:
            kind = FORMATS[FILTERS.index(chosen)] if chosen in FILTERS else FORMATS[0]
            path = path.with_name(f"{path.name}.{kind}")

        def written() -> str:
            write_file(path, file_bytes(chart, kind, title=title))
            return path.name

        self._hand_on(
            written, lambda name: self.bench.said.emit(tr("Chart saved: {file}", file=name))
        )

    def _hand_on(self, work: Callable[[], T], done: Callable[[T], object]) -> None:
        """Do the work off this thread; what cannot be done is said under the chart."""
        self.show_error("")
        self.busy.show()

        def over(value: T) -> None:
            self.busy.hide()
            done(value)

        def failed(error: CoachError) -> None:
            self.busy.hide()
            self.show_error(error.sentence)

        self._saving = worker.start(work, over, failed)

    # -- coming and going --------------------------------------------------------------------

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._fill()
        self.canvas.say(tr("Drawing…"), name=tr("Chart"))
        self._timer.start()  # once the window itself has been painted

    def closeEvent(self, event: QCloseEvent) -> None:
        self._let_go()
        super().closeEvent(event)

    def reject(self) -> None:
        self._let_go()
        super().reject()

    def _let_go(self) -> None:
        self._timer.stop()
        for job in (self._job, self._saving):
            if job is not None:
                job.cancel()
        self._job = self._saving = None


def worked_out(asked: Asked, choice: Choice) -> Chart:
    """The chart as values, with the robust regression of a statistics library."""
    return chart_of(asked, choice, robust_line)


def robust_line(y: Sequence[float], x: Sequence[float]) -> Slopes:
    """The library's line; it is read when the first trend is wanted, as it costs a second."""
    from scipy.stats import theilslopes

    line: Slopes = theilslopes(y, x)
    return line
