"""Places, tags and the diary.

Why: a plan learns from what was done and reported, and a client trains at more than one place; what
was agreed on records and papers is kept with the client.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Brings an older file to this revision."""
    op.create_table(
        "check_ins",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("on_date", sa.Date(), nullable=False),
        sa.Column("mass_kg", sa.Double(), nullable=True),
        sa.Column("kcal", sa.Double(), nullable=True),
        sa.Column("sleep", sa.Integer(), nullable=True),
        sa.Column("soreness", sa.Integer(), nullable=True),
        sa.Column("mood", sa.Integer(), nullable=True),
        sa.Column("stress", sa.Integer(), nullable=True),
        sa.Column("adherence", sa.Double(), nullable=True),
        sa.Column("note", sa.Text(), nullable=False),
        sa.CheckConstraint("adherence BETWEEN 0 AND 1", name=op.f("ck_check_ins_adherence")),
        sa.CheckConstraint("kcal >= 0", name=op.f("ck_check_ins_kcal")),
        sa.CheckConstraint("mass_kg > 0", name=op.f("ck_check_ins_mass_kg")),
        sa.ForeignKeyConstraint(
            ["client_id"], ["clients.id"], name=op.f("fk_check_ins_clients"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("client_id", "on_date", name=op.f("pk_check_ins")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "client_tags",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("tag", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id"], ["clients.id"], name=op.f("fk_client_tags_clients"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("client_id", "tag", name=op.f("pk_client_tags")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "likes",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("exercise", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id"], ["clients.id"], name=op.f("fk_likes_clients"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("client_id", "exercise", name=op.f("pk_likes")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "places",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("bar_kg", sa.Double(), nullable=False),
        sa.Column("dumbbell_low_kg", sa.Double(), nullable=False),
        sa.Column("dumbbell_step_kg", sa.Double(), nullable=False),
        sa.Column("dumbbell_high_kg", sa.Double(), nullable=False),
        sa.Column("machine_step_kg", sa.Double(), nullable=False),
        sa.Column("cable_step_kg", sa.Double(), nullable=False),
        sa.CheckConstraint("name <> ''", name=op.f("ck_places_name")),
        sa.ForeignKeyConstraint(
            ["client_id"], ["clients.id"], name=op.f("fk_places_clients"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("client_id", "position", name=op.f("pk_places")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "results",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("on_date", sa.Date(), nullable=False),
        sa.Column("program_id", sa.Text(), nullable=False),
        sa.Column("slot_id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("exercise", sa.Text(), nullable=False),
        sa.Column("note", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id"], ["clients.id"], name=op.f("fk_results_clients"), ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint(
            "client_id", "on_date", "program_id", "slot_id", name=op.f("pk_results")
        ),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "check_in_pictures",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("on_date", sa.Date(), nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id", "on_date"],
            ["check_ins.client_id", "check_ins.on_date"],
            name=op.f("fk_check_in_pictures_check_ins"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint(
            "client_id", "on_date", "position", name=op.f("pk_check_in_pictures")
        ),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "girths",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("on_date", sa.Date(), nullable=False),
        sa.Column("site", sa.Text(), nullable=False),
        sa.Column("cm", sa.Double(), nullable=False),
        sa.CheckConstraint("cm > 0", name=op.f("ck_girths_cm")),
        sa.ForeignKeyConstraint(
            ["client_id", "on_date"],
            ["check_ins.client_id", "check_ins.on_date"],
            name=op.f("fk_girths_check_ins"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("client_id", "on_date", "site", name=op.f("pk_girths")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "place_bands",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("place", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id", "place"],
            ["places.client_id", "places.position"],
            name=op.f("fk_place_bands_places"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("client_id", "place", "position", name=op.f("pk_place_bands")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "place_equipment",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("place", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("equipment", sa.Text(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id", "place"],
            ["places.client_id", "places.position"],
            name=op.f("fk_place_equipment_places"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("client_id", "place", "equipment", name=op.f("pk_place_equipment")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "place_plates",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("place", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("size_kg", sa.Double(), nullable=False),
        sa.ForeignKeyConstraint(
            ["client_id", "place"],
            ["places.client_id", "places.position"],
            name=op.f("fk_place_plates_places"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint("client_id", "place", "position", name=op.f("pk_place_plates")),
        sqlite_with_rowid=False,
    )
    op.create_table(
        "result_sets",
        sa.Column("client_id", sa.Text(), nullable=False),
        sa.Column("on_date", sa.Date(), nullable=False),
        sa.Column("program_id", sa.Text(), nullable=False),
        sa.Column("slot_id", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("position", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("load_kg", sa.Double(), nullable=False),
        sa.Column("reps", sa.Integer(), nullable=False),
        sa.Column("rir", sa.Double(), nullable=True),
        sa.CheckConstraint("reps >= 0", name=op.f("ck_result_sets_reps")),
        sa.CheckConstraint("rir >= 0", name=op.f("ck_result_sets_rir")),
        sa.ForeignKeyConstraint(
            ["client_id", "on_date", "program_id", "slot_id"],
            ["results.client_id", "results.on_date", "results.program_id", "results.slot_id"],
            name=op.f("fk_result_sets_results"),
            ondelete="CASCADE",
        ),
        sa.PrimaryKeyConstraint(
            "client_id", "on_date", "program_id", "slot_id", "position", name=op.f("pk_result_sets")
        ),
        sqlite_with_rowid=False,
    )
    op.add_column("clients", sa.Column("stage", sa.Text(), server_default="active", nullable=False))
    op.add_column("clients", sa.Column("consent_on", sa.Date(), nullable=True))
    op.add_column(
        "clients", sa.Column("consent_note", sa.Text(), server_default="", nullable=False)
    )
    op.add_column("clients", sa.Column("keep_until", sa.Date(), nullable=True))
    op.add_column("clients", sa.Column("language", sa.Text(), server_default="", nullable=False))
    op.add_column("clients", sa.Column("paper", sa.Text(), server_default="", nullable=False))
    op.add_column(
        "clients", sa.Column("energy_equation", sa.Text(), server_default="", nullable=False)
    )
    op.add_column(
        "clients", sa.Column("diary_version", sa.Integer(), server_default="1", nullable=False)
    )
    op.add_column("free_times", sa.Column("place", sa.Text(), server_default="", nullable=False))
    op.add_column("strength_tests", sa.Column("guessed_from", sa.Text(), nullable=True))
