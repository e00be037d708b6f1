"""A client of whom everything is a marker: what is left of the person can be searched for."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from pathlib import Path

from app.domain.client import (
    Client,
    ClientId,
    Consent,
    FreeTime,
    Increments,
    Limitation,
    Place,
    Screening,
    StrengthTest,
)
from app.domain.exercise import Equipment, ExerciseKey, Joint, Motion
from app.domain.program import Program, ProgramId, Week
from app.domain.results import CheckIn, Diary, SetDone, SlotResult
from app.domain.work import Coach, Issue, IssueId, PrintedLoad, Work
from db.store import Store
from tests.db.samples import PLAN

WORDS = (
    "name", "team", "contact", "note", "limitation", "screening", "test", "free", "tag",
    "consent", "place", "refer", "program", "week", "day", "session", "slot", "accepted",
    "check-in", "result", "label", "issue-name", "issue-note", "setting", "client-id",
    "program-id",
)  # fmt: skip
MARKERS = {word: f"zq{word}qz" for word in WORDS}
"""A text for each place where something of a client may stand."""

PICTURE = "zqpictureqz.jpg"
SQUAT = ExerciseKey("back_squat")


def marked_client() -> Client:
    m = MARKERS
    return Client(
        id=ClientId(m["client-id"]),
        name=m["name"],
        born=date(1991, 3, 7),
        team=m["team"],
        contact=m["contact"],
        note=m["note"],
        free=(FreeTime(75, m["free"]), *(FreeTime(),) * 6),
        limitations=(Limitation(Joint.KNEE, Motion.IMPACT, note=m["limitation"]),),
        screenings=(
            Screening(
                date(2026, 1, 2), True, known_disease=False, symptoms=False, note=m["screening"]
            ),
        ),
        tests=(StrengthTest(ExerciseKey("back_squat"), date(2026, 1, 3), 62.5, 5, note=m["test"]),),
        refer=(m["refer"],),
        tags=(m["tag"],),
        consent=Consent(date(2026, 1, 1), m["consent"]),
        places=(Place(m["place"], frozenset({Equipment.BODY}), Increments()),),
    )


def _known(week: Week) -> Week:
    """The week with exercises that the library has, so that a window can show it."""
    slots = {slot.id: replace(slot, exercise=SQUAT, prepared=()) for slot in week.slots()}
    days = tuple(
        replace(
            day,
            sessions=tuple(
                replace(session, warmup=(), slots=tuple(slots[slot.id] for slot in session.slots))
                for session in day.sessions
            ),
        )
        for day in week.days
    )
    return replace(week, days=days)


def marked_program() -> Program:
    m = MARKERS
    weeks = tuple(map(_known, PLAN.weeks))
    week = weeks[0]
    day = week.days[0]
    session = day.sessions[0]
    slot = replace(session.slots[0], note=m["slot"])
    session = replace(session, title=m["session"], slots=(slot, *session.slots[1:]))
    day = replace(day, note=m["day"], sessions=(session, *day.sessions[1:]))
    week = replace(week, note=m["week"], days=(day, *week.days[1:]))
    accepted = tuple(replace(a, reason=m["accepted"]) for a in PLAN.accepted)
    return replace(
        PLAN,
        id=ProgramId(m["program-id"]),
        name=m["program"],
        weeks=(week, *weeks[1:]),
        accepted=accepted,
    )


def marked_diary() -> Diary:
    m = MARKERS
    slot = marked_program().weeks[0].days[0].sessions[0].slots[0]
    return Diary(
        (CheckIn(date(2026, 1, 11), mass_kg=74.5, note=m["check-in"], pictures=(PICTURE,)),),
        (
            SlotResult(
                ProgramId(m["program-id"]),
                slot.id,
                slot.exercise,
                date(2026, 1, 5),
                (SetDone(52.5, 10),),
                note=m["result"],
            ),
        ),
    )


def add_marked(store: Store) -> Work:
    """Keeps the marked client with everything; what was kept."""
    m = MARKERS
    work = Work(marked_client(), marked_program(), marked_diary())
    store.save(None, work, label=m["label"])
    printed = replace(work.client, name=m["issue-name"], note=m["issue-note"])
    loads = tuple(PrintedLoad(slot.id, 50.0) for slot in work.program.weeks[0].slots())
    store.add_issue(
        Issue(IssueId("marked"), date(2026, 2, 2), Coach("Ada"), printed, work.program, loads)
    )
    store.set_setting(f"columns {work.client.id}", m["setting"])
    store.set_setting("open", f"{work.client.id} {work.program.id} 1")
    return work


def found_in(folder: Path) -> dict[str, list[str]]:
    """The markers that any file below the folder holds in its bytes or its name."""
    found: dict[str, list[str]] = {}
    needles = [*MARKERS.values(), PICTURE]
    for path in sorted(folder.rglob("*")):
        content = path.read_bytes() if path.is_file() else b""
        here = [n for n in needles if n.encode() in content or n in path.name]
        if here:
            found[path.name] = here
    return found
