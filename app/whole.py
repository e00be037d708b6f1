"""The whole file out to open formats and back: everything, pictures too, or nothing."""

from __future__ import annotations

import json
import os
import tempfile
from collections.abc import Callable, Iterator
from contextlib import closing, suppress
from dataclasses import dataclass
from datetime import datetime
from functools import cache
from pathlib import Path
from typing import Any

from app import resources
from app.domain.errors import CoachError
from app.domain.wording import tr
from app.exchange.files import told
from app.exchange.whole_file import SUFFIX, Manifest, open_whole, write_whole
from app.picture_folder import PictureFolder
from db import whole as rows
from db.backup import copy_aside
from db.errors import StoreFailure
from db.passphrase import Passphrase
from db.store import Store

SCHEMA = "schema/whole.schema.json"


@dataclass(frozen=True, slots=True)
class TakenIn:
    """What an import did. aside: where the file is that was there before, None if there was none.

    pictures_left: pictures that could not be written.
    """

    clients: int
    aside: Path | None = None
    pictures_left: int = 0


@cache
def published() -> dict[str, Any]:
    """The published schema of the export."""
    found: dict[str, Any] = json.loads(resources.text(SCHEMA))
    return found


def file_name(at: datetime | None = None) -> str:
    """'weekloom-2026-11-29.weekloom.zip'."""
    day = (at or datetime.now().astimezone()).date()
    return f"weekloom-{day.isoformat()}{SUFFIX}"


def export_whole(
    store: Store, target: Path, *, cancelled: Callable[[], bool] = lambda: False
) -> Manifest:
    """Writes everything that the store's file holds to `target`, beside it first.

    Raises CoachError, with nothing written and what was at `target` as it was.
    """
    with told(target, "write"):
        handle, name = tempfile.mkstemp(prefix=f".{target.name}.", dir=target.parent)
        beside = Path(name)
        try:
            with os.fdopen(handle, "w+b") as out, store.whole() as (revision, tables):
                manifest = write_whole(
                    out,
                    schema=revision,
                    tables=((t, tuple(c.name for c in cs), found) for t, cs, found in tables),
                    pictures=_pictures(store),
                    published=resources.text(SCHEMA),
                    cancelled=cancelled,
                )
                out.flush()
                os.fsync(out.fileno())
            if not cancelled():
                beside.replace(target)
        finally:
            with suppress(OSError):
                beside.unlink(missing_ok=True)
    return manifest


def _pictures(store: Store) -> Iterator[tuple[str, bytes]]:
    if store.path is None:
        return
    folder = PictureFolder(store.path, store.key)
    for name in sorted(folder.names()):
        with suppress(CoachError):  # one that is gone or too large meanwhile
            yield name, folder.read(name)


def import_whole(
    source: Path, target: Path, *, key: Passphrase | None = None, replacing: bool = False
) -> TakenIn:
    """Makes a coach's file at `target` of the export at `source`.

    key: what the new file is locked with. replacing: a file that is there is put aside as a copy
    first; it must not be open. Raises CoachError, with everything as it was.
    """
    if target.exists() and not replacing:
        raise CoachError(
            tr("There is a file already, and a whole import takes its place."),
            where=str(target),
            mend=tr("Name another file, or replace it: it is put aside as a copy."),
        )
    making = target.with_name(f".{target.name}.{os.getpid()}.taken-in")
    aside = None
    with open_whole(source, published=published()) as found:
        try:
            rows.build(making, found.manifest.schema, found.tables(), key=key)
            clients = _read_everything(making, key=key, where=str(source))
            pictures = list(found.pictures())
            if target.exists():
                aside = copy_aside(target, "before-import", key=key)
            with told(target, "write"):
                making.replace(target)
        finally:
            with suppress(OSError):
                making.unlink(missing_ok=True)
    return TakenIn(clients, aside, _keep_pictures(target, pictures, key=key))


def _read_everything(path: Path, *, key: Passphrase | None, where: str) -> int:
    """How many clients the file holds, once every value in it was read.

    Raises StoreFailure where a row breaks a law that only its value knows.
    """
    with closing(Store.open(path, key=key)) as store:
        try:
            store.coach()
            store.own_exercises(retired=True)
            store.range_overrides()
            for client in store.clients():
                store.load_client(client.id)
                store.load_diary(client.id)
                for program in store.programs(client.id):
                    store.load_program(program.id)
            for issue_id in store.all_issues():
                store.load_issue(issue_id)
        except StoreFailure as failure:
            mend = tr("Export the file again and take that in.")
            raise StoreFailure(
                failure.cause, where=where, what=failure.what, mend=mend
            ) from failure
        return len(store.clients())


def _keep_pictures(
    target: Path, pictures: list[tuple[str, bytes]], *, key: Passphrase | None
) -> int:
    folder = PictureFolder(target, key)
    left = 0
    for name, picture in pictures:
        try:
            folder.take_in(name, picture)
        except CoachError:
            left += 1
    with suppress(CoachError):  # what lay here readable before; it is tried again at every close
        folder.lock_in()
    return left


def schema_of_tables(revision: str) -> dict[str, Any]:
    """The schema to publish for the newest tables; `python -m tests.whole_schema` writes it."""
    kinds = {"text": "string", "integer": "integer", "number": "number"}
    tables = {}
    for table, columns in rows.newest_columns().items():
        fields = {
            c.name: {"type": [kinds[c.kind], "null"] if c.optional else kinds[c.kind]}
            for c in columns
        }
        tables[table] = {
            "type": "object",
            "additionalProperties": False,
            "required": list(fields),
            "properties": fields,
        }
    sum_of = {"type": "string", "pattern": "^[0-9a-f]{64}$"}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "$id": "urn:weekloom:whole:1",
        "title": "Weekloom whole file, version 1",
        "description": "weekloom.json of a whole-file export. Under $defs each table of the schema "
        f"{revision}: every line of tables/NAME.jsonl is one such record.",
        "type": "object",
        "additionalProperties": False,
        "required": ["format", "version", "schema", "tables", "pictures"],
        "properties": {
            "format": {"const": "weekloom whole file"},
            "version": {"const": 1},
            "schema": {"type": "string", "pattern": "^[0-9]{4}$"},
            "tables": {
                "type": "object",
                "maxProperties": 200,
                "additionalProperties": {
                    "type": "object",
                    "additionalProperties": False,
                    "required": ["rows", "sha256"],
                    "properties": {"rows": {"type": "integer", "minimum": 0}, "sha256": sum_of},
                },
            },
            "pictures": {
                "type": "object",
                "additionalProperties": {
                    "type": "object",
                    "additionalProperties": False,
                    "required": ["sha256"],
                    "properties": {"sha256": sum_of},
                },
            },
        },
        "$defs": tables,
    }
