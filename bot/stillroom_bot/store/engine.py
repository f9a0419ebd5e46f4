"""A database as the store uses it: functions of a connection, each done in one transaction.

``file`` is SQLite; PostgreSQL is used here, without threads.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, Protocol, TypeVar

from sqlalchemy import Connection, Table, delete, select, tuple_
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, InterfaceError, OperationalError

from ..places import Unavailable
from .file import open_file

if TYPE_CHECKING:
    from sqlalchemy.ext.asyncio import AsyncEngine

T = TypeVar("T")
DRIVERS = {"postgresql": "postgresql+asyncpg", "postgres": "postgresql+asyncpg"}
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

    async def write(self, work: Callable[[Connection], T], lasting: bool = True) -> T:
        """What a function makes of a connection, once everything that it did is kept: it outlasts this process.

        ``lasting``: it outlasts a loss of power too; else it may do so only once ``settle`` has been waited for.
        It may be called again, where the connection was lost before anything could be kept.
        """

    async def settle(self) -> None:
        """Wait until all that was written before outlasts a loss of power.

        Who acknowledges an update has to wait; who answers it need not: what a loss of power takes back with the
        answer's own note is done again, by the update that is still there.
        """

    async def close(self) -> None:
        """Let go of the database, when what is under way has been done."""


def open_database(url: str) -> Database:
    """A database that is not connected yet.  Raises StoreError for a URL that cannot be used."""
    try:
        named = make_url(url)
        driven = named.set(drivername=DRIVERS.get(named.drivername, named.drivername))
        if driven.get_backend_name() == "sqlite":
            return open_file(driven)
        from sqlalchemy.ext.asyncio import create_async_engine

        return Server(create_async_engine(driven, pool_size=CONNECTIONS, max_overflow=0))
    except ArgumentError:
        raise StoreError("The database URL cannot be read; one looks like sqlite:////var/lib/bar.sqlite3.") from None
    except ImportError as e:
        raise StoreError(f"The database needs the package {e.name}, which is not installed.") from None
    except OSError as e:
        raise StoreError(f"The database file cannot be made: {e.strerror}.") from None


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

    async def write(self, work: Callable[[Connection], T], lasting: bool = True) -> T:
        """As ``Database``; all of it is lasting."""
        return await self._once_more(work, self.engine, keep=True)

    async def settle(self) -> None:
        """As ``Database``."""

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
