"""The first tables.

Why: every later revision starts from a file that holds clients, their programs row by row, what
was handed out and what was done.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Brings an older file to this revision."""
    op.create_table(
        "clients",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("born", sa.Date(), nullable=True),
        sa.Column("sex", sa.Text(), nullable=True),
        sa.Column("height_cm", sa.Double(), nullable=True),
        sa.Column("mass_kg", sa.Double(), nullable=True),
        sa.Column("status", sa.Text(), nullable=False),
        sa.Column("goal", sa.Text(), nullable=False),
        sa.Column("trained_years", sa.Double(), nullable=False),
        sa.Column("team", sa.Text(), nullable=False),
        sa.Column("contact", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("kcal_now", sa.Double(), nullable=True),
        sa.Column("energy_goal", sa.Text(), nullable=True),
        sa.Column("activity_level", sa.Double(), nullable=False),
        sa.Column("units", sa.Text(), nullable=False),
        sa.Column("archived", sa.Boolean(), nullable=False),
        sa.Column("bar_kg", sa.Double(), nullable=False),
        sa.Column("dumbbell_low_kg", sa.Double(), nullable=False),
        sa.Column("dumbbell_step_kg", sa.Double(), nullable=False),
        sa.Column("dumbbell_high_kg", sa.Double(), nullable=False),
        sa.Column("machine_step_kg", sa.Double(), nullable=False),
        sa.Column("cable_step_kg", sa.Double(), nullable=False),
        sa.CheckConstraint("name <> ''", name=op.f("ck_clients_name")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_clients")),
    )
    op.create_index("ix_clients_name_id", "clients", ["name", "id"])

    op.create_table(
        "coach",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("contact", sa.Text(), nullable=False),
        sa.Column("team", sa.Text(), nullable=False),
        sa.CheckConstraint("id = 1", name=op.f("ck_coach_one")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_coach")),
    )
    op.create_table(
        "own_exercises",
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("retired", sa.Boolean(), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_own_exercises")),
    )
    op.create_table(
        "range_overrides",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("rule", sa.Text(), nullable=False),
        sa.Column("changed_by", sa.Text(), nullable=False),
        sa.Column("on_date", sa.Date(), nullable=False),
        sa.Column("why", sa.Text(), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_range_overrides")),
    )
    op.create_table(
        "settings",
        sa.Column("key", sa.Text(), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.PrimaryKeyConstraint("key", name=op.f("pk_settings")),
    )
    op.create_table(
        "bands",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id"], ["clients.id"], name=op.f("fk_bands_clients"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("client_id", "position", name=op.f("pk_bands")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "client_emphasis",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("muscle", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id"],
            ["clients.id"],
            name=op.f("fk_client_emphasis_clients"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("client_id", "position", name=op.f("pk_client_emphasis")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "client_equipment",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("equipment", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id"],
            ["clients.id"],
            name=op.f("fk_client_equipment_clients"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("client_id", "equipment", name=op.f("pk_client_equipment")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "dislikes",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("exercise", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id"], ["clients.id"], name=op.f("fk_dislikes_clients"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("client_id", "exercise", name=op.f("pk_dislikes")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "free_times",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("day", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("minutes", sa.Integer(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.CheckConstraint("day BETWEEN 0 AND 6", name=op.f("ck_free_times_day")),
        sa.CheckConstraint("minutes >= 0", name=op.f("ck_free_times_minutes")),
        sa.ForeignKeyConstraint(
            ["client_id"], ["clients.id"], name=op.f("fk_free_times_clients"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("client_id", "day", name=op.f("pk_free_times")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "issues",
        sa.Column("sequence", sa.Integer(), nullable=False),
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("program_id", sa.Text(), nullable=False),
        sa.Column("on_date", sa.Date(), nullable=False),
        sa.Column("program_name", sa.Text(), nullable=False),
        sa.Column("weeks", sa.Integer(), nullable=False),
        sa.Column("format", sa.Integer(), nullable=False),
        sa.Column("value", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id"], ["clients.id"], name=op.f("fk_issues_clients"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("sequence", name=op.f("pk_issues")),
        sa.UniqueConstraint("id", name=op.f("uq_issues_id")),
    )
    op.create_index("ix_issues_client_id", "issues", ["client_id"])
    op.create_index("ix_issues_program_id", "issues", ["program_id"])

    op.create_table(
        "limitations",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("joint", sa.Text(), nullable=False),
        sa.Column("motion", sa.Text(), nullable=False),
        sa.Column("side", sa.Text(), nullable=False),
        sa.Column("past_degrees", sa.Integer(), nullable=True),
        sa.Column("since", sa.Date(), nullable=True),
        sa.Column("until", sa.Date(), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id"], ["clients.id"], name=op.f("fk_limitations_clients"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("client_id", "position", name=op.f("pk_limitations")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "plates",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("size_kg", sa.Double(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id"], ["clients.id"], name=op.f("fk_plates_clients"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("client_id", "position", name=op.f("pk_plates")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "programs",
        sa.Column("id", sa.Text(), nullable=False),
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("start", sa.Date(), nullable=False),
        sa.Column("curve", sa.Text(), nullable=False),
        sa.Column("next_id", sa.Integer(), nullable=False),
        sa.Column("archived", sa.Boolean(), nullable=False),
        sa.CheckConstraint("name <> ''", name=op.f("ck_programs_name")),
        sa.CheckConstraint("next_id >= 1", name=op.f("ck_programs_next_id")),
        sa.ForeignKeyConstraint(
            ["client_id"], ["clients.id"], name=op.f("fk_programs_clients"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_programs")),
    )
    op.create_index("ix_programs_client_id", "programs", ["client_id"])

    op.create_table(
        "referrals",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id"], ["clients.id"], name=op.f("fk_referrals_clients"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("client_id", "position", name=op.f("pk_referrals")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "screenings",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("on_date", sa.Date(), nullable=False),
        sa.Column("active", sa.Boolean(), nullable=False),
        sa.Column("known_disease", sa.Boolean(), nullable=False),
        sa.Column("symptoms", sa.Boolean(), nullable=False),
        sa.Column("pregnant", sa.Boolean(), nullable=False),
        sa.Column("cleared_on", sa.Date(), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id"], ["clients.id"], name=op.f("fk_screenings_clients"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("client_id", "position", name=op.f("pk_screenings")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "strength_tests",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("exercise", sa.Text(), nullable=False),
        sa.Column("on_date", sa.Date(), nullable=False),
        sa.Column("load_kg", sa.Double(), nullable=False),
        sa.Column("reps", sa.Integer(), nullable=False),
        sa.Column("rir", sa.Double(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.CheckConstraint("load_kg >= -100", name=op.f("ck_strength_tests_load_kg")),
        sa.CheckConstraint("reps >= 1", name=op.f("ck_strength_tests_reps")),
        sa.CheckConstraint("rir >= 0", name=op.f("ck_strength_tests_rir")),
        sa.ForeignKeyConstraint(
            ["client_id"],
            ["clients.id"],
            name=op.f("fk_strength_tests_clients"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("client_id", "position", name=op.f("pk_strength_tests")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "acceptances",
        sa.Column("program_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("finding", sa.Text(), nullable=False),
        sa.Column("reason", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["program_id"],
            ["programs.id"],
            name=op.f("fk_acceptances_programs"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("program_id", "position", name=op.f("pk_acceptances")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "blocks",
        sa.Column("program_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("weeks", sa.Integer(), nullable=False),
        sa.CheckConstraint("weeks >= 1", name=op.f("ck_blocks_weeks")),
        sa.ForeignKeyConstraint(
            ["program_id"], ["programs.id"], name=op.f("fk_blocks_programs"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("program_id", "position", name=op.f("pk_blocks")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "edits",
        sa.Column("id", sa.Integer(), nullable=False),
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("program_id", sa.Text(), nullable=True),
        sa.Column("at", sa.Text(), nullable=False),
        sa.Column("label", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id"], ["clients.id"], name=op.f("fk_edits_clients"), ondelete="CASCADE"
        ),
        sa.ForeignKeyConstraint(
            ["program_id"], ["programs.id"], name=op.f("fk_edits_programs"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_edits")),
    )
    op.create_index("ix_edits_client_id", "edits", ["client_id"])
    op.create_index("ix_edits_program_id_id", "edits", ["program_id", "id"])

    op.create_table(
        "program_emphasis",
        sa.Column("program_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("muscle", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["program_id"],
            ["programs.id"],
            name=op.f("fk_program_emphasis_programs"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("program_id", "position", name=op.f("pk_program_emphasis")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "weeks",
        sa.Column("program_id", sa.Text(), nullable=False),
        sa.Column("id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("light", sa.Boolean(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.CheckConstraint("position >= 0", name=op.f("ck_weeks_position")),
        sa.ForeignKeyConstraint(
            ["program_id"], ["programs.id"], name=op.f("fk_weeks_programs"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("program_id", "id", name=op.f("pk_weeks")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "days",
        sa.Column("program_id", sa.Text(), nullable=False),
        sa.Column("week_id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("day", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.CheckConstraint("day BETWEEN 0 AND 6", name=op.f("ck_days_day")),
        sa.ForeignKeyConstraint(
            ["program_id", "week_id"],
            ["weeks.program_id", "weeks.id"],
            name=op.f("fk_days_weeks"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("program_id", "week_id", "day", name=op.f("pk_days")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "sessions",
        sa.Column("program_id", sa.Text(), nullable=False),
        sa.Column("id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("week_id", sa.Integer(), nullable=False),
        sa.Column("day", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("strand", sa.Integer(), nullable=False),
        sa.Column("title", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.CheckConstraint("day BETWEEN 0 AND 6", name=op.f("ck_sessions_day")),
        sa.CheckConstraint("position >= 0", name=op.f("ck_sessions_position")),
        sa.ForeignKeyConstraint(
            ["program_id", "week_id"],
            ["weeks.program_id", "weeks.id"],
            name=op.f("fk_sessions_weeks"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("program_id", "id", name=op.f("pk_sessions")),
        sqlite_with_rowid=False,
    )
    op.create_index("ix_sessions_program_id_week_id", "sessions", ["program_id", "week_id"])

    op.create_table(
        "slots",
        sa.Column("program_id", sa.Text(), nullable=False),
        sa.Column("id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("session_id", sa.Integer(), nullable=False),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("strand", sa.Integer(), nullable=False),
        sa.Column("exercise", sa.Text(), nullable=False),
        sa.Column("sets", sa.Integer(), nullable=False),
        sa.Column("reps_low", sa.Integer(), nullable=False),
        sa.Column("reps_high", sa.Integer(), nullable=False),
        sa.Column("effort_kind", sa.Text(), nullable=False),
        sa.Column("effort", sa.Double(), nullable=False),
        sa.Column("rest_s", sa.Integer(), nullable=False),
        sa.Column("tempo", sa.Text(), nullable=False),
        sa.Column("pair", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.Column("role", sa.Text(), nullable=False),
        sa.Column("load_kg", sa.Double(), nullable=True),
        sa.Column("pinned", sa.Text(), nullable=False),
        sa.Column("prepared", sa.Text(), nullable=False),
        sa.CheckConstraint(
            "effort_kind IN ('rir', 'one_rm', 'rep_max')", name=op.f("ck_slots_effort_kind")
        ),
        sa.CheckConstraint("effort >= 0", name=op.f("ck_slots_effort")),
        sa.CheckConstraint("load_kg >= 0", name=op.f("ck_slots_load_kg")),
        sa.CheckConstraint("position >= 0", name=op.f("ck_slots_position")),
        sa.CheckConstraint("reps_low >= 1 AND reps_high >= reps_low", name=op.f("ck_slots_reps")),
        sa.CheckConstraint("rest_s >= 0", name=op.f("ck_slots_rest_s")),
        sa.CheckConstraint("sets >= 1", name=op.f("ck_slots_sets")),
        sa.ForeignKeyConstraint(
            ["program_id", "session_id"],
            ["sessions.program_id", "sessions.id"],
            name=op.f("fk_slots_sessions"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("program_id", "id", name=op.f("pk_slots")),
        sqlite_with_rowid=False,
    )
    op.create_index("ix_slots_program_id_session_id", "slots", ["program_id", "session_id"])

    op.create_table(
        "warmups",
        sa.Column("program_id", sa.Text(), nullable=False),
        sa.Column("session_id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("exercise", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["program_id", "session_id"],
            ["sessions.program_id", "sessions.id"],
            name=op.f("fk_warmups_sessions"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("program_id", "session_id", "position", name=op.f("pk_warmups")),
        sqlite_with_rowid=False,
    )
