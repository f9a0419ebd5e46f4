"""Groups that became supergroups, by the chat that each was before."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision, down_revision = "0006", "0005"


def upgrade() -> None:
    """Make the table, empty: nobody knows of earlier moves."""
    op.create_table(
        "moves", sa.Column("old", sa.String(120), nullable=False), sa.Column("new", sa.String(120), nullable=False),
        sa.PrimaryKeyConstraint("old", name="pk_moves"))
    op.create_index("ix_moves_new", "moves", ["new"])
