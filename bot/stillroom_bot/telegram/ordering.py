"""The updates of one chat in their order, without holding up other chats."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Coroutine
from typing import Any

from telegram import Update
from telegram.ext import BaseUpdateProcessor

WAITING = 10_000
WORKING = 64
A_CHAT = 40
"""Updates of one chat that are held in memory; what comes beyond is left in the inbox until its turn comes."""

Refill = Callable[[str, int], Awaitable[tuple[int, bool]]]
"""Bring in again what a line's chat sent after a number; gives the newest that was brought, and if there is more."""


class Line:
    """One chat's updates: those that wait for the lock, and what is known of those that were left in the inbox."""

    __slots__ = ("admitted", "behind", "left", "lock", "newest", "queued")

    def __init__(self) -> None:
        self.lock = asyncio.Lock()
        self.queued = self.newest = self.admitted = self.left = 0
        self.behind = False

    def full(self, number: int) -> bool:
        """Is an update to be left behind, because there are many or because earlier ones were?"""
        return number > self.admitted and (self.behind or self.queued >= A_CHAT)


class ChatOrder(BaseUpdateProcessor):
    """Lets ``WORKING`` chats be served at a time, and of each chat one update.

    The framework counts an update from its arrival, so that limit is wide (``WAITING``); those at work are
    counted after their turn has come, and a chat that sends a hundred messages takes one place.  Where there
    is an inbox, what a chat sent beyond ``A_CHAT`` stays there until ``refill`` brings it in; ``on_left`` is told.
    """

    __slots__ = ("_lines", "_places", "_tasks", "closing", "held", "on_left", "refill")

    def __init__(self, refill: Refill | None = None) -> None:
        super().__init__(WAITING)
        self.refill = refill
        self.on_left: Callable[[int], object] | None = None
        self.closing = False
        self.held = 0
        self._lines: dict[str, Line] = {}
        self._places = asyncio.Semaphore(WORKING)
        self._tasks: set[asyncio.Task[Any]] = set()

    async def do_process_update(self, update: object, coroutine: Awaitable[Any]) -> None:
        """Wait for the chat's earlier updates, then process this one."""
        number = update.update_id if isinstance(update, Update) else 0
        key = line_of(update) or f"update:{number or id(update)}"
        line = self._lines.setdefault(key, Line())
        if self.closing or (self.refill is not None and line.full(number)):
            line.behind = True
            line.left += 1
            _leave(coroutine)
            if self.on_left is not None:
                self.on_left(number)
            return
        line.queued += 1
        self.held += 1
        line.newest = max(line.newest, number)
        try:
            async with line.lock, self._places:
                if self.closing:
                    _leave(coroutine)
                else:
                    await self._at_work(coroutine)
        finally:
            line.queued -= 1
            self.held -= 1
            await self._after(key, line)

    async def _after(self, key: str, line: Line) -> None:
        """When a line is empty, forget it, or go on with what was left behind."""
        while line.queued == 0 and line.behind and self.refill is not None and not self.closing:
            left = line.left
            newest, more = await self.refill(key, line.newest)
            line.admitted = max(line.admitted, newest)
            line.behind = more or line.left != left
            if newest:
                return
        if line.queued == 0 and self._lines.get(key) is line:
            del self._lines[key]

    async def _at_work(self, coroutine: Awaitable[Any]) -> None:
        task = asyncio.ensure_future(coroutine)
        self._tasks.add(task)
        try:
            await task
        except asyncio.CancelledError:
            if not self.closing:
                task.cancel()
                raise
        finally:
            self._tasks.discard(task)

    async def close(self, seconds: float) -> int:
        """Begin nothing new, give what is at work ``seconds`` to end, then stop it; returns how many were stopped."""
        self.closing = True
        if not self._tasks:
            return 0
        _, late = await asyncio.wait(set(self._tasks), timeout=seconds)
        for task in late:
            task.cancel()
        return len(late)

    @property
    def lines(self) -> int:
        """Chats that have an update waiting or at work."""
        return len(self._lines)

    async def initialize(self) -> None:
        """Nothing to begin."""

    async def shutdown(self) -> None:
        """Nothing to end."""


def line_of(update: object) -> str:
    """The chat of an update, else its user; empty for an update of neither."""
    if not isinstance(update, Update):
        return ""
    if update.effective_chat is not None:
        return f"chat:{update.effective_chat.id}"
    return f"user:{update.effective_user.id}" if update.effective_user else ""


def _leave(coroutine: Awaitable[Any]) -> None:
    if isinstance(coroutine, Coroutine):
        coroutine.close()
