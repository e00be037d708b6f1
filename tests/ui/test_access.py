"""Every dialog can be used by everybody: controls are named and can be hit, text is text."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from app.ui.bench import Bench
from app.ui.charts.window import ChartsWindow
from app.ui.client.check_in import CheckInSheet
from app.ui.client.check_in_weeks import WeeksSheet
from app.ui.client.check_ins import CheckInsDialog
from app.ui.client.days import DaysSheet
from app.ui.client.energy import EnergySheet
from app.ui.client.equipment import EquipmentSheet
from app.ui.client.limits import LimitationSheet
from app.ui.client.profile import ProfileSheet
from app.ui.client.screening import ScreeningSheet
from app.ui.client.strength_test import TestSheet
from app.ui.coach_sheet import CoachSheet
from app.ui.emphasis_sheet import EmphasisSheet
from app.ui.new_program import LayoutSheet, NewProgramSheet
from app.ui.progress_report_dialog import ProgressReportDialog
from app.ui.progression_dialog import ProgressionDialog
from app.ui.split_dialog import SplitDialog
from app.ui.substitutes import SubstituteDialog
from app.ui.warmup_dialog import WarmupDialog
from db.store import Store
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import RUNA, TODAY, slot

Maker = Callable[[Bench, Store], QWidget]

DIALOGS: dict[str, Maker] = {
    "progression": lambda bench, _: ProgressionDialog(bench, None),
    "split": lambda bench, _: SplitDialog(bench, None),
    "layout": lambda bench, _: LayoutSheet(bench, None),
    "new program": lambda bench, _: NewProgramSheet(bench, None, today=TODAY),
    "substitutes": lambda bench, _: SubstituteDialog(bench, slot(bench).id, None),
    "warm-up": lambda bench, _: WarmupDialog(bench, None),
    "emphasis": lambda bench, _: EmphasisSheet(bench, None),
    "profile": lambda bench, _: ProfileSheet(bench, None, RUNA),
    "new client": lambda bench, _: ProfileSheet(bench, None, None),
    "screening": lambda bench, _: ScreeningSheet(bench, None, today=TODAY),
    "limitations": lambda bench, _: LimitationSheet(bench, None),
    "days": lambda bench, _: DaysSheet(bench, None),
    "equipment": lambda bench, _: EquipmentSheet(bench, None),
    "strength test": lambda bench, _: TestSheet(bench, None, today=TODAY),
    "energy": lambda bench, _: EnergySheet(bench, None, today=TODAY),
    "check-in": lambda bench, _: CheckInSheet(bench, None, today=TODAY),
    "check-ins": lambda bench, _: CheckInsDialog(bench, None, today=TODAY),
    "weeks of check-ins": lambda bench, _: WeeksSheet(bench, None, today=TODAY),
    "charts": lambda bench, _: ChartsWindow(bench, None, today=TODAY),
    "progress report": lambda bench, _: ProgressReportDialog(bench, None, today=TODAY),
    "coach": lambda _, store: CoachSheet(store, None),
}


@pytest.mark.parametrize("name", DIALOGS)
def test_a_dialog_can_be_used_by_everybody(
    qtbot: QtBot, dressed: QApplication, bench: Bench, store: Store, name: str
) -> None:
    dialog = DIALOGS[name](bench, store)
    qtbot.addWidget(dialog)
    dialog.show()
    qtbot.waitExposed(dialog)
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
