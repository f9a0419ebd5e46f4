"""The processes that serve one bot: each says every few seconds that it is alive, and learns how many there are."""

from __future__ import annotations

import time
from typing import Any

from sqlalchemy import BigInteger, Column, Connection, Float, String, Table, delete, func, select
from sqlalchemy.dialects import postgresql, sqlite

from .engine import Database
from .schema import metadata

EVERY_SECONDS = 5.0
GONE_SECONDS = 20.0
table = Table("workers", metadata, Column("bot", BigInteger, primary_key=True, autoincrement=False),
              Column("owner", String(40), primary_key=True), Column("seen", Float, nullable=False))


class Workers:
    """Workers by bot and name."""

    def __init__(self, database: Database):
        self.database = database
        self._insert: Any = (postgresql if database.dialect == "postgresql" else sqlite).insert

    async def alive(self, bot: int, owner: str, now: float | None = None) -> int:
        """This one is alive; returns how many are, itself included.  Those not heard of for a while are forgotten."""
        at = time.time() if now is None else now
        here = self._insert(table).values(bot=bot, owner=owner, seen=at).on_conflict_do_update(
            index_elements=[table.c.bot, table.c.owner], set_={"seen": at})
        gone = delete(table).where(table.c.seen < at - GONE_SECONDS)
        count = select(func.count()).select_from(table).where(table.c.bot == bot)

        def write(connection: Connection) -> int:
            connection.execute(here)
            connection.execute(gone)
            return int(connection.execute(count).scalar_one())

        return await self.database.write(write)

    async def leave(self, bot: int, owner: str) -> None:
        """This one ends."""
        left = delete(table).where(table.c.bot == bot, table.c.owner == owner)
        await self.database.write(lambda c: c.execute(left))
