"""A coach who edits without pause: keeps one edit after the other and says which ones are kept.

Run as a program with the path of a file; every number printed is an edit that `save` returned
from. It never ends by itself.
"""

from __future__ import annotations

import sys
from dataclasses import replace
from datetime import date
from itertools import count
from pathlib import Path

from app.domain.program import MAX_SETS, Program, Week
from app.domain.results import Diary, SetDone
from app.domain.work import Work
from db.store import Store
from tests.db.samples import PLAN, RUNA

LATER = date(2027, 1, 4)


def edited(program: Program, number: int) -> Program:
    """The program after edit `number`: every slot of every week, a note, and a week that comes.

    Each part tells the number of the edit, so that half an edit would show.
    """

    def numbered(week: Week) -> Week:
        days = tuple(
            replace(
                day,
                sessions=tuple(
                    replace(
                        session,
                        title=str(number),
                        slots=tuple(
                            replace(slot, sets=1 + number % MAX_SETS, note=str(number))
                            for slot in session.slots
                        ),
                    )
                    for session in day.sessions
                ),
            )
            for day in week.days
        )
        return replace(week, days=days, note=str(number))

    weeks = tuple(map(numbered, program.weeks))
    if number % 2:
        weeks = weeks[::-1]
    return replace(program, weeks=weeks, name=f"edit {number}")


def noted(diary: Diary, number: int) -> Diary:
    """The diary after edit `number`: every result tells it, and one comes or goes."""
    kept = (result for result in diary.results if result.on != LATER)
    results = [replace(result, note=str(number)) for result in kept]
    if number % 2:
        results.append(replace(results[0], on=LATER, sets=(SetDone(60.0, 5), SetDone(62.5, 4))))
    return Diary(diary.check_ins, tuple(results))


def main() -> None:
    """Keeps edits until killed."""
    store = Store.open(Path(sys.argv[1]))
    program = store.load_program(PLAN.id)
    diary = store.load_diary(RUNA.id)
    first = int(program.name.split()[1]) if program.name.startswith("edit ") else 0
    work = Work(RUNA, program, diary)
    for number in count(first + 1):
        after = Work(RUNA, edited(program, number), noted(diary, number))
        store.save(work, after, label=f"edit {number}")
        work = after
        sys.stdout.write(f"{number}\n")
        sys.stdout.flush()


if __name__ == "__main__":
    main()
