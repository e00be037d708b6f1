"""What can be chosen about a booklet, as one column of fields; the choices are remembered."""

from __future__ import annotations

import json
from dataclasses import dataclass

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QFormLayout,
    QListWidget,
    QListWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.booklet import ALL_PARTS, Kind, Options, Paper, Part
from app.domain.client import Client
from app.domain.errors import CoachError
from app.domain.wording import mark, tr
from app.ui.forms import NumberField, Wrapped, plain, text_field
from app.ui.paper_habits import language_box

EXCERPT_WEEKS = 6
"""So many weeks make a first excerpt: enough to begin with, and the rest can still change."""

KINDS = (
    (Kind.BOOKLET, mark("Booklet on paper")),
    (Kind.FORM, mark("Booklet to fill in on a screen")),
    (Kind.WALL, mark("Sheet for the wall")),
)
PAPERS = (
    (Paper.A4, mark("A4")),
    (Paper.LETTER, mark("US Letter")),
    (Paper.A5, mark("A5")),
    (Paper.PHONE, mark("Phone screen")),
)
LOADS = (("kg", mark("In kg")), ("lb", mark("In lb")), ("", mark("Left to be written down")))
PARTS = (
    (Part.READING, mark("How to read it")),
    (Part.LOADS, mark("Where loads come from")),
    (Part.PLATES, mark("Plates for the bar")),
    (Part.GLANCE, mark("Program at a glance")),
    (Part.WARMUP, mark("Warm-up")),
    (Part.WEEKS, mark("The weeks")),
    (Part.EXERCISES, mark("The exercises")),
    (Part.ENERGY, mark("Energy and protein")),
    (Part.REFERENCES, mark("Sources")),
)


FORM_WITHOUT = ALL_PARTS - {Part.READING, Part.WARMUP, Part.WEEKS}
"""What a form does without unless the coach says otherwise: it is filled in beside the booklet."""

_ROW_PX = 34


@dataclass(frozen=True, slots=True)
class Memory:
    """Where the choices are remembered: those for all, and the printed name of one client."""

    choices: str = "booklet choices"
    name: str = "booklet name"

    def name_of(self, client: Client) -> str:
        """The key for a client's printed name."""
        return f"{self.name} {client.id}"


MEMORY = Memory()


