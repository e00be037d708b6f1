"""Sets per muscle and week as a table: a row a muscle, a column a week."""

from __future__ import annotations

from collections.abc import Callable

from app.domain.dose import Counting, weekly_sets
from app.domain.exercise import Catalogue, Muscle
from app.domain.muscle_groups import muscle_name
from app.domain.program import Program
from app.domain.wording import tr
from app.exchange.tables.table import Row, Table


def tally_table(
    program: Program,
    catalogue: Catalogue,
    *,
    counting: Counting = Counting.FRACTIONAL,
    name_of: Callable[[Muscle], str] = muscle_name,
) -> Table:
    """The sets of each week for every muscle that some week trains, emphasised ones first.

    name_of: what a muscle is called.
    """
    weeks = [weekly_sets(week, catalogue, counting) for week in program.weeks]
    trained = [muscle for muscle in Muscle if any(muscle in week for week in weeks)]
    order = [m for m in program.emphasis if m in trained]
    order += [m for m in trained if m not in order]
    heads = (tr("Muscle"), *(tr("Week {n}", n=n) for n in range(1, len(weeks) + 1)))
    rows: tuple[Row, ...] = tuple(
        (name_of(m), *(week.get(m, 0.0) for week in weeks)) for m in order
    )
    return Table(tr("Sets per muscle"), heads, rows)
