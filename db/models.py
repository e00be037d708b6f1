"""The tables, typed, with named constraints; names are those of the values in `app.domain`.

Checks hold laws (a count is never negative, a weekday is one of seven), not rules of thumb:
those move, and a table that has to be rebuilt for them is a risk to the coach's file. The parts
of a program are keyed by the program and the number the program gave them, so one program lies
together on disk and a whole one is read in a handful of queries.
"""

from __future__ import annotations

from datetime import date

from sqlalchemy import ForeignKey, ForeignKeyConstraint, Index
from sqlalchemy.orm import Mapped, mapped_column

from db.columns import CLUSTERED, Model, client_key, law, place_in_order, program_key
from db.diary_models import (
    CheckInPictureRow,
    CheckInRow,
    GirthRow,
    ResultRow,
    ResultSetRow,
)

__all__ = [
    "AcceptanceRow",
    "BandRow",
    "BlockRow",
    "CheckInPictureRow",
    "CheckInRow",
    "ClientEmphasisRow",
    "ClientEquipmentRow",
    "ClientRow",
    "ClientTagRow",
    "CoachRow",
    "DayRow",
    "DislikeRow",
    "EditRow",
    "FreeTimeRow",
    "GirthRow",
    "IssueRow",
    "LikeRow",
    "LimitationRow",
    "Model",
    "OwnExerciseRow",
    "PlaceBandRow",
    "PlaceEquipmentRow",
    "PlacePlateRow",
    "PlaceRow",
    "PlateRow",
    "ProgramEmphasisRow",
    "ProgramRow",
    "RangeOverrideRow",
    "ReferralRow",
    "ResultRow",
    "ResultSetRow",
    "ScreeningRow",
    "SessionRow",
    "SettingRow",
    "SlotRow",
    "StrengthTestRow",
    "WarmupRow",
    "WeekRow",
]

# ---------------------------------------------------------------------------- the coach


class CoachRow(Model):
    """The one coach this file belongs to."""

    __tablename__ = "coach"
    __table_args__ = (law("one", "id = 1"),)
    id: Mapped[int] = mapped_column(primary_key=True)
    name: Mapped[str]
    contact: Mapped[str]
    team: Mapped[str]


class SettingRow(Model):
    """Small view state that belongs to the file: last client, program, week."""

    __tablename__ = "settings"
    key: Mapped[str] = mapped_column(primary_key=True)
    value: Mapped[str]


class OwnExerciseRow(Model):
    """An exercise of the coach's own. `value` is the whole of it as canonical JSON."""

    __tablename__ = "own_exercises"
    key: Mapped[str] = mapped_column(primary_key=True)
    name: Mapped[str]
    retired: Mapped[bool]
    value: Mapped[str]


class RangeOverrideRow(Model):
    """A range that the coach changed: who, when, why. The newest of a rule and group counts."""

    __tablename__ = "range_overrides"
    id: Mapped[int] = mapped_column(primary_key=True)
    rule: Mapped[str]
    changed_by: Mapped[str]
    on_date: Mapped[date]
    why: Mapped[str]
    value: Mapped[str]


# ---------------------------------------------------------------------------- clients


class ClientRow(Model):
    """One client. `version` counts the saves, so that two windows cannot overwrite each other.

    diary_version counts those of the diary, which is saved apart from the rest.
    """

    __tablename__ = "clients"
    __table_args__ = (
        law("name", "name <> ''"),
        Index(None, "name", "id"),
    )
    id: Mapped[str] = mapped_column(primary_key=True)
    version: Mapped[int] = mapped_column(default=1)
    name: Mapped[str]
    born: Mapped[date | None]
    sex: Mapped[str | None]
    height_cm: Mapped[float | None]
    mass_kg: Mapped[float | None]
    status: Mapped[str]
    goal: Mapped[str]
    trained_years: Mapped[float]
    team: Mapped[str]
    contact: Mapped[str]
    note: Mapped[str]
    kcal_now: Mapped[float | None]
    energy_goal: Mapped[str | None]
    activity_level: Mapped[float]
    units: Mapped[str]
    archived: Mapped[bool]
    bar_kg: Mapped[float]
    dumbbell_low_kg: Mapped[float]
    dumbbell_step_kg: Mapped[float]
    dumbbell_high_kg: Mapped[float]
    machine_step_kg: Mapped[float]
    cable_step_kg: Mapped[float]
    stage: Mapped[str] = mapped_column(server_default="active")
    consent_on: Mapped[date | None]
    consent_note: Mapped[str] = mapped_column(server_default="")
    keep_until: Mapped[date | None]
    language: Mapped[str] = mapped_column(server_default="")
    paper: Mapped[str] = mapped_column(server_default="")
    energy_equation: Mapped[str] = mapped_column(server_default="")
    diary_version: Mapped[int] = mapped_column(default=1, server_default="1")
    fat_free_kg: Mapped[float | None] = mapped_column(law("fat_free_kg", "fat_free_kg > 0"))


