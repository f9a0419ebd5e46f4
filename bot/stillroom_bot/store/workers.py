"""The processes that serve one bot: each says every few seconds that it is alive, and learns how many there are."""

from __future__ import annotations

import time
from typing import Any

from sqlalchemy import BigInteger, Column, Float, String, Table, delete, func, select
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.ext.asyncio import AsyncEngine

from .schema import metadata

EVERY_SECONDS = 5.0
GONE_SECONDS = 20.0
table = Table("workers", metadata, Column("bot", BigInteger, primary_key=True, autoincrement=False),
              Column("owner", String(40), primary_key=True), Column("seen", Float, nullable=False))


class Workers:
    """Workers by bot and name."""

    def __init__(self, engine: AsyncEngine):
        self.engine = engine
        self._insert: Any = (postgresql if engine.dialect.name == "postgresql" else sqlite).insert

    async def alive(self, bot: int, owner: str, now: float | None = None) -> int:
        """This one is alive; returns how many are, itself included.  Those not heard of for a while are forgotten."""
        at = time.time() if now is None else now
        here = self._insert(table).values(bot=bot, owner=owner, seen=at).on_conflict_do_update(
            index_elements=[table.c.bot, table.c.owner], set_={"seen": at})
        async with self.engine.begin() as connection:
            await connection.execute(here)
            await connection.execute(delete(table).where(table.c.seen < at - GONE_SECONDS))
            count = await connection.execute(select(func.count()).select_from(table).where(table.c.bot == bot))
            return int(count.scalar_one())

    async def leave(self, bot: int, owner: str) -> None:
        """This one ends."""
        async with self.engine.begin() as connection:
            await connection.execute(delete(table).where(table.c.bot == bot, table.c.owner == owner))
