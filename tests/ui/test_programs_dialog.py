"""The client's programs: listed with their findings; renamed, copied, archived, removed."""

from __future__ import annotations

from dataclasses import replace

import pytest
from pytestqt.qtbot import QtBot

from app.domain.findings import Weight
from app.domain.program import ProgramId
from app.domain.work import Work
from app.ui.bench import Bench
from app.ui.lines_table import choose
from app.ui.programs_dialog import FINDINGS, WAITING, ProgramsDialog, findings_text, removal_text
from db.errors import Cause, StoreFailure
from db.store import Store
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import PROGRAM, RUNA, TODAY

OLD = replace(PROGRAM, id=ProgramId("old"), name="Old season", archived=True)


class Answers:
    """What the coach answers when the dialog asks."""

    name: str | None = "Spring"
    removing = True

    def __init__(self) -> None:
        self.asked: list[str] = []

    def ask_name(self, _parent: object, name: str) -> str | None:
        self.asked.append(name)
        return self.name

    def ask_removal(self, _parent: object, sentence: str) -> bool:
        self.asked.append(sentence)
        return self.removing


@pytest.fixture
def answers() -> Answers:
    return Answers()


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench, store: Store, answers: Answers) -> ProgramsDialog:
    store.save(Work(RUNA), Work(RUNA, OLD), label="Add")
    made = ProgramsDialog(
        bench, store, None, ask_name=answers.ask_name, ask_removal=answers.ask_removal
    )
    qtbot.addWidget(made)
    made.show()
    return made


def rows(dialog: ProgramsDialog) -> list[tuple[str, ...]]:
    items = [dialog.table.topLevelItem(k) for k in range(dialog.table.topLevelItemCount())]
    return [tuple(item.text(column) for column in (0, 1, 2, 4)) for item in items]


def findings(dialog: ProgramsDialog) -> list[str]:
    items = [dialog.table.topLevelItem(k) for k in range(dialog.table.topLevelItemCount())]
    return [item.text(FINDINGS) for item in items]


def test_all_programs_are_listed_the_archived_ones_last(dialog: ProgramsDialog) -> None:
    assert rows(dialog) == [
        ("Ridge season", "23 Nov 2026", "6", ""),
        ("Old season", "23 Nov 2026", "6", "archived"),
    ]
    assert dialog.line.id == PROGRAM.id


def test_each_has_its_findings_counted(dialog: ProgramsDialog, qtbot: QtBot, bench: Bench) -> None:
    qtbot.waitUntil(lambda: WAITING not in findings(dialog), timeout=20_000)
    counted = findings_text(bench.desk.findings)
    assert findings(dialog) == [counted, counted]
    outside = sum(one.weight is Weight.OUTSIDE for one in bench.desk.findings)
    assert f"{outside} outside" in counted


def test_no_findings_is_a_word() -> None:
    assert findings_text(()) == "none"


def test_the_chosen_program_is_opened(dialog: ProgramsDialog, bench: Bench) -> None:
    choose(dialog.table, OLD.id)
    dialog.try_keep()
    assert bench.desk.program == OLD


def test_a_program_is_renamed_unless_it_was_cancelled(
    dialog: ProgramsDialog, answers: Answers, bench: Bench
) -> None:
    choose(dialog.table, OLD.id)
    dialog.rename_button.click()
    assert answers.asked == ["Old season"]
    assert [row[0] for row in rows(dialog)] == ["Ridge season", "Spring"]
    answers.name = None
    dialog.rename_button.click()
    assert [row[0] for row in rows(dialog)] == ["Ridge season", "Spring"]
    answers.name = " "
    dialog.rename_button.click()
    assert "has no name" in dialog.wrong.text()
    assert bench.desk.history.undoable is None


def test_a_copy_is_listed_and_chosen(dialog: ProgramsDialog) -> None:
    dialog.copy_button.click()
    assert sorted(row[0] for row in rows(dialog)) == [
        "Old season",
        "Ridge season",
        "Ridge season, copy",
    ]
    assert dialog.line.name == "Ridge season, copy"


def test_a_program_is_archived_and_brought_back(
    dialog: ProgramsDialog, store: Store, bench: Bench
) -> None:
    choose(dialog.table, OLD.id)
    assert dialog.archive_button.text() == "Bring back"
    dialog.archive_button.click()
    assert not store.load_program(OLD.id).archived
    choose(dialog.table, PROGRAM.id)
    assert dialog.archive_button.text() == "Archive"
    dialog.archive_button.click()
    assert bench.desk.program.archived
    bench.undo()
    assert not store.load_program(PROGRAM.id).archived


def test_removing_asks_first_and_says_what_is_lost(
    dialog: ProgramsDialog, answers: Answers, bench: Bench
) -> None:
    answers.removing = False
    dialog.remove_button.click()
    assert "Remove Ridge season with its 6 weeks for good?" in answers.asked[0]
    assert len(rows(dialog)) == 2
    answers.removing = True
    dialog.remove_button.click()
    assert [row[0] for row in rows(dialog)] == ["Old season"]
    assert not bench.desk.has_program


def test_it_is_said_that_what_was_handed_out_stays(
    dialog: ProgramsDialog, answers: Answers, bench: Bench, store: Store
) -> None:
    issue = bench.desk.draft_issue(TODAY)
    bench.desk.hand_out(issue)
    dialog.remove_button.click()
    assert "(1 booklet) stays in the file" in answers.asked[0]
    assert store.load_issue(issue.id) == issue
    assert "2 booklets" in removal_text(store.programs(RUNA.id)[0], 2)


def test_what_cannot_be_done_is_a_sentence_and_nothing_changes(
    dialog: ProgramsDialog, store: Store, monkeypatch
) -> None:
    def full(*_: object, **__: object) -> None:
        raise StoreFailure(Cause.FULL, where=store.where)

    monkeypatch.setattr(store, "save", full)
    monkeypatch.setattr(store, "remove_program", full)
    before = rows(dialog)
    for act in (dialog.copy, dialog.archive, dialog.remove, dialog.rename):
        act()
        assert dialog.wrong.text()
        assert rows(dialog) == before


def test_without_programs_there_is_nothing_to_do(
    qtbot: QtBot, dressed, bench: Bench, store: Store
) -> None:
    store.remove_program(PROGRAM.id)
    bench.desk.open(RUNA.id)
    made = ProgramsDialog(bench, store, None)
    qtbot.addWidget(made)
    assert made.line is None
    assert not made.keep_button.isEnabled()
    made.copy()
    assert rows(made) == []


def test_everybody_can_use_it(dialog: ProgramsDialog) -> None:
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
