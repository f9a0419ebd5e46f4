"""A database as the store uses it: functions of a connection, each done in one transaction.

With SQLite what may take a while is done in threads: to wait for the file, to wait for the disk, to read much.  What a
transaction writes is written in the event loop: a statement takes microseconds there, and in a thread would have to
wait for the interpreter before it and after it.  PostgreSQL is used without threads.
"""

from __future__ import annotations

import asyncio
import os
import sqlite3
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any, Protocol, TypeVar

from sqlalchemy import Connection, Engine, Table, create_engine, delete, event, select, tuple_
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, InterfaceError, OperationalError

from ..places import Unavailable

if TYPE_CHECKING:
    from sqlalchemy.ext.asyncio import AsyncEngine

T = TypeVar("T")
DRIVERS = {"postgresql": "postgresql+asyncpg", "postgres": "postgresql+asyncpg"}
PRAGMAS = ("busy_timeout = 5000", "journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON")
READING = "stillroom_reading"
STEP = 500
CONNECTIONS = 15
"""To a PostgreSQL server, and all of them kept: under load, making one anew was a part of every third message."""
AWAY = ("08", "40", "53", "57P")
"""Beginnings of SQLSTATE by which PostgreSQL says that another time may do better: no connection, a transaction that
lost to another, no resources, a shutdown or a start (its documentation, appendix A, "PostgreSQL Error Codes")."""


class StoreError(Unavailable):
    """The database cannot be used; the message says why in a sentence, without the URL's password."""


class Moved(Exception):
    """Somebody else changed a row in the meantime; nothing was written."""


class Database(Protocol):
    """``dialect`` is ``sqlite`` or ``postgresql``, ``writers`` how many may write at once.

    What a function raises leaves nothing behind, and is raised.
    """

    dialect: str
    writers: int

    async def read(self, work: Callable[[Connection], T]) -> T:
        """What a function that only reads makes of a connection; it does not wait for writers."""

    async def peek(self, work: Callable[[Connection], T]) -> T:
        """The same for a few rows that are found by their keys."""

    async def write(self, work: Callable[[Connection], T]) -> T:
        """What a function makes of a connection, once everything that it did is kept.

        It may be called again, where the connection was lost before anything could be kept.
        """

    async def close(self) -> None:
        """Let go of the database, when what is under way has been done."""


def open_database(url: str) -> Database:
    """A database that is not connected yet.  Raises StoreError for a URL that cannot be used."""
    try:
        named = make_url(url)
        driven = named.set(drivername=DRIVERS.get(named.drivername, named.drivername))
        if driven.get_backend_name() == "sqlite":
            _private(driven)
            return File(_sqlite(create_engine(driven)))
        from sqlalchemy.ext.asyncio import create_async_engine

        return Server(create_async_engine(driven, pool_size=CONNECTIONS, max_overflow=0))
    except ArgumentError:
        raise StoreError("The database URL cannot be read; one looks like sqlite:////var/lib/bar.sqlite3.") from None
    except ImportError as e:
        raise StoreError(f"The database needs the package {e.name}, which is not installed.") from None
    except OSError as e:
        raise StoreError(f"The database file cannot be made: {e.strerror}.") from None


class File:
    """SQLite."""

    dialect = "sqlite"
    writers = 1

    def __init__(self, engine: Engine):
        self.engine = engine
        self._reader, self._writer = ThreadPoolExecutor(1, "store-reading"), ThreadPoolExecutor(1, "store-writing")
        self._peeking: Connection | None = None
        self._writing, self._tasks = asyncio.Lock(), set[asyncio.Task[Any]]()

    async def read(self, work: Callable[[Connection], T]) -> T:
        """As ``Database``."""
        def reading() -> T:
            with self.engine.connect().execution_options(**{READING: True}) as connection:
                return _translated(work, connection)

        return await asyncio.get_running_loop().run_in_executor(self._reader, reading)

    async def peek(self, work: Callable[[Connection], T]) -> T:
        """As ``Database``.  Here and now, each row as it is now: that takes less time than the way to a thread."""
        if self._peeking is None:
            self._peeking = self.engine.connect().execution_options(**{READING: True})
        try:
            return _translated(work, self._peeking)
        finally:
            if self._peeking.in_transaction():
                self._peeking.rollback()

    async def write(self, work: Callable[[Connection], T]) -> T:
        """As ``Database``.  Whoever stops waiting does not stop it."""
        task = asyncio.create_task(self._written(work))
        self._tasks.add(task)
        task.add_done_callback(self._tasks.discard)
        return await asyncio.shield(task)

    async def _written(self, work: Callable[[Connection], T]) -> T:
        aside = partial(asyncio.get_running_loop().run_in_executor, self._writer)
        async with self._writing:
            with self.engine.connect() as connection:
                transaction = await aside(connection.begin)
                done = _translated(work, connection)
                await aside(transaction.commit)
                return done

    async def close(self) -> None:
        """As ``Database``."""
        await asyncio.gather(*self._tasks, return_exceptions=True)
        for pool in (self._reader, self._writer):
            await asyncio.to_thread(pool.shutdown)
        if self._peeking is not None:
            self._peeking.close()
        self.engine.dispose()


