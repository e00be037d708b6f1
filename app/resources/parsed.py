"""Shipped tables as parsed the last time: reading them back is ten times as fast as parsing TOML.

What is kept lies in the user's cache folder, as JSON, one file for each shipped file. It counts
only for the very source it was made from (place, size, time of change) and this version of
Weekloom, and only if not a byte of it has changed; else the source is parsed and kept anew.
Nothing depends on it: a cache that cannot be read or written is as good as none.
"""

from __future__ import annotations

import json
import os
from contextlib import suppress
from pathlib import Path
from zlib import crc32

import app

Table = dict[str, object]


Stamp = tuple[str | int, ...]


def stamp_of(source: Path) -> Stamp:
    """What tells the source, and who parsed it, from any other; taken before it is read."""
    state = source.stat()
    return app.__version__, str(source), state.st_size, state.st_mtime_ns


def kept(place: Path, stamp: Stamp) -> Table | None:
    """The tables kept at `place` if they are those of the source with that stamp; else None."""
    try:
        head, _, body = place.read_bytes().partition(b"\n")
        if json.loads(head) != [*stamp, crc32(body)]:
            return None
        found = json.loads(body)
    except (OSError, ValueError, RecursionError):
        return None
    return found if isinstance(found, dict) else None


def keep(place: Path, stamp: Stamp, *, tables: Table) -> None:
    """Keeps the tables of a source at `place`, for the user alone, if that can be done.

    Tables that JSON cannot hold exactly (with dates, say) are not kept.
    """
    with suppress(OSError, TypeError, ValueError):
        body = json.dumps(tables, allow_nan=False).encode()
        head = json.dumps([*stamp, crc32(body)]).encode()
        for folder in (place.parent.parent, place.parent):  # the mode is for the last of them only
            folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        making = place.with_name(f"{place.name}.{os.getpid()}.new")
        try:
            number = os.open(making, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600)
            with os.fdopen(number, "wb") as file:
                file.write(head + b"\n" + body)
            making.replace(place)
        finally:
            making.unlink(missing_ok=True)


def place_for(relative: str) -> Path:
    """Where the tables of a shipped file are kept; `relative` is its name inside `resources`."""
    from platformdirs import user_cache_path

    folder = user_cache_path("weekloom", appauthor=False) / "tables"
    return folder / f"{relative.replace('/', '.')}.json"
