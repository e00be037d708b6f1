from __future__ import annotations

from io import BytesIO

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot
from reportlab.pdfgen.canvas import Canvas

from app.ui.paper_view import THUMB, PaperView


def pdf(pages: int, size: tuple[float, float] = (300, 400)) -> bytes:
    out = BytesIO()
    canvas = Canvas(out, pagesize=size)
    for number in range(pages):
        canvas.rect(20, 20, 30 + number, 50, fill=1)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


@pytest.fixture
def view(qtbot: QtBot, dressed) -> PaperView:
    made = PaperView()
    qtbot.addWidget(made)
    made.resize(700, 600)
    made.show()
    return made


def test_every_page_gets_a_thumbnail_and_the_first_is_open(view: PaperView, qtbot: QtBot) -> None:
    view.show_paper(pdf(3))
    assert view.thumbs.count() == 3
    assert view.page.accessibleDescription() == "Page 1 of 3"
    assert not view.page.pixmap().isNull()
    qtbot.waitUntil(lambda: not view._waiting)
    assert all(not view.thumbs.item(row).icon().isNull() for row in range(3))


@pytest.mark.parametrize("size", [(300, 400), (800, 300), (200, 900)])
def test_thumbnails_fit_their_list_whatever_the_shape(
    view: PaperView, qtbot: QtBot, size: tuple[float, float]
) -> None:
    view.show_paper(pdf(1, size))
    qtbot.waitUntil(lambda: not view._waiting)
    (found,) = view.thumbs.item(0).icon().availableSizes()
    ratio = view.devicePixelRatioF()
    assert found.width() <= THUMB * ratio + 1
    assert found.height() <= THUMB * 1.42 * ratio + 1


def test_pages_are_turned_by_keys_and_never_past_the_ends(view: PaperView, qtbot: QtBot) -> None:
    view.show_paper(pdf(2))
    for key, row in (
        (Qt.Key.Key_PageUp, 0),
        (Qt.Key.Key_PageDown, 1),
        (Qt.Key.Key_PageDown, 1),
    ):
        qtbot.keyClick(view, key)
        assert view.thumbs.currentRow() == row


def test_another_paper_stays_at_the_page_if_it_has_one(view: PaperView) -> None:
    view.show_paper(pdf(4))
    view.thumbs.setCurrentRow(2)
    view.show_paper(pdf(3))
    assert view.thumbs.currentRow() == 2
    view.show_paper(pdf(1))
    assert view.page.accessibleDescription() == "Page 1 of 1"


def test_a_closed_paper_leaves_nothing_to_see(view: PaperView) -> None:
    view.show_paper(pdf(2))
    view.close_paper()
    assert view.thumbs.count() == 0
    assert view.page.pixmap().isNull()
    assert view.content == b""
