"""Who may ask, how often, and who may change what a group keeps."""

from __future__ import annotations

import time
from collections import OrderedDict
from dataclasses import dataclass, field

from telegram import Bot, Message, Update
from telegram.constants import ChatMemberStatus, ChatType
from telegram.error import TelegramError

from .limiter import Window

IN_MEMORY = 20_000
A_MINUTE = 60.0
FORWARDED = "a forwarded message is a question, and never an order."
ADMINS_ONLY = "in this group only its administrators change what is kept."
ADMINS = (ChatMemberStatus.ADMINISTRATOR, ChatMemberStatus.OWNER)


@dataclass
class Guests:
    """``allowed`` are numbers of chats and users (none: everybody); ``a_minute`` is how often a user may ask (0: as
    often as they like); ``admins`` whether only administrators change a group's settings and book."""

    allowed: frozenset[int] = frozenset()
    a_minute: int = 30
    admins: bool = False
    _asked: OrderedDict[int, tuple[Window, list[float]]] = field(default_factory=OrderedDict)

    def invited(self, update: Update) -> bool:
        """Is the user, or the chat, on the list?"""
        user, chat = update.effective_user, update.effective_chat
        return not self.allowed or any(x is not None and x.id in self.allowed for x in (user, chat))

    def patience(self, update: Update) -> str:
        """``ok``; ``told`` the first time in a minute that it is too often; ``silent`` after that."""
        if not self.a_minute or update.effective_user is None:
            return "ok"
        now, id = time.monotonic(), update.effective_user.id
        window, told = self._asked.pop(id, (Window(self.a_minute, A_MINUTE), [0.0]))
        self._asked[id] = (window, told)
        while len(self._asked) > IN_MEMORY:
            self._asked.popitem(last=False)
        if len(window.given) < window.most or now - window.given[0] >= window.seconds:
            window.given.append(now)
            return "ok"
        first, told[0] = now - told[0] >= A_MINUTE or not told[0], now
        return "told" if first else "silent"

    async def refusal(self, bot: Bot, message: Message, user: int) -> str:
        """Why a message may not change what its chat keeps; empty where it may."""
        if message.forward_origin is not None:
            return FORWARDED
        if not self.admins or message.chat.type == ChatType.PRIVATE:
            return ""
        if message.sender_chat is not None and message.sender_chat.id == message.chat.id:
            return ""
        try:
            status = (await bot.get_chat_member(message.chat.id, user)).status
        except TelegramError:
            return ADMINS_ONLY
        return "" if status in ADMINS else ADMINS_ONLY
