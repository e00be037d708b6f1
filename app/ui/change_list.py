"""Findings that an edit would bring and take away, as a short list for dialogs."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from app.domain.findings import Finding
from app.domain.wording import tr, trn
from app.ui import signs, theme
from app.ui.bench import Bench
from app.ui.forms import plain
from app.ui.words import MINUS


class ChangeList(QWidget):
    """'+' rows for findings that would appear, rows struck through for those that would go.

    Alike findings of many weeks are one row with their number.
    """

    def __init__(self, bench: Bench, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.bench = bench
        self.head = plain("", step="head")
        self.list = QListWidget()
        self.list.setAccessibleName(tr("Findings that would change"))
        self.list.setIconSize(QSize(16, 16))
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setMinimumHeight(80)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.head)
        column.addWidget(self.list)

    def show_change(self, gained: tuple[Finding, ...], lost: tuple[Finding, ...]) -> None:
        """Show what would appear and what would go."""
        self.list.clear()
        self.head.setText(_summary(gained, lost))
        for mark, findings in (("+", gained), (MINUS, lost)):
            for finding, count in _grouped(findings):
                times = tr(" · {count} weeks", count=count) if count > 1 else ""
                where = finding.place_text and f" \N{MIDDLE DOT} {finding.place_text}"
                sign = "+ " if mark == "+" else ""
                text = f"{sign}{finding.text}{times or where}"
                item = QListWidgetItem(_icon(finding), text)
                font = item.font()
                font.setStrikeOut(mark == MINUS)
                item.setFont(font)
                verb = tr("would appear") if mark == "+" else tr("would go")
                item.setToolTip(f"{finding.weight.word}, {verb}")
                self.list.addItem(item)


def _grouped(findings: tuple[Finding, ...]) -> list[tuple[Finding, int]]:
    first: dict[tuple[str, str], Finding] = {}
    counts: dict[tuple[str, str], int] = {}
    for finding in findings:
        key = (finding.rule, finding.about)
        first.setdefault(key, finding)
        counts[key] = counts.get(key, 0) + 1
    return [(finding, counts[key]) for key, finding in first.items()]


def _summary(gained: tuple[Finding, ...], lost: tuple[Finding, ...]) -> str:
    if not gained and not lost:
        return tr("No finding would change")
    return trn(
        "{n} finding would appear, {lost} would go",
        "{n} findings would appear, {lost} would go",
        len(gained),
        lost=len(lost),
    )


def _icon(finding: Finding) -> QIcon:
    return QIcon(
        signs.weight_pixmap(
            finding.weight, theme.current(), side=16, ratio=2.0, below=finding.below
        )
    )
