"""Telegram's limits kept: so many messages a second in all, a chat's own pace, and patience where it is asked for.

A message waits for its own chat first and takes a place among all only when it may go, so that a group
that has used up its minute holds up nobody.  ``retry_after`` stops the chat that it was said to.
"""

from __future__ import annotations

import asyncio
import datetime as dt
import time
from collections import OrderedDict, deque
from collections.abc import Callable, Coroutine
from typing import Any

from telegram.error import RetryAfter
from telegram.ext import BaseRateLimiter

OVERALL = 30.0
"""Messages a second over all chats (core.telegram.org/bots/faq, "My bot is hitting limits")."""
PRIVATE = (3, 3.0)
"""Messages, and the seconds in which a chat may have no more.  The same page says one a second, and that short
bursts above it are tolerated; how short is not published."""
GROUP = (20, 60.5)
"""The same page: 20 messages a minute in a group.  Half a second for the way."""
SECOND = 1.05
COUNTED = ("send", "edit", "copy", "forward")
FREE = frozenset({"sendChatAction"})
IN_MEMORY = 20_000


class Window:
    """At most ``most`` in any ``seconds``.  It gives out times, so that those who wait need no queue."""

    __slots__ = ("given", "most", "seconds", "stopped")

    def __init__(self, most: int, seconds: float):
        self.most, self.seconds = most, seconds
        self.given: deque[float] = deque(maxlen=most)
        self.stopped = 0.0

    def wait(self, now: float) -> float:
        """Take the next place, and return the seconds until it comes."""
        at = max(now, self.stopped)
        if len(self.given) == self.most:
            at = max(at, self.given[0] + self.seconds)
        self.given.append(at)
        return at - now

    def stop(self, until: float) -> None:
        """Give no place before ``until``."""
        self.stopped = max(self.stopped, until)

    def resize(self, most: int) -> None:
        """Another number from now on."""
        if most != self.most:
            self.most, self.given = most, deque(self.given, maxlen=most)


class ChatLimiter(BaseRateLimiter[None]):
    """``overall`` messages a second for this process; 0 sets no limits at all.

    ``share`` is set by whoever knows how many processes there are.
    """

    def __init__(self, overall: float = OVERALL):
        self.overall, self.share = overall, 1.0
        self.waited = 0
        self._all = Window(max(1, int(overall)), SECOND)
        self._chats: OrderedDict[object, Window] = OrderedDict()

    async def initialize(self) -> None:
        """Nothing to begin."""

    async def shutdown(self) -> None:
        """Nothing to end."""

    async def process_request(self, callback: Callable[..., Coroutine[Any, Any, Any]], args: Any,
                              kwargs: dict[str, Any], endpoint: str, data: dict[str, Any],
                              rate_limit_args: None) -> Any:
        """Call when it is the chat's turn.  What the call raises is raised; a flood stops its chat first."""
        chat = data.get("chat_id")
        if self.overall and chat is not None and endpoint.startswith(COUNTED) and endpoint not in FREE:
            await self._turn(chat)
        try:
            return await callback(*args, **kwargs)
        except RetryAfter as e:
            if chat is not None:
                self._chat(chat).stop(time.monotonic() + seconds_of(e))
            raise

    async def _turn(self, chat: object) -> None:
        pause = self._chat(chat).wait(time.monotonic())
        if pause > 0:
            self.waited += 1
            await asyncio.sleep(pause)
        self._all.resize(max(1, int(self.overall * self.share)))
        pause = self._all.wait(time.monotonic())
        if pause > 0:
            await asyncio.sleep(pause)

    def _chat(self, chat: object) -> Window:
        window = self._chats.get(chat)
        if window is None:
            group = (isinstance(chat, int) and chat < 0) or (isinstance(chat, str) and chat.startswith(("-", "@")))
            window = self._chats[chat] = Window(*(GROUP if group else PRIVATE))
            while len(self._chats) > IN_MEMORY:
                self._chats.popitem(last=False)
        else:
            self._chats.move_to_end(chat)
        return window


def seconds_of(flood: RetryAfter) -> float:
    """How long Telegram asks to wait."""
    after = flood.retry_after
    return after.total_seconds() if isinstance(after, dt.timedelta) else float(after)
