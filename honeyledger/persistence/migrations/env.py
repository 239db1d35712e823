"""Run by Alembic: migrates over the connection it is given, inside the transaction open there."""

from alembic import context

from honeyledger.persistence.tables import METADATA

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=METADATA,
    render_as_batch=True,
)
context.run_migrations()
