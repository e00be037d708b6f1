"""Edits of whole sessions, days and the open week; menus, keys and the grid call these.

Each act is one edit, kept through the bench with its span, and named for the undo menu.
"""

from __future__ import annotations

from app.domain.edits import fields, place, weeks
from app.domain.edits.parts import locate_session
from app.domain.errors import CoachError
from app.domain.findings import edit
from app.domain.program import SessionId, day_name
from app.domain.wording import tr
from app.ui.bench import Bench


class SessionActs:
    """Edits of whole sessions and days."""

    def __init__(self, bench: Bench) -> None:
        self._bench = bench

    def add(self, day: int, title: str = "") -> bool:
        """Add an empty session at the end of a day."""
        return self._bench.keep(
            edit(
                tr("Add a session on {day_name}", day_name=day_name(day)),
                place.add_session,
                week=self._bench.week,
                day=day,
                title=title,
                span=self._bench.span,
            )
        )

    def move(self, session_id: SessionId, day: int) -> bool:
        """Move a whole session to another day."""
        return self._bench.keep(
            edit(
                tr(
                    "Move {title} to {day_name}",
                    title=self._title(session_id),
                    day_name=day_name(day),
                ),
                place.move_session,
                session_id=session_id,
                day=day,
                span=self._bench.span,
            )
        )

    def remove(self, session_id: SessionId) -> bool:
        """Take a whole session out."""
        return self._bench.keep(
            edit(
                tr("Remove {title}", title=self._title(session_id)),
                place.remove_session,
                session_id=session_id,
                span=self._bench.span,
            )
        )

    def rename(self, session_id: SessionId, title: str) -> bool:
        """Give a session another title."""
        return self._bench.keep(
            edit(
                tr("Rename {title}", title=self._title(session_id)),
                place.rename_session,
                session_id=session_id,
                title=title,
                span=self._bench.span,
            )
        )

    def write_note(self, session_id: SessionId, note: str) -> bool:
        """Set the note on a session."""
        return self._bench.keep(
            edit(
                tr("Note on {title}", title=self._title(session_id)),
                fields.set_session_note,
                session_id=session_id,
                note=note,
                span=self._bench.span,
            )
        )

    def write_day_note(self, day: int, note: str) -> bool:
        """Set the note on a day."""
        return self._bench.keep(
            edit(
                tr("Note on {day_name}", day_name=day_name(day)),
                fields.set_day_note,
                week=self._bench.week,
                day=day,
                note=note,
                span=self._bench.span,
            )
        )

    def write_week_note(self, note: str) -> bool:
        """Set the note on the open week, whatever the span."""
        number = self._bench.week + 1
        return self._bench.keep(
            edit(
                tr("Note on week {number}", number=number),
                weeks.set_week_note,
                index=self._bench.week,
                note=note,
            )
        )

    def clear_day(self, day: int) -> bool:
        """Take every session of a day out."""
        return self._bench.keep(
            edit(
                tr("Clear {day_name}", day_name=day_name(day)),
                place.clear_day,
                week=self._bench.week,
                day=day,
                span=self._bench.span,
            )
        )

    def _title(self, session_id: SessionId) -> str:
        try:
            _, day, session = locate_session(self._bench.desk.program, session_id)
        except CoachError:
            return "session"
        return session.title or tr("{day_name}'s session", day_name=day_name(day))
