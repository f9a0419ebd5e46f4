"""Reminders by the time at which they are due."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision, down_revision = "0003", "0002"


def upgrade() -> None:
    """Make the table, empty: the state of no chat holds a reminder yet."""
    op.create_table(
        "reminders", sa.Column("chat", sa.String(120), nullable=False), sa.Column("id", sa.String(16), nullable=False),
        sa.Column("due", sa.Float, nullable=False), sa.Column("data", sa.Text, nullable=False),
        sa.Column("taken", sa.Float), sa.Column("fired", sa.Float),
        sa.PrimaryKeyConstraint("chat", "id", name="pk_reminders"))
    op.create_index("ix_reminders_due", "reminders", ["due"])
