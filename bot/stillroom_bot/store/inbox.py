"""The inbox: every update that Telegram handed over, until its answer has been sent.

A row lives through three stages.  *Kept*: the update's text is here, and Telegram may forget it.
*Planned*: what it does to the store has been done, and what is to be said stands in ``plan``; both in one
transaction, so that the effect happens exactly once.  *Done*: it has been said, and text and plan are
gone; the number stays for two days, so that a second delivery is known for one.

Among workers a row is worked at by the one who holds its lease.
"""

from __future__ import annotations

import time
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from sqlalchemy import (
    BigInteger,
    Column,
    Float,
    Index,
    Integer,
    String,
    Table,
    Text,
    bindparam,
    func,
    select,
    text,
    update,
)
from sqlalchemy.dialects import postgresql, sqlite
from sqlalchemy.ext.asyncio import AsyncConnection, AsyncEngine

from .engine import in_steps, reading
from .schema import metadata

KEEP_SECONDS = 48 * 3600.0
"""Telegram keeps an update for 24 hours (core.telegram.org/bots/api, "Getting updates")."""
LEASE_SECONDS = 45.0
"""Longer than a worker tries; the published server waits 60 s for the answer to a delivery."""
WAITING = text("done IS NULL")

table = Table(
    "inbox", metadata, Column("bot", BigInteger, primary_key=True, autoincrement=False),
    Column("number", BigInteger, primary_key=True, autoincrement=False), Column("line", String(120), nullable=False),
    Column("chat", String(120), nullable=False), Column("body", Text, nullable=False), Column("plan", Text),
    Column("owner", String(40), nullable=False), Column("lease", Float, nullable=False),
    Column("tries", Integer, nullable=False), Column("received", Float, nullable=False), Column("done", Float),
    Index(None, "received"), Index(None, "done"), Index(None, "chat"),
    Index("ix_inbox_waiting", "bot", "number", sqlite_where=WAITING, postgresql_where=WAITING))
_HERE = update(table).where(table.c.bot == bindparam("of"), table.c.number == bindparam("at"))
PLAN = _HERE.where(table.c.plan.is_(None), table.c.done.is_(None)).values(plan=bindparam("said"))
FINISH = _HERE.values(done=bindparam("now"), body="", plan=None)


@dataclass(frozen=True, slots=True)
class Letter:
    """An update: its number, the line it waits in, the chat it belongs to, its JSON text.

    ``plan`` is what an earlier attempt would have said, ``tries`` how many there were.
    """

    number: int
    line: str
    chat: str
    body: str
    plan: str | None = None
    tries: int = 0


@dataclass(frozen=True, slots=True)
class Claim:
    """``free``: it is the worker's now, with the ``plan`` of an earlier attempt if there is one, and how often it was
    tried before; else it is ``done``, or somebody else is at it."""

    free: bool
    done: bool = False
    plan: str | None = None
    tries: int = 0


class Gone(Exception):
    """The update was planned or done by somebody else; nothing was written."""


