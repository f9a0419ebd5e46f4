"""Migrations of the store: ``env`` is run by Alembic, ``versions`` are the steps."""
