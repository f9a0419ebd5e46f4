"""``stillroom book``: the terminal chat's specs out to a file, and in from one."""

from __future__ import annotations

import asyncio
import json
from pathlib import Path

from stillroom import Kernel

from ..board.book import Book
from ..board.desk import tools_of
from ..board.files import LARGEST, BadFile, plain, read_file
from ..board.schema import book_json
from ..places import Unavailable, database_url
from ..reading.reader import Reader
from ..refusing import refusals_of
from ..settings import sizes_of
from ..state import Here, State
from ..store import open_store
from .kept import KEY


def export_book(kernel: Kernel, file: str, chat: str = KEY) -> tuple[int, str]:
    """Write a chat's book to a new file (``-``: standard output), JSON if it is named so, else plain text.

    Returns the exit status and what to print.  Raises Unavailable or OSError.
    """
    book = asyncio.run(book_of(database_url(), chat))
    as_json = file.lower().endswith(".json")
    text = json.dumps(book_json(book), ensure_ascii=False, indent=1) + "\n" if as_json else plain(book, kernel.units)
    if file == "-":
        return 0, text.rstrip("\n")
    try:
        with open(file, "x", encoding="utf-8") as out:
            out.write(text)
    except FileExistsError:
        raise Unavailable(f"{file} is there already: name a new file.") from None
    return 0, f"{len(book.specs)} specs are in {file}."


def import_book(kernel: Kernel, file: str, chat: str = KEY) -> tuple[int, str]:
    """Keep the specs of a file in a chat's book, all or none; exit status 2 where it is refused.

    Raises Unavailable or OSError.
    """
    if Path(file).stat().st_size > LARGEST:
        return 2, f"Nothing is imported: {file} is longer than {LARGEST} bytes."
    try:
        text = Path(file).read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError:
        return 2, f"Nothing is imported: {file} is no UTF-8 text."
    return asyncio.run(_import(kernel, file, text, chat))


async def book_of(url: str, chat: str) -> Book:
    """The book of a chat in a database.  Raises Unavailable."""
    async with open_store(url) as store:
        return (await store.books.get(chat)).book


async def _import(kernel: Kernel, file: str, text: str, chat: str) -> tuple[int, str]:
    here = Here()
    reader = Reader(kernel)
    tools = tools_of(kernel, reader, here.at, refusals_of(kernel, reader))
    async with open_store(database_url()) as store:
        kept = await store.books.get(chat)
        state = State.from_json((await store.chats.get(chat)).data)
        units = kernel.units.adjusted(sizes_of(state.settings))
        try:
            specs = read_file(text, tools.drafting, units, kept.book, refuse=tools.refuse)
        except BadFile as e:
            return 2, "\n".join(["Nothing is imported:", *(f"{file}:{p.line}: {p.text}" for p in e.problems)])
        book = kept.book
        for spec in specs:
            old = book.named(spec.name)
            if old is None or not old.says_as(spec):
                book = book.put(spec.but(id=old.id if old else 0), "", here.stamp(), "imported")
        count = len(book.versions) - len(kept.book.versions)
        if count and await store.books.put(chat, book, kept) is None:
            raise Unavailable("Somebody else changed the book in the meantime: nothing is imported, try again.")
    return 0, f"Imported {count} of {len(specs)} specs; the others are kept already, just so." if count < len(specs) \
        else f"Imported {count} specs."
