"""Words in further languages: each kept while another is shown."""

from __future__ import annotations

import pytest

from app.domain.errors import CoachError
from app.domain.exercise import ExerciseText, Fault
from app.ui.library.own_texts import TextsField

GERMAN = ExerciseText("de", "Rudern", ("Sitzen.",), ("Ziehen.",), (Fault("Wippen", "Stillsitzen"),))


@pytest.fixture
def field(qtbot) -> TextsField:
    made = TextsField()
    qtbot.addWidget(made)
    return made


def test_what_was_shown_comes_back(field: TextsField) -> None:
    field.show_values((GERMAN,))
    assert field.values() == {
        "de": {
            "name": "Rudern",
            "set_up": ["Sitzen."],
            "cues": ["Ziehen."],
            "faults": [["Wippen", "Stillsitzen"]],
        }
    }


def test_a_language_is_kept_while_another_is_shown(field: TextsField) -> None:
    field.name.setText("Rudern")
    field.language.setCurrentIndex(field.language.findData("es"))
    assert field.name.text() == ""
    field.name.setText("Remo")
    field.language.setCurrentIndex(field.language.findData("de"))
    assert field.name.text() == "Rudern"
    names = {code: words["name"] for code, words in field.values().items()}  # type: ignore[index]
    assert names == {"de": "Rudern", "es": "Remo"}


def test_an_empty_language_has_no_words(field: TextsField) -> None:
    assert field.values() == {}


def test_typing_is_told(field: TextsField, qtbot) -> None:
    with qtbot.waitSignal(field.changed):
        qtbot.keyClicks(field.name, "R")


def test_a_line_that_cannot_be_read_is_told(field: TextsField) -> None:
    field.name.setText("Rudern")
    field.lines["faults"].setPlainText("nur das")
    with pytest.raises(CoachError, match="no remedy"):
        field.values()
