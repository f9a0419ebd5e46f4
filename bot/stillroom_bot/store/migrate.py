"""A database is brought up to date when it is opened: by Alembic, in one transaction or not at all.

A migration is a file ``migrations/versions/NNNN_what.py`` with ``revision = "NNNN"`` and the one before
it as ``down_revision``.  Databases only go forward.  Alembic is imported where there is something to do.
"""

from __future__ import annotations

from pathlib import Path

from sqlalchemy import Column, Connection, MetaData, String, Table, select, text
from sqlalchemy.exc import SQLAlchemyError

from .engine import Database, StoreError
from .schema import before_migrations

SCRIPTS = Path(__file__).parent / "migrations"
KNOWN = tuple(sorted(path.name[:4] for path in (SCRIPTS / "versions").glob("[0-9]*.py")))
"""The numbers of all migrations, the newest last."""
FIRST, HEAD = KNOWN[0], KNOWN[-1]
VERSION_TABLE = "alembic_version"
LOCK = 0x57111
"""The advisory lock that a migration holds in PostgreSQL: any number that all Stillrooms agree on."""
versions = Table(VERSION_TABLE, MetaData(), Column("version_num", String(32)))


async def prepare(database: Database) -> None:
    """Make the tables of a new database, upgrade an older one, accept one of today's.

    Raises StoreError for a later version, a damaged file, or a database that cannot be reached.
    """
    try:
        found = await database.read(version_of)
        if found == HEAD:
            return
        _refuse_later(found)
        await database.write(upgrade)
    except (SQLAlchemyError, OSError) as e:
        cause = getattr(e, "orig", None) or e
        told = " ".join(str(cause).split())
        raise StoreError(f"The database cannot be opened ({type(cause).__name__}: {told}).") from None


def version_of(connection: Connection) -> str | None:
    """The number of the last migration that a database had, None for an empty database.

    Raises StoreError for one that was never numbered and is not the very first.
    """
    has = connection.dialect.has_table
    if has(connection, VERSION_TABLE):
        found = connection.execute(select(versions.c.version_num)).scalar_one_or_none()
        return None if found is None else str(found)
    if not has(connection, before_migrations.name):
        return None
    version = connection.execute(select(before_migrations.c.version)).scalar_one_or_none()
    if version is not None and version > 1:
        _refuse_later(str(version))
    return None if version is None else FIRST


def upgrade(connection: Connection, to: str = "head") -> None:
    """Run what is left of the migrations, within the transaction that is open."""
    from alembic import command
    from alembic.config import Config

    if connection.dialect.name == "postgresql":
        connection.execute(text("SELECT pg_advisory_xact_lock(:lock)"), {"lock": LOCK})
    found = version_of(connection)
    _refuse_later(found)
    config = Config(attributes={"connection": connection})
    config.set_main_option("script_location", SCRIPTS.as_posix().replace("%", "%%"))
    if found == FIRST and not connection.dialect.has_table(connection, VERSION_TABLE):
        command.stamp(config, FIRST)
    command.upgrade(config, to)


def _refuse_later(found: str | None) -> None:
    if found is not None and found not in KNOWN:
        raise StoreError(f"The database was written by a later Stillroom (its schema is version {found}, "
                         f"this one knows {HEAD}): upgrade Stillroom, or name another database.")
