"""What outlives a restart: the state and the book of each chat, which message answers which, and open buttons.

    async with open_store("sqlite:///stillroom.sqlite3") as store:
        kept = await store.chats.get("telegram:17")
        await store.chats.put("telegram:17", {"version": 1}, kept.version)

``schema`` holds every table's metadata; each further file is one table and the handful of things that
are ever done to it.  A new table is a new file of that kind, and a migration (``migrate``); nothing is
pickled, and JSON columns carry a version of their own.
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
from .engine import Moved, StoreError, make_engine, reading
from .inbox import Inbox
from .migrate import prepare
from .moves import Moves
from .reminders import Due, Reminders
from .schema import metadata
from .workers import Workers

if TYPE_CHECKING:
    from sqlalchemy.ext.asyncio import AsyncConnection, AsyncEngine

__all__ = ["Answered", "Answers", "Books", "Buttons", "Chats", "Due", "Kept", "KeptBook", "Question",
           "Reminders", "Store", "StoreError", "open_store"]

TRIES = 6


@dataclass(frozen=True, slots=True)
class Store:
    """The tables of one database."""

    engine: AsyncEngine
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
        async with reading(self.engine) as connection:
            return await self.chats.read(connection, chat), await self.books.read(connection, chat)

    async def keep(self, chat: str, data: Any, version: int, book: Book, kept: KeptBook) -> int | None:
        """Replace the state that had ``version`` and the book that was read as ``kept``, both or neither.

        Returns the state's new version; None if somebody was quicker.
        """
        try:
            async with self.engine.begin() as connection:
                new = await self.chats.write(connection, chat, data, version)
                if book is not kept.book:
                    await self.books.write(connection, chat, book, kept)
                return new
        except (Moved, IntegrityError):
            return None

    async def export(self, chat: str) -> dict[str, list[dict[str, Any]]]:
        """Every row that is kept of a chat, as plain data, by table."""
        found: dict[str, list[dict[str, Any]]] = {}
        async with reading(self.engine) as connection:
            for table in metadata.sorted_tables:
                if "chat" in table.c:
                    rows = await connection.execute(select(table).where(table.c.chat == chat))
                    found[table.name] = [dict(row) for row in rows.mappings()]
        return found

    async def forget(self, chat: str) -> None:
        """Delete everything that is kept of a chat, in one transaction."""
        async with self.engine.begin() as connection:
            await self.forget_in(connection, chat)

    async def forget_in(self, connection: AsyncConnection, chat: str) -> None:
        """``forget`` within a transaction."""
        for table in self._of_chats:
            await table.forget(connection, chat)

    async def move_in(self, connection: AsyncConnection, old: str, new: str) -> None:
        """Take everything that is kept of a chat to another key, within a transaction; twice is as good as once.

        Raises Moved or IntegrityError if somebody was quicker.
        """
        for table in self._of_chats:
            await table.move(connection, old, new)
        await self.moves.write(connection, old, new)

    async def move(self, old: str, new: str) -> None:
        """``move_in``, in a transaction of its own.  Raises Moved if somebody kept being quicker."""
        for _ in range(TRIES):
            try:
                async with self.engine.begin() as connection:
                    return await self.move_in(connection, old, new)
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
    engine = make_engine(url)
    try:
        await prepare(engine)
        yield Store(engine, Chats(engine), Answers(engine), Buttons(engine), Books(engine), Reminders(engine),
                    Inbox(engine), Workers(engine), Moves(engine))
    finally:
        await engine.dispose()
