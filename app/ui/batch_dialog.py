"""Booklets for many clients in one go: who, how, where to; then progress and a summary."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date, datetime
from functools import partial
from pathlib import Path

from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFileDialog,
    QHBoxLayout,
    QLineEdit,
    QWidget,
)

from app import batch
from app.batch import Order
from app.booklet import Options, Paper
from app.domain.client import Stage
from app.domain.errors import CoachError
from app.domain.wording import mark, tr, trn
from app.domain.work import Issue
from app.ui import worker
from app.ui.bench import Bench
from app.ui.coach_sheet import kept_mark
from app.ui.forms import NumberField, button, plain, text_field
from app.ui.in_turn import InTurn
from app.ui.paper_habits import LANGUAGE, language_box, paper_of
from app.ui.tick_list import TickList, TickModel
from app.ui.words import STAGE_WORDS
from db.across import NewestLine
from db.store import Store

PAPERS = ((Paper.A4, mark("A4")), (Paper.LETTER, mark("US Letter")), (Paper.A5, mark("A5")))
FOLDER = "booklets folder"
"""The setting that remembers where the last booklets went."""
ANY = "any"


class BatchDialog(InTurn):
    """Clients to tick, options, a folder; one booklet after the other, each off this thread."""

    def __init__(
        self, bench: Bench, store: Store, parent: QWidget | None, *, today: date | None = None
    ) -> None:
        super().__init__(
            bench,
            parent,
            tr("Booklets for many"),
            verb=tr("Make booklets"),
            about=tr(
                "The newest program of each client. Hand out only what you have checked; nothing "
                "that stands in the folder is overwritten."
            ),
        )
        self.store = store
        self.today = today or datetime.now().astimezone().date()
        self._asked: list[int] = []
        self._made: list[int] = []
        self._failed = 0
        self._build_options()
        self.model = TickModel(
            (tr("Client"), tr("Program"), tr("Weeks"), tr("Booklet")), _cells, _words
        )
        ticks = TickList(tr("Clients"), self.model, letters=(26, 30, 10))
        ticks.head.setText(tr("Tick who gets one"))
        self.add_list(ticks, progress=tr("Booklets made"))
        lines = store.newest_programs()
        self._build_choices(lines)
        ticks.show_things(lines)
        if not lines:
            self.show_error(tr("No client has a program yet. Plan one first."))
        self.pattern.textChanged.connect(lambda _text: self.say())
        self.setMinimumSize(640, 560)
        self.resize(860, 740)

    def _build_options(self) -> None:
        self.paper = QComboBox()
        for paper, name in PAPERS:
            self.paper.addItem(tr(name), paper)
        self.paper.setToolTip(tr("Where a client's profile names a paper, that one is taken"))
        self.paper.setMinimumHeight(32)
        self.paper.setCurrentIndex(self.paper.findData(paper_of(None, self.store)))
        self.language = language_box("", usual=tr("Each client's own language"))
        self.grey = QCheckBox(tr("Tones for a grey printer"))
        self.grey.setMinimumHeight(24)
        self.first = NumberField(tr("First week"), low=1, high=52, whole=True, optional=True)
        self.last = NumberField(tr("Last week"), low=1, high=52, whole=True, optional=True)
        for week in (self.first, self.last):
            week.setMaximumWidth(130)
        self.kept = QCheckBox(tr("Keep each as handed out today"))
        self.kept.setMinimumHeight(24)
        self.kept.setChecked(True)
        self.pattern = text_field(batch.PATTERN)
        self.example = plain("", role="small")
        self.folder = QLineEdit(self.store.setting(FOLDER) or str(Path.home()))
        self.folder.setMinimumHeight(32)
        choose = button(tr("Choose…"), self.choose_folder)
        where = _side_by_side(self.folder, choose, wide=self.folder)
        self.folder.setAccessibleName(tr("Folder"))
        self.row(tr("Paper"), self.paper)
        self.row(tr("Language"), self.language)
        self.row(tr("Weeks (empty: all)"), _side_by_side(self.first, plain(tr("to")), self.last))
        self.row(tr("Folder"), where)
        self.row(tr("File names"), self.pattern)
        self.form.addRow("", self.example)
        self.form.addRow("", _side_by_side(self.grey, self.kept))

    def _build_choices(self, lines: tuple[NewestLine, ...]) -> None:
        self.stage, self.tag = QComboBox(), QComboBox()
        self.stage.setAccessibleName(tr("Stage"))
        self.stage.addItem(tr("all stages"), ANY)
        for stage, word in STAGE_WORDS.items():
            self.stage.addItem(tr(word), stage.value)
        self.tag.setAccessibleName(tr("Tag"))
        self.tag.addItem(tr("all tags"), ANY)
        tags = sorted({tag for line in lines for tag in line.tags})
        for tag in tags:
            self.tag.addItem(tag, [tag])
        self.tag.setEnabled(bool(tags))
        for box in (self.stage, self.tag):
            box.setMinimumHeight(32)
            box.currentIndexChanged.connect(lambda _at: self._narrow())
            self.ticks.narrow.addWidget(box)

    def _narrow(self) -> None:
        stage, tag = self.stage.currentData(), self.tag.currentData()
        at = None if stage == ANY else Stage(stage)
        with_tag = None if tag == ANY else tag[0]
        self.ticks.suits = lambda line: (
            (at is None or line.stage is at) and (with_tag is None or with_tag in line.tags)
        )
        self.ticks.look()

    def choose_folder(self) -> None:
        """Ask for the folder."""
        found = QFileDialog.getExistingDirectory(
            self, tr("Folder for the booklets"), self.folder.text()
        )
        if found:
            self.folder.setText(found)

    def say(self) -> None:
        """Say how many booklets would be made, and what the first would be called."""
        rows = self.model.ticked
        self.keep_button.setText(trn("Make {n} booklet", "Make {n} booklets", len(rows)))
        self.keep_button.setEnabled(bool(rows) and not self.running)
        try:
            example = self._example(self.model.things[rows[0]] if rows else None)
        except CoachError as error:
            self.example.setText(error.what)
            return
        self.example.setText(example)

    def _example(self, line: NewestLine | None) -> str:
        pattern = batch.require_pattern(self.pattern.text())
        if line is None:
            return ""
        parts = {
            "client": line.client_name,
            "program": line.program_name,
            "date": self.today.isoformat(),
            "weeks": f"1-{line.weeks}",
        }
        return tr("For example {name}", name=batch.stem_of(pattern, parts) + ".pdf")

    # -- making ----------------------------------------------------------------------------

    def order(self) -> Order:
        """What is to be made, as chosen. Raises CoachError."""
        first, last = self.first.value(), self.last.value()
        weeks = None
        if first is not None or last is not None:
            weeks = (int(first or 1), int(last or 52))
            if weeks[0] > weeks[1]:
                raise CoachError(
                    tr("Week {first} comes after week {last}.", first=weeks[0], last=weeks[1]),
                    mend=tr("Put the earlier week first."),
                )
        folder = Path(self.folder.text().strip())
        if not self.folder.text().strip() or not folder.is_dir():
            raise CoachError(
                tr("There is no such folder."),
                where=self.folder.text(),
                mend=tr("Choose one that is there."),
            )
        paper: Paper = self.paper.currentData()
        return Order(
            folder=folder,
            options=Options(paper=paper, grey=self.grey.isChecked(), weeks=weeks),
            pattern=batch.require_pattern(self.pattern.text()),
            on=self.today,
            bind=self._binding(),
            keep=self.kept.isChecked(),
        )

    def _binding(self) -> Callable[[Issue, Options], bytes]:
        """What binds an issue, in any thread: all that the store knows of it is read here."""
        desk, mark = self.bench.desk, kept_mark(self.store)
        for_all, usual = self.language.currentData(), self.store.setting(LANGUAGE)
        references = self.bench.shelf.references

        def bind(issue: Issue, options: Options) -> bytes:
            from app import press

            language = for_all or issue.client.language or usual
            return press.bind(
                issue,
                desk.catalogue,
                desk.ranges,
                options=options,
                mark=mark,
                language=language,
                references=references,
            )

        return bind

    def try_keep(self) -> None:
        """Make what is ticked; stay open for the summary."""
        self.show_error("")
        try:
            order = self.order()
        except CoachError as error:
            self.show_error(error.sentence)
            return
        self.store.set_setting(FOLDER, str(order.folder))
        self._asked, self._made, self._failed = self.model.ticked, [], 0
        self.model.tell(self._asked, "")
        self.begin(partial(self._make, row, order) for row in self._asked)

    def held(self) -> tuple[QWidget, ...]:
        """What cannot be changed while booklets are made."""
        return self.folder, self.pattern, self.kept

    def _make(self, row: int, order: Order) -> None:
        self.ticks.tell(row, tr("being made…"))
        try:
            issue, options = batch.prepare(
                self.store,
                self.bench.desk.catalogue,
                self.model.things[row],
                order,
                coach=self.store.coach(),
            )
        except CoachError as error:
            self._told(row, error)
            return
        self.job = worker.start(
            lambda: order.bind(issue, options),
            lambda content: self._put(row, issue, content, order=order),
            lambda error: self._told(row, error),
        )

    def _put(self, row: int, issue: Issue, content: bytes, *, order: Order) -> None:
        try:
            self._told(row, batch.put(self.store, issue, content, order=order))
        except CoachError as error:
            self._told(row, error)

    def _told(self, row: int, outcome: Path | CoachError) -> None:
        if isinstance(outcome, CoachError):
            self._failed += 1
            self.ticks.tell(row, outcome.sentence)
        else:
            self._made.append(row)
            self.ticks.tell(row, outcome.name)
        self.step_over()

    def summed_up(self) -> list[str]:
        """How many booklets there are, and how many there are not."""
        said = [trn("{n} booklet made.", "{n} booklets made.", len(self._made))]
        if self._failed:
            said.append(
                trn(
                    "{n} could not be made; its line says why.",
                    "{n} could not be made; their lines say why.",
                    self._failed,
                )
            )
        return said

    def after_all(self) -> None:
        """Take the ticks of those that were made, so that the others can be tried again."""
        self.model.tell((row for row in self._asked if not self.model.told(row)), tr("not made"))
        self.model.tick(self._made, on=False)


def _side_by_side(*widgets: QWidget, wide: QWidget | None = None) -> QWidget:
    """The widgets in one line, which a label beside it takes for the first of them.

    wide: the one that takes the room that is left.
    """
    holder = QWidget()
    line = QHBoxLayout(holder)
    line.setContentsMargins(0, 0, 0, 0)
    line.setSpacing(12)
    for widget in widgets:
        line.addWidget(widget, int(widget is wide))
    if wide is None:
        line.addStretch(1)
    holder.setFocusProxy(widgets[0])
    return holder


def _cells(line: NewestLine) -> tuple[str, ...]:
    return line.client_name, line.program_name, str(line.weeks)


def _words(line: NewestLine) -> str:
    return " ".join((line.client_name, line.program_name, line.team, *line.tags))
