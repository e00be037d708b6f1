"""Commands on clients as people are offered where they can be run."""

from __future__ import annotations

import pytest

from app.ui.client import open_form
from app.ui.people_actions import PEOPLE_ACTIONS
from app.ui.window import Window
from tests.ui.desks import slot_ids

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


def test_a_card_leads_to_the_test_its_load_rests_on(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    from app.ui.client.strength_dialog import StrengthDialog

    shown: list[str] = []
    monkeypatch.setattr(StrengthDialog, "exec", lambda dialog: shown.append(dialog.key))
    window.bench.select((slot_ids(window.bench)[0],))
    assert BY_ID["card_tests"].enabled(window.bench)
    BY_ID["card_tests"].run(window)
    assert shown == ["back_squat"]


def test_home_is_there_whatever_is_open(window: Window) -> None:
    BY_ID["home"].run(window)
    assert window.centre.currentWidget() is window.home
    window.bench.desk.close()
    assert BY_ID["home"].enabled(window.bench)
