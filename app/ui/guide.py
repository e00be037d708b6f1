"""The guide and the box that says what this is: shown from what is shipped, nothing else."""

from __future__ import annotations

import platform
from collections.abc import Sequence
from typing import Any

from PySide6.QtCore import QSize, Qt, QUrl, qVersion
from PySide6.QtGui import QImage, QKeySequence, QTextDocument
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QMenu,
    QMenuBar,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

import app
from app import resources
from app.domain.wording import mark, tr
from app.ui import theme
from app.ui.forms import Wrapped, button, plain, text_field
from app.ui.guide_text import Command, Page, filled, find_page, pages
from db.schema import SCHEMA, SQLITE

LICENCE = mark("MIT licence")
CAUTION = mark(
    "It works with published ranges. It does not diagnose or treat: send anyone "
    "with symptoms, disease or pregnancy to a licensed practitioner first."
)


PICTURES = ("window", "drag", "findings", "progression", "split", "substitutes")
"""Pictures of the guide, each shipped once in light and once in dark."""

MARGINS = 48
"""What a page keeps free beside a picture, px."""


class GuideBrowser(QTextBrowser):
    """Shows pages of the guide; it loads no picture and follows no link out of the guide."""

    def __init__(self) -> None:
        super().__init__()
        self.setOpenLinks(False)
        self.setAccessibleName(tr("Page of the guide"))
        self.document().setDocumentMargin(16)

    def loadResource(self, kind: int, name: QUrl | str) -> Any:
        """A picture of the guide in the present colours, as wide as the page; nothing else."""
        wanted = name.toString() if isinstance(name, QUrl) else name
        if kind != QTextDocument.ResourceType.ImageResource.value or wanted not in PICTURES:
            return None
        way = "dark" if theme.current().dark else "light"
        picture = QImage(str(resources.path_of(f"guide/pictures/{wanted}-{way}.png")))
        width = min(picture.width(), max(200, self.viewport().width() - MARGINS))
        return picture.scaledToWidth(width, Qt.TransformationMode.SmoothTransformation)

    def show_page(self, page: Page, commands: Sequence[Command]) -> None:
        """Show a page from its top."""
        self.document().setDefaultFont(theme.font("body"))
        safe = QTextDocument.MarkdownFeature.MarkdownDialectGitHub
        safe |= QTextDocument.MarkdownFeature.MarkdownNoHTML
        self.document().setMarkdown(filled(page, commands), safe)
        self.verticalScrollBar().setValue(0)


class Guide(QDialog):
    """The guide in a window of its own, so that it can stay open while planning."""

    def __init__(self, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Guide"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.search: QLineEdit = text_field(hint=tr("Search the guide"))
        self.search.setAccessibleName(tr("Search the guide"))
        self.search.setClearButtonEnabled(True)
        self.contents = QListWidget()
        self.contents.setAccessibleName(tr("Pages of the guide"))
        self.contents.setFixedWidth(260)
        self.browser = GuideBrowser()
        for page in pages():
            item = QListWidgetItem(page.title)
            item.setData(Qt.ItemDataRole.UserRole, page.name)
            item.setSizeHint(QSize(0, 28))
            self.contents.addItem(item)
        left = QVBoxLayout()
        left.addWidget(self.search)
        left.addWidget(self.contents, 1)
        row = QHBoxLayout(self)
        row.addLayout(left)
        row.addWidget(self.browser, 1)
        self.search.textChanged.connect(self.narrow)
        self.contents.currentItemChanged.connect(lambda item, _: self._show(item))
        self.browser.anchorClicked.connect(self.follow)
        self.resize(980, 720)
        self.open_page(pages()[0].name)

    def open_page(self, name: str) -> None:
        """Open the page of that name."""
        for number in range(self.contents.count()):
            if self.contents.item(number).data(Qt.ItemDataRole.UserRole) == name:
                self.contents.setCurrentRow(number)

    def _show(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            page = find_page(item.data(Qt.ItemDataRole.UserRole))
            self.browser.show_page(page, commands_of(self.parentWidget()))

    def narrow(self, wanted: str) -> None:
        """List the pages that hold every word typed; open the first if the open one does not."""
        words = wanted.casefold().split()
        for number, page in enumerate(pages()):
            text = page.text.casefold()
            self.contents.item(number).setHidden(not all(word in text for word in words))
        rows = range(self.contents.count())
        shown = [n for n in rows if not self.contents.item(n).isHidden()]
        if shown and self.contents.currentRow() not in shown:
            self.contents.setCurrentRow(shown[0])

    def follow(self, link: QUrl) -> None:
        """Go where a link leads, if it leads to another page."""
        try:
            page = find_page(link.path())
        except KeyError:
            return
        self.search.clear()
        self.open_page(page.name)


def commands_of(window: QWidget | None) -> tuple[Command, ...]:
    """What the menus of a window offer, in their order."""
    native = QKeySequence.SequenceFormat.NativeText
    found = []
    while window is not None and window.parentWidget() is not None:
        window = window.parentWidget()  # the guide of a form tells the commands of its window
    for bar in () if window is None else window.findChildren(QMenuBar):
        for menu in (action.menu() for action in bar.actions()):
            if not isinstance(menu, QMenu):
                continue
            for action in (a for a in menu.actions() if not a.isSeparator()):
                text = action.text().partition(": ")[0].rstrip("…").replace("&", "")
                keys = ", ".join(keys.toString(native) for keys in action.shortcuts())
                found.append(Command(menu.title().replace("&", ""), text, keys))
    return tuple(found)


def show_guide(window: QWidget, page: str | None = None) -> Guide:
    """The guide, opened or brought to the front; at the page of that name if one is named."""
    open_ones = window.findChildren(Guide)
    guide = open_ones[0] if open_ones else Guide(window)
    if page is not None:
        guide.open_page(page)
    guide.show()
    guide.raise_()
    guide.activateWindow()
    return guide


class About(QDialog):
    """What this is, which versions it stands on, under which licence."""

    def __init__(self, parent: QWidget | None) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("About Weekloom"))
        column = QVBoxLayout(self)
        column.setContentsMargins(20, 16, 20, 16)
        column.setSpacing(10)
        column.addWidget(plain("Weekloom", step="name"))
        for text in (
            tr("Plans strength training week by week, on this computer alone."),
            about_text(),
            tr(CAUTION),
            tr(
                "{licence}. Qt is used under the LGPL, the fonts under the SIL Open Font License.",
                licence=tr(LICENCE),
            ),
        ):
            line = Wrapped(text)
            line.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
            column.addWidget(line)
        foot = QHBoxLayout()
        foot.addStretch(1)
        foot.addWidget(button(tr("Close"), self.accept, primary=True))
        column.addLayout(foot)
        self.setMinimumWidth(440)


def about_text() -> str:
    """The versions, one a line."""
    return tr(
        "Version {version}, files of schema {schema}\nPython {python_version}, Qt "
        "{qversion}, SQLite {sqlite}",
        version=app.__version__,
        schema=SCHEMA,
        python_version=platform.python_version(),
        qversion=qVersion(),
        sqlite=SQLITE,
    )


def show_about(window: QWidget) -> None:
    """Show what this is until it is closed."""
    About(window).exec()