class BookletOptions(QWidget):
    """The fields; `changed` says that the pages are to be made anew, `typed` that they soon are."""

    changed = Signal()
    typed = Signal()

    def __init__(
        self, client: Client, weeks: int, *, paper: Paper = Paper.A4, language: str = ""
    ) -> None:
        super().__init__()
        self._usual_paper = paper
        self.language = language_box(language)
        self.client, self.weeks = client, weeks
        self.kind = _combo(KINDS)
        self.paper = _combo(PAPERS)
        self.span = QComboBox()
        self.span.setMinimumHeight(32)
        self.first = NumberField(tr("First week"), low=1, high=weeks, whole=True)
        self.last = NumberField(tr("Last week"), low=1, high=weeks, whole=True)
        self.loads = _combo(LOADS)
        self.grey = _tick(tr("Tones for a grey printer"))
        self.large = _tick(tr("Large print"))
        self.folded = _tick(tr("Two pages on a sheet, to fold"))
        self.folded.setToolTip(
            tr(
                "Sheets in the order in which they fold into a booklet; print on both sides and "
                "turn over the short edge"
            )
        )
        self.spread = _tick(tr("A week on two facing pages"))
        self.spread.setToolTip(tr("Else a week is drawn together on one page where that holds it"))
        self.parts = QListWidget()
        self.parts.setAccessibleName(tr("Parts of the booklet"))
        self.parts.setStyleSheet("QListWidget::item { min-height: 26px; }")
        for part, name in PARTS:
            item = QListWidgetItem(tr(name))
            item.setData(Qt.ItemDataRole.UserRole, part.value)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            self.parts.addItem(item)
        self.parts.setFixedHeight(len(PARTS) * _ROW_PX + 8)
        self._left_out = {kind: frozenset[Part]() for kind in Kind} | {Kind.FORM: FORM_WITHOUT}
        self._shown = Kind.BOOKLET
        self.name = text_field(hint=client.name)
        self.note = Wrapped(role="small")
        self._fill_spans()
        self._lay_out()
        self._start()
        self._listen()

    def _fill_spans(self) -> None:
        """All weeks, the first six, the rest, or as the two fields say."""
        self.span.addItem(tr("All weeks"), (1, self.weeks))
        if self.weeks > EXCERPT_WEEKS:
            first = tr("Weeks {first} to {last}", first=1, last=EXCERPT_WEEKS)
            rest = tr("Weeks {first} to {last}", first=EXCERPT_WEEKS + 1, last=self.weeks)
            self.span.addItem(first, (1, EXCERPT_WEEKS))
            self.span.addItem(rest, (EXCERPT_WEEKS + 1, self.weeks))
        self.span.addItem(tr("Chosen weeks"), None)

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.ExpandingFieldsGrow)
        form.setRowWrapPolicy(QFormLayout.RowWrapPolicy.WrapLongRows)
        form.setVerticalSpacing(8)
        rows: tuple[tuple[str, QWidget], ...] = (
            (tr("Make"), self.kind),
            (tr("Language"), self.language),
            (tr("Paper"), self.paper),
            (tr("Weeks"), self.span),
            (tr("First week"), self.first),
            (tr("Last week"), self.last),
            (tr("Loads"), self.loads),
            (tr("Name printed"), self.name),
        )
        for text, widget in rows:
            label = plain(text)
            label.setBuddy(widget)
            if not widget.accessibleName():
                widget.setAccessibleName(text)
            form.addRow(label, widget)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 4, 0)
        column.setSpacing(8)
        column.addLayout(form)
        for box in (self.large, self.grey, self.spread, self.folded):
            column.addWidget(box)
        label = plain(tr("Parts"))
        label.setBuddy(self.parts)
        column.addWidget(label)
        column.addWidget(self.parts)
        column.addWidget(self.note)

    def _start(self) -> None:
        """The choices of a coach who has made none yet."""
        self.first.set_value(1)
        self.last.set_value(self.weeks)
        self.spread.setChecked(True)
        self.loads.setCurrentIndex(self.loads.findData(self.client.units))
        self.paper.setCurrentIndex(self.paper.findData(self._usual_paper))
        self._tick_parts()
        self._follow()

    def _listen(self) -> None:
        self.kind.currentIndexChanged.connect(lambda _k: self._kind_chosen())
        self.span.currentIndexChanged.connect(lambda _k: self._span_chosen())
        for combo in (self.paper, self.loads, self.language):
            combo.currentIndexChanged.connect(lambda _k: self._tell())
        for box in (self.grey, self.large, self.spread, self.folded):
            box.toggled.connect(lambda _on: self._tell())
        self.parts.itemChanged.connect(lambda _item: self._tell())
        for edit in (self.first.edit, self.last.edit):
            edit.textEdited.connect(lambda _text: self._weeks_typed())
        self.name.textEdited.connect(lambda _text: self.typed.emit())

    def _kind_chosen(self) -> None:
        """A form is meant for a phone unless the coach says otherwise."""
        form = self.chosen_kind is Kind.FORM
        if form is not (self.paper.currentData() is Paper.PHONE):
            self.paper.blockSignals(True)
            self.paper.setCurrentIndex(
                self.paper.findData(Paper.PHONE if form else self._usual_paper)
            )
            self.paper.blockSignals(False)
        self._left_out[self._shown] = ALL_PARTS - set(self._parts())
        self._shown = self.chosen_kind
        self._tick_parts()
        self._tell()

    def _tick_parts(self) -> None:
        """Tick the parts of the kind that is shown."""
        self.parts.blockSignals(True)
        for item in self._items():
            out = Part(item.data(Qt.ItemDataRole.UserRole)) in self._left_out[self._shown]
            item.setCheckState(Qt.CheckState.Unchecked if out else Qt.CheckState.Checked)
        self.parts.blockSignals(False)

    def _span_chosen(self) -> None:
        chosen = self.span.currentData()
        if chosen is None:
            self.first.edit.setFocus()
            return
        self.first.set_value(chosen[0])
        self.last.set_value(chosen[1])
        self._tell()

    def _weeks_typed(self) -> None:
        self.span.blockSignals(True)
        self.span.setCurrentIndex(self.span.count() - 1)
        self.span.blockSignals(False)
        self.typed.emit()

    def _tell(self) -> None:
        self._follow()
        self.changed.emit()

    def _follow(self) -> None:
        """Switch off what means nothing for the kind and the paper, and say why."""
        kind, paper = self.chosen_kind, self.paper.currentData()
        wall = kind is Kind.WALL
        small = paper in (Paper.A5, Paper.PHONE)
        self.large.setEnabled(not wall and not small)
        self.spread.setEnabled(kind is Kind.BOOKLET and not small and not self.large.isChecked())
        self.folded.setEnabled(kind is Kind.BOOKLET and paper is not Paper.PHONE)
        self.parts.setEnabled(not wall)
        self.loads.setEnabled(not wall)
        said = ""
        if kind is Kind.FORM:
            said = tr(
                "The client fills it in, saves it and sends it back. Read it with File, Read a "
                "filled booklet."
            )
        elif small:
            said = tr("Large print and facing pages need A4 or Letter.")
        self.note.setText(said)
        self.note.setVisible(bool(said))

    def _items(self) -> list[QListWidgetItem]:
        return [self.parts.item(row) for row in range(self.parts.count())]

    # -- what was chosen -------------------------------------------------------------------

    def options(self) -> Options:
        """The options as chosen. Raises CoachError for weeks that are not there."""
        first, last = self.first.whole_value(), self.last.whole_value()
        if first > last:
            raise CoachError(
                tr("Week {first} comes after week {last}.", first=first, last=last),
                mend=tr("Put the earlier week first."),
            )
        paper = self.paper.currentData()
        units = self.loads.currentData()
        return Options(
            paper=paper,
            grey=self.grey.isChecked(),
            weeks=(first, last),
            parts=frozenset(self._parts()),
            units="" if units == self.client.units else units,
            loads=bool(units),
            large=self.large.isChecked() and self.large.isEnabled(),
            spread=self.spread.isChecked(),
            kind=self.chosen_kind,
            name=self.printed_name,
        )

    @property
    def chosen_kind(self) -> Kind:
        """What is to be made."""
        return Kind(self.kind.currentData())

    @property
    def is_folded(self) -> bool:
        """True if two pages go on a sheet."""
        return self.folded.isEnabled() and self.folded.isChecked()

    @property
    def printed_name(self) -> str:
        """The name to print in place of the client's; empty for the client's own."""
        return " ".join(self.name.text().split())

    def _parts(self) -> list[Part]:
        return [
            Part(item.data(Qt.ItemDataRole.UserRole))
            for item in self._items()
            if item.checkState() == Qt.CheckState.Checked
        ]

    def remembered(self) -> str:
        """The choices that hold for the next booklet too; weeks and name are not among them."""
        return json.dumps(
            {
                "kind": self.chosen_kind.value,
                "paper": self.paper.currentData().name,
                "grey": self.grey.isChecked(),
                "large": self.large.isChecked(),
                "spread": self.spread.isChecked(),
                "blank": not self.loads.currentData(),
                "without": sorted(part.value for part in ALL_PARTS - set(self._parts())),
            }
        )

    def recall(self, text: str, name: str) -> None:
        """Take up what was remembered; what cannot be read is left as it is."""
        self.name.setText(name)
        try:
            kept = json.loads(text) if text else {}
        except ValueError:
            kept = {}
        if not isinstance(kept, dict):
            return
        self.blockSignals(True)
        # the paper comes after the kind, which chooses one of its own
        self._choose(self.kind, next((k for k in Kind if k.value == kept.get("kind")), None))
        paper = str(kept.get("paper", ""))
        if paper in Paper.__members__ and not getattr(self.client, "paper", ""):
            self._choose(self.paper, Paper[paper])
        for box, key in ((self.grey, "grey"), (self.large, "large"), (self.spread, "spread")):
            if isinstance(kept.get(key), bool):
                box.setChecked(kept[key])
        if kept.get("blank") is True:
            self._choose(self.loads, "")
        without = kept.get("without")
        if isinstance(without, list):
            self._left_out[self._shown] = frozenset(part for part in Part if part.value in without)
        self._tick_parts()
        self.blockSignals(False)
        self._follow()

    def _choose(self, combo: QComboBox, value: object) -> None:
        at = combo.findData(value) if value is not None else -1
        if at >= 0:
            combo.setCurrentIndex(at)


def _tick(text: str) -> QCheckBox:
    box = QCheckBox(text)
    box.setMinimumHeight(26)
    return box


def _combo(rows: tuple[tuple[object, str], ...]) -> QComboBox:
    combo = QComboBox()
    combo.setMinimumHeight(32)
    for value, text in rows:
        combo.addItem(tr(text), value)
    return combo
