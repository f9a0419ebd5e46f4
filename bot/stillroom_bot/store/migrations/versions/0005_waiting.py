"""What waits in the inbox is found without looking at what is done, however much that is."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision, down_revision = "0005", "0004"


def upgrade() -> None:
    """An index of what is not done, instead of one of all lines."""
    waiting = sa.text("done IS NULL")
    op.create_index("ix_inbox_waiting", "inbox", ["bot", "number"], sqlite_where=waiting, postgresql_where=waiting)
    op.drop_index("ix_inbox_line", "inbox")
