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
    Connection,
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

from .engine import Database, in_steps
from .prepared import Prepared
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
PLAN = Prepared(_HERE.where(table.c.plan.is_(None), table.c.done.is_(None)).values(plan=bindparam("said")))
FINISH = Prepared(_HERE.values(done=bindparam("now"), body="", plan=None))


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

    def __init__(self, database: Database):
        self.database = database
        made = (postgresql if database.dialect == "postgresql" else sqlite).insert(table)
        self._keep = Prepared(made.on_conflict_do_nothing().returning(table.c.number))
        own = (table.c.lease < made.excluded.received) | (table.c.owner == made.excluded.owner)
        self._claim = Prepared(made.on_conflict_do_update(
            index_elements=[table.c.bot, table.c.number], where=table.c.done.is_(None) & own,
            set_={"owner": made.excluded.owner, "lease": made.excluded.lease, "tries": table.c.tries + 1},
        ).returning(table.c.number, table.c.plan, table.c.tries))

    async def keep(self, bot: int, letters: Sequence[Letter], now: float | None = None) -> set[int]:
        """Keep updates, in one transaction; the numbers of those that were not here before.

        They may be worked at from then on, and acknowledged once the database has settled.
        """
        if not letters:
            return set()
        at = time.time() if now is None else now
        values = [self._row(bot, x, at) for x in letters]
        return await self.database.write(lambda c: {number for number, in self._keep.rows_of(c, values)}, lasting=False)

    async def claim(self, bot: int, letters: Sequence[Letter], owner: str, now: float | None = None) -> list[Claim]:
        """Keep updates of different numbers, in one transaction, and take the leases of those that nobody else has and
        that are not done; what came of each, in their order.  What is done may be acknowledged as ``keep`` says."""
        at = time.time() if now is None else now
        values = [self._row(bot, x, at, owner, at + LEASE_SECONDS, 1) for x in sorted(letters, key=lambda x: x.number)]

        def take(connection: Connection) -> list[Claim]:
            mine = {number: Claim(True, plan=plan, tries=tries - 1)
                    for number, plan, tries in self._claim.rows_of(connection, values)}
            others = [x.number for x in letters if x.number not in mine]
            if not others:
                return [mine[x.number] for x in letters]
            found = select(table.c.number).where(table.c.bot == bot, table.c.number.in_(others))
            done = set(connection.execute(found.where(table.c.done.is_not(None))).scalars())
            return [mine.get(x.number) or Claim(False, done=x.number in done) for x in letters]

        return await self.database.write(take, lasting=False)

    @staticmethod
    def _row(bot: int, letter: Letter, at: float, owner: str = "", lease: float = 0.0,
             tries: int = 0) -> dict[str, Any]:
        return {"bot": bot, "number": letter.number, "line": letter.line, "chat": letter.chat, "body": letter.body,
                "plan": None, "owner": owner, "lease": lease, "tries": tries, "received": at, "done": None}

    async def release(self, bot: int, number: int, owner: str) -> None:
        """Give a lease back, for whoever gets the update next."""
        here = update(table).where(table.c.bot == bot, table.c.number == number, table.c.owner == owner)
        await self.database.write(lambda c: c.execute(here.values(lease=0.0)))

    async def tried(self, bot: int) -> None:
        """All that waits is about to be tried once more, after a restart."""
        waiting = update(table).where(table.c.bot == bot, table.c.done.is_(None))
        await self.database.write(lambda c: c.execute(waiting.values(tries=table.c.tries + 1, lease=0.0)))

    async def waiting(self, bot: int, after: int = 0, line: str | None = None, most: int = 1000) -> list[Letter]:
        """Updates that are not done, in their order, with a number above ``after``, of a line or of all."""
        c = table.c
        found = select(c.number, c.line, c.chat, c.body, c.plan, c.tries)
        found = found.where(c.bot == bot, c.done.is_(None), c.number > after)
        if line is not None:
            found = found.where(c.line == line)
        ordered = found.order_by(c.number).limit(most)
        return await self.database.read(lambda c: [Letter(*row) for row in c.execute(ordered)])

    async def count(self, bot: int) -> tuple[int, float | None]:
        """How many wait, and when the oldest of them came."""
        found = select(func.count(), func.min(table.c.received)).where(table.c.bot == bot, table.c.done.is_(None))
        row = await self.database.read(lambda c: c.execute(found).one())
        return int(row[0]), row[1]

    def plan(self, connection: Connection, bot: int, plans: Sequence[tuple[int, str]]) -> None:
        """Note what is to be said, in the transaction of what is done.  Raises Gone if one was planned or done."""
        for number, plan in plans:
            if PLAN.changed(connection, {"of": bot, "at": number, "said": plan}) != 1:
                raise Gone

    async def planned(self, bot: int, number: int, plan: str) -> bool:
        """Is just this noted as what is to be said of an update?"""
        found = select(table.c.plan).where(table.c.bot == bot, table.c.number == number)
        return await self.database.read(lambda c: c.execute(found).scalar()) == plan

    def finish(self, connection: Connection, bot: int, numbers: Iterable[int],
                     now: float | None = None) -> None:
        """It has been said: the text of the update and what was said are not needed any more."""
        at = time.time() if now is None else now
        FINISH.each(connection, [{"of": bot, "at": number, "now": at} for number in numbers])

    async def purge(self, now: float | None = None) -> None:
        """Delete numbers that Telegram will not send again, and what could not be answered in two days."""
        edge = (time.time() if now is None else now) - KEEP_SECONDS
        await in_steps(self.database, table, table.c.done < edge)
        await in_steps(self.database, table, table.c.received < edge)

    def move(self, connection: Connection, old: str, new: str) -> None:
        """Take messages to another key; they go on waiting in the line that they are in."""
        connection.execute(update(table).where(table.c.chat == old).values(chat=new))

    def forget(self, connection: Connection, chat: str) -> None:
        """Blank what a chat's earlier messages left behind; what it still waits for stays."""
        left = (table.c.chat == chat) & (table.c.plan.is_not(None) | table.c.done.is_not(None))
        now = func.coalesce(table.c.done, time.time())
        connection.execute(update(table).where(left).values(chat="", line="", body="", plan=None, done=now))
