"""The state of each chat: one JSON text, and a number that grows with every change of it."""

from __future__ import annotations

import json
import time
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Column, Float, Integer, String, Table, Text, bindparam, delete, insert, select, update
from sqlalchemy.exc import IntegrityError
from sqlalchemy.ext.asyncio import AsyncConnection, AsyncEngine

from ..state import State
from .engine import Moved, reading
from .reminders import follow
from .schema import metadata

table = Table("chats", metadata, Column("chat", String(120), primary_key=True), Column("state", Text, nullable=False),
              Column("version", Integer, nullable=False), Column("updated", Float, nullable=False))
HERE = select(table.c.state, table.c.version).where(table.c.chat == bindparam("chat"))


@dataclass(frozen=True, slots=True)
class Kept:
    """``data`` is plain data, or None for a new (or unreadable) chat; ``version`` is 0 for a new one."""

    data: Any
    version: int


class Chats:
    """States by chat key, such as ``telegram:17``."""

    def __init__(self, engine: AsyncEngine):
        self.engine = engine

    async def get(self, chat: str) -> Kept:
        """What is kept of a chat."""
        async with reading(self.engine) as connection:
            return await self.read(connection, chat)

    async def read(self, connection: AsyncConnection, chat: str) -> Kept:
        """``get`` within a transaction."""
        row = (await connection.execute(HERE, {"chat": chat})).first()
        if row is None:
            return Kept(None, 0)
        try:
            return Kept(json.loads(row.state), row.version)
        except ValueError:
            return Kept(None, row.version)

    async def put(self, chat: str, data: Any, version: int, now: float | None = None) -> int | None:
        """Replace the state that had ``version``, with the reminders in it; returns the new version.

        None if somebody was quicker.
        """
        try:
            async with self.engine.begin() as connection:
                return await self.write(connection, chat, data, version, now)
        except (Moved, IntegrityError):
            return None

    async def write(self, connection: AsyncConnection, chat: str, data: Any, version: int,
                    now: float | None = None) -> int:
        """``put`` within a transaction.  Raises Moved or IntegrityError if somebody was quicker."""
        now = time.time() if now is None else now
        values = {"state": json.dumps(data, ensure_ascii=False), "updated": now}
        if version == 0:
            await connection.execute(insert(table).values(chat=chat, version=1, **values))
        else:
            here = update(table).where(table.c.chat == chat, table.c.version == version)
            if (await connection.execute(here.values(version=version + 1, **values))).rowcount != 1:
                raise Moved
        await follow(connection, chat, data, now)
        return version + 1

    async def move(self, connection: AsyncConnection, old: str, new: str) -> None:
        """Take a state to another key.  What stands there already holds, and is completed by what came."""
        was, here = await self.read(connection, old), await self.read(connection, new)
        if was.version:
            await self.forget(connection, old)
            await self.write(connection, new, _joined(was.data, here.data), here.version)

    async def forget(self, connection: AsyncConnection, chat: str) -> None:
        """Delete a chat's state."""
        await connection.execute(delete(table).where(table.c.chat == chat))


def _joined(was: Any, here: Any) -> Any:
    old, new = State.from_json(was), State.from_json(here)
    reminders = None if old.reminders is new.reminders is None else (*(old.reminders or ()), *(new.reminders or ()))
    return new.but(settings={**old.settings, **new.settings}, last=new.last or old.last, open=new.open or old.open,
                   board=new.board or old.board, reminders=reminders).to_json()
