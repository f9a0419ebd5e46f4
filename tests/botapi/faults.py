"""Faults that a test may ask for, by method or by update.

Faults of a method wait in a queue; the first that fits a call is used up by it. With `after=True` the
method is carried out and only its answer is lost, which is how a bot comes to say a thing twice.
"""

from __future__ import annotations

import asyncio
import time
from collections import deque
from collections.abc import Awaitable, Callable
from contextlib import suppress
from dataclasses import dataclass

from aiohttp import web

from .errors import ApiError, flood
from .params import Params

Respond = Callable[[web.Request, bytes], Awaitable[web.StreamResponse]]

_BAD_GATEWAY = b"<html><head><title>502 Bad Gateway</title></head><body>502 Bad Gateway</body></html>"


@dataclass
class Fault:
    """One failure in waiting. `chat` narrows it to calls with that chat_id."""

    method: str
    times: int
    after: bool
    chat: int | None
    error: ApiError | None = None
    respond: Respond | None = None

    def fits(self, method: str, params: Params) -> bool:
        """Whether this call is the one to fail."""
        named = self.method in {"*", method}
        return named and (self.chat is None or params.values.get("chat_id") == self.chat)


async def _gateway(request: web.Request, body: bytes) -> web.StreamResponse:
    return web.Response(status=502, body=_BAD_GATEWAY, content_type="text/html")


async def _cut(request: web.Request, body: bytes) -> web.StreamResponse:
    if request.transport is not None:
        request.transport.abort()
    return web.Response()


