"""SQLite as the store uses it: written in the event loop, brought to the disk beside it.

A transaction costs a few statements and their way into the system's memory, which is less than the way to a thread;
so it is done here and now.  It outlasts the process from then on.  Waiting for the disk takes a hundred times as long
and is done in threads: by ``settle``, for those who promise that something outlasts a loss of power too, and by
checkpoints, which bring the log (``-wal``) into the file.  After a loss of power the file holds all that was settled,
and whole transactions in their order: none without those before it (sqlite.org/wal.html and sqlite.org/pragma.html,
"synchronous", say so of NORMAL).
"""

from __future__ import annotations

import asyncio
import os
import sqlite3
import time
from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any, TypeVar

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.engine import URL
from sqlalchemy.exc import DBAPIError, OperationalError

from .together import Together

T = TypeVar("T")
PATIENCE = 5.0
"""Seconds that another process may hold the file against a writer."""
PRAGMAS = (f"busy_timeout = {PATIENCE * 1000:.0f}", "foreign_keys = ON", "wal_autocheckpoint = 0")
READING = "stillroom_reading"
CHANGES = 300
"""Rows that are changed until the log is brought into the file: some four pages each, so about a thousand pages."""
LONG = 16_000
"""Pages of the log (64 MiB) from which on writers wait until it has been emptied, which needs a moment of rest."""
SYNC = getattr(os, "fdatasync", os.fsync)


def open_file(url: URL) -> File:
    """A database that is not connected yet.  Raises OSError where there can be no such file."""
    path = Path(url.database) if url.database and url.database != ":memory:" and url.database[:5] != "file:" else None
    if path is not None:
        _private(path)
    return File(_engine(url), path)


class File:
    """SQLite; as ``engine.Database`` has it."""

    dialect = "sqlite"
    writers = 1

    def __init__(self, engine: Engine, path: Path | None):
        self.engine = engine
        self._log = path and path.with_name(path.name + "-wal")
        self._reader, self._disk, self._checker = (
            ThreadPoolExecutor(1, f"store-{name}") for name in ("reading", "settling", "checking"))
        self._peeking: Connection | None = None
        self._pen: Connection | None = None
        self._writing = asyncio.Lock()
        self._settle: Together[None, None] = Together(self._settled, pause=0.0)
        self._checked = 0
        self._tasks: set[asyncio.Task[None]] = set()

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

    async def write(self, work: Callable[[Connection], T], lasting: bool = True) -> T:
        """As ``Database``."""
        async with self._writing:
            if self._pen is None:
                self._pen = self.engine.connect()
                _driver(self._pen).execute("PRAGMA busy_timeout = 0")
            await self._begin(self._pen)
            try:
                done = _translated(work, self._pen)
                self._pen.commit()
            finally:
                self._pen.rollback()
            self._check_soon(self._pen)
        if lasting:
            await self.settle()
        return done

    async def _begin(self, connection: Connection) -> None:
        """Begin, when no other process is writing."""
        end, pause = time.monotonic() + PATIENCE, 0.001
        while True:
            try:
                connection.begin()
                return
            except OperationalError as e:
                connection.rollback()
                if "locked" not in str(e.orig) or time.monotonic() > end:
                    raise
            await asyncio.sleep(pause)
            pause = min(2 * pause, 0.05)

    async def settle(self) -> None:
        """As ``Database``."""
        await self._settle(None)

    async def _settled(self, waiting: Sequence[None]) -> Sequence[None]:
        await asyncio.get_running_loop().run_in_executor(self._disk, self._sync)
        return [None] * len(waiting)

    def _sync(self) -> None:
        """What has left the log for the file was brought to the disk by the checkpoint that moved it."""
        if self._log is None or not self._log.exists():
            return
        with self._log.open("r+b") as log:
            SYNC(log.fileno())

    def _check_soon(self, connection: Connection) -> None:
        """Have the log brought into the file, where much has been written since."""
        changed = _driver(connection).total_changes
        if changed - self._checked >= CHANGES and not self._tasks:
            self._checked = changed
            task = asyncio.create_task(self._check())
            self._tasks.add(task)
            task.add_done_callback(self._tasks.discard)

    async def _check(self) -> None:
        """A checkpoint, beside whoever reads and writes; where the log has become long, once more with the pen down."""
        loop = asyncio.get_running_loop()
        try:
            if await loop.run_in_executor(self._checker, self._checkpoint) >= LONG:
                async with self._writing:
                    await loop.run_in_executor(self._checker, self._checkpoint)
        except (sqlite3.Error, DBAPIError):
            return  # nothing is lost by it: the next one, or whoever closes the file last, does it

    def _checkpoint(self) -> int:
        """Bring the log into the file as far as nobody reads older pages; gives how long the log is, in pages."""
        with self.engine.connect() as connection:
            _, pages, _ = _driver(connection).execute("PRAGMA wal_checkpoint(PASSIVE)").fetchone()
        return int(pages)

    async def close(self) -> None:
        """As ``Database``."""
        await asyncio.gather(*self._tasks, return_exceptions=True)
        async with self._writing:
            await self.settle()
            for pool in (self._reader, self._disk, self._checker):
                await asyncio.to_thread(pool.shutdown)
            for connection in (self._peeking, self._pen):
                if connection is not None:
                    connection.close()
            self.engine.dispose()


def _driver(connection: Connection) -> Any:
    return connection.connection.driver_connection


def _translated(work: Callable[[Connection], T], connection: Connection) -> T:
    """What the driver raises, as SQLAlchemy would."""
    try:
        return work(connection)
    except sqlite3.Error as e:
        raise DBAPIError.instance(None, None, e, sqlite3.Error) from None


def _private(path: Path) -> None:
    """Make the file before SQLite does, so that only its owner can read what people asked."""
    path.parent.mkdir(mode=0o700, parents=True, exist_ok=True)
    os.close(os.open(path, os.O_RDWR | os.O_CREAT, 0o600))


def _engine(url: URL) -> Engine:
    """Take the beginning of transactions out of the driver's hands, as SQLAlchemy's documentation advises."""
    engine = create_engine(url)

    @event.listens_for(engine, "connect")
    def on_connect(raw: Any, _record: object) -> None:
        raw.isolation_level = None
        cursor = raw.cursor()
        for pragma in PRAGMAS:
            cursor.execute(f"PRAGMA {pragma}")
        mode, = cursor.execute("PRAGMA journal_mode = WAL").fetchone()
        cursor.execute(f"PRAGMA synchronous = {'NORMAL' if mode == 'wal' else 'FULL'}")
        cursor.close()

    @event.listens_for(engine, "begin")
    def on_begin(connection: Any) -> None:
        only_reads = connection.get_execution_options().get(READING, False)
        connection.exec_driver_sql("BEGIN" if only_reads else "BEGIN IMMEDIATE")

    return engine
