"""The line above the grid: which week is open, and how far an edit reaches."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QLabel, QPushButton, QWidget

from app.domain.program import Program, Role, Span, Week
from app.domain.wording import mark, tr
from app.ui import theme
from app.ui.bench import Bench
from app.ui.forms import Elided
from app.ui.words import DOT, week_span

_TIPS = {
    Span.THIS_WEEK: mark("An edit changes this week alone"),
    Span.FROM_HERE: mark("An edit changes this week and every later one"),
    Span.WHOLE_BLOCK: mark("An edit changes every week of this block"),
    Span.WHOLE_PROGRAM: mark("An edit changes every week of the program"),
}


class WeekHead(QWidget):
    """Title of the open week with the choice of span."""

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self.setObjectName("weekHead")
        self.setMinimumHeight(40)
        self.title = QLabel()
        self.title.setFont(theme.font("title"))
        self.title.setTextFormat(Qt.TextFormat.PlainText)
        self.about = Elided()
        self.reaches = QLabel(tr("An edit reaches"))
        self.reaches.setTextFormat(Qt.TextFormat.PlainText)
        self.reaches.setProperty("role", "small")
        row = QHBoxLayout(self)
        row.setContentsMargins(14, 4, 14, 4)
        row.setSpacing(8)
        row.addWidget(self.title)
        row.addWidget(self.about, 1)
        row.addWidget(self.reaches)
        self.group = QButtonGroup(self)
        self.buttons: dict[Span, QPushButton] = {}
        for span in Span:
            row.addWidget(self._button(span))
        bench.replanned.connect(lambda *_: self.refresh())
        bench.week_shown.connect(lambda _: self.refresh())
        bench.span_chosen.connect(self._tick)
        self._tick(bench.span)
        self.refresh()

    def _button(self, span: Span) -> QPushButton:
        button = QPushButton(tr(span.value))
        button.setCheckable(True)
        button.setAutoExclusive(True)  # told as one of several, not as a box to tick
        button.setMinimumHeight(28)
        button.setToolTip(tr(_TIPS[span]))
        button.setAccessibleName(tr("An edit reaches {span}", span=tr(span.value)))
        button.clicked.connect(lambda: self.bench.choose_span(span))
        self.group.addButton(button)
        self.buttons[span] = button
        return button

    def _tick(self, span: Span) -> None:
        self.buttons[span].setChecked(True)

    def refresh(self) -> None:
        """Show the open week."""
        week = self.bench.open_week
        for button in self.buttons.values():
            button.setEnabled(week is not None)
        if week is None:
            self.title.setText("")
            self.about.setText("")
            return
        program, index = self.bench.desk.program, self.bench.week
        self.title.setText(tr("Week {number}", number=index + 1))
        self.about.setText(_about(program, index, week, short=self.width() < 900))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.reaches.setVisible(self.width() > 720)
        self.refresh()


def _about(program: Program, index: int, week: Week, *, short: bool) -> str:
    number = program.block_of(index)
    place = program.block_range(number).index(index) + 1
    block = program.blocks[number]
    parts = [week_span(program, index, short=short)]
    if not short:
        parts.append(
            tr("{block}, {place} of {weeks}", block=block.name, place=place, weeks=block.weeks)
        )
    reps = core_reps(week)
    if week.light:
        parts.append(tr("light week"))
    if reps:
        parts.append(tr("core work {reps} reps", reps=reps))
    if week.note:
        parts.append(" ".join(week.note.split()))
    return f" {DOT} ".join(parts)


def core_reps(week: Week) -> str:
    """The repetitions of the week's core work, '10' or '8-10'; empty without core work."""
    reps = [slot.reps for slot in week.slots() if slot.role is Role.CORE]
    if not reps:
        return ""
    low, high = min(r.low for r in reps), max(r.high for r in reps)
    return str(low) if low == high else f"{low}\N{EN DASH}{high}"
