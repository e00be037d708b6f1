"""Fat-free mass.

Why: two of the published equations for the energy at rest need it, and a coach who chose one of
them must find its numbers again in the window, the checks and the booklet.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Brings an older file to this revision."""
    op.add_column(
        "clients",
        sa.Column(
            "fat_free_kg",
            sa.Double(),
            sa.CheckConstraint("fat_free_kg > 0", name=op.f("ck_clients_fat_free_kg")),
            nullable=True,
        ),
    )
