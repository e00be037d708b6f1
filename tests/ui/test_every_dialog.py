"""All dialogs by the same rules: named, large enough, legible, in reach of Tab, explained."""

from __future__ import annotations

from collections import defaultdict

import pytest
from PySide6.QtWidgets import QApplication, QDialog

from app.ui import theme
from app.ui.field_help import inputs, page_for
from app.ui.field_texts import PAGES
from app.ui.guide_text import find_page
from app.ui.window import Window
from tests.ui.access import faint, marked_up, out_of_reach, silent, too_small, unnamed
from tests.ui.every_dialog import walk_dialogs


@pytest.mark.parametrize("colours", [theme.LIGHT, theme.DARK], ids=["light", "dark"])
def test_every_dialog_can_be_used_by_everybody(
    window: Window, monkeypatch: pytest.MonkeyPatch, colours: theme.Theme
) -> None:
    theme.force(colours)
    window.dress()
    found: dict[str, list[str]] = defaultdict(list)

    def look(name: str, dialog: QDialog) -> None:
        for rule in (unnamed, silent, too_small, marked_up, faint):
            found[name] += [f"{rule.__name__}: {one}" for one in rule(dialog)]

    seen = walk_dialogs(window, monkeypatch, look)
    assert len(seen) > 25
    assert {name: faults for name, faults in found.items() if faults} == {}


def test_every_control_of_a_dialog_is_in_reach_of_the_tab_key(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    found: dict[str, list[str]] = {}

    def look(name: str, dialog: QDialog) -> None:
        dialog.activateWindow()
        QApplication.processEvents()
        found[name] = out_of_reach(dialog)

    walk_dialogs(window, monkeypatch, look)
    assert {name: faults for name, faults in found.items() if faults} == {}


def test_every_field_is_explained_in_a_sentence(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    missing: dict[str, list[str]] = {}

    def look(name: str, dialog: QDialog) -> None:
        if not hasattr(dialog, "show_help"):
            return  # a window of its own
        nameless = [names for field, names in inputs(dialog) if not field.whatsThis()]
        missing[name] = [str(names) for names in nameless]
        for field, _ in inputs(dialog):
            help_ = field.whatsThis()
            assert not help_ or help_.rstrip(")").endswith("."), help_
            assert (field.toolTip() and field.accessibleDescription()) or not help_

    walk_dialogs(window, monkeypatch, look)
    assert {name: fields for name, fields in missing.items() if fields} == {}


def test_every_form_has_a_page_of_the_guide(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    without: set[str] = set()

    def look(_name: str, dialog: QDialog) -> None:
        kinds = {kind.__name__ for kind in type(dialog).__mro__}
        if hasattr(dialog, "show_help") and not kinds & set(PAGES) and "TextSheet" not in kinds:
            without.add(type(dialog).__name__)
        find_page(page_for(dialog))

    walk_dialogs(window, monkeypatch, look)
    assert without == set()
