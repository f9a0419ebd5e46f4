"""What outlives a restart: the state and the book of each chat, which message answers which, and open buttons.

    async with open_store("sqlite:///stillroom.sqlite3") as store:
        kept = await store.chats.get("telegram:17")
        await store.chats.put("telegram:17", {"version": 1}, kept.version)

``schema`` holds every table's metadata; each further file is one table and the handful of things that
are ever done to it: functions of a connection, which ``engine`` runs in transactions.  A new table is a new
file of that kind, and a migration (``migrate``); nothing is pickled, and JSON columns carry a version of their own.
"""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from sqlalchemy import select
from sqlalchemy.exc import IntegrityError

from ..board.book import Book
from .answers import Answered, Answers
from .books import Books, KeptBook
from .buttons import Buttons, Question
from .chats import Chats, Kept
from .engine import Moved, StoreError, open_database
from .inbox import Inbox
from .migrate import prepare
from .moves import Moves
from .reminders import Due, Reminders
from .schema import metadata
from .workers import Workers

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from .engine import Database

__all__ = ["Answered", "Answers", "Books", "Buttons", "Chats", "Due", "Kept", "KeptBook", "Question",
           "Reminders", "Store", "StoreError", "open_store"]

TRIES = 6


@dataclass(frozen=True, slots=True)
class Store:
    """The tables of one database."""

    database: Database
    chats: Chats
    answers: Answers
    buttons: Buttons
    books: Books
    reminders: Reminders
    inbox: Inbox
    workers: Workers
    moves: Moves

    async def look(self, chat: str) -> tuple[Kept, KeptBook]:
        """The state and the book of a chat."""
        return await self.database.peek(lambda c: (self.chats.read(c, chat), self.books.read(c, chat)))

    async def keep(self, chat: str, data: Any, version: int, book: Book, kept: KeptBook) -> int | None:
        """Replace the state that had ``version`` and the book that was read as ``kept``, both or neither.

        Returns the state's new version; None if somebody was quicker.
        """
        def write(connection: Connection) -> int:
            new = self.chats.write(connection, chat, data, version)
            if book is not kept.book:
                self.books.write(connection, chat, book, kept)
            return new

        try:
            return await self.database.write(write)
        except (Moved, IntegrityError):
            return None

    async def export(self, chat: str) -> dict[str, list[dict[str, Any]]]:
        """Every row that is kept of a chat, as plain data, by table."""
        def read(connection: Connection) -> dict[str, list[dict[str, Any]]]:
            queries = {t.name: select(t).where(t.c.chat == chat) for t in metadata.sorted_tables if "chat" in t.c}
            return {name: [dict(row) for row in connection.execute(q).mappings()] for name, q in queries.items()}

        return await self.database.read(read)

    async def forget(self, chat: str) -> None:
        """Delete everything that is kept of a chat, in one transaction."""
        await self.database.write(lambda c: self.forget_in(c, chat))

    def forget_in(self, connection: Connection, chat: str) -> None:
        """``forget`` within a transaction."""
        for table in self._of_chats:
            table.forget(connection, chat)

    def move_in(self, connection: Connection, old: str, new: str) -> None:
        """Take everything that is kept of a chat to another key, within a transaction; twice is as good as once.

        Raises Moved or IntegrityError if somebody was quicker.
        """
        for table in self._of_chats:
            table.move(connection, old, new)
        self.moves.write(connection, old, new)

    async def move(self, old: str, new: str) -> None:
        """``move_in``, in a transaction of its own.  Raises Moved if somebody kept being quicker."""
        for _ in range(TRIES):
            try:
                return await self.database.write(lambda c: self.move_in(c, old, new))
            except (Moved, IntegrityError):
                continue
        raise Moved

    @property
    def _of_chats(self) -> tuple[Reminders | Chats | Answers | Buttons | Books | Inbox, ...]:
        """The tables that keep something of chats; reminders go before the state, whose writing follows them."""
        return self.reminders, self.chats, self.answers, self.buttons, self.books, self.inbox

    async def purge(self, now: float | None = None) -> None:
        """Delete what is too old to be of use: messages that cannot be edited, buttons that have expired."""
        await self.answers.purge(now)
        await self.buttons.purge(now)
        await self.reminders.purge(now)
        await self.inbox.purge(now)


@asynccontextmanager
async def open_store(url: str) -> AsyncIterator[Store]:
    """Open a database, making its tables where there are none and bringing older ones up to date.

    Raises StoreError, with a sentence, for one that cannot be opened or was written by a later version.
    """
    d = open_database(url)
    try:
        await prepare(d)
        yield Store(d, Chats(d), Answers(d), Buttons(d), Books(d), Reminders(d), Inbox(d), Workers(d), Moves(d))
    finally:
        await d.close()
