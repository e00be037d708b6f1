from __future__ import annotations

from app.ui.actions import ACTIONS
from app.ui.record_actions import RECORD_ACTIONS


def test_they_stand_in_the_clients_menu_and_need_a_client(empty_bench) -> None:
    assert set(RECORD_ACTIONS) <= set(ACTIONS)
    for action in RECORD_ACTIONS:
        assert action.menu == "Client"
        assert not action.enabled(empty_bench)
        assert action.tip
