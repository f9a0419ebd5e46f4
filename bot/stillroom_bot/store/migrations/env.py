"""Run by Alembic with the connection, and within the transaction, of whoever asked for an upgrade."""

from __future__ import annotations

from alembic import context

context.configure(connection=context.config.attributes["connection"], transactional_ddl=True)
with context.begin_transaction():
    context.run_migrations()