def _translated(work: Callable[[Connection], T], connection: Connection) -> T:
    """What the driver raises, as SQLAlchemy would."""
    try:
        return work(connection)
    except sqlite3.Error as e:
        raise DBAPIError.instance(None, None, e, sqlite3.Error) from None


class Server:
    """PostgreSQL."""

    dialect = "postgresql"
    writers = 4

    def __init__(self, engine: AsyncEngine):
        self.engine = engine
        self._at_once = engine.execution_options(isolation_level="AUTOCOMMIT")

    async def read(self, work: Callable[[Connection], T]) -> T:
        """As ``Database``."""
        return await self._once_more(work, self.engine)

    async def peek(self, work: Callable[[Connection], T]) -> T:
        """As ``Database``.  Each row as it is now: a transaction would be as many trips again."""
        return await self._once_more(work, self._at_once)

    async def write(self, work: Callable[[Connection], T]) -> T:
        """As ``Database``."""
        return await self._once_more(work, self.engine, keep=True)

    async def close(self) -> None:
        """As ``Database``."""
        await self.engine.dispose()

    async def _once_more(self, work: Callable[[Connection], T], engine: AsyncEngine, keep: bool = False) -> T:
        """A connection may have died since it was used last: then it is done on a new one."""
        try:
            return await self._do(work, engine, keep)
        except _Lost:
            pass
        try:
            return await self._do(work, engine, keep)
        except _Lost as e:
            raise e.cause from None

    async def _do(self, work: Callable[[Connection], T], engine: AsyncEngine, keep: bool) -> T:
        async with engine.connect() as connection:
            try:
                done = await connection.run_sync(work)
            except DBAPIError as e:
                raise (_Lost(e) if e.connection_invalidated else e) from None
            if keep:
                await connection.commit()
            return done


class _Lost(Exception):
    """The connection was lost, and with it what was done on it."""

    def __init__(self, cause: DBAPIError):
        self.cause = cause


def away(error: Exception) -> bool:
    """May the same do better in a while: is the database away, or busy?"""
    if isinstance(error, (OperationalError, InterfaceError, StoreError, OSError)):
        return True
    if not isinstance(error, DBAPIError):
        return False
    state = str(getattr(error.orig, "sqlstate", None) or "")
    return error.connection_invalidated or state.startswith(AWAY) or "closed" in str(error.orig).lower()


async def in_steps(database: Database, table: Table, where: Any, most: int = STEP) -> None:
    """Delete the rows that fit, ``most`` in a transaction, so that nobody has to wait for long."""
    keys = list(table.primary_key)
    some = delete(table).where(tuple_(*keys).in_(select(*keys).where(where).limit(most)))
    while await database.write(lambda connection: connection.execute(some).rowcount) == most:
        pass


def _private(url: URL) -> None:
    """Make the file before SQLite does, so that only its owner can read what people asked."""
    if url.database and url.database != ":memory:" and not url.database.startswith("file:"):
        path = Path(url.database)
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))


def _sqlite(engine: Engine) -> Engine:
    """Take the beginning of transactions out of the driver's hands, as SQLAlchemy's documentation advises."""

    @event.listens_for(engine, "connect")
    def on_connect(raw: Any, _record: object) -> None:
        raw.isolation_level = None
        cursor = raw.cursor()
        for pragma in PRAGMAS:
            cursor.execute(f"PRAGMA {pragma}")
        cursor.close()

    @event.listens_for(engine, "begin")
    def on_begin(connection: Any) -> None:
        only_reads = connection.get_execution_options().get(READING, False)
        connection.exec_driver_sql("BEGIN" if only_reads else "BEGIN IMMEDIATE")

    return engine
