"""A document as its reader finds it: size, language, title, and the same bytes each time."""

from __future__ import annotations

from io import BytesIO
from typing import Any

import pytest
from pypdf import PdfReader

from app.booklet.document import open_document
from app.booklet.fonts import open_faces
from app.domain.wording import speaking
from app.resources.languages import find_language
from tests.booklet.sample import FONTS


@pytest.fixture(autouse=True)
def fonts() -> None:
    """The fonts that a document begins with are known."""
    open_faces(FONTS)


def written(**about: str) -> bytes:
    canvas, out = open_document(210, 297, title="Ridge season", author="Ask", **about)
    canvas.showPage()
    canvas.save()
    return out.getvalue()


def root(content: bytes) -> Any:
    """The root of a file's objects."""
    return PdfReader(BytesIO(content)).trailer["/Root"]


def test_it_has_its_size_and_says_what_it_is() -> None:
    content = written(subject="Training booklet, 6 weeks")
    reader = PdfReader(BytesIO(content))
    box = reader.pages[0].mediabox
    assert (float(box.width), float(box.height)) == pytest.approx((595.28, 841.89), abs=0.01)
    about = reader.metadata
    assert about is not None
    assert (about.title, about.author, about.creator) == ("Ridge season", "Ask", "Weekloom")
    assert about.subject == "Training booklet, 6 weeks"
    assert root(content)["/ViewerPreferences"]["/DisplayDocTitle"]


def test_it_is_in_the_language_of_the_papers() -> None:
    assert root(written())["/Lang"] == "en"
    with speaking(find_language("de")):
        assert root(written())["/Lang"] == "de"


def test_the_same_drawing_gives_the_same_bytes() -> None:
    assert written() == written()
