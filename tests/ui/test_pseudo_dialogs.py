"""Dialogs that others open, in the pseudo-language: nothing is untranslated, nothing is cut."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QThreadPool
from PySide6.QtWidgets import QApplication, QTabWidget, QWidget
from pytestqt.qtbot import QtBot

from app.domain.client import Status
from app.domain.exercise import ExerciseKey
from app.domain.form_names import What
from app.domain.wording import ENGLISH, tr, use
from app.domain.work import Work
from app.rescue import held_by
from app.resources.languages import PSEUDO, find_language
from app.ui.bench import Bench
from app.ui.charts.kinds import Kind
from app.ui.charts.window import ChartsWindow
from app.ui.client.guess_sheet import GuessSheet
from app.ui.client.status_sheet import StatusSheet
from app.ui.curtain import Idle
from app.ui.curtain_sheet import CurtainSheet
from app.ui.erase_dialog import EraseDialog
from app.ui.exchange.table_import.dialog import TableImport
from app.ui.filled_form_dialog import FilledFormDialog, lines_of
from app.ui.forms import TextSheet
from app.ui.library.detail import DetailDialog
from app.ui.library.own_files import BringBack
from app.ui.library.own_sheet import OwnSheet
from app.ui.lock_sheet import LockSheet
from app.ui.open_store import UnlockSheet
from app.ui.rescue_dialog import RescueDialog
from app.ui.results.adjust_dialog import AdjustDialog
from app.ui.results.from_results_dialog import FromResultsDialog
from app.ui.results.import_dialog import ResultTableDialog
from app.ui.results.other_exercise import OtherExerciseSheet
from app.ui.roster.copy_sheet import CopySheet
from app.ui.roster.merge_dialog import MergeDialog
from app.ui.take_in_sheet import TakeInSheet
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.ui import pseudo
from tests.ui.charts.test_window import TODAY as CHARTED
from tests.ui.charts.test_window import diary
from tests.ui.desks import RUNA, TODAY
from tests.ui.exchange.table_import.test_dialog import TABLE
from tests.ui.painted import Painted, watched
from tests.ui.pseudo import faults
from tests.ui.results.test_adjust_dialog import noted
from tests.ui.results.test_incoming import TABLE as BOOK
from tests.ui.results.test_incoming import book
from tests.ui.roster.test_merge_dialog import TWIN
from tests.ui.test_filled_form_dialog import DOUBTFUL, filled

GIVEN = "log.csv all.zip coach.db utf"
"""Names of files and encodings."""

SQUAT, FRONT = ExerciseKey("back_squat"), ExerciseKey("front_squat")


@dataclass(frozen=True, slots=True)
class Desk:
    """What a dialog is made on."""

    bench: Bench
    store: Store
    folder: Path


def merge(on: Desk) -> QWidget:
    on.store.save(None, Work(TWIN), label="Add")
    return MergeDialog(on.bench, on.store, None, mine=RUNA.id, other=TWIN.id)


def own(on: Desk, *, change: bool = False) -> QWidget:
    return OwnSheet(on.bench, on.bench.desk.catalogue[SQUAT], None, change=change)


def filled_form(on: Desk) -> QWidget:
    form = filled(on.bench, {(0, 1): {What.REPS: "5", What.LOAD: "80"}, (1, 1): DOUBTFUL})
    lines, odd = lines_of(on.bench, on.store, form)
    return FilledFormDialog(on.bench, None, lines, units=form.units, odd=odd)


def table(on: Desk) -> QWidget:
    path = on.folder / "lower-body.csv"
    path.write_text(TABLE, encoding="utf-8")
    return TableImport(on.bench, on.store, path, None, today=TODAY)


def rescue(on: Desk) -> QWidget:
    failure = StoreFailure(Cause.FULL, where="coach.db")
    return RescueDialog(on.store, held_by(on.bench.desk), failure, None)


def adjusted(on: Desk) -> QWidget:
    noted(on.bench)
    return AdjustDialog(on.bench, None, today=TODAY)


def from_results(on: Desk) -> QWidget:
    noted(on.bench)
    return FromResultsDialog(on.bench, None)


def curtain(on: Desk) -> QWidget:
    idle = Idle(on.bench, lambda: None)
    return CurtainSheet(on.store, idle, None)


def other(on: Desk) -> QWidget:
    catalogue = on.bench.desk.catalogue
    return OtherExerciseSheet(None, catalogue[SQUAT], catalogue=catalogue, first=(FRONT,))


MAKERS: dict[str, Callable[[Desk], QWidget]] = {
    "own exercise": own,
    "own exercise changed": lambda on: own(on, change=True),
    "own exercise from nothing": lambda on: OwnSheet(on.bench, None, None),
    "exercise": lambda on: DetailDialog(on.bench, on.bench.desk.catalogue[SQUAT], None),
    "bring back": lambda on: BringBack(on.bench, None),
    "merge": merge,
    "copy": lambda on: CopySheet(on.store, RUNA.id, RUNA.name, None),
    "guess": lambda on: GuessSheet(on.bench, None, exercise=FRONT, today=TODAY),
    "status": lambda on: StatusSheet(None, status=Status.INTERMEDIATE, years=1.0),
    "place": lambda on: TextSheet(
        None, tr("A new place"), tr("Name: home, gym, travel …"), text="", verb=tr("Add")
    ),
    "reason": lambda on: TextSheet(
        None, tr("Accept this finding"), tr("Reason"), text="", verb=tr("Accept")
    ),
    "filled form": filled_form,
    "table of a plan": table,
    "table of results": lambda on: ResultTableDialog(
        on.bench, book(), "log.csv", None, today=TODAY
    ),
    "other exercise": other,
    "adjust": adjusted,
    "from results": from_results,
    "take in": lambda on: TakeInSheet(on.bench.desk, on.store, on.folder / "all.zip", None),
    "lock": lambda on: LockSheet(on.store, None),
    "unlock": lambda on: UnlockSheet(on.folder / "coach.db", lambda _key: on.store),
    "erase": lambda on: EraseDialog(on.bench.desk, on.store, RUNA.id, None),
    "rescue": rescue,
    "curtain": curtain,
}


@pytest.fixture(autouse=True)
def spoken() -> Iterator[None]:
    """Everything is said in the pseudo-language."""
    use(find_language(PSEUDO))
    yield
    use(ENGLISH)


@pytest.fixture
def painted(monkeypatch: pytest.MonkeyPatch) -> Iterator[Painted]:
    """What is painted during the test."""
    with watched(monkeypatch) as seen:
        yield seen


@pytest.fixture
def place(bench: Bench, store: Store, tmp_path: Path) -> Desk:
    """Where dialogs are made."""
    return Desk(bench, store, tmp_path)


@pytest.fixture
def file(tmp_path: Path) -> Iterator[Store]:
    """A store on disk, for what is about the file itself."""
    made = Store.open(tmp_path / "coach.db")
    made.save(None, Work(RUNA), label="Add client")
    yield made
    made.close()


def settled() -> None:
    QThreadPool.globalInstance().waitForDone(30_000)
    QCoreApplication.processEvents()


@pytest.mark.parametrize("maker", MAKERS.values(), ids=MAKERS)
def test_nothing_in_an_inner_dialog_is_untranslated(
    maker: Callable[[Desk], QWidget],
    qtbot: QtBot,
    dressed: QApplication,
    place: Desk,
    file: Store,
    painted: Painted,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    given = (TABLE, BOOK, repr(DOUBTFUL), str(place.folder), repr(TWIN), GIVEN)
    known = pseudo.KNOWN | set(re.findall(r"[A-Za-z]+", " ".join(given)))
    monkeypatch.setattr(pseudo, "KNOWN", known)
    on_file = maker in (MAKERS["lock"], MAKERS["erase"])
    made = maker(replace(place, store=file) if on_file else place)
    qtbot.addWidget(made)
    made.show()
    settled()
    found = faults(painted, [made])
    for tabs in made.findChildren(QTabWidget):
        for page in range(tabs.count()):
            tabs.setCurrentIndex(page)
            settled()
            found |= faults(painted, [made])
    made.close()
    settled()
    assert found == set()


def drawn(made: ChartsWindow, kind: Kind) -> bool:
    """True once the window shows that chart and draws no other."""
    return made.chart is not None and made.chart.kind is kind and made._job is None


def test_nothing_in_a_chart_or_its_table_is_untranslated(
    qtbot: QtBot, dressed: QApplication, bench: Bench, painted: Painted
) -> None:
    bench.desk.keep_diary("Fill", diary())
    made = ChartsWindow(bench, None, today=CHARTED)
    qtbot.addWidget(made)
    made.show()
    qtbot.waitUntil(lambda: made.chart is not None)
    found: set[tuple[str, str]] = set()
    for kind in Kind:
        made.choose(kind)
        qtbot.waitUntil(partial(drawn, made, kind))
        made._show_table(False)
        found |= faults(painted, [made])
        made._show_table(True)
        found |= faults(painted, [made])
    assert found == set()
