"""The client's own choice first, then the coach's, then the locale's."""

from __future__ import annotations

from dataclasses import replace

import pytest
from PySide6.QtCore import QLocale

from app.booklet import Paper
from app.ui.paper_habits import (
    LANGUAGE,
    SIZE,
    language_box,
    language_of,
    paper_of,
    size_box,
    usual_units,
)
from tests import builders


class Kept:
    """Settings in memory."""

    def __init__(self, **kept: str) -> None:
        self.kept = kept

    def setting(self, key: str) -> str:
        return self.kept.get(key, "")


def kept(language: str = "", size: str = "") -> Kept:
    return Kept(**{LANGUAGE: language, SIZE: size})


@pytest.fixture
def locale():
    """Speaks as a locale does until the test is over."""
    before = QLocale()
    yield lambda name: QLocale.setDefault(QLocale(name))
    QLocale.setDefault(before)


CLIENT = builders.client()


@pytest.mark.parametrize(
    ("own", "coachs", "said"),
    [("de", "es", "de"), ("", "es", "es"), ("", "", ""), ("en", "es", "en")],
)
def test_a_clients_own_language_comes_first(own: str, coachs: str, said: str) -> None:
    assert language_of(replace(CLIENT, language=own), kept(coachs)) == said


@pytest.mark.parametrize(
    ("own", "coachs", "place", "size"),
    [
        ("A5", "LETTER", "de_DE", Paper.A5),
        ("", "LETTER", "de_DE", Paper.LETTER),
        ("", "", "de_DE", Paper.A4),
        ("", "", "en_US", Paper.LETTER),
        ("", "torn", "en_GB", Paper.A4),
    ],
)
def test_paper_is_the_clients_the_coachs_or_the_locales(own, coachs, place, size, locale) -> None:
    locale(place)
    assert paper_of(replace(CLIENT, paper=own), kept(size=coachs)) is size


def test_without_a_client_the_coachs_paper_holds(locale) -> None:
    locale("es_ES")
    assert paper_of(None, kept(size="A5")) is Paper.A5
    assert paper_of(None, kept()) is Paper.A4


@pytest.mark.parametrize(("place", "unit"), [("en_US", "lb"), ("de_AT", "kg"), ("en_GB", "kg")])
def test_a_new_client_begins_with_the_locales_unit(place: str, unit: str, locale) -> None:
    locale(place)
    assert usual_units() == unit


@pytest.mark.parametrize(
    ("chosen", "usual", "shown", "code"),
    [
        ("de", "", "Deutsch", "de"),
        ("", "The coach's", "The coach's", ""),
        ("de-CH", "The coach's", "Deutsch", "de"),
        ("fr", "The coach's", "fr", "fr"),
        ("", "", "English", "en"),
    ],
)
def test_the_box_of_languages_shows_what_is_chosen(qtbot, chosen, usual, shown, code) -> None:
    box = language_box(chosen, usual=usual)
    qtbot.addWidget(box)
    assert box.currentText() == shown
    assert box.currentData() == code


def test_the_box_of_sizes_gives_the_names_that_clients_keep(qtbot) -> None:
    box = size_box("Letter", usual="As usual")
    qtbot.addWidget(box)
    assert box.currentData() == "Letter"
    assert [box.itemData(row) for row in range(box.count())] == ["", "A4", "Letter", "A5"]
