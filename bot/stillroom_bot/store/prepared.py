"""Statements that every message needs, put into words once.

SQLAlchemy takes more than ten times as long over such a statement as SQLite does.  There it is handed to the driver
as it stands, on the connection of the transaction; on PostgreSQL, a trip away, it goes through SQLAlchemy as all do.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

from sqlalchemy import Connection
from sqlalchemy.dialects import sqlite

WORDS = sqlite.dialect(paramstyle="named")
Values = Mapping[str, Any]


class Prepared:
    """A statement with names for its values, which need no more than what the driver makes of them."""

    def __init__(self, statement: Any):
        self._statement = statement
        compiled = statement.compile(dialect=WORDS)
        self._text, self._fixed = str(compiled), dict(compiled.params)

    def rows(self, connection: Connection, values: Values) -> Sequence[Any]:
        """What it finds."""
        return self._run(connection, values).fetchall()  # type: ignore[no-any-return]

    def rows_of(self, connection: Connection, many: Sequence[Values]) -> Sequence[Any]:
        """What it finds, or gives back, for all of many."""
        if connection.dialect.name != "sqlite":
            return connection.execute(self._statement, many).fetchall()
        return [row for values in many for row in self.rows(connection, values)]

    def changed(self, connection: Connection, values: Values) -> int:
        """How many rows it changed."""
        return int(self._run(connection, values).rowcount)

    def each(self, connection: Connection, many: Iterable[Values]) -> None:
        """Do it for each of many."""
        rows = list(many)
        if rows and connection.dialect.name == "sqlite":
            _driver(connection).executemany(self._text, [{**self._fixed, **values} for values in rows])
        elif rows:
            connection.execute(self._statement, rows)

    def _run(self, connection: Connection, values: Values) -> Any:
        if connection.dialect.name == "sqlite":
            return _driver(connection).execute(self._text, {**self._fixed, **values})
        return connection.execute(self._statement, values)


def _driver(connection: Connection) -> Any:
    return connection.connection.driver_connection
