"""The coach's name and the small settings stay in the file."""

from __future__ import annotations

from app.domain.work import Coach
from db.store import Store
from tests.db.samples import COACH


def test_the_coach_is_nobody_until_entered_and_then_stays(tmp_path):
    store = Store.open(tmp_path / "coach.weekloom")
    assert store.coach() == Coach()
    store.set_coach(Coach("Somebody"))
    store.set_coach(COACH)
    store.close()
    store = Store.open(tmp_path / "coach.weekloom")
    assert store.coach() == COACH
    store.close()


def test_a_setting_is_empty_until_set_and_can_change():
    store = Store.in_memory()
    assert store.setting("open") == ""
    store.set_setting("open", "runa")
    store.set_setting("open", "jorunn")
    store.set_setting("week", "3")
    assert (store.setting("open"), store.setting("week")) == ("jorunn", "3")
    store.close()
