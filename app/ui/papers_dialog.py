"""The papers besides the booklet: choose one, look at it, print it or keep it as a PDF file."""

from __future__ import annotations

from datetime import date, datetime

from PySide6.QtWidgets import (
    QComboBox,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app import papers
from app.booklet import Paper
from app.domain.errors import CoachError
from app.domain.wording import mark, tr
from app.exchange.files import safe_name
from app.papers import Kind, Look, Order
from app.ui.bench import Bench
from app.ui.forms import NumberField, Wrapped
from app.ui.paper_habits import LANGUAGE, language_box, language_of, paper_of
from app.ui.paper_sheet import PaperSheet
from app.ui.words import tip

SIZES = ((Paper.A4, "A4"), (Paper.LETTER, mark("US Letter")))


class PapersDialog(PaperSheet):
    """Papers and their options left, pages right, verbs at the foot."""

    def __init__(
        self,
        bench: Bench,
        parent: QWidget | None,
        *,
        key: str = "",
        today: date | None = None,
    ) -> None:
        super().__init__(bench, parent, tr("Other papers"), job_name=tr("Weekloom paper"))
        self.today = today or datetime.now().astimezone().date()
        self.order = self._order()
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
        weeks = len(bench.desk.program.weeks) if bench.desk.has_program else 1
        self.week = NumberField(tr("Week"), low=1, high=weeks, whole=True)
        self.week.set_value(bench.week + 1 if bench.desk.has_program else 1)
        self._lay_out()
        self.kinds.currentRowChanged.connect(lambda _row: self.make())
        self.paper.currentIndexChanged.connect(lambda _k: self.make())
        self.language.currentIndexChanged.connect(lambda _k: self.make())
        self.grey.toggled.connect(lambda _on: self.make())
        self.week.edit.editingFinished.connect(self.make)
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
            references=self.bench.shelf.references,
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
        self.put_beside(left, width=230)

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
        try:
            look = self.look()
        except CoachError as error:
            self.refuse(error)
            return
        order = self.order
        self.start(lambda: kind.make(order, look))

    def file_name(self) -> str:
        """'season-runa-estvik.pdf'."""
        return safe_name(self.kind.stem, self.order.name) + ".pdf"