class ClientTagRow(Model):
    """A word of the coach's own for a client."""

    __tablename__ = "client_tags"
    __table_args__ = (CLUSTERED,)
    client_id: Mapped[str] = client_key()
    tag: Mapped[str] = mapped_column(primary_key=True)


class ClientEmphasisRow(Model):
    """A muscle the client's training is for, in order of priority."""

    __tablename__ = "client_emphasis"
    __table_args__ = (CLUSTERED,)
    client_id: Mapped[str] = client_key()
    position: Mapped[int] = place_in_order()
    muscle: Mapped[str]


class FreeTimeRow(Model):
    """What a client has on one weekday, 0 for Monday. Days without time or note have no row."""

    __tablename__ = "free_times"
    __table_args__ = (
        law("day", "day BETWEEN 0 AND 6"),
        law("minutes", "minutes >= 0"),
        CLUSTERED,
    )
    client_id: Mapped[str] = client_key()
    day: Mapped[int] = place_in_order()
    minutes: Mapped[int]
    note: Mapped[str]
    place: Mapped[str] = mapped_column(server_default="")


class ClientEquipmentRow(Model):
    """A thing the client can train with."""

    __tablename__ = "client_equipment"
    __table_args__ = (CLUSTERED,)
    client_id: Mapped[str] = client_key()
    equipment: Mapped[str] = mapped_column(primary_key=True)


class PlateRow(Model):
    """A size of plate in the client's reach, kg."""

    __tablename__ = "plates"
    __table_args__ = (CLUSTERED,)
    client_id: Mapped[str] = client_key()
    position: Mapped[int] = place_in_order()
    size_kg: Mapped[float]


class BandRow(Model):
    """A grade of band in the client's reach, light to heavy."""

    __tablename__ = "bands"
    __table_args__ = (CLUSTERED,)
    client_id: Mapped[str] = client_key()
    position: Mapped[int] = place_in_order()
    name: Mapped[str]


class LimitationRow(Model):
    """A joint motion that is ruled out for a time."""

    __tablename__ = "limitations"
    __table_args__ = (CLUSTERED,)
    client_id: Mapped[str] = client_key()
    position: Mapped[int] = place_in_order()
    joint: Mapped[str]
    motion: Mapped[str]
    side: Mapped[str]
    past_degrees: Mapped[int | None]
    since: Mapped[date | None]
    until: Mapped[date | None]
    note: Mapped[str]


class ScreeningRow(Model):
    """Answers to the questions before training, and clearance if any."""

    __tablename__ = "screenings"
    __table_args__ = (CLUSTERED,)
    client_id: Mapped[str] = client_key()
    position: Mapped[int] = place_in_order()
    on_date: Mapped[date]
    active: Mapped[bool]
    known_disease: Mapped[bool]
    symptoms: Mapped[bool]
    pregnant: Mapped[bool]
    cleared_on: Mapped[date | None]
    note: Mapped[str]


class StrengthTestRow(Model):
    """Repetitions done with a load on a day."""

    __tablename__ = "strength_tests"
    __table_args__ = (
        law("load_kg", "load_kg >= -100"),  # below 0: the body is helped up
        law("reps", "reps >= 1"),
        law("rir", "rir >= 0"),
        CLUSTERED,
    )
    client_id: Mapped[str] = client_key()
    position: Mapped[int] = place_in_order()
    exercise: Mapped[str]
    on_date: Mapped[date]
    load_kg: Mapped[float]
    reps: Mapped[int]
    rir: Mapped[float]
    note: Mapped[str]
    guessed_from: Mapped[str | None]


class DislikeRow(Model):
    """An exercise the client does not want."""

    __tablename__ = "dislikes"
    __table_args__ = (CLUSTERED,)
    client_id: Mapped[str] = client_key()
    exercise: Mapped[str] = mapped_column(primary_key=True)


class LikeRow(Model):
    """An exercise the client likes."""

    __tablename__ = "likes"
    __table_args__ = (CLUSTERED,)
    client_id: Mapped[str] = client_key()
    exercise: Mapped[str] = mapped_column(primary_key=True)


class ReferralRow(Model):
    """A reason why numbers on energy must come from a practitioner."""

    __tablename__ = "referrals"
    __table_args__ = (CLUSTERED,)
    client_id: Mapped[str] = client_key()
    position: Mapped[int] = place_in_order()
    reason: Mapped[str]


