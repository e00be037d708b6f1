"""Where Alembic starts: on the connection, and in the transaction, that it was handed."""

from __future__ import annotations

from alembic import context

from db.models import Model

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=Model.metadata,  # only for drafting a new revision
    render_as_batch=True,
    compare_type=True,
)
context.run_migrations()
