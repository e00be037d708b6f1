"""The guide shows its pages, finds words, follows links inside it and none out of it."""

from __future__ import annotations

import re

import pytest
from PySide6.QtCore import QUrl
from PySide6.QtGui import QTextDocument
from PySide6.QtWidgets import QMainWindow, QWidget
from pytestqt.qtbot import QtBot

from app.ui import theme
from app.ui.guide import PICTURES, About, Guide, about_text, commands_of, show_guide
from app.ui.guide_text import Command, Page, pages


@pytest.fixture
def window(qtbot: QtBot) -> QWidget:
    made = QWidget()
    qtbot.addWidget(made)
    return made


@pytest.mark.parametrize("page", pages(), ids=lambda page: page.name)
def test_every_page_can_be_shown(window: QWidget, page: Page) -> None:
    guide = show_guide(window, page.name)
    text = guide.browser.toPlainText()
    assert text.startswith(page.title)
    assert "{{" not in text
    assert "**" not in text


def test_there_is_one_guide_however_often_it_is_asked_for(window: QWidget) -> None:
    first = show_guide(window)
    assert show_guide(window, "cautions") is first
    assert first.browser.toPlainText().startswith("Cautions")
    assert len(window.findChildren(Guide)) == 1


def test_links_lead_to_pages_and_nowhere_else(window: QWidget) -> None:
    guide = show_guide(window)
    guide.follow(QUrl("12-cautions.md"))
    assert guide.browser.toPlainText().startswith("Cautions")
    guide.follow(QUrl("https://example.org/"))
    guide.follow(QUrl.fromLocalFile("/etc/hostname"))
    assert guide.browser.toPlainText().startswith("Cautions")


IMAGE = QTextDocument.ResourceType.ImageResource.value


def test_nothing_from_outside_the_guide_is_loaded(window: QWidget) -> None:
    guide = show_guide(window)
    for name in (QUrl.fromLocalFile("/etc/hostname"), QUrl("../demo/team.toml"), "nothing"):
        assert guide.browser.loadResource(IMAGE, name) is None
    style = QTextDocument.ResourceType.StyleSheetResource.value
    assert guide.browser.loadResource(style, QUrl("window")) is None


@pytest.mark.parametrize("name", PICTURES)
def test_a_picture_is_shown_in_the_present_colours_inside_the_page(window, name: str) -> None:
    guide = show_guide(window)
    shown = []
    for colours in (theme.LIGHT, theme.DARK):
        theme.force(colours)
        picture = guide.browser.loadResource(IMAGE, QUrl(name))
        assert 200 <= picture.width() <= guide.browser.viewport().width()
        shown.append(picture.pixelColor(2, 2).lightness())
    theme.force(None)
    light, dark = shown
    assert light > 200
    assert dark < 100


def test_every_picture_stands_on_a_page_with_words_for_those_who_do_not_see_it() -> None:
    texts = " ".join(page.text for page in pages())
    found = dict(re.findall(r"!\[([^\]]+)\]\((\w+)\)", texts))
    assert sorted(found.values()) == sorted(PICTURES)
    assert all(len(words) > 20 for words in found)


def test_searching_lists_the_pages_that_hold_the_words(window: QWidget) -> None:
    guide = show_guide(window)
    guide.search.setText("floors LIGHT")
    rows = range(guide.contents.count())
    shown = [guide.contents.item(n).text() for n in rows if not guide.contents.item(n).isHidden()]
    assert shown == ["Progression"]
    assert guide.browser.toPlainText().startswith("Progression")
    guide.search.setText("")
    assert not any(guide.contents.item(n).isHidden() for n in rows)


def test_the_shortcuts_are_those_of_the_window(qtbot: QtBot) -> None:
    window = QMainWindow()
    qtbot.addWidget(window)
    menu = window.menuBar().addMenu("&File")
    menu.addAction("Make &booklet…").setShortcut("Ctrl+P")
    menu.addSeparator()
    menu.addAction("Undo: Move Back squat")
    assert commands_of(window) == (
        Command("File", "Make booklet", "Ctrl+P"),
        Command("File", "Undo", ""),
    )
    assert "Make booklet" in show_guide(window, "shortcuts").browser.toPlainText()


def test_the_box_says_the_versions(qtbot: QtBot, window: QWidget) -> None:
    box = About(window)
    assert "SQLite 3." in about_text()
    assert box.windowTitle() == "About Weekloom"
