"""The account a number gives of itself, in a small sheet beside it."""

from __future__ import annotations

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtWidgets import QFrame, QGridLayout, QLayout, QVBoxLayout, QWidget

from app.domain.wording import tr
from app.domain.working import UNSOURCED, Working
from app.ui.accounts import Account
from app.ui.bench import Bench
from app.ui.forms import plain

LONGEST_VALUE = 26
"""Letters of a value that stand in one line: longer ones would part the columns."""


class WorkingPopup(QFrame):
    """Title, lines of label, value and remark, and the sources; Esc or a click closes it."""

    def __init__(self, bench: Bench, working: Working, parent: QWidget, *, extra: str = "") -> None:
        super().__init__(parent, Qt.WindowType.Popup)
        self.setFrameShape(QFrame.Shape.Box)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(tr("How {working} came about", working=working.title))
        column = QVBoxLayout(self)
        column.setContentsMargins(14, 10, 14, 12)
        column.setSpacing(6)
        # its size is what its words need, also once they are dressed in their fonts
        column.setSizeConstraint(QLayout.SizeConstraint.SetFixedSize)
        column.addWidget(plain(working.title, step="head"))
        if working.about:
            column.addWidget(plain(working.about, role="small"))
        grid = QGridLayout()
        grid.setHorizontalSpacing(18)
        grid.setVerticalSpacing(4)
        for number, line in enumerate(working.lines):
            grid.addWidget(plain(line.label), number, 0)
            value = plain(in_lines(line.value), step="number")
            value.setAlignment(Qt.AlignmentFlag.AlignRight)
            grid.addWidget(value, number, 1, Qt.AlignmentFlag.AlignRight)
            grid.addWidget(plain(line.remark, role="small"), number, 2)
        column.addLayout(grid)
        for text in (extra, sources_text(bench, working.sources)):
            if text:
                label = plain(text, role="small")
                label.setWordWrap(True)
                label.setMaximumWidth(460)
                column.addWidget(label)
        self.setAccessibleDescription(
            "; ".join(
                (working.about, *(f"{n.label}: {n.value} {n.remark}" for n in working.lines), extra)
            )
        )
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)


def in_lines(value: str) -> str:
    """A value that lists many, '20 kg × 8, 37.5 kg × 5, …', in lines of moderate length."""
    lines: list[str] = []
    for part in value.split(", "):
        if lines and len(lines[-1]) + len(part) <= LONGEST_VALUE:
            lines[-1] += f", {part}"
        else:
            lines.append(part)
    return ",\n".join(lines)


def sources_text(bench: Bench, sources: tuple[str, ...]) -> str:
    """'Sources: Brzycki 1993, Epley 1985', or what stands in their place."""
    if not sources:
        return ""
    names = [
        tr(key) if key in UNSOURCED else bench.shelf.references[key].short
        for key in sources
        if key in UNSOURCED or key in bench.shelf.references
    ]
    return tr("Sources: {names}", names=", ".join(names))


def show_working(
    bench: Bench, working: Working, where: QPoint, parent: QWidget, *, extra: str = ""
) -> WorkingPopup:
    """Show the account at a point of the screen, kept inside it."""
    popup = WorkingPopup(bench, working, parent, extra=extra)
    popup.adjustSize()
    screen = parent.screen().availableGeometry()
    popup.move(_inside(screen, where, popup.size()))
    popup.show()
    popup.move(_inside(screen, where, popup.size()))  # polishing may have made it larger
    popup.setFocus(Qt.FocusReason.PopupFocusReason)  # so that it is read aloud
    return popup


def _inside(screen: QRect, where: QPoint, size: QSize) -> QPoint:
    """The corner of a sheet wanted at `where`: on the screen, not over what it is about."""
    x = max(screen.left(), min(where.x(), screen.right() + 1 - size.width()))
    y = where.y()
    if y + size.height() > screen.bottom():
        y = max(screen.top(), where.y() - size.height() - 40)
    return QPoint(x, y)


def show_account(bench: Bench, account: Account, near: QRect, parent: QWidget) -> WorkingPopup:
    """Show an account below (or above) what it is about; `near` in the parent's own px."""
    where = parent.mapToGlobal(near.bottomLeft() + QPoint(0, 4))
    return show_working(bench, account.working, where, parent, extra=account.extra)
