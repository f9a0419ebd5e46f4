"""One set of metadata for all tables.

Constraints are named by rule, so that a migration can name them too.
"""

from __future__ import annotations

from sqlalchemy import Column, Integer, MetaData, String, Table

metadata = MetaData(naming_convention={
    "ix": "ix_%(table_name)s_%(column_0_N_name)s", "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s", "pk": "pk_%(table_name)s",
})
before_migrations = Table(
    "stillroom_schema", metadata, Column("id", Integer, primary_key=True, autoincrement=False),
    Column("version", Integer, nullable=False), Column("made_by", String, nullable=False))
"""What a Stillroom without migrations looks at: it finds a later version here, and refuses to write."""
