"""The tables of the diary: check-ins, and what was done of a program, set by set.

Result rows are many. All of one client's lie together on disk in the order in which a diary holds
them, so that one client's diary is one short stretch of the file, however many others there are.
A result outlives its program, as an issue does, so it names it without a key.
"""

from __future__ import annotations

from datetime import date

from sqlalchemy import ForeignKeyConstraint
from sqlalchemy.orm import Mapped, mapped_column

from db.columns import CLUSTERED, Model, client_key, law, place_in_order


class CheckInRow(Model):
    """What a client reported on one day; what was not asked is null."""

    __tablename__ = "check_ins"
    __table_args__ = (
        law("mass_kg", "mass_kg > 0"),
        law("kcal", "kcal >= 0"),
        law("adherence", "adherence BETWEEN 0 AND 1"),
        CLUSTERED,
    )
    client_id: Mapped[str] = client_key()
    on_date: Mapped[date] = mapped_column(primary_key=True)
    mass_kg: Mapped[float | None]
    kcal: Mapped[float | None]
    sleep: Mapped[int | None]
    soreness: Mapped[int | None]
    mood: Mapped[int | None]
    stress: Mapped[int | None]
    adherence: Mapped[float | None]
    note: Mapped[str]


def _of_check_in() -> ForeignKeyConstraint:
    return ForeignKeyConstraint(
        ["client_id", "on_date"], ["check_ins.client_id", "check_ins.on_date"], ondelete="CASCADE"
    )


class GirthRow(Model):
    """A girth of a check-in, cm."""

    __tablename__ = "girths"
    __table_args__ = (_of_check_in(), law("cm", "cm > 0"), CLUSTERED)
    client_id: Mapped[str] = mapped_column(primary_key=True)
    on_date: Mapped[date] = mapped_column(primary_key=True)
    site: Mapped[str] = mapped_column(primary_key=True)
    cm: Mapped[float]


class CheckInPictureRow(Model):
    """The name of a picture of a check-in, in the folder beside the file."""

    __tablename__ = "check_in_pictures"
    __table_args__ = (_of_check_in(), CLUSTERED)
    client_id: Mapped[str] = mapped_column(primary_key=True)
    on_date: Mapped[date] = mapped_column(primary_key=True)
    position: Mapped[int] = place_in_order()
    name: Mapped[str]


class ResultRow(Model):
    """What was done of one slot of a program on one day; `exercise` is the one that was done."""

    __tablename__ = "results"
    __table_args__ = (CLUSTERED,)
    client_id: Mapped[str] = client_key()
    on_date: Mapped[date] = mapped_column(primary_key=True)
    program_id: Mapped[str] = mapped_column(primary_key=True)
    slot_id: Mapped[int] = place_in_order()
    exercise: Mapped[str]
    note: Mapped[str]


class ResultSetRow(Model):
    """One set of a result as it was done, in order."""

    __tablename__ = "result_sets"
    __table_args__ = (
        ForeignKeyConstraint(
            ["client_id", "on_date", "program_id", "slot_id"],
            ["results.client_id", "results.on_date", "results.program_id", "results.slot_id"],
            ondelete="CASCADE",
        ),
        law("reps", "reps >= 0"),
        law("rir", "rir >= 0"),
        CLUSTERED,
    )
    client_id: Mapped[str] = mapped_column(primary_key=True)
    on_date: Mapped[date] = mapped_column(primary_key=True)
    program_id: Mapped[str] = mapped_column(primary_key=True)
    slot_id: Mapped[int] = place_in_order()
    position: Mapped[int] = place_in_order()
    load_kg: Mapped[float]
    reps: Mapped[int]
    rir: Mapped[float | None]
