"""Everything that is held on one client, gathered from the coach's file and written as one file."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from datetime import date
from pathlib import Path

from app import resources
from app.booklet.record_book import make_record_book
from app.domain.client import ClientId
from app.domain.errors import CoachError
from app.domain.exercise import Catalogue
from app.domain.holding import Holding, Noted
from app.domain.wording import language, speaking
from app.exchange.files import safe_name, write_file
from app.exchange.person_file import SUFFIX, pack_person
from app.exchange.plan_file import gather
from app.picture_folder import PictureFolder
from app.resources.languages import nearest_language, spoken_catalogue
from db.store import Store

SCHEMAS = ("person.schema.json", "plan.schema.json")


def held_on(store: Store, client_id: ClientId, catalogue: Catalogue, *, on: date) -> Holding:
    """All that the file holds on the client. Raises StoreFailure if there is none of that id."""
    client = store.load_client(client_id)
    programs = tuple(store.load_program(line.id) for line in store.programs(client_id))
    issues = tuple(store.load_issue(issue_id) for issue_id in store.issues_of(client_id))
    diary = store.load_diary(client_id)
    own = {}
    for program in (None, *programs, *(issue.program for issue in issues)):
        for exercise in gather(client, program, catalogue).exercises:
            own[exercise.key] = exercise
    for result in diary.results:
        if result.exercise in catalogue and catalogue[result.exercise].own:
            own[result.exercise] = catalogue[result.exercise]
    edits = tuple(Noted(line.at, line.label) for line in store.edits_of(client_id))
    return Holding(
        on,
        store.coach(),
        client,
        programs,
        diary,
        issues,
        tuple(own[key] for key in sorted(own)),
        edits,
    )


def file_name(name: str, on: date) -> str:
    """'runa-estvik-2026-11-29.held.zip'."""
    return f"{safe_name(name)}-{on.isoformat()}{SUFFIX}"


def export_person(store: Store, holding: Holding, catalogue: Catalogue, target: Path) -> None:
    """Writes everything to `target`, whole or not at all; the pages in the client's language.

    Raises CoachError.
    """
    schemas = {name: resources.text(f"schema/{name}") for name in SCHEMAS}
    with speaking(nearest_language(holding.client.language)):
        told = spoken_catalogue(catalogue, language().code)
        printed = make_record_book(holding, told, fonts=resources.path_of("fonts"))
    data = pack_person(
        holding,
        catalogue,
        printed=printed,
        schemas=schemas,
        pictures=_pictures(store, holding),
    )
    write_file(target, data)


def _pictures(store: Store, holding: Holding) -> Iterator[tuple[str, bytes]]:
    if store.path is None:
        return
    folder = PictureFolder(store.path, store.key)
    names = {name for check_in in holding.diary.check_ins for name in check_in.pictures}
    for name in sorted(names):
        with suppress(CoachError):  # one that is gone from the folder
            yield name, folder.read(name)
