"""${message}

Why: say it in one sentence. A revision never imports the models: they move on, it does not.
"""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op
${imports if imports else ""}
revision = ${repr(up_revision)}
down_revision = ${repr(down_revision)}
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Brings an older file to this revision."""
    ${upgrades if upgrades else "pass"}
