"""Reminders by the time at which they are due: the index by which a front end finds them.

What is to be reminded of stands in the chat's state; these rows are written with it, in one transaction, and
say which of them is due, who is at it, and which has been seen to.
"""

from __future__ import annotations

import json
import time
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import partial
from typing import Any

from sqlalchemy import Column, Connection, Float, Index, String, Table, Text, and_, delete, insert, or_, select, update

from ..reminders.reminder import Reminder
from .engine import Database, in_steps
from .schema import metadata

LEASE_SECONDS = 120.0
"""How long one worker has to deliver what it took up, before another may."""
KEEP_SECONDS = 7 * 86400.0
MOST = 100

table = Table(
    "reminders", metadata, Column("chat", String(120), primary_key=True), Column("id", String(16), primary_key=True),
    Column("due", Float, nullable=False), Column("data", Text, nullable=False), Column("taken", Float),
    Column("fired", Float), Index(None, "due"))


@dataclass(frozen=True, slots=True)
class Due:
    """A reminder whose time has come, and the chat that it is for."""

    chat: str
    reminder: Reminder


class Reminders:
    """Reminders of all chats."""

    def __init__(self, database: Database):
        self.database = database

    async def take(self, chats: str, now: float | None = None) -> list[Due]:
        """Take up what is due in the chats whose key begins with ``chats``: each is given to one worker only.

        One that was taken up and not ``done`` within ``LEASE_SECONDS`` is given out again.
        """
        now = time.time() if now is None else now
        free = and_(table.c.fired.is_(None), table.c.due <= now,
                    or_(table.c.taken.is_(None), table.c.taken < now - LEASE_SECONDS))
        query = select(table).where(free, table.c.chat.startswith(chats, autoescape=True)).order_by(table.c.due)
        found = []
        for row in await self.database.read(lambda c: c.execute(query.limit(MOST)).all()):
            here = update(table).where(free, table.c.chat == row.chat, table.c.id == row.id).values(taken=now)
            mine = await self.database.write(partial(_changed, here)) == 1
            reminder = Reminder.from_json(json.loads(row.data))
            if mine and reminder is not None:
                found.append(Due(row.chat, reminder))
        return found

    async def done(self, due: Due, now: float | None = None) -> None:
        """It has been said (or nobody is there to hear it): it will not be said again."""
        here = update(table).where(table.c.chat == due.chat, table.c.id == due.reminder.id)
        fired = here.values(fired=time.time() if now is None else now)
        await self.database.write(lambda c: c.execute(fired))

    async def purge(self, now: float | None = None) -> None:
        """Delete those that were said a while ago."""
        edge = (time.time() if now is None else now) - KEEP_SECONDS
        await in_steps(self.database, table, table.c.fired < edge)

    def move(self, connection: Connection, old: str, new: str) -> None:
        """Take reminders to another key."""
        connection.execute(update(table).where(table.c.chat == old).values(chat=new))

    def forget(self, connection: Connection, chat: str) -> None:
        """Delete a chat's reminders."""
        connection.execute(delete(table).where(table.c.chat == chat))


def _changed(statement: Any, connection: Connection) -> int:
    return int(connection.execute(statement).rowcount)


def follow(connection: Connection, chat: str, state: Any, now: float) -> None:
    """Make a chat's rows those of its state, within the transaction that writes it.

    What is past is left as it is: a state remembers for a while what has been said already.
    """
    if not isinstance(state, Mapping) or not isinstance(state.get("reminders"), list):
        return
    wanted = {r.id: r for r in map(Reminder.from_json, state["reminders"]) if r is not None}
    rows = connection.execute(select(table.c.id, table.c.due, table.c.fired).where(table.c.chat == chat))
    there = {row.id: row for row in rows}
    gone = [id for id, row in there.items() if id not in wanted and row.fired is None and row.due > now]
    new = [{"chat": chat, "id": id, "due": r.due.astimezone(UTC).timestamp(),
            "data": json.dumps(r.to_json(), ensure_ascii=False)}
           for id, r in wanted.items() if id not in there and r.due > datetime.fromtimestamp(now, UTC)]
    if gone:
        connection.execute(delete(table).where(table.c.chat == chat, table.c.id.in_(gone)))
    if new:
        connection.execute(insert(table), new)