class PlaceRow(Model):
    """A place to train at beside the usual one, in order, with its steps to load with, kg."""

    __tablename__ = "places"
    __table_args__ = (law("name", "name <> ''"), CLUSTERED)
    client_id: Mapped[str] = client_key()
    position: Mapped[int] = place_in_order()
    name: Mapped[str]
    bar_kg: Mapped[float]
    dumbbell_low_kg: Mapped[float]
    dumbbell_step_kg: Mapped[float]
    dumbbell_high_kg: Mapped[float]
    machine_step_kg: Mapped[float]
    cable_step_kg: Mapped[float]


def part_of_place() -> ForeignKeyConstraint:
    """The place that a row belongs to, as the first two parts of its key."""
    return ForeignKeyConstraint(
        ["client_id", "place"], ["places.client_id", "places.position"], ondelete="CASCADE"
    )


class PlaceEquipmentRow(Model):
    """A thing to train with at a place."""

    __tablename__ = "place_equipment"
    __table_args__ = (part_of_place(), CLUSTERED)
    client_id: Mapped[str] = mapped_column(primary_key=True)
    place: Mapped[int] = place_in_order()
    equipment: Mapped[str] = mapped_column(primary_key=True)


class PlacePlateRow(Model):
    """A size of plate at a place, kg."""

    __tablename__ = "place_plates"
    __table_args__ = (part_of_place(), CLUSTERED)
    client_id: Mapped[str] = mapped_column(primary_key=True)
    place: Mapped[int] = place_in_order()
    position: Mapped[int] = place_in_order()
    size_kg: Mapped[float]


class PlaceBandRow(Model):
    """A grade of band at a place, light to heavy."""

    __tablename__ = "place_bands"
    __table_args__ = (part_of_place(), CLUSTERED)
    client_id: Mapped[str] = mapped_column(primary_key=True)
    place: Mapped[int] = place_in_order()
    position: Mapped[int] = place_in_order()
    name: Mapped[str]


# ---------------------------------------------------------------------------- programs


class ProgramRow(Model):
    """One client's plan. `version` counts the saves, as for a client."""

    __tablename__ = "programs"
    __table_args__ = (
        law("name", "name <> ''"),
        law("next_id", "next_id >= 1"),
        Index(None, "client_id"),
    )
    id: Mapped[str] = mapped_column(primary_key=True)
    client_id: Mapped[str] = mapped_column(ForeignKey("clients.id", ondelete="CASCADE"))
    version: Mapped[int] = mapped_column(default=1)
    name: Mapped[str]
    start: Mapped[date]
    curve: Mapped[str]
    next_id: Mapped[int]
    archived: Mapped[bool]


class ProgramEmphasisRow(Model):
    """A muscle the program is for, most important first."""

    __tablename__ = "program_emphasis"
    __table_args__ = (CLUSTERED,)
    program_id: Mapped[str] = program_key()
    position: Mapped[int] = place_in_order()
    muscle: Mapped[str]


class BlockRow(Model):
    """A run of weeks with one purpose."""

    __tablename__ = "blocks"
    __table_args__ = (law("weeks", "weeks >= 1"), CLUSTERED)
    program_id: Mapped[str] = program_key()
    position: Mapped[int] = place_in_order()
    name: Mapped[str]
    weeks: Mapped[int]


class AcceptanceRow(Model):
    """A finding the coach has looked at and keeps, with the reason."""

    __tablename__ = "acceptances"
    __table_args__ = (CLUSTERED,)
    program_id: Mapped[str] = program_key()
    position: Mapped[int] = place_in_order()
    finding: Mapped[str]
    reason: Mapped[str]


class WeekRow(Model):
    """One week of a program. Positions are not unique, so that weeks can change places."""

    __tablename__ = "weeks"
    __table_args__ = (law("position", "position >= 0"), CLUSTERED)
    program_id: Mapped[str] = program_key()
    id: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    position: Mapped[int]
    light: Mapped[bool]
    note: Mapped[str]


class DayRow(Model):
    """The note of one day, 0 for Monday. Days without a note have no row."""

    __tablename__ = "days"
    __table_args__ = (
        ForeignKeyConstraint(
            ["program_id", "week_id"], ["weeks.program_id", "weeks.id"], ondelete="CASCADE"
        ),
        law("day", "day BETWEEN 0 AND 6"),
        CLUSTERED,
    )
    program_id: Mapped[str] = mapped_column(primary_key=True)
    week_id: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    day: Mapped[int] = place_in_order()
    note: Mapped[str]


