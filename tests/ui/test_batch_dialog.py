from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest
from pypdf import PdfReader
from pytestqt.qtbot import QtBot

from app.booklet import Paper
from app.domain.client import ClientId, Stage
from app.domain.program import ProgramId
from app.domain.work import Work
from app.ui.batch_dialog import FOLDER, BatchDialog
from app.ui.bench import Bench
from app.ui.paper_habits import LANGUAGE, SIZE
from db.store import Store
from tests.ui.access import marked_up, too_small, unnamed
from tests.ui.desks import PROGRAM, RUNA

TODAY = date(2026, 11, 25)
SHORT = replace(PROGRAM, weeks=PROGRAM.weeks[:2], blocks=(replace(PROGRAM.blocks[0], weeks=2),))


@pytest.fixture
def dialog(qtbot: QtBot, dressed, bench: Bench, store: Store, tmp_path: Path) -> BatchDialog:
    for name in ("Oskar Leidner", "王伟"):
        client = replace(RUNA, id=ClientId(f"c-{name}"), name=name, tests=())
        store.save(None, Work(client, replace(SHORT, id=ProgramId(f"p-{name}"))), label="Add")
    store.set_setting(FOLDER, str(tmp_path))
    made = BatchDialog(bench, store, None, today=TODAY)
    qtbot.addWidget(made)
    made.show()
    made.first.set_value(1)
    made.last.set_value(1)
    return made


def tick(dialog: BatchDialog, *names: str) -> None:
    things = dialog.model.things
    dialog.model.tick(row for row, line in enumerate(things) if line.client_name in names)


def told(dialog: BatchDialog) -> dict[str, str]:
    """What is said of each client's booklet."""
    return {line.client_name: dialog.model.told(k) for k, line in enumerate(dialog.model.things)}


def run(dialog: BatchDialog, qtbot: QtBot) -> None:
    dialog.keep_button.click()
    qtbot.waitUntil(lambda: not dialog.running, timeout=60_000)


def test_booklets_are_made_and_what_failed_says_why(
    dialog: BatchDialog, qtbot: QtBot, tmp_path: Path, store: Store
) -> None:
    tick(dialog, "Oskar Leidner", "王伟")
    assert dialog.keep_button.text() == "Make 2 booklets"
    run(dialog, qtbot)
    (made,) = tmp_path.glob("*.pdf")
    assert made.read_bytes().startswith(b"%PDF")
    assert made.name.startswith("oskar-leidner")
    assert told(dialog)["Oskar Leidner"] == made.name
    assert "CJK" in told(dialog)["王伟"]
    assert dialog.summary.text() == "1 booklet made. 1 could not be made; its line says why."
    assert len(store.issues(ProgramId("p-Oskar Leidner"))) == 1
    assert store.issues(ProgramId("p-王伟")) == ()


@pytest.mark.parametrize(
    ("chosen", "spoken"), [("", ("Übung", "Semana")), ("es", ("Semana", "Semana"))]
)
def test_a_language_is_each_clients_own_or_one_for_all(
    dialog: BatchDialog,
    qtbot: QtBot,
    tmp_path: Path,
    store: Store,
    chosen: str,
    spoken: tuple[str, str],
) -> None:
    leidner = ClientId("c-Oskar Leidner")
    before = store.load_client(leidner)
    program = store.load_program(ProgramId("p-Oskar Leidner"))
    after = replace(before, language="de")
    store.save(Work(before, program), Work(after, program), label="Language")
    store.set_setting(LANGUAGE, "es")
    dialog.language.setCurrentIndex(dialog.language.findData(chosen))
    tick(dialog, "Oskar Leidner", RUNA.name)
    run(dialog, qtbot)
    texts = [PdfReader(path).pages[1:] for path in sorted(tmp_path.glob("*.pdf"))]
    for pages, word in zip(texts, spoken, strict=True):
        assert word in "".join(page.extract_text() for page in pages)


def test_paper_begins_at_the_coachs_usual_size(
    qtbot: QtBot, dressed, bench: Bench, store: Store
) -> None:
    store.set_setting(SIZE, "A5")
    made = BatchDialog(bench, store, None, today=TODAY)
    qtbot.addWidget(made)
    assert made.paper.currentData() is Paper.A5


