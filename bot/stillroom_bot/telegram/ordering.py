"""The updates of one chat in their order, without holding up other chats."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Hashable
from typing import Any

from telegram import Update
from telegram.ext import BaseUpdateProcessor

WAITING = 10_000
WORKING = 64


class ChatOrder(BaseUpdateProcessor):
    """Lets ``WORKING`` chats be served at a time, and of each chat one update.

    The framework counts an update from its arrival, so that limit is wide (``WAITING``); those at work are
    counted after their turn has come, and a chat that sends a hundred messages takes one place.
    """

    __slots__ = ("_lines", "_places")

    def __init__(self) -> None:
        super().__init__(WAITING)
        self._lines: dict[Hashable, tuple[asyncio.Lock, int]] = {}
        self._places = asyncio.Semaphore(WORKING)

    async def do_process_update(self, update: object, coroutine: Awaitable[Any]) -> None:
        """Wait for the chat's earlier updates, then process this one."""
        key = line_of(update)
        lock, queued = self._lines.get(key, (asyncio.Lock(), 0))
        self._lines[key] = (lock, queued + 1)
        try:
            async with lock, self._places:
                await coroutine
        finally:
            lock, queued = self._lines[key]
            if queued == 1:
                del self._lines[key]
            else:
                self._lines[key] = (lock, queued - 1)

    @property
    def lines(self) -> int:
        """Chats that have an update waiting or at work."""
        return len(self._lines)

    async def initialize(self) -> None:
        """Nothing to begin."""

    async def shutdown(self) -> None:
        """Nothing to end."""


def line_of(update: object) -> Hashable:
    """The chat of an update, else its user; each update of neither is a line of its own."""
    if not isinstance(update, Update):
        return ("other", id(update))
    if update.effective_chat is not None:
        return ("chat", update.effective_chat.id)
    return ("user", update.effective_user.id) if update.effective_user else ("update", update.update_id)
