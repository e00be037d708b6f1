"""What is in memory goes over when the file itself is lost."""

from __future__ import annotations

from contextlib import closing
from dataclasses import replace

from app import resources
from app.desk import Desk
from app.domain.edits.whole import rename
from app.domain.findings import edit
from app.domain.work import Work
from app.picture_folder import PictureFolder
from app.rescue import carry_pictures, held_by
from db.store import Store
from tests.db.samples import PLAN, RUNA, STEP_OVER
from tests.db.test_elsewhere import ODA, SECOND
from tests.db.test_passphrase import KEY


def desk_on(store: Store) -> Desk:
    store.save(None, Work(RUNA, PLAN), label="Add client")
    store.save(Work(RUNA), Work(RUNA, SECOND), label="Add program")
    store.save(None, Work(ODA), label="Add client")
    catalogue = resources.catalogue().with_own((STEP_OVER,))
    return Desk(store, catalogue, resources.range_book())


def test_everything_that_was_open_or_edited_is_held_as_last_kept():
    with closing(Store.in_memory()) as store:
        desk = desk_on(store)
        desk.open(RUNA.id, PLAN.id)
        desk.keep(edit("Rename", rename, name="One"))
        desk.keep(edit("Rename", rename, name="Two"))
        desk.undo()
        desk.open(RUNA.id, SECOND.id)
        desk.keep(edit("Rename", rename, name="Other"))
        desk.open(ODA.id)
        desk.keep_client("Note", replace(desk.client, note="rings on Sunday"))
        held = held_by(desk)
    programs = {work.program.id: work.program.name for work in held.works if work.program}
    assert programs == {PLAN.id: "One", SECOND.id: "Other"}
    notes = {work.client.id: work.client.note for work in held.works}
    assert notes == {RUNA.id: RUNA.note, ODA.id: "rings on Sunday"}
    assert held.exercises == (STEP_OVER,)


def test_a_desk_with_nothing_open_holds_nobody():
    with closing(Store.in_memory()) as store:
        assert held_by(desk_on(store)).works == ()


def test_what_is_held_makes_a_file_that_the_desk_goes_on_with(tmp_path):
    with closing(Store.open(tmp_path / "old.weekloom")) as store:
        desk = desk_on(store)
        desk.open(RUNA.id, PLAN.id)
        desk.keep(edit("Rename", rename, name="One"))
        store._raw.close()  # as if the share had gone away
        assert not store.keep_elsewhere(tmp_path / "new.weekloom", held_by(desk))
        desk.keep(edit("Rename", rename, name="Two"))
        desk.undo()
        desk.undo()
        assert store.load_program(PLAN.id) == PLAN


def test_pictures_go_along_and_stay_where_they_were(tmp_path):
    old, new = PictureFolder(tmp_path / "old.db"), PictureFolder(tmp_path / "new.db")
    name = old.add(b"a picture")
    assert carry_pictures(tmp_path / "old.db", tmp_path / "new.db") == 0
    assert (old.read(name), new.read(name)) == (b"a picture", b"a picture")
    assert carry_pictures(tmp_path / "none.db", tmp_path / "new.db") == 0


def test_pictures_that_cannot_be_written_are_counted(tmp_path):
    name = PictureFolder(tmp_path / "old.db").add(b"a picture")
    (tmp_path / "new.db-pictures").write_text("in the way", encoding="utf-8")
    assert carry_pictures(tmp_path / "old.db", tmp_path / "new.db") == 1
    assert PictureFolder(tmp_path / "old.db").has(name)


def test_locked_pictures_stay_locked_at_the_new_place(tmp_path):
    old = PictureFolder(tmp_path / "old.db", KEY)
    name = old.add(b"zqpixelsqz")
    assert carry_pictures(tmp_path / "old.db", tmp_path / "new.db", key=KEY) == 0
    new = PictureFolder(tmp_path / "new.db", KEY)
    assert new.read(name) == b"zqpixelsqz"
    assert all(b"zqpixelsqz" not in path.read_bytes() for path in new.path.iterdir())
