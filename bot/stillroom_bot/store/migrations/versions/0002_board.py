"""The specs that a chat keeps: every version a row of its own, and a number that grows with every change of a book."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision, down_revision = "0002", "0001"


def upgrade() -> None:
    """Make the tables of the board, and tell a Stillroom that knows no migrations to keep out."""
    op.create_table(
        "books", sa.Column("chat", sa.String(120), nullable=False), sa.Column("version", sa.BigInteger, nullable=False),
        sa.PrimaryKeyConstraint("chat", name="pk_books"))
    op.create_table(
        "specs", sa.Column("chat", sa.String(120), nullable=False),
        sa.Column("spec", sa.Integer, autoincrement=False, nullable=False),
        sa.Column("version", sa.Integer, autoincrement=False, nullable=False),
        sa.Column("data", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("chat", "spec", "version", name="pk_specs"))
    op.execute("UPDATE stillroom_schema SET version = 2")
