"""Which messages answer which question, so that an edited question edits its answer.

Beside them stand the question and the state in which it was asked: the edited one is read in the
same light.  ``version`` is that of the chat's state after the answer.
"""

from __future__ import annotations

import json
import time
from collections.abc import Sequence
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
    delete,
    select,
    update,
)
from sqlalchemy.dialects import postgresql, sqlite

from .engine import Database, in_steps
from .prepared import Prepared
from .schema import metadata

KEEP_SECONDS = 48 * 3600.0
"""How long a person can edit a message (Telegram's Bot API: edits of the last 48 hours)."""

table = Table(
    "answers", metadata, Column("chat", String(120), primary_key=True),
    Column("question", BigInteger, primary_key=True, autoincrement=False), Column("messages", Text, nullable=False),
    Column("text", Text, nullable=False), Column("before", Text, nullable=False),
    Column("version", Integer, nullable=False), Column("updated", Float, nullable=False), Index(None, "updated"))


def _put(insert: Any) -> Prepared:
    made = insert(table)
    new = {c.name: made.excluded[c.name] for c in table.c if not c.primary_key}
    return Prepared(made.on_conflict_do_update(index_elements=[table.c.chat, table.c.question], set_=new))


PUT = {"sqlite": _put(sqlite.insert), "postgresql": _put(postgresql.insert)}


@dataclass(frozen=True, slots=True)
class Answered:
    """A question (its message's number), the messages that answer it, and the state ``before`` it."""

    question: int
    messages: tuple[int, ...]
    text: str
    before: Any
    version: int


def write(connection: Connection, kept: Sequence[tuple[str, Answered]], now: float | None = None) -> None:
    """Keep answers by chat, each to another question, in place of earlier ones."""
    at = time.time() if now is None else now
    PUT[connection.dialect.name].each(connection, [
        {"chat": chat, "question": a.question, "messages": json.dumps(a.messages), "text": a.text,
         "before": json.dumps(a.before, ensure_ascii=False), "version": a.version, "updated": at} for chat, a in kept])


class Answers:
    """Answered questions by chat key and message number."""

    def __init__(self, database: Database):
        self.database = database

    async def get(self, chat: str, question: int) -> Answered | None:
        """The answer to a question, or None where it is not known (any more)."""
        return await self._first(select(table).where(table.c.chat == chat, table.c.question == question))

    async def last(self, chat: str) -> Answered | None:
        """The answer that was given last in a chat."""
        latest = select(table).where(table.c.chat == chat).order_by(table.c.updated.desc(), table.c.question.desc())
        return await self._first(latest.limit(1))

    async def put(self, chat: str, answered: Answered, now: float | None = None) -> None:
        """Keep an answer, in place of an earlier one to the same question."""
        await self.database.write(lambda c: write(c, [(chat, answered)], now))

    async def moved(self, chat: str, question: int, messages: tuple[int, ...], version: int) -> None:
        """The answer stands in these messages now, and the chat's state has this version."""
        here = update(table).where(table.c.chat == chat, table.c.question == question)
        moved = here.values(messages=json.dumps(messages), version=version)
        await self.database.write(lambda c: c.execute(moved))

    async def purge(self, now: float | None = None) -> None:
        """Delete answers to questions that can no longer be edited."""
        edge = (time.time() if now is None else now) - KEEP_SECONDS
        await in_steps(self.database, table, table.c.updated < edge)

    def move(self, connection: Connection, old: str, new: str) -> None:
        """Take answers to another key, where neither their questions nor their messages have these numbers."""
        there = select(-table.c.question).where(table.c.chat == old)
        connection.execute(delete(table).where(table.c.chat == new, table.c.question.in_(there)))
        here = update(table).where(table.c.chat == old)
        connection.execute(here.values(chat=new, question=-table.c.question, messages="[]"))

    def forget(self, connection: Connection, chat: str) -> None:
        """Delete a chat's answers."""
        connection.execute(delete(table).where(table.c.chat == chat))

    async def _first(self, query: Any) -> Answered | None:
        row = await self.database.peek(lambda c: c.execute(query).first())
        if row is None:
            return None
        return Answered(row.question, tuple(json.loads(row.messages)), row.text, json.loads(row.before), row.version)
