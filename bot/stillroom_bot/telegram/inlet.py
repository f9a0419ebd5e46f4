"""What Telegram hands over, put into the inbox before Telegram may forget it.

While polling, this stands in the place of the library's own client for getUpdates: a batch is written to
the store in one transaction and handed over, and only when that transaction is on the disk the library
sees that it came, and moves the offset.
"""

from __future__ import annotations

import asyncio
import json
import logging
from collections.abc import Sequence
from typing import Any

from sqlalchemy.exc import SQLAlchemyError
from telegram import Update
from telegram.error import NetworkError
from telegram.ext import Application
from telegram.request import RequestData

from ..store.inbox import Inbox, Letter
from . import metrics
from .clerk import Clerk
from .client import Client
from .desk import chat_key
from .ordering import A_CHAT, ChatOrder, line_of
from .patience import patiently

HELD = 2_000
"""While so many updates are in memory, no more are fetched: Telegram keeps them for a day."""
log = logging.getLogger("stillroom_bot.telegram")


class Inlet(Client):
    """Fetches updates, keeps them, and hands those that are new to the application."""

    def __init__(self, inbox: Inbox, order: ChatOrder):
        super().__init__(connections=1)
        self.inbox, self.order = inbox, order
        self._application: Application[Any, Any, Any, Any, Any, Any] | None = None
        self._clerk: Clerk | None = None
        self._unsure = False
        """Whether the last batch may have been kept although that failed: a line can break after a commit."""

    async def open(self, application: Application[Any, Any, Any, Any, Any, Any], clerk: Clerk) -> None:
        """Begin with what an earlier process left unanswered."""
        self._application, self._clerk = application, clerk
        self.order.refill = self.refill
        self.order.on_left = lambda number: clerk.open.pop(number, None)
        bot = application.bot.id
        await self.inbox.tried(bot)
        after = 0
        while letters := await self.inbox.waiting(bot, after):
            after = letters[-1].number
            self._hand_over([(x, update_of(x.body, application.bot)) for x in letters])

    async def do_request(self, url: str, method: str, request_data: RequestData | None = None,
                         *timeouts: Any, **more: Any) -> tuple[int, bytes]:
        """getUpdates, whose answer names no more than the last update: the others are in the inbox."""
        while self.order.held >= HELD:
            await asyncio.sleep(0.05)
        status, body = await super().do_request(url, method, request_data, *timeouts, **more)
        if status != 200 or self._application is None:
            return status, body
        try:
            updates = json.loads(body)["result"]
            numbered = sorted((u for u in updates if isinstance(u, dict) and isinstance(u.get("update_id"), int)),
                              key=lambda u: u["update_id"])
        except (ValueError, KeyError, TypeError):
            return status, body
        if not numbered:
            return status, body
        await self._keep(numbered)
        return status, json.dumps({"ok": True, "result": [{"update_id": numbered[-1]["update_id"]}]}).encode()

    async def refill(self, line: str, after: int) -> tuple[int, bool]:
        """As ``ordering.Refill``."""
        assert self._application is not None
        bot = self._application.bot.id
        letters = await patiently(lambda: self.inbox.waiting(bot, after, line, A_CHAT))
        self._hand_over([(x, update_of(x.body, self._application.bot)) for x in letters])
        return (letters[-1].number, len(letters) == A_CHAT) if letters else (0, False)

    async def _keep(self, updates: Sequence[dict[str, Any]]) -> None:
        assert self._application is not None
        bot = self._application.bot
        read = [letter_of(u, bot) for u in {u["update_id"]: u for u in updates}.values()]
        metrics.updates.inc(len(updates))
        try:
            new = await self.inbox.keep(bot.id, [x for x, _ in read])
            kept = await self.inbox.waiting(bot.id, read[0][0].number - 1) if self._unsure else []
        except (SQLAlchemyError, OSError) as e:
            self._unsure = True
            log.error("the inbox cannot be written (%s); nothing is lost, Telegram keeps it", type(e).__name__)
            raise NetworkError("the inbox cannot be written") from None
        metrics.repeated.inc(len(updates) - len(new))
        self._hand_over([(x, update) for x, update in read if x.number in new])
        self._hand_over([(x, update_of(x.body, bot)) for x in kept])
        self._unsure = False
        try:
            await self.inbox.database.settle()
        except OSError as e:
            log.error("the inbox is not on the disk (%s); nothing is lost, Telegram keeps it", type(e).__name__)
            raise NetworkError("the inbox is not on the disk") from None

    def _hand_over(self, letters: Sequence[tuple[Letter, Update]]) -> None:
        assert self._application is not None and self._clerk is not None
        for letter, update in letters:
            if letter.number not in self._clerk.open:
                self._clerk.open[letter.number] = (letter, update)
                self._application.update_queue.put_nowait(update)


def letter_of(raw: dict[str, Any], bot: Any) -> tuple[Letter, Update]:
    """An update as it is kept, and as it is read; one that makes no sense is read as its number alone."""
    update = _read(raw, bot)
    message = update.effective_message
    user = update.effective_user
    chat = chat_key(message) if message else f"telegram:{user.id}" if user else ""
    return Letter(update.update_id, line_of(update), chat, json.dumps(raw, ensure_ascii=False)), update


def update_of(body: str, bot: Any) -> Update:
    """The update of a letter."""
    return _read(json.loads(body), bot)


def _read(raw: dict[str, Any], bot: Any) -> Update:
    try:
        return Update.de_json(raw, bot)
    except Exception as e:
        log.warning("update %d cannot be read (%s)", raw["update_id"], type(e).__name__)
        return Update(raw["update_id"])
