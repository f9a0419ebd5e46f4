"""Chats that go on under another key: a group that became a supergroup.

What is kept of it goes along, table by table, and where it went is remembered: messages of the old chat may still be
under way.  In the new chat messages are counted anew, so the numbers of old ones are kept as negative ones, which no
message of the new chat has.
"""

from __future__ import annotations

from typing import Any

from sqlalchemy import Column, Connection, Index, String, Table, bindparam, select
from sqlalchemy.dialects import postgresql, sqlite

from .engine import Database
from .prepared import Prepared
from .schema import metadata

table = Table("moves", metadata, Column("old", String(120), primary_key=True),
              Column("new", String(120), nullable=False), Index(None, "new"))
HOME = Prepared(select(table.c.new).where(table.c.old == bindparam("old")))
INSERT: dict[str, Any] = {"sqlite": sqlite.insert, "postgresql": postgresql.insert}


def home_in(connection: Connection, chat: str) -> str:
    """The key under which a chat is kept now, as one transaction sees it."""
    rows = HOME.rows(connection, {"old": chat})
    return str(rows[0][0]) if rows else chat


class Moves:
    """Where chats went, by their old key.  Two keys a row, and so no part of what is forgotten with a chat."""

    def __init__(self, database: Database):
        self.database = database

    async def home(self, chat: str) -> str:
        """The key under which a chat is kept now."""
        return await self._first(select(table.c.new).where(table.c.old == chat)) or chat

    async def origin(self, chat: str) -> str | None:
        """The key that a chat had before, None where it had no other."""
        return await self._first(select(table.c.old).where(table.c.new == chat))

    def write(self, connection: Connection, old: str, new: str) -> None:
        """Remember where a chat went."""
        made = INSERT[connection.dialect.name](table).values(old=old, new=new)
        connection.execute(made.on_conflict_do_nothing())

    async def _first(self, query: Any) -> str | None:
        found: str | None = await self.database.peek(lambda c: c.execute(query).scalar())
        return found
