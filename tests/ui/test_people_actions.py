"""Commands on clients as people are offered where they can be run."""

from __future__ import annotations

import pytest

from app.ui.client import open_form
from app.ui.people_actions import PEOPLE_ACTIONS
from app.ui.window import Window

BY_ID = {action.id: action for action in PEOPLE_ACTIONS}


@pytest.mark.parametrize(("command", "form"), [("tests", "strength_tests"), ("record", "record")])
def test_a_command_opens_its_form_for_the_open_client(
    window: Window, monkeypatch: pytest.MonkeyPatch, command: str, form: str
) -> None:
    opened: list[str] = []
    monkeypatch.setattr(open_form, form, lambda *_: opened.append(form))
    action = BY_ID[command]
    assert action.enabled(window.bench)
    action.run(window)
    assert opened == [form]
    window.bench.desk.close()
    assert not action.enabled(window.bench)


def test_home_is_there_whatever_is_open(window: Window) -> None:
    BY_ID["home"].run(window)
    assert window.centre.currentWidget() is window.home
    window.bench.desk.close()
    assert BY_ID["home"].enabled(window.bench)
