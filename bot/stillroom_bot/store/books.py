"""The specs of each chat: a row for every version of each, and a number that grows with every change.

A book that was read stays in memory for as long as that number stays; another worker's change is seen
because the number is read each time.  A book's first number is the time, so that a book which was
forgotten and begun anew never has an old number again.
"""

from __future__ import annotations

import json
import time
from collections import OrderedDict
from dataclasses import dataclass

from sqlalchemy import (
    BigInteger,
    Column,
    Connection,
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

from ..board.book import Book, key_of
from .engine import Database, Moved
from .prepared import Prepared
from .schema import metadata

IN_MEMORY = 256
EMPTY = Book()
books = Table("books", metadata, Column("chat", String(120), primary_key=True),
              Column("version", BigInteger, nullable=False))
specs = Table("specs", metadata, Column("chat", String(120), primary_key=True),
              Column("spec", Integer, primary_key=True, autoincrement=False),
              Column("version", Integer, primary_key=True, autoincrement=False), Column("data", Text, nullable=False))
VERSION = Prepared(select(books.c.version).where(books.c.chat == bindparam("chat")))


@dataclass(frozen=True, slots=True)
class KeptBook:
    """A chat's book, and the number of its last change (0: it has none yet)."""

    book: Book
    version: int


class Books:
    """Books by chat key."""

    def __init__(self, database: Database):
        self.database = database
        self._read: OrderedDict[str, KeptBook] = OrderedDict()

    async def get(self, chat: str) -> KeptBook:
        """The book of a chat, empty where it has none."""
        return await self.database.peek(lambda c: self.read(c, chat))

    def read(self, connection: Connection, chat: str) -> KeptBook:
        """``get`` within a transaction."""
        found = VERSION.rows(connection, {"chat": chat})
        if not found:
            return KeptBook(EMPTY, 0)
        version = found[0][0]
        kept = self._read.get(chat)
        if kept is None or kept.version != version:
            rows = connection.execute(select(specs.c.data).where(specs.c.chat == chat))
            kept = KeptBook(Book.of_rows(json.loads(row.data) for row in rows), version)
        self._hold(chat, kept)
        return kept

    async def put(self, chat: str, book: Book, kept: KeptBook) -> KeptBook | None:
        """Keep what ``book`` adds to the one that was read; None if somebody was quicker."""
        try:
            return await self.database.write(lambda c: self.write(c, chat, book, kept))
        except (Moved, IntegrityError):
            return None

    def write(self, connection: Connection, chat: str, book: Book, kept: KeptBook) -> KeptBook:
        """``put`` within a transaction.  Raises Moved or IntegrityError if somebody was quicker."""
        if kept.version == 0:
            version = time.time_ns() // 1_000_000
            connection.execute(insert(books).values(chat=chat, version=version))
        else:
            version = kept.version + 1
            here = update(books).where(books.c.chat == chat, books.c.version == kept.version)
            if connection.execute(here.values(version=version)).rowcount != 1:
                raise Moved
        added = [{"chat": chat, "spec": s.id, "version": s.version, "data": json.dumps(s.to_json(), ensure_ascii=False)}
                 for s in book.added_to(kept.book)]
        if added:
            connection.execute(insert(specs), added)
        return KeptBook(book, version)

    def move(self, connection: Connection, old: str, new: str) -> None:
        """Take a book to another key.  A book that is there already gets the specs whose names it has not."""
        was, here = self.read(connection, old), self.read(connection, new)
        if was.version == 0:
            return
        if here.version == 0:
            for table in (specs, books):
                connection.execute(update(table).where(table.c.chat == old).values(chat=new))
        else:
            behind, taken = max(here.book.latest, default=0), here.book.by_key
            added = [s.but(id=s.id + behind) for s in was.book.versions
                     if key_of(was.book.latest[s.id].name) not in taken]
            self.write(connection, new, Book((*here.book.versions, *added)), here)
        self.forget(connection, old)

    def forget(self, connection: Connection, chat: str) -> None:
        """Delete a chat's book, with all versions."""
        self._read.pop(chat, None)
        for table in (specs, books):
            connection.execute(delete(table).where(table.c.chat == chat))

    def _hold(self, chat: str, kept: KeptBook) -> None:
        self._read.pop(chat, None)
        self._read[chat] = kept
        while len(self._read) > IN_MEMORY:
            self._read.popitem(last=False)