class SessionRow(Model):
    """One training session and the day it stands on."""

    __tablename__ = "sessions"
    __table_args__ = (
        ForeignKeyConstraint(
            ["program_id", "week_id"], ["weeks.program_id", "weeks.id"], ondelete="CASCADE"
        ),
        law("day", "day BETWEEN 0 AND 6"),
        law("position", "position >= 0"),
        Index(None, "program_id", "week_id"),
        CLUSTERED,
    )
    program_id: Mapped[str] = mapped_column(primary_key=True)
    id: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    week_id: Mapped[int]
    day: Mapped[int]
    position: Mapped[int]
    strand: Mapped[int]
    title: Mapped[str]
    note: Mapped[str]


class WarmupRow(Model):
    """A drill before a session, in order. Without rounds, as much as its zone says."""

    __tablename__ = "warmups"
    __table_args__ = (
        ForeignKeyConstraint(
            ["program_id", "session_id"],
            ["sessions.program_id", "sessions.id"],
            ondelete="CASCADE",
        ),
        CLUSTERED,
    )
    program_id: Mapped[str] = mapped_column(primary_key=True)
    session_id: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    position: Mapped[int] = place_in_order()
    exercise: Mapped[str]
    rounds: Mapped[int | None] = mapped_column(law("rounds", "rounds >= 1"))
    reps_low: Mapped[int | None] = mapped_column(law("reps_low", "reps_low >= 1"))
    reps_high: Mapped[int | None] = mapped_column(law("reps_high", "reps_high >= 1"))


class SlotRow(Model):
    """One exercise's place in one session, with its prescription.

    effort_kind says how `effort` is meant: rir, one_rm or rep_max; pinned: names of the pinned
    fields, sorted, with a space between; prepared: keys of the prepared substitutes, likewise,
    in the coach's order; ramp: ramp sets as the coach set them, '50%x5 60kgx2', empty for none of
    them, null for those that are worked out.
    """

    __tablename__ = "slots"
    __table_args__ = (
        ForeignKeyConstraint(
            ["program_id", "session_id"],
            ["sessions.program_id", "sessions.id"],
            ondelete="CASCADE",
        ),
        law("position", "position >= 0"),
        law("sets", "sets >= 1"),
        law("reps", "reps_low >= 1 AND reps_high >= reps_low"),
        law("effort_kind", "effort_kind IN ('rir', 'one_rm', 'rep_max')"),
        law("effort", "effort >= 0"),
        law("rest_s", "rest_s >= 0"),
        law("load_kg", "load_kg >= 0"),
        Index(None, "program_id", "session_id"),
        CLUSTERED,
    )
    program_id: Mapped[str] = mapped_column(primary_key=True)
    id: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    session_id: Mapped[int]
    position: Mapped[int]
    strand: Mapped[int]
    exercise: Mapped[str]
    sets: Mapped[int]
    reps_low: Mapped[int]
    reps_high: Mapped[int]
    effort_kind: Mapped[str]
    effort: Mapped[float]
    rest_s: Mapped[int]
    tempo: Mapped[str]
    pair: Mapped[str]
    note: Mapped[str]
    role: Mapped[str]
    load_kg: Mapped[float | None]
    pinned: Mapped[str]
    prepared: Mapped[str]
    ramp: Mapped[str | None]


# ---------------------------------------------------------------------------- what was kept


class IssueRow(Model):
    """A booklet that was handed out. It outlives its program, so it names it without a key.

    value: the whole frozen issue as canonical JSON in `format`; it is never edited.
    """

    __tablename__ = "issues"
    __table_args__ = (Index(None, "program_id"), Index(None, "client_id"))
    sequence: Mapped[int] = mapped_column(primary_key=True)
    id: Mapped[str] = mapped_column(unique=True)
    client_id: Mapped[str] = mapped_column(ForeignKey("clients.id", ondelete="CASCADE"))
    program_id: Mapped[str]
    on_date: Mapped[date]
    program_name: Mapped[str]
    weeks: Mapped[int]
    format: Mapped[int]
    value: Mapped[str]


class EditRow(Model):
    """One kept edit: when (UTC, ISO 8601) and what, in the words of the undo menu.

    The order is that of `id`, not of the clock.
    """

    __tablename__ = "edits"
    __table_args__ = (Index(None, "program_id", "id"), Index(None, "client_id"))
    id: Mapped[int] = mapped_column(primary_key=True)
    client_id: Mapped[str] = mapped_column(ForeignKey("clients.id", ondelete="CASCADE"))
    program_id: Mapped[str | None] = mapped_column(ForeignKey("programs.id", ondelete="CASCADE"))
    at: Mapped[str]
    label: Mapped[str]
