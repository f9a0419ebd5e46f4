"""Delivery to a webhook: one queue per chat (or per person for queries), the next only after a 2xx."""

from __future__ import annotations

import asyncio
import json
import re
import time
from collections import deque
from collections.abc import Awaitable, Callable
from dataclasses import dataclass
from urllib.parse import urlsplit

import aiohttp

from .errors import bad
from .faults import Faults
from .params import Json
from .pending import Entry, Pending

_SECRET = re.compile(r"[A-Za-z0-9_-]{1,256}\Z")
_LOOPBACK = frozenset({"127.0.0.1", "localhost", "::1"})
HEADER = "X-Telegram-Bot-Api-Secret-Token"

Answer = Callable[[Json], Awaitable[None]]


@dataclass(frozen=True)
class Delivery:
    """One attempt. `status` is the bot's HTTP status, or 0 when there was no answer."""

    update_id: int
    attempt: int
    status: int
    at: float
    arrived: bool


@dataclass
class Timing:
    """Seconds. The published server waits 60 for an answer and 1, 2, 4 .. 60 between attempts."""

    answer: float = 5.0
    first_retry: float = 0.02
    longest_retry: float = 0.2


class Webhook:
    """The webhook of one bot; idle until `use` is called with an address."""

    def __init__(self, pending: Pending, faults: Faults, answer: Answer) -> None:
        self.url = ""
        self.timing = Timing()
        self.deliveries: list[Delivery] = []
        self.max_connections = 40
        self.last_error: tuple[int, str] | None = None
        self._secret = ""
        self._pending = pending
        self._faults = faults
        self._answer = answer
        self._session: aiohttp.ClientSession | None = None
        self._slots = asyncio.Semaphore(self.max_connections)
        self._lanes: dict[str, deque[Entry]] = {}
        self._tasks: set[asyncio.Task[None]] = set()

    @staticmethod
    def check(url: str, secret: str) -> None:
        """Raise 400 for an address or secret that the server refuses.

        Plain http, which the hosted server refuses everywhere, is taken here on the loopback address.
        """
        parts = urlsplit(url)
        if parts.scheme != "https" and parts.hostname not in _LOOPBACK:
            raise bad("bad webhook: An HTTPS URL must be provided for webhook")
        if secret and not _SECRET.match(secret):
            long = len(secret) > 256
            raise bad(f"secret token {'is too long' if long else 'contains unallowed characters'}")

    async def use(self, url: str, secret: str, max_connections: int) -> None:
        """Start to deliver, beginning with what already waits."""
        await self.stop()
        self.url, self._secret = url, secret
        self.max_connections = min(100, max(1, max_connections or 40))
        self._slots = asyncio.Semaphore(self.max_connections)
        self._session = aiohttp.ClientSession(timeout=aiohttp.ClientTimeout(total=self.timing.answer))
        self._pending.on_entry = self._accept
        for entry in list(self._pending.entries):
            self._accept(entry)

    async def stop(self) -> None:
        """Stop delivering; what did not arrive keeps waiting."""
        self.url = ""
        self._pending.on_entry = None
        others = [task for task in self._tasks if task is not asyncio.current_task()]
        for task in others:
            task.cancel()
        await asyncio.gather(*others, return_exceptions=True)
        self._tasks.clear()
        self._lanes.clear()
        if self._session:
            await self._session.close()
            self._session = None

    def _accept(self, entry: Entry) -> None:
        lane = self._lanes.setdefault(entry.lane, deque())
        lane.append(entry)
        if len(lane) == 1:
            task = asyncio.create_task(self._run(lane))
            self._tasks.add(task)
            task.add_done_callback(self._tasks.discard)

    async def _run(self, lane: deque[Entry]) -> None:
        while lane:
            attempt = 1
            while (wait := await self._attempt(lane[0], attempt)) is not None:
                await asyncio.sleep(wait)
                attempt += 1
            self._pending.discard(lane.popleft())

    async def _attempt(self, entry: Entry, attempt: int) -> float | None:
        """Post once. Return `None` when it arrived, else the seconds to wait before the next attempt."""
        wait = min(self.timing.longest_retry, self.timing.first_retry * 2.0 ** (attempt - 1))
        async with self._slots:
            status, body, asked = await self._post(entry)
        arrived = 200 <= status < 300 and not self._faults.take_lost_ack()
        self.deliveries.append(Delivery(entry.number, attempt, status, time.monotonic(), arrived))
        if not arrived:
            reason = f"Wrong response from the webhook: {status}" if status else "Connection failed"
            self.last_error = (int(time.time()), reason)
            return max(wait, float(asked)) if asked and asked.isdecimal() else wait
        if body:
            await self._answer(body)
        return None

    async def _post(self, entry: Entry) -> tuple[int, Json, str | None]:
        headers = {"Content-Type": "application/json"} | ({HEADER: self._secret} if self._secret else {})
        assert self._session is not None
        try:
            async with self._session.post(
                self.url, data=json.dumps(entry.update), headers=headers, allow_redirects=False
            ) as response:
                raw = await response.read()
                return response.status, _method_call(raw), response.headers.get("Retry-After")
        except (aiohttp.ClientError, TimeoutError):
            return 0, {}, None


def _method_call(raw: bytes) -> Json:
    """The method that a bot may put into its answer to a delivery, or nothing."""
    try:
        body = json.loads(raw)
    except ValueError:
        return {}
    return body if isinstance(body, dict) and "method" in body else {}
