"""A process that answers one message after another, and ends when its parent does, or when one takes too long."""

from __future__ import annotations

import faulthandler
import json
import os
import resource
import socket
import struct
import sys
from contextlib import suppress
from typing import Any

from ..board.book import Book
from ..state import State
from ..talker import Talker, screened, working
from . import wire
from .examples import examples_of

MEMORY = 4 << 30
"""Bytes of address space: what is mapped counts, so this is far above what is used."""
HEAD = struct.Struct("!I")
WRITER = json.JSONEncoder(ensure_ascii=False)
BOOKS = 64


class Desk:
    """The conversation, and the books that came with earlier messages."""

    def __init__(self, talker: Talker) -> None:
        self.talker = talker
        self.books: dict[str, Book] = {}

    def do(self, asked: dict[str, Any]) -> dict[str, Any]:
        """Answer one request.  Raises what the conversation raises."""
        state = wire.state_of_plain(asked)
        book = self._book(asked)
        if book is None:
            return {"book": "unknown"}
        state = state.but(book=book)
        if asked["do"] == "why":
            return {"why": working(self.talker, asked["text"], state)}
        reply, after = screened(self.talker, asked["text"], state)
        if not isinstance(after, State):
            raise wire.Nonsense
        changed = None if after.book == book else after.book.to_json()
        return {"reply": wire.reply_to_plain(reply), **wire.state_to_plain(after), "changed": changed}

    def _book(self, asked: dict[str, Any]) -> Book | None:
        """The book of the message: empty, or one that came before, or one that comes with it."""
        mark = asked["mark"]
        if not mark:
            return Book()
        if asked.get("book") is not None:
            while len(self.books) >= BOOKS:
                self.books.pop(next(iter(self.books)))
            self.books[mark] = Book.from_json(asked["book"])
        return self.books.get(mark)


def serve(talker: Talker, line: socket.socket, limit: float) -> None:
    """Answer what comes over a line until it ends.  A message that takes ``limit`` seconds ends the process."""
    with suppress(ValueError, OSError):
        resource.setrlimit(resource.RLIMIT_AS, (MEMORY, resource.getrlimit(resource.RLIMIT_AS)[1]))
    desk = Desk(talker)
    send(line, {"pid": os.getpid(), "examples": examples_of(talker)})
    while (asked := receive(line)) is not None:
        faulthandler.dump_traceback_later(limit, exit=True, file=sys.__stderr__ or 2)
        try:
            told = written(desk.do(asked))
        except Exception as e:
            from ..telegram.errors import place_of

            told = written({"error": type(e).__name__, "place": place_of(e)})
        faulthandler.cancel_dump_traceback_later()
        line.sendall(told)


def send(line: socket.socket, told: dict[str, Any]) -> None:
    """One message."""
    line.sendall(written(told))


def written(told: dict[str, Any]) -> bytes:
    """A message as it goes over a line: its length, then JSON."""
    body = WRITER.encode(told).encode()
    return HEAD.pack(len(body)) + body


def receive(line: socket.socket) -> dict[str, Any] | None:
    """The next message, None at the end of the line."""
    head = _exactly(line, HEAD.size)
    body = head and _exactly(line, HEAD.unpack(head)[0])
    found: dict[str, Any] | None = json.loads(body) if body else None
    return found


def _exactly(line: socket.socket, size: int) -> bytes:
    made = bytearray()
    while len(made) < size:
        part = line.recv(size - len(made))
        if not part:
            return b""
        made += part
    return bytes(made)
