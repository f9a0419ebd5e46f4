"""The state of each chat: one JSON text, and a number that grows with every change of it."""

from __future__ import annotations

import json
import time
from dataclasses import dataclass
from typing import Any

from sqlalchemy import (
    Column,
    Connection,
    Float,
    Integer,
    String,
    Table,
    Text,
    bindparam,
    delete,
    insert,
    select,
    update,
)
from sqlalchemy.exc import IntegrityError

from ..state import State
from .engine import Database, Moved
from .prepared import Prepared
from .reminders import follow
from .schema import metadata

table = Table("chats", metadata, Column("chat", String(120), primary_key=True), Column("state", Text, nullable=False),
              Column("version", Integer, nullable=False), Column("updated", Float, nullable=False))
HERE = Prepared(select(table.c.state, table.c.version).where(table.c.chat == bindparam("chat")))
NEW = Prepared(insert(table))
AGAIN = Prepared(update(table).where(table.c.chat == bindparam("of"), table.c.version == bindparam("seen")).values(
    state=bindparam("state"), version=bindparam("version"), updated=bindparam("updated")))


@dataclass(frozen=True, slots=True)
class Kept:
    """``data`` is plain data, or None for a new (or unreadable) chat; ``version`` is 0 for a new one."""

    data: Any
    version: int


class Chats:
    """States by chat key, such as ``telegram:17``."""

    def __init__(self, database: Database):
        self.database = database

    async def get(self, chat: str) -> Kept:
        """What is kept of a chat."""
        return await self.database.peek(lambda c: self.read(c, chat))

    def read(self, connection: Connection, chat: str) -> Kept:
        """``get`` within a transaction."""
        for state, version in HERE.rows(connection, {"chat": chat}):
            try:
                return Kept(json.loads(state), version)
            except ValueError:
                return Kept(None, version)
        return Kept(None, 0)

    async def put(self, chat: str, data: Any, version: int, now: float | None = None) -> int | None:
        """Replace the state that had ``version``, with the reminders in it; returns the new version.

        None if somebody was quicker.
        """
        try:
            return await self.database.write(lambda c: self.write(c, chat, data, version, now))
        except (Moved, IntegrityError):
            return None

    def write(self, connection: Connection, chat: str, data: Any, version: int,
                    now: float | None = None) -> int:
        """``put`` within a transaction.  Raises Moved or IntegrityError if somebody was quicker."""
        now = time.time() if now is None else now
        values = {"state": json.dumps(data, ensure_ascii=False), "version": version + 1, "updated": now}
        if version == 0:
            NEW.changed(connection, {"chat": chat, **values})
        elif AGAIN.changed(connection, {"of": chat, "seen": version, **values}) != 1:
            raise Moved
        follow(connection, chat, data, now)
        return version + 1

    def move(self, connection: Connection, old: str, new: str) -> None:
        """Take a state to another key.  What stands there already holds, and is completed by what came."""
        was, here = self.read(connection, old), self.read(connection, new)
        if was.version:
            self.forget(connection, old)
            self.write(connection, new, _joined(was.data, here.data), here.version)

    def forget(self, connection: Connection, chat: str) -> None:
        """Delete a chat's state."""
        connection.execute(delete(table).where(table.c.chat == chat))


def _joined(was: Any, here: Any) -> Any:
    old, new = State.from_json(was), State.from_json(here)
    reminders = None if old.reminders is new.reminders is None else (*(old.reminders or ()), *(new.reminders or ()))
    return new.but(settings={**old.settings, **new.settings}, last=new.last or old.last, open=new.open or old.open,
                   board=new.board or old.board, reminders=reminders).to_json()