class Inbox:
    """Letters by bot and update number."""

    def __init__(self, engine: AsyncEngine):
        self.engine = engine
        self._insert: Any = (postgresql if engine.dialect.name == "postgresql" else sqlite).insert

    async def keep(self, bot: int, letters: Sequence[Letter], now: float | None = None) -> set[int]:
        """Keep updates, in one transaction; the numbers of those that were not here before."""
        if not letters:
            return set()
        at = time.time() if now is None else now
        values = [{"bot": bot, "number": x.number, "line": x.line, "chat": x.chat, "body": x.body, "owner": "",
                   "lease": 0.0, "tries": 0, "received": at} for x in letters]
        made = self._insert(table).on_conflict_do_nothing().returning(table.c.number)
        async with self.engine.begin() as connection:
            return set((await connection.execute(made, values)).scalars())

    async def claim(self, bot: int, letter: Letter, owner: str, now: float | None = None) -> Claim:
        """Keep an update and take its lease, if nobody else has it and it is not done."""
        at = time.time() if now is None else now
        values = {"bot": bot, "number": letter.number, "line": letter.line, "chat": letter.chat, "body": letter.body,
                  "owner": owner, "lease": at + LEASE_SECONDS, "tries": 1, "received": at}
        made = self._insert(table).values(values)
        mine = made.on_conflict_do_update(
            index_elements=[table.c.bot, table.c.number],
            set_={"owner": owner, "lease": at + LEASE_SECONDS, "tries": table.c.tries + 1},
            where=(table.c.done.is_(None)) & ((table.c.lease < at) | (table.c.owner == owner)))
        mine = mine.returning(table.c.plan, table.c.tries)
        async with self.engine.begin() as connection:
            row = (await connection.execute(mine)).first()
            if row is not None:
                return Claim(True, plan=row.plan, tries=row.tries - 1)
            here = select(table.c.done).where(table.c.bot == bot, table.c.number == letter.number)
            return Claim(False, done=(await connection.execute(here)).scalar() is not None)

    async def release(self, bot: int, number: int, owner: str) -> None:
        """Give a lease back, for whoever gets the update next."""
        here = update(table).where(table.c.bot == bot, table.c.number == number, table.c.owner == owner)
        async with self.engine.begin() as connection:
            await connection.execute(here.values(lease=0.0))

    async def tried(self, bot: int) -> None:
        """All that waits is about to be tried once more, after a restart."""
        async with self.engine.begin() as connection:
            waiting = update(table).where(table.c.bot == bot, table.c.done.is_(None))
            await connection.execute(waiting.values(tries=table.c.tries + 1, lease=0.0))

    async def waiting(self, bot: int, after: int = 0, line: str | None = None, most: int = 1000) -> list[Letter]:
        """Updates that are not done, in their order, with a number above ``after``, of a line or of all."""
        c = table.c
        found = select(c.number, c.line, c.chat, c.body, c.plan, c.tries)
        found = found.where(c.bot == bot, c.done.is_(None), c.number > after)
        if line is not None:
            found = found.where(c.line == line)
        async with reading(self.engine) as connection:
            rows = await connection.execute(found.order_by(c.number).limit(most))
            return [Letter(*row) for row in rows]

    async def count(self, bot: int) -> tuple[int, float | None]:
        """How many wait, and when the oldest of them came."""
        found = select(func.count(), func.min(table.c.received)).where(table.c.bot == bot, table.c.done.is_(None))
        async with reading(self.engine) as connection:
            row = (await connection.execute(found)).one()
        return int(row[0]), row[1]

    async def plan(self, connection: AsyncConnection, bot: int, plans: Sequence[tuple[int, str]]) -> None:
        """Note what is to be said, in the transaction of what is done.  Raises Gone if one was planned or done."""
        for number, plan in plans:
            if (await connection.execute(PLAN, {"of": bot, "at": number, "said": plan})).rowcount != 1:
                raise Gone

    async def planned(self, bot: int, number: int, plan: str) -> bool:
        """Is just this noted as what is to be said of an update?"""
        found = select(table.c.plan).where(table.c.bot == bot, table.c.number == number)
        async with reading(self.engine) as connection:
            return bool((await connection.execute(found)).scalar() == plan)

    async def finish(self, connection: AsyncConnection, bot: int, numbers: Iterable[int],
                     now: float | None = None) -> None:
        """It has been said: the text of the update and what was said are not needed any more."""
        at = time.time() if now is None else now
        await connection.execute(FINISH, [{"of": bot, "at": number, "now": at} for number in numbers])

    async def purge(self, now: float | None = None) -> None:
        """Delete numbers that Telegram will not send again, and what could not be answered in two days."""
        edge = (time.time() if now is None else now) - KEEP_SECONDS
        await in_steps(self.engine, table, table.c.done < edge)
        await in_steps(self.engine, table, table.c.received < edge)

    async def move(self, connection: AsyncConnection, old: str, new: str) -> None:
        """Take messages to another key; they go on waiting in the line that they are in."""
        await connection.execute(update(table).where(table.c.chat == old).values(chat=new))

    async def forget(self, connection: AsyncConnection, chat: str) -> None:
        """Blank what a chat's earlier messages left behind; what it still waits for stays."""
        left = (table.c.chat == chat) & (table.c.plan.is_not(None) | table.c.done.is_not(None))
        now = func.coalesce(table.c.done, time.time())
        await connection.execute(update(table).where(left).values(chat="", line="", body="", plan=None, done=now))
