"""Where a file is kept since its old place was lost, so that the next start asks for it.

The note lies in the state folder of the user, not beside the file: that place may be gone. It
holds the two paths and nothing else.
"""

from __future__ import annotations

import json
from contextlib import suppress
from pathlib import Path

from app.domain.errors import CoachError
from app.exchange.files import write_file

MOST_BYTES = 100_000


def note_path() -> Path:
    """Where the note lies."""
    from platformdirs import user_state_path

    return user_state_path("weekloom", appauthor=False) / "kept-elsewhere.json"


def note_move(old: Path, new: Path, *, note: Path | None = None) -> bool:
    """Remembers that what was at `old` is kept at `new`; False where that cannot be written."""
    return _write(note or note_path(), old, {"to": str(new.absolute()), "settled": False})


def moved_to(path: Path, *, note: Path | None = None) -> Path | None:
    """Where the file of that path is kept now; None if it was never lost, or cannot be found."""
    moves = _moves(note or note_path())
    here = str(path.absolute())
    passed: set[str] = set()
    while here in moves and here not in passed:
        passed.add(here)
        here = str(moves[here].get("to"))
    new = Path(here)
    return new if passed and new.absolute() != path.absolute() and new.is_file() else None


def is_settled(path: Path, *, note: Path | None = None) -> bool:
    """True if the coach has said that the new place counts: it need not be asked again."""
    return _moves(note or note_path()).get(str(path.absolute()), {}).get("settled") is True


def settle_move(path: Path, *, note: Path | None = None) -> None:
    """The new place counts from now on."""
    note = note or note_path()
    found = _moves(note).get(str(path.absolute()))
    if found is not None:
        _write(note, path, {**found, "settled": True})


def forget_move(path: Path, *, note: Path | None = None) -> None:
    """The file at its old place is the one that counts again."""
    _write(note or note_path(), path, None)


def _moves(note: Path) -> dict[str, dict[str, object]]:
    with suppress(OSError, ValueError):
        if note.stat().st_size <= MOST_BYTES:
            found = json.loads(note.read_text(encoding="utf-8"))
            if isinstance(found, dict):
                return {old: move for old, move in found.items() if isinstance(move, dict)}
    return {}


def _write(note: Path, old: Path, move: dict[str, object] | None) -> bool:
    moves = _moves(note)
    moves.pop(str(old.absolute()), None)
    if move is not None:
        moves[str(old.absolute())] = move
    try:
        note.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        write_file(note, json.dumps(moves, indent=1).encode())
    except (CoachError, OSError):
        return False
    return True
