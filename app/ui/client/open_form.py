"""Opens the forms of the client pane; each is read when it is first wanted.

Panes and menu commands both call these, with the bench and the window they stand in.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping

from PySide6.QtWidgets import QWidget

from app.domain.wording import mark
from app.ui.bench import Bench
from app.ui.client.section import this_day


def profile(bench: Bench, window: QWidget) -> None:
    """The profile of the open client."""
    from app.ui.client.profile import ProfileSheet

    ProfileSheet(bench, window, bench.desk.client).exec()


def screening(bench: Bench, window: QWidget) -> None:
    """The screening questions."""
    from app.ui.client.screening import ScreeningSheet

    ScreeningSheet(bench, window, today=this_day()).exec()


SETTLED_BY: Mapping[str, tuple[str, Callable[[Bench, QWidget], None]]] = {
    "screening": (mark("Screening…"), screening),
    "pregnancy": (mark("Screening…"), screening),
}
"""Rules whose findings no edit of the plan settles, with the form that does."""


def limitations(bench: Bench, window: QWidget) -> None:
    """What is ruled out: add to it, or remove from it."""
    from app.ui.client.limits import LimitationSheet

    LimitationSheet(bench, window).exec()


def days(bench: Bench, window: QWidget) -> None:
    """The minutes of each weekday."""
    from app.ui.client.days import DaysSheet

    DaysSheet(bench, window).exec()


def equipment(bench: Bench, window: QWidget) -> None:
    """The equipment in reach."""
    from app.ui.client.equipment import EquipmentSheet

    EquipmentSheet(bench, window).exec()


def strength_test(bench: Bench, window: QWidget) -> None:
    """A strength test."""
    from app.ui.client.strength_test import TestSheet

    TestSheet(bench, window, today=this_day()).exec()


def strength_tests(bench: Bench, window: QWidget) -> None:
    """All strength tests, what rests on them, and which to do next."""
    from app.ui.client.strength_dialog import StrengthDialog

    StrengthDialog(bench, window, today=this_day()).exec()


def tests_of_card(bench: Bench, window: QWidget) -> None:
    """The tests of the selected card's exercise, the one its load rests on among them."""
    from app.domain.edits.parts import find_slot
    from app.ui.client.strength_dialog import StrengthDialog

    slot = find_slot(bench.desk.program, bench.selection[0])
    StrengthDialog(bench, window, today=this_day(), exercise=slot.exercise).exec()


def wishes(bench: Bench, window: QWidget) -> None:
    """What the client likes and does not want."""
    from app.ui.client.wishes import WishesSheet

    WishesSheet(bench, window).exec()


def interview(bench: Bench, window: QWidget, *, new: bool = False) -> None:
    """The first interview, with the open client or, `new`, with one it makes."""
    from app.ui.client.interview import Interview

    Interview(bench, window, new=new).exec()


def record(bench: Bench, window: QWidget) -> None:
    """Stage, tags, consent, how long records are kept, and the unit of loads."""
    from app.ui.client.record_sheet import RecordSheet

    RecordSheet(bench, window, today=this_day()).exec()


def energy(bench: Bench, window: QWidget) -> None:
    """What the energy targets rest on."""
    from app.ui.client.energy import EnergySheet

    EnergySheet(bench, window, today=this_day()).exec()


def check_in(bench: Bench, window: QWidget) -> None:
    """What the client reported today."""
    from app.ui.client.check_in import CheckInSheet

    CheckInSheet(bench, window, today=this_day()).exec()


def check_in_weeks(bench: Bench, window: QWidget) -> None:
    """What the client reported over several weeks."""
    from app.ui.client.check_in_weeks import WeeksSheet

    WeeksSheet(bench, window, today=this_day()).exec()


def check_ins(bench: Bench, window: QWidget) -> None:
    """Everything the client reported."""
    from app.ui.client.check_ins import CheckInsDialog

    CheckInsDialog(bench, window, today=this_day()).exec()


def charts(bench: Bench, window: QWidget) -> None:
    """The charts of the open client, in a window that stays beside the plan."""
    from app.ui.charts.window import ChartsWindow

    made = window.findChild(ChartsWindow)
    if made is None:
        made = ChartsWindow(bench, window)
        forms = {"check_in": check_in, "results": results, "strength_test": strength_test}
        made.wanted.connect(lambda key: forms[key](bench, window))
    made.show()
    made.raise_()
    made.activateWindow()


def results(bench: Bench, window: QWidget) -> None:
    """The results of the open program, session by session."""
    from app.ui.results.dialog import ResultsDialog

    ResultsDialog(bench, window, today=this_day()).exec()


def adjust(bench: Bench, window: QWidget) -> None:
    """The suggestions for the coming week of the open program."""
    from app.ui.results.adjust_dialog import AdjustDialog

    AdjustDialog(bench, window, today=this_day()).exec()


def from_results(bench: Bench, window: QWidget) -> None:
    """The sets that could count as tests."""
    from app.ui.results.from_results_dialog import FromResultsDialog

    FromResultsDialog(bench, window).exec()


def progress_report(bench: Bench, window: QWidget) -> None:
    """The progress report for the client, to print or to keep as a file."""
    from app.ui.progress_report_dialog import ProgressReportDialog

    ProgressReportDialog(bench, window, today=this_day()).exec()


def result_table(bench: Bench, window: QWidget) -> None:
    """Results of the open program from a table that the coach chooses."""
    from app.ui.results.import_dialog import import_results

    import_results(bench, window, today=this_day())
