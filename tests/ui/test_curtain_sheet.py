"""Minutes and names in frames are asked for, kept in the file and minded at once."""

from __future__ import annotations

from app.ui import file_actions
from app.ui.curtain import MINUTES
from app.ui.curtain_sheet import CurtainSheet
from app.ui.titles import SETTING, Named


def test_minutes_are_kept_and_never_is_an_empty_field(qtbot, window, store):
    sheet = CurtainSheet(store, window.idle, None)
    qtbot.addWidget(sheet)
    assert sheet.minutes.value() is None
    sheet.minutes.edit.setText("15")
    sheet.try_keep()
    assert (store.setting(MINUTES), window.idle.minutes) == ("15", 15)
    again = CurtainSheet(store, window.idle, None)
    qtbot.addWidget(again)
    assert again.minutes.value() == 15
    again.minutes.edit.clear()
    again.try_keep()
    assert (store.setting(MINUTES), window.idle.minutes) == ("", 0)


def test_nonsense_is_said_and_nothing_is_kept(qtbot, window, store):
    sheet = CurtainSheet(store, window.idle, None)
    qtbot.addWidget(sheet)
    sheet.minutes.edit.setText("soon")
    sheet.try_keep()
    assert sheet.wrong.text()
    assert window.idle.minutes == 0


def test_whom_frames_name_is_asked_kept_and_minded_at_once(qtbot, window, store, monkeypatch):
    chosen = {}

    def run(sheet: CurtainSheet) -> int:
        chosen["before"] = sheet.chosen
        sheet.named.setCurrentIndex(1)
        sheet.try_keep()
        return sheet.result()

    monkeypatch.setattr(CurtainSheet, "exec", run)
    file_actions.ask_what_is_seen(window)
    assert chosen == {"before": Named.NOT}
    assert store.setting(SETTING) == Named.INITIALS
    assert window.windowTitle().startswith("R. E.")
    again = CurtainSheet(store, window.idle, None)
    qtbot.addWidget(again)
    assert again.chosen is Named.INITIALS


def test_the_command_opens_it(window, monkeypatch):
    opened: list[CurtainSheet] = []

    def run(sheet: CurtainSheet) -> int:
        opened.append(sheet)
        return 0

    monkeypatch.setattr(CurtainSheet, "exec", run)
    file_actions.ask_what_is_seen(window)
    assert len(opened) == 1
