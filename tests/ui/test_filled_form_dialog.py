"""A filled booklet is looked at before it is kept: one step, and nothing replaced in silence."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, Qt, QThreadPool
from PySide6.QtWidgets import QApplication, QFileDialog, QWidget
from pytestqt.qtbot import QtBot

from app import press
from app.booklet import Kind, Options
from app.domain.client import ClientId
from app.domain.errors import CoachError
from app.domain.form_names import SetPlace, What
from app.domain.form_results import FilledForm
from app.domain.results import SetDone
from app.domain.work import IssueId
from app.ui import filled_form_dialog
from app.ui.bench import Bench
from app.ui.filled_form_dialog import (
    FilledFormDialog,
    issue_of,
    lines_of,
    read_filled_booklet,
    read_from,
)
from db.store import Store
from tests.exchange.test_filled_form import filled_by_pikepdf
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import TODAY

WAIT_MS = 60_000


def first_slots(bench: Bench):
    (_, session), *_ = bench.desk.program.weeks[0].sessions()
    return session, session.slots


def filled(bench: Bench, texts: dict[tuple[int, int], dict[What, str]]) -> FilledForm:
    """A form of a booklet handed out today: texts by slot and set, counted from 0 and 1."""
    issue = bench.desk.draft_issue(TODAY)
    bench.desk.hand_out(issue)
    session, slots = first_slots(bench)
    sets = {
        SetPlace(1, session.id, slots[at].id, number): given
        for (at, number), given in texts.items()
    }
    return FilledForm(issue.id, "kg", sets)


PLAIN = {What.LOAD: "60", What.REPS: "5"}
DOUBTFUL = {What.LOAD: "abc", What.REPS: "5", What.NOTE: "no idea"}


@pytest.fixture
def form(bench: Bench) -> FilledForm:
    return filled(bench, {(0, 1): {What.REPS: "5", What.LOAD: "80"}, (1, 1): DOUBTFUL})


def opened(qtbot: QtBot, bench: Bench, store: Store, form: FilledForm) -> FilledFormDialog:
    lines, odd = lines_of(bench, store, form)
    made = FilledFormDialog(bench, None, lines, units=form.units, odd=odd)
    qtbot.addWidget(made)
    return made


def test_doubtful_lines_are_named_and_not_ticked(
    qtbot: QtBot, bench: Bench, store: Store, form: FilledForm
) -> None:
    dialog = opened(qtbot, bench, store, form)
    first, second = (dialog.table.topLevelItem(row) for row in range(2))
    assert "'abc' is no number" in second.text(4)
    assert second.checkState(0) == Qt.CheckState.Unchecked
    assert dialog.lines[1] not in dialog.chosen()
    dialog.table.setCurrentItem(second)
    assert "abc | 5 | – | no idea" in dialog.whole.text()
    assert "80 kg × 5" in first.text(3)
    assert "2 exercises were filled in." in dialog.summary.text()


def test_kept_it_is_one_step_that_can_be_undone(
    qtbot: QtBot, bench: Bench, store: Store, form: FilledForm
) -> None:
    dialog = opened(qtbot, bench, store, form)
    before = bench.desk.diary
    dialog.all_button.click()
    dialog.keep_button.click()
    kept = bench.desk.diary.results
    assert len(kept) == len(before.results) + 2
    _, slots = first_slots(bench)
    assert any(one.slot == slots[0].id and one.sets == (SetDone(80, 5),) for one in kept)
    assert bench.desk.history.undoable.label == "Take over a filled booklet"
    bench.desk.undo()
    assert bench.desk.diary == before


def test_read_again_it_is_kept_already_and_changed_it_is_asked(
    qtbot: QtBot, bench: Bench, store: Store, form: FilledForm
) -> None:
    dialog = opened(qtbot, bench, store, form)
    dialog.all_button.click()
    dialog.keep()
    again = opened(qtbot, bench, store, form)
    again.all_button.click()
    assert again.chosen() == ()
    assert not again.keep_button.isEnabled()
    assert "are kept already." in again.summary.text()
    (place, *_) = sorted(form.sets)
    other = {**form.sets, place: {What.LOAD: "82,5", What.REPS: "5"}}
    changed = opened(qtbot, bench, store, replace(form, sets=other))
    assert "kept already as" in changed.table.topLevelItem(0).text(4)
    assert changed.lines[0] not in changed.chosen()
    changed.all_button.click()
    assert changed.lines[0] in changed.chosen()
    changed.sure_button.click()
    assert changed.lines[0] not in changed.chosen()


def test_a_booklet_of_somebody_else_or_of_no_file_is_refused(bench: Bench, store: Store) -> None:
    form = filled(bench, {(0, 1): PLAIN})
    with pytest.raises(CoachError, match="knows no such booklet"):
        issue_of(bench, store, replace(form, issue=IssueId("unknown")))
    issue = store.load_issue(form.issue)
    stranger = replace(issue.client, id=ClientId("x"), name="Petra Sundal")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(store, "load_issue", lambda _id: replace(issue, client=stranger))
        with pytest.raises(CoachError, match="handed to Petra Sundal. Open that client first"):
            issue_of(bench, store, form)


def test_an_empty_form_is_said(bench: Bench, store: Store) -> None:
    with pytest.raises(CoachError, match="Nothing is filled in"):
        lines_of(bench, store, filled(bench, {}))


def test_sets_that_are_none_of_the_booklets_are_counted(
    qtbot: QtBot, bench: Bench, store: Store
) -> None:
    form = filled(bench, {(0, 1): PLAIN, (0, 19): PLAIN})
    dialog = opened(qtbot, bench, store, form)
    assert "1 set stands in the form that the booklet does not have." in dialog.summary.text()


def test_from_the_file_to_the_preview(
    qtbot: QtBot, bench: Bench, store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk = bench.desk
    issue = desk.draft_issue(TODAY)
    desk.hand_out(issue)
    options = Options(kind=Kind.FORM, weeks=(1, 1))
    pdf = press.bind(issue, desk.catalogue, desk.ranges, options=options)
    session, slots = first_slots(bench)
    place = SetPlace(1, session.id, slots[0].id, 1)
    texts = {place.field(What.LOAD): "80", place.field(What.REPS): "5"}
    path = tmp_path / "back.pdf"
    path.write_bytes(filled_by_pikepdf(pdf, texts))
    shown: list[FilledFormDialog] = []

    def show(dialog: FilledFormDialog) -> int:
        shown.append(dialog)
        return 0

    monkeypatch.setattr(FilledFormDialog, "exec", show)
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(path), ""))
    parent = QWidget()
    qtbot.addWidget(parent)
    job = read_filled_booklet(bench, store, parent)
    assert job is not None
    qtbot.waitUntil(lambda: bool(shown), timeout=WAIT_MS)
    (line,) = shown[0].lines
    assert line.result.sets == (SetDone(80, 5),)


def test_cancelled_nothing_is_read(
    bench: Bench, store: Store, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: ("", ""))
    parent = QWidget()
    qtbot.addWidget(parent)
    assert read_filled_booklet(bench, store, parent) is None


def test_why_it_was_not_read_is_said(
    qtbot: QtBot, bench: Bench, store: Store, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    said: list[str] = []
    monkeypatch.setattr(filled_form_dialog, "tell", lambda _p, _t, sentence: said.append(sentence))
    path = tmp_path / "other.pdf"
    path.write_bytes(b"nothing of the kind")
    parent = QWidget()
    qtbot.addWidget(parent)
    job = read_from(bench, store, parent, path)
    qtbot.waitUntil(lambda: bool(said), timeout=WAIT_MS)
    assert job is not None
    assert "The file is no PDF." in said[0]
    assert QThreadPool.globalInstance().waitForDone(WAIT_MS)
    QCoreApplication.processEvents()


def test_everybody_can_use_it(
    qtbot: QtBot, dressed: QApplication, bench: Bench, store: Store, form: FilledForm
) -> None:
    dialog = opened(qtbot, bench, store, form)
    dialog.show()
    qtbot.waitExposed(dialog)
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
