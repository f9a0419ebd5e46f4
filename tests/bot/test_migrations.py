"""A database is brought up to date without loss, in one go, and never taken back."""

from __future__ import annotations

import asyncio
import importlib.util
import subprocess
import sys
from pathlib import Path

import pytest
from sqlalchemy import Connection, inspect, text
from stillroom_bot.store import StoreError, migrate, open_store
from stillroom_bot.store.engine import open_database
from stillroom_bot.store.schema import metadata

FIRST_SCHEMA = """
CREATE TABLE stillroom_schema (id INTEGER NOT NULL, version INTEGER NOT NULL, made_by VARCHAR NOT NULL,
    CONSTRAINT pk_stillroom_schema PRIMARY KEY (id));
CREATE TABLE answers (chat VARCHAR(120) NOT NULL, question BIGINT NOT NULL, messages TEXT NOT NULL,
    text TEXT NOT NULL, "before" TEXT NOT NULL, version INTEGER NOT NULL, updated FLOAT NOT NULL,
    CONSTRAINT pk_answers PRIMARY KEY (chat, question));
CREATE INDEX ix_answers_updated ON answers (updated);
CREATE TABLE buttons (id VARCHAR(16) NOT NULL, chat VARCHAR(120) NOT NULL, asker BIGINT NOT NULL,
    question BIGINT NOT NULL, text TEXT NOT NULL, choices TEXT NOT NULL, state TEXT NOT NULL,
    created FLOAT NOT NULL, CONSTRAINT pk_buttons PRIMARY KEY (id));
CREATE INDEX ix_buttons_created ON buttons (created);
CREATE TABLE chats (chat VARCHAR(120) NOT NULL, state TEXT NOT NULL, version INTEGER NOT NULL,
    updated FLOAT NOT NULL, CONSTRAINT pk_chats PRIMARY KEY (chat));
INSERT INTO stillroom_schema VALUES (1, 1, 'stillroom');
INSERT INTO chats VALUES ('telegram:1', '{"version": 1, "settings": {"size:dash": 0.6}}', 3, 17.5);
INSERT INTO answers VALUES ('telegram:1', 7, '[8]', 'syrup?', 'null', 3, 17.5)
"""
"""What a Stillroom without migrations left behind."""


async def _first(url: str) -> None:
    database = open_database(url)
    await database.write(lambda c: [c.exec_driver_sql(statement) for statement in FIRST_SCHEMA.split(";")])
    await database.close()


async def test_the_first_schema_is_upgraded_without_loss(url: str) -> None:
    await _first(url)
    async with open_store(url) as store:
        assert await store.database.read(migrate.version_of) == migrate.HEAD
        kept = await store.chats.get("telegram:1")
        assert (kept.data, kept.version) == ({"version": 1, "settings": {"size:dash": 0.6}}, 3)
        answered = await store.answers.get("telegram:1", 7)
        assert answered and (answered.messages, answered.text) == ((8,), "syrup?")
        older = await store.database.read(lambda c: c.execute(text("SELECT version FROM stillroom_schema")).scalar())
        assert older == 2, "a Stillroom that knows no migrations would write into this database"


async def test_the_migrations_make_the_tables_that_the_program_uses(url: str) -> None:
    def different(connection: Connection) -> list[object]:
        from alembic.autogenerate import compare_metadata
        from alembic.migration import MigrationContext

        return list(compare_metadata(MigrationContext.configure(connection, opts={"compare_type": True}), metadata))

    async with open_store(url) as store:
        assert await store.database.read(different) == []
        tables = await store.database.read(lambda c: inspect(c).get_table_names())
        assert set(tables) == {*metadata.tables, migrate.VERSION_TABLE}
        for name in metadata.tables:
            key = await store.database.read(lambda c, name=name: inspect(c).get_pk_constraint(name))
            assert key["name"] == f"pk_{name}"


async def test_a_later_schema_is_refused_and_left_as_it_is(url: str) -> None:
    async with open_store(url) as store:
        await store.chats.put("a", {"n": 1}, 0)
        await store.database.write(lambda c: c.execute(text("UPDATE alembic_version SET version_num = '9999'")))
    told = f"later Stillroom .its schema is version 9999, this one knows {migrate.HEAD}"
    with pytest.raises(StoreError, match=told):
        async with open_store(url):
            raise AssertionError("opened")
    database = open_database(url)
    assert await database.read(lambda c: c.execute(text("SELECT count(*) FROM chats")).scalar()) == 1
    assert await database.read(migrate.version_of) == "9999"
    await database.close()


async def test_a_migration_that_breaks_leaves_the_database_as_it_was(url: str, monkeypatch: pytest.MonkeyPatch) -> None:
    await _first(url)

    def broken(connection: Connection, to: str = "head") -> None:
        upgrade(connection, to)
        connection.execute(text("SELECT * FROM nowhere"))

    upgrade = migrate.upgrade
    monkeypatch.setattr(migrate, "upgrade", broken)
    with pytest.raises(StoreError, match="cannot be opened"):
        async with open_store(url):
            raise AssertionError("opened")
    database = open_database(url)
    tables = await database.read(lambda c: inspect(c).get_table_names())
    assert set(tables) == {"stillroom_schema", "chats", "answers", "buttons"}
    await database.close()
    monkeypatch.undo()
    async with open_store(url) as store:
        assert (await store.chats.get("telegram:1")).version == 3


async def test_several_that_start_at_once_upgrade_it_once(url: str) -> None:
    await _first(url)

    async def start() -> int:
        async with open_store(url) as store:
            return (await store.chats.get("telegram:1")).version

    assert await asyncio.gather(*(start() for _ in range(4))) == [3] * 4


def test_migrations_are_one_row_and_numbered() -> None:
    before = None
    for path in sorted((migrate.SCRIPTS / "versions").glob("[0-9]*.py")):
        spec = importlib.util.spec_from_file_location("step", path)
        assert spec and spec.loader
        step = importlib.util.module_from_spec(spec)
        spec.loader.exec_module(step)
        assert (step.revision, step.down_revision) == (path.name[:4], before)
        before = step.revision
    assert before == migrate.HEAD


def test_alembic_is_imported_only_where_there_is_something_to_do(tmp_path: Path) -> None:
    code = """
import asyncio, sys
from stillroom_bot.store import open_store
async def touch():
    async with open_store("sqlite:///" + sys.argv[1]):
        print("alembic" in sys.modules)
asyncio.run(touch())
"""
    run = [sys.executable, "-c", code, str(tmp_path / "bar.sqlite3")]
    found = [subprocess.run(run, capture_output=True, text=True, check=True).stdout.strip() for _ in range(2)]
    assert found == ["True", "False"]
