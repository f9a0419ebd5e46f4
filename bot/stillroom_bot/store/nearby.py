"""SQLite on the event loop's own thread, for SQLAlchemy's asyncio dialect: only a commit, which waits for the disk,
goes to another.

A statement takes microseconds and the way to a thread and back ten times that.  Writers of this process take turns by
a lock of the loop, so nobody waits inside SQLite; where another process holds the file, the loop goes on and it is
tried again.  What takes long has to be done in steps.
"""

from __future__ import annotations

import asyncio
import sqlite3
import time
from collections.abc import Callable, Iterable
from concurrent.futures import ThreadPoolExecutor
from functools import partial
from typing import Any, Self, TypeVar

WAIT_SECONDS = 5.0
STEP_SECONDS = 0.01
BEGIN = "BEGIN IMMEDIATE"
T = TypeVar("T")


class Opener:
    """``await opener()`` opens a connection to one file; those that write take turns."""

    def __init__(self, database: str, **how: Any):
        self._open = partial(sqlite3.connect, database, timeout=0.0, isolation_level=None,
                             check_same_thread=False, **how)
        self.writing = asyncio.Lock()
        self.hands = ThreadPoolExecutor(1, "commit")

    async def __call__(self, *_: Any, **__: Any) -> Nearby:
        """A connection."""
        return Nearby(self._open(), self)


class Nearby:
    """A connection as the dialect uses one."""

    def __init__(self, raw: sqlite3.Connection, opener: Opener):
        self._connection: sqlite3.Connection | None = raw
        self._raw, self._opener, self._writes = raw, opener, False

    isolation_level = None
    """Transactions are begun and ended by whoever uses this."""

    def cursor(self) -> Cursor:
        """A cursor."""
        return Cursor(self._raw.cursor(), self)

    async def create_function(self, *named: Any, **how: Any) -> None:
        """As ``sqlite3.Connection.create_function``."""
        self._raw.create_function(*named, **how)

    async def begin(self, execute: Callable[[], T]) -> T:
        """Begin to write, when it is this connection's turn."""
        await self._opener.writing.acquire()
        self._writes = True
        try:
            return await waiting(execute)
        except BaseException:
            self._end()
            raise

    async def commit(self) -> None:
        """Commit, in the other thread if anything was to be written; whoever stops waiting does not stop it."""
        if not self._writes:
            self._raw.commit()
            return
        done = asyncio.get_running_loop().run_in_executor(self._opener.hands, self._raw.commit)
        try:
            await asyncio.shield(done)
        except asyncio.CancelledError:
            await asyncio.wait({done})
            raise
        if not self._raw.in_transaction:
            self._end()

    async def rollback(self) -> None:
        """Leave nothing of what was begun."""
        try:
            self._raw.rollback()
        finally:
            self._end()

    async def close(self) -> None:
        """Close it."""
        self.stop()

    def stop(self) -> None:
        """Close it at once; what was begun is left."""
        if self._connection is not None:
            self._connection = None
            self._raw.close()
            self._end()

    def _end(self) -> None:
        if self._writes:
            self._writes = False
            self._opener.writing.release()


class Cursor:
    """A cursor as the dialect uses one."""

    def __init__(self, raw: sqlite3.Cursor, connection: Nearby):
        self._raw, self._connection = raw, connection
        self.arraysize = raw.arraysize

    async def __aenter__(self) -> Self:
        return self

    @property
    def description(self) -> Any:
        """Columns of the rows."""
        return self._raw.description

    @property
    def rowcount(self) -> int:
        """Rows that were changed."""
        return self._raw.rowcount

    @property
    def lastrowid(self) -> int | None:
        """The row that was inserted last."""
        return self._raw.lastrowid

    async def execute(self, sql: str, parameters: Iterable[Any] = ()) -> Self:
        """Do one statement."""
        call = partial(self._raw.execute, sql, parameters)  # type: ignore[arg-type]
        await (self._connection.begin(call) if sql == BEGIN else waiting(call))
        return self

    async def executemany(self, sql: str, parameters: Iterable[Any]) -> Self:
        """Do a statement for each of many."""
        await waiting(partial(self._raw.executemany, sql, parameters))
        return self

    async def fetchone(self) -> Any:
        """The next row."""
        return self._raw.fetchone()

    async def fetchmany(self, size: int | None = None) -> list[Any]:
        """Some rows."""
        return self._raw.fetchmany(size or self.arraysize)

    async def fetchall(self) -> list[Any]:
        """All rows that are left."""
        return self._raw.fetchall()

    async def close(self) -> None:
        """Close it."""
        self._raw.close()


async def waiting(call: Callable[[], T]) -> T:
    """Call, again and again while another process has the file; raises OperationalError when that takes too long."""
    end = 0.0
    while True:
        try:
            return call()
        except sqlite3.OperationalError as e:
            if "locked" not in str(e):
                raise
            end = end or time.monotonic() + WAIT_SECONDS
            if time.monotonic() > end:
                raise
        await asyncio.sleep(STEP_SECONDS)
