"""The gettext files match the code: nothing missing, nothing left over, every place kept."""

from __future__ import annotations

import importlib.util
from pathlib import Path
from string import Formatter
from types import ModuleType

import pytest
from babel.messages.catalog import Catalog, Message
from babel.messages.pofile import read_po

from app.resources.languages import NAMES

ROOT = Path(__file__).resolve().parents[2]
LANGUAGES = tuple(code for code in NAMES if code != "en")


def script() -> ModuleType:
    """packaging/translations.py as a module."""
    spec = importlib.util.spec_from_file_location(
        "translations", ROOT / "packaging" / "translations.py"
    )
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


SCRIPT = script()


def read(language: str) -> Catalog:
    with (SCRIPT.FOLDER / f"{language}.po").open("rb") as file:
        return read_po(file, locale=language)


def entries(language: str) -> list[Message]:
    return [message for message in read(language) if message.id]


def forms(text: object) -> tuple[str, ...]:
    return (text,) if isinstance(text, str) else tuple(text)  # type: ignore[arg-type]


def places(text: str) -> set[tuple[str, str, str]]:
    """The named places of a template with how their values are written."""
    return {
        (name, spec or "", conversion or "")
        for _, name, spec, conversion in Formatter().parse(text)
        if name is not None
    }


def test_every_language_that_is_offered_has_a_file() -> None:
    assert SCRIPT.languages() == tuple(sorted(LANGUAGES))


@pytest.mark.filterwarnings("ignore::SyntaxWarning")
@pytest.mark.parametrize("language", LANGUAGES)
def test_a_file_holds_exactly_the_texts_of_the_code(language: str) -> None:
    kept = (SCRIPT.FOLDER / f"{language}.po").read_bytes()
    assert kept == SCRIPT.updated(language), "run python packaging/translations.py"


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_text_is_translated_in_every_plural_form(language: str) -> None:
    count = read(language).num_plurals
    for message in entries(language):
        assert all(forms(message.string)), message.id
        if not isinstance(message.id, str):
            assert len(forms(message.string)) == count, message.id


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_translation_keeps_the_places_and_the_white_space_at_its_ends(language: str) -> None:
    for message in entries(language):
        asked = [places(text) for text in forms(message.id)]
        for text in forms(message.string):
            assert places(text) in asked, message.id
        one, said = forms(message.id)[-1], forms(message.string)[-1]
        assert one[0].isspace() == said[0].isspace(), message.id
        assert one[-1].isspace() == said[-1].isspace(), message.id
        assert one.endswith(".") == said.endswith(".") or len(one) < 30, message.id


def test_the_glossary_of_a_translator_outlives_an_update(monkeypatch, tmp_path: Path) -> None:
    monkeypatch.setattr(SCRIPT, "FOLDER", tmp_path)
    first, rest = SCRIPT.updated("de").decode().split("\n", 1)
    (tmp_path / "de.po").write_text(f"{first}\n# set = Satz\n#\n{rest}", encoding="utf-8")
    again = SCRIPT.updated("de").decode()
    assert again.startswith(f"{first}\n# set = Satz\n#\nmsgid")
    (tmp_path / "de.po").write_text(again, encoding="utf-8")
    assert SCRIPT.updated("de").decode() == again
