"""The terminal chat's book for a single question, read in passing: nothing is made, and nothing is changed.

A database that is a file is read by Python's own ``sqlite3``, so that a question does not wait for the library
that writes it; where there is no such file yet, there is no book and nothing is imported at all.
"""

from __future__ import annotations

import json
import os
from contextlib import closing
from pathlib import Path

from ..board.book import Book
from ..places import Unavailable, data_folder, database_file

KEY = "terminal"
ROWS = "SELECT data FROM specs WHERE chat = ?"
WAITS = 2.0
"""Seconds that a database may be locked before the question does without it."""
LITE = "sqlite"


def kept_book(chat: str = KEY) -> Book:
    """The book of a chat; empty where there is no database yet.  Raises Unavailable for one that cannot be read."""
    url = os.environ.get("STILLROOM_DATABASE", "")
    if url.partition(":")[0].partition("+")[0] not in ("", LITE) or "?" in url:
        import asyncio

        from .book import book_of

        return asyncio.run(book_of(url, chat))
    file = Path(url.partition(":///")[2]) if url else database_file(data_folder())
    return _of_file(file, chat) if file.is_file() else Book()


def _of_file(file: Path, chat: str) -> Book:
    import sqlite3
    from urllib.parse import quote

    try:
        where = f"file:{quote(str(file.absolute()))}?mode=ro"
        with closing(sqlite3.connect(where, uri=True, timeout=WAITS)) as database:
            found = database.execute("SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'specs'").fetchone()
            rows = database.execute(ROWS, (chat,)).fetchall() if found else []
        return Book.of_rows(json.loads(data) for (data,) in rows)
    except (sqlite3.Error, ValueError) as e:
        raise Unavailable(f"{file} cannot be read: {e}") from None
