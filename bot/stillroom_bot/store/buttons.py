"""Questions back whose choices can be pressed: what a button's eight random bytes stand for."""

from __future__ import annotations

import json
import secrets
import time
from dataclasses import dataclass
from typing import Any

from sqlalchemy import BigInteger, Column, Connection, Float, Index, String, Table, Text, delete, insert, select, update

from .engine import Database, in_steps
from .prepared import Prepared
from .schema import metadata

KEEP_SECONDS = 24 * 3600.0

table = Table(
    "buttons", metadata, Column("id", String(16), primary_key=True), Column("chat", String(120), nullable=False),
    Column("asker", BigInteger, nullable=False), Column("question", BigInteger, nullable=False),
    Column("text", Text, nullable=False), Column("choices", Text, nullable=False),
    Column("state", Text, nullable=False), Column("created", Float, nullable=False), Index(None, "created"))

ADD = Prepared(insert(table))


@dataclass(frozen=True, slots=True)
class Question:
    """A question back: who was asked, in answer to which message, its choices, and the chat's state then."""

    chat: str
    asker: int
    question: int
    text: str
    choices: tuple[str, ...]
    state: Any


def new_id() -> str:
    """What a button's data name: nobody guesses it."""
    return secrets.token_hex(8)


def row(id: str, question: Question, now: float) -> dict[str, Any]:
    """A question back as it stands in the table."""
    return {"id": id, "chat": question.chat, "asker": question.asker, "question": question.question,
            "text": question.text, "choices": json.dumps(question.choices, ensure_ascii=False),
            "state": json.dumps(question.state, ensure_ascii=False), "created": now}


class Buttons:
    """Questions back by a random id of 16 hexadecimal digits."""

    def __init__(self, database: Database):
        self.database = database

    async def add(self, question: Question, now: float | None = None) -> str:
        """Keep a question back; returns its id."""
        id = new_id()
        made = row(id, question, time.time() if now is None else now)
        await self.database.write(lambda c: ADD.changed(c, made))
        return id

    async def get(self, id: str, now: float | None = None) -> Question | None:
        """The question behind an id, or None for one that was never asked or has expired."""
        edge = (time.time() if now is None else now) - KEEP_SECONDS
        found = select(table).where(table.c.id == id, table.c.created >= edge)
        row = await self.database.peek(lambda c: c.execute(found).first())
        if row is None:
            return None
        return Question(row.chat, row.asker, row.question, row.text, tuple(json.loads(row.choices)),
                        json.loads(row.state))

    async def purge(self, now: float | None = None) -> None:
        """Delete questions that have expired."""
        edge = (time.time() if now is None else now) - KEEP_SECONDS
        await in_steps(self.database, table, table.c.created < edge)

    def move(self, connection: Connection, old: str, new: str) -> None:
        """Take questions to another key, where the messages that were answered have not these numbers."""
        here = update(table).where(table.c.chat == old)
        connection.execute(here.values(chat=new, question=-table.c.question))

    def forget(self, connection: Connection, chat: str) -> None:
        """Delete a chat's questions."""
        connection.execute(delete(table).where(table.c.chat == chat))
