"""The evidence of an own exercise: published figures, each with its shipped reference."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFormLayout, QVBoxLayout, QWidget

from app.domain.errors import CoachError
from app.domain.exercise import Activation, Exercise, Muscle
from app.domain.wording import mark, tr, trn
from app.resources import Reference
from app.ui.bench import Bench
from app.ui.forms import button, plain, text_field
from app.ui.library.own_parts import KEY, DeafBox, KinList
from app.ui.library.own_values import LABELS, amplitude_of
from app.ui.library.rows import range_text, study_text

HINT = mark("A figure a row, of this very exercise. Del takes the marked one out.")


def left_behind(pattern: Exercise) -> str:
    """What a changed copy says of the figures it does not take over; empty if there are none."""
    count = len(pattern.activation)
    if not count:
        return ""
    figures = trn("The published figure", "The {n} published figures", count)
    verb = trn("is", "are", count)
    return tr(
        "{figures} of {pattern} {verb} not copied: evidence belongs to what was measured.",
        figures=figures,
        pattern=pattern.name,
        verb=verb,
    )


class FiguresField(QWidget):
    """Published figures: muscle, amplitude, study and detail, added one by one."""

    changed = Signal()

    def __init__(self, bench: Bench) -> None:
        super().__init__()
        self.references = bench.shelf.references
        self.names = {m: n.trade for m, n in bench.shelf.muscles.items()}
        self.muscle = DeafBox(tr("Muscle"), ((name, m.value) for m, name in self.names.items()))
        self.percent = text_field(hint=tr("42 or 29-45"))
        self.study = DeafBox(
            tr("Study"), ((one.short, one.id) for one in _by_short(self.references))
        )
        self._say_titles()
        self.detail = text_field(hint=tr("Site, load, mean or peak"))
        self.add_button = button(tr("Add"), self.add)
        self.add_button.setAutoDefault(False)
        self.list = KinList(tr("Figures"))
        self.list.setWordWrap(True)
        self.list.setFixedHeight(200)
        self._lay_out()
        self.setFocusProxy(self.muscle)
        self.percent.textEdited.connect(lambda _text: self._allow())
        self.list.taken_out.connect(self.changed)
        self._allow()

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.setFieldGrowthPolicy(QFormLayout.FieldGrowthPolicy.AllNonFixedFieldsGrow)
        for name, field in (
            (tr("Muscle"), self.muscle),
            ("% MVIC", self.percent),
            (tr("Study"), self.study),
            (tr("Detail"), self.detail),
        ):
            label = plain(name)
            label.setBuddy(field)
            field.setAccessibleName(name)
            form.addRow(label, field)
        form.addRow("", self.add_button)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addLayout(form)
        column.addWidget(self.list)

    def _say_titles(self) -> None:
        for row in range(self.study.count()):
            title = self.references[self.study.itemData(row)].csl.get("title", "")
            self.study.setItemData(row, str(title), Qt.ItemDataRole.ToolTipRole)

    def _allow(self) -> None:
        self.add_button.setEnabled(bool(self.percent.text().strip()))

    def add(self) -> None:
        """Add the figure typed; one that cannot be read stays in its field."""
        try:
            low, high = amplitude_of(self.percent.text())
        except CoachError:  # the form says it of what `values` refuses
            self.changed.emit()
            return
        self._show(
            Activation(
                Muscle(self.muscle.currentData()),
                low,
                high,
                str(self.study.currentData()),
                self.detail.text().strip(),
            )
        )
        self.percent.clear()
        self.detail.clear()
        self._allow()
        self.changed.emit()

    def _show(self, one: Activation) -> None:
        study = study_text(one.study, self.references)
        said = f"{self.names[one.muscle]} {range_text(one.low, one.high)} %, {study}"
        self.list.addItem(f"{said}, {one.detail}" if one.detail else said)
        self.list.item(self.list.count() - 1).setData(KEY, one)

    def show_values(self, rows: Iterable[Activation]) -> None:
        """Show these figures."""
        self.list.clear()
        for one in rows:
            self._show(one)

    def values(self) -> list[dict[str, object]]:
        """The figures as the shared rules read them.

        Raises CoachError while one is typed that was not added, so that none is lost.
        """
        if typed := self.percent.text().strip():
            amplitude_of(typed)
            raise CoachError(
                tr(
                    "{labels}: {typed} % is not added yet.",
                    labels=tr(LABELS["activation"]),
                    typed=typed[:20],
                ),
                mend=tr("Press Add, or clear the field."),
            )
        return [_row(self.list.item(at).data(KEY)) for at in range(self.list.count())]


def _row(one: Activation) -> dict[str, object]:
    row: dict[str, object] = {"muscle": one.muscle.value, "low": one.low, "high": one.high}
    return row | {"study": one.study, "detail": one.detail}


def _by_short(references: Mapping[str, Reference]) -> list[Reference]:
    return sorted(references.values(), key=lambda one: one.short.casefold())
