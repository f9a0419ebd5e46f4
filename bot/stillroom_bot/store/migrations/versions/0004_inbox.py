"""The inbox of updates that are not answered yet, and the workers that share a database."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision, down_revision = "0004", "0003"


def upgrade() -> None:
    """Make both tables."""
    op.create_table(
        "inbox", sa.Column("bot", sa.BigInteger, autoincrement=False, nullable=False),
        sa.Column("number", sa.BigInteger, autoincrement=False, nullable=False),
        sa.Column("line", sa.String(120), nullable=False), sa.Column("chat", sa.String(120), nullable=False),
        sa.Column("body", sa.Text, nullable=False), sa.Column("plan", sa.Text),
        sa.Column("owner", sa.String(40), nullable=False), sa.Column("lease", sa.Float, nullable=False),
        sa.Column("tries", sa.Integer, nullable=False), sa.Column("received", sa.Float, nullable=False),
        sa.Column("done", sa.Float), sa.PrimaryKeyConstraint("bot", "number", name="pk_inbox"))
    for column in ("received", "done", "line", "chat"):
        op.create_index(f"ix_inbox_{column}", "inbox", [column])
    op.create_table(
        "workers", sa.Column("bot", sa.BigInteger, autoincrement=False, nullable=False),
        sa.Column("owner", sa.String(40), nullable=False), sa.Column("seen", sa.Float, nullable=False),
        sa.PrimaryKeyConstraint("bot", "owner", name="pk_workers"))