def test_what_was_made_is_no_longer_ticked_what_failed_still_is(
    dialog: BatchDialog, qtbot: QtBot
) -> None:
    tick(dialog, "Oskar Leidner", "王伟")
    run(dialog, qtbot)
    assert [dialog.model.things[row].client_name for row in dialog.model.ticked] == ["王伟"]


def test_it_can_be_stopped_and_says_how_far_it_came(
    dialog: BatchDialog, qtbot: QtBot, tmp_path: Path
) -> None:
    dialog.ticks.tick_all()
    dialog.keep_button.click()
    dialog.stop_button.click()
    qtbot.waitUntil(lambda: not dialog.running, timeout=60_000)
    assert len(list(tmp_path.glob("*.pdf"))) == 1
    assert "2 were not begun" in dialog.summary.text()
    assert list(told(dialog).values()).count("not made") == 2


def test_escape_stops_instead_of_closing_in_the_middle(dialog: BatchDialog, qtbot: QtBot) -> None:
    dialog.ticks.tick_all()
    dialog.keep_button.click()
    dialog.reject()
    assert dialog.isVisible()
    qtbot.waitUntil(lambda: not dialog.running, timeout=60_000)
    dialog.reject()
    assert not dialog.isVisible()


@pytest.mark.parametrize(
    ("field", "text", "said"),
    [
        ("folder", "/nowhere/at/all", "no such folder"),
        ("pattern", "{name}", "{client}"),
    ],
)
def test_bad_choices_are_named_and_nothing_is_made(
    dialog: BatchDialog, tmp_path: Path, field: str, text: str, said: str
) -> None:
    dialog.ticks.tick_all()
    getattr(dialog, field).setText(text)
    dialog.keep_button.click()
    assert said in dialog.wrong.text()
    assert not list(tmp_path.iterdir())


def test_the_example_follows_the_pattern(dialog: BatchDialog) -> None:
    tick(dialog, "Oskar Leidner")
    dialog.pattern.setText("{date} {client}")
    assert dialog.example.text() == "For example 2026-11-25-oskar-leidner.pdf"


def test_clients_are_narrowed_by_stage_and_tag_and_ticked_together(
    qtbot: QtBot, dressed, bench: Bench, store: Store
) -> None:
    for number, (stage, tags) in enumerate(
        ((Stage.PAUSED, ("north",)), (Stage.ACTIVE, ("north",)), (Stage.ACTIVE, ()))
    ):
        client = replace(RUNA, id=ClientId(f"c{number}"), name=f"C{number}", stage=stage, tags=tags)
        store.save(None, Work(client, replace(SHORT, id=ProgramId(f"p{number}"))), label="Add")
    dialog = BatchDialog(bench, store, None, today=TODAY)
    qtbot.addWidget(dialog)
    dialog.stage.setCurrentIndex(dialog.stage.findText("active"))
    dialog.tag.setCurrentIndex(dialog.tag.findText("north"))
    dialog.ticks.all_button.click()
    assert [dialog.model.things[row].client_name for row in dialog.model.ticked] == ["C1"]
    assert dialog.keep_button.text() == "Make 1 booklet"


def test_opening_asks_the_file_as_often_for_thirty_as_for_one(
    qtbot: QtBot, dressed, bench: Bench, store: Store
) -> None:
    def asked() -> int:
        found: list[str] = []
        store._raw.set_trace_callback(found.append)
        made = BatchDialog(bench, store, None, today=TODAY)
        store._raw.set_trace_callback(None)
        qtbot.addWidget(made)
        assert made.model.rowCount() == len(store.newest_programs())
        return len(found)

    for_one = asked()
    for number in range(30):
        client = replace(RUNA, id=ClientId(f"c{number}"), name=f"Client {number}")
        store.save(None, Work(client, replace(SHORT, id=ProgramId(f"p{number}"))), label="Add")
    assert asked() == for_one


def test_everybody_can_use_it(dialog: BatchDialog) -> None:
    assert unnamed(dialog) == []
    assert too_small(dialog) == []
    assert marked_up(dialog) == []
