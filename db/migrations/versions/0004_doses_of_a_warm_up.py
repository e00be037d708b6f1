"""Doses of warm-up drills and ramp sets that a coach sets.

Why: how much of a drill is done, and which sets lead up to a load, can be said for one session;
without a word of the coach they follow from the drill and from the load, as before.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Brings an older file to this revision."""
    for name in ("rounds", "reps_low", "reps_high"):
        law = sa.CheckConstraint(f"{name} >= 1", name=op.f(f"ck_warmups_{name}"))
        op.add_column("warmups", sa.Column(name, sa.Integer(), law, nullable=True))
    op.add_column("slots", sa.Column("ramp", sa.Text(), nullable=True))
