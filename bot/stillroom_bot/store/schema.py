"""One set of metadata for all tables, and the version that a database carries.

Constraints are named by rule, so that a migration can name them too.
"""

from __future__ import annotations

from sqlalchemy import Column, Integer, MetaData, String, Table, insert, select
from sqlalchemy.exc import SQLAlchemyError
from sqlalchemy.ext.asyncio import AsyncEngine

from .engine import StoreError, reading

VERSION = 1
metadata = MetaData(naming_convention={
    "ix": "ix_%(table_name)s_%(column_0_N_name)s", "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s", "pk": "pk_%(table_name)s",
})
schema = Table("stillroom_schema", metadata, Column("id", Integer, primary_key=True, autoincrement=False),
               Column("version", Integer, nullable=False), Column("made_by", String, nullable=False))
_its_version = select(schema.c.version).where(schema.c.id == 1)


async def prepare(engine: AsyncEngine) -> None:
    """Make the tables of a new database; accept one of this version.

    Raises StoreError for a later version, a damaged file, or a database that cannot be reached.
    """
    try:
        found = await _version(engine)
        if found is None:
            found = await _make(engine)
    except (SQLAlchemyError, OSError) as e:
        cause = getattr(e, "orig", None) or e
        raise StoreError(f"The database cannot be opened ({type(cause).__name__}: {cause}).") from None
    if found > VERSION:
        raise StoreError(f"The database was written by a later Stillroom (its schema is version {found}, "
                         f"this one knows {VERSION}): upgrade Stillroom, or name another database.")


async def _version(engine: AsyncEngine) -> int | None:
    async with reading(engine) as connection:
        if not await connection.run_sync(lambda c: engine.dialect.has_table(c, schema.name)):
            return None
        found: int | None = (await connection.execute(_its_version)).scalar_one_or_none()
        return found


async def _make(engine: AsyncEngine) -> int:
    async with engine.begin() as connection:
        await connection.run_sync(metadata.create_all)
        found: int | None = (await connection.execute(_its_version)).scalar_one_or_none()
        if found is None:
            await connection.execute(insert(schema).values(id=1, version=VERSION, made_by="stillroom"))
        return found or VERSION
