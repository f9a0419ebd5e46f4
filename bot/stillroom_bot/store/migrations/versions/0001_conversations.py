"""States of chats, answers that can be edited, buttons that can be pressed."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision, down_revision = "0001", None


def upgrade() -> None:
    """Make the first tables."""
    schema = op.create_table(
        "stillroom_schema", sa.Column("id", sa.Integer, autoincrement=False, nullable=False),
        sa.Column("version", sa.Integer, nullable=False), sa.Column("made_by", sa.String, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_stillroom_schema"))
    op.bulk_insert(schema, [{"id": 1, "version": 1, "made_by": "stillroom"}])
    op.create_table(
        "chats", sa.Column("chat", sa.String(120), nullable=False), sa.Column("state", sa.Text, nullable=False),
        sa.Column("version", sa.Integer, nullable=False), sa.Column("updated", sa.Float, nullable=False),
        sa.PrimaryKeyConstraint("chat", name="pk_chats"))
    op.create_table(
        "answers", sa.Column("chat", sa.String(120), nullable=False),
        sa.Column("question", sa.BigInteger, autoincrement=False, nullable=False),
        sa.Column("messages", sa.Text, nullable=False), sa.Column("text", sa.Text, nullable=False),
        sa.Column("before", sa.Text, nullable=False), sa.Column("version", sa.Integer, nullable=False),
        sa.Column("updated", sa.Float, nullable=False), sa.PrimaryKeyConstraint("chat", "question", name="pk_answers"))
    op.create_index("ix_answers_updated", "answers", ["updated"])
    op.create_table(
        "buttons", sa.Column("id", sa.String(16), nullable=False), sa.Column("chat", sa.String(120), nullable=False),
        sa.Column("asker", sa.BigInteger, nullable=False), sa.Column("question", sa.BigInteger, nullable=False),
        sa.Column("text", sa.Text, nullable=False), sa.Column("choices", sa.Text, nullable=False),
        sa.Column("state", sa.Text, nullable=False), sa.Column("created", sa.Float, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_buttons"))
    op.create_index("ix_buttons_created", "buttons", ["created"])
