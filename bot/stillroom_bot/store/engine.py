"""A database URL made into an engine: SQLite with its settings, or another by its driver."""

from __future__ import annotations

import os
from pathlib import Path
from typing import Any

from sqlalchemy import Table, delete, event, select, tuple_
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, InterfaceError, OperationalError
from sqlalchemy.ext.asyncio import AsyncConnection, AsyncEngine, create_async_engine

from ..places import Unavailable

DRIVERS = {"sqlite": "sqlite+aiosqlite", "postgresql": "postgresql+asyncpg", "postgres": "postgresql+asyncpg"}
PRAGMAS = ("busy_timeout = 5000", "journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON")
READING = "stillroom_reading"
STEP = 500
AWAY = ("08", "40", "53", "57P")
"""Beginnings of SQLSTATE by which PostgreSQL says that another time may do better: no connection, a transaction that
lost to another, no resources, a shutdown or a start (its documentation, appendix A, "PostgreSQL Error Codes")."""


class StoreError(Unavailable):
    """The database cannot be used; the message says why in a sentence, without the URL's password."""


class Moved(Exception):
    """Somebody else changed a row in the meantime; nothing was written."""


def make_engine(url: str) -> AsyncEngine:
    """An engine that has not connected yet.  Raises StoreError for a URL that cannot be used."""
    try:
        named = make_url(url)
        driven = named.set(drivername=DRIVERS.get(named.drivername, named.drivername))
        if driven.get_backend_name() == "sqlite":
            _private(driven)
            return _sqlite(create_async_engine(driven))
        return create_async_engine(driven, pool_pre_ping=True)
    except ArgumentError:
        raise StoreError("The database URL cannot be read; one looks like sqlite:////var/lib/bar.sqlite3.") from None
    except ImportError as e:
        raise StoreError(f"The database needs the package {e.name}, which is not installed.") from None
    except OSError as e:
        raise StoreError(f"The database file cannot be made: {e.strerror}.") from None


def away(error: Exception) -> bool:
    """May the same do better in a while: is the database away, or busy?"""
    if isinstance(error, (OperationalError, InterfaceError, StoreError, OSError)):
        return True
    if not isinstance(error, DBAPIError):
        return False
    state = str(getattr(error.orig, "sqlstate", None) or "")
    return error.connection_invalidated or state.startswith(AWAY) or "closed" in str(error.orig).lower()


async def in_steps(engine: AsyncEngine, table: Table, where: Any, most: int = STEP) -> None:
    """Delete the rows that fit, ``most`` in a transaction, so that nobody has to wait for long."""
    keys = list(table.primary_key)
    some = select(*keys).where(where).limit(most)
    while True:
        async with engine.begin() as connection:
            gone = await connection.execute(delete(table).where(tuple_(*keys).in_(some)))
        if gone.rowcount < most:
            return


def reading(engine: AsyncEngine) -> Any:
    """A context manager: a connection that only reads, and so does not wait for writers."""
    return _Reading(engine)


class _Reading:
    def __init__(self, engine: AsyncEngine):
        self.engine = engine

    async def __aenter__(self) -> AsyncConnection:
        self.connection = await self.engine.connect()
        return await self.connection.execution_options(**{READING: True})

    async def __aexit__(self, *_: object) -> None:
        await self.connection.close()


def _private(url: URL) -> None:
    """Make the file before SQLite does, so that only its owner can read what people asked."""
    if url.database and url.database != ":memory:" and not url.database.startswith("file:"):
        path = Path(url.database)
        path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
        os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))


def _sqlite(engine: AsyncEngine) -> AsyncEngine:
    """Take the beginning of transactions out of the driver's hands, as SQLAlchemy's documentation advises."""

    @event.listens_for(engine.sync_engine, "connect")
    def on_connect(raw: Any, _record: object) -> None:
        raw.isolation_level = None
        cursor = raw.cursor()
        for pragma in PRAGMAS:
            cursor.execute(f"PRAGMA {pragma}")
        cursor.close()

    @event.listens_for(engine.sync_engine, "begin")
    def on_begin(connection: Any) -> None:
        only_reads = connection.get_execution_options().get(READING, False)
        connection.exec_driver_sql("BEGIN" if only_reads else "BEGIN IMMEDIATE")

    return engine
