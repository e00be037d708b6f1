"""What the program holds in memory of a file, for when the file itself is lost."""

from __future__ import annotations

from pathlib import Path

from app.desk import Desk
from app.domain.client import ClientId
from app.domain.errors import CoachError
from app.domain.program import ProgramId
from app.domain.work import Work
from app.picture_folder import PictureFolder
from db.elsewhere import Held
from db.passphrase import Passphrase


def held_by(desk: Desk) -> Held:
    """Every client, program and diary that was open or edited in this session, as last kept.

    The open ones come first; own exercises are those of the open library.
    """
    known: dict[tuple[ClientId, ProgramId | None], Work] = {}
    clients: dict[ClientId, Work] = {}
    for work in desk.seen():
        clients.setdefault(work.client.id, work)
        program = None if work.program is None else work.program.id
        known.setdefault((work.client.id, program), work)
    works = []
    for (client_id, program_id), work in known.items():
        newest = clients[client_id]
        if program_id is None and newest.program is not None:
            continue  # the client goes with a program
        works.append(Work(newest.client, work.program, newest.diary))
    own = tuple(exercise for exercise in desk.catalogue if exercise.own)
    return Held(tuple(works), own)


def carry_pictures(old: Path, new: Path, *, key: Passphrase | None = None) -> int:
    """Copies the pictures of check-ins to the folder beside the new file; how many stayed behind.

    They are left where they are as well. What is there by that name already stays. key: what both
    files are locked with.
    """
    behind = 0
    source, target = PictureFolder(old, key), PictureFolder(new, key)
    try:
        names = source.names()
    except CoachError:
        return 0
    for name in sorted(names):
        try:
            target.take_in(name, source.read(name))
        except CoachError:
            behind += 1
    return behind