async def _garbled(request: web.Request, body: bytes) -> web.StreamResponse:
    return web.Response(body=body[: max(1, len(body) // 2)], content_type="application/json")


def _dribble(seconds: float, pieces: int = 8) -> Respond:
    async def respond(request: web.Request, body: bytes) -> web.StreamResponse:
        slow = web.StreamResponse(headers={"Content-Type": "application/json"})
        slow.content_length = len(body)
        await slow.prepare(request)
        size = max(1, -(-len(body) // pieces))
        with suppress(ConnectionError):
            for start in range(0, len(body), size):
                await asyncio.sleep(seconds / pieces)
                await slow.write(body[start : start + size])
        return slow

    return respond


class Faults:
    """The faults of one fake server. Method names are the Bot API's, or "*" for every method but getUpdates.

    `times` is how many calls fail; `chat` narrows a fault to one chat_id.
    """

    def __init__(self) -> None:
        self._queue: list[Fault] = []
        self._latency: dict[str, float] = {}
        self._duplicates = 0
        self._unknown = 0
        self._lost_acks = 0
        self._sent: dict[object, deque[float]] | None = None
        self.floods = 0
        self.reversing = 0

    def flood(self, method: str = "*", *, retry_after: int, times: int = 1, chat: int | None = None) -> None:
        """429 with `retry_after` whole seconds."""
        self._queue.append(Fault(method, times, False, chat, error=flood(retry_after)))

    def refuse(
        self, method: str, code: int, description: str, *, times: int = 1, chat: int | None = None
    ) -> None:
        """Any error of the Bot API, with its full sentence."""
        self._queue.append(Fault(method, times, False, chat, error=ApiError(code, description)))

    def bad_gateway(
        self, method: str = "*", *, times: int = 1, after: bool = False, chat: int | None = None
    ) -> None:
        """502 with an HTML page, as a proxy answers."""
        self._queue.append(Fault(method, times, after, chat, respond=_gateway))

    def drop(
        self, method: str = "*", *, times: int = 1, after: bool = False, chat: int | None = None
    ) -> None:
        """The connection is cut without an answer."""
        self._queue.append(Fault(method, times, after, chat, respond=_cut))

    def garble(self, method: str = "*", *, times: int = 1, chat: int | None = None) -> None:
        """The method is carried out, its answer is half a JSON document with status 200."""
        self._queue.append(Fault(method, times, True, chat, respond=_garbled))

    def slow_body(
        self, method: str = "*", *, seconds: float, times: int = 1, chat: int | None = None
    ) -> None:
        """The method is carried out, its answer arrives in eight pieces over `seconds`."""
        self._queue.append(Fault(method, times, True, chat, respond=_dribble(seconds)))

    def limit(self) -> None:
        """From now on keep Telegram's limits: 30 messages a second in all, 20 a minute in a group.

        The published numbers (core.telegram.org/bots/faq, "My bot is hitting limits"); how the server counts is not.
        """
        self._sent = {}

    def over(self, method: str, params: Params) -> Fault | None:
        """429 for a message that is over a limit; nothing otherwise."""
        chat = params.values.get("chat_id")
        if self._sent is None or not method.startswith("send") or method == "sendChatAction":
            return None
        now = time.monotonic()
        group = isinstance(chat, int) and chat < 0
        for key, most, seconds in (("all", 30, 1.0), *(((chat, 20, 60.0),) if group else ())):
            sent = self._sent.setdefault(key, deque())
            while sent and sent[0] <= now - seconds:
                sent.popleft()
            if len(sent) >= most:
                self.floods += 1
                return Fault(method, 1, False, None, error=flood(max(1, int(sent[0] + seconds - now))))
        for key in ("all", *((chat,) if group else ())):
            self._sent[key].append(now)
        return None

    def latency(self, method: str, seconds: float) -> None:
        """From now on every call of the method waits this long before it is carried out; 0 ends it."""
        self._latency[method] = seconds

    def duplicate(self, updates: int = 1) -> None:
        """The next updates are delivered twice under the same number."""
        self._duplicates += updates

    def reverse(self, updates: int) -> None:
        """The next updates are held until all are there, then delivered last first.

        While polling, the batch then ends with the lowest number, so a client that takes its offset from
        the last element gets the others again.
        """
        self.reversing += updates

    def unknown(self, updates: int = 1) -> None:
        """Before each of the next updates, one of a kind that no library knows."""
        self._unknown += updates

    def lose_acks(self, deliveries: int = 1) -> None:
        """The next webhook deliveries count as failed although the bot answered 2xx, and are repeated."""
        self._lost_acks += deliveries

    def clear(self) -> None:
        """Forget every fault that is left. Updates held by `reverse` stay held until its count is reached."""
        self._queue.clear()
        self._latency.clear()
        self._duplicates = self._unknown = self._lost_acks = 0

    @property
    def left(self) -> int:
        """Faults asked for and not yet met, latency aside."""
        waiting = sum(fault.times for fault in self._queue)
        return waiting + self._duplicates + self._unknown + self._lost_acks + self.reversing

    def take(self, method: str, params: Params) -> Fault | None:
        """Use up the first fault that fits this call."""
        for fault in self._queue:
            if fault.fits(method, params) and not (fault.method == "*" and method == "getUpdates"):
                fault.times -= 1
                if fault.times <= 0:
                    self._queue.remove(fault)
                return fault
        return None

    def delay(self, method: str) -> float:
        """Seconds to wait before this method."""
        everywhere = 0.0 if method == "getUpdates" else self._latency.get("*", 0.0)
        return self._latency.get(method, everywhere)

    def take_duplicate(self) -> bool:
        """Whether this update goes out twice."""
        self._duplicates, taken = max(0, self._duplicates - 1), self._duplicates > 0
        return taken

    def take_unknown(self) -> bool:
        """Whether an unknown update goes out first."""
        self._unknown, taken = max(0, self._unknown - 1), self._unknown > 0
        return taken

    def take_reversed(self) -> bool:
        """Whether this update is held for the reversed batch."""
        self.reversing, taken = max(0, self.reversing - 1), self.reversing > 0
        return taken

    def take_lost_ack(self) -> bool:
        """Whether this delivery counts as failed."""
        self._lost_acks, taken = max(0, self._lost_acks - 1), self._lost_acks > 0
        return taken
