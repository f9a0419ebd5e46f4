"""The work handed out to children of the nursery, and what happens when one of them does not come back."""

from __future__ import annotations

import asyncio
import json
import logging
import os
import secrets
import signal
import socket
from contextlib import suppress
from dataclasses import dataclass, field
from typing import Any

from ..board.book import Book
from ..reply import Reply
from ..state import State
from . import Overdue, begun, wire
from .child import HEAD

log = logging.getLogger("stillroom_bot.reckoning")
GRACE = 1.0
"""Seconds after its limit in which a child may end by itself."""


class Tripped(Exception):
    """The conversation raised; ``place`` says where, without values."""

    def __init__(self, kind: str, place: str):
        super().__init__(kind)
        self.kind, self.place = kind, place


@dataclass(eq=False)
class Child:
    """A process and the line to it; ``books`` are the marks of those that it has been sent."""

    pid: int
    reader: asyncio.StreamReader
    writer: asyncio.StreamWriter
    books: set[str] = field(default_factory=set)

    async def ask(self, asked: dict[str, Any]) -> dict[str, Any]:
        """One message and its answer.  Raises EOFError or OSError when the process has ended."""
        body = json.dumps(asked, ensure_ascii=False).encode()
        self.writer.write(HEAD.pack(len(body)) + body)
        await self.writer.drain()
        return await self.hear()

    async def hear(self) -> dict[str, Any]:
        """What it says next."""
        size = HEAD.unpack(await self.reader.readexactly(HEAD.size))[0]
        told: dict[str, Any] = json.loads(await self.reader.readexactly(size))
        return told

    def end(self) -> None:
        """End it, whatever it is doing."""
        with suppress(ProcessLookupError):
            os.kill(self.pid, signal.SIGKILL)
        self.writer.close()


class Processes:
    """``count`` children; a message that takes longer than ``limit`` seconds ends its child and raises Overdue."""

    def __init__(self, nursery: socket.socket, count: int, limit: float):
        self._nursery, self._count, self._limit = nursery, count, limit
        self._idle: asyncio.Queue[Child] = asyncio.Queue()
        self._all: set[Child] = set()
        self.examples: tuple[tuple[str, str], ...] = ()
        self.ended = 0

    async def __aenter__(self) -> Processes:
        for _ in range(self._count):
            await self._another()
        return self

    async def __aexit__(self, *_: object) -> None:
        for child in self._all:
            child.end()
        self._nursery.close()

    async def answer(self, text: str, state: State) -> tuple[Reply, State]:
        """The reply and the next state.  Raises Overdue or Tripped."""
        told = await self._ask("answer", text, state)
        after = wire.state_of_plain(told)
        changed = told["changed"]
        return wire.reply_of_plain(told["reply"]), after.but(
            book=state.book if changed is None else Book.from_json(changed))

    async def why(self, text: str, state: State) -> str:
        """How a message was read.  Raises Overdue or Tripped."""
        return str((await self._ask("why", text, state))["why"])

    async def _ask(self, do: str, text: str, state: State) -> dict[str, Any]:
        child = await self._idle.get()
        begun()
        mark = _mark(state.book)
        asked = {"do": do, "text": text, "mark": mark, **wire.state_to_plain(state)}
        try:
            async with asyncio.timeout(self._limit + GRACE):
                told = await child.ask(asked if not mark or mark in child.books else
                                       {**asked, "book": state.book.to_json()})
                if told.get("book") == "unknown":
                    told = await child.ask({**asked, "book": state.book.to_json()})
        except (TimeoutError, EOFError, OSError, ValueError):
            self.ended += 1
            log.error("a message took longer than %g s or ended its process (%d), which was replaced; "
                      "standard error says where it was", self._limit, child.pid)
            self._drop(child)
            await self._another()
            raise Overdue from None
        except BaseException:
            self._drop(child)
            await asyncio.shield(self._another())
            raise
        if mark:
            child.books.add(mark)
        self._idle.put_nowait(child)
        if "error" in told:
            raise Tripped(told["error"], told["place"])
        return told

    def _drop(self, child: Child) -> None:
        self._all.discard(child)
        child.end()

    async def _another(self) -> None:
        ours, theirs = socket.socketpair()
        ours.setblocking(False)
        try:
            socket.send_fds(self._nursery, [b"+"], [theirs.fileno()])
        except OSError:
            raise RuntimeError("the nursery has ended") from None
        finally:
            theirs.close()
        reader, writer = await asyncio.open_connection(sock=ours)
        child = Child(0, reader, writer)
        hello = await child.hear()
        child.pid, self.examples = hello["pid"], tuple((a, b) for a, b in hello["examples"])
        self._all.add(child)
        self._idle.put_nowait(child)


def _mark(book: Book) -> str:
    """A name for a book as it is now: it never changes, so the object may bear it."""
    return str(vars(book).setdefault("_mark", secrets.token_hex(8))) if book.versions else ""
