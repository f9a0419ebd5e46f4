"""A conversation to talk to; and databases for what is kept: a file of SQLite's, and one on a PostgreSQL server."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import count
from pathlib import Path

import postgres
import pytest
from stillroom import Kernel
from stillroom_bot.conversation import Conversation

NUMBERS = count(1)


@pytest.fixture(scope="session")
def talk(tmp_path_factory: pytest.TempPathFactory) -> Conversation:
    """A conversation with everything that the bar's plugins know; it keeps nothing of what is said to it."""
    return Conversation(Kernel(tmp_path_factory.mktemp("plans")))


@pytest.fixture(scope="session")
def server() -> Iterator[str]:
    """The URL of a PostgreSQL server's databases, with ``{}`` for the name of one."""
    if postgres.programs() is None:
        pytest.skip(postgres.ABSENT)
    with postgres.server() as url:
        yield url


@pytest.fixture(params=["sqlite", "postgresql"])
async def url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """An empty database, in a folder that is not there yet or on a server."""
    if request.param == "sqlite":
        return f"sqlite:///{tmp_path / 'bar' / 'stillroom.sqlite3'}"
    import asyncpg

    where, name = request.getfixturevalue("server"), f"test_{next(NUMBERS)}"
    connection = await asyncpg.connect(where.format("postgres"))
    await connection.execute(f"CREATE DATABASE {name}")
    await connection.close()
    return str(where.format(name))
