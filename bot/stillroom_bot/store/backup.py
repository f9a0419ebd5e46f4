"""A consistent copy of the database while others write to it."""

from __future__ import annotations

import os
import sqlite3
from contextlib import closing
from pathlib import Path
from tempfile import mkstemp

from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError

from .engine import StoreError

POSTGRES = ("That database is a PostgreSQL server's: back it up with its own tool, such as "
            "pg_dump --format=custom --file=FILE DATABASE, and bring it back with pg_restore.")


def backup(url: str, file: Path) -> int:
    """Copy the SQLite database at ``url`` into a new file; returns its size in bytes.

    The copy is one state of the database, checked before it gets its name.  Raises StoreError where
    there is no such database, or the file is there already.
    """
    try:
        named = make_url(url)
    except ArgumentError:
        raise StoreError("The database URL cannot be read.") from None
    if named.get_backend_name() != "sqlite":
        raise StoreError(POSTGRES)
    if not named.database or not Path(named.database).is_file():
        raise StoreError(f"There is no database at {named.database or 'that URL'} yet.")
    if file.exists():
        raise StoreError(f"{file} is there already: name a new file.")
    handle, temporary = mkstemp(prefix=".stillroom-", dir=file.parent)
    os.close(handle)
    try:
        _copy(named.database, temporary)
        os.link(temporary, file)
    except FileExistsError:
        raise StoreError(f"{file} is there already: name a new file.") from None
    except sqlite3.Error as e:
        raise StoreError(f"The database cannot be copied ({e}).") from None
    finally:
        os.unlink(temporary)
    return file.stat().st_size


def _copy(database: str, to: str) -> None:
    with closing(sqlite3.connect(database, timeout=30)) as source, closing(sqlite3.connect(to)) as copy:
        source.backup(copy)
        copy.execute("PRAGMA journal_mode = DELETE")
        found = copy.execute("PRAGMA integrity_check").fetchone()[0]
        if found != "ok":
            raise sqlite3.DatabaseError(f"the copy is damaged: {found}")
    with open(to, "rb") as written:
        os.fsync(written.fileno())
