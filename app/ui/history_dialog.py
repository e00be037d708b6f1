"""What was done: the steps of this session to go back or on to, and the file's own log."""

from __future__ import annotations

from PySide6.QtGui import QFont
from PySide6.QtWidgets import QWidget

from app.desk import Desk
from app.domain.errors import CoachError
from app.domain.wording import mark, tr, trn
from app.history import Step
from app.ui.bench import Bench
from app.ui.forms import Sheet, plain
from app.ui.lines_table import add_line, choose, chosen, lines_table
from app.ui.words import day_and_month
from db.lines import LogLine
from db.store import Store

STEP_COLUMNS = (mark("Step"), mark("Program"), mark("State"))
LOG_COLUMNS = (mark("What"), mark("When"))
BEGINNING = mark("As it was opened")


class HistoryDialog(Sheet):
    """Steps above, the log of the open program below; the verb goes to the chosen step."""

    def __init__(self, bench: Bench, store: Store, parent: QWidget | None) -> None:
        super().__init__(
            parent,
            tr("History of {client}", client=bench.desk.client.name),
            verb=tr("Go there"),
            about=tr(
                "Choose how far the work is to be done. What lies behind is "
                "undone, what lies before is done again; nothing is lost until "
                "you edit from there."
            ),
        )
        self.bench, self.store = bench, store
        self.steps = lines_table(tr("Steps of this session"), tuple(map(tr, STEP_COLUMNS)))
        self.log = lines_table(tr("Log of the file"), tuple(map(tr, LOG_COLUMNS)))
        self.body.addWidget(plain(tr("This session"), step="head"))
        self.body.addWidget(self.steps, 3)
        self.body.addWidget(plain(tr("Kept in the file"), step="head"))
        self.body.addWidget(self.log, 2)
        self.cancel_button.setText(tr("Close"))
        self._show_steps()
        self._show_log()
        self.steps.currentItemChanged.connect(lambda *_: self._enable())
        self.steps.itemDoubleClicked.connect(lambda *_: self.try_keep())
        self.setMinimumSize(560, 440)
        self.resize(680, 600)
        self._enable()
        self.steps.setFocus()

    def _show_steps(self) -> None:
        """One line for each state that can be gone to, the newest first."""
        history = self.bench.desk.history
        for done in range(len(history.steps), -1, -1):
            step = history.steps[done - 1] if done else None
            label = step.label if step else tr(BEGINNING)
            program = program_name(step) if step else ""
            item = add_line(self.steps, (label, program, state_word(done, history.done)), done)
            if done == history.done:
                font = QFont(item.font(0))
                font.setWeight(QFont.Weight.DemiBold)
                for column in range(len(STEP_COLUMNS)):
                    item.setFont(column, font)
        choose(self.steps, history.done)

    def _show_log(self) -> None:
        desk = self.bench.desk
        lines = self.store.log(desk.program.id) if desk.has_program else ()
        for line in lines:
            add_line(self.log, (line.label, when(line)), None)
        if not lines:
            add_line(self.log, (tr("Nothing has been kept of a program yet."), ""), None)

    @property
    def wanted(self) -> int | None:
        """How many steps are done in the chosen state; None while nothing is chosen."""
        done = chosen(self.steps)
        return done if isinstance(done, int) else None

    def _enable(self) -> None:
        done, now = self.wanted, self.bench.desk.history.done
        self.keep_button.setEnabled(done is not None and done != now)
        if done is None or done == now:
            self.keep_button.setText(tr("Go there"))
        else:
            self.keep_button.setText(verb(done - now))

    def keep(self) -> None:
        """Go to the chosen step. Raises CoachError if it cannot be kept all the way."""
        if self.wanted is None:
            return
        try:
            sentence = went(self.bench.desk, self.wanted)
        except CoachError:
            self._again()
            raise
        self.bench.said.emit(sentence)

    def _again(self) -> None:
        """Show where it stopped."""
        self.steps.clear()
        self._show_steps()


def went(desk: Desk, done: int) -> str:
    """Go to that step and say how far it was. Raises CoachError."""
    back = done < desk.history.done
    count = desk.go_to(done)
    steps = trn("1 step", "{n} steps", count)
    return f"{(tr('Undone') if back else tr('Done again'))}: {steps}"


def verb(by: int) -> str:
    """'Go back 3 steps', 'Go on 1 step'."""
    count = abs(by)
    return tr(
        "Go {tr} {count} step{part}",
        tr=tr("back") if by < 0 else tr("on"),
        count=count,
        part="s" * (count != 1),
    )


def state_word(done: int, now: int) -> str:
    """Whether the state of that many steps is where things stand, lies behind, or was undone."""
    if done == now:
        return "now"
    return "done" if done < now else "undone"


def program_name(step: Step) -> str:
    """The name of the program a step was made in; 'diary' or 'profile' where it stayed."""
    before, after = step.before, step.after
    if before.program == after.program:
        return tr("diary") if before.client == after.client else tr("profile")
    program = step.after.program or step.before.program
    return "" if program is None else program.name


def when(line: LogLine) -> str:
    """'25 Nov 2026, 14:05', in the place's own time."""
    at = line.at.astimezone()
    return f"{day_and_month(at.date(), short=True)} {at.year}, {at:%H:%M}"
